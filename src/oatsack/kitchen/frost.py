"""What goes hard as wood on a day of frost: chewy bars, sweets, cheese and spreads from the hand.

Judged by the kind of food, not by its chemistry: what is crisp stays crisp, dry handfuls of nuts
and fruit can be chewed, anything hot is warm. Knows neither teeth nor pockets.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.menu import Menu
from oatsack.values.route import Day

FROST_C = 0.0
"""Midday air below which what is eaten on the way has frozen through."""
CHEWY = frozenset({"snack", "sweet", "dairy"})
SPREADS = frozenset({"nut", "sweet", "dairy", "protein", "condiment", "fat"})
"""Classes that harden, from the hand and on bread (common practice: bars like bullets; cheese and
sausage are cut at home)."""


def hardens(food: Food) -> bool:
    """Whether it is too hard to bite or to spread once frozen."""
    if food.keep.crushes or food.prep.kind != "none":
        return False
    return food.category in (SPREADS if food.role == "topping" else CHEWY)


def frost_flags(menu: Menu, foods: Mapping[str, Food], days: Sequence[Day]) -> Iterator[Flag]:
    """Each food that hardens and is eaten cold on a day of frost, once, on the first such day."""
    frosty = {day.number for day in days if day.warm_c < FROST_C}
    told: set[str] = set()
    for p in sorted(menu.portions, key=lambda p: (p.day, p.food)):
        cold = p.day in frosty and p.meal in ("lunch", "move")
        if cold and p.food not in told and hardens(foods[p.food]):
            told.add(p.food)
            yield Flag(
                key="kitchen.freezes", level="quiet", scope=f"kitchen/frost/{p.day}",
                values={"food": p.food, "day": p.day},
            )  # fmt: skip
