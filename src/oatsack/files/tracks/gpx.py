"""GPX 1.0 and 1.1: tracks, else routes, with waypoints. Source: GPX11.

Several tracks or segments are one line in file order. What a waypoint is (camp, water, shop) is
read from its type, its symbol, or else its name; its comment may say that the water is not sure.
"""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING, Literal

from oatsack.errors import TrackError
from oatsack.files.tracks.format import Format, fault
from oatsack.files.tracks.gpx_check import check
from oatsack.values.route import Reliability, Track, Waypoint

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from gpxpy.gpx import GPX, GPXRoutePoint, GPXTrackPoint, GPXWaypoint

    Point = GPXTrackPoint | GPXRoutePoint

Kind = Literal["camp", "water", "shop", "other"]
WORDS: dict[Kind, str] = {
    "water": r"water|spring|well|fountain|tap|stream|brook|beck|creek|river|ford",
    "camp": r"camp\w*|tent\w*|bivouac|hut|shelter|bothy|refuge|sleep\w*|night\w*",
    "shop": r"shop\w*|store|village|supermarket|grocer\w*|market|resupply|post office",
}
"""Words of the trade, whole words only; the first kind that fits is taken."""
DOUBTFUL = re.compile(r"\b(doubtful|seasonal|unreliable|often dry|may be dry|dry in)\b", re.I)
LIKELY = re.compile(r"\b(likely|usually|mostly)\b", re.I)


def knows(data: bytes, name: str) -> bool:
    """Whether the file looks like GPX: by its name, or by its first lines."""
    return name.lower().endswith(".gpx") or b"<gpx" in data[:2000]


def read(data: bytes, name: str) -> Track:
    """The track in these bytes. Raises TrackError with every fault found."""
    checked = check(data, name)
    if checked.faults:
        raise TrackError(checked.faults)
    track = _track(_parsed(data, name, checked.version), name)
    if len(track.lat) < 2 or len({*zip(track.lat, track.lon, strict=True)}) < 2:
        counted = f"{len(track.lat)} on the way, {len(track.waypoints)} waypoints"
        wrong = "a way needs two different points of a track or route"
        raise TrackError([fault(name, "gpx", wrong, read=counted)])
    return track


def _parsed(data: bytes, name: str, version: str) -> GPX:
    """The file as its library gives it."""
    import gpxpy.gpx
    import gpxpy.parser

    try:
        return gpxpy.parser.GPXParser(_text(data)).parse(version)
    except (gpxpy.gpx.GPXException, ValueError, LookupError) as error:
        wrong = "the file breaks the rules of GPX"
        raise TrackError([fault(name, "gpx", wrong, read=str(error))]) from error


def _text(data: bytes) -> str:
    """The text of the file by its byte order mark or declaration; UTF-8 where it says nothing."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16")
    said = re.match(rb"""\s*<\?xml[^>]*encoding\s*=\s*["']([\w.-]+)["']""", data[:200])
    text = data.decode(said[1].decode("ascii") if said else "utf-8-sig")
    return text.removeprefix("\ufeff")


def _track(gpx: GPX, name: str) -> Track:
    runs: list[list[Point]] = [list(seg.points) for one in gpx.tracks for seg in one.segments]
    if sum(map(len, runs)) < 2:
        runs = [list(route.points) for route in gpx.routes]
    runs = [run for run in runs if run]
    points = [point for run in runs for point in run]
    return Track(
        name=_name(gpx, name),
        lat=tuple(point.latitude for point in points),
        lon=tuple(point.longitude for point in points),
        height_m=tuple(point.elevation for point in points),
        time_s=_times(points),
        starts=_starts(runs),
        waypoints=tuple(_waypoint(one) for one in gpx.waypoints),
    )


def _name(gpx: GPX, file: str) -> str:
    """What the track is called: its own name, else the file's."""
    names = [gpx.name, *(one.name for one in gpx.tracks), *(one.name for one in gpx.routes)]
    return next((one.strip() for one in names if one and one.strip()), file)


def _times(points: Sequence[Point]) -> tuple[float | None, ...]:
    """Seconds since 1970 of each point; nothing at all where no point has a time."""
    times = tuple(None if one.time is None else _seconds(one.time) for one in points)
    return times if any(one is not None for one in times) else ()


def _seconds(time: dt.datetime) -> float:
    """The format's times are UTC, said or not."""
    return (time if time.tzinfo else time.replace(tzinfo=dt.UTC)).timestamp()


def _starts(runs: Iterable[Sequence[Point]]) -> tuple[int, ...]:
    starts, at = [], 0
    for run in runs:
        starts.append(at)
        at += len(run)
    return tuple(starts)


def _waypoint(point: GPXWaypoint) -> Waypoint:
    said = " ".join(filter(None, (point.comment, point.description)))
    return Waypoint(
        name=(point.name or "").strip() or "unnamed",
        lat=point.latitude,
        lon=point.longitude,
        height_m=point.elevation,
        kind=kind_of(point.type or "", point.symbol or "", point.name or ""),
        reliability=reliability_of(said),
    )


def kind_of(*said: str) -> Kind:
    """What a waypoint is, from the first of these texts that tells."""
    for text in said:
        for kind, words in WORDS.items():
            if re.search(rf"\b({words})\b", text, re.I):
                return kind
    return "other"


def reliability_of(said: str) -> Reliability:
    """How sure the water is, from the waypoint's comment and description."""
    if DOUBTFUL.search(said):
        return "doubtful"
    return "likely" if LIKELY.search(said) else "sure"


FORMAT = Format(name="gpx", help="GPX 1.0 or 1.1 (.gpx)", knows=knows, read=read)
