"""Two more walking-time rules and a slope term, against values computed apart from this code.

Sources: Campbell2019 (percentiles 10, 50, 90), MarquezPerez2017, Santee2001; each worked out from
the formula as printed, in another program.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from oatsack.route.pace import campbell_2019, marquez_perez_2017
from oatsack.walker.energy.santee_2001 import slope_w
from support.each import each


def percent(degrees: float) -> float:
    return 100.0 * math.tan(math.radians(degrees))


@each(
    ("percentile", "degrees", "expected"),
    [(50, 0, 2.55194), (50, 15, 1.06782), (50, -15, 1.47005)],
)
def test_campbell_2019_median(percentile: int, degrees: float, expected: float) -> None:
    found = campbell_2019.at_percentile(percentile, percent(degrees))  # type: ignore[arg-type]
    assert float(found) == pytest.approx(expected, abs=5e-6)


@each(("percentile", "expected"), [(10, 1.3202), (90, 3.3908)])
def test_campbell_2019_other_percentiles_on_the_flat(percentile: int, expected: float) -> None:
    found = campbell_2019.at_percentile(percentile, 0.0)  # type: ignore[arg-type]
    assert float(found) == pytest.approx(expected, abs=5e-5)


def test_the_median_of_2019_is_a_jog_and_no_walk() -> None:
    assert float(campbell_2019.at_percentile(50, 0.0)) > 2.2
    assert float(campbell_2019.speed_ms(grade_pct=0.0)) < 1.5


@each(("grade", "kmh"), [(0.0, 4.0944), (10.0, 2.8253), (-10.0, 3.8830)])
def test_marquez_perez(grade: float, kmh: float) -> None:
    found = 3.6 * float(marquez_perez_2017.speed_ms(grade_pct=grade))
    assert found == pytest.approx(kmh, abs=5e-5)


@each(
    ("grade", "watt"), [(10.0, 371.540), (-10.0, -103.712), (-20.0, -84.681)]
)
def test_santee_2001_slope_term(grade: float, watt: float) -> None:
    found = slope_w(total_kg=87.0, speed_ms=1.25, grade_pct=grade)
    assert float(found) == pytest.approx(watt, abs=5e-4)


def test_santee_2001_is_zero_on_the_level_and_takes_arrays() -> None:
    found = slope_w(total_kg=87.0, speed_ms=1.25, grade_pct=np.array([0.0, 10.0, -10.0]))
    assert found[0] == 0.0
    assert found[1] > 0.0 > found[2]
