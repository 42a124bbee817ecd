"""What a shortfall costs the body: tissue by Forbes's curve, and the old rule beside it.

Lean people lose more lean tissue, which holds less energy, so a kilogram of theirs is cheaper than
the common 7700 kcal. Scales show more in the first week: glycogen and the water with it.
"""

from __future__ import annotations

import math

from oatsack.walker.joules import JOULES_PER_KCAL
from oatsack.walker.person import Body

FAT_KCAL_KG = 39.5e6 / JOULES_PER_KCAL
LEAN_KCAL_KG = 7.6e6 / JOULES_PER_KCAL
"""Energy in a kilogram of body fat and of lean tissue. Source: Hall2011, parameter table."""
FORBES_KG = 10.4
"""Slope of lean mass over the logarithm of fat. Source: Hall2007."""
SPLIT_KG = FORBES_KG * LEAN_KCAL_KG / FAT_KCAL_KG
RULE_KCAL_KG = 7700.0
"""The common rule, 3500 kcal per pound. Source: Wishnofsky1958, rounded as usual."""
WATER_KG = (0.5, 1.0)
"""Glycogen and its water, lost in the first days and back on eating: an allowance, ours."""
FAT_SPREAD = 0.35
"""How far a person's fat may lie from the usual, as a share (ours)."""
FULL_ALLOWANCE_KCAL = 3000.0
"""Shortfall at which the whole allowance is gone; less takes as much less (ours)."""


def fat_share(body: Body) -> float:
    """Usual share of fat in a body of this mass, height, age and sex, held within 5 and 60 %.

    ``0.14 A + 37.31 ln BMI - 103.94`` percent for men, ``39.96 ... - 102.01`` for women; halfway
    where no sex is stated. Source: Hall2011, starting values.
    """
    bmi = body.mass_kg / (body.height_cm / 100.0) ** 2
    by_sex = {
        "male": 0.14 * body.age_years + 37.31 * math.log(bmi) - 103.94,
        "female": 0.14 * body.age_years + 39.96 * math.log(bmi) - 102.01,
    }
    chosen = list(by_sex.values()) if body.sex is None else [by_sex[body.sex]]
    return min(0.60, max(0.05, sum(chosen) / len(chosen) / 100.0))


def fat_kg(body: Body) -> float:
    """Usual mass of fat [kg]."""
    return body.mass_kg * fat_share(body)


def lean_energy_share(fat: float) -> float:
    """Which part of the missing energy comes from lean tissue: ``C / (C + F)``, C 2.0 kg.

    Source: Hall2007.
    """
    return SPLIT_KG / (SPLIT_KG + fat)


def lean_mass_share(fat: float) -> float:
    """Which part of the lost mass is lean: ``10.4 / (10.4 + F)``. Source: Hall2007."""
    return FORBES_KG / (FORBES_KG + fat)


def energy_kcal_per_kg(fat: float) -> float:
    """Energy in a kilogram of tissue lost at this mass of fat [kcal/kg]. Source: Hall2007."""
    lean = lean_energy_share(fat)
    return 1.0 / ((1.0 - lean) / FAT_KCAL_KG + lean / LEAN_KCAL_KG)


def fat_after(fat: float, change_kg: float) -> float:
    """Fat left after body mass changed by so much [kg]: ``10.4 W((F/10.4) exp((F + dM)/10.4))``.

    W is Lambert's function, found here by Newton's steps on its logarithm. Source: Hall2007.
    """
    target = math.log(fat / FORBES_KG) + (fat + change_kg) / FORBES_KG
    w = fat / FORBES_KG
    for _ in range(60):
        step = (math.log(w) + w - target) / (1.0 / w + 1.0)
        w = max(w - step, w / 4.0)
        if abs(step) < 1e-14 * max(1.0, w):
            break
    return FORBES_KG * w


def water_kg(deficit_kcal: float) -> tuple[float, float]:
    """Least and most water and glycogen that the scales will miss besides tissue [kg]."""
    part = min(1.0, max(0.0, deficit_kcal) / FULL_ALLOWANCE_KCAL)
    return WATER_KG[0] * part, WATER_KG[1] * part


def energy_availability(eaten_kcal: float, exercise_kcal: float, *, fat_free_kg: float) -> float:
    """What is left of a day's food for everything but exercise [kcal per kg fat-free mass].

    Around 45 is called healthy, under 30 low; the line comes from short studies of young women, is
    weak for men and for walks of a few days. Source: Burke2018, Areta2021.
    """
    return (eaten_kcal - exercise_kcal) / fat_free_kg
