"""Wrong copies of the formulas that are about: ours must not be one of them."""

from __future__ import annotations

import pytest

from oatsack.walker.energy import (
    acsm,
    lcda_backpacking_2022,
    lcda_graded_2019,
    ludlow_weyand_2017,
    pandolf_1977,
)
from oatsack.walker.joules import OXYGEN_W
from oatsack.walker.resting import mifflin
from support import plain_energy as plain


def descent(grade: float) -> float:
    """The standard man, 75 kg with 12 kg at 1.25 m/s, on a descent by Pandolf with Santee."""
    return float(pandolf_1977.power_w(
        mass_kg=75.0, load_kg=12.0, speed_ms=1.25, grade_pct=grade, terrain=1.1
    ))  # fmt: skip


def test_1_11_in_place_of_1_1_is_not_ours() -> None:
    """A hiking page prints 5.002098962 W/kg, which only the wrong base gives. Looney2019b."""
    s, g = 0.4768426667, 13.24968434
    assert plain.graded(s, g, base=1.11) == pytest.approx(5.002098962, abs=5e-9)
    ours = lcda_graded_2019.power_w(mass_kg=1.0, load_kg=0.0, speed_ms=s, grade_pct=g)
    assert ours == pytest.approx(4.952360, abs=5e-7)
    assert abs(ours - 5.002098962) > 0.04


def test_25_v_squared_is_not_ours() -> None:
    """One copy multiplies where Santee2003 subtracts: 241.8 W in place of 259.0 W."""
    w, load, v, g, eta = 75.0, 12.0, 1.25, -10.0, 1.1
    right = plain.santee_correction(w, load, v, g, eta)
    wrong = right - eta * (25.0 - v**2) + eta * 25.0 * v**2
    assert plain.pandolf(w, load, v, g, eta) - wrong == pytest.approx(241.8, abs=0.05)
    assert descent(-10.0) == pytest.approx(259.0, abs=0.05)


def test_the_slope_of_a_descent_keeps_its_sign() -> None:
    """With the slope made positive in the correction the same descent would cost 719.0 W."""
    w, load, v, eta = 75.0, 12.0, 1.25, 1.1
    wrong = plain.pandolf(w, load, v, 10.0, eta) - plain.santee_correction(w, load, v, 10.0, eta)
    assert wrong == pytest.approx(719.0, abs=0.05)
    assert descent(-10.0) < 0.5 * wrong


def test_a_descent_is_not_charged_like_a_climb() -> None:
    """A map package feeds the absolute slope into Pandolf1977."""
    assert descent(-10.0) < 0.5 * plain.pandolf(75.0, 12.0, 1.25, 10.0, 1.1)


def test_raw_pandolf_goes_negative_downhill_and_the_shelf_does_not() -> None:
    at = {"speed_ms": 1.25, "grade_pct": -10.0, "terrain": 1.1}
    assert pandolf_1977.level_power_w(75.0, 12.0, **at) == pytest.approx(-77.436, abs=0.0005)
    raw = plain.pandolf(75.0, 12.0, 1.25, -20.0, 1.1)
    assert raw == pytest.approx(-496.1, abs=0.05)
    assert all(descent(float(g)) > 100.0 for g in range(-40, 0))


def test_ludlow_and_weyands_climb_is_not_three_times_too_dear() -> None:
    """A copy writes 3.28 (1 + 0.32 G) for 0.32 G + 3.28. LudlowWeyand2017."""
    ours = float(ludlow_weyand_2017.walking_oxygen(1.25, 10.0))
    wrong = 3.28 * (1 + 0.32 * 10) + (1 + 0.19 * 10) * 2.66 * 1.25**2
    assert ours == pytest.approx(0.32 * 10 + 3.28 + 2.9 * 2.66 * 1.5625, abs=1e-9)
    assert wrong > 1.3 * ours


def test_ludlow_and_weyands_descent_multiplies_by_073_and_does_not_add_it() -> None:
    level = float(ludlow_weyand_2017.walking_oxygen(1.25, 0.0))
    assert ludlow_weyand_2017.walking_oxygen(1.25, -1.0) == pytest.approx(0.73 * level)


def test_mifflin_takes_five_times_the_age_and_not_five_minus_it() -> None:
    """A public copy of the 2022 model has "(5 - age)". Mifflin1990."""
    young = mifflin(mass_kg=75.0, height_cm=178.0, age_years=30.0, sex="male")
    old = mifflin(mass_kg=75.0, height_cm=178.0, age_years=50.0, sex="male")
    assert young - old == pytest.approx(100.0)


def test_standing_still_costs_more_than_nothing() -> None:
    """The same copy returns 0 W at a standstill. Looney2022."""
    still = lcda_backpacking_2022.power_w(
        mass_kg=75.0, load_kg=12.0, speed_ms=0.0, grade_pct=0.0, terrain=1.1, resting_w=81.96
    )
    assert still == pytest.approx(98.52, abs=0.01)


def test_acsm_slope_is_a_fraction() -> None:
    """Feeding percent would make a 5 % climb cost 720 ml/kg/min more. ACSM."""
    assert acsm.oxygen(80 / 60, 5.0) - acsm.oxygen(80 / 60, 0.0) == pytest.approx(7.2)


def test_kcal_per_hour_come_from_watts_and_not_from_a_rounded_factor() -> None:
    assert plain.kcal_per_hour(1.0) == pytest.approx(0.86042, abs=5e-6)
    assert pytest.approx(0.348333, abs=5e-7) == OXYGEN_W
