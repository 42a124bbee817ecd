"""The quick arithmetic of the route against the slow and obvious one."""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools
import random
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.route.calendar import windows_of
from oatsack.route.line import along_m, passings, steps_m
from oatsack.route.profile import profile_of, smoothed
from oatsack.values.route import Track, Waypoint
from support import slow_route as slow
from support.amount import examples
from support.climbs import climbed_m
from support.each import each
from support.tracks import LAT, LON
from support.trips import ZONE, at, trip_of

degrees = st.tuples(st.floats(-80.0, 80.0), st.floats(-179.0, 179.0))
small = st.tuples(st.floats(-0.02, 0.02), st.floats(-0.02, 0.02))


@given(degrees, small)
def test_lengths_on_the_sphere(place: tuple[float, float], move: tuple[float, float]) -> None:
    there = (place[0] + move[0], place[1] + move[1])
    quick = steps_m(np.array([place[0], there[0]]), np.array([place[1], there[1]]))[0]
    assert quick == pytest.approx(slow.distance_m(place, there), rel=1e-6, abs=1e-3)


@given(
    st.lists(st.integers(0, 60), min_size=2, max_size=40),
    st.integers(1, 25),
)
def test_climb_between_turning_points(rows: list[int], threshold: int) -> None:
    """One looks forward for reversals, the other takes the smallest wave out again and again."""
    assert climbed_m([float(row) for row in rows], float(threshold)) == pytest.approx(
        slow.climbs(rows, float(threshold))
    )


def test_the_slow_way_of_counting_knows_the_ten_point_example() -> None:
    ten = [12, 17, 15, 20, 22, 18, 15, 16, 14, 12]
    assert [slow.climbs(ten, t) for t in (2, 3, 5)] == [(12, 12), (10, 10), (10, 10)]


@settings(max_examples=examples(25))
@given(
    st.lists(st.tuples(st.floats(5.0, 60.0), st.floats(300.0, 900.0)), min_size=3, max_size=12),
    st.floats(20.0, 50.0),
)
def test_means_over_a_window(knots: list[tuple[float, float]], window: float) -> None:
    places = np.cumsum([0.0, *(width for width, _ in knots[1:])])
    heights = np.array([height for _, height in knots])
    grid = np.linspace(0.0, places[-1], 7)
    for where, got in zip(grid, smoothed(places, heights, grid, window), strict=True):
        half = min(window / 2.0, where, places[-1] - where)
        expected = slow.window_mean(list(places), list(heights), float(where), float(half))
        assert got == pytest.approx(expected, abs=0.05)


def wander(seed: int, count: int = 40) -> Track:
    """A crooked way with a point about every 150 m."""
    dice, lat, lon = random.Random(seed), [LAT], [LON]
    for _ in range(count):
        lat.append(lat[-1] + dice.uniform(0.0002, 0.0016))
        lon.append(lon[-1] + dice.uniform(-0.0012, 0.0020))
    heights = tuple(600.0 + dice.uniform(-30.0, 30.0) for _ in lat)
    return Track(name="crooked", lat=tuple(lat), lon=tuple(lon), height_m=heights)


@each("seed", range(6))
def test_where_a_place_is_passed(seed: int) -> None:
    track, dice = wander(seed), random.Random(seed + 100)
    spot = dice.randrange(5, 35)
    mark = Waypoint(
        name="Barn", lat=track.lat[spot] + dice.uniform(-4e-4, 4e-4),
        lon=track.lon[spot] + dice.uniform(-4e-4, 4e-4),
    )  # fmt: skip
    line = list(zip(track.lat, track.lon, strict=True))
    along, off = slow.nearest_on(line, (mark.lat, mark.lon))
    ((_, all_),) = passings(dataclasses.replace(track, waypoints=(mark,)), along_m(track))
    found = min(all_, key=lambda one: one.off_m)
    assert found.off_m == pytest.approx(off, abs=0.5)
    assert found.along_m == pytest.approx(along, abs=3.0)


@pytest.mark.slow
@each("seed", range(4))
def test_a_whole_profile(seed: int) -> None:
    """Length by arrows, heights by slices, climb by taking waves out: all three slow at once."""
    track = wander(seed)
    line = list(zip(track.lat, track.lon, strict=True))
    places = [0.0]
    for a, b in itertools.pairwise(line):
        places.append(places[-1] + slow.distance_m(a, b))
    profile = profile_of(track, window_m=30.0, threshold_m=3.0)
    assert profile.length_m == pytest.approx(places[-1], rel=1e-6)
    heights = [height for height in track.height_m if height is not None]
    means = [
        slow.window_mean(places, heights, x, min(15.0, x, places[-1] - x), steps=400)
        for x in profile.along_m.tolist()
    ]
    assert profile.height_m == pytest.approx(np.array(means), abs=0.1)
    assert profile.climb_m(0.0, profile.length_m) == pytest.approx(slow.climbs(means, 3.0), abs=1.0)


@settings(max_examples=examples(30))
@given(
    st.datetimes(dt.datetime(2026, 3, 20), dt.datetime(2026, 4, 5))
    | st.datetimes(dt.datetime(2026, 10, 18), dt.datetime(2026, 11, 1)),
    st.integers(30, 3 * 24 * 60),
)
def test_minutes_of_each_day_about_the_nights_when_clocks_change(
    begin: dt.datetime, length: int
) -> None:
    begin = begin.replace(second=0, microsecond=0)
    first = at(begin.isoformat(sep=" "))
    if first.astimezone(dt.UTC).astimezone(ZoneInfo(ZONE)).hour != begin.hour:
        return  # an hour that the spring clock skips
    last = (first.astimezone(dt.UTC) + dt.timedelta(minutes=length)).astimezone(ZoneInfo(ZONE))
    if last.fold:
        return  # an hour told twice cannot be typed
    trip = trip_of(begin.isoformat(sep=" "), last.replace(tzinfo=None).isoformat(sep=" "))
    wakes = [at(f"{begin.date() + dt.timedelta(days=k)} 06:00").timestamp() for k in range(1, 6)]
    expected = slow.minutes_inside(first.timestamp(), last.timestamp(), wakes)
    assert [window.inside_min for window in windows_of(trip)] == pytest.approx(expected, abs=1e-6)
