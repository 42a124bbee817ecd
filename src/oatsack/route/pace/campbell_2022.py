"""Campbell et al. (2022): the median speed of hikers by slope, from many recorded tracks.

A Lorentz curve over the slope in degrees. Recorded by people on day walks, pauses filtered out.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.model import Bound, Case, Model

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

A, B, C, D, E = -1.4579, 22.0787, 76.3271, 0.0525, -3.2002e-4


def speed_ms(*, grade_pct: Numbers) -> Numbers:
    """Walking speed [m/s]: ``c / (pi b (1 + ((th - a)/b)^2)) + d + e th``, th in degrees.

    Source: Campbell2022, median.
    """
    degrees = np.degrees(np.arctan(np.multiply(grade_pct, 0.01)))
    bell = C / (math.pi * B * (1.0 + np.square((degrees - A) / B)))
    return bell + D + E * degrees


def _case(grade_pct: float, expected: float, digit: float) -> Case:
    return Case(
        arguments={"grade_pct": grade_pct},
        expected=expected,
        tolerance=digit / 2,
        source="Campbell2022, evaluated apart from this code",
        kind="oracle",
    )


_DEGREES = ((-30, 0.47406), (-15, 0.85690), (0, 1.14813), (15, 0.75506), (30, 0.40606))
_PERCENT = ((-20, 0.9738), (-10, 1.1154), (10, 1.0461), (20, 0.8735))

MODEL = Model(
    name="campbell-2022",
    help="Median of many hikers' recorded tracks",
    function=speed_ms,
    unit="m/s",
    sources=("Campbell2022, median",),
    validity={"grade_pct": Bound(low=-57.8, high=57.8, why="-30 to +30 degrees")},
    cases=tuple(
        _case(100 * math.tan(math.radians(degrees)), speed, 1e-5) for degrees, speed in _DEGREES
    )
    + tuple(_case(float(grade), speed, 1e-4) for grade, speed in _PERCENT),
    notes="Seen in one source only.",
)
