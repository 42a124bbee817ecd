"""The one sheet for one or two walkers: days by meals, water and fuel; on the back what to do when
late, and a grid to tick. For larger parties the menu, bags and carriers are sheets of their own."""

from __future__ import annotations

from collections.abc import Mapping

from oatsack.reports.contents import flameless
from oatsack.reports.contents.first_screen import UNCUT, clip, heat_line, open_lines, walk_text
from oatsack.reports.contents.menu import party_meal
from oatsack.reports.contents.plan import late_table
from oatsack.reports.contents.tally import tally_table
from oatsack.reports.contents.town import town_text
from oatsack.reports.document import (
    Block,
    Break,
    Cell,
    Document,
    Facts,
    Heading,
    Para,
    Row,
    Table,
    cell,
    row,
    table,
)
from oatsack.reports.telling import Telling, counted, pieces, portions_at, short_date, together
from oatsack.values.food import MEALS, Food, Meal
from oatsack.values.kitchen import WaterDay
from oatsack.values.menu import Portion
from oatsack.values.route import Day
from oatsack.values.walker import Walker


def document(told: Telling) -> Document:
    """Two sides, landscape."""
    blocks: list[Block] = [grid(told), Facts(pairs=tuple(foot_facts(told))), Break(side=True)]
    blocks += [Heading(text=told.say("late.title")), Para(text=told.say("sheet.late"))]
    blocks += [late_table(told)] if told.plan.late else []
    blocks += flameless.brief(told)
    blocks += [Heading(text=told.say("tally.title")), tally_table(told)]
    return Document(
        title=told.plan.trip.title, subtitle=order_line(told), blocks=tuple(blocks), name="sheet",
        foot=told.foot(), wide=True, one_side=True,
    )  # fmt: skip


def grid(told: Telling) -> Table:
    """A row per day, a column per meal; who eats what where they differ."""
    meals = [m for m in MEALS if any(_eaten(told, d.number, m) for d in told.plan.days)]
    heads = [told.say("sheet.day"), *(told.say(f"meals.{m}") for m in meals),
             ">" + told.say("sheet.water"), ">" + told.say("sheet.fuel")]  # fmt: skip
    return table(heads, [_row(told, d, meals) for d in told.plan.days],
                 caption=told.say("sheet.caption"))  # fmt: skip


def _row(told: Telling, day: Day, meals: list[Meal]) -> Row:
    cells = [cell(meal_text(told, day.number, m)) for m in meals]
    water, fuel = camp_water(told, day), _fuel(told, day)
    lines = [short_date(day), walk_text(told, day), town_text(told, day)]
    return row(
        Cell(text="\n".join(filter(None, lines)), tone="strong"), *cells,
        cell(told.m.volume(water) if water else "", water), cell(fuel, None),
    )  # fmt: skip


def order_line(told: Telling) -> str:
    """The line below the title; for two it says in which order amounts stand."""
    walkers = told.plan.trip.walkers
    if len(walkers) != 2:
        return told.title_line()
    names = [clip(w.name, 24) for w in walkers]
    return told.say("sheet.order", line=told.title_line(), one=names[0], two=names[1])


def meal_text(told: Telling, day: int, meal: Meal) -> str:
    """One meal of the party; open bags and small things stand at the foot. Two who share a meal
    have it food by food, two who eat apart have it walker by walker."""
    by_food = _eaten(told, day, meal)
    walkers = told.plan.trip.walkers
    if len(walkers) > 2:
        return ", ".join(_line(told, food, mine) for food, mine in by_food.items())
    eaters = [len({p.walker for p in mine}) for mine in by_food.values()]
    if len(walkers) == 1 or 2 * eaters.count(1) <= len(eaters):
        return "\n".join(_line(told, food, mine) for food, mine in by_food.items())
    return "\n".join(_alone(told, w, by_food) for w in walkers if _has(w, by_food))


def _has(walker: Walker, by_food: Mapping[str, list[Portion]]) -> bool:
    return any(p.walker == walker.id for mine in by_food.values() for p in mine)


def _alone(told: Telling, walker: Walker, by_food: Mapping[str, list[Portion]]) -> str:
    texts = [
        _of(told, "one", food, amount(told, food, doses))
        for food, mine in ((told.food(key), mine) for key, mine in by_food.items())
        for doses in [sum(p.doses for p in mine if p.walker == walker.id)] if doses > 0
    ]  # fmt: skip
    return told.say("sheet.person", who=clip(walker.name, 16), list=", ".join(texts))


def meal_lines(told: Telling, day: int, meal: Meal) -> list[tuple[str, str]]:
    """Food and what of it is eaten at one meal, by one, two or many."""
    return [(food, _line(told, food, mine)) for food, mine in _eaten(told, day, meal).items()]


def _eaten(told: Telling, day: int, meal: Meal) -> dict[str, list[Portion]]:
    by_food: dict[str, list[Portion]] = {}
    for p in portions_at(told.plan, day, meal):
        if p.why != "bag" and not _small(told, p):
            by_food.setdefault(p.food, []).append(p)
    return by_food


def _small(told: Telling, portion: Portion) -> bool:
    """Whether a portion is one of the small things at the foot, and no part of a drink."""
    food = told.food(portion.food)
    return food.role == "small" and not (portion.meal == "drinks" and "drinks" in food.meals)


def _line(told: Telling, food: str, portions: list[Portion]) -> str:
    if len(told.plan.trip.walkers) > 2:
        return party_meal(told, portions)
    doses: dict[str, float] = {}
    for p in portions:
        doses[p.walker] = doses.get(p.walker, 0.0) + p.doses
    return _for_two(told, told.food(food), doses)


def _for_two(told: Telling, food: Food, doses: Mapping[str, float]) -> str:
    """One food of one or two: "bar × 2 + 3", "pouch × 1 (Ben)", "25 g milk powder each"."""
    amounts = [amount(told, food, n) for n in doses.values()]
    walkers = told.plan.trip.walkers
    if len(walkers) == 1:
        return _of(told, "one", food, amounts[0])
    if len(doses) == 1:
        who = clip(told.name(next(iter(doses))), 16)
        return _of(told, "only", food, amounts[0], who=who)
    if amounts[0] == amounts[1]:
        return _of(told, "each", food, amounts[0])
    both = [amount(told, food, doses[w.id]) for w in walkers]
    return _of(told, "one", food, " + ".join(_common(both)))


def _of(told: Telling, key: str, food: Food, much: str, *, who: str = "") -> str:
    """So much of a food: a count behind its name, a mass before it."""
    both = (food.name, f"× {much}") if counted(food) else (much, food.name)
    return told.say(f"sheet.{key}", first=both[0], then=both[1], who=who)


def amount(told: Telling, food: Food, doses: float) -> str:
    """How much of a food: so many things, or a mass."""
    things = counted(food)
    return told.m.number(pieces(food, doses)) if things else told.m.mass(doses * food.dose_g)


def _common(texts: list[str]) -> list[str]:
    """Drops the unit of all but the last where they share it: "50" + "75 g"."""
    units = {t.rpartition(" ")[2] for t in texts}
    simple = len(units) == 1 and all(t.count(" ") == 1 for t in texts)
    return [*(t.rpartition(" ")[0] for t in texts[:-1]), texts[-1]] if simple else texts


def camp_water(told: Telling, day: Day) -> float:
    """Water that the day's camp and meals take, for all [ml]: cooking, washing, drinks."""
    found = [of.get(str(day.number)) for of in told.plan.kitchen.water.values()]
    return sum(_camp(w) for w in found if w is not None)


def _camp(water: WaterDay) -> float:
    return water.cooking_ml + water.washing_ml + water.camp_drinks_ml


def _fuel(told: Telling, day: Day) -> str:
    fuel = told.plan.kitchen.fuel
    grams = fuel.by_day_g.get(str(day.number), 0.0) if fuel else 0.0
    return told.m.mass(grams) if grams > 0 else ""


def foot_facts(told: Telling) -> list[tuple[str, str]]:
    """Water while walking, fuel, bags and rubbish, in a line each."""
    plan = told.plan
    suggested = [d.walking_suggested_ml for of in plan.kitchen.water.values() for d in of.values()]
    facts = [(told.say("first.heat"), heat_line(told))]
    if suggested:
        ml = max(suggested)
        facts.append((told.say("sheet.drink"), told.say("sheet.drink_line", ml=ml)))
    facts += [(told.say("first.open"), line) for line in open_lines(told, UNCUT)]
    small = small_things(told)
    if small:
        facts.append((told.say("meals.small"), small))
    spare = ", ".join(told.portion(p) for p in together(plan.menu.spare))
    if spare:
        facts.append((told.say("meals.spare"), spare))
    return facts


def small_things(told: Telling) -> str:
    """Things counted by habit, as so many in all and a day."""
    days = len(told.plan.days) * len(told.plan.trip.walkers)
    small = [p for p in told.plan.menu.portions if _small(told, p)]
    return ", ".join(
        told.say("sheet.small", what=told.portion(p), each=round(p.doses / days * 4) / 4)
        for p in together(small)
    )
