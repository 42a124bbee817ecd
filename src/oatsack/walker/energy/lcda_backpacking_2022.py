"""Load Carriage Decision Aid, heavy backpacking (2022), with slope and terrain added: the default.

The level model was measured with packs of up to two thirds of body mass. Its slope term comes from
the 2019 curve. How terrain and slope combine is our choice (C7): rough ground makes a climb dearer
but never enlarges what a descent saves. Takes the walker's own resting power, so that age, sex and
size enter once and rest can be taken off again cleanly.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.model import Bound, Case, Model
from oatsack.walker.energy.lcda_graded_2019 import GRADE_HIGH_PCT, GRADE_LOW_PCT, grade_term

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

STANDING_W_KG = 0.19
"""Standing above rest. One later transcription has 0.21, a difference of 0.5 % on the level."""


def load_factor(mass_kg: Numbers, load_kg: Numbers) -> Numbers:
    """How many times dearer the load makes everything above rest: ``1 + 1.96 (L/W)^1.36``.

    Source: Looney2022, eq. 4 as transcribed.
    """
    return 1.0 + 1.96 * np.power(load_kg / mass_kg, 1.36)


def power_w(
    *,
    mass_kg: Numbers,
    load_kg: Numbers,
    speed_ms: Numbers,
    grade_pct: Numbers,
    terrain: Numbers = 1.0,
    resting_w: Numbers = 0.0,
) -> Numbers:
    """Gross power of walking with a pack [W].

    ``R + W (0.19 + eta (1.78 S^0.58 + 0.27 S^4) + k g) (1 + 1.96 (L/W)^1.36)`` with rest R [W],
    body mass W, load L, speed S, terrain factor eta and the slope term g of 2019; k is eta uphill
    and 1 downhill. Source: Looney2022, eq. 4; Looney2019b for g; the form of k is ours.
    Range: see `MODEL.validity`.
    """
    square = speed_ms * speed_ms
    level = terrain * (1.78 * np.power(speed_ms, 0.58) + 0.27 * square * square)
    slope = grade_term(speed_ms, grade_pct)
    # Uphill the slope term is positive and terrain multiplies it; a saving stays as it is. Beyond
    # -32 % the term is positive again on the way down: terrain leaves it alone there too.
    slope = slope * np.where(np.greater(grade_pct, 0.0), terrain, 1.0)
    moving = (STANDING_W_KG + level + slope) * load_factor(mass_kg, load_kg)
    return resting_w + mass_kg * moving


_NAMES = ("mass_kg", "load_kg", "speed_ms", "grade_pct", "terrain", "resting_w")
_P1 = 1692.5 / 75 * 4184 / 86400
# Body, load, speed, slope, terrain, rest per kg; the result per kg of body; its last digit.
_ROWS = (
    (70.0, 0.0, 0.0, 0.0, 1.0, 1.20, 1.39000, 1e-5),
    (70.0, 35.0, 0.0, 0.0, 1.0, 1.20, 1.53508, 1e-5),
    (80.0, 20.0, 1.34, 0.0, 1.0, 1.20, 5.31280, 1e-5),
    (77.0, 50.8, 1.34, 0.0, 1.0, 1.20, 7.89875, 1e-5),
    (60.0, 12.0, 1.1, 8.0, 1.2, 1.15, 8.58703, 1e-5),
    (75.0, 12.0, 1.25, 0.0, 1.1, _P1, 4.7461, 1e-4),
    (75.0, 12.0, 1.25, 10.0, 1.1, _P1, 9.7848, 1e-4),
    (60.0, 15.0, 1.0, 5.0, 1.2, 1.065572, 6.62181, 1e-5),
    (90.0, 18.0, 1.1, -12.0, 1.1, 0.988023, 2.93936, 1e-5),
    (75.0, 0.0, 0.0, 0.0, 1.1, _P1, 1.28281, 1e-5),
    (75.0, 12.0, 0.0, 0.0, 1.1, _P1, 1.31362, 1e-5),
)


def _case(*row: float) -> Case:
    """A check value per kilogram of body mass, with rest per kilogram."""
    *given, rest, per_kg, digit = row
    mass = row[0]
    return Case(
        arguments=dict(zip(_NAMES, (*given, rest * mass), strict=True)),
        expected=per_kg * mass,
        tolerance=digit / 2 * mass,
        source="Looney2022, evaluated apart from this code",
        kind="oracle",
    )


MODEL = Model(
    name="lcda-backpacking-2022",
    help="Load Carriage Decision Aid for backpacks, with slope and terrain (combination ours)",
    function=power_w,
    unit="W",
    sources=(
        "Looney2022, eq. 4, as transcribed",
        "Looney2019b, slope term",
        "ours, terrain on the slope term uphill only",
    ),
    validity={
        "mass_kg": Bound(low=45.0, high=120.0, why="adults of 77 with a deviation of 15 kg; ours"),
        "speed_ms": Bound(low=0.0, high=1.97, why="treadmill speeds, and standing"),
        "grade_pct": Bound(low=GRADE_LOW_PCT, high=GRADE_HIGH_PCT, why="slopes of the 2019 term"),
        "load_share": Bound(low=0.0, high=0.66, why="packs of up to 66 % of body mass"),
        "terrain": Bound(low=1.0, high=3.0, why="terrain factors but deep snow"),
    },
    derived={"load_share": lambda *, mass_kg, load_kg, **_: load_kg / mass_kg},
    cases=tuple(_case(*row) for row in _ROWS),
    notes="Measured on 30 adults of about 25 years. The full paper was not read; the coefficients "
    "agree in three public transcriptions.",
)
