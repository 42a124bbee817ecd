"""The American College of Sports Medicine's walking equation: level and uphill, brisk, no load.

A gymnasium formula, kept as a second opinion. It is not defined downhill, where the level cost
stands in and the result is flagged.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.model import Bound, Case, Model
from oatsack.walker.joules import OXYGEN_W

if TYPE_CHECKING:
    from oatsack.values.model import Numbers


def oxygen(speed_ms: Numbers, grade_pct: Numbers) -> Numbers:
    """Gross oxygen [ml/kg/min]: ``0.1 s + 1.8 s i + 3.5`` with s in m/min and i as a fraction.

    Source: ACSM, metabolic equation for walking. A descent counts as level.
    """
    metres_per_min = np.multiply(speed_ms, 60.0)
    slope = np.maximum(grade_pct, 0.0) * 0.01
    return metres_per_min * (0.1 + 1.8 * slope) + 3.5


def power_w(
    *,
    mass_kg: Numbers,
    load_kg: Numbers,
    speed_ms: Numbers,
    grade_pct: Numbers,
    terrain: Numbers = 1.0,
    resting_w: Numbers = 0.0,
) -> Numbers:
    """Gross power of walking [W], with the load charged like body mass (our addition, C7).

    `terrain` and `resting_w` are accepted as on the whole shelf and not used.
    Source: ACSM. Range: see `MODEL.validity`.
    """
    return (mass_kg + load_kg) * oxygen(speed_ms, grade_pct) * OXYGEN_W


_ROWS = ((80.0, 0.0, 11.5, 0.05), (80.0, 5.0, 18.7, 0.05), (75.0, 10.0, 24.5, 0.05),
         (5000 / 60, 10.0, 26.8333, 0.00005))  # fmt: skip

MODEL = Model(
    name="acsm",
    help="The ACSM walking equation, times total mass; level and uphill only",
    function=power_w,
    unit="W",
    sources=("ACSM, walking equation", "ours, load as body mass"),
    validity={
        "speed_ms": Bound(low=50 / 60, high=100 / 60, why="50 to 100 m/min"),
        "grade_pct": Bound(low=0.0, high=30.0, why="not defined downhill"),
        "load_share": Bound(low=0.0, high=0.0, why="no loads in the equation"),
        "terrain": Bound(low=1.0, high=1.0, why="treadmill"),
    },
    derived={"load_share": lambda *, mass_kg, load_kg, **_: load_kg / mass_kg},
    cases=tuple(
        Case(
            arguments={
                "mass_kg": 1.0,
                "load_kg": 0.0,
                "speed_ms": pace / 60.0,
                "grade_pct": grade,
            },
            expected=expected * OXYGEN_W,
            tolerance=tolerance * OXYGEN_W,
            source="ACSM, evaluated apart from this code",
            kind="oracle",
        )
        for pace, grade, expected, tolerance in _ROWS
    ),
    notes="Too low on the level at low speed.",
)
