"""Laws of the route: cutting keeps length and climb, and the clock keeps every minute."""

from __future__ import annotations

import datetime as dt
import itertools

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.route.climb import naive_m, running_climb_m, turning_points
from oatsack.route.days import days_of
from oatsack.route.profile import profile_of
from oatsack.values.trip import HandDay
from support.climbs import climbed_m
from support.tracks import line
from support.trips import trip_of

heights = st.lists(st.floats(0.0, 3000.0), min_size=2, max_size=60)
thresholds = st.floats(0.5, 30.0)


@given(heights, thresholds)
def test_a_threshold_never_finds_more_climb_than_the_plain_sum(
    rows: list[float], threshold: float
) -> None:
    for counted, summed in zip(climbed_m(rows, threshold), naive_m(rows), strict=True):
        assert 0.0 <= counted <= summed + 1e-6


@given(heights, thresholds)
def test_turning_points_turn_and_change_by_the_threshold(
    rows: list[float], threshold: float
) -> None:
    turns = turning_points(rows, threshold)
    legs = [rows[b] - rows[a] for a, b in itertools.pairwise(turns)]
    assert all(abs(leg) >= threshold for leg in legs)
    assert all(a * b < 0 for a, b in itertools.pairwise(legs))


@given(heights, thresholds)
def test_walking_the_other_way_swaps_ascent_and_descent_within_the_threshold(
    rows: list[float], threshold: float
) -> None:
    up, down = climbed_m(rows, threshold)
    back_up, back_down = climbed_m(rows[::-1], threshold)
    assert back_up == pytest.approx(down, abs=threshold + 1e-6)
    assert back_down == pytest.approx(up, abs=threshold + 1e-6)


@given(heights, thresholds, st.floats(0.0, 1.0))
def test_climb_so_far_only_grows_and_ends_at_the_whole(
    rows: list[float], threshold: float, share: float
) -> None:
    up, down = running_climb_m(np.array(rows), threshold)
    cut = int(share * (len(rows) - 1))
    assert np.all(np.diff(up) >= 0)
    assert np.all(np.diff(down) >= 0)
    whole = climbed_m(rows, threshold)
    assert up[cut] + (up[-1] - up[cut]) == pytest.approx(whole[0], abs=1e-6)
    assert down[-1] == pytest.approx(whole[1], abs=1e-6)


@given(
    st.lists(st.floats(200.0, 2500.0), min_size=12, max_size=40),
    st.lists(st.floats(0.02, 0.98), min_size=1, max_size=4, unique=True),
)
def test_splitting_a_track_keeps_its_length_and_its_climb(
    rows: list[float], shares: list[float]
) -> None:
    length = 1500.0 * (len(rows) - 1)
    knots = np.linspace(0.0, length, len(rows))
    track = line(length, lambda x: float(np.interp(x, knots, rows)), step_m=100.0)
    profile = profile_of(track)
    cuts = [0.0, *sorted(share * profile.length_m for share in shares), profile.length_m]
    parts = [profile.climb_m(a, b) for a, b in itertools.pairwise(cuts)]
    assert all(up >= 0.0 and down >= 0.0 for up, down in parts)
    for which, whole in enumerate(profile.climb_m(0.0, profile.length_m)):
        assert sum(part[which] for part in parts) == pytest.approx(whole, abs=1e-6)
    days = len(cuts) - 1
    trip = trip_of("2026-06-01 08:30", f"2026-06-0{days} 18:30", cuts_m=tuple(cuts[1:-1]))
    if all(b - a > 2.0 for a, b in itertools.pairwise(cuts)):
        walked = days_of(trip, track)
        assert sum(day.distance_m for day in walked) == pytest.approx(profile.length_m)
        assert sum(day.ascent_m for day in walked) == pytest.approx(
            profile.climb_m(0.0, profile.length_m)[0], abs=1e-6
        )


clocks = st.datetimes(dt.datetime(2026, 3, 20), dt.datetime(2026, 11, 10)).map(
    lambda moment: moment.replace(second=0, microsecond=0)
)


@given(
    clocks,
    st.integers(60, 8 * 24 * 60),
    st.floats(0.0, 60_000.0),
    st.floats(0.0, 2500.0),
    st.floats(240.0, 720.0),
)
def test_every_minute_of_the_walk_lies_in_exactly_one_stretch(
    begin: dt.datetime, minutes: int, distance: float, climb: float, start_clock: float
) -> None:
    """Clock changes, short days, long days: nothing is lost and nothing is counted twice."""
    from support.trips import at

    first = at(begin.isoformat(sep=" "))
    last = (first.astimezone(dt.UTC) + dt.timedelta(minutes=minutes)).astimezone(first.tzinfo)
    usual = HandDay(distance_m=distance, ascent_m=climb, descent_m=climb)
    trip = trip_of(
        begin.isoformat(sep=" "), last.replace(tzinfo=None).isoformat(sep=" "),
        usual_day=usual, start_clock_min=start_clock,
    )  # fmt: skip
    real = (trip.end.timestamp() - trip.begin.timestamp()) / 60.0
    if real <= 0:
        return
    days = days_of(trip)
    assert sum(day.inside_min for day in days) == pytest.approx(real, abs=1e-6)
    for day in days:
        ends = [stretch.end_min for stretch in day.stretches[:-1]]
        starts = [stretch.start_min for stretch in day.stretches[1:]]
        assert starts == pytest.approx(ends, abs=1e-6)
        walked = sum(s.distance_m for s in day.stretches if s.kind == "walk")
        assert walked == pytest.approx(day.distance_m)
