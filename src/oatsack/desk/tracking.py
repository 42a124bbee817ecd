"""A track taken into a folder of trips, and the places on it that a form can offer.

The file's name is made from the trip's and the content's, never from what the sender called it:
no name leads elsewhere, another track is another file, and undo finds the earlier one unchanged.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from oatsack.desk.export import write_file
from oatsack.errors import UnreadableInput
from oatsack.files.tracks import read_track
from oatsack.values.route import Track, Waypoint


def take_in(folder: Path, trip: str, data: bytes) -> Path:
    """The track's file in the folder. Raises TrackError with all its faults."""
    read_track(data, say_name(trip))
    mark = hashlib.sha256(data).hexdigest()[:8]
    return write_file(folder / f"{trip}-{mark}.gpx", data)


def say_name(trip: str) -> str:
    """What a track that is only just sent is called in its faults."""
    return f"{trip}.gpx"


def marks(folder: Path, route: Mapping[str, Any]) -> tuple[Waypoint, ...]:
    """Named places on a trip's track, in the order in which the way comes by them."""
    name = route.get("track")
    if not isinstance(name, str) or Path(name).name != name:
        return ()
    try:
        track = read_track((folder / name).read_bytes(), name)
    except (OSError, UnreadableInput):
        return ()
    return tuple(sorted(track.waypoints, key=lambda mark: _reached(track, mark)))


def _reached(track: Track, mark: Waypoint) -> int:
    """The point of the track next to a place."""
    pairs = zip(track.lat, track.lon, strict=True)
    return min(
        enumerate((lat - mark.lat) ** 2 + (lon - mark.lon) ** 2 for lat, lon in pairs),
        key=lambda found: found[1],
    )[0]
