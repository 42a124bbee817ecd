"""The one sheet for one or two walkers: days by meals, water and fuel; on the back what to do when
late, and a grid to tick. For larger parties the menu, bags and carriers are sheets of their own."""

from __future__ import annotations

from oatsack.reports.contents.first_screen import clip, heat_line, walk_text
from oatsack.reports.contents.menu import meal_texts, party_meal
from oatsack.reports.contents.plan import late_table
from oatsack.reports.contents.tally import tally_table
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
from oatsack.reports.telling import Telling, portions_at, short_date, together
from oatsack.values.food import MEALS, Meal
from oatsack.values.kitchen import WaterDay
from oatsack.values.route import Day


def document(told: Telling) -> Document:
    """Two sides, landscape."""
    blocks: list[Block] = [grid(told), Facts(pairs=tuple(foot_facts(told))), Break(side=True)]
    blocks += [Heading(text=told.say("late.title")), Para(text=told.say("sheet.late"))]
    blocks += [late_table(told)] if told.plan.late else []
    blocks += [Heading(text=told.say("tally.title")), tally_table(told)]
    return Document(
        title=told.plan.trip.title, subtitle=told.title_line(), blocks=tuple(blocks), name="sheet",
        foot=told.foot(), wide=True,
    )  # fmt: skip


def grid(told: Telling) -> Table:
    """A row per day, a column per meal; who eats what where they differ."""
    meals = [m for m in MEALS if any(portions_at(told.plan, d.number, m) for d in told.plan.days)]
    named = (f"{told.say(f'meals.{m}')}*{_share(m)}" for m in meals)
    heads = [told.say("sheet.day") + "*1.4", *named,
             ">" + told.say("sheet.water"), ">" + told.say("sheet.fuel")]  # fmt: skip
    return table(heads, [_row(told, d, meals) for d in told.plan.days],
                 caption=told.say("sheet.caption"))  # fmt: skip


def _share(meal: Meal) -> float:
    return {"breakfast": 2.4, "lunch": 2.4, "move": 3.0, "dinner": 2.4, "drinks": 1.5}[meal]


def _row(told: Telling, day: Day, meals: list[Meal]) -> Row:
    cells = [cell(meal_text(told, day.number, m)) for m in meals]
    water, fuel = camp_water(told, day), _fuel(told, day)
    return row(
        Cell(text=f"{short_date(day)}\n{walk_text(told, day)}", tone="strong"), *cells,
        cell(told.m.volume(water) if water else "", water), cell(fuel, None),
    )  # fmt: skip


def meal_text(told: Telling, day: int, meal: Meal) -> str:
    """One meal of the party: once where all eat the same, else walker by walker."""
    walkers = told.plan.trip.walkers
    if len(walkers) > 2:
        return party_meal(told, portions_at(told.plan, day, meal))
    texts = {w.name: "; ".join(meal_texts(told, day, meal, w.id)) for w in walkers}
    if len(set(texts.values())) <= 1:
        return next(iter(texts.values()), "")
    return "\n".join(f"{clip(name, 16)}: {text}" for name, text in texts.items() if text)


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
    open_bags = together(p for p in plan.menu.portions if p.why == "bag")
    if open_bags:
        names = ", ".join(told.food(p.food).name for p in open_bags)
        facts.append((told.say("first.open"), told.say("sheet.open", list=names)))
    spare = ", ".join(told.portion(p) for p in together(plan.menu.spare))
    if spare:
        facts.append((told.say("meals.spare"), spare))
    return facts
