"""A meal that may be hot is hot: where breakfast is cooked for, a cold main is the exception; soft.

Common practice: hot breakfast, cold lunch, hot dinner. Who wants it cold says so in the trip.
"""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting
from oatsack.menu.rules.soft import wish_at_most
from oatsack.values.food import Food

HOT_MEALS = ("breakfast", "dinner")


def rows(frame: Frame) -> None:
    """Per hot breakfast and dinner: sum of cold mains <= 0, soft."""
    for key, slot in frame.slots.items():
        if key[2] not in HOT_MEALS or not slot.hot or key in frame.given.whole:
            continue
        cold = [(o.use, 1.0) for o in frame.options.get(key, ()) if o.use >= 0 and is_cold(o.food)]
        grams = RULE.value(frame, "grams")
        wish_at_most(frame, f"warm/{'/'.join(map(str, key))}", cold, high=0.0, grams=grams)


def is_cold(food: Food) -> bool:
    """A main that is eaten without a flame."""
    return food.role == "main" and food.prep.kind in ("none", "soak")


RULE = Rule(
    name="warm",
    help="Breakfast and dinner are hot where they may be.",
    rows=rows,
    in_trip=("rules.hot_breakfast", "rules.no_flame"),
    hard=False,
    settings=(Setting(name="grams", unit="g", default=150.0, help="cost of a cold one"),),
)
