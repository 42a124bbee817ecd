"""Least on the back for least time: mass with its wrapping times the days it is carried."""

from __future__ import annotations

from oatsack.menu.aims.base import Aim, eaten
from oatsack.menu.frame import Frame


def add(frame: Frame, weight: float) -> None:
    """Each dose costs its mass [g] times its days [d]; sealed food with its wrapping (C6)."""
    for e in eaten(frame):
        frame.builder.cost[e.column] += weight * e.doses * e.facts.mass_g * e.carry_days


AIM = Aim(
    name="kg-days", help="What it costs your back.", unit="g days", grams=1.0,
    weight=lambda frame: frame.request.rules.weight_kgdays, add=add,
    in_trip="rules.weights.load",
)  # fmt: skip
