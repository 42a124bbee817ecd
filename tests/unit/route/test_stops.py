"""Places where food is taken on are found on the route: which leg begins behind each, which day."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.errors import TripFileError
from oatsack.route.days import days_of
from oatsack.route.stops import with_leg_ends, with_stops
from oatsack.values.pack import Place
from oatsack.values.trip import HandDay, Trip
from support.trips import trip_of

CAMPS = ("Alder Ford", "Birch Ford", "Cold Well", "")


def four_days(*names: str, resupply: tuple[str, ...] = ()) -> Trip:
    trip = trip_of(
        "2026-06-04 09:00", "2026-06-07 15:00", leg_ends=resupply,
        hand_days=tuple(HandDay(distance_m=9000.0, camp_name=camp) for camp in CAMPS),
    )  # fmt: skip
    return replace(trip, places=tuple(Place(name=name) for name in names))


def found(trip: Trip) -> list[tuple[str, int, int]]:
    return [(p.name, p.leg, p.day) for p in with_stops(trip, days_of(trip)).places]


def test_a_place_ends_a_leg_on_its_day() -> None:
    trip = four_days("Birch Ford")
    assert [day.leg for day in days_of(trip)] == [1, 1, 2, 2]
    assert [day.supplied for day in days_of(trip)] == ["", "Birch Ford", "", ""]
    assert found(trip) == [("Birch Ford", 2, 2)]


def test_a_place_is_found_however_its_name_is_spelt() -> None:
    assert found(four_days("birch FORD")) == [("Birch Ford", 2, 2)]


def test_places_and_named_ends_of_legs_go_together() -> None:
    trip = four_days("Cold Well", resupply=("Alder Ford", "cold well"))
    assert [day.leg for day in days_of(trip)] == [1, 2, 2, 3]
    assert found(trip) == [("Cold Well", 3, 3)]
    assert with_leg_ends(trip).route.leg_ends == ("Alder Ford", "Cold Well")


def test_finding_places_twice_finds_the_same() -> None:
    trip = four_days("Alder Ford", "Cold Well")
    once = with_stops(trip, days_of(trip))
    assert with_stops(once, days_of(once)) == once


def test_a_place_off_the_route_is_refused_with_the_nearest_name() -> None:
    with pytest.raises(TripFileError) as caught:
        days_of(four_days("Birch Fort", "Nowhere"))
    assert [f.path for f in caught.value.faults] == ["places[0].name", "places[1].name"]
    assert "Birch Ford" in caught.value.faults[0].instead


def test_a_leg_that_begins_nowhere_is_refused() -> None:
    """The last camp of a walk that ends there has no leg behind it."""
    trip = four_days("Cold Well")
    last = replace(trip.route.hand_days[-1], camp_name="Home")
    trip = replace(trip, route=replace(trip.route, hand_days=(*trip.route.hand_days[:-1], last)),
                   places=(Place(name="Home"),))  # fmt: skip
    with pytest.raises(TripFileError, match="takes no food on there"):
        with_stops(trip, days_of(trip))
