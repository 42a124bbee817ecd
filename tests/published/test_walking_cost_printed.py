"""Numbers that sources print about the cost of walking, to half of their last digit."""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.walker.activity import ACTIVITIES, CAMP_MET, REST_MET, SLEEP_MET
from oatsack.walker.energy import lcda_graded_2019, ludlow_weyand_2017, minetti_2002
from oatsack.walker.joules import JOULES_PER_KCAL
from support.each import each


def graded_per_kg(speed: float, grade: float) -> float:
    power = lcda_graded_2019.power_w(mass_kg=1.0, load_kg=0.0, speed_ms=speed, grade_pct=grade)
    return float(power)


def test_the_cheapest_speed_per_metre_is_1_39_metres_a_second() -> None:
    """Printed by a walking study that applies Looney2019b; the speed with the least J per metre."""
    speeds = np.arange(0.8, 2.0, 0.001)
    power = lcda_graded_2019.power_w(mass_kg=1.0, load_kg=0.0, speed_ms=speeds, grade_pct=0.0)
    cheapest = float(speeds[np.argmin(power / speeds)])
    assert cheapest == pytest.approx(1.39, abs=0.005)
    assert float(np.min(power / speeds)) == pytest.approx(3.28849, abs=5e-6)


def test_a_hundred_metres_of_climb_on_a_kilometre_cost_as_much_as_0_96_level_km() -> None:
    """Printed by the same study, at the cheapest speed; Looney2019b."""
    extra = graded_per_kg(1.394, 10.0) / graded_per_kg(1.394, 0.0) - 1.0
    assert extra == pytest.approx(0.96, abs=0.005)


def test_height_weight_speed_gives_13_93_at_5_kmh_and_1_75_m() -> None:
    """LudlowWeyand2016, worked example with a rest of 3.5 ml/kg/min."""
    oxygen = ludlow_weyand_2017.level_oxygen(5 / 3.6, 1.75, rest=3.5)
    assert oxygen == pytest.approx(13.93, abs=0.005)
    # The same as a kilometre at 70 kg, by 5.0 kcal per litre: 58.5 kcal.
    assert oxygen * 70 * 12 * 5.0 / 1000 == pytest.approx(58.5, abs=0.05)


# Minetti2002, abstract: measured means of ten runners walking, J per kg and metre.
MEASURED = {
    -0.45: 3.46, -0.40: 3.23, -0.35: 2.65, -0.30: 2.18, -0.20: 1.30, -0.10: 0.81, 0.0: 1.64,
    0.10: 4.68, 0.20: 8.07, 0.30: 11.29, 0.35: 12.72, 0.40: 14.75, 0.45: 17.33,
}  # fmt: skip


@each("slope", [s for s in MEASURED if s != 0.0])
def test_minettis_polynomial_lies_within_the_measured_spread(slope: float) -> None:
    """The least standard deviation that the abstract prints is 0.34; on the level see below."""
    fitted = float(minetti_2002.metre_cost(slope))
    assert fitted == pytest.approx(MEASURED[slope], abs=0.36)


def test_minettis_polynomial_overstates_the_level_by_half() -> None:
    assert float(minetti_2002.metre_cost(0.0)) / MEASURED[0.0] == pytest.approx(1.52, abs=0.01)


def test_minettis_level_mean_makes_27_4_kcal_a_km_at_70_kg() -> None:
    assert MEASURED[0.0] * 70.0 * 1000 / JOULES_PER_KCAL == pytest.approx(27.4, abs=0.05)
    assert MEASURED[0.10] / MEASURED[0.0] - 1 == pytest.approx(1.85, abs=0.005)


# Ainsworth2011 and Herrmann2024, the rows that the need and its comparisons rest on.
PRINTED_METS = {
    "07030": (0.95, 1.0), "07011": (1.3, 1.0), "07021": (1.3, 1.0), "07022": (1.5, 1.5),
    "07040": (1.3, 1.3), "09055": (1.5, 1.3), "09100": (1.8, 1.5), "09110": (2.5, 2.5),
    "09071": (2.5, 2.5), "08009": (3.3, None), "08019": (4.5, None), "05149": (2.5, None),
    "17010": (7.0, 7.0), "17012": (7.8, 7.8), "17080": (6.0, 6.0), "17082": (5.3, 5.3),
    "17170": (3.0, 3.0), "17180": (3.3, 3.3), "17190": (3.5, 3.8), "19190": (5.3, None),
}  # fmt: skip


@each("code", PRINTED_METS)
def test_compendium_rows(code: str) -> None:
    row = next(a for a in ACTIVITIES.values() if a.code == code)
    assert (row.met_2011, row.met_2024) == PRINTED_METS[code]


def test_every_compendium_row_of_ours_is_checked() -> None:
    assert {activity.code for activity in ACTIVITIES.values()} == set(PRINTED_METS)


def test_camp_rest_and_sleep_are_rows_of_2011() -> None:
    assert ACTIVITIES["camping"].met_2011 == CAMP_MET
    assert ACTIVITIES["sitting quietly"].met_2011 == REST_MET
    assert ACTIVITIES["sleeping"].met_2011 == SLEEP_MET


def test_compendium_codes_are_written_once() -> None:
    codes = [activity.code for activity in ACTIVITIES.values()]
    assert len(codes) == len(set(codes))
