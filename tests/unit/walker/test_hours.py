"""The need on the clock."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.walker.hours import hourly, with_eaten
from oatsack.walker.need import need
from oatsack.walker.stretches import CAMP, WALK, columns
from support.people import MAN


def test_a_stretch_across_a_full_hour_is_cut() -> None:
    s = columns(
        minutes=np.array([60.0]), start_min=np.array([570.0]), speed_ms=1.0, load_kg=10.0,
        height_m=800.0,
    )  # fmt: skip
    first, second = hourly(need(MAN, s))
    assert (first.start_min, second.start_min) == (570.0, 600.0)
    assert (first.minutes, second.minutes) == (30.0, 30.0)
    assert first.need_kcal == pytest.approx(second.need_kcal)
    assert first.distance_m == pytest.approx(1800.0)
    assert (first.pack_kg, first.height_m) == (10.0, 800.0)


def test_rows_follow_each_other_without_a_hole() -> None:
    """A walk from 10:37 to 13:05: 23, 60, 60 and 5 minutes."""
    s = columns(minutes=np.array([100.0, 48.0]), start_min=np.array([637.0, 737.0]), speed_ms=1.0)
    rows = hourly(need(MAN, s))
    assert [row.start_min for row in rows] == [637.0, 660.0, 720.0, 780.0]
    assert [row.minutes for row in rows] == pytest.approx([23.0, 60.0, 60.0, 5.0])
    ends = [row.start_min + row.minutes for row in rows]
    assert ends[:-1] == pytest.approx([row.start_min for row in rows[1:]])


def test_a_night_runs_beyond_midnight_within_its_waking_day() -> None:
    """C4: the hours of a night bear the date of the waking before it."""
    s = columns(minutes=np.array([120.0]), start_min=np.array([1380.0]), kind=CAMP, day=4)
    rows = hourly(need(MAN, s))
    assert [(row.day, row.start_min) for row in rows] == [(4, 1380.0), (4, 1440.0)]


def test_several_stretches_in_one_hour_are_one_row() -> None:
    s = columns(
        minutes=np.array([20.0, 10.0, 30.0]), start_min=np.array([600.0, 620.0, 630.0]),
        kind=np.array([WALK, CAMP, WALK]), speed_ms=np.array([1.0, 0.0, 1.2]),
        load_kg=np.array([10.0, 10.0, 12.0]),
    )  # fmt: skip
    (row,) = hourly(need(MAN, s))
    assert row.walk_min == pytest.approx(50.0)
    assert row.minutes == pytest.approx(60.0)
    assert row.pack_kg == pytest.approx(11.0)
    assert row.distance_m == pytest.approx(1200.0 + 2160.0)


def test_a_stretch_that_ends_on_the_hour_leaves_no_dust() -> None:
    s = columns(minutes=np.array([60.0, 60.0]), start_min=np.array([540.0, 600.0]), speed_ms=1.0)
    rows = hourly(need(MAN, s))
    assert [row.minutes for row in rows] == [60.0, 60.0]


def test_what_is_eaten_is_laid_on_afterwards() -> None:
    s = columns(minutes=np.array([60.0, 60.0]), start_min=np.array([540.0, 600.0]), speed_ms=1.0)
    rows = with_eaten(hourly(need(MAN, s)), np.array([250.0, 0.0]))
    assert [row.eaten_kcal for row in rows] == [250.0, 0.0]
    with pytest.raises(ValueError, match="zip"):
        with_eaten(rows, np.array([1.0]))


@given(
    minutes=st.lists(st.floats(0.5, 400.0), min_size=1, max_size=12),
    start=st.floats(0.0, 1200.0),
)
def test_cutting_loses_nothing(minutes: list[float], start: float) -> None:
    length = np.array(minutes)
    s = columns(
        minutes=length, start_min=start + np.cumsum(length) - length, speed_ms=1.1, load_kg=9.0
    )
    found = need(MAN, s)
    rows = hourly(found)
    assert sum(row.minutes for row in rows) == pytest.approx(float(length.sum()))
    assert sum(row.need_kcal for row in rows) == pytest.approx(found.days[1].energy_kcal)
    assert all(0.0 < row.minutes <= 60.0 + 1e-6 for row in rows)
    assert [row.start_min for row in rows] == sorted({row.start_min for row in rows})
