"""Walking times that the rules' sources print, and days worked by hand from the rules."""

from __future__ import annotations

import math

import pytest

from oatsack.route import pace
from oatsack.route.pace import naismith, tobler
from support.each import each


def test_eight_to_one_makes_32_8_flat_km_of_20_km_and_1600_m_and_6_h_34_at_5_kmh() -> None:
    """Naismith1892, example printed with the eight to one form; to the minute."""
    flat = naismith.flat_distance_m(20_000.0, 1600.0)
    assert flat == pytest.approx(32_800.0)
    assert round(float(flat) / 5000 * 60) == 6 * 60 + 34
    assert round(float(flat) / 8000 * 60) == 4 * 60 + 6


def test_eight_to_one_makes_5_6_hours_of_20_km_and_1000_m() -> None:
    """Naismith1892, the same source."""
    assert float(naismith.flat_distance_m(20_000.0, 1000.0)) / 5000 == pytest.approx(5.6)


@each(
    ("km", "climb", "hours"), [(20, 1000, 5.6667), (20, 1600, 6.6667), (12, 900, 3.9)]
)
def test_naismith_in_metres(km: float, climb: float, hours: float) -> None:
    """An hour for 5 km and one for 600 m; Naismith1892."""
    assert float(naismith.minutes(km * 1000.0, climb)) / 60 == pytest.approx(hours, abs=5e-5)


def test_langmuir_takes_ten_minutes_off_and_puts_ten_on_for_every_300_m() -> None:
    """12 km, 900 m up, 300 m gently and 600 m steeply down: 4.06667 h. Langmuir1984."""
    got = naismith.minutes(12_000.0, 900.0, gentle_m=300.0, steep_m=600.0)
    assert float(got) / 60 == pytest.approx(4.06667, abs=5e-6)


def test_aitken_walks_4_km_an_hour_away_from_good_ground() -> None:
    got = naismith.minutes(12_000.0, 0.0, speed_kmh=naismith.AITKEN_KMH)
    assert got == pytest.approx(180.0)  # Langmuir1984


def test_langmuirs_slopes_begin_at_8_7_and_end_at_21_3_percent() -> None:
    assert pytest.approx(8.7, abs=0.05) == naismith.GENTLE_PCT
    assert pytest.approx(21.3, abs=0.05) == naismith.STEEP_PCT


@each(("grade", "sign"), [(-5.0, 0), (-9.0, -1), (-10.9, -1), (-25.0, 1)])
def test_naismith_as_a_speed_agrees_with_the_times(grade: float, sign: int) -> None:
    """One kilometre at each slope by speed and by the sum of its allowances."""
    drop = 10.0 * -grade
    by_sum = naismith.minutes(
        1000.0, 0.0, gentle_m=drop if sign < 0 else 0.0, steep_m=drop if sign > 0 else 0.0
    )
    by_speed = pace.minutes(naismith.MODEL, 1000.0, grade_pct=grade)
    assert by_speed == pytest.approx(float(by_sum))


def test_langmuirs_jumps_are_where_the_note_says() -> None:
    speeds = {g: float(naismith.speed_ms(grade_pct=g)) for g in (-8.70, -8.80, -21.20, -21.30)}
    assert speeds[-8.80] > 1.2 * speeds[-8.70]
    assert speeds[-21.30] < 0.6 * speeds[-21.20]
    assert "Not continuous at 5 and at 12 degrees" in naismith.MODEL.notes


def test_naismith_as_a_speed_never_runs() -> None:
    """Langmuir1984 alone would make 12 km/h of a 21 % descent: a fault of reading a rule for days
    as a speed, so it is held (ours)."""
    assert pytest.approx(12.0) == 1 / (0.72 - 2 * 0.21) * 3.6
    assert naismith.speed_ms(grade_pct=-21.0) == pytest.approx(2.0)


TOBLER = [
    (-0.5, 1.2420), (-0.3, 2.5012), (-0.2, 3.5493), (-0.1, 5.0367), (-0.05, 6.0), (0.0, 5.0367),
    (0.05, 4.2281), (0.1, 3.5493), (0.2, 2.5012), (0.3, 1.7625), (0.5, 0.8753),
]  # fmt: skip


@each(("slope", "kmh"), TOBLER)
def test_tobler_in_km_an_hour(slope: float, kmh: float) -> None:
    got = float(tobler.speed_ms(grade_pct=100 * slope)) * 3.6
    assert got == pytest.approx(kmh, abs=5e-5)  # Tobler1993


def test_tobler_is_not_the_misprint_of_a_vignette() -> None:
    """1.6 exp(-3.5 x + 0.5) would walk 2.64 on the flat and ever faster downhill. Tobler1993."""
    assert 1.6 * math.exp(0.5) == pytest.approx(2.638, abs=5e-4)
    assert float(tobler.speed_ms(grade_pct=0.0)) * 3.6 == pytest.approx(5.0367, abs=5e-5)
    assert tobler.speed_ms(grade_pct=-40.0) < tobler.speed_ms(grade_pct=-5.0)


def test_tobler_off_the_path_is_six_tenths() -> None:
    assert tobler.OFF_PATH == 0.6  # Tobler1993


@each(
    ("degrees", "speed"),
    [(-30, 0.47406), (-15, 0.85690), (0, 1.14813), (15, 0.75506), (30, 0.40606)],
)
def test_campbell_by_degrees(degrees: float, speed: float) -> None:
    grade = 100 * math.tan(math.radians(degrees))
    got = pace.DEFAULT.function(grade_pct=grade)
    assert got == pytest.approx(speed, abs=5e-6)  # Campbell2022


@each(
    ("grade", "speed"), [(-20, 0.9738), (-10, 1.1154), (10, 1.0461), (20, 0.8735)]
)
def test_campbell_by_percent(grade: float, speed: float) -> None:
    assert pace.DEFAULT.function(grade_pct=grade) == pytest.approx(speed, abs=5e-5)  # Campbell2022


def test_campbell_is_fastest_on_a_slight_descent() -> None:
    tenths = [d / 100 for d in range(-500, 501)]
    grades = [100 * math.tan(math.radians(d)) for d in tenths]
    speeds = [float(pace.DEFAULT.function(grade_pct=g)) for g in grades]
    assert max(speeds) == pytest.approx(1.15339, abs=5e-6)
    assert tenths[speeds.index(max(speeds))] == pytest.approx(-1.53, abs=0.011)


@each("rule", pace.MODELS, ids=lambda m: m.name)
def test_every_rule_meets_its_own_cases(rule: pace.Model) -> None:
    assert len(rule.cases) >= 5
    assert [(dict(c.arguments), got) for c, got, ok in rule.check() if not ok] == []


def test_rules_agree_on_a_rolling_day_within_a_third() -> None:
    """16 km, half of it flat, a quarter at +10, a quarter at -10 %: hours by each rule."""
    hours = {}
    for rule in pace.MODELS:
        parts = [(8000.0, 0.0), (4000.0, 10.0), (4000.0, -10.0)]
        hours[rule.name] = sum(float(pace.minutes(rule, d, grade_pct=g)) for d, g in parts) / 60
    assert max(hours.values()) / min(hours.values()) < 1.34
    assert 3.0 < min(hours.values()) < max(hours.values()) < 4.6
