"""When one comes to a place, and how likely it is open then and a box lies ready."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.packing.arrival import (
    arrivals,
    best_posting,
    is_open,
    longest_wait,
    open_chance,
    ready_chance,
)
from oatsack.packing.legs import posting_window
from oatsack.values.pack import Place

START = dt.date(2026, 6, 1)
"""A Monday."""
POST = Place(leg=2, name="Otter Ford", transit_fast_days=3, transit_slow_days=6, hold_days=15,
             early_days=1, late_days=3)  # fmt: skip
places = st.builds(
    lambda fast, more, hold, early, late, weekdays: Place(
        leg=2, name="Otter Ford", transit_fast_days=fast, transit_slow_days=fast + more,
        hold_days=hold, early_days=early, late_days=late, open_weekdays=frozenset(weekdays),
    ),
    st.integers(0, 8), st.integers(0, 8), st.integers(0, 30), st.integers(0, 5),
    st.integers(0, 9), st.sets(st.integers(0, 6)),
)  # fmt: skip


def test_the_spread_is_a_triangle_over_the_days_stated() -> None:
    """By hand: one day early, three late; weights 1/2, 1, 3/4, 1/2, 1/4 of a sum of 3."""
    assert arrivals(POST, 11) == {
        10: pytest.approx(1 / 6), 11: pytest.approx(1 / 3), 12: pytest.approx(1 / 4),
        13: pytest.approx(1 / 6), 14: pytest.approx(1 / 12),
    }  # fmt: skip


def test_who_comes_on_the_day_comes_on_the_day() -> None:
    assert arrivals(replace(POST, early_days=0, late_days=0), 4) == {4: 1.0}


def test_a_weekday_office_is_open_with_three_chances_in_four() -> None:
    """Days 10 to 12 are Wednesday to Friday, 13 and 14 a weekend: 1/6 + 1/3 + 1/4 by hand."""
    assert [is_open(POST, day, START) for day in range(10, 15)] == [True, True, True, False, False]
    assert open_chance(POST, 11, START) == pytest.approx(0.75)
    assert longest_wait(POST, 11, START) == 2


def test_a_place_that_is_always_open_or_never() -> None:
    always = replace(POST, open_weekdays=frozenset(range(7)))
    never = replace(POST, open_weekdays=frozenset())
    assert (open_chance(always, 11, START), longest_wait(always, 11, START)) == (
        pytest.approx(1.0), 0,
    )  # fmt: skip
    assert (open_chance(never, 11, START), longest_wait(never, 11, START)) == (0.0, 7)


def test_a_box_posted_inside_the_window_is_there_for_certain() -> None:
    window = posting_window(POST, 11, START)
    for posted in range(window.earliest, window.latest + 1):
        assert ready_chance(POST, 11, posted) == pytest.approx(1.0), posted
    assert ready_chance(POST, 11, window.earliest - 1) < 1.0
    assert ready_chance(POST, 11, window.latest + 1) < 1.0
    assert best_posting(POST, 11).day in range(window.earliest, window.latest + 1)


def test_a_box_posted_a_day_late_by_hand() -> None:
    """Posted on day 5 it comes on day 8, 9, 10 or 11: only who comes on day 10 may find nothing,
    and that in one case of four."""
    assert ready_chance(POST, 11, 5) == pytest.approx(1.0 - 1 / 6 / 4)


@settings(max_examples=60, deadline=None)
@given(place=places, expected=st.integers(2, 40), posted=st.integers(-30, 40))
def test_chances_agree_with_counting_every_case(place: Place, expected: int, posted: int) -> None:
    """Against drawing each arrival and each time on the way as often as it weighs."""
    spread = arrivals(place, expected)
    assert sum(spread.values()) == pytest.approx(1.0)
    assert max(spread, key=lambda day: spread[day]) == expected
    there = times = 0.0
    for day, part in spread.items():
        for t in range(place.transit_fast_days, place.transit_slow_days + 1):
            times += part
            there += part * (posted + t <= day and day - (posted + t) <= place.hold_days)
    assert ready_chance(place, expected, posted) == pytest.approx(there / times)
    shut = {d for d in spread if (START + dt.timedelta(d - 1)).weekday() not in place.open_weekdays}
    assert open_chance(place, expected, START) == pytest.approx(
        1.0 - sum(spread[d] for d in shut), abs=1e-9
    )
    assert (longest_wait(place, expected, START) > 0) == bool(shut)


@settings(max_examples=40, deadline=None)
@given(place=places, expected=st.integers(2, 40))
def test_no_day_of_posting_is_better_than_the_best(place: Place, expected: int) -> None:
    best = best_posting(place, expected)
    others = [ready_chance(place, expected, day) for day in range(expected - 60, expected + 20)]
    assert best.chance == pytest.approx(max(others))
    window = posting_window(place, expected, START)
    if window.exists:
        assert best.chance == pytest.approx(1.0)
        assert window.earliest <= best.day <= window.latest
