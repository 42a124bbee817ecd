"""The terms laid over a day, and that each can be switched off."""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.walker.need import need
from oatsack.walker.stretches import CAMP, REST, SLEEP, WALK, columns
from oatsack.walker.terms import Terms, cold_share, heat_share, height_share
from support.each import each
from support.people import MAN


@each(
    ("height", "share"),
    [(0, 0), (2500, 0), (2750, 0.05), (3000, 0.10), (3999, 0.10), (4150, 0.135), (4300, 0.17),
     (6000, 0.17)],
)  # fmt: skip
def test_height_begins_at_2500_and_ends_at_17_percent(height: float, share: float) -> None:
    assert float(height_share(height)) == pytest.approx(share, abs=1e-9)


@each(
    ("air", "share"),
    [(20, 0), (5, 0), (4.9, 0.05), (0, 0.05), (-0.1, 0.10), (-10, 0.10), (-10.1, 0.175)],
)
def test_cold_goes_up_in_steps(air: float, share: float) -> None:
    assert float(cold_share(air)) == pytest.approx(share)


@each(
    ("air", "share"), [(20, 0), (29.9, 0), (30, 0.025), (35, 0.0625), (40, 0.1), (45, 0.1)]
)
def test_heat_rises_from_30_degrees(air: float, share: float) -> None:
    assert float(heat_share(air)) == pytest.approx(share)


def test_terms_take_whole_columns() -> None:
    air = np.array([-20.0, 2.0, 15.0])
    assert list(cold_share(air)) == [0.175, 0.05, 0.0]
    assert list(heat_share(air)) == [0.0, 0.0, 0.0]
    assert list(height_share(np.array([0.0, 3500.0]))) == [0.0, 0.10]


def whole_day(**changes: float):
    """An hour of each kind of doing."""
    return columns(
        minutes=np.full(4, 60.0), kind=np.array([WALK, REST, CAMP, SLEEP]),
        speed_ms=np.array([1.2, 0, 0, 0]), load_kg=10.0, **changes,
    )  # fmt: skip


def test_mild_air_and_low_ground_add_nothing() -> None:
    assert need(MAN, whole_day()).days[1].terms_kcal == 0.0


def test_cold_adds_to_walking_and_camp_only() -> None:
    mild, cold = need(MAN, whole_day()), need(MAN, whole_day(air_c=-5.0))
    assert list(cold.parts.terms_kcal > 0) == [True, False, True, False]
    expected = 0.10 * (mild.parts.plain_kcal[0] + mild.parts.plain_kcal[2])
    assert cold.days[1].terms_kcal == pytest.approx(expected)


def test_height_adds_a_tenth_of_resting_use_to_every_hour() -> None:
    """At 3,500 m: 169 kcal a day for the standard man, over four hours a sixth of it."""
    high = need(MAN, whole_day(height_m=3500.0))
    assert high.days[1].terms_kcal == pytest.approx(169.25 * 4 / 24, abs=0.01)
    assert np.ptp(high.parts.terms_kcal) == pytest.approx(0.0, abs=1e-9)


def test_a_whole_day_at_17_percent_is_288_kcal() -> None:
    s = columns(minutes=np.array([1440.0]), kind=np.array([REST]), height_m=5000.0)
    assert need(MAN, s).days[1].terms_kcal == pytest.approx(288.0, abs=0.5)


@each(
    ("changes", "off"),
    [({"air_c": -5.0}, Terms(cold=False)), ({"air_c": 38.0}, Terms(heat=False)),
     ({"height_m": 3500.0}, Terms(height=False))],
)  # fmt: skip
def test_every_term_can_be_switched_off(changes: dict[str, float], off: Terms) -> None:
    s = whole_day(**changes)
    assert need(MAN, s).days[1].terms_kcal > 0.0
    assert need(MAN, s, terms=off).days[1].terms_kcal == 0.0


def test_digesting_is_a_tenth_of_what_is_eaten_in_balance_and_counts_once() -> None:
    day = need(MAN, whole_day(air_c=-5.0)).days[1]
    assert day.thermic_kcal == pytest.approx(0.10 * day.energy_kcal)


def test_without_digesting_the_parts_are_the_whole() -> None:
    day = need(MAN, whole_day(), terms=Terms(thermic_share=0.0)).days[1]
    parts = day.walking_kcal + day.camp_kcal + day.rest_kcal + day.sleep_kcal
    assert day.energy_kcal == pytest.approx(parts)


def test_camp_rest_and_sleep_are_multiples_of_the_walkers_own_rest() -> None:
    hour = 1692.5 / 24  # Mifflin1990
    day = need(MAN, whole_day()).days[1]
    got = (day.camp_kcal, day.rest_kcal, day.sleep_kcal)
    assert got == pytest.approx((2.5 * hour, 1.3 * hour, 0.95 * hour))  # Ainsworth2011
    busy = need(MAN, whole_day(), terms=Terms(camp_met=3.3)).days[1]
    assert busy.camp_kcal == pytest.approx(3.3 * hour)
