"""Naismith's rule (1892), bare and as Aitken and Langmuir refined it: time from distance and climb.

The rule of the trade. As a speed it is the way over the time of one metre; as times it is exact
for whole days. Langmuir's allowances for descents jump at 5 and at 12 degrees.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.model import Bound, Case, Model

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

SPEED_KMH = 5.0
AITKEN_KMH = 4.0
"""Away from good surfaces."""
CLIMB_M_PER_H = 600.0
GENTLE_PCT = 100.0 * math.tan(math.radians(5.0))
STEEP_PCT = 100.0 * math.tan(math.radians(12.0))
DESCENT_S_PER_M = 2.0
"""Ten minutes for every 300 m."""
FLAT_METRES_PER_CLIMBED = 8.0
FASTEST_MS = 2.0
"""As a speed the rule would run down a 20 % slope at 11 km/h; it is held at 7.2 (ours)."""


def minutes(
    distance_m: Numbers,
    ascent_m: Numbers,
    *,
    gentle_m: Numbers = 0.0,
    steep_m: Numbers = 0.0,
    speed_kmh: float = SPEED_KMH,
) -> Numbers:
    """Walking time [min]: an hour for 5 km, and one for 600 m of climb.

    `gentle_m` are metres of descent on slopes of 5 to 12 degrees, which save ten minutes for every
    300; `steep_m` are those on steeper ones, which cost as much. Source: Naismith1892;
    Langmuir1984 for descents and for Aitken's 4 km/h.
    """
    level = distance_m * 0.06 / speed_kmh
    climb = ascent_m * 60.0 / CLIMB_M_PER_H
    return level + climb + (steep_m - gentle_m) * DESCENT_S_PER_M / 60.0


def flat_distance_m(distance_m: Numbers, ascent_m: Numbers) -> Numbers:
    """The level distance that takes as long [m]: each metre of climb counts as eight.

    Source: Naismith1892, in its metric form of eight to one.
    """
    return distance_m + FLAT_METRES_PER_CLIMBED * ascent_m


def speed_ms(*, grade_pct: Numbers) -> Numbers:
    """Speed along the map by Naismith with Langmuir's descents [m/s], held at `FASTEST_MS`.

    Slope in percent. Source: Naismith1892, Langmuir1984.
    """
    slope = np.multiply(grade_pct, 0.01)
    seconds = 3.6 / SPEED_KMH + np.maximum(slope, 0.0) * 3600.0 / CLIMB_M_PER_H
    gentle = np.less_equal(grade_pct, -GENTLE_PCT) & np.greater_equal(grade_pct, -STEEP_PCT)
    steep = np.less(grade_pct, -STEEP_PCT)
    seconds = seconds + DESCENT_S_PER_M * slope * np.where(gentle, 1.0, 0.0)
    seconds = seconds - DESCENT_S_PER_M * slope * np.where(steep, 1.0, 0.0)
    return 1.0 / np.maximum(seconds, 1.0 / FASTEST_MS)


_ROWS = ((0.0, 1 / 0.72), (10.0, 1 / 1.32), (20.0, 1 / 1.92), (-10.0, 1 / 0.52), (-30.0, 1 / 1.32))

MODEL = Model(
    name="naismith",
    help="Naismith's rule with Langmuir's descents: 5 km/h, an hour for 600 m of climb",
    function=speed_ms,
    unit="m/s",
    sources=("Naismith1892, the rule", "Langmuir1984, descents"),
    validity={"grade_pct": Bound(low=-45.0, high=45.0, why="paths; the rule states no range")},
    cases=tuple(
        Case(
            arguments={"grade_pct": grade},
            expected=expected,
            tolerance=1e-9,
            source="Naismith1892 and Langmuir1984, seconds per metre summed by hand",
            kind="oracle",
        )
        for grade, expected in _ROWS
    ),
    notes="Not continuous at 5 and at 12 degrees of descent; held at 7.2 km/h. Without rests.",
)
