"""Energy of a food from its macronutrients: several published ways, and the fallback (C3).

The label or table value always comes first: on carbohydrate by difference the general factors run
7 % high for nuts and up to 90 % for cocoa powder. Only a food that states no energy is given a sum,
and a flag says so. Nutrients are per 100 g, carbohydrate by difference (fibre in it).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from oatsack.values.flags import Flag
from oatsack.values.food import Food, Nutrients

KJ_PER_KCAL: Final = 4.184
"""Source: Usda2015, documentation, energy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Factors:
    """kcal per gram of protein, fat and carbohydrate by difference. Source: Usda2015, FOOD_DES."""

    protein: float
    fat: float
    carb: float


GENERAL: Final = Factors(protein=4.0, fat=9.0, carb=4.0)
SPECIFIC: Final[Mapping[str, Factors]] = {
    "oats": Factors(protein=3.46, fat=8.37, carb=4.12),
    "peanuts": Factors(protein=3.47, fat=8.37, carb=4.07),
    "tree nuts": Factors(protein=3.47, fat=8.37, carb=4.07),
    "milk": Factors(protein=4.27, fat=8.79, carb=3.87),
    "honey": Factors(protein=3.36, fat=8.37, carb=3.68),
    "white rice": Factors(protein=3.82, fat=8.37, carb=4.16),
    "olive oil": Factors(protein=0.0, fat=8.84, carb=0.0),
}
"""Specific factors by kind of food. Source: Usda2015, FOOD_DES; their origin MerrillWatt1973."""


def by_factors(
    protein_g: float, fat_g: float, carb_g: float, *, factors: Factors = GENERAL
) -> float:
    """Energy [kcal] of grams of protein, fat and carbohydrate by difference."""
    return factors.protein * protein_g + factors.fat * fat_g + factors.carb * carb_g


def fibre_apart(per: Nutrients) -> float | None:
    """Energy [kcal per 100 g] with fibre at 2 kcal/g and polyols at 2.4; None: a macro is blank.

    4 P + 9 F + 4 (C - fibre - polyols) + 2 fibre + 2.4 polyols. Blank fibre counts as none.
    Source: Eu1169, Annex XIV.
    """
    if per.protein_g is None or per.fat_g is None or per.carb_g is None:
        return None
    fibre, polyols = per.fibre_g or 0.0, per.polyols_g or 0.0
    digested = max(0.0, per.carb_g - fibre - polyols)
    return by_factors(per.protein_g, per.fat_g, digested) + 2.0 * fibre + 2.4 * polyols


def with_energy(food: Food) -> tuple[Food, tuple[Flag, ...]]:
    """The food with an energy: as stated, else from its macronutrients, flagged (C3).

    A food with neither keeps its blank, is flagged, and may enter no menu.
    """
    if food.per_100g.energy_kcal is not None:
        return food, ()
    scope = f"larder/{food.id}"
    energy = fibre_apart(food.per_100g)
    if energy is None:
        flag = Flag(key="larder.no-energy", level="quiet", scope=scope, values={"food": food.id})
        return food, (flag,)
    flag = Flag(
        key="larder.energy-from-macros",
        level="note",
        scope=scope,
        values={"food": food.id, "energy_kcal": energy},
        source="Eu1169, Annex XIV",
    )
    marked = replace(food.origin, invented=food.origin.invented | {"energy_kcal"})
    per = replace(food.per_100g, energy_kcal=energy)
    return replace(food, per_100g=per, origin=marked), (flag,)


def possible_energy(per: Nutrients, *, fibre_high_g: float) -> tuple[float, float] | None:
    """Least and most energy [kcal per 100 g] that the stated macronutrients can mean.

    The lowest specific factors on what is digested, the highest on everything; a blank fibre may be
    as much as `fibre_high_g`. None: a macronutrient is blank. Source: MerrillWatt1973, the span of
    its factors (2.44 to 4.36, 8.37 to 9.02, 3.60 to 4.20; as remembered, from memory).
    """
    if per.protein_g is None or per.fat_g is None or per.carb_g is None:
        return None
    fibre = min(fibre_high_g, per.carb_g) if per.fibre_g is None else per.fibre_g
    digested = max(0.0, per.carb_g - fibre - (per.polyols_g or 0.0))
    low = 2.44 * per.protein_g + 8.37 * per.fat_g + 3.6 * digested
    high = 4.36 * per.protein_g + 9.02 * per.fat_g + 4.2 * per.carb_g
    return low, high
