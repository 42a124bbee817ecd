"""A track cut into days, and what each day then knows."""

from __future__ import annotations

import dataclasses
import math

import pytest

from oatsack.errors import TripFileError
from oatsack.route.days import days_of
from oatsack.route.flags import flags_of
from oatsack.values.route import Day, Track
from oatsack.values.trip import Trip
from support.each import each
from support.tracks import line, place
from support.trips import trip_of

LENGTH = 48_000.0


def ground(along: float) -> float:
    """Rolling ground that rises from 600 m to about 1,800 m and falls again."""
    return 600.0 + 1200.0 * math.sin(math.pi * along / LENGTH) + 60.0 * math.sin(along / 700.0)


WAYPOINTS = (
    place("Fold", 14_000.0), place("High Tarn", 24_000.0, off_m=80.0),
    place("Mill", 33_000.0), place("Brook", 9_000.0, "water"),
    place("Cold Well", 27_000.0, "water"), place("Corner", 33_000.0, "shop"),
)  # fmt: skip


def track() -> Track:
    return line(LENGTH, ground, waypoints=WAYPOINTS)


def four_days(**route: object) -> Trip:
    return trip_of("2026-06-04 08:30", "2026-06-07 18:30", **route)


CAMPS = ("Fold", "High Tarn", "Mill")


def test_days_end_at_the_named_camps() -> None:
    days = days_of(four_days(camps=CAMPS), track())
    assert [day.camp_name for day in days] == ["Fold", "High Tarn", "Mill", ""]
    assert [round(day.distance_m / 1000, 1) for day in days] == [14.0, 10.0, 9.0, 15.0]
    assert days[1].camp_m == pytest.approx(ground(24_000.0), abs=3.0)
    assert days[3].camp_m is None
    assert not any(day.by_hand for day in days)


def test_upper_and_lower_case_do_not_matter() -> None:
    days = days_of(four_days(camps=("fold", "HIGH TARN", "Mill")), track())
    assert days[1].camp_name == "High Tarn"


def test_a_camp_named_twice_is_a_day_of_rest() -> None:
    days = days_of(four_days(camps=("High Tarn", "High Tarn", "Mill")), track())
    assert days[1].distance_m == 0.0
    assert days[1].camp_m == pytest.approx(days[0].camp_m)
    assert sum(day.distance_m for day in days) == pytest.approx(LENGTH, rel=1e-6)


def test_an_unknown_camp_is_told_with_its_place_and_the_nearest_name() -> None:
    with pytest.raises(TripFileError) as caught:
        days_of(four_days(camps=("Fold", "Hihg Tarn", "Mill")), track())
    (fault,) = caught.value.faults
    assert fault.path == "route.camps[1]"
    assert "High Tarn" in fault.instead
    assert "Hihg Tarn" in fault.read


def test_a_fault_stands_on_the_line_of_the_trip_file() -> None:
    trip = four_days(camps=("Fold", "Nowhere", "Mill"))
    trip = dataclasses.replace(trip, origins={"route.camps": ("walk.toml", 12)})
    with pytest.raises(TripFileError, match=r"walk\.toml:12:1: route\.camps\[1\]"):
        days_of(trip, track())


@each(
    ("camps", "words"),
    [
        (("High Tarn", "Fold", "Mill"), "before the one named ahead"),
        (("Fold", "Mill"), "3 nights"),
        (("Fold", "Far Hut", "Mill"), "more than a kilometre"),
    ],
)
def test_camps_that_do_not_fit_are_refused(camps: tuple[str, ...], words: str) -> None:
    far = place("Far Hut", 20_000.0, off_m=6000.0)
    there = dataclasses.replace(track(), waypoints=(*WAYPOINTS, far))
    with pytest.raises(TripFileError, match=words):
        days_of(four_days(camps=camps), there)


def test_days_end_at_typed_distances_and_bear_the_name_of_a_camp_nearby() -> None:
    days = days_of(four_days(cuts_m=(12_000.0, 24_100.0, 36_000.0)), track())
    assert [round(day.distance_m) for day in days] == [12_000, 12_100, 11_900, 12_000]
    assert [day.camp_name for day in days] == ["", "High Tarn", "", ""]


@each(
    ("cuts", "words"),
    [
        ((12_000.0, 24_000.0), "3 cuts"),
        ((12_000.0, 9_000.0, 30_000.0), "only grow"),
        ((12_000.0, 24_000.0, 90_000.0), "48.0 km long"),
    ],
)
def test_distances_that_do_not_fit_are_refused(cuts: tuple[float, ...], words: str) -> None:
    with pytest.raises(TripFileError, match=words):
        days_of(four_days(cuts_m=cuts), track())


def test_days_of_equal_effort_walk_equally_long() -> None:
    days = days_of(four_days(equal_days=True), track())
    minutes = [day.walking_min for day in days]
    assert max(minutes) / min(minutes) < 1.03
    assert max(day.distance_m for day in days) / min(day.distance_m for day in days) > 1.03


def test_a_part_day_gets_its_share_of_the_effort() -> None:
    trip = trip_of("2026-06-04 13:30", "2026-06-07 18:30", equal_days=True)
    days = days_of(trip, track())
    assert days[0].walking_min / days[1].walking_min == pytest.approx(0.5, abs=0.03)


def test_length_and_climb_of_the_days_are_those_of_the_track() -> None:
    whole = days_of(trip_of("2026-06-04 06:00", "2026-06-05 05:00"), track())
    days = days_of(four_days(camps=CAMPS), track())
    for name in ("distance_m", "ascent_m", "descent_m"):
        parts = sum(getattr(day, name) for day in days)
        assert parts == pytest.approx(getattr(whole[0], name), rel=1e-9)


def test_a_day_has_at_most_250_stretches_and_they_keep_its_length_and_rise() -> None:
    rough = line(60_000.0, lambda x: 900.0 + 40.0 * math.sin(x / 90.0))
    (day,) = days_of(trip_of("2026-06-04 06:00", "2026-06-05 05:00"), rough)
    assert len(day.stretches) <= 250
    walked = [s for s in day.stretches if s.kind == "walk"]
    assert sum(s.distance_m for s in walked) == pytest.approx(60_000.0, rel=1e-6)
    net = sum(s.distance_m * s.grade_pct / 100 for s in walked)
    assert net == pytest.approx(rough.height_m[-1] - rough.height_m[0], abs=6.0)  # type: ignore[operator]


def test_slopes_beyond_45_percent_are_clamped_and_flagged() -> None:
    wall = line(4000.0, lambda x: 500.0 + max(0.0, x - 3000.0) * 0.8)
    trip = trip_of("2026-06-04 08:30", "2026-06-04 18:30")
    days = days_of(trip, wall)
    assert max(s.grade_pct for s in days[0].stretches) == 45.0
    assert "route.steep" in [flag.key for flag in flags_of(days, trip)]


def water_of(day: Day) -> list[tuple[str, int]]:
    return [(place.name, round(place.distance_m)) for place in day.water]


def test_water_lies_on_its_day_with_the_clock_of_passing() -> None:
    days = days_of(four_days(camps=CAMPS), track())
    assert [water_of(day) for day in days] == [[("Brook", 9000)], [], [("Cold Well", 3000)], []]
    brook = days[0].water[0]
    walked = [s for s in days[0].stretches if s.kind == "walk"]
    before = [s for s in walked if s.end_min <= brook.at_min + 1e-6]
    assert 8500.0 <= sum(s.distance_m for s in before) <= 9000.0 + 1e-6
    assert walked[0].start_min < brook.at_min < walked[-1].end_min


def test_a_shop_on_the_way_ends_a_leg_and_the_next_day_is_a_new_one() -> None:
    days = days_of(four_days(camps=CAMPS, leg_ends=("Corner",)), track())
    assert [day.leg for day in days] == [1, 1, 1, 2]


def test_unknown_places_of_legs_and_dry_camps_are_told_together() -> None:
    trip = four_days(camps=CAMPS, leg_ends=("Cornr",), dry_camps=frozenset({"Fald"}))
    with pytest.raises(TripFileError) as caught:
        days_of(trip, track())
    legs, dry = caught.value.faults
    assert (legs.path, dry.path) == ("route.resupply[0]", "route.dry_camps")
    assert "Corner" in legs.instead
    assert "Fold" in dry.instead


def test_a_dry_camp_is_marked() -> None:
    days = days_of(four_days(camps=CAMPS, dry_camps=frozenset({"High Tarn"})), track())
    assert [day.camp_dry for day in days] == [False, True, False, False]


def test_camps_are_colder_by_their_height_above_the_start_of_the_track() -> None:
    days = days_of(four_days(camps=CAMPS, start_height_m=0.0, cold_c=6.0), track())
    for day in days[:3]:
        assert day.camp_m is not None
        expected = 6.0 - 6.5 * (day.camp_m - ground(0.0)) / 1000.0
        assert day.cold_c == pytest.approx(expected, abs=0.05)
    assert days[3].cold_c == pytest.approx(days[2].cold_c)


def test_a_track_without_heights_is_marked_as_if_typed() -> None:
    flat = line(LENGTH, lambda x: None, waypoints=WAYPOINTS)
    days = days_of(four_days(camps=CAMPS, start_height_m=640.0), flat)
    assert all(day.by_hand for day in days)
    assert {day.highest_m for day in days} == {640.0}


def test_high_ground_is_mentioned() -> None:
    high = line(LENGTH, lambda x: ground(x) + 1500.0, waypoints=WAYPOINTS)
    trip = four_days(camps=CAMPS)
    flags = [flag for flag in flags_of(days_of(trip, high), trip) if flag.key == "route.high"]
    assert [flag.scope for flag in flags] == ["days/1", "days/2", "days/3", "days/4"]
    assert flags[1].values["highest_m"] == pytest.approx(3330.0, abs=40.0)


def test_a_track_and_its_own_typed_totals_agree_in_time_within_a_tenth() -> None:
    """What the slope assumption of typed days costs: stated, not hidden."""
    from oatsack.values.trip import HandDay

    on_track = days_of(four_days(camps=CAMPS), track())
    typed = tuple(
        HandDay(distance_m=d.distance_m, ascent_m=d.ascent_m, descent_m=d.descent_m)
        for d in on_track
    )
    by_hand = days_of(four_days(hand_days=typed, start_height_m=600.0))
    for a, b in zip(on_track, by_hand, strict=True):
        assert b.walking_min == pytest.approx(a.walking_min, rel=0.10)
        assert b.ascent_m == pytest.approx(a.ascent_m)
