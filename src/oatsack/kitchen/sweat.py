"""How much a walker sweats in an hour: a table of ISO 7933 inside its limits, an equation outside.

Both are of populations: one person differs from the mean by 40 % or more, so every answer is a low
and a high value. Knows nothing of drinking, which is not the same thing: see `drinking`.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from math import exp

from oatsack.values.route import Stretch
from oatsack.values.walker import Walker

SPREAD = 0.40
"""Person to person, either way. Source: Baker2016, 1.21 l/h with a standard deviation of 0.68."""
TABLE_AREA_M2 = 1.938
"""Body area for which the table was made: 75 kg, 1.80 m."""
AIR_C = (15.0, 18.0, 21.0, 24.0, 27.0, 30.0, 33.0, 36.0)
WORK_W_M2 = (150.0, 200.0, 250.0, 300.0, 350.0, 400.0)
TABLE_L_H: tuple[tuple[float | None, ...], ...] = (
    (0.031, 0.102, 0.224, 0.348, 0.477, 0.611),
    (0.046, 0.166, 0.290, 0.419, 0.551, 0.690),
    (0.108, 0.232, 0.360, 0.492, 0.630, 0.775),
    (0.173, 0.300, 0.432, 0.570, 0.715, 0.869),
    (0.241, 0.372, 0.510, 0.655, 0.811, 0.977),
    (0.312, 0.449, 0.596, 0.754, 0.925, 1.111),
    (0.389, 0.537, 0.699, 0.877, 1.076, None),
    (0.479, 0.649, 0.841, 1.062, 1.319, None),
)
"""Mean sweat over 4 h [l/h], ISO 7933:2004 by pythermalcomfort 4.8.1: half humid, 1 m/s of air,
0.6 clo, walking 1.1 m/s, no sun apart. A blank: the body runs too hot within 4 h."""

CLO = 1.3
PERMEABILITY = 0.33
"""im/clo of a field uniform. Source: Gonzalez2012."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweat:
    """One hour's sweat [ml], how it was found, and whether its model was stretched (C7)."""

    low_ml: float
    likely_ml: float
    high_ml: float
    model: str
    """table, equation."""
    outside: tuple[str, ...] = ()
    """Names of what lies beyond the measured range."""
    too_hot: bool = False
    """The body would run too hot within hours: less effort or a rest, not more water."""


def body_area_m2(mass_kg: float, height_cm: float) -> float:
    """Body surface [m2]: ``0.202 m^0.425 h^0.725``, h in metres. Source: DuBois1916, eq. 1.

    The constant is the rounded one of ISO 7933; the first print has 0.2025.
    """
    return float(0.202 * mass_kg**0.425 * (height_cm / 100.0) ** 0.725)


def vapour_mmhg(air_c: float, humidity: float) -> float:
    """Vapour pressure of the air [mmHg]: Magnus's form. Source: from memory."""
    return humidity * 6.112 * exp(17.62 * air_c / (243.12 + air_c)) * 0.750062


def equation_g_m2_h(air_c: float, work_w_m2: float, *, humidity: float = 0.5) -> float:
    """Sweat of marching soldiers [g/(m2 h)]: ``147 + 1.527 Ereq - 0.87 Emax``, at least 0.

    ``Ereq = M + 6.45 / clo (Ta - 36)``, ``Emax = 14.21 im/clo (44 - Pa)``. Source:
    Gonzalez2009, piecewise equation. Range: 15 to 46 deg C, up to 450 W/m2, 2 to 8 h. It reads
    15 to 40 % above ISO 7933, for clothed soldiers.
    """
    required = work_w_m2 + 6.45 / CLO * (air_c - 36.0)
    possible = 14.21 * PERMEABILITY * (44.0 - vapour_mmhg(air_c, humidity))
    return max(0.0, 147.0 + 1.527 * required - 0.87 * possible)


def table_l_h(air_c: float, work_w_m2: float) -> float | None:
    """Sweat by the table [l/h], between its points; None next to a blank.

    Arguments beyond the table are held at its edge.
    """
    i, u = _place(AIR_C, air_c)
    j, v = _place(WORK_W_M2, work_w_m2)
    total = 0.0
    for di, wi in ((0, 1.0 - u), (1, u)):
        for dj, wj in ((0, 1.0 - v), (1, v)):
            if wi * wj > 0:
                value = TABLE_L_H[i + di][j + dj]
                if value is None:
                    return None
                total += wi * wj * value
    return total


def _place(axis: tuple[float, ...], value: float) -> tuple[int, float]:
    """The cell of an axis, and how far into it, 0 to 1."""
    held = min(max(value, axis[0]), axis[-1])
    i = min(bisect_right(axis, held) - 1, len(axis) - 2)
    return i, (held - axis[i]) / (axis[i + 1] - axis[i])


def sweat(air_c: float, work_w_m2: float, *, area_m2: float = TABLE_AREA_M2) -> Sweat:
    """One hour's sweat of a body of this area, at this air and this work per square metre.

    Under 15 deg C and under 150 W/m2 the table's edge stands in, above 36 deg C or 400 W/m2 the
    equation (up to 46 deg C and 450 W/m2); all such answers name what lies outside.
    """
    outside = tuple(
        name
        for name, value, low, high in (
            ("air_c", air_c, AIR_C[0], AIR_C[-1]),
            ("work_w_m2", work_w_m2, WORK_W_M2[0], WORK_W_M2[-1]),
        )
        if not low <= value <= high
    )
    above = air_c > AIR_C[-1] or work_w_m2 > WORK_W_M2[-1]
    by_table = None if above else table_l_h(air_c, work_w_m2)
    if by_table is not None:
        return _spread(by_table * 1000.0 * area_m2 / TABLE_AREA_M2, "table", outside)
    held = max(15.0, min(air_c, 46.0)), min(work_w_m2, 450.0)
    likely = equation_g_m2_h(*held) * area_m2
    hot = table_l_h(air_c, work_w_m2) is None
    return _spread(likely, "equation", outside, too_hot=hot)


def _spread(
    likely: float, model: str, outside: tuple[str, ...], *, too_hot: bool = False
) -> Sweat:
    return Sweat(
        low_ml=likely * (1.0 - SPREAD),
        likely_ml=likely,
        high_ml=likely * (1.0 + SPREAD),
        model=model,
        outside=outside,
        too_hot=too_hot,
    )


def area_of(walker: Walker) -> float:
    """Body surface of a walker [m2], 1.70 m tall where nobody said."""
    return body_area_m2(walker.mass_kg, walker.height_cm or 170.0)


PACK_KG = 12.0
"""Pack of a walker whose load nobody handed over. Ours, a stand-in."""
WATT_PER_ML_MIN = 20.1 / 60.0


def walking_w_m2(stretch: Stretch, walker: Walker) -> float:
    """Work of walking per square metre [W/m2], a stand-in until the flow hands over its own.

    ``VO2 = 3.5 + s (0.1 + 1.8 G)``, downhill as level. Source: ACSM, walking equation; terrain and
    pack put in by us (C7).
    """
    slope = max(0.0, stretch.grade_pct) / 100.0
    oxygen = 3.5 + stretch.speed_ms * 60.0 * stretch.terrain * (0.1 + 1.8 * slope)
    return (walker.mass_kg + PACK_KG) * oxygen * WATT_PER_ML_MIN / area_of(walker)


def work_w_m2(walking_kcal: float, walking_h: float, walker: Walker) -> float:
    """Work of walking per square metre [W/m2] from its energy and hours. 0 h gives 0."""
    if walking_h <= 0:
        return 0.0
    return walking_kcal * 4184.0 / (walking_h * 3600.0) / area_of(walker)
