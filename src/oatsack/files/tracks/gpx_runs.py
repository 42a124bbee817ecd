"""Segments of plainly written track points, read from the bytes of a GPX file without a parser.

A recorder writes a hundred thousand points all in one form: a place, a height, a time. A segment
that holds nothing else is read by one expression, several times as quickly; one with anything more
in it, an extension or a name, stays for the parser. So does the whole file where it has comments,
raw text or instructions, since what looks like a point may not be one there.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

OPEN, CLOSE = b"<trkseg>", b"</trkseg>"
NUMBER = r"([-+.\deE]{1,40})"
"""Whether it is one is seen when it is read."""
POINT = re.compile(
    rf'(<trkpt\s+lat="{NUMBER}"\s+lon="{NUMBER}"\s*(?:/>|>\s*'
    rf"(?:<ele>\s*{NUMBER}\s*</ele>\s*)?(?:<time>\s*([-+:.\dTZ]{{1,40}})\s*</time>\s*)?"
    r"</trkpt>)\s*)",
    re.ASCII,
)
"""The whole point, its place, its height and its time, in ASCII."""
Rows = Sequence[tuple[str, str, str, str, str]]


def pieces(data: bytes) -> Iterator[tuple[bytes, Rows]]:
    """The file in order as pairs: what the parser must read, then points that it need not."""
    at = 0
    for begin, end in () if _veiled(data) else _segments(data):
        rows = points_of(data[begin:end])
        if rows:
            yield data[at:begin], rows
            at = end
    yield data[at:], ()


def _veiled(data: bytes) -> bool:
    """Whether points might stand where they do not count, or in an encoding not like ASCII."""
    return b"<!" in data or data.count(b"<?") > 1 or b"\0" in data[:4]


def _segments(data: bytes) -> Iterator[tuple[int, int]]:
    """Where the inside of each segment begins and ends."""
    at = data.find(OPEN)
    while at >= 0:
        begin = at + len(OPEN)
        end = data.find(CLOSE, begin)
        if end < 0:
            return
        yield begin, end
        at = data.find(OPEN, end)


def points_of(inside: bytes) -> Rows:
    """The points of a segment in order, as written; none where anything else stands there too."""
    text = inside.strip()
    if not text.isascii():
        return ()
    rows = POINT.findall(text.decode("ascii"))
    return rows if sum(len(row[0]) for row in rows) == len(text) else ()
