"""When things happen: nibbling over the walk, and a quantity that falls in steps."""

from __future__ import annotations

import datetime as dt
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.provision.moments import Falling, day_start, middles, moments, nibbling
from oatsack.values.route import Day, Stretch
from support.each import each

GRAMS = st.integers(0, 4000).map(lambda n: n / 4.0)  # quarters add up without rounding
MINUTES = st.integers(0, 20_000).map(float)
STEPS = st.lists(st.tuples(MINUTES, GRAMS), max_size=25)


def day(*stretches: Stretch, number: int = 1) -> Day:
    """A day of these stretches."""
    return Day(
        number=number, date=dt.date(2026, 6, number), stretches=stretches, distance_m=0.0,
        ascent_m=0.0, descent_m=0.0, highest_m=0.0, camp_m=None,
    )  # fmt: skip


def piece(kind: Any, start: float, end: float) -> Stretch:
    """A stretch of a kind between two clocks."""
    return Stretch(kind=kind, start_min=start, end_min=end)


WALKED = day(
    piece("rest", 420, 480), piece("walk", 480, 600), piece("rest", 600, 660),
    piece("walk", 660, 960), piece("camp", 960, 1320), piece("sleep", 1320, 1860), number=2,
)  # fmt: skip


def test_the_first_day_begins_at_nought() -> None:
    assert day_start(1) == 0.0


@given(st.integers(1, 400))
def test_every_day_begins_one_day_after_the_one_before(number: int) -> None:
    assert day_start(number + 1) - day_start(number) == 24 * 60


def test_one_nibbles_while_walking_only() -> None:
    assert [s.kind for s in nibbling(WALKED)] == ["walk", "walk"]


def test_on_a_day_without_walking_one_nibbles_whenever_one_is_awake() -> None:
    idle = day(piece("rest", 420, 600), piece("camp", 600, 1320), piece("sleep", 1320, 1860))
    assert [s.kind for s in nibbling(idle)] == ["rest", "camp"]


def test_a_walk_of_no_minutes_is_no_walk() -> None:
    idle = day(piece("walk", 500, 500), piece("camp", 500, 900))
    assert [s.kind for s in nibbling(idle)] == ["walk", "camp"]
    assert moments(idle, "move", 600.0) == [(500.0, 0.0), (700.0, 1.0)]


def test_a_day_that_is_all_sleep_leaves_nothing_to_nibble_in() -> None:
    assert nibbling(day(piece("sleep", 0, 600))) == ()


@each("meal", ["breakfast", "lunch", "dinner", "drinks"])
def test_a_meal_is_eaten_all_at_once_at_its_clock(meal: Any) -> None:
    assert moments(WALKED, meal, 420.0) == [(1440.0 + 420.0, 1.0)]


def test_nibbles_follow_the_minutes_of_each_walking_stretch() -> None:
    found = moments(WALKED, "move", 0.0)
    assert [at for at, _ in found] == [1440.0 + 540.0, 1440.0 + 810.0]
    assert [share for _, share in found] == pytest.approx([120 / 420, 300 / 420])


def test_nibbles_of_a_day_without_a_waking_minute_go_by_the_clock() -> None:
    assert moments(day(piece("sleep", 0, 600)), "move", 300.0) == [(300.0, 1.0)]


@given(st.lists(st.tuples(st.sampled_from(["walk", "rest", "camp", "sleep"]),
                          st.integers(0, 300)), max_size=8))  # fmt: skip
def test_shares_of_nibbles_add_up_to_one_inside_the_day(parts: list[tuple[str, int]]) -> None:
    pieces, clock = [], 400.0
    for kind, minutes in parts:
        pieces.append(piece(kind, clock, clock + minutes))
        clock += minutes
    found = moments(day(*pieces), "move", 600.0)
    assert sum(share for _, share in found) == pytest.approx(1.0)
    assert all(share >= 0.0 for _, share in found)
    if sum(s.minutes for s in nibbling(day(*pieces))) > 0:
        assert all(400.0 <= at <= clock for at, _ in found)


def test_middles_lie_half_way_through_each_stretch() -> None:
    assert list(middles(WALKED)) == [1440.0 + m for m in (450, 540, 630, 810, 1140, 1590)]


def test_middles_of_a_day_without_stretches_are_none() -> None:
    assert middles(day()).shape == (0,)


@given(STEPS, st.integers(0, 900).map(float))
def test_before_anything_falls_all_of_it_is_there(steps: list[tuple[float, float]],
                                                  floor: float) -> None:  # fmt: skip
    falling = Falling(steps, floor)
    assert falling.start == sum(g for _, g in steps) + floor
    assert falling.left(np.array([-1.0]))[0] == falling.start


@given(STEPS, st.integers(0, 900).map(float))
def test_after_everything_fell_the_floor_remains(steps: list[tuple[float, float]],
                                                 floor: float) -> None:  # fmt: skip
    assert Falling(steps, floor).left(np.array([1e9]))[0] == floor


@given(STEPS, st.lists(MINUTES, min_size=1, max_size=20))
def test_what_is_left_never_grows(steps: list[tuple[float, float]], at: list[float]) -> None:
    left = Falling(steps).left(np.array(sorted(at)))
    assert np.all(np.diff(left) <= 0.0)


@given(STEPS, MINUTES)
def test_what_is_left_is_a_plain_count_of_the_steps_to_come(steps: list[tuple[float, float]],
                                                            at: float) -> None:  # fmt: skip
    assert Falling(steps).left(np.array([at]))[0] == sum(g for t, g in steps if t > at)


@given(STEPS, MINUTES, MINUTES)
def test_between_counts_its_end_and_not_its_start(steps: list[tuple[float, float]], one: float,
                                                  two: float) -> None:  # fmt: skip
    start, end = sorted((one, two))
    found = Falling(steps).between(np.array([start]), np.array([end]))[0]
    assert found == sum(g for t, g in steps if start < t <= end)


@given(STEPS, st.lists(MINUTES, min_size=2, max_size=12))
def test_spans_side_by_side_add_up_to_the_whole_span(steps: list[tuple[float, float]],
                                                     marks: list[float]) -> None:  # fmt: skip
    cuts = np.array(sorted(marks))
    falling = Falling(steps)
    parts = falling.between(cuts[:-1], cuts[1:])
    assert parts.sum() == falling.between(cuts[:1], cuts[-1:])[0]


@given(STEPS, st.randoms())
def test_the_order_in_which_steps_are_named_is_of_no_account(steps: list[tuple[float, float]],
                                                             dice: Any) -> None:  # fmt: skip
    mixed = list(steps)
    dice.shuffle(mixed)
    at = np.array([t for t, _ in steps] + [0.0])
    assert np.array_equal(Falling(steps).left(at), Falling(mixed).left(at))


def test_nothing_falls_where_there_is_no_step() -> None:
    falling = Falling([], 250.0)
    assert list(falling.left(np.array([0.0, 1e6]))) == [250.0, 250.0]
