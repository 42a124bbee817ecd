"""Hall's adult model (2011): body mass day by day after a change of intake. A comparator.

Five stores: fat, lean tissue, glycogen with its water, water outside the cells, and an adaptive
term of expenditure. It was made for a changed diet at steady activity; a walker's shortfall comes
from more work at near normal intake, so the plan itself uses `tissue.py` and a stated allowance of
water, and this model stands beside it in the reference.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from oatsack.walker.joules import JOULES_PER_KCAL
from oatsack.walker.person import Body
from oatsack.walker.resting import mifflin_unrounded
from oatsack.walker.tissue import FAT_KCAL_KG, LEAN_KCAL_KG, fat_kg, lean_energy_share

if TYPE_CHECKING:
    from oatsack.walker.stretches import Column

_KJ = 1000.0 / JOULES_PER_KCAL
GLYCOGEN_KCAL_KG = 17600.0 * _KJ
FAT_UPKEEP, LEAN_UPKEEP = 13.0 * _KJ, 92.0 * _KJ
"""Expenditure of a kilogram of fat and of lean tissue [kcal/kg/day]."""
FAT_BUILDING, LEAN_BUILDING = 750.0 * _KJ, 960.0 * _KJ
"""Cost of making a kilogram of either [kcal/kg]."""
THERMIC, ADAPTIVE, ADAPTIVE_DAYS = 0.1, 0.14, 14.0
GLYCOGEN_KG, GLYCOGEN_MASS = 0.5, 3.7
"""Glycogen at the start, and its mass with the water bound to it."""
FASTEST_A_STEP = 2.0
"""How often glycogen may turn over in one step; beyond 2.8 the method swings up (ours)."""
SODIUM_MG_L, SODIUM_KEEP, SODIUM_CARB = 3220.0, 3000.0, 4000.0
"""Source of all: Hall2011, parameters as printed in two public implementations."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """The body at the start, in balance, and the constants that follow from it."""

    intake_kcal: float
    carb_kcal: float
    fat_kg: float
    lean_kg: float
    water_l: float
    activity: float
    """Cost of activity [kcal/kg/day]."""
    constant: float
    """What is left of the balance [kcal/day]."""


def water_outside_cells_l(body: Body) -> float:
    """Usual water outside the cells [l]. Source: Hall2011, starting values."""
    height = body.height_cm / 100.0
    male = 0.025 * body.age_years + 9.57 * height + 0.191 * body.mass_kg - 12.4
    female = 5.98 * height + 0.167 * body.mass_kg - 4.0
    return {"male": male, "female": female, None: (male + female) / 2.0}[body.sex]


def start(body: Body, *, activity_level: float = 1.6, carb_share: float = 0.5) -> Start:
    """The body in balance at this level of activity and share of carbohydrate."""
    resting = mifflin_unrounded(
        mass_kg=body.mass_kg, height_cm=body.height_cm, age_years=body.age_years, sex=body.sex
    )
    intake = activity_level * resting
    fat, water = fat_kg(body), water_outside_cells_l(body)
    lean = body.mass_kg - fat - water - GLYCOGEN_MASS * GLYCOGEN_KG
    activity = ((1.0 - THERMIC) * activity_level - 1.0) * resting / body.mass_kg
    upkeep = FAT_UPKEEP * fat + LEAN_UPKEEP * lean + activity * body.mass_kg
    return Start(
        intake_kcal=intake, carb_kcal=carb_share * intake, fat_kg=fat, lean_kg=lean,
        water_l=water, activity=activity, constant=intake - upkeep,
    )  # fmt: skip


def _rates(state: Column, begin: Start, intake: float) -> Column:
    """Change per day of fat, lean, glycogen, water and adaptation."""
    fat, lean, glycogen, water, adaptive = (float(v) for v in state)
    carb = begin.carb_kcal * intake / begin.intake_kcal
    burn = begin.carb_kcal / GLYCOGEN_KG**2
    glycogen_rate = (carb - burn * glycogen**2) / GLYCOGEN_KCAL_KG
    salt = SODIUM_KEEP * (water - begin.water_l) + SODIUM_CARB * (1.0 - carb / begin.carb_kcal)
    change = intake - begin.intake_kcal
    mass = fat + lean + water + GLYCOGEN_MASS * glycogen
    spent = (
        begin.constant + FAT_UPKEEP * fat + LEAN_UPKEEP * lean + begin.activity * mass
        + THERMIC * change + adaptive
    )  # fmt: skip
    p = lean_energy_share(fat)
    left = intake - GLYCOGEN_KCAL_KG * glycogen_rate - spent
    # Building tissue costs energy that depends on how fast it is built: solved in closed form.
    building = 1.0 + FAT_BUILDING * (1.0 - p) / FAT_KCAL_KG + LEAN_BUILDING * p / LEAN_KCAL_KG
    tissue = left / building
    return np.array([
        (1.0 - p) * tissue / FAT_KCAL_KG,
        p * tissue / LEAN_KCAL_KG,
        glycogen_rate,
        -salt / SODIUM_MG_L,
        (ADAPTIVE * change - adaptive) / ADAPTIVE_DAYS,
    ])  # fmt: skip


def course(
    body: Body,
    change_kcal_day: float,
    *,
    days: int,
    activity_level: float = 1.6,
    carb_share: float = 0.5,
) -> Column:
    """The body day by day after intake changed by so much, from day 0.

    Rows of fat, lean tissue, glycogen and water outside the cells [kg]; steps of a day by the
    classical fourth-order method, finer where carbohydrate is burnt so fast that a day is too
    coarse for it. Source: Hall2011, web appendix as implemented in public.
    """
    begin = start(body, activity_level=activity_level, carb_share=carb_share)
    intake = begin.intake_kcal + change_kcal_day
    state = np.array([begin.fat_kg, begin.lean_kg, GLYCOGEN_KG, begin.water_l, 0.0])
    rows = [state]
    a_day = 2.0 * begin.carb_kcal / (GLYCOGEN_KG * GLYCOGEN_KCAL_KG)
    parts = max(1, math.ceil(a_day / FASTEST_A_STEP))
    for _ in range(days):
        for _ in range(parts):
            state = state + _step(state, begin, intake, 1.0 / parts)
        rows.append(state)
    return np.array(rows)[:, :4]


def _step(state: Column, begin: Start, intake: float, days: float) -> Column:
    """What changes over a part of a day."""
    k1 = _rates(state, begin, intake)
    k2 = _rates(state + 0.5 * days * k1, begin, intake)
    k3 = _rates(state + 0.5 * days * k2, begin, intake)
    k4 = _rates(state + days * k3, begin, intake)
    change: Column = (k1 + 2.0 * k2 + 2.0 * k3 + k4) / 6.0 * days
    return change


def mass_change_kg(
    body: Body, change_kcal_day: float, *, days: int, activity_level: float = 1.6
) -> float:
    """Change on the scales after so many days [kg]: tissue, glycogen with its water, and water."""
    rows = course(body, change_kcal_day, days=days, activity_level=activity_level)
    weights = np.array([1.0, 1.0, GLYCOGEN_MASS, 1.0])
    return float((rows[-1] - rows[0]) @ weights)
