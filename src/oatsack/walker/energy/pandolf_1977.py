"""Pandolf (1977) on the level and uphill, with Santee's correction downhill: the classic.

Raw, the formula goes below zero downhill, so descents always carry the correction. That was tested
at one speed, jumps at zero slope, and runs away beyond -15 %, where the slope is therefore held.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.model import Bound, Case, Model

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

STEEPEST_DESCENT_PCT = -15.0


def level_power_w(
    mass_kg: Numbers, load_kg: Numbers, *, speed_ms: Numbers, grade_pct: Numbers, terrain: Numbers
) -> Numbers:
    """The formula of 1977 as printed [W]: for the level and uphill only.

    ``1.5 W + 2 (W + L)(L/W)^2 + eta (W + L)(1.5 V^2 + 0.35 V G)``. Source: Pandolf1977.
    """
    share = load_kg / mass_kg
    total = mass_kg + load_kg
    standing = 1.5 * mass_kg + 2.0 * total * share * share
    return standing + terrain * total * speed_ms * (1.5 * speed_ms + 0.35 * grade_pct)


def descent_correction_w(
    mass_kg: Numbers, load_kg: Numbers, *, speed_ms: Numbers, grade_pct: Numbers, terrain: Numbers
) -> Numbers:
    """What is taken off downhill [W], with the slope as a negative percentage.

    ``eta (G (W + L) V / 3.5 - (W + L)(G + 6)^2 / W + 25 - V^2)``. Source: Santee2003. A copy with
    ``25 V^2`` is about, and is wrong.
    """
    total = mass_kg + load_kg
    bowl = np.square(grade_pct + 6.0) * total / mass_kg
    return terrain * (grade_pct * total * speed_ms / 3.5 - bowl + 25.0 - np.square(speed_ms))


def power_w(
    *,
    mass_kg: Numbers,
    load_kg: Numbers,
    speed_ms: Numbers,
    grade_pct: Numbers,
    terrain: Numbers = 1.0,
    resting_w: Numbers = 0.0,
) -> Numbers:
    """Gross power of walking with a load [W], descents corrected.

    Slopes below -15 % are held there. The correction applies to someone who walks: standing on a
    slope costs what standing costs. `resting_w` is accepted as on the whole shelf and not used.
    Source: Pandolf1977; Santee2003 downhill. Range: see `MODEL.validity`.
    """
    grade = np.maximum(grade_pct, STEEPEST_DESCENT_PCT)
    raw = level_power_w(mass_kg, load_kg, speed_ms=speed_ms, grade_pct=grade, terrain=terrain)
    down = np.less(grade, 0.0) & np.greater(speed_ms, 0.0)
    off = descent_correction_w(
        mass_kg, load_kg, speed_ms=speed_ms, grade_pct=grade, terrain=terrain
    )
    return raw - np.where(down, off, 0.0)


_NAMES = ("mass_kg", "load_kg", "speed_ms", "grade_pct", "terrain")
_ROWS = (
    (70.0, 0.0, 0.0, 0.0, 1.0, 105.000),
    (70.0, 20.0, 0.0, 0.0, 1.0, 119.694),
    (75.0, 12.0, 1.25, 0.0, 1.1, 341.251),
    (75.0, 12.0, 1.25, 10.0, 1.1, 759.939),
    (75.0, 12.0, 1.25, 20.0, 1.1, 1178.626),
    (80.0, 27.2, 1.34, 0.0, 1.0, 433.517),
    (80.0, 27.2, 1.34, 8.6, 1.1, 938.009),
    (75.0, 12.0, 1.25, -5.0, 1.1, 278.295),
    (75.0, 12.0, 1.25, -10.0, 1.1, 258.984),
    (80.0, 13.6, 1.34, -8.6, 1.1, 309.622),
    (80.0, 0.0, 1.34, -12.0, 1.0, 265.570),
)

MODEL = Model(
    name="pandolf-1977",
    help="Pandolf, Givoni and Goldman, with Santee's correction downhill",
    function=power_w,
    unit="W",
    sources=("Pandolf1977, the equation", "Santee2003, downhill correction"),
    validity={
        "mass_kg": Bound(low=40.0, high=130.0, why="below, the correction can pass the cost"),
        "load_kg": Bound(low=0.0, high=70.0, why="loads of the study (range from memory)"),
        "speed_ms": Bound(low=0.0, high=1.8, why="speeds of the study and of its forerunner"),
        "grade_pct": Bound(low=STEEPEST_DESCENT_PCT, high=25.0, why="the correction runs away"),
        "terrain": Bound(low=1.0, high=2.1, why="surfaces of the terrain factors"),
    },
    cases=tuple(
        Case(
            arguments=dict(zip(_NAMES, row, strict=True)),
            expected=expected,
            tolerance=0.0005,
            source="Pandolf1977 and Santee2003, evaluated apart from this code",
            kind="oracle",
        )
        for *row, expected in _ROWS
    ),
    notes="Not continuous at zero slope: a descent begins about 6 % higher than the level ends.",
)
