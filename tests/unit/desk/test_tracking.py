"""A track taken into a folder: named by us, read first, its places in the order of the way."""

from __future__ import annotations

from pathlib import Path

import pytest

from oatsack.desk import tracking
from oatsack.errors import TrackError
from support.tracks import gpx, line, place, points

WAY = line(10_000.0, lambda along: 500.0, step_m=100.0)


def way(*marks: tuple[str, float]) -> bytes:
    body = "".join(
        f'<wpt lat="{p.lat:.9f}" lon="{p.lon:.9f}"><name>{p.name}</name></wpt>'
        for p in (place(name, along) for name, along in marks)
    )
    return gpx(f"{body}<trk><trkseg>{points(WAY)}</trkseg></trk>")


def test_a_track_is_named_by_trip_and_content_and_kept_once(tmp_path: Path) -> None:
    first = tracking.take_in(tmp_path, "walk", way())
    again = tracking.take_in(tmp_path, "walk", way())
    other = tracking.take_in(tmp_path, "walk", way(("Camp", 3000.0)))
    assert first == again != other and first.parent == tmp_path
    assert first.name.startswith("walk-") and first.suffix == ".gpx"
    assert sorted(p.name for p in tmp_path.iterdir()) == sorted({first.name, other.name})


def test_what_is_no_track_is_not_kept(tmp_path: Path) -> None:
    for data in (b"", b"<gpx/>", b"PK\x03\x04", way()[:200]):
        with pytest.raises(TrackError):
            tracking.take_in(tmp_path, "walk", data)
    assert list(tmp_path.iterdir()) == []


def test_places_come_in_the_order_in_which_the_way_reaches_them(tmp_path: Path) -> None:
    data = way(("Third", 9000.0), ("First", 100.0), ("Second", 5000.0))
    made = tracking.take_in(tmp_path, "walk", data)
    names = [mark.name for mark in tracking.marks(tmp_path, {"track": made.name})]
    assert names == ["First", "Second", "Third"]


def test_places_of_a_track_that_cannot_be_read_or_lies_elsewhere_are_none(tmp_path: Path) -> None:
    outside = tmp_path / "way.gpx"
    outside.write_bytes(way(("Camp", 100.0)))
    inner = tmp_path / "trips"
    inner.mkdir()
    (inner / "bad.gpx").write_bytes(b"<gpx")
    for route in ({}, {"track": 3}, {"track": "none.gpx"}, {"track": "bad.gpx"},
                  {"track": "../way.gpx"}, {"track": str(outside)}):  # fmt: skip
        assert tracking.marks(inner, route) == ()
