"""How much room food takes: stated volumes first, else the bulk density of its class.

Knows how tightly each form packs, as a range. Does not know containers (see `container`).
"""

from __future__ import annotations

from dataclasses import dataclass

from oatsack.values.food import Food

BULK_G_ML: dict[str, float] = {
    "nut": 0.60, "grain": 0.55, "snack": 0.35, "fruit": 0.62, "sweet": 0.70, "protein": 0.55,
    "dairy": 0.55, "breakfast": 0.40, "bread": 0.35, "drink": 0.45, "meal": 0.35,
    "vegetable": 0.25, "condiment": 0.90, "fat": 0.91, "soup": 0.50, "small": 0.50,
}  # fmt: skip
"""Bulk density by food class [g/ml], from household weights (USDA-SR28, g per cup / 236.588 ml);
the value of a class is our pick inside the spread of its foods."""
BULK_OTHER_G_ML = 0.45
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


def density_of(food: Food) -> float:
    """Bulk density of the class of a food [g/ml]."""
    return BULK_G_ML.get(food.category, BULK_OTHER_G_ML)


def volume_ml(food: Food, doses: float, *, puffed: bool = False) -> float:
    """Room that so many doses take as carried [ml], before packing factors.

    A pouch is flat unless `puffed`. A food without a stated volume takes its class density.
    """
    if puffed and food.pouch is not None and food.pouch.puffed_ml is not None:
        return doses / food.doses_per_pack * food.pouch.puffed_ml
    stated = food.dose_ml
    return doses * (food.dose_g / density_of(food) if stated is None else stated)
