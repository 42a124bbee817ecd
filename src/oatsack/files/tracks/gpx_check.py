"""A first pass over a GPX file that finds what is wrong with it, and where, before it is believed.

Nothing is built here: the pass counts points, reads numbers and remembers lines. Entities and
document types are refused by the parser itself, so that a small file cannot become a huge one.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING
from xml.sax import SAXException, SAXParseException
from xml.sax.handler import ContentHandler

import defusedxml.sax
from defusedxml.common import DefusedXmlException

from oatsack.files.tracks.format import MOST_FAULTS, fault
from oatsack.files.tracks.format import MOST_POINTS as MOST_POINTS

if TYPE_CHECKING:
    from xml.sax.xmlreader import AttributesImpl, Locator

    from oatsack.errors import Fault

POINTS = {"trkpt", "rtept", "wpt"}
VERSIONS = ("1.0", "1.1")
MOST_DEEP = 64


class _Enough(Exception):
    """Stops the pass: more would only repeat what is known."""


class Checker(ContentHandler):
    """Collects the faults of one file."""

    def __init__(self, file: str) -> None:
        super().__init__()
        self.file = file
        self.faults: list[Fault] = []
        self.version = "1.1"
        self.points = 0
        self._open: list[str] = []
        self._text: list[str] | None = None
        self._place: Locator | None = None

    def setDocumentLocator(self, locator: Locator) -> None:
        """Keeps the parser's place, for lines and columns."""
        self._place = locator

    def startElement(self, name: str, attrs: AttributesImpl) -> None:
        """Checks the root, each point's numbers, and the bounds."""
        tag = name.rpartition(":")[2]
        self._open.append(tag)
        if len(self._open) > MOST_DEEP:
            self._tell("gpx", "elements lie too deep in each other", read=f"{MOST_DEEP} levels")
            raise _Enough
        if len(self._open) == 1:
            self._root(tag, attrs)
        elif tag in POINTS:
            self._point(tag, attrs)
        self._text = [] if tag == "ele" else None

    def characters(self, content: str) -> None:
        """Gathers the text of a height."""
        if self._text is not None and len(self._text) < 16:
            self._text.append(content)

    def endElement(self, name: str) -> None:
        """Checks a height once its text is whole."""
        tag = self._open.pop()
        if self._text is not None and tag == "ele":
            text = "".join(self._text).strip()
            if text and _number(text) is None:
                self._tell(self._where("ele"), "a height is a number of metres", read=repr(text))
        self._text = None

    def _root(self, tag: str, attrs: AttributesImpl) -> None:
        if tag != "gpx":
            self._tell("gpx", "the outermost element is not <gpx>", read=f"<{tag}>")
            raise _Enough
        self.version = attrs.get("version", "1.1")
        if self.version not in VERSIONS:
            self._tell(
                "gpx@version", "this version of GPX is not known", read=repr(self.version),
                instead="1.0 or 1.1",
            )  # fmt: skip

    def _point(self, tag: str, attrs: AttributesImpl) -> None:
        self.points += 1
        if self.points > MOST_POINTS:
            self._tell("gpx", "too many points", read=f"more than {MOST_POINTS:,}")
            raise _Enough
        for key, most in (("lat", 90.0), ("lon", 180.0)):
            text = attrs.get(key)
            value = None if text is None else _number(text)
            if value is None or abs(value) > most:
                self._tell(
                    f"{self._where(tag)}@{key}", f"not between -{most:g} and {most:g} degrees",
                    read="nothing" if text is None else repr(text),
                )  # fmt: skip

    def _where(self, tag: str) -> str:
        return f"{tag}[{self.points}]" if tag in POINTS else f"point[{self.points}].{tag}"

    def _tell(self, path: str, wrong: str, *, read: str, instead: str = "") -> None:
        place = self._place
        at = (place.getLineNumber() or 0, (place.getColumnNumber() or 0) + 1) if place else (0, 0)
        self.faults.append(fault(self.file, path, wrong, read=read, instead=instead, at=at))
        if len(self.faults) >= MOST_FAULTS:
            raise _Enough


def _number(text: str) -> float | None:
    """The number a text stands for, as the format writes it; None for anything else."""
    try:
        value = float(text)
    except ValueError:
        return None
    return value if math.isfinite(value) else None


def check(data: bytes, file: str) -> Checker:
    """The faults of a GPX file and its counts; never raises for what is in the file."""
    checker = Checker(file)
    try:
        defusedxml.sax.parseString(data, checker, forbid_dtd=True)
    except _Enough:
        pass
    except DefusedXmlException:
        checker._tell(
            "gpx", "the file declares a document type or entities of its own, which no track needs",
            read="a <!DOCTYPE or <!ENTITY declaration", instead="export the track again without it",
        )  # fmt: skip
    except SAXParseException as error:
        at = (error.getLineNumber() or 0, (error.getColumnNumber() or 0) + 1)
        wrong = "the file is not well-formed XML"
        checker.faults.append(fault(file, "gpx", wrong, read=error.getMessage(), at=at))
    except (SAXException, ValueError, LookupError) as error:
        checker.faults.append(fault(file, "gpx", "the file cannot be read", read=str(error)))
    return checker
