"""Columns from arrays and from the days of a route."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from oatsack.values.route import Day, Stretch
from oatsack.walker.stretches import CAMP, KINDS, SLEEP, WALK, columns, of_days


def day(number: int, *, by_hand: bool = False) -> Day:
    """An invented day: an hour up, a rest, camp and a night across midnight."""
    return Day(
        number=number,
        date=dt.date(2030, 6, number),
        stretches=(
            Stretch(kind="walk", start_min=540, end_min=600, distance_m=3600, grade_pct=8,
                    height_m=900, terrain=1.2),
            Stretch(kind="rest", start_min=600, end_min=620, height_m=1000),
            Stretch(kind="camp", start_min=620, end_min=800, height_m=1000),
            Stretch(kind="sleep", start_min=1320, end_min=1800, height_m=1000),
        ),
        distance_m=3600, ascent_m=288, descent_m=0, highest_m=1000, camp_m=1000, by_hand=by_hand,
        warm_c=20.0, cold_c=4.0,
    )  # fmt: skip


def test_days_become_columns_in_order() -> None:
    s = of_days([day(1), day(2)], {1: [12.0, 12.0, 11.0, 11.0], 2: [10.0, 10.0, 9.0, 9.0]})
    assert len(s) == 8
    assert list(s.day) == [1, 1, 1, 1, 2, 2, 2, 2]
    assert [KINDS[k] for k in s.kind[:4]] == ["walk", "rest", "camp", "sleep"]
    assert s.speed_ms[0] == pytest.approx(1.0)
    assert list(s.load_kg) == [12, 12, 11, 11, 10, 10, 9, 9]
    assert s.minutes[3] == 480.0
    assert list(s.start_min[:4]) == [540.0, 600.0, 620.0, 1320.0]
    assert (s.grade_pct[0], s.terrain[0], s.height_m[0]) == (8.0, 1.2, 900.0)


def test_the_walker_has_the_warm_air_the_cook_the_mean_and_the_sleeper_lies_warm() -> None:
    s = of_days([day(1)], {1: [12.0] * 4})
    assert list(s.air_c) == [20.0, 20.0, 12.0, 15.0]


def test_a_typed_day_is_marked() -> None:
    s = of_days([day(1), day(2, by_hand=True)], {1: [1.0] * 4, 2: [1.0] * 4})
    assert list(s.by_hand) == [False] * 4 + [True] * 4


def test_no_days_are_no_rows() -> None:
    assert len(of_days([], {})) == 0


def test_single_values_fill_a_column() -> None:
    s = columns(minutes=np.array([30.0, 60.0]), speed_ms=1.2, load_kg=9.0)
    assert list(s.speed_ms) == [1.2, 1.2]
    assert list(s.start_min) == [0.0, 30.0]
    assert list(s.kind) == [WALK, WALK]
    assert s.day.dtype == np.int64


def test_columns_of_different_lengths_are_refused() -> None:
    with pytest.raises(ValueError, match=r"broadcast|lengths"):
        columns(minutes=np.array([30.0, 60.0]), speed_ms=np.array([1.0, 1.1, 1.2]))
    whole = columns(minutes=np.array([30.0]))
    with pytest.raises(ValueError, match="different lengths"):
        type(whole)(**{**{n: getattr(whole, n) for n in whole.__slots__}, "load_kg": np.zeros(2)})


def test_kinds_are_those_of_a_route() -> None:
    assert KINDS == ("walk", "rest", "camp", "sleep")
    assert KINDS[CAMP] == "camp"
    assert KINDS[SLEEP] == "sleep"
