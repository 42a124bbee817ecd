"""Marquez-Perez et al. (2017): Tobler's form fitted again to records of marked trails."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.model import Bound, Case, Model

if TYPE_CHECKING:
    from oatsack.values.model import Numbers


def speed_ms(*, grade_pct: Numbers) -> Numbers:
    """Walking speed [m/s]: ``4.8 exp(-5.3 |0.7 i + 0.03|)`` km/h, i the slope as a fraction.

    Source: MarquezPerez2017.
    """
    return 4.8 / 3.6 * np.exp(-5.3 * np.abs(0.7 * np.multiply(grade_pct, 0.01) + 0.03))


_KMH = ((0.0, 4.0944), (10.0, 2.8253), (-10.0, 3.8830), (20.0, 1.9496), (-20.0, 2.6795))

MODEL = Model(
    name="marquez-perez-2017",
    help="Tobler's form fitted again on marked trails",
    function=speed_ms,
    unit="m/s",
    sources=("MarquezPerez2017",),
    validity={"grade_pct": Bound(low=-50.0, high=50.0, why="slopes of the trails behind it")},
    cases=tuple(
        Case(
            arguments={"grade_pct": grade}, expected=kmh / 3.6, tolerance=0.00005 / 3.6,
            source="MarquezPerez2017, evaluated apart from this code", kind="oracle",
        )
        for grade, kmh in _KMH
    ),
    notes="Seen in one source only. A kink at the peak, -4.3 %.",
)  # fmt: skip
