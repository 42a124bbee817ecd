"""Tracks for tests: lines on invented ground, and the same as GPX text."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from oatsack.route.line import EARTH_M
from oatsack.values.route import Track, Waypoint

METRE = 1.0 / math.radians(1.0) / EARTH_M
"""Degrees of latitude in a metre."""
LAT, LON = 47.0, 13.0


def north(along_m: float) -> float:
    """The latitude so many metres north of the start."""
    return LAT + along_m * METRE


def line(
    length_m: float,
    height: Callable[[float], float | None] = lambda along: 500.0,
    *,
    step_m: float = 20.0,
    waypoints: Sequence[Waypoint] = (),
) -> Track:
    """A straight way due north with a height for each place along it."""
    count = round(length_m / step_m)
    places = [length_m * k / count for k in range(count + 1)]
    return Track(
        name="a line",
        lat=tuple(north(place) for place in places),
        lon=(LON,) * (count + 1),
        height_m=tuple(height(place) for place in places),
        waypoints=tuple(waypoints),
    )


def place(name: str, along_m: float, kind: str = "camp", off_m: float = 0.0) -> Waypoint:
    """A waypoint beside the line, so far along and so far to the east of it."""
    east = off_m * METRE / math.cos(math.radians(LAT))
    return Waypoint(name=name, lat=north(along_m), lon=LON + east, kind=kind)  # type: ignore[arg-type]


def gpx(body: str, *, version: str = "1.1", head: str = "") -> bytes:
    """A whole file around some elements."""
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n{head}'
        f'<gpx version="{version}" creator="tests" '
        f'xmlns="http://www.topografix.com/GPX/{version.replace(".", "/")}">\n{body}\n</gpx>\n'
    ).encode()


def points(track: Track, tag: str = "trkpt") -> str:
    """The points of a track as elements, one to a line."""
    rows = []
    for k, (lat, lon, height) in enumerate(zip(track.lat, track.lon, track.height_m, strict=True)):
        inner = "" if height is None else f"<ele>{height:.2f}</ele>"
        if track.time_s and track.time_s[k] is not None:
            inner += f"<time>{track.time_s[k]}</time>"
        rows.append(f'<{tag} lat="{lat:.9f}" lon="{lon:.9f}">{inner}</{tag}>')
    return "\n".join(rows)
