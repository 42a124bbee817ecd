"""A GPX file in one quick pass, or nothing where anything at all looks wrong.

Long tracks have a hundred thousand points, so nothing is built but columns of numbers, and segments
of plainly written points (`gpx_runs`) go past the parser. Document types, entities and a great
depth end the pass at once. What is wrong, and where, is then for `gpx_check` to find at leisure.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass, field
from typing import TYPE_CHECKING
from xml.parsers import expat

from oatsack.files.tracks import gpx_check
from oatsack.files.tracks.gpx_runs import Rows, pieces

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import NoReturn

FIELDS = frozenset({"ele", "time", "name", "cmt", "desc", "sym", "type"})
"""Elements whose text is kept."""
HOLDERS = frozenset({"gpx", "metadata", "trk", "rte", "trkpt", "rtept", "wpt"})
"""Elements whose own fields are kept; what lies deeper is somebody's extension."""


class Refused(Exception):
    """The file holds something that no track needs."""


@dataclass(slots=True)
class Line:
    """Points of one run as written: places, heights, times; other fields by the point's number."""

    lat: list[str] = field(default_factory=list)
    lon: list[str] = field(default_factory=list)
    ele: list[str] = field(default_factory=list)
    time: list[str] = field(default_factory=list)
    texts: dict[tuple[int, str], str] = field(default_factory=dict)

    def __len__(self) -> int:
        return len(self.lat)

    def point(self, attributes: Mapping[str, str]) -> None:
        """A point begins. Raises LookupError where it has no place."""
        self.lat.append(attributes["lat"])
        self.lon.append(attributes["lon"])
        self.ele.append("")
        self.time.append("")

    def take(self, rows: Rows) -> None:
        """Many points at once."""
        _, lat, lon, ele, time = zip(*rows, strict=True)
        self.lat += lat
        self.lon += lon
        self.ele += ele
        self.time += time

    def tell(self, name: str, text: str) -> None:
        """A field of the last point; the first of a name counts."""
        if name == "ele":
            self.ele[-1] = self.ele[-1] or text
        elif name == "time":
            self.time[-1] = self.time[-1] or text
        else:
            self.texts.setdefault((len(self.lat) - 1, name), text)

    def text(self, point: int, name: str) -> str:
        """The text of another field of a point; empty where there is none."""
        return self.texts.get((point, name), "")

    def numbers(self) -> tuple[list[float], list[float], list[float | None]]:
        """Latitudes, longitudes and heights. Raises ValueError for what no place can have."""
        lat, lon = list(map(float, self.lat)), list(map(float, self.lon))
        heights = [float(one) if one else None for one in self.ele]
        known = [one for one in heights if one is not None]
        sound = within(lat, 90.0) and within(lon, 180.0) and within(known, sys.float_info.max)
        if not sound:
            raise ValueError("a place outside the Earth")
        return lat, lon, heights


def within(values: Sequence[float], most: float) -> bool:
    """Whether all values lie between -most and most; not-a-number does not."""
    return all(map(most.__ge__, map(abs, values)))


@dataclass(slots=True)
class Pass:
    """What the pass keeps, and where it stands."""

    runs: list[Line] = field(default_factory=list)
    routes: list[Line] = field(default_factory=list)
    marks: Line = field(default_factory=Line)
    names: dict[str, str] = field(default_factory=dict)
    """The first name of the file and of its tracks and routes, by their element."""
    _open: list[str] = field(default_factory=list)
    _line: Line = field(default_factory=Line)
    _said: list[str] | None = None
    _points: int = 0

    def opened(self, tag: str, attributes: Mapping[str, str]) -> None:
        """An element begins."""
        name = tag.rpartition("}")[2]
        parents = self._open
        if name in FIELDS:
            self._said = [] if parents and parents[-1] in HOLDERS else None
        elif name in gpx_check.POINTS:
            self._point(name, attributes)
        else:
            self._other(name, attributes)
        parents.append(name)

    def take(self, rows: Rows) -> None:
        """Points of the segment that the parser has just opened, read past it."""
        self._count(len(rows))
        self._line = self.runs[-1]
        self._line.take(rows)

    def _count(self, points: int) -> None:
        self._points += points
        if self._points > gpx_check.MOST_POINTS:
            raise Refused

    def _point(self, name: str, attributes: Mapping[str, str]) -> None:
        self._count(1)
        into = {"trkpt": self.runs, "rtept": self.routes, "wpt": [self.marks]}[name]
        self._line = into[-1]
        self._line.point(attributes)

    def _other(self, name: str, attributes: Mapping[str, str]) -> None:
        depth = len(self._open)
        if name == "trkseg":
            self.runs.append(Line())
        elif name == "rte":
            self.routes.append(Line())
        elif depth >= gpx_check.MOST_DEEP or (depth == 0 and not _known(name, attributes)):
            raise Refused

    def said(self, text: str) -> None:
        """Text within an element."""
        if self._said is not None:
            self._said.append(text)

    def closed(self, _tag: str) -> None:
        """An element ends."""
        name = self._open.pop()
        if self._said is None:
            return
        text, holder = "".join(self._said).strip(), self._open[-1]
        self._said = None
        if holder in gpx_check.POINTS:
            self._line.tell(name, text)
        elif name == "name" and text:
            self.names.setdefault(holder, text)


def _known(name: str, attributes: Mapping[str, str]) -> bool:
    """Whether the outermost element is GPX of a version that can be read."""
    return name == "gpx" and attributes.get("version", "1.1") in gpx_check.VERSIONS


def _refuse(*_said: object) -> NoReturn:
    raise Refused


def passed(data: bytes) -> Pass | None:
    """What the file holds; None where it is not well-formed, not GPX, or refused."""
    found, last = Pass(), True
    parser = expat.ParserCreate(namespace_separator="}")
    parser.buffer_text = True
    parser.StartDoctypeDeclHandler = _refuse
    parser.EntityDeclHandler = _refuse
    parser.StartElementHandler = found.opened
    parser.EndElementHandler = found.closed
    parser.CharacterDataHandler = found.said
    try:
        for before, rows in pieces(data):
            parser.Parse(before, not last)
            if rows:
                found.take(rows)
        parser.Parse(b"", last)
    except (Refused, expat.ExpatError, ValueError, LookupError):
        return None
    return found
