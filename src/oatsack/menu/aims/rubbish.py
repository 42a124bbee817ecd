"""Little to carry out."""

from __future__ import annotations

from oatsack.menu.aims.base import Aim, eaten, per_setting
from oatsack.menu.frame import Frame


def add(frame: Frame, weight: float) -> None:
    """Each dose costs the wrapping that travels with it [g]."""
    for e in eaten(frame):
        frame.builder.cost[e.column] += weight * e.doses * e.facts.wrap_g


AIM = Aim(
    name="rubbish", help="Wrappers to carry out.", unit="g", grams=1.0,
    weight=per_setting("rubbish", 0.0), add=add,
)  # fmt: skip
