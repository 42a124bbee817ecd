"""Load Carriage Decision Aid, graded walking (2019): one smooth curve from standing to steep.

Per kilogram of everything that moves, body and load alike; knows no terrain and no difference
between a kilogram of walker and one of pack. Its slope term is also used by the 2022 model.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.model import Bound, Case, Model

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

GRADE_LOW_PCT, GRADE_HIGH_PCT = -40.0, 45.0
_LN_105, _LN_11 = math.log(1.05), math.log(1.1)


def grade_term(speed_ms: Numbers, grade_pct: Numbers) -> Numbers:
    """What slope adds to the cost of walking [W per kg], below zero on gentle descents.

    ``0.34 S G (1 - 1.05^(1 - 1.1^(G + 32)))`` with S in m/s and G in percent, signed. G is held
    within -40 and +45, the slopes that were measured. Zero on the level and again at -32 %.
    Source: Looney2019b, abstract.
    """
    grade = np.minimum(np.maximum(grade_pct, GRADE_LOW_PCT), GRADE_HIGH_PCT)
    damping = np.exp(_LN_105 * (1.0 - np.exp(_LN_11 * (grade + 32.0))))
    return 0.34 * speed_ms * grade * (1.0 - damping)


def power_w(
    *,
    mass_kg: Numbers,
    load_kg: Numbers,
    speed_ms: Numbers,
    grade_pct: Numbers,
    terrain: Numbers = 1.0,
    resting_w: Numbers = 0.0,
) -> Numbers:
    """Gross power of walking [W].

    ``(W + L) (1.44 + 1.94 S^0.43 + 0.24 S^4 + grade term)``. `terrain` and `resting_w` are
    accepted as on the whole shelf and not used: the curve was measured on treadmills and holds
    its own rest. Source: Looney2019a, level; Looney2019b, slope. Range: see `MODEL.validity`.
    """
    square = speed_ms * speed_ms
    level = 1.44 + 1.94 * np.power(speed_ms, 0.43) + 0.24 * square * square
    return (mass_kg + load_kg) * (level + grade_term(speed_ms, grade_pct))


def _per_kg(speed_ms: float, grade_pct: float, expected: float, digit: float) -> Case:
    """A check value per kilogram of total mass."""
    return Case(
        arguments={"mass_kg": 1.0, "load_kg": 0.0, "speed_ms": speed_ms, "grade_pct": grade_pct},
        expected=expected,
        tolerance=digit / 2,
        source="Looney2019b, evaluated apart from this code",
        kind="oracle",
    )


_LEVEL = (
    (0.0, 1.44), (0.5, 2.8950), (1.0, 3.62), (1.25, 4.1613), (1.34, 4.4140), (1.5, 4.9645),
    (1.97, 7.6514),
)  # fmt: skip
_SLOPE = (
    (1.25, 10.0, 8.102865), (1.25, 20.0, 12.652581), (1.25, -10.0, 2.911102),
    (1.25, -20.0, 3.319162), (1.0, 40.0, 17.22), (1.0, -40.0, 3.978644),
    (0.4768426667, 13.24968434, 4.952360),
)  # fmt: skip

MODEL = Model(
    name="lcda-graded-2019",
    help="Load Carriage Decision Aid, graded walking, times total mass",
    function=power_w,
    unit="W",
    sources=("Looney2019a, level and standing", "Looney2019b, slope term"),
    validity={
        "speed_ms": Bound(low=0.0, high=1.96, why="speeds of the pooled studies"),
        "grade_pct": Bound(low=GRADE_LOW_PCT, high=GRADE_HIGH_PCT, why="slopes of the studies"),
        "terrain": Bound(low=1.0, high=1.0, why="treadmill only; terrain is not in the model"),
    },
    cases=tuple(_per_kg(speed, 0.0, expected, 1e-4) for speed, expected in _LEVEL)
    + tuple(_per_kg(speed, grade, expected, 1e-6) for speed, grade, expected in _SLOPE),
    notes="Standard error 0.42 W per kg. Beware a copy with 1.11 in place of 1.1.",
)
