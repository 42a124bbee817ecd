"""From the bytes of a GPX file and the text of a trip file to the days of a walk."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from oatsack.errors import TrackError, TripFileError
from oatsack.files.daylight import daylight_of
from oatsack.files.tracks import read_track
from oatsack.files.trip import parse_trip
from oatsack.route import pace
from oatsack.route.days import days_of
from oatsack.route.flags import flags_of
from oatsack.route.ownpace import own_pace
from oatsack.values.route import Track, Waypoint
from support.tracks import gpx, line, place, points

TRIP = """
title = "Round Wick"
from = {begin}
to = {end}
zone = "Europe/Vienna"
[[walkers]]
mass = "70 kg"
[route]
{route}
"""


def trip_text(
    route: str, begin: str = "2026-06-05T09:00:00", end: str = "2026-06-07T14:00:00"
) -> str:
    return TRIP.format(begin=begin, end=end, route=route)


def file_of(track: Track) -> bytes:
    marks = "\n".join(
        f'<wpt lat="{w.lat:.9f}" lon="{w.lon:.9f}"><name>{w.name}</name><type>{w.kind}</type></wpt>'
        for w in track.waypoints
    )
    return gpx(f"{marks}\n<trk><trkseg>\n{points(track)}\n</trkseg></trk>")


def wick(*extra: Waypoint) -> Track:
    return line(
        36_000.0, lambda x: 500.0 + min(x, 36_000.0 - x) * 0.04,
        waypoints=(place("Fold", 12_000.0), place("Mill", 25_000.0),
                   place("Wick Well", 18_000.0, "water"), *extra),
    )  # fmt: skip


def test_a_trip_with_a_track_is_cut_at_its_camps() -> None:
    trip = parse_trip(trip_text('track = "w.gpx"\ncamps = ["Fold", "Mill"]'), "walk.toml")
    track = read_track(file_of(wick()), "w.gpx")
    days = days_of(trip, track, daylight=daylight_of(trip, track))
    assert [day.camp_name for day in days] == ["Fold", "Mill", ""]
    assert [round(day.distance_m / 100) for day in days] == [120, 130, 110]
    assert days[1].water[0].name == "Wick Well"
    assert days[0].daylight_min is not None
    assert flags_of(days, trip) == ()


def test_a_misspelt_camp_is_told_with_file_line_and_the_right_name() -> None:
    trip = parse_trip(trip_text('track = "w.gpx"\ncamps = ["Fold", "Mil"]'), "walk.toml")
    with pytest.raises(TripFileError) as caught:
        days_of(trip, read_track(file_of(wick()), "w.gpx"))
    (fault,) = caught.value.faults
    assert fault.file == "walk.toml"
    assert fault.line == 10
    assert "Mill" in fault.instead


def test_distances_may_be_typed_in_miles() -> None:
    trip = parse_trip(trip_text('track = "w.gpx"\ncuts = ["7.5 mi", "25 km"]'), "walk.toml")
    days = days_of(trip, read_track(file_of(wick()), "w.gpx"))
    assert days[0].distance_m == pytest.approx(7.5 * 1609.344, abs=1.0)


def test_four_answers_make_days() -> None:
    trip = parse_trip(trip_text('usual_day = { distance = "16 km", up = "700 m" }'), "walk.toml")
    days = days_of(trip)
    assert [round(day.distance_m / 100) for day in days] == [152, 160, 88]
    assert days[1].ascent_m == days[1].descent_m == pytest.approx(700.0)
    assert all(day.by_hand for day in days)


def test_a_week_typed_by_hand_with_a_day_of_rest() -> None:
    typed = ", ".join(
        ['{ distance = "14 km", up = "500 m", camp = "Fold" }', '{ distance = "0 km" }',
         '{ distance = "9 mi", up = "1200 ft", down = "2000 ft" }']
    )  # fmt: skip
    days = days_of(parse_trip(trip_text(f"days = [{typed}]"), "walk.toml"))
    assert days[1].walking_min == 0.0
    assert days[2].distance_m == pytest.approx(9 * 1609.344)
    assert days[2].descent_m == pytest.approx(2000 * 0.3048)


def test_a_winter_walk_is_warned_of_the_dark() -> None:
    text = trip_text(
        'track = "w.gpx"\ncamps = ["Mill"]', "2026-12-11T11:00:00", "2026-12-12T16:00:00"
    )
    trip = parse_trip(text, "walk.toml")
    track = read_track(file_of(wick()), "w.gpx")
    days = days_of(trip, track, daylight=daylight_of(trip, track))
    assert "route.after-dark" in [flag.key for flag in flags_of(days, trip)]
    assert days[0].daylight_min is not None
    rise, fall = days[0].daylight_min
    assert fall - rise < 9 * 60.0


def test_a_damaged_track_is_told_with_its_line_and_no_day_is_made() -> None:
    data = file_of(wick()).replace(b"<ele>500.80</ele>", b"<ele>5oo</ele>", 1)
    with pytest.raises(TrackError, match=r"w\.gpx:\d+:\d+: .*'5oo'"):
        read_track(data, "w.gpx")


def test_last_years_recording_sets_the_pace_of_this_years_plan() -> None:
    """A walker who takes 1.25 times as long as the rule says gets days that are as much longer."""
    out = line(8000.0, lambda x: 500.0 + 0.03 * x)
    start = dt.datetime(2025, 7, 1, 8, tzinfo=dt.UTC)
    trip = parse_trip(trip_text('usual_day = { distance = "16 km", up = "700 m" }'), "walk.toml")
    rule_ms = float(pace.speed_ms(pace.DEFAULT, 3.0))
    stamps = [
        (start + dt.timedelta(seconds=1.25 * 20.0 * k / rule_ms)).isoformat()
        for k in range(len(out.lat))
    ]
    body = "\n".join(
        f'<trkpt lat="{lat:.9f}" lon="{lon}"><ele>{h:.2f}</ele><time>{stamp}</time></trkpt>'
        for lat, lon, h, stamp in zip(out.lat, out.lon, out.height_m, stamps, strict=True)
    )
    track = read_track(gpx(f"<trk><trkseg>{body}</trkseg></trk>"), "last-year.gpx")
    found = own_pace(track)
    slower = dataclasses.replace(
        trip, route=dataclasses.replace(trip.route, flat_speed_ms=found.flat_ms)
    )
    ratio = days_of(slower)[1].walking_min / days_of(trip)[1].walking_min
    assert ratio == pytest.approx(1.25, rel=0.02)
