"""How much room food takes: stated volumes first, else the bulk density of its class.

Knows how tightly each form packs, as a range. Does not know containers (see `container`).
"""

from __future__ import annotations

from dataclasses import dataclass

from oatsack.values.classes import pack_ml_of
from oatsack.values.food import Food

BULK_SPREAD = 0.12
"""Relative spread (one standard deviation) of a class density within its class, ours."""


@dataclass(frozen=True, slots=True)
class Packing:
    """How much of a store the stated volume fills: low, likely and high (usable fraction)."""

    low: float
    likely: float
    high: float


SOFT = Packing(0.85, 0.90, 0.95)
"""Soft repacked bags that give way (common practice)."""
STIFF = Packing(0.60, 0.70, 0.75)
"""Sealed pouches and bars that do not (common practice)."""


def is_soft(food: Food) -> bool:
    """Whether it packs as a soft bag that gives way: all but what stays sealed."""
    return food.carry != "sealed"


def volume_ml(food: Food, doses: float, *, puffed: bool = False) -> float:
    """Room that so many doses take as carried [ml], before packing factors.

    A pouch is flat unless `puffed`. A food without a stated volume takes its class density.
    """
    if puffed and food.pouch is not None and food.pouch.puffed_ml is not None:
        return doses / food.doses_per_pack * food.pouch.puffed_ml
    return doses / food.doses_per_pack * pack_ml_of(food)[0]
