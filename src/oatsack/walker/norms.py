"""Whole-day requirements as two public bodies publish them: a check on the sums, never a part.

They hold daily life and the heat of food already, so nothing is ever added to them. For a walker
under 18 the older norm is also the floor of the need.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from oatsack.values.walker import Sex

Level = Literal["inactive", "low", "active", "very"]
LEVELS: tuple[Level, ...] = ("inactive", "low", "active", "very")

_IOM_ACTIVITY: Mapping[Sex, tuple[float, ...]] = MappingProxyType(
    {"male": (1.0, 1.11, 1.25, 1.48), "female": (1.0, 1.12, 1.27, 1.45)}
)
_IOM_YOUTH_ACTIVITY: Mapping[Sex, tuple[float, ...]] = MappingProxyType(
    {"male": (1.0, 1.13, 1.26, 1.42), "female": (1.0, 1.16, 1.31, 1.56)}
)
_NASEM: Mapping[Sex, tuple[tuple[float, float, float, float], ...]] = MappingProxyType(
    {
        "male": (
            (753.07, -10.83, 6.50, 14.10),
            (581.47, -10.83, 8.30, 14.94),
            (1004.82, -10.83, 6.52, 15.91),
            (-517.88, -10.83, 15.61, 19.11),
        ),
        "female": (
            (584.90, -7.01, 5.72, 11.71),
            (575.77, -7.01, 6.60, 12.14),
            (710.25, -7.01, 6.54, 12.34),
            (511.83, -7.01, 9.07, 12.56),
        ),
    }
)


def _iom_adult(mass_kg: float, height_m: float, age_years: float, sex: Sex, rank: int) -> float:
    pa = _IOM_ACTIVITY[sex][rank]
    if sex == "male":
        return 662.0 - 9.53 * age_years + pa * (15.91 * mass_kg + 539.6 * height_m)
    return 354.0 - 6.91 * age_years + pa * (9.36 * mass_kg + 726.0 * height_m)


def _iom_youth(mass_kg: float, height_m: float, age_years: float, sex: Sex, rank: int) -> float:
    pa = _IOM_YOUTH_ACTIVITY[sex][rank]
    growth = 20.0 if age_years < 9 else 25.0
    if sex == "male":
        return 88.5 - 61.9 * age_years + pa * (26.7 * mass_kg + 903.0 * height_m) + growth
    return 135.3 - 30.8 * age_years + pa * (10.0 * mass_kg + 934.0 * height_m) + growth


def iom_2005(
    mass_kg: float, height_cm: float, *, age_years: float, sex: Sex | None, level: Level = "active"
) -> float:
    """Estimated requirement of a whole day [kcal]; between the sexes where none is stated.

    Source: IOM2005, requirement equations for adults; those from 3 to 18 years from memory.
    """
    rank = LEVELS.index(level)
    equation = _iom_youth if age_years < 19 else _iom_adult
    both: tuple[Sex, ...] = ("female", "male") if sex is None else (sex,)
    values = [equation(mass_kg, height_cm / 100.0, age_years, one, rank) for one in both]
    return sum(values) / len(values)


def nasem_2023(
    mass_kg: float, height_cm: float, *, age_years: float, sex: Sex | None, level: Level = "active"
) -> float:
    """Estimated requirement of a whole day, 19 years and over [kcal].

    Source: NASEM2023, table S-1.
    """
    both: tuple[Sex, ...] = ("female", "male") if sex is None else (sex,)
    rows = [_NASEM[one][LEVELS.index(level)] for one in both]
    values = [a + b * age_years + c * height_cm + d * mass_kg for a, b, c, d in rows]
    return sum(values) / len(values)
