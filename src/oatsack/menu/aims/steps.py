"""Few things in the hand: every different food at a meal is one more bag to find, open and close.

A tired walker counts steps before grams. Something sealed and eaten from its pouch is one step;
what was repacked is a bag more to fill and label at home; a pot that gets dirty is washed in the
dark, and a bowl is wiped. The grams they are worth are ours.
"""

from __future__ import annotations

from oatsack.menu.aims.base import Aim, per_setting
from oatsack.menu.frame import Frame
from oatsack.values.food import Food

OPEN, BAG, BOWL, WASH = 1.0, 1.0, 1.0, 2.0
"""Steps of opening something, of having bagged it before, of wiping a bowl, of washing a pot."""
NIBBLE = 0.5
"""Steps of an open bag on each of its days."""


def add(frame: Frame, weight: float) -> None:
    """Each use of a food at a meal costs its steps; a shared dish costs them once for its pot, an
    open bag a part of one on every day."""
    for options in frame.options.values():
        for o in options:
            if o.use >= 0:
                frame.builder.cost[o.use] += weight * steps(o.food)
    for bags in frame.bags.values():
        for b in bags:
            frame.builder.cost[b.column] += weight * NIBBLE * len(b.bag.days)


def steps(food: Food) -> float:
    """Steps that one use of a food takes."""
    bagged = BAG if food.carry == "repack" else 0.0
    return OPEN + bagged + _washed(food)


def _washed(food: Food) -> float:
    if food.prep.needs_pot or food.prep.kind == "simmer":
        return WASH
    stands = food.prep.kind in ("boil", "soak") and not food.prep.from_bag
    return BOWL if stands and food.role == "main" else 0.0


AIM = Aim(
    name="steps", help="Few things to open, bag and wash.", unit="steps", grams=12.0,
    weight=per_setting("steps", 1.0), add=add,
)  # fmt: skip
