"""Few minutes at the stove."""

from __future__ import annotations

from oatsack.menu.aims.base import Aim, eaten, per_setting
from oatsack.menu.frame import Frame


def add(frame: Frame, weight: float) -> None:
    """Each dose costs its minutes of flame and of waiting."""
    for e in eaten(frame):
        price = frame.price(e.food, e.day)
        frame.builder.cost[e.column] += weight * e.doses * (price.flame_min + price.wait_min)


AIM = Aim(
    name="minutes", help="Minutes at the stove.", unit="min", grams=0.5,
    weight=per_setting("minutes", 1.0), add=add,
)  # fmt: skip
