"""Opens a trip with everything it names: larder files, stock, track. All faults of all at once."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from oatsack.desk.reading import missing
from oatsack.errors import Fault, UnreadableInput
from oatsack.files.codec import encode
from oatsack.files.larder import bundled, read_larder
from oatsack.files.tracks import read_track
from oatsack.files.trip import check_foods, named_files, parse_trip
from oatsack.larder.plausible import doubts
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.route import Track
from oatsack.values.trip import Trip

BUNDLED = "bundled"
"""The word that stands for the bundled larder in a list of larder files."""
Made = TypeVar("Made")


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A trip and what it needs, read and checked."""

    trip: Trip
    foods: tuple[Food, ...]
    track: Track | None = None
    folder: Path = Path()
    text: str = ""
    hashes: Mapping[str, str] = field(default_factory=dict)


@dataclass(slots=True)
class _Desk:
    """Collects faults while one file after the other is read."""

    folder: Path
    faults: list[Fault] = field(default_factory=list)

    def read(self, name: str, reader: Callable[[bytes, str], Made]) -> Made | None:
        """What a file holds, or None with its faults noted."""
        path = self.folder / name
        try:
            return reader(path.read_bytes(), name)
        except OSError as error:
            self.faults.append(missing(name, error))
        except UnreadableInput as error:
            self.faults += error.faults
        return None


def open_trip(path: Path) -> Opened:
    """The trip of a file with its larders and track. Raises UnreadableInput with every fault."""
    desk = _Desk(path.parent)
    text = desk.read(path.name, lambda data, _: _decoded(data, path.name)) or ""
    trip = desk.read(path.name, lambda _, name: parse_trip(text, name)) if text else None
    larders, track_name = named_files(text)
    foods = read_larders(desk, larders)
    track = desk.read(track_name, read_track) if track_name else None
    if trip is not None and foods:
        desk.faults += check_foods(trip, foods, text=text)
    if desk.faults or trip is None:
        raise UnreadableInput(desk.faults)
    return opened(trip, foods, track=track, folder=path.parent, text=text)


def opened(trip: Trip, foods: Iterable[Food], *, track: Track | None = None,
           folder: Path | None = None, text: str = "") -> Opened:  # fmt: skip
    """An open trip from values already read."""
    rows = tuple(foods)
    return Opened(
        trip=trip, foods=rows, track=track, folder=folder or Path(), text=text,
        hashes={
            "trip": digest(text or steady(trip, Trip)),
            "larder": digest(steady(rows, tuple[Food, ...])),
        },
    )  # fmt: skip


def steady(value: object, hint: Any) -> str:
    """A value as text that is the same in every run, as plan files write it."""
    return json.dumps(encode(value, hint), sort_keys=True)


def digest(text: str) -> str:
    """The SHA-256 of a text, its first 16 signs."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:16]


def _decoded(data: bytes, name: str) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise UnreadableInput([
            Fault(file=name, path="the file", wrong="not text in UTF-8", line=line, column=1,
                  read=f"byte {data[error.start]:#04x}", instead="save it as UTF-8"),
        ]) from None  # fmt: skip


def read_larders(desk: _Desk, names: Iterable[str]) -> tuple[Food, ...]:
    """Foods of all named larders, a later file's row before an earlier one's of the same id.

    No name: the bundled larder. Files stand alone unless ``bundled`` is named beside them.
    """
    rows: dict[str, Food] = {}
    for name in list(names) or [BUNDLED]:
        found = bundled() if name == BUNDLED else desk.read(name, read_larder)
        rows |= {food.id: food for food in found or ()}
    return tuple(rows.values())


def doubtful(foods: Iterable[Food]) -> tuple[Flag, ...]:
    """Every doubt about a label that its owner has not confirmed."""
    return tuple(flag for food in foods if not food.confirmed for flag in doubts(food))
