"""Little left over at home: grams bought beyond what is eaten, where packs are counted."""

from __future__ import annotations

from oatsack.menu.aims.base import Aim, eaten, per_setting
from oatsack.menu.frame import Frame


def add(frame: Frame, weight: float) -> None:
    """Each pack bought costs its grams; each gram eaten of a counted food takes its own off."""
    packs = {f.id: f.pack_g for f in frame.request.foods}
    for name, column in frame.buy.items():
        frame.builder.cost[column] += weight * packs[name]
    for e in eaten(frame):
        if e.food.id in frame.buy:
            frame.builder.cost[e.column] -= weight * e.doses * e.food.dose_g


AIM = Aim(
    name="left-over", help="Food bought and not eaten.", unit="g", grams=0.1,
    weight=per_setting("left-over", 0.0), add=add,
)  # fmt: skip
