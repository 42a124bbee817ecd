"""The quick GPX reader against gpxpy, a library of many years, on files of every shape we know."""

from __future__ import annotations

import datetime as dt
import random

import gpxpy
import pytest

from oatsack.errors import TrackError
from oatsack.files.tracks import read_track
from oatsack.files.tracks.gpx_pass import passed
from support.each import each

HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
SPACE = 'xmlns="http://www.topografix.com/GPX/1/1"'
POINTS = (
    '<trkpt lat="47.1" lon="13.2"><ele>500.5</ele><time>2030-06-04T08:00:00Z</time></trkpt>'
    '<trkpt lat="47.2" lon="13.3"><ele> 612 </ele><time>2030-06-04T08:10:30.5Z</time></trkpt>'
    '<trkpt lon="13.4" lat="47.25"><time>2030-06-04T10:20:00+02:00</time></trkpt>'
    '<trkpt lat="-4.7e1" lon="1.34E1"><ele></ele></trkpt>'
)
NESTED = (
    '<trkpt lat="47.3" lon="13.5"><extensions><x:deep xmlns:x="urn:x"><x:ele>9999</x:ele>'
    "<x:time>1999-01-01T00:00:00Z</x:time></x:deep></extensions><ele>700</ele></trkpt>"
)
MARKS = (
    '<wpt lat="47.1" lon="13.2"><ele>501</ele><name>Fold &amp; Byre</name><type>camp</type></wpt>'
    '<wpt lat="47.15" lon="13.25"><name><![CDATA[Cold <Well>]]></name><sym>Water</sym>'
    "<cmt>usually runs</cmt></wpt>"
)
FILES = {
    "plain": f"<gpx version='1.1' {SPACE}><trk><name>Over</name><trkseg>{POINTS}</trkseg></trk>"
    "</gpx>",
    "segments": f"<gpx version='1.1' {SPACE}><trk><trkseg>{POINTS}</trkseg><trkseg/>"
    f"<trkseg>{NESTED}</trkseg></trk><trk><trkseg>{POINTS}</trkseg></trk></gpx>",
    "extensions": f"<gpx version='1.1' {SPACE}><trk><trkseg>{POINTS}{NESTED}</trkseg></trk></gpx>",
    "named in metadata": f"<gpx version='1.1' {SPACE}><metadata><name>From the head</name>"
    f"<author><name>Nobody</name></author></metadata><trk><name>Over</name><trkseg>{POINTS}"
    "</trkseg></trk></gpx>",
    "version 1.0": "<gpx version='1.0' xmlns='http://www.topografix.com/GPX/1/0'><name>Old</name>"
    f"<trk><trkseg>{POINTS}</trkseg></trk></gpx>",
    "waypoints first": f"<gpx version='1.1' {SPACE}>{MARKS}<trk><trkseg>{POINTS}</trkseg></trk>"
    "</gpx>",
    "a route": f"<gpx version='1.1' {SPACE}>{MARKS}<rte><name>Way</name>"
    f"{POINTS.replace('trkpt', 'rtept')}</rte></gpx>",
    "no namespace": f"<gpx version='1.1'><trk><trkseg>{POINTS}</trkseg></trk></gpx>",
}


@each("kind", FILES)
def test_the_same_points_heights_times_and_waypoints(kind: str) -> None:
    text = HEAD + FILES[kind]
    ours, theirs = read_track(text.encode(), "walk.gpx"), gpxpy.parse(text)
    runs = [s.points for t in theirs.tracks for s in t.segments if s.points]
    runs = runs or [route.points for route in theirs.routes]
    points = [point for run in runs for point in run]
    assert ours.lat == tuple(point.latitude for point in points)
    assert ours.lon == tuple(point.longitude for point in points)
    assert ours.height_m == tuple(point.elevation for point in points)
    assert ours.time_s == tuple(p.time.timestamp() if p.time else None for p in points)
    assert len(ours.starts) == len(runs)
    assert [(w.name, w.lat, w.height_m) for w in ours.waypoints] == [
        (w.name, w.latitude, w.elevation) for w in theirs.waypoints
    ]
    names = [theirs.name, *(t.name for t in theirs.tracks), *(r.name for r in theirs.routes)]
    assert ours.name == next((name for name in names if name), "walk.gpx")


def test_a_file_written_by_the_library_is_read_back() -> None:
    rng = random.Random(5)
    file, track, segment = gpxpy.gpx.GPX(), gpxpy.gpx.GPXTrack("Invented"), None
    file.tracks.append(track)
    for at in range(600):
        if at % 200 == 0:
            segment = gpxpy.gpx.GPXTrackSegment()
            track.segments.append(segment)
        assert segment is not None
        when = dt.datetime(2030, 6, 4, tzinfo=dt.UTC) + dt.timedelta(seconds=9.0 * at)
        point = gpxpy.gpx.GPXTrackPoint(rng.uniform(-90, 90), rng.uniform(-180, 180))
        point.elevation, point.time = rng.choice([None, rng.uniform(-400, 8800)]), when
        segment.points.append(point)
    ours = read_track(file.to_xml().encode(), "walk.gpx")
    written = [point for one in track.segments for point in one.points]
    assert ours.starts == (0, 200, 400)
    assert ours.lat == pytest.approx([point.latitude for point in written], abs=1e-12)
    assert ours.time_s == tuple(point.time.timestamp() for point in written if point.time)
    assert [h is None for h in ours.height_m] == [p.elevation is None for p in written]


@each(
    "body",
    ["<trk><trkseg><trkpt lat='91' lon='1'/></trkseg></trk>",
     "<trk><trkseg><trkpt lat='1' lon='nan'/></trkseg></trk>",
     "<trk><trkseg><trkpt lat='1' lon='1'><ele>inf</ele></trkpt></trkseg></trk>",
     "<trk><trkseg><trkpt lon='1'/></trkseg></trk>",
     "<rte><rtept lat='1' lon='east'/></rte>" + f"<trk><trkseg>{POINTS}</trkseg></trk>"],
)  # fmt: skip
def test_numbers_that_no_place_can_have_are_told_even_where_they_are_not_used(body: str) -> None:
    with pytest.raises(TrackError) as caught:
        read_track(f"<gpx version='1.1' {SPACE}>{body}</gpx>".encode(), "walk.gpx")
    assert caught.value.faults[0].line == 1


@each(
    "text",
    ["", "<gpx", "<kml/>", "<gpx version='3'/>", "<gpx>" * 70 + "</gpx>" * 70,
     "<!DOCTYPE gpx><gpx version='1.1'/>",
     "<gpx version='1.1'><trkpt lat='1' lon='1'/></gpx>"],
)  # fmt: skip
def test_the_quick_pass_gives_up_where_anything_looks_wrong(text: str) -> None:
    assert passed(text.encode()) is None


@each(
    "odd",
    ["<gpx version='1.1'><trkpt lat='1' lon='1'/></gpx>",
     "<gpx version='1.1'><rtept lat='1' lon='1'/></gpx>"],
)  # fmt: skip
def test_a_point_outside_any_track_is_a_fault_and_no_crash(odd: str) -> None:
    with pytest.raises(TrackError):
        read_track(odd.encode(), "walk.gpx")
