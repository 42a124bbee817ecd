"""The trip file: TOML text -> a checked `Trip`, and back without losing what its owner wrote.

`toml`: text -> data, places, faults of grammar. `tables`: every table and key. `kinds`, `picks`:
what may stand at a key. `faults`: complaints with places. `misnamed`: tables under a misspelt
heading. `cross`: answers compared with each other, by stand-ins where some are at fault (`heal`).
`build`: the value. `foods`: ids against the larder. `write`, `edit`: text out.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pydantic import ValidationError

from oatsack.errors import Fault, TripFileError
from oatsack.files.trip.build import trip_of
from oatsack.files.trip.cross import cross_faults
from oatsack.files.trip.document import Document, path_text
from oatsack.files.trip.edit import edit_trip
from oatsack.files.trip.faults import faults_of
from oatsack.files.trip.finder import placed
from oatsack.files.trip.foods import check_foods, gone
from oatsack.files.trip.heal import healed
from oatsack.files.trip.misnamed import inside, meant, renamed
from oatsack.files.trip.tables import TripTable
from oatsack.files.trip.toml import read_toml
from oatsack.files.trip.write import Answers, write_trip
from oatsack.values.trip import Trip

__all__ = [
    "Answers", "Parsed", "check_foods", "edit_trip", "gone", "named_files", "named_stock",
    "pace_tracks", "parse_as_far", "parse_trip", "placed", "read_trip", "write_trip",
]  # fmt: skip


def read_trip(path: Path) -> Trip:
    """The trip in a file. Raises TripFileError with all faults of the file at once."""
    try:
        text = path.read_bytes().decode("utf-8")
    except UnicodeDecodeError as error:
        raise TripFileError([_not_utf8(path, error)]) from None
    except OSError as error:
        raise TripFileError([_no_file(path, error)]) from None
    return parse_trip(text, path.name)


@dataclass(frozen=True, slots=True)
class Parsed:
    """What could be made of a text: every fault, and the trip with stand-ins where it is at fault;
    None where nothing could be stood in."""

    trip: Trip | None
    faults: tuple[Fault, ...]
    guessed: frozenset[str] = frozenset()
    """Paths of the stand-ins: nothing that rests on one is the owner's word."""

    def told(self, path: str) -> bool:
        """Whether what stands at a path is the owner's word."""
        return not any(path == one or path.startswith((f"{one}.", f"{one}["))
                       for one in self.guessed)  # fmt: skip


def parse_trip(text: str, name: str) -> Trip:
    """The trip in a text; `name` stands for the file in faults and origins."""
    found = parse_as_far(text, name)
    if found.faults or found.trip is None:
        raise TripFileError(found.faults)
    return found.trip


def parse_as_far(text: str, name: str) -> Parsed:
    """The trip in a text as far as it can be read, with all of its faults."""
    document = read_toml(text, name)
    faults = list(document.faults)
    guessed = set(document.broken)
    table: TripTable | None = None
    try:
        table = TripTable.model_validate(document.data)
    except ValidationError as error:
        faults += faults_of(error, document)
        faults += _misnamed(error, document, text)
        table, stand_ins = healed(document.data, error)
        guessed |= stand_ins
    if table is not None:
        faults += cross_faults(table, document, guessed)
    return Parsed(
        trip=None if table is None else trip_of(table, document),
        faults=tuple(sorted(faults, key=lambda fault: (fault.line, fault.column))),
        guessed=frozenset(map(path_text, guessed)),
    )


def _misnamed(error: ValidationError, document: Document, text: str) -> tuple[Fault, ...]:
    """Faults below misspelt headings."""
    names = meant(error, document)
    mended = renamed(text, names)
    if mended == text:
        return ()
    return inside(parse_as_far(mended, document.name).faults, names, document)


def named_files(text: str) -> tuple[tuple[str, ...], str | None]:
    """Larder files and the track that a text names, even where the rest of it is at fault."""
    data = read_toml(text, "trip").data
    larder, route = data.get("larder"), data.get("route")
    files = larder.get("files", ()) if isinstance(larder, dict) else ()
    track = route.get("track") if isinstance(route, dict) else None
    many = [files] if isinstance(files, str) else files if isinstance(files, list) else []
    names = tuple(one for one in many if isinstance(one, str))
    return names, track if isinstance(track, str) else None


def pace_tracks(text: str, name: str) -> tuple[tuple[int, str, Fault], ...]:
    """Walkers whose pace a track tells: number, file, and a fault to be filled in at its place."""
    document = read_toml(text, name)
    walkers = document.data.get("walkers")
    found = []
    for number, one in enumerate(walkers if isinstance(walkers, list) else ()):
        file = one.get("pace_track") if isinstance(one, dict) else None
        if isinstance(file, str) and file.strip():
            path = ("walkers", number, "pace_track")
            place = document.place(path)
            fault = document.fault(path_text(path), place, "", read=place.source, instead="")
            found.append((number, file.strip(), fault))
    return tuple(found)


def named_stock(text: str) -> str | None:
    """The stock file that a text names, even where the rest of it is at fault."""
    larder = read_toml(text, "trip").data.get("larder")
    stock = larder.get("stock") if isinstance(larder, dict) else None
    return stock if isinstance(stock, str) else None


def _not_utf8(path: Path, error: UnicodeDecodeError) -> Fault:
    line = error.object.count(b"\n", 0, error.start) + 1
    column = error.start - error.object.rfind(b"\n", 0, error.start)
    return Fault(
        file=path.name, path="the file", wrong="not text in UTF-8",
        read=f"byte {error.object[error.start]:#04x}", line=line, column=column,
        instead="save it as UTF-8",
    )  # fmt: skip


def _no_file(path: Path, error: OSError) -> Fault:
    return Fault(
        file=path.name, path="the file", wrong="cannot be read", read=error.strerror or str(error),
        instead="check its name; oatsack start writes a new one",
    )  # fmt: skip
