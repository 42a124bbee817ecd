"""Tobler's hiking function (1993): an exponential that peaks on a slight descent."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.model import Bound, Case, Model

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

OFF_PATH = 0.6
"""Factor away from paths. Source: Tobler1993."""


def speed_ms(*, grade_pct: Numbers) -> Numbers:
    """Walking speed on a path [m/s]: ``6 exp(-3.5 |i + 0.05|)`` km/h, i the slope as a fraction.

    Source: Tobler1993.
    """
    return 6.0 / 3.6 * np.exp(-3.5 * np.abs(np.multiply(grade_pct, 0.01) + 0.05))


_KMH = (
    (-50, 1.2420), (-30, 2.5012), (-20, 3.5493), (-10, 5.0367), (-5, 6.0), (0, 5.0367),
    (5, 4.2281), (10, 3.5493), (20, 2.5012), (30, 1.7625), (50, 0.8753),
)  # fmt: skip

MODEL = Model(
    name="tobler",
    help="Tobler's hiking function",
    function=speed_ms,
    unit="m/s",
    sources=("Tobler1993",),
    validity={"grade_pct": Bound(low=-60.0, high=60.0, why="slopes of the data behind it")},
    cases=tuple(
        Case(
            arguments={"grade_pct": float(grade)},
            expected=kmh / 3.6,
            tolerance=0.00005 / 3.6,
            source="Tobler1993, evaluated apart from this code",
            kind="oracle",
        )
        for grade, kmh in _KMH
    ),
    notes="Brisk: a fresh walker without much load. A kink at the peak, -5 %.",
)
