"""One whole day, worked out apart from the package: the check that all parts fit together.

The standard man, 75 kg with 12 kg on a dirt path: 8 km at +10 % and 3 km/h, 8 km at -10 % and
4 km/h, 4 km level at 4.5 km/h; 3 h of camp, the rest of the waking day sitting, 8 h of sleep.
"""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.walker.hours import hourly
from oatsack.walker.need import Need, by_model, need, walking_w
from oatsack.walker.stretches import CAMP, REST, SLEEP, WALK, Stretches, columns
from oatsack.walker.terms import Terms
from support.each import each
from support.people import MAN

WALKS = ((8.0, 3.0, 10.0), (8.0, 4.0, -10.0), (4.0, 4.5, 0.0))


@pytest.fixture(name="day")
def _day() -> Stretches:
    walked = [km / kmh * 60 for km, kmh, _ in WALKS]
    others = [180.0, 1440.0 - 480.0 - 180.0 - sum(walked), 480.0]
    return columns(
        minutes=np.array(walked + others),
        kind=np.array([WALK, WALK, WALK, CAMP, REST, SLEEP]),
        speed_ms=np.array([kmh / 3.6 for _, kmh, _ in WALKS] + [0.0] * 3),
        grade_pct=np.array([g for _, _, g in WALKS] + [0.0] * 3),
        load_kg=12.0,
    )


@pytest.fixture(name="used")
def _used(day: Stretches) -> Need:
    return need(MAN, day)


def test_walking_takes_5_56_hours(used: Need) -> None:
    assert used.days[1].walking_h == pytest.approx(5.55556, abs=5e-6)


def test_power_on_the_three_slopes(day: Stretches) -> None:
    assert list(walking_w(MAN, day)[:3]) == pytest.approx([516.471, 222.529, 355.959], abs=6e-4)


def test_energy_of_the_three_slopes(used: Need) -> None:
    got = list(used.parts.plain_kcal[:3])
    assert got == pytest.approx([1185.020, 382.937, 272.244], abs=6e-4)


def test_walking_is_1840_kcal(used: Need) -> None:
    assert used.days[1].walking_kcal == pytest.approx(1840.201, abs=6e-4)


def test_camp_sitting_and_sleep(used: Need) -> None:
    day = used.days[1]
    got = (day.camp_kcal, day.rest_kcal, day.sleep_kcal)
    assert got == pytest.approx((528.906, 682.485, 535.958), abs=6e-4)


def test_the_parts_make_3588_and_with_digesting_3986_kcal(used: Need) -> None:
    day = used.days[1]
    parts = day.walking_kcal + day.camp_kcal + day.rest_kcal + day.sleep_kcal
    assert parts == pytest.approx(3587.55, abs=0.006)
    assert day.terms_kcal == 0.0
    assert day.energy_kcal == pytest.approx(3986.17, abs=0.006)
    assert day.energy_kcal / used.resting_kcal_day == pytest.approx(2.36, abs=0.006)


@each(
    ("name", "kcal"),
    [("pandolf-1977", 1777), ("lcda-graded-2019", 1878), ("ludlow-weyand-2017", 1751),
     ("minetti-2002", 1723)],
)  # fmt: skip
def test_the_other_models_on_the_same_walk(day: Stretches, name: str, kcal: float) -> None:
    assert float(by_model(MAN, day)[name].sum()) == pytest.approx(kcal, abs=0.5)


def test_the_compendiums_backpacking_rows_would_say_60_to_75_percent_more(used: Need) -> None:
    hours = used.days[1].walking_h
    by_7, by_78 = (mets * 75.0 * hours for mets in (7.0, 7.8))
    assert (by_7, by_78) == pytest.approx((2917, 3250), abs=0.5)
    assert by_7 / used.days[1].walking_kcal > 1.58
    assert by_78 / used.days[1].walking_kcal < 1.77


def test_the_range_holds_every_model_and_is_15_to_20_percent_wide(used: Need) -> None:
    day = used.days[1]
    assert 0.15 < day.high_kcal / day.energy_kcal - 1 < 0.20
    assert 0.15 < 1 - day.low_kcal / day.energy_kcal < 0.20
    for by_day in used.shelf_kcal.values():
        swapped = day.energy_kcal + (by_day[1] - day.walking_kcal) / 0.9
        assert day.low_kcal < swapped < day.high_kcal


def test_the_hours_add_up_to_the_day(used: Need) -> None:
    rows = hourly(used)
    assert len(rows) == 24
    assert sum(row.need_kcal for row in rows) == pytest.approx(3986.17, abs=0.006)
    assert sum(row.need_low_kcal for row in rows) == pytest.approx(used.days[1].low_kcal)
    assert sum(row.distance_m for row in rows) == pytest.approx(20_000.0)
    assert sum(row.walk_min for row in rows) / 60 == pytest.approx(5.55556, abs=5e-6)


def test_a_field_factor_of_1_1_adds_a_tenth_of_walking_before_digesting(day: Stretches) -> None:
    more = need(MAN, day, terms=Terms(field_factor=1.10)).days[1]
    assert more.terms_kcal == pytest.approx(184.020, abs=6e-4)
    assert more.energy_kcal == pytest.approx(3986.167 + 184.020 / 0.9, abs=0.006)
