"""What one dose of a food brings, with blanks read the safe way round (C2).

Against a ceiling a blank counts as the high value of its food class, towards a floor as nothing.
"""

from __future__ import annotations

from dataclasses import dataclass

from oatsack.values.classes import high_of
from oatsack.values.food import Food

HIGH_PRICE_PER_KG = 40.0
"""Against a budget, a food without a price costs this much; ours."""
LOOSE_ML_PER_G = 2.4
"""Room of food of unknown volume: loose, 0.42 kg/l. Source: common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """One dose: energy [kcal], mass with its wrapping [g], room [ml], price, nutrients low/high."""

    kcal: float
    mass_g: float
    ml: float
    price: float
    wrap_g: float
    protein_low_g: float
    fibre_low_g: float
    fat_high_g: float
    carb_low_g: float
    """Carbohydrate that feeds: fibre taken off, a blank fibre as the high value of its class."""
    sodium_low_mg: float
    sodium_high_mg: float
    caffeine_low_mg: float
    caffeine_high_mg: float


def facts_of(food: Food) -> Facts:
    """The facts of one dose."""
    return Facts(
        kcal=food.dose_kcal,
        mass_g=food.dose_g + food.dose_wrap_g,
        ml=food.dose_g * LOOSE_ML_PER_G if food.dose_ml is None else food.dose_ml,
        price=price_of_dose(food),
        wrap_g=food.dose_wrap_g,
        protein_low_g=food.per_dose("protein_g") or 0.0,
        fibre_low_g=food.per_dose("fibre_g") or 0.0,
        fat_high_g=_high(food, "fat_g"),
        carb_low_g=max(0.0, (food.per_dose("carb_g") or 0.0) - _high(food, "fibre_g")),
        sodium_low_mg=food.per_dose("sodium_mg") or 0.0,
        sodium_high_mg=_high(food, "sodium_mg"),
        caffeine_low_mg=food.per_dose("caffeine_mg") or 0.0,
        caffeine_high_mg=_high(food, "caffeine_mg"),
    )


def price_of_dose(food: Food) -> float:
    """Price of one dose; a high one where nobody stated it."""
    if food.price is None:
        return HIGH_PRICE_PER_KG * food.dose_g / 1000.0
    return food.price / food.doses_per_pack


def price_of_pack(food: Food) -> float:
    """Price of a pack; a high one where nobody stated it (C2)."""
    return HIGH_PRICE_PER_KG * food.pack_g / 1000.0 if food.price is None else food.price


def _high(food: Food, nutrient: str) -> float:
    stated = food.per_dose(nutrient)
    if stated is not None:
        return stated
    return high_of(food, nutrient) * food.dose_g / 100.0
