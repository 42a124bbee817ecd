"""Minetti et al. (2002): the cost of a metre at its best speed, from -45 to +45 %.

Ten mountain runners on a treadmill, without packs. Knows nothing of slow walking, of terrain or of
where a load sits; the polynomial lies above the measured level value (2.5 against 1.64 J/kg/m).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.model import Bound, Case, Model

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

COEFFICIENTS = (280.5, -58.7, -76.8, 51.9, 19.6, 2.5)
"""Of the fifth to the zeroth power of the slope as a fraction."""


def metre_cost(slope: Numbers) -> Numbers:
    """Cost of walking one metre at this slope (a fraction, held within 0.45) [J per kg].

    Source: Minetti2002, walking polynomial; taken as net of rest (from memory).
    """
    i = np.minimum(np.maximum(slope, -0.45), 0.45)
    cost: Numbers = COEFFICIENTS[0]
    for coefficient in COEFFICIENTS[1:]:
        cost = cost * i + coefficient
    return cost


def power_w(
    *,
    mass_kg: Numbers,
    load_kg: Numbers,
    speed_ms: Numbers,
    grade_pct: Numbers,
    terrain: Numbers = 1.0,
    resting_w: Numbers = 0.0,
) -> Numbers:
    """Gross power of walking [W]: rest, plus the metre cost times speed, total mass and terrain.

    Charging the load like body mass and multiplying by terrain are our additions (C7).
    Source: Minetti2002. Range: see `MODEL.validity`.
    """
    moved = terrain * speed_ms * (mass_kg + load_kg)
    return resting_w + moved * metre_cost(np.multiply(grade_pct, 0.01))


_POLYNOMIAL = (
    (-45, 3.60507), (-40, 3.50416), (-35, 2.93644), (-30, 2.20751), (-20, 1.08672),
    (-10, 1.12712), (0, 2.5), (10, 4.89914), (20, 7.87744), (30, 11.18354), (35, 13.01732),
    (40, 15.09840), (45, 17.60030),
)  # fmt: skip

MODEL = Model(
    name="minetti-2002",
    help="Minetti's metre cost on extreme slopes, plus rest, times total mass",
    function=power_w,
    unit="W",
    sources=("Minetti2002, walking polynomial", "ours, load and terrain as factors"),
    validity={
        "speed_ms": Bound(low=0.0, high=1.8, why="walking; the cost is that of the best speed"),
        "grade_pct": Bound(low=-45.0, high=45.0, why="slopes of the study"),
        "load_share": Bound(low=0.0, high=0.0, why="no loads were carried"),
        "terrain": Bound(low=1.0, high=1.0, why="treadmill"),
    },
    derived={"load_share": lambda *, mass_kg, load_kg, **_: load_kg / mass_kg},
    cases=tuple(
        Case(
            arguments={"mass_kg": 1.0, "load_kg": 0.0, "speed_ms": 1.0, "grade_pct": float(slope)},
            expected=cost,
            tolerance=0.5e-5,
            source="Minetti2002, polynomial evaluated apart from this code",
            kind="oracle",
        )
        for slope, cost in _POLYNOMIAL
    ),
    notes="Ten elite mountain runners. Overstates the level and gentle descents.",
)
