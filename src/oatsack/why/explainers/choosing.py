"""Explains a choice: what holds the menu back there, and what the next best food would cost.

The rules that hold are kept in the plan; the next best is weighed anew from the plan alone (C18),
among the foods that the plan holds and those of a larder that is handed in. Nothing is searched.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from oatsack.menu.beside import LEVEL_G, Other, misses, next_best
from oatsack.menu.rules import RULES
from oatsack.provision.replanned import asked_of
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.menu import Portion
from oatsack.values.plan import Plan

RULES_BY = {rule.name: rule for rule in RULES}
COUNTED = "taste/lunch/"
"""Rows that count meals, of a rule whose other rows are energy."""
MOST_RULES = 4
MOST_SLOTS = 400
"""A plan of more meals takes seconds to weigh; ours."""


def heard_of(plan: Plan, portion: Portion, larder: Sequence[Food] = ()) -> tuple[Flag, ...]:
    """What to say of a portion: the next best food there, and the rules that hold there."""
    scope = f"menu/{portion.walker}/{portion.day}/{portion.meal}"
    rows = [row for row in plan.menu.binds if speaks_of(row, plan, portion)]
    held = tuple(holding(rows, missed_of(plan) if rows else {}, scope))[: 2 * MOST_RULES]
    if portion.why != "chosen":
        return held
    return (_beside(plan, portion, _at_hand(plan, portion, larder), scope), *held)


def missed_of(plan: Plan) -> Mapping[str, float]:
    """By how much the plan's menu misses each wish, by row; a long walk is not weighed anew."""
    if len(plan.slots) > MOST_SLOTS:
        return {}
    return misses(asked_of(plan, plan.foods), plan.menu)


def holding(
    rows: Sequence[str], missed: Mapping[str, float], scope: str = "menu"
) -> Iterator[Flag]:
    """For each rule among these rows, in their order, a flag that it holds, and one that says by
    how much it is missed: the worst of its rows, or how many there are."""
    for rule in (RULES_BY[n] for n in dict.fromkeys(map(_rule_of, rows)) if n in RULES_BY):
        yield Flag(key="why.binds", level="note", scope=scope, values={"rule": rule.name})
        off = [missed[row] for row in rows if row in missed and _rule_of(row) == rule.name
               and not row.startswith(COUNTED)]  # fmt: skip
        if off:
            amount = float(len(off)) if rule.gives_in == "n" else max(off)
            name = "n" if rule.gives_in == "n" else f"give_{rule.gives_in}"
            yield Flag(key=rule.by_how_much, level="note", scope=scope, values={name: amount})


def _rule_of(row: str) -> str:
    return row.split("/")[0]


def speaks_of(row: str, plan: Plan, portion: Portion) -> bool:
    """Whether a row's name is about this portion's walker (or everyone), day (or all) and meal (or
    all) and food (or all)."""
    parts = row.split("/")[1:]
    days = [part for part in parts if part.isdigit()]
    meals = {slot.meal for slot in plan.slots}.intersection(parts)
    walkers = {name for part in parts for name in part.split("+")} & set(plan.target)
    foods = set(plan.foods).intersection(parts)
    return (
        (not walkers or portion.walker in walkers) and (not days or str(portion.day) in days)
        and (not meals or portion.meal in meals) and (not foods or portion.food in foods)
    )  # fmt: skip


def _at_hand(plan: Plan, portion: Portion, larder: Sequence[Food]) -> Mapping[str, Food]:
    """The plan's foods, those of the larder that may stand at this meal, and its dinners, by which
    cook groups are made."""
    more = (
        f for f in larder
        if portion.meal in f.meals or (f.role == "main" and "dinner" in f.meals)
    )  # fmt: skip
    return {f.id: f for f in more} | dict(plan.foods)


def _beside(plan: Plan, portion: Portion, foods: Mapping[str, Food], scope: str) -> Flag:
    found = next_best(asked_of(plan, foods), plan.menu, portion)
    if found is None:
        return Flag(key="why.alone", level="note", scope=scope, values={"food": portion.food})
    key = "why.next-best" if found.more_g > LEVEL_G else "why.next-best-level"
    return Flag(key=key, level="note", scope=scope, values=_figures(plan, portion, found))


def _figures(plan: Plan, portion: Portion, found: Other) -> dict[str, float | str]:
    """Both foods' grams with wrapping and price, and the difference in the aim."""
    food = plan.foods[portion.food]
    price = (food.price or 0.0) / food.doses_per_pack
    return {
        "food": found.food, "instead": portion.food, "more_g": found.more_g,
        "this_g": portion.doses * (food.dose_g + food.dose_wrap_g), "that_g": found.mass_g,
        "this_price": portion.doses * price, "that_price": found.price,
    }  # fmt: skip
