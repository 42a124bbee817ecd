"""Least mass at the start."""

from __future__ import annotations

from oatsack.menu.aims.base import Aim, eaten, per_setting
from oatsack.menu.frame import Frame


def add(frame: Frame, weight: float) -> None:
    """Each dose costs its mass with wrapping [g]."""
    for e in eaten(frame):
        frame.builder.cost[e.column] += weight * e.doses * e.facts.mass_g


AIM = Aim(
    name="mass", help="What it weighs at the start.", unit="g", grams=1.0,
    weight=per_setting("mass", 0.0), add=add,
)  # fmt: skip
