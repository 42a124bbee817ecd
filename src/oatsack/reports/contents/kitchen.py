"""The kitchen: every cooked occasion with its water, minutes and fuel; fuel and water by day."""

from __future__ import annotations

from oatsack.kitchen.nesting import CHECK_LIST
from oatsack.reports.document import Block, Document, Heading, Para, Row, cell, row, table
from oatsack.reports.telling import Telling, short_date
from oatsack.values.kitchen import FuelPlan, MealLedger, WaterCarry


def document(told: Telling) -> Document:
    """Meals, fuel, drinking water and what to carry of it."""
    blocks: list[Block] = [*_meals(told), *_fuel(told), *_water(told), *_carries(told),
                           *_check_list(told)]  # fmt: skip
    if not told.plan.kitchen.meals:
        blocks = [Para(text=told.say("first.heat_none")), *blocks]
    return Document(
        title=told.say("kitchen.title", title=told.plan.trip.title), subtitle=told.title_line(),
        blocks=tuple(blocks), name="kitchen", foot=told.foot(),
    )  # fmt: skip


def _meals(told: Telling) -> list[Block]:
    meals = told.plan.kitchen.meals
    if not meals:
        return []
    heads = (told.say("need.day"), told.say("kitchen.meal"), ">" + told.say("kitchen.boil"),
             ">" + told.say("kitchen.cold"), ">" + told.say("kitchen.batches"),
             ">" + told.say("kitchen.minutes"), ">" + told.say("kitchen.fuel"),
             ">" + told.say("kitchen.boils_at"))  # fmt: skip
    return [
        Heading(text=told.say("kitchen.meals")),
        table(heads, [_meal(told, m) for m in meals], caption=told.say("kitchen.meals")),
    ]


def _meal(told: Telling, meal: MealLedger) -> Row:
    m = told.m
    return row(
        short_date(told.day(meal.day)), told.say(f"meals.{meal.meal}"),
        cell(m.volume(meal.boiled_ml), meal.boiled_ml),
        cell(m.volume(meal.cold_ml) if meal.cold_ml > 0 else "", meal.cold_ml),
        cell(m.number(meal.batches), meal.batches), cell(m.minutes(meal.minutes), meal.minutes),
        cell(m.mass(meal.fuel_g), meal.fuel_g), cell(m.temperature(meal.boiling_c), meal.boiling_c),
    )  # fmt: skip


def _fuel(told: Telling) -> list[Block]:
    fuel = told.plan.kitchen.fuel
    if fuel is None:
        return []
    rows = [
        row(short_date(told.day(int(d))), cell(told.m.mass(g), g)) for d, g in fuel.by_day_g.items()
    ]
    rows += [row(told.say(f"kitchen.{name}"), cell(told.m.mass(g), g), kind="total")
             for name, g in _sums(fuel)]  # fmt: skip
    heads = (told.say("need.day"), ">" + told.say(f"fuel.{fuel.kind}"))
    return [Heading(text=told.say("kitchen.fuel_title")), table(heads, rows,
            caption=told.say("kitchen.fuel_title"))]  # fmt: skip


def _sums(fuel: FuelPlan) -> list[tuple[str, float]]:
    return [("burnt", fuel.burnt_g), ("reserve", fuel.reserve_g), ("needed", fuel.need_g),
            ("carried", fuel.carried_g)]  # fmt: skip


def _water(told: Telling) -> list[Block]:
    water = told.plan.kitchen.water
    if not water:
        return []
    heads = (told.say("need.day"), told.say("kitchen.who"), ">" + told.say("kitchen.walking"),
             ">" + told.say("kitchen.sweat"), ">" + told.say("kitchen.cooking"),
             ">" + told.say("kitchen.drinks"))  # fmt: skip
    rows = [
        row(short_date(day), told.name(walker), told.m.volume(w.walking_suggested_ml),
            f"{told.m.volume(w.sweat_low_ml)}–{told.m.volume(w.sweat_high_ml)}",
            told.m.volume(w.cooking_ml + w.washing_ml), told.m.volume(w.camp_drinks_ml))
        for day in told.plan.days for walker, of in water.items()
        for w in [of.get(str(day.number))] if w is not None
    ]  # fmt: skip
    return [
        Heading(text=told.say("kitchen.water_title")),
        table(heads, rows, caption=told.say("kitchen.water_title")),
        Para(text=told.say("kitchen.thirst"), tone="quiet"),
    ]


def _carries(told: Telling) -> list[Block]:
    carries = told.plan.kitchen.carries
    if not carries:
        return []
    heads = (told.say("need.day"), told.say("kitchen.from"), told.say("kitchen.to"),
             ">" + told.say("kitchen.far"), ">" + told.say("kitchen.carry"))  # fmt: skip
    return [
        Heading(text=told.say("kitchen.carries")),
        table(heads, [_carry(told, c) for c in carries], caption=told.say("kitchen.carries")),
    ]


def _check_list(told: Telling) -> list[Block]:
    """Small things that are missed at the first dinner."""
    if told.plan.kitchen.fuel is None:
        return []
    things = ", ".join(told.say(f"check.{thing}") for thing in CHECK_LIST)
    return [Para(text=told.say("kitchen.check", list=things), tone="quiet")]


def _carry(told: Telling, carry: WaterCarry) -> Row:
    return row(
        short_date(told.day(carry.day)), carry.start, carry.end,
        cell(told.m.distance(carry.distance_m), carry.distance_m),
        cell(told.m.volume(carry.carry_ml), carry.carry_ml),
    )  # fmt: skip
