"""Recorded and drawn tracks: bytes in, `values.route.Track` out.

To read another format, write one file beside `gpx.py` with a `FORMAT` and name it here.
"""

from __future__ import annotations

from oatsack.errors import TrackError
from oatsack.files.tracks import gpx
from oatsack.files.tracks.format import MOST_BYTES, Format, fault
from oatsack.values.route import Track

FORMATS: tuple[Format, ...] = (gpx.FORMAT,)


def read_track(data: bytes, name: str) -> Track:
    """The track in these bytes; `name` is the file's, for messages.

    Raises TrackError with every fault, each with its line where one is known.
    """
    if not data.strip():
        raise TrackError([fault(name, "file", "the file is empty", read="nothing")])
    if len(data) > MOST_BYTES:
        read = f"{len(data) / 1e6:.0f} MB"
        raise TrackError([fault(name, "file", "the file is too large for a track", read=read)])
    for one in FORMATS:
        if one.knows(data, name):
            return one.read(data, name)
    known = ", ".join(one.help for one in FORMATS)
    raise TrackError(
        [fault(name, "file", "not a track that can be read", read=_head(data), instead=known)]
    )


def _head(data: bytes) -> str:
    """The beginning of the file, fit to be shown."""
    return repr(data[:24].decode("utf-8", "replace"))


__all__ = ["FORMATS", "read_track"]
