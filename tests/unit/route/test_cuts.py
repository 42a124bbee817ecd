"""Cutting a track at places, also where it passes them more than once."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from oatsack.errors import TripFileError
from oatsack.route.calendar import windows_of
from oatsack.route.cuts import PIECES_A_DAY, course_of, cuts_of, walks_on
from oatsack.route.pieces import Walk, gait_of
from oatsack.values.route import Track, Waypoint
from oatsack.values.trip import Trip
from support.tracks import LAT, METRE, line, place
from support.trips import trip_of


def there_and_back(*waypoints: Waypoint) -> Track:
    """Ten kilometres out over a hill and back the same way."""
    out = line(10_000.0, lambda x: 500.0 + 0.05 * x)
    return dataclasses.replace(
        out,
        lat=out.lat + out.lat[-2::-1],
        lon=out.lon + out.lon[1:],
        height_m=out.height_m + out.height_m[-2::-1],
        waypoints=waypoints,
    )


def days(count: int, **route: object) -> Trip:
    return trip_of("2026-06-01 08:30", f"2026-06-{count:02d} 18:30", **route)


def walks(trip: Trip, track: Track) -> list[Walk]:
    return walks_on(trip, track, windows_of(trip))


def lengths(trip: Trip, track: Track) -> list[int]:
    return [round(walk.distance_m) for walk in walks(trip, track)]


def test_there_and_back_sleeps_at_the_same_place_twice() -> None:
    track = there_and_back(place("Barn", 6000.0))
    assert lengths(days(3, camps=("Barn", "Barn")), track) == [6000, 0, 14_000]


def test_a_camp_further_out_comes_between_both_passings() -> None:
    track = there_and_back(place("Barn", 6000.0), place("Head", 9000.0))
    assert lengths(days(4, camps=("Barn", "Head", "Barn")), track) == [6000, 3000, 5000, 6000]


def test_both_passings_of_a_spring_are_water() -> None:
    track = there_and_back(place("Barn", 9000.0), place("Spring", 2000.0, "water"))
    out, back = walks(days(2, camps=("Barn",)), track)
    assert [round(w.distance_m) for w in out.water] == [2000]
    assert [round(w.distance_m) for w in back.water] == [9000]


def test_water_at_a_camp_serves_the_evening_and_the_morning() -> None:
    track = dataclasses.replace(
        line(20_000.0), waypoints=(place("Barn", 9000.0), place("Pump", 9000.0, "water"))
    )
    first, second = walks(days(2, camps=("Barn",)), track)
    assert [w.name for w in first.water] == ["Pump"]
    assert [round(w.distance_m) for w in second.water] == [0]


def test_one_name_for_two_places_means_the_camp() -> None:
    track = dataclasses.replace(
        line(20_000.0), waypoints=(place("Mill", 4000.0, "shop"), place("Mill", 11_000.0))
    )
    found = course_of(track).find(" mill ")
    assert found is not None
    assert found[0].kind == "camp"
    assert lengths(days(2, camps=("Mill",)), track) == [11_000, 9000]


def test_nothing_is_found_under_another_name() -> None:
    assert course_of(line(2000.0)).find("Mill") is None


def test_a_cut_at_the_end_of_the_track_is_none() -> None:
    track = line(20_000.0)
    assert lengths(days(2, cuts_m=(8000.0, 20_000.0)), track) == [8000, 12_000]


def test_a_cut_a_little_beyond_a_track_measured_short_is_its_end() -> None:
    track = line(20_000.0)
    assert lengths(days(2, cuts_m=(8000.0, 20_300.0)), track) == [8000, 12_000]


def test_the_message_names_what_was_typed_in_kilometres() -> None:
    with pytest.raises(TripFileError, match="8, 31 km"):
        walks(days(3, cuts_m=(8000.0, 31_000.0)), line(20_000.0))


def test_equal_effort_gives_the_steep_half_less_way() -> None:
    track = line(20_000.0, lambda x: 500.0 + max(0.0, x - 10_000.0) * 0.2)
    flat, steep = walks(days(2, equal_days=True), track)
    gait = gait_of(days(2))
    times = [sum(gait.minutes(piece) for piece in walk.pieces) for walk in (flat, steep)]
    assert times[0] == pytest.approx(times[1], rel=0.02)
    assert flat.distance_m > steep.distance_m + 1000.0


def test_no_cut_at_all_means_equal_effort() -> None:
    track = line(20_000.0)
    assert lengths(days(2), track) == lengths(days(2, equal_days=True), track) == [10_000, 10_000]


def test_a_single_day_walks_the_whole_track() -> None:
    trip = days(1)
    assert cuts_of(trip, course_of(line(9000.0)), windows_of(trip)) == []
    assert lengths(trip, line(9000.0)) == [9000]


def test_a_cut_near_a_camp_bears_its_name_and_one_far_away_does_not() -> None:
    track = dataclasses.replace(line(20_000.0), waypoints=(place("Barn", 8200.0),))
    assert [walk.camp_name for walk in walks(days(2, cuts_m=(8000.0,)), track)] == ["Barn", ""]
    assert [walk.camp_name for walk in walks(days(2, cuts_m=(7000.0,)), track)] == ["", ""]


def test_a_camp_beside_the_way_is_reached_at_its_foot() -> None:
    """The way to the tent and back is not counted: it is not on the track."""
    track = dataclasses.replace(line(20_000.0), waypoints=(place("Barn", 8000.0, off_m=400.0),))
    assert lengths(days(2, camps=("Barn",)), track) == [8000, 12_000]


def test_heights_and_slopes_are_those_of_the_ground() -> None:
    track = line(12_000.0, lambda x: 700.0 + 0.08 * x)
    one, two = walks(days(2, cuts_m=(5000.0,)), track)
    assert (one.start_m, one.end_m) == (pytest.approx(700.0), pytest.approx(1100.0, abs=0.5))
    assert two.highest_m == pytest.approx(1660.0, abs=0.5)
    assert {round(piece.grade_pct, 1) for piece in (*one.pieces, *two.pieces)} == {8.0}


def test_a_day_never_has_more_pieces_than_its_share() -> None:
    dice = np.random.default_rng(2)
    bumps = np.cumsum(dice.normal(0.0, 6.0, 4001))
    rough = line(80_000.0, lambda x: 900.0 + float(bumps[round(x / 20.0)]))
    assert all(len(walk.pieces) <= PIECES_A_DAY for walk in walks(days(1), rough))


def test_a_place_given_by_distance_needs_no_coordinates() -> None:
    barn = Waypoint(name="Barn", kind="camp", distance_m=7000.0)
    track = dataclasses.replace(line(20_000.0), waypoints=(barn,))
    assert lengths(days(2, camps=("Barn",)), track) == [7000, 13_000]


def test_a_sparse_route_is_cut_between_its_points() -> None:
    """A drawn route may have a point every few kilometres."""
    sparse = Track(
        name="drawn",
        lat=tuple(LAT + k * 5000.0 * METRE for k in range(5)),
        lon=(13.0,) * 5,
        height_m=(500.0, 600.0, 700.0, 800.0, 900.0),
        waypoints=(place("Barn", 7500.0),),
    )
    one, two = walks(days(2, camps=("Barn",)), sparse)
    assert round(one.distance_m) == 7500
    assert one.end_m == pytest.approx(650.0, abs=1.0)
    assert one.ascent_m + two.ascent_m == pytest.approx(400.0, abs=1.0)


def test_each_place_is_looked_for_once_however_many_days_there_are() -> None:
    """A long track with many places took a second for each place on each day."""
    marks = tuple(place(f"Spring {k}", 1900.0 * k, "water") for k in range(1, 20))
    track = dataclasses.replace(line(40_000.0), waypoints=marks)
    course = course_of(track)
    assert [len(passed) for _, passed in course.marks] == [1] * 19
    found = [source.name for walk in walks(days(9), track) for source in walk.water]
    assert found == [mark.name for mark in marks]
