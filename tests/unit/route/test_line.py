"""How far along, and where a place is passed."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from oatsack.route.line import Pass, along_m, passings, steps_m
from oatsack.values.route import Track, Waypoint
from support.tracks import line, place


def passed(track: Track, one: Waypoint) -> tuple[Pass, ...]:
    """The passings of one place."""
    ((_, found),) = passings(dataclasses.replace(track, waypoints=(one,)), along_m(track))
    return found


def there_and_back() -> Track:
    out = line(3000.0)
    return dataclasses.replace(
        out,
        lat=out.lat + out.lat[::-1][1:],
        lon=out.lon + out.lon[1:],
        height_m=out.height_m + out.height_m[1:],
    )


def test_a_degree_of_latitude_is_a_ninetieth_of_a_quarter_meridian() -> None:
    # oracle: a sphere of mean radius has a quarter of 10,007,557 m
    assert steps_m(np.array([46.0, 47.0]), np.array([13.0, 13.0]))[0] == pytest.approx(
        10_007_557 / 90, abs=1
    )


def test_a_degree_of_longitude_shrinks_with_the_cosine_of_latitude() -> None:
    at_60 = steps_m(np.array([60.0, 60.0]), np.array([13.0, 13.001]))[0]
    at_0 = steps_m(np.array([0.0, 0.0]), np.array([13.0, 13.001]))[0]
    assert at_60 / at_0 == pytest.approx(0.5, rel=1e-6)


def test_a_place_beside_the_way_is_passed_at_its_foot() -> None:
    track = line(3000.0, step_m=250.0)
    (one,) = passed(track, place("Barn", 1300.0, off_m=60.0))
    assert one.along_m == pytest.approx(1300.0, abs=1.0)
    assert one.off_m == pytest.approx(60.0, abs=0.5)


def test_there_and_back_passes_a_place_twice() -> None:
    track = there_and_back()
    found = passed(track, place("Barn", 1000.0))
    assert [round(one.along_m) for one in found] == [1000, 5000]


def test_the_turning_place_is_passed_once() -> None:
    track = there_and_back()
    assert len(passed(track, place("Head", 3000.0))) == 1


def test_a_place_far_from_the_way_is_not_passed() -> None:
    track = line(3000.0)
    assert passed(track, place("Elsewhere", 1000.0, off_m=4000.0)) == ()


def test_a_stated_distance_outranks_coordinates() -> None:
    track = line(3000.0)
    stated = dataclasses.replace(place("Barn", 1000.0), distance_m=1700.0)
    assert passed(track, stated)[0].along_m == 1700.0
