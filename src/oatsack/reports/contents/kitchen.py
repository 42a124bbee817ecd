"""The kitchen camp by camp: what to boil, burn, carry and drink, and until when food keeps.

Every litre figure stands under a word that says what it is: needed, suggested, estimated, or a
limit. `blocks` gives the ledger to other documents.
"""

from __future__ import annotations

import itertools
import string
from collections.abc import Iterator

from oatsack.kitchen.nesting import check_list
from oatsack.reports.contents.small_things import eat_first, small_things
from oatsack.reports.document import (
    Block,
    Bullets,
    Cell,
    Document,
    Fold,
    Heading,
    Note,
    Para,
    Row,
    cell,
    row,
    table,
)
from oatsack.reports.telling import Telling, flag_opens, short_date
from oatsack.values.kitchen import CookStep, FuelPlan, MealLedger, WaterCarry
from oatsack.values.route import Day

COLUMNS = ("meal", "boil", "cold", "wash", "left", "batches", "minutes", "fuel")
"""Of a camp's table, as keys of words; one that holds nothing on the whole walk is left out."""
LIQUID = frozenset({"white-gas", "ethanol", "methanol"})
ONE_BY_ONE = 3
"""Of a larger party water is told as one row a day."""


def document(told: Telling) -> Document:
    """The whole ledger."""
    return Document(
        title=told.say("kitchen.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=blocks(told), name="kitchen", foot=told.foot(),
    )  # fmt: skip


def blocks(told: Telling) -> tuple[Block, ...]:
    """Fuel first, then camp by camp, water, small things, what keeps, what to say."""
    cold = [] if told.plan.kitchen.fuel else [Para(text=told.say("first.heat_none"))]
    return (*cold, *_fuel_line(told), *_loud(told), *_camps(told), *_fuel(told), *_water(told),
            *_carries(told), *small_things(told), *_noted(told), *_check_list(told))  # fmt: skip


def essentials(told: Telling) -> tuple[Block, ...]:
    """What is asked at the stove: fuel, camp by camp, water to carry, what to eat first."""
    return (*_fuel_line(told), *_camps(told), *_carries(told), *eat_first(told))


def _camps(told: Telling) -> list[Block]:
    meals = told.plan.kitchen.meals
    if not meals:
        return []
    made = [(m.day, _meal(told, m)) for m in meals]
    used = [any(line.cells[i].text for _, line in made) for i in range(len(COLUMNS))]
    heads = [">" * bool(i) + told.say(f"kitchen.{name}")
             for i, name in enumerate(COLUMNS) if used[i]]  # fmt: skip
    out: list[Block] = [Heading(text=told.say("kitchen.meals")),
                        Para(text=told.say("kitchen.kinds"), tone="quiet"),
                        *_lettered(told)]  # fmt: skip
    for day in told.plan.days:
        rows = [
            Row(cells=tuple(itertools.compress(line.cells, used)), kind=line.kind)
            for number, line in made if number == day.number
        ]  # fmt: skip
        place = _place(told, day)
        out += [Heading(text=place, level=2), table(heads, rows, caption=place)] if rows else []
        reused = [who for m in meals if m.day == day.number for who in m.bowls]
        if reused:
            eaters = ", ".join(dict.fromkeys(told.name(who) for who in reused))
            out.append(Para(text=told.say("kitchen.bowls", who=eaters), tone="quiet"))
    return out


def _place(told: Telling, day: Day) -> str:
    """The day and the camp it ends in."""
    unnamed = "kitchen.no_camp" if day.camp_m is None else "kitchen.camp"
    camp = day.camp_name or told.say(unnamed, n=day.number)
    height = "" if day.camp_m is None else f", {told.m.height(day.camp_m)}"
    dry = f", {told.say('kitchen.dry')}" if day.camp_dry else ""
    return f"{short_date(day)}: {camp}{height}{dry}"


def _meal(told: Telling, meal: MealLedger) -> Row:
    at = address(told, meal)

    def water(name: str, beside: str = "") -> Cell:
        ml = getattr(meal, name)
        return cell(told.m.volume(ml) + beside if ml > 0 else "", ml, address=f"{at}/{name}")

    dirty = told.say("kitchen.dirty", n=meal.dirty_pots) if meal.dirty_pots else ""
    boils = f"{told.m.number(meal.batches)} ({told.m.temperature(meal.boiling_c)})"
    return row(
        occasion(told, meal), water("boiled_ml"), water("cold_ml"), water("wash_ml", dirty),
        water("left_ml"),
        cell(boils if meal.batches else "", meal.batches, address=f"{at}/batches"),
        cell(told.m.minutes(meal.minutes) if meal.minutes else "", meal.minutes,
             address=f"{at}/minutes"),
        cell(told.m.mass(meal.fuel_g) if meal.fuel_g else "", meal.fuel_g, address=f"{at}/fuel_g"),
    )  # fmt: skip


def address(told: Telling, meal: MealLedger) -> str:
    """Where the numbers of a meal can be opened; named as `why.tree` does, which is not loaded."""
    name, seen = _meal_name(meal), 0
    for other in told.plan.kitchen.meals:
        seen += _meal_name(other) == name
        if other is meal:
            break
    return f"kitchen/meals/{name}" + (f"~{seen}" if seen > 1 else "")


def _meal_name(meal: MealLedger) -> str:
    return f"{meal.day}-{meal.meal}-{'+'.join(meal.walkers)}"


def occasion(told: Telling, meal: MealLedger) -> str:
    """The meal's name; water made in camp by what is done to it; of whom, where some cook apart."""
    kinds = {step.kind for step in meal.steps}
    made = bool(meal.steps) and not kinds & {"pour", "soak"}
    how = ("snow" if "melt" in kinds else "safe") if made else ""
    name = told.say(f"kitchen.{how}") if made else told.say(f"meals.{meal.meal}")
    same = (m for m in told.plan.kitchen.meals if (m.day, m.meal) == (meal.day, meal.meal))
    if len({m.walkers for m in same}) < 2:
        return name
    letter = next((a for a, of in _letters(told).items() if meal.walkers[0] in of), "")
    return told.say("kitchen.of", meal=name, who=letter or told.group("+".join(meal.walkers)))


def _letters(told: Telling) -> dict[str, tuple[str, ...]]:
    """A letter for each cook group, where their names are too many to stand in a row."""
    groups = told.plan.kitchen.groups
    if len(groups) < 2 or max(len(g) for g in groups) <= 2:
        return {}
    return dict(zip(string.ascii_uppercase, groups, strict=False))


def _lettered(told: Telling) -> list[Block]:
    """Who cooks under which letter, where some cook apart."""
    meals = told.plan.kitchen.meals
    if len({(m.day, m.meal) for m in meals}) == len(meals):
        return []
    lines = tuple(
        told.say("kitchen.group", letter=letter, who=", ".join(told.name(w) for w in of))
        for letter, of in _letters(told).items()
    )
    return [Bullets(items=lines)] if lines else []


def _fuel_line(told: Telling) -> list[Block]:
    fuel = told.plan.kitchen.fuel
    if fuel is None:
        return []
    key = "kitchen.fuel_wood" if fuel.kind == "wood" else "kitchen.fuel_line"
    return [Para(text=told.say(
        key, fuel=told.say(f"fuel.{fuel.kind}"), burnt=fuel.burnt_g, reserve=fuel.reserve_g,
        need=fuel.need_g, cans=cans_text(told, fuel), gross=fuel.gross_g, left=fuel.left_g,
    ), opens=tuple(
        (told.m.mass(getattr(fuel, name)), f"kitchen/fuel/{name}")
        for name in ("burnt_g", "reserve_g", "need_g", "gross_g", "left_g")
    ))]  # fmt: skip


def cans_text(told: Telling, fuel: FuelPlan) -> str:
    """Containers to take, an opened one by what it still holds."""
    opened = {round(c.fuel_g, 3) for c in told.plan.trip.kit.cans if c.gross_now_g is not None}
    full = "kitchen.bottle" if fuel.kind in LIQUID else "first.can"
    parts = [
        told.say("kitchen.opened" if size in opened else full, n=n, size=size)
        for size, n in fuel.cans
    ]
    return " + ".join(parts) or told.say("first.no_can")


def _fuel(told: Telling) -> list[Block]:
    fuel = told.plan.kitchen.fuel
    if fuel is None:
        return []
    rows = [
        row(short_date(told.day(int(d))),
            cell(told.m.mass(g), g, address=f"kitchen/fuel/by_day_g/{d}"))
        for d, g in fuel.by_day_g.items()
    ]  # fmt: skip
    rows += [
        row(told.say(f"kitchen.{name}"),
            cell(told.m.mass(g), g, address=f"kitchen/fuel/{name_of}"), kind="total")
        for name, name_of, g in _sums(fuel)
    ]  # fmt: skip
    heads = (told.say("need.day"), ">" + told.say(f"fuel.{fuel.kind}"))
    return [Heading(text=told.say("kitchen.fuel_title")),
            table(heads, rows, caption=told.say("kitchen.fuel_title"))]  # fmt: skip


def _sums(fuel: FuelPlan) -> list[tuple[str, str, float]]:
    return [("burnt", "burnt_g", fuel.burnt_g), ("reserve", "reserve_g", fuel.reserve_g),
            ("needed", "need_g", fuel.need_g), ("carried", "carried_g", fuel.carried_g),
            ("home", "left_g", fuel.left_g)]  # fmt: skip


def _water(told: Telling) -> list[Block]:
    if not told.plan.kitchen.water:
        return []
    many = len(told.plan.kitchen.water) > ONE_BY_ONE
    who = () if many else (told.say("kitchen.who"),)
    heads = (told.say("need.day"), *who, ">" + told.say("kitchen.walking"),
             ">" + told.say("kitchen.drinks"), ">" + told.say("kitchen.cooking"),
             ">" + told.say("kitchen.sweat"))  # fmt: skip
    waters = _waters_of_all if many else _waters
    rows = [line for day in told.plan.days for line in waters(told, day)]
    return [
        Heading(text=told.say("kitchen.water_title")),
        table(heads, rows, caption=told.say("kitchen.water_title")),
        *_caps(told),
    ]


def _caps(told: Telling) -> Iterator[Block]:
    """The hard lines, as the plan holds them."""
    found = ((f"kitchen/water/{who}/{day}", w)
             for who, of in told.plan.kitchen.water.items() for day, w in of.items())  # fmt: skip
    at, first = next(found, ("", None))
    if first is not None:
        yield Para(text=told.say("kitchen.caps", hour=first.hour_cap_ml, day=first.day_cap_ml),
                   opens=((told.m.volume(first.hour_cap_ml), f"{at}/hour_cap_ml"),
                          (told.m.volume(first.day_cap_ml), f"{at}/day_cap_ml")))  # fmt: skip


def _waters_of_all(told: Telling, day: Day) -> Iterator[Row]:
    """One row for a large party: from the least to the most that one of them needs."""
    found = {who: of[str(day.number)] for who, of in told.plan.kitchen.water.items()
             if str(day.number) in of}  # fmt: skip
    if not found:
        return

    def span(low: str, high: str) -> Cell:
        most = max(found, key=lambda who: getattr(found[who], high))
        least = min(getattr(w, low) for w in found.values())
        top = getattr(found[most], high)
        texts = dict.fromkeys((told.m.volume(least), told.m.volume(top)))
        return cell("–".join(texts), top, address=f"kitchen/water/{most}/{day.number}/{high}")

    yield row(
        short_date(day),
        span("walking_suggested_ml", "walking_suggested_ml"),
        span("camp_drinks_ml", "camp_drinks_ml"), span("cooking_ml", "cooking_ml"),
        span("sweat_low_ml", "sweat_high_ml"),
    )  # fmt: skip


def _waters(told: Telling, day: Day) -> Iterator[Row]:
    m = told.m
    for walker, of in told.plan.kitchen.water.items():
        w = of.get(str(day.number))
        if w is None:
            continue
        at = f"kitchen/water/{walker}/{day.number}"
        yield row(
            short_date(day), told.name(walker),
            cell(m.volume(w.walking_suggested_ml), w.walking_suggested_ml,
                 address=f"{at}/walking_suggested_ml"),
            cell(m.volume(w.camp_drinks_ml), w.camp_drinks_ml, address=f"{at}/camp_drinks_ml"),
            cell(m.volume(w.cooking_ml), w.cooking_ml, address=f"{at}/cooking_ml"),
            cell(f"{m.volume(w.sweat_low_ml)}–{m.volume(w.sweat_high_ml)}", w.sweat_high_ml,
                 address=f"{at}/sweat_high_ml"),
        )  # fmt: skip


def _carries(told: Telling) -> list[Block]:
    carries = told.plan.kitchen.carries
    if not carries:
        return []
    heads = (told.say("need.day"), told.say("kitchen.from"), told.say("kitchen.to"),
             ">" + told.say("kitchen.far"), ">" + told.say("kitchen.carry"),
             told.say("kitchen.mind"))  # fmt: skip
    rows = [_carry(told, c, i) for i, c in enumerate(carries)]
    out: list[Block] = [
        Heading(text=told.say("kitchen.carries")),
        table(heads, rows, caption=told.say("kitchen.carries")),
    ]
    unsure = [
        told.say("kitchen.unsure", place=p.name, day=d.number,
                 sure=told.say(f"sure.{p.reliability}"))
        for d in told.plan.days for p in d.water if p.reliability != "sure"
    ]  # fmt: skip
    return [*out, Bullets(items=tuple(unsure))] if unsure else out


def _carry(told: Telling, carry: WaterCarry, place: int) -> Row:
    at = f"kitchen/carries/{place}"
    mind = "" if carry.why == "to-next-water" else told.say(f"kitchen.{carry.why}")
    return row(
        short_date(told.day(carry.day)), carry.start, carry.end,
        cell(told.m.distance(carry.distance_m), carry.distance_m, address=f"{at}/distance_m"),
        cell(told.m.volume(carry.carry_ml), carry.carry_ml, address=f"{at}/carry_ml"), mind,
    )  # fmt: skip


def _loud(told: Telling) -> list[Block]:
    """What in the kitchen calls for a hand."""
    flags = [f for f in told.plan.flags if f.key.startswith("kitchen.") and f.level != "note"]
    texts = {told.flag(f): f for f in reversed(flags)}
    return [Note(text=text, level=f.level, opens=flag_opens(told, f))
            for text, f in reversed(texts.items())]  # fmt: skip


def _noted(told: Telling) -> list[Block]:
    """Rules of fire, fumes, flights and water, folded away."""
    flags = [f for f in told.plan.flags if f.key.startswith("kitchen.") and f.level == "note"]
    texts = tuple(dict.fromkeys(told.flag(f) for f in flags))
    return [Fold(title=told.say("kitchen.rules"), blocks=(Bullets(items=texts),))] if texts else []


def _check_list(told: Telling) -> list[Block]:
    """Small things that are missed at the first dinner."""
    if told.plan.kitchen.fuel is None:
        return []
    things = ", ".join(told.say(f"check.{thing}") for thing in check_list(flame=True))
    return [Para(text=told.say("kitchen.check", list=things), tone="quiet")]


def step_text(told: Telling, step: CookStep) -> str:
    """One step in words."""
    food = told.food(step.food).name if step.food in told.plan.foods else ""
    key = f"step.{step.kind}_food" if food else f"step.{step.kind}"
    return told.say(key, food=food, minutes=step.end_min - step.start_min, water=step.water_ml)
