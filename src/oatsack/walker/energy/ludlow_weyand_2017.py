"""Ludlow and Weyand (2017): the least mechanics that explain speed, slope and load.

Oxygen above a resting 3.05 ml/kg/min, in proportion to the total mass. Downhill is a flat 73 % of
the level, whatever the slope. Also here: their height-weight-speed formula for the level (2016).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.model import Bound, Case, Model
from oatsack.walker.joules import OXYGEN_W

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

RESTING_ML_KG_MIN = 3.05
DOWNHILL_SHARE = 0.73


def walking_oxygen(speed_ms: Numbers, grade_pct: Numbers) -> Numbers:
    """Oxygen above rest of each kilogram that moves [ml/kg/min].

    Uphill ``0.32 G + 3.28 + (1 + 0.19 G) 2.66 V^2``, downhill ``0.73 (3.28 + 2.66 V^2)``.
    Source: LudlowWeyand2017, minimum mechanics model.
    """
    square = 2.66 * np.square(speed_ms)
    climb = np.maximum(grade_pct, 0.0)
    uphill = 0.32 * climb + 3.28 + (1.0 + 0.19 * climb) * square
    return np.where(np.less(grade_pct, 0.0), DOWNHILL_SHARE * (3.28 + square), uphill)[()]


def level_oxygen(speed_ms: Numbers, height_m: Numbers, *, rest: float = 3.5) -> Numbers:
    """Gross oxygen of level walking without a load [ml/kg/min]: ``rest + 3.85 + 5.97 V^2 / H``.

    Source: LudlowWeyand2016, height-weight-speed model; 0.4 to 1.9 m/s.
    """
    return rest + 3.85 + 5.97 * np.square(speed_ms) / height_m


def power_w(
    *,
    mass_kg: Numbers,
    load_kg: Numbers,
    speed_ms: Numbers,
    grade_pct: Numbers,
    terrain: Numbers = 1.0,
    resting_w: Numbers = 0.0,
) -> Numbers:
    """Gross power of walking with a load [W].

    The rest is the model's own (`resting_w` is accepted as on the whole shelf and not used); the
    terrain factor multiplies the walking part, which is our addition (C7).
    Source: LudlowWeyand2017. Range: see `MODEL.validity`.
    """
    walking = terrain * (mass_kg + load_kg) * walking_oxygen(speed_ms, grade_pct)
    return OXYGEN_W * (RESTING_ML_KG_MIN * mass_kg + walking)


_ROWS = (
    (0.0, 0.0, 10.4862), (12.0, 0.0, 11.6761), (12.0, 10.0, 24.5484), (12.0, 20.0, 37.4208),
    (12.0, -10.0, 9.3470),
)  # fmt: skip

MODEL = Model(
    name="ludlow-weyand-2017",
    help="Ludlow and Weyand's minimum mechanics",
    function=power_w,
    unit="W",
    sources=("LudlowWeyand2017, minimum mechanics", "ours, terrain on the walking part"),
    validity={
        "speed_ms": Bound(low=0.4, high=1.6, why="treadmill speeds of the study"),
        "grade_pct": Bound(low=-10.51, high=15.84, why="-6 to +9 degrees"),
        "load_share": Bound(low=0.0, high=0.31, why="loads of 0, 18 and 31 % of body mass"),
        "terrain": Bound(low=1.0, high=1.5, why="treadmill; the factor is our addition"),
    },
    derived={"load_share": lambda *, mass_kg, load_kg, **_: load_kg / mass_kg},
    cases=tuple(
        Case(
            arguments={"mass_kg": 75.0, "load_kg": load, "speed_ms": 1.25, "grade_pct": grade},
            expected=oxygen * 75.0 * OXYGEN_W,
            tolerance=0.000051 * 75.0 * OXYGEN_W,
            source="LudlowWeyand2017, evaluated apart from this code",
            kind="oracle",
        )
        for load, grade, oxygen in _ROWS
    ),
    notes="Not continuous at zero slope: the least descent saves 27 % of the walking part.",
)
