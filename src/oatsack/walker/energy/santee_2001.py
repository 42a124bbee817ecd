"""Santee et al. (2001): the slope's part of the cost alone, another shape than the 2003 correction.

Level cost plus work against gravity: dearer uphill, a credit downhill that fades as it gets steep.
It is a term, not a model of its own, so it stands beside the shelf and not on it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

GRAVITY_MS2 = 9.81
UP, DOWN, FADES, OVER_DEGREES = 3.5, 2.4, 0.3, 7.65


def slope_w(*, total_kg: float, speed_ms: Numbers, grade_pct: Numbers) -> Numbers:
    """What the slope adds [W], negative downhill; `total_kg` is body and load together.

    Up ``3.5 m g V sin(a)``, down ``2.4 m g V sin(a) 0.3^(|a|/7.65)``, a in degrees.
    Source: Santee2001, seen in one public implementation.
    """
    angle = np.arctan(np.multiply(grade_pct, 0.01))
    work = total_kg * GRAVITY_MS2 * np.multiply(speed_ms, np.sin(angle))
    fading = DOWN * np.power(FADES, np.abs(np.degrees(angle)) / OVER_DEGREES)
    return np.where(angle > 0.0, UP, fading) * work
