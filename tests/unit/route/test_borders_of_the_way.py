"""Where a way is cut, named, watered and remarked on: each limit just inside and just outside."""

from __future__ import annotations

import dataclasses
import datetime as dt
import math
from typing import Any

import numpy as np
import pytest

from oatsack.errors import TripFileError, UsageError
from oatsack.route import pace
from oatsack.route.calendar import windows_of
from oatsack.route.cuts import walks_on
from oatsack.route.days import days_of
from oatsack.route.faults import nearest
from oatsack.route.flags import flags_of
from oatsack.route.line import along_m, passings
from oatsack.route.ownpace import own_pace
from oatsack.route.pieces import Gait, Piece, Walk, merged, split
from oatsack.route.profile import kept, profile_of, smoothed
from oatsack.values.route import Day, Stretch, Track, WaterPlace, Waypoint
from oatsack.values.trip import HandDay, Trip
from oatsack.values.walker import OwnPace
from support.each import each
from support.tracks import line, place
from support.trips import trip_of


def days(count: int, **route: object) -> Trip:
    return trip_of("2026-06-01 08:30", f"2026-06-{count:02d} 18:30", **route)


def walks(trip: Trip, track: Track) -> list[Walk]:
    return walks_on(trip, track, windows_of(trip))


def along(length_m: float, *waypoints: Waypoint) -> Track:
    return dataclasses.replace(line(length_m), waypoints=waypoints)


@each("name", ["High Tarn", "high tarn", "HIGH TARN"])
def test_a_dry_camp_is_dry_however_its_name_is_spelt(name: str) -> None:
    # A camp that is accepted by its name and then taken for a wet one leaves a party without water.
    track = along(20_000.0, place("High Tarn", 8000.0))
    trip = days(2, camps=("High Tarn",), dry_camps=frozenset({name}))
    assert [day.camp_dry for day in days_of(trip, track)] == [True, False]
    typed = days(2, dry_camps=frozenset({name}), hand_days=(
        HandDay(distance_m=9000.0, camp_name="High Tarn"), HandDay(distance_m=9000.0),
    ))  # fmt: skip
    assert [day.camp_dry for day in days_of(typed)] == [True, False]


def test_a_day_without_a_named_camp_is_never_dry_by_the_list() -> None:
    trip = days(2, cuts_m=(8000.0,), dry_camps=frozenset({"Barn"}))
    track = along(20_000.0, place("Barn", 15_000.0))
    assert [day.camp_dry for day in days_of(trip, track)] == [False, False]


@each(("at", "name"), [(8299.0, "Barn"), (8301.0, ""), (7701.0, "Barn"), (7699.0, "")])
def test_a_cut_within_300_m_of_a_camp_bears_its_name(at: float, name: str) -> None:
    track = along(20_000.0, place("Barn", 8000.0))
    assert walks(days(2, cuts_m=(at,)), track)[0].camp_name == name


def test_a_cut_between_two_camps_bears_the_nearer_name() -> None:
    track = along(20_000.0, place("Barn", 8000.0), place("Byre", 8200.0))
    for at, name in ((8090.0, "Barn"), (8110.0, "Byre")):
        assert walks(days(2, cuts_m=(at,)), track)[0].camp_name == name


def test_only_camps_lend_their_name_to_a_cut() -> None:
    track = along(20_000.0, place("Spring", 8000.0, "water"), place("Shop", 8000.0, "shop"))
    assert walks(days(2, cuts_m=(8000.0,)), track)[0].camp_name == ""


@each(
    ("last", "fits"),
    [(19_998.0, True), (20_000.0, True), (20_850.0, True), (20_950.0, False)],
)
def test_a_last_cut_may_overshoot_by_two_in_a_hundred_and_half_a_kilometre(
    last: float, fits: bool
) -> None:
    trip, track = days(2, cuts_m=(8000.0, last)), line(20_000.0)
    if last < 19_999.0:
        assert [round(w.distance_m) for w in walks(days(3, cuts_m=(8000.0, last)), track)] == [
            8000, 11_998, 2,
        ]  # fmt: skip
    elif fits:
        assert [round(walk.distance_m) for walk in walks(trip, track)] == [8000, 12_000]
    else:
        with pytest.raises(TripFileError, match=r"20\.0 km long"):
            walks(trip, track)


@each(
    ("cuts", "wrong"),
    [
        ((8000.0, 5000.0), "only grow"),
        ((8000.0,), "a walk of 3 days has 2 cuts"),
        ((4000.0, 8000.0, 12_000.0), "a walk of 3 days has 2 cuts"),
    ],
)
def test_cuts_that_do_not_fit_the_days_say_why(cuts: tuple[float, ...], wrong: str) -> None:
    with pytest.raises(TripFileError, match=wrong):
        walks(days(3, cuts_m=cuts), line(20_000.0))


def test_a_day_shorter_than_a_metre_is_a_day_of_rest_at_its_height() -> None:
    track = dataclasses.replace(
        line(20_000.0, lambda x: 500.0 + 0.05 * x),
        waypoints=(place("Barn", 8000.0), place("Loft", 8000.5)),
    )
    _, rest, _ = walks(days(3, camps=("Barn", "Loft")), track)
    assert rest.pieces == ()
    assert (rest.start_m, rest.end_m) == pytest.approx((900.0, 900.0), abs=0.1)


def test_water_and_shops_on_a_border_belong_to_the_day_that_reaches_them() -> None:
    track = along(20_000.0, place("Barn", 8000.0), place("Shop", 8000.0, "shop"),
                  place("Start", 0.0, "shop"))  # fmt: skip
    first, second = walks(days(2, camps=("Barn",), leg_ends=("Shop", "Start")), track)
    assert (first.supplied, second.supplied) == ("Shop", "")  # nobody takes food on at the start


def test_a_camp_beside_the_track_by_more_than_a_kilometre_is_not_on_it() -> None:
    for off, fits in ((950.0, True), (1050.0, False)):
        track = along(20_000.0, place("Barn", 8000.0, off_m=off))
        if fits:
            assert round(walks(days(2, camps=("Barn",)), track)[0].distance_m) == 8000
        else:
            with pytest.raises(TripFileError, match="more than a kilometre"):
                walks(days(2, camps=("Barn",)), track)


@each(
    ("near_m", "far_m", "count"),
    [(100.0, 100.0, 2), (85.0, 115.0, 2), (60.0, 140.0, 1), (20.0, 99.0, 2), (20.0, 101.0, 1)],
)
def test_a_place_is_passed_within_100_m_or_half_as_far_again_as_the_nearest(
    near_m: float, far_m: float, count: int
) -> None:
    """Out and back on two lines, the place between them."""
    out = line(3000.0, step_m=100.0)
    east = place("x", 0.0, off_m=near_m + far_m).lon - out.lon[0]
    track = dataclasses.replace(
        out,
        lat=out.lat + out.lat[::-1],
        lon=out.lon + tuple(lon + east for lon in out.lon),
        height_m=out.height_m * 2,
    )
    spot = place("Barn", 1500.0, off_m=near_m)
    ((_, found),) = passings(dataclasses.replace(track, waypoints=(spot,)), along_m(track))
    assert len(found) == count
    assert min(one.off_m for one in found) == pytest.approx(near_m, abs=0.5)


@each(("gap_m", "walked"), [(499.0, True), (501.0, False)])
def test_a_gap_of_half_a_kilometre_between_segments_is_still_walked(
    gap_m: float, walked: bool
) -> None:
    first, second = line(1000.0), line(1000.0)
    shift = place("x", 1000.0 + gap_m).lat - first.lat[0]
    track = dataclasses.replace(
        first,
        lat=first.lat + tuple(lat + shift for lat in second.lat),
        lon=first.lon + second.lon,
        height_m=first.height_m + second.height_m,
        starts=(0, len(first.lat)),
    )
    assert along_m(track)[-1] == pytest.approx(2000.0 + (gap_m if walked else 0.0), abs=0.5)
    whole = dataclasses.replace(track, starts=(0,))
    assert along_m(whole)[-1] == pytest.approx(2000.0 + gap_m, abs=0.5)


def test_a_night_named_by_the_walker_keeps_its_name_beside_a_camp() -> None:
    track = along(20_000.0, place("Spring", 8000.0, "water"), place("Barn", 8100.0))
    assert walks(days(2, camps=("Spring",)), track)[0].camp_name == "Spring"


def test_a_shop_passed_on_the_way_out_and_back_supplies_on_both_days() -> None:
    out = line(10_000.0)
    track = dataclasses.replace(
        out,
        lat=out.lat + out.lat[-2::-1],
        lon=out.lon + out.lon[1:],
        height_m=out.height_m + out.height_m[-2::-1],
        waypoints=(place("Shop", 4000.0, "shop"), place("Head", 9000.0)),
    )
    found = walks(days(3, camps=("Head", "Head"), leg_ends=("Shop",)), track)
    assert [walk.supplied for walk in found] == ["Shop", "", "Shop"]


def test_every_piece_knows_the_height_of_its_middle() -> None:
    track = line(4000.0, lambda x: 500.0 + 0.1 * x + 0.00002 * x * x, step_m=20.0)
    (only,) = walks(days(1), track)
    at = 0.0
    for piece in only.pieces:
        middle = at + piece.distance_m / 2.0
        ground = 500.0 + 0.1 * middle + 0.00002 * middle * middle
        assert piece.height_m == pytest.approx(ground, abs=2.0)
        at += piece.distance_m
    assert at == pytest.approx(4000.0, abs=0.1)


# Heights


@each(
    ("height", "believed"),
    [(-449.0, True), (-450.0, False), (8899.0, True), (8900.0, False), (None, False),
     (math.nan, False), (0.0, True)],
)  # fmt: skip
def test_heights_are_believed_between_the_lowest_shore_and_the_highest_summit(
    height: float | None, believed: bool
) -> None:
    raw = np.array([100.0, np.nan if height is None else height, 100.0], dtype=float)
    assert bool(kept(np.array([0.0, 1e5, 2e5]), raw)[1]) is believed


@each(("step_m", "height", "spike"), [(10.0, 149.0, False), (10.0, 151.0, True), (50.0, 229.0,
                                      False), (50.0, 231.0, True), (10.0, 49.0, True)])  # fmt: skip
def test_a_spike_stands_out_by_thirty_metres_and_what_45_degrees_could_climb(
    step_m: float, height: float, spike: bool
) -> None:
    # The five heights around it span four steps, half of which is within reach of it.
    points = np.arange(9) * step_m
    heights = np.full(9, 100.0)
    heights[4] = height
    assert bool(kept(points, heights)[4]) is not spike


def test_four_heights_are_too_few_to_call_one_a_spike() -> None:
    points = np.arange(4) * 10.0
    assert kept(points, np.array([100.0, 900.0, 100.0, 100.0])).all()
    assert not kept(np.arange(5) * 10.0, np.array([100.0, 100.0, 900.0, 100.0, 100.0]))[2]


def test_dropped_points_are_counted_and_bridged() -> None:
    heights = [500.0] * 50
    heights[20] = 900.0
    track = dataclasses.replace(line(980.0), height_m=(*heights[:49], None))
    profile = profile_of(track)
    assert (profile.dropped, profile.known) == (2, True)
    assert profile.highest_m(0.0, 980.0) == pytest.approx(500.0)


def test_one_height_alone_is_a_level_way() -> None:
    at = np.array([0.0, 50.0, 100.0])
    assert smoothed(np.array([40.0]), np.array([700.0]), at, 30.0).tolist() == [700.0] * 3


@each(
    ("start", "end", "highest"),
    [
        (0.0, 2000.0, 600.0),
        (0.0, 500.0, 550.0),
        (1500.0, 2000.0, 550.0),
        (1000.0, 1000.0, 600.0),
        (1504.0, 1506.0, 549.6),
    ],
)
def test_the_highest_ground_between_two_places_holds_their_own_heights(
    start: float, end: float, highest: float
) -> None:
    profile = profile_of(line(2000.0, lambda x: 600.0 - abs(x - 1000.0) * 0.1, step_m=10.0))
    assert profile.highest_m(start, end) == pytest.approx(highest, abs=1.0)


def test_slopes_have_no_step_longer_than_asked_and_at_least_one() -> None:
    profile = profile_of(line(1000.0, lambda x: 500.0 + 0.1 * x))
    for start, end, count in ((0.0, 1000.0, 10), (0.0, 950.0, 10), (0.0, 901.0, 10),
                              (0.0, 900.0, 9), (10.0, 20.0, 1)):  # fmt: skip
        joints, slopes = profile.slopes(start, end, 100.0)
        assert (len(joints), len(slopes)) == (count + 1, count)
        assert (joints[0], joints[-1]) == (start, end)
        assert slopes == pytest.approx(10.0, abs=0.2)


# Pieces


@each(
    ("distance", "parts"),
    [(499.0, 1), (500.0, 1), (501.0, 2), (1000.0, 2), (1001.0, 3), (0.0, 1)],
)
def test_a_piece_is_split_into_as_few_parts_as_keep_to_half_a_kilometre(
    distance: float, parts: int
) -> None:
    piece = Piece(distance_m=distance, grade_pct=10.0, height_m=0.0, terrain=1.1)
    found = split(piece, 200.0)
    assert [one.distance_m for one in found] == [pytest.approx(distance / parts)] * parts
    middles = [200.0 + 0.1 * distance / parts * (k + 0.5) for k in range(parts)]
    assert [one.height_m for one in found] == pytest.approx(middles)


@each(
    ("grade", "distance", "terrain", "speed", "joined"),
    [
        (2.0, 100.0, 1.1, None, True),
        (2.1, 100.0, 1.1, None, False),
        (-2.0, 100.0, 1.1, None, True),
        (0.0, 400.0, 1.1, None, True),
        (0.0, 401.0, 1.1, None, False),
        (0.0, 100.0, 1.2, None, False),
        (0.0, 100.0, 1.1, 1.0, False),
    ],
)
def test_two_percent_of_slope_and_half_a_kilometre_are_alike_enough_to_be_one(
    grade: float, distance: float, terrain: float, speed: float | None, joined: bool
) -> None:
    first = Piece(distance_m=100.0, grade_pct=0.0, height_m=100.0, terrain=1.1)
    second = Piece(distance_m=distance, grade_pct=grade, height_m=200.0, terrain=terrain,
                   speed_ms=speed)  # fmt: skip
    found = merged([first, second], 100)
    assert (len(found) == 1) is joined
    assert sum(one.distance_m * one.grade_pct for one in found) == pytest.approx(distance * grade)
    if joined:
        assert found[0].height_m == pytest.approx(100.0 + 100.0 * distance / (distance + 100.0))


def test_pieces_without_length_do_not_divide_by_it() -> None:
    none = Piece(distance_m=0.0, grade_pct=1.0, height_m=5.0, terrain=1.1)
    assert merged([none, none], 5) == (none,)
    assert Gait(pace.DEFAULT).minutes(none) == 0.0


# Flags

TRIP = trip_of("2026-06-04 09:00", "2026-06-06 15:00")


def a_day(number: int = 2, *stretches: Stretch, **more: Any) -> Day:
    fields = {"date": dt.date(2026, 6, 5), "distance_m": sum(s.distance_m for s in stretches),
              "ascent_m": 0.0, "descent_m": 0.0, "highest_m": 1200.0, "camp_m": 900.0}  # fmt: skip
    return Day(number=number, stretches=stretches, **(fields | more))


def walk(start: float, end: float, distance: float = 10_000.0, grade: float = 0.0) -> Stretch:
    return Stretch(kind="walk", start_min=start, end_min=end, distance_m=distance, grade_pct=grade)


@each(
    ("day", "keys"),
    [
        (a_day(2, walk(510, 600), short_min=0.9), []),
        (a_day(2, walk(510, 600), short_min=1.0), ["too-long"]),
        (a_day(2, walk(510, 1110)), []),
        (a_day(2, walk(510, 1111)), ["long-day"]),
        (a_day(2, walk(509, 600)), []),
        (a_day(2, walk(508.9, 600)), ["early-start"]),
        (a_day(1, walk(400, 600)), []),
        (a_day(2, Stretch(kind="camp", start_min=450, end_min=510), walk(510, 600)), []),
        (a_day(2, walk(510, 600), highest_m=2500.0), []),
        (a_day(2, walk(510, 600), highest_m=2500.1), ["high"]),
        (a_day(2, walk(510, 600, 9700.0), walk(600, 640, 300.0, 40.1)), ["steep"]),
        (a_day(2, walk(510, 600, 9701.0), walk(600, 640, 299.0, 40.1)), []),
        (a_day(2, walk(510, 600, 9700.0), walk(600, 640, 300.0, -41.0)), ["steep"]),
        (a_day(2, walk(510, 600), daylight_min=(520.0, 1200.0)), ["after-dark"]),
        (a_day(2, walk(510, 600), daylight_min=(519.0, 1200.0)), []),
        (a_day(2, walk(510, 600), walk(610, 700), daylight_min=(515.0, 695.0)), ["after-dark"]),
        (a_day(2, walk(510, 600), daylight_min=(700.0, 1200.0)), ["after-dark"]),
        (a_day(2, daylight_min=(700.0, 1200.0)), []),
        (a_day(2, walk(510, 600), by_hand=True), ["by-hand"]),
    ],
)
def test_each_remark_begins_at_its_limit(day: Day, keys: list[str]) -> None:
    assert [flag.key.removeprefix("route.") for flag in flags_of([day], TRIP)] == keys


def test_remarks_tell_their_numbers() -> None:
    day = a_day(2, walk(500, 600, 9000.0), walk(620, 700, 1000.0, 44.0), highest_m=2600.0,
                daylight_min=(530.0, 690.0))  # fmt: skip
    told = {flag.key: dict(flag.values) for flag in flags_of([day], TRIP)}
    assert told == {
        "route.after-dark": {"day": 2, "dark_min": 40.0, "sunrise_min": 530.0,
                             "sunset_min": 690.0, "arrive_min": 700},
        "route.early-start": {"day": 2, "start_min": 500},
        "route.high": {"day": 2, "highest_m": 2600.0},
        "route.steep": {"day": 2, "steep_m": 1000.0, "limit_pct": 40.0},
    }  # fmt: skip


def test_a_pace_told_by_a_track_is_noted_for_its_walker_before_the_days() -> None:
    own = OwnPace(flat_ms=1.2, rule="tobler", distance_m=9000.0, moving_min=125.0, paused_min=0.0,
                  spread=0.1, track="spring.gpx")  # fmt: skip
    ida = TRIP.walkers[0]
    other = dataclasses.replace(ida, id="bo", own_pace=own)
    trip = dataclasses.replace(TRIP, walkers=(ida, other))
    first, second = flags_of([a_day(2, walk(510, 600), by_hand=True)], trip)
    assert (first.key, first.level, first.scope) == ("route.own-pace", "note", "trip/bo")
    assert first.values == {"walker": "bo", "track": "spring.gpx", "flat_ms": 1.2,
                            "distance_m": 9000.0, "moving_min": 125.0}  # fmt: skip
    assert second.key == "route.by-hand"


# Own pace


STEP_M = 99.9999
"""A hair under the parts that pace is taken over, so that steps and parts are the same."""


def timed(count: int, seconds: float, *, slow: int = 0) -> Track:
    """A level line of steps that each take so long; the first `slow` of them a thousand seconds."""
    track = line(count * STEP_M, step_m=STEP_M)
    times = np.concatenate(([0.0], np.cumsum([1000.0] * slow + [seconds] * (count - slow))))
    return dataclasses.replace(track, time_s=tuple(times.tolist()))


@each(
    ("seconds", "walked"),
    [(100.0, True), (28.6, True), (28.5, False), (333.0, True), (334.0, False)],
)
def test_walking_is_between_a_creep_and_a_run(seconds: float, walked: bool) -> None:
    track = timed(30, seconds)
    if not walked:
        with pytest.raises(UsageError, match="less than a kilometre"):
            own_pace(track)
        return
    found = own_pace(track)
    assert found.flat_ms == pytest.approx(100.0 / seconds, rel=1e-4)
    assert found.moving_min == pytest.approx(30 * seconds / 60.0)
    assert (found.paused_min, found.spread) == (0.0, pytest.approx(0.0, abs=1e-6))


@each(("slow", "enough"), [(20, True), (21, False)])
def test_a_kilometre_of_walking_is_enough(slow: int, enough: bool) -> None:
    track = timed(30, 80.0, slow=slow)
    if enough:
        found = own_pace(track)
        assert (found.flat_ms, found.distance_m) == pytest.approx((1.25, 1000.0), rel=1e-4)
        assert found.paused_min == pytest.approx(20_000.0 / 60.0, rel=1e-4)
    else:
        with pytest.raises(UsageError, match="less than a kilometre"):
            own_pace(track)


@each(("gap_s", "pauses"), [(60.0, False), (61.0, True)])
def test_a_minute_without_moving_is_a_pause(gap_s: float, pauses: bool) -> None:
    track = timed(30, 100.0)
    cut = 11
    still = dataclasses.replace(
        track,
        lat=(*track.lat[:cut], track.lat[cut - 1], *track.lat[cut:]),
        lon=(*track.lon, track.lon[0]),
        height_m=(*track.height_m, 500.0),
        time_s=(*track.time_s[:cut], (track.time_s[cut - 1] or 0.0) + gap_s,
                *((t or 0.0) + gap_s for t in track.time_s[cut:])),
    )  # fmt: skip
    found = own_pace(still)
    assert found.paused_min == pytest.approx(gap_s / 60.0 if pauses else 0.0, abs=1e-3)
    assert found.moving_min == pytest.approx(50.0 + (0.0 if pauses else gap_s / 60.0), abs=1e-3)


def test_the_spread_is_that_of_the_middle_half_of_the_parts() -> None:
    # Oracle: half the parts at 1.0 and half at 2.0 m/s take 100 and 50 s, 1.333 m/s together.
    track = line(40 * STEP_M, step_m=STEP_M)
    times = np.concatenate(([0.0], np.cumsum([100.0, 50.0] * 20)))
    found = own_pace(dataclasses.replace(track, time_s=tuple(times.tolist())))
    assert found.flat_ms == pytest.approx(4 / 3, rel=1e-3)
    assert found.spread == pytest.approx((2.0 - 1.0) / (4 / 3), rel=1e-3)


# Faults


@each(
    ("name", "known", "hint"),
    [
        ("Barm", ["Mill", "Barn"], "did you mean 'Barn'?"),
        ("barn", ["BARN"], "did you mean 'BARN'?"),
        ("xyz", ["Mill", "Barn", "Mill"], "known: 'Mill', 'Barn'"),
        ("Barn", [], "none are known"),
    ],
)
def test_the_nearest_name_is_offered_or_all_once(name: str, known: list[str], hint: str) -> None:
    assert nearest(name, known) == hint


@each(
    ("typed", "end", "fits"),
    [(1, "2026-06-02 08:00", True), (1, "2026-06-02 18:00", False), (3, "2026-06-02 18:00", False)],
)
def test_typed_days_may_lack_only_a_day_without_walking_hours(
    typed: int, end: str, fits: bool
) -> None:
    trip = trip_of("2026-06-01 08:30", end, hand_days=(HandDay(distance_m=9000.0),) * typed)
    if fits:
        first, last = days_of(trip)
        assert (first.distance_m, last.distance_m) == (pytest.approx(9000.0), 0.0)
    else:
        with pytest.raises(TripFileError, match=f"{typed} typed days"):
            days_of(trip)


# What a day keeps of its way


def test_the_day_that_ends_at_home_has_no_camp_whatever_was_typed_of_it() -> None:
    typed = HandDay(distance_m=9000.0, camp_name="Home", camp_m=400.0, camp_dry=True)
    first, last = days_of(days(2, hand_days=(typed, typed)))
    assert (first.camp_name, first.camp_dry, first.camp_m) == ("Home", True, 400.0)
    assert (last.camp_name, last.camp_dry, last.camp_m) == ("", False, None)


def test_water_stands_in_the_order_of_its_clock_not_of_its_distance() -> None:
    typed = HandDay(distance_m=9000.0, water=(
        WaterPlace(name="Well", at_min=0.0, distance_m=8000.0),
        WaterPlace(name="Brook", at_min=400.0, distance_m=100.0),
    ))  # fmt: skip
    (day,) = days_of(days(1, hand_days=(typed,)))
    assert [(one.name, one.at_min) for one in day.water] == [("Well", 0.0), ("Brook", 400.0)]


def test_legs_only_grow_and_a_typed_leg_may_skip() -> None:
    typed = [HandDay(distance_m=1000.0, camp_name=f"C{k}", leg=leg)
             for k, leg in enumerate((1, 3, 1, 1))]  # fmt: skip
    trip = days(4, hand_days=tuple(typed), leg_ends=("C2",))
    assert [day.leg for day in days_of(trip)] == [1, 3, 3, 4]


@each(
    ("warm", "cold", "expected"),
    [(None, None, (18.0 - 2.6, 6.0 - 2.6)), (25.0, None, (25.0, 3.4)), (None, -3.0, (15.4, -3.0))],
)
def test_air_cools_by_six_and_a_half_degrees_a_kilometre_unless_it_was_typed(
    warm: float | None, cold: float | None, expected: tuple[float, float]
) -> None:
    # ISO2533; the camp lies 400 m above the start.
    typed = HandDay(distance_m=9000.0, camp_m=900.0, warm_c=warm, cold_c=cold)
    first, last = days_of(days(2, hand_days=(typed, dataclasses.replace(typed, camp_m=100.0))))
    assert (first.warm_c, first.cold_c) == pytest.approx(expected)
    # The last day cooks where the last night was spent.
    assert (last.warm_c, last.cold_c) == pytest.approx(expected)


def test_a_dry_camp_of_the_list_must_be_a_camp_of_the_days() -> None:
    trip = days(1, hand_days=(HandDay(distance_m=9000.0),), dry_camps=frozenset({"", "Mill"}))
    with pytest.raises(TripFileError) as caught:
        days_of(trip)
    assert [one.path for one in caught.value.faults] == ["route.dry_camps", "route.dry_camps"]
    assert caught.value.faults[1].instead == "none are known"
