"""How food labels are made: American rounding, European energy, and the band round any label.

It serves to check labels and to show their totals with a range (C3). Rounding is per serving; the
American rules name no way out of a tie, so both neighbours are accepted. They are rules for labels,
not advice on eating.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from oatsack.values.food import Nutrients

LESS: Final = "less than 1 g"
Label = float | str
BAND: Final = 0.20
"""Half width of the band round totals made from labels. Source: Cfr101, (g)(4)-(5): a label is
wrong only beyond 20 %, to one side; shown to both sides (C3)."""


def us_rounded(nutrient: str, value: float) -> frozenset[Label]:
    """What an American label may say for an amount per serving; more than one at a tie.

    `nutrient` is a name of Nutrients (energy_kcal, fat_g, sodium_mg, ...), `value` in its unit.
    Source: Fda2009, appendix H.
    """
    if nutrient == "energy_kcal":
        return _us_energy(value)
    if nutrient == "fat_g":
        return frozenset({0.0}) if value < 0.5 else _to(value, 0.5 if value < 5.0 else 1.0)
    if nutrient in ("sodium_mg", "potassium_mg"):
        return frozenset({0.0}) if value < 5.0 else _to(value, 5.0 if value <= 140.0 else 10.0)
    if nutrient in ("protein_g", "carb_g", "sugars_g", "fibre_g", "polyols_g"):
        return _us_grams(value, protein=nutrient == "protein_g")
    raise KeyError(f"no rounding rule for {nutrient}")


def _us_energy(value: float) -> frozenset[Label]:
    step = 5.0 if value <= 50.0 else 10.0
    return _to(value, step) | (frozenset({0.0}) if value < 5.0 else frozenset())


def _us_grams(value: float, *, protein: bool) -> frozenset[Label]:
    if value < 0.5:
        return frozenset({0.0})
    if value < 1.0:
        return frozenset({LESS, 1.0}) if protein else frozenset({LESS})
    return _to(value, 1.0)


def _to(value: float, step: float) -> frozenset[Label]:
    """The nearest multiple of a step, or both at a tie."""
    below = math.floor(value / step + 1e-9)
    rest = value / step - below
    if abs(rest - 0.5) < 1e-9:
        return frozenset({below * step, (below + 1) * step})
    return frozenset({(below + (rest > 0.5)) * step})


def us_label(per: Nutrients, serving_g: float) -> Mapping[str, frozenset[Label]]:
    """The lines of an American label for a serving, for every nutrient that is stated."""
    lines = ("energy_kcal", "fat_g", "sodium_mg", "carb_g", "fibre_g", "sugars_g", "protein_g")
    stated = {name: getattr(per, name) for name in lines}
    return {
        name: us_rounded(name, value * serving_g / 100.0)
        for name, value in stated.items()
        if value is not None
    }


def eu_energy(  # one argument for each line of the annex
    protein_g: float,
    fat_g: float,
    *,
    carb_available_g: float,
    fibre_g: float = 0.0,
    polyols_g: float = 0.0,
    acids_g: float = 0.0,
    alcohol_g: float = 0.0,
) -> tuple[float, float]:
    """Energy [kcal] and [kJ] as European labels make it; carbohydrate without fibre and polyols.

    Protein is nitrogen x 6.25. Source: Eu1169, Annex XIV.
    """
    parts = (protein_g, fat_g, carb_available_g, fibre_g, polyols_g, acids_g, alcohol_g)
    kcal = (4.0, 9.0, 4.0, 2.0, 2.4, 3.0, 7.0)
    kj = (17.0, 37.0, 17.0, 8.0, 10.0, 13.0, 29.0)
    return sum(map(_times, parts, kcal)), sum(map(_times, parts, kj))


def _times(amount: float, factor: float) -> float:
    return amount * factor


def band(value: float) -> tuple[float, float]:
    """Low and high of a total made from labels."""
    return value * (1.0 - BAND), value * (1.0 + BAND)


def energy_slack(serving_g: float) -> float:
    """How far rounding can shift an energy per 100 g: 5 kcal a serving. Source: Fda2009, app. H."""
    return 5.0 * 100.0 / serving_g


def grams_slack(serving_g: float) -> float:
    """How far rounding shifts grams per 100 g: half a gram a serving. Source: Fda2009, app. H."""
    return 0.5 * 100.0 / serving_g
