"""Campbell et al. (2019): speeds by slope from fitness-tracking records, by percentile.

The records mix walking with running: the median jogs on the flat, so the tenth percentile stands on
the shelf for walkers and the others are kept for comparison.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, Literal

import numpy as np

from oatsack.values.model import Bound, Case, Model

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

Percentile = Literal[10, 50, 90]
CURVES: Mapping[Percentile, tuple[float, float, float, float, float]] = {
    10: (-1.568, 13.328, 38.892, 0.404, -0.003),
    50: (-2.171, 10.064, 63.66, 0.628, -0.005),
    90: (-3.06, 16.653, 138.875, 0.823, -0.0139),
}
"""a, b, c, d, e of each percentile's curve."""


def at_percentile(percentile: Percentile, grade_pct: Numbers) -> Numbers:
    """Speed [m/s] of a percentile of the records: ``c/(pi b (1 + ((th - a)/b)^2)) + d + e th``.

    `th` is the slope in degrees. Source: Campbell2019.
    """
    a, b, c, d, e = CURVES[percentile]
    degrees = np.degrees(np.arctan(np.multiply(grade_pct, 0.01)))
    bell = c / (math.pi * b * (1.0 + np.square((degrees - a) / b)))
    return bell + d + e * degrees


def speed_ms(*, grade_pct: Numbers) -> Numbers:
    """Walking speed [m/s]: the tenth percentile. Source: Campbell2019."""
    return at_percentile(10, grade_pct)


_SPEEDS = (
    (0.0, 1.3202, 1e-4), (-20.0, 1.043332, 1e-6), (-10.0, 1.268152, 1e-6), (10.0, 1.102337, 1e-6),
    (20.0, 0.850443, 1e-6),
)  # fmt: skip

MODEL = Model(
    name="campbell-2019",
    help="Tenth percentile of fitness-tracking records, which mix walking and running",
    function=speed_ms,
    unit="m/s",
    sources=("Campbell2019, percentile 10",),
    validity={"grade_pct": Bound(low=-57.8, high=57.8, why="-30 to +30 degrees")},
    cases=tuple(
        Case(arguments={"grade_pct": grade}, expected=speed, tolerance=digit / 2,
             source="Campbell2019, evaluated apart from this code", kind="oracle")
        for grade, speed, digit in _SPEEDS
    ),
    notes="Seen in one source only. Brisk: a slow runner is among the walkers.",
)  # fmt: skip
