"""GPX 1.0 and 1.1: tracks, else routes, with waypoints. Source: GPX11.

Several tracks or segments are one line in file order. What a waypoint is (camp, water, shop) is
read from its type, its symbol, or else its name; its comment may say that the water is not sure.
"""

from __future__ import annotations

import datetime as dt
import re
from itertools import accumulate, chain
from typing import TYPE_CHECKING, Literal

from oatsack.errors import TrackError
from oatsack.files.tracks.format import Format, fault
from oatsack.files.tracks.gpx_check import check
from oatsack.files.tracks.gpx_pass import Line, Pass, passed
from oatsack.values.route import Reliability, Track, Waypoint

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

UNREADABLE = "the file cannot be read as GPX"
NAMED = ("gpx", "metadata", "trk", "rte")
"""Whose name the track bears, the first that has one."""
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
    found = passed(data)
    track = None if found is None else _track(found, name)
    if track is None:
        raise TrackError(check(data, name).faults or [fault(name, "gpx", UNREADABLE, read="")])
    if len(track.lat) < 2 or len({*zip(track.lat, track.lon, strict=True)}) < 2:
        counted = f"{len(track.lat)} on the way, {len(track.waypoints)} waypoints"
        wrong = "a way needs two different points of a track or route"
        raise TrackError([fault(name, "gpx", wrong, read=counted)])
    return track


def _track(found: Pass, name: str) -> Track | None:
    """The runs as one line in file order; None where a number is none."""
    runs = found.runs if sum(map(len, found.runs)) >= 2 else found.routes
    runs = [run for run in runs if len(run)]
    try:
        # Every number is read, also of lines that are not used: a fault is told all the same.
        numbers = {id(one): one.numbers() for one in (*found.runs, *found.routes)}
        waypoints = tuple(_waypoints(found.marks))
    except ValueError:
        return None
    columns = [numbers[id(run)] for run in runs]
    return Track(
        name=next((found.names[key] for key in NAMED if key in found.names), name),
        lat=tuple(chain.from_iterable(lat for lat, _, _ in columns)),
        lon=tuple(chain.from_iterable(lon for _, lon, _ in columns)),
        height_m=tuple(chain.from_iterable(heights for _, _, heights in columns)),
        time_s=_times(chain.from_iterable(run.time for run in runs)),
        starts=(0, *accumulate(len(run) for run in runs))[: max(1, len(runs))],
        waypoints=waypoints,
    )


def _times(texts: Iterable[str]) -> tuple[float | None, ...]:
    """Seconds since 1970 of each point; nothing at all where no point has a time."""
    times = tuple(_seconds(one) if one else None for one in texts)
    return times if any(one is not None for one in times) else ()


def _seconds(said: str) -> float | None:
    """The format's times are UTC, said or not; a time that cannot be read counts as missing."""
    try:
        time = dt.datetime.fromisoformat(said)
    except ValueError:
        return None
    return (time if time.tzinfo else time.replace(tzinfo=dt.UTC)).timestamp()


def _waypoints(marks: Line) -> Iterator[Waypoint]:
    for at, (lat, lon, height) in enumerate(zip(*marks.numbers(), strict=True)):
        name, said = marks.text(at, "name"), f"{marks.text(at, 'cmt')} {marks.text(at, 'desc')}"
        yield Waypoint(
            name=name or "unnamed",
            lat=lat,
            lon=lon,
            height_m=height,
            kind=kind_of(marks.text(at, "type"), marks.text(at, "sym"), name),
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
