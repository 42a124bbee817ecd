"""The slips that people make when they copy a label, as factors, and which one explains a number.

A slip multiplied the true energy and the true macronutrients by known factors. Undoing it must land
inside what such food can hold and must make energy and macronutrients agree; of several that do,
the one that lands nearest to the middle of the class is named, with a preference for common slips.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from oatsack.larder.energy import KJ_PER_KCAL, possible_energy
from oatsack.larder.labels import BAND, energy_slack, grams_slack
from oatsack.values.classes import energy_bounds, high_of
from oatsack.values.food import Food, Nutrients

OUNCE_G: Final = 28.349523125
SMALL_PACK_G: Final = 16.0
"""Hardly any pack is smaller; one that is was most likely given in ounces. Ours."""
MACROS: Final = ("protein_g", "fat_g", "carb_g", "sugars_g", "fibre_g", "polyols_g")


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One slip: what it did to the energy and to the grams of the label."""

    key: str
    energy: float
    grams: float


def slips(food: Food) -> Iterator[Slip]:
    """The slips that could have been made with this food, the commonest first."""
    dose, pack, doses = food.dose_g / 100.0, food.pack_g / 100.0, food.doses_per_pack
    yield Slip(key="kj-as-kcal", energy=KJ_PER_KCAL, grams=1.0)
    yield Slip(key="kcal-as-kj", energy=1.0 / KJ_PER_KCAL, grams=1.0)
    yield Slip(key="100g-as-serving", energy=1.0 / dose, grams=1.0 / dose)
    yield Slip(key="serving-as-100g", energy=dose, grams=dose)
    yield Slip(key="ounces-as-grams", energy=OUNCE_G, grams=OUNCE_G)
    yield Slip(key="grams-as-ounces", energy=1.0 / OUNCE_G, grams=1.0 / OUNCE_G)
    if doses != 1.0:
        yield Slip(key="pack-as-serving", energy=doses, grams=doses)
        yield Slip(key="serving-as-pack", energy=1.0 / doses, grams=1.0 / doses)
        yield Slip(key="100g-as-pack", energy=1.0 / pack, grams=1.0 / pack)
        yield Slip(key="pack-as-100g", energy=pack, grams=pack)
    yield Slip(key="decimal-right", energy=10.0, grams=1.0)
    yield Slip(key="decimal-left", energy=0.1, grams=1.0)


def undone(food: Food, slip: Slip) -> Food:
    """The food as it would stand without the slip."""
    per = food.per_100g
    grams = {n: _divided(getattr(per, n), slip.grams) for n in MACROS}
    return replace(
        food, per_100g=replace(per, energy_kcal=_divided(per.energy_kcal, slip.energy), **grams)
    )


def _divided(value: float | None, factor: float) -> float | None:
    return None if value is None else value / factor


def energy_range(food: Food) -> tuple[float, float] | None:
    """What energy its macronutrients allow, with the label band and rounding; None: no macros."""
    possible = possible_energy(food.per_100g, fibre_high_g=high_of(food, "fibre_g"))
    if possible is None:
        return None
    slack = energy_slack(food.dose_g) + 17.0 * grams_slack(food.dose_g)
    return possible[0] * (1.0 - BAND / 2) - slack, possible[1] * (1.0 + BAND / 2) + slack


def class_range(food: Food) -> tuple[float, float]:
    """What energy its class can hold, with rounding."""
    low, high = energy_bounds(food)
    slack = energy_slack(food.dose_g)
    return low - slack, high + slack


def grams_over(per: Nutrients, slack: float) -> float:
    """By how much the parts exceed 100 g in 100 g; 0 if they do not."""
    salt = (per.sodium_mg or 0.0) * 2.5 / 1000.0
    total = sum(value or 0.0 for value in (per.protein_g, per.fat_g, per.carb_g)) + salt
    over = total - 100.0 - 3.0 * slack - 1.0
    return max(0.0, over)


def is_whole(food: Food) -> bool:
    """Whether energy, class and macronutrients agree with each other."""
    energy = food.per_100g.energy_kcal
    if energy is None:
        return False
    low, high = class_range(food)
    allowed = energy_range(food)
    fits = low <= energy <= high and (allowed is None or allowed[0] <= energy <= allowed[1])
    return fits and grams_over(food.per_100g, grams_slack(food.dose_g)) == 0.0


_RARE: Final = {
    "kj-as-kcal": 0.0,
    "100g-as-serving": 0.2,
    "serving-as-100g": 0.2,
    "pack-as-serving": 0.4,
}
"""How much further from the middle a rarer slip may not lie; ours, judged by eye."""


def _rarity(food: Food, slip: Slip) -> float:
    if slip.key == "ounces-as-grams" and food.pack_g < SMALL_PACK_G:
        return -1.0
    return _RARE.get(slip.key, 0.6)


def likely_slip(food: Food) -> str:
    """The slip that explains a label best, or an empty text if none does."""
    found = [
        (_distance(mended) + _rarity(food, slip), place, slip.key)
        for place, slip in enumerate(slips(food))
        if abs(math.log(slip.energy)) > 0.15 and is_whole(mended := undone(food, slip))
    ]
    return min(found)[2] if found else ""


def _distance(food: Food) -> float:
    """How far a food lies from the middle of what it should be, in powers of e, to one tenth."""
    energy = max(1.0, food.per_100g.energy_kcal or 0.0)
    bounds = energy_bounds(food)
    middle = math.sqrt(max(20.0, bounds[0]) * max(20.0, bounds[1]))
    per = food.per_100g
    off = abs(math.log(energy / middle))
    if per.protein_g is not None and per.fat_g is not None and per.carb_g is not None:
        summed = 4.0 * per.protein_g + 9.0 * per.fat_g + 4.0 * per.carb_g
        off += 3.0 * abs(math.log(energy / max(1.0, summed)))
    return round(off, 1)
