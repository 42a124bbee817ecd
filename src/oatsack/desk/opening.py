"""Opens a trip with everything it names: larder files, stock, track. All faults of all at once."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, TypeVar

from oatsack.desk.log import note
from oatsack.desk.reading import missing
from oatsack.errors import Fault, LarderError, UnreadableInput, UsageError
from oatsack.files.codec import encode
from oatsack.files.larder import Reading, bundled, read_with_dialect
from oatsack.files.reserved import read_reserved
from oatsack.files.sheet import Decimal, Dialect
from oatsack.files.stock import read_stock
from oatsack.files.trip import (
    Parsed,
    check_foods,
    named_files,
    named_stock,
    pace_tracks,
    parse_as_far,
    placed,
)
from oatsack.larder.plausible import doubts
from oatsack.larder.stock import Lot, stale, stocked, without
from oatsack.reports.words import say
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.route import Track
from oatsack.values.trip import RouteSpec, Trip
from oatsack.values.walker import OwnPace

RESERVED = "reserved.csv"
"""Beside the stock file: what plans that are packed take from it."""
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
    dialects: Mapping[str, Dialect] = field(default_factory=dict)
    """Larder file -> how it turned out to be written; the bundled one is not among them."""
    flags: tuple[Flag, ...] = ()
    """What is to be said of the stock at home."""

    @property
    def decimal(self) -> Decimal:
        """The decimal mark of the sheet program at home, as its larder files tell; else a point."""
        return "," if any(d.decimal == "," for d in self.dialects.values()) else "."


@dataclass(slots=True)
class Desk:
    """Reads one file of a trip after the other, and collects what is wrong with any of them."""

    folder: Path
    faults: list[Fault] = field(default_factory=list)
    readings: dict[str, Reading] = field(default_factory=dict)
    """Larder files without a fault; the bundled one is not among them."""
    at_fault: set[str] = field(default_factory=set)
    """Ids of larder rows that cannot be read."""
    unnamed: bool = False
    """Whether there may be foods of which not even the id could be read."""
    trip: Trip | None = None
    foods: tuple[Food, ...] = ()
    lots: tuple[Lot, ...] = ()
    track: Track | None = None

    def read(self, name: str, reader: Callable[[bytes, str], Made]) -> Made | None:
        """What a file holds, or None with its faults noted."""
        path = self.folder / name
        try:
            data = path.read_bytes()
            note(f"read {path}, {len(data)} bytes")
            return reader(data, name)
        except OSError as error:
            self.faults.append(missing(name, error))
        except UnreadableInput as error:
            self.faults += error.faults
        return None

    @property
    def dialects(self) -> Mapping[str, Dialect]:
        """How each larder file turned out to be written."""
        return {name: found.dialect for name, found in self.readings.items()}

    def larder(self, name: str) -> tuple[Food, ...]:
        """Foods of a larder file; of one with faults, its rows without."""
        if name == BUNDLED:
            return bundled()
        try:
            data = (self.folder / name).read_bytes()
            found = self.readings[name] = read_with_dialect(data, name)
        except OSError as error:
            self.faults.append(missing(name, error))
            self.unnamed = True
        except LarderError as error:
            self.faults += error.faults
            self.at_fault |= error.at_fault or set()
            self.unnamed |= error.at_fault is None
            return error.foods
        else:
            note(f"read {self.folder / name}, {len(found.foods)} foods")
            return found.foods
        return ()


def open_trip(path: Path, text: str | None = None) -> Opened:
    """The trip of a file with its larders and track. Raises UnreadableInput with every fault.

    `text` stands for what the file is about to hold, for whoever changes it.
    """
    desk = Desk(path.parent)
    return whole(desk, path, read_all(desk, path, text))


def whole(desk: Desk, path: Path, text: str) -> Opened:
    """What a desk has read, if all of it is sound. Raises UnreadableInput with every fault."""
    trip, foods = sound(desk, path)
    made = opened(trip, foods, track=desk.track, folder=path.parent, text=text)
    return replace(made, dialects=desk.dialects, flags=stale(desk.lots, trip.begin.date()))


def sound(desk: Desk, path: Path) -> tuple[Trip, tuple[Food, ...]]:
    """The trip and the foods with what of them is at home. Raises UnreadableInput with every
    fault."""
    if desk.faults or desk.trip is None:
        raise UnreadableInput(desk.faults)
    foods = without(stocked(desk.foods, desk.lots), _reserved(desk, desk.trip, path))
    if desk.faults:
        raise UnreadableInput(desk.faults)
    return desk.trip, tuple(foods)


def read_all(desk: Desk, path: Path, text: str | None) -> str:
    """Reads the trip's file and all that it names, as far as each can be read; its text.

    Where answers are at fault the trip of the desk holds stand-ins for them.
    """
    if text is None:
        text = desk.read(path.name, lambda data, _: _decoded(data, path.name)) or ""
        if not path.is_file():
            desk.faults = [replace(desk.faults[0], instead=say("desk.trip-name"))]
    parsed = parse_as_far(text, path.name) if text else Parsed(trip=None, faults=())
    desk.faults += parsed.faults
    larders, track_name = named_files(text)
    desk.foods = read_larders(desk, larders)
    sound = not desk.unnamed and not desk.at_fault
    desk.lots = _lots(desk, named_stock(text), desk.foods if sound else ())
    desk.track = desk.read(track_name, _track) if track_name else None
    desk.trip = _paced(desk, parsed.trip, text, path.name)
    if desk.trip is not None and not desk.unnamed:
        found = check_foods(desk.trip, desk.foods, text=text, at_fault=desk.at_fault)
        desk.faults += [fault for fault in found if parsed.told(fault.path)]
    if desk.trip is not None and desk.faults and _way_is_told(parsed, track_name, desk.track):
        desk.faults += way_faults(desk.trip, desk.track, text)
    files = list(dict.fromkeys([path.name, *(fault.file for fault in desk.faults)]))
    desk.faults.sort(key=lambda fault: (files.index(fault.file), fault.line, fault.column))
    return text


WAY = ("from", "to", "route", "places", "rules")
"""What the days of a walk are made of."""


def _way_is_told(parsed: Parsed, name: str | None, track: Track | None) -> bool:
    """Whether places and days can be held against the way: it was read, and none of it guessed."""
    tops = {fault.path.partition(".")[0].partition("[")[0] for fault in parsed.faults}
    return not tops & set(WAY) and (name is None or track is not None)


def way_faults(trip: Trip, track: Track | None, text: str) -> tuple[Fault, ...]:
    """Camps, cuts, places and days that do not fit the way of a trip. `open_trip` asks for them
    only where something else is at fault; else whoever makes the days raises them."""
    from oatsack.route.days import days_of
    from oatsack.route.stops import with_stops

    try:
        with_stops(trip, days_of(trip, track))
    except UnreadableInput as error:
        return placed(trip, error.faults, text)
    except UsageError:
        return ()
    return ()


def _paced(desk: Desk, trip: Trip | None, text: str, name: str) -> Trip | None:
    """The trip with every pace that a recorded track tells; faults stand where the track is named.

    The slowest of the party still sets the pace (`route.pieces.gait_of`).
    """
    found = {}
    for number, file, fault in pace_tracks(text, name):
        try:
            recorded = _track((desk.folder / file).read_bytes(), file)
            rule = RouteSpec().pace_model if trip is None else trip.route.pace_model
            found[number] = _own_pace(recorded, rule, file)
        except OSError as error:
            said = say("desk.no-track", why=error.strerror or error)
            desk.faults.append(replace(fault, wrong=said, instead=say("desk.beside")))
        except UsageError as error:
            desk.faults.append(replace(fault, wrong=str(error), instead=say("desk.timed")))
        except UnreadableInput as error:
            desk.faults += error.faults
    return trip if trip is None else with_paces(trip, found)


def _track(data: bytes, name: str) -> Track:
    from oatsack.files.tracks import read_track  # costs more than a trip without one

    return read_track(data, name)


def _own_pace(recorded: Track, rule: str, file: str) -> OwnPace:
    from oatsack.route import pace
    from oatsack.route.ownpace import own_pace

    return replace(own_pace(recorded, pace.model(rule)), track=file)


def with_paces(trip: Trip, found: Mapping[int, OwnPace]) -> Trip:
    """The trip with these paces, by the number of the walker."""
    walkers = tuple(
        replace(w, own_pace=found[n], pace_ms=found[n].flat_ms) if n in found else w
        for n, w in enumerate(trip.walkers)
    )
    return replace(trip, walkers=walkers)


def paced_as(trip: Trip, earlier: Trip) -> Trip:
    """The trip with the paces that an earlier reading took from the same tracks."""
    known = {w.own_pace.track: w.own_pace for w in earlier.walkers if w.own_pace}
    named = {n: w.pace_track for n, w in enumerate(trip.walkers) if w.pace_track in known}
    return with_paces(trip, {n: known[track] for n, track in named.items() if track})


def _reserved(desk: Desk, trip: Trip, file: Path) -> Mapping[str, float]:
    """Packs by food that packed plans of other trips take from the same stock (C17)."""
    folder = stock_folder(desk.folder, trip.stock)
    path = folder / RESERVED
    if not path.is_file():
        return {}
    taken: dict[str, float] = {}
    for one in desk.read(str(path.relative_to(desk.folder)), read_reserved) or ():
        if one.trip != reserved_as(file, folder):
            taken[one.food] = taken.get(one.food, 0.0) + one.packs
    return taken


def reserved_as(file: Path, folder: Path) -> str:
    """The name under which a trip reserves stock: its file as seen from the stock, for two walks
    may bear one title, and two folders may each hold a trip.toml."""
    return Path(os.path.relpath(file.absolute(), folder.absolute())).as_posix()


def stock_folder(folder: Path, stock: str | None) -> Path:
    """Where the stock of a trip's folder is kept."""
    return (folder / stock).parent if stock else folder


def _lots(desk: Desk, name: str | None, foods: Iterable[Food]) -> tuple[Lot, ...]:
    """Lots of the stock file. Without foods (a larder is at fault) its ids are not looked up."""
    if name is None:
        return ()
    known = {food.id for food in foods}
    if not known:
        desk.read(name, lambda data, _: data)
        return ()
    return desk.read(name, lambda data, file: read_stock(data, file, known)) or ()


def opened(trip: Trip, foods: Iterable[Food], *, track: Track | None = None,
           folder: Path | None = None, text: str = "") -> Opened:  # fmt: skip
    """An open trip from values already read."""
    rows = tuple(foods)
    return Opened(
        trip=trip, foods=rows, track=track, folder=folder or Path(), text=text,
        hashes={
            "trip": digest(text or steady(trip, Trip)),
            "larder": _named(rows),
        },
    )  # fmt: skip


_last: list[tuple[tuple[Food, ...], str]] = []
"""The larder that was named last, and its name: an edit draws on the very same foods again."""


def _named(rows: tuple[Food, ...]) -> str:
    """The digest of a larder."""
    for known, name in _last:
        if len(known) == len(rows) and all(a is b for a, b in zip(known, rows, strict=True)):
            return name
    _last[:] = [(rows, digest(steady(rows, tuple[Food, ...])))]
    return _last[0][1]


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
            Fault(file=name, path="the file", wrong=say("desk.not-utf8"), line=line, column=1,
                  read=f"byte {data[error.start]:#04x}", instead=say("desk.save-utf8")),
        ]) from None  # fmt: skip


def read_larders(desk: Desk, names: Iterable[str]) -> tuple[Food, ...]:
    """Foods of all named larders, a later file's row before an earlier one's of the same id.

    No name: the bundled larder. Files stand alone unless ``bundled`` is named beside them.
    """
    rows: dict[str, Food] = {}
    for name in list(names) or [BUNDLED]:
        rows |= {food.id: food for food in desk.larder(name)}
    return tuple(rows.values())


def doubtful(foods: Iterable[Food]) -> tuple[Flag, ...]:
    """Every doubt about a label that its owner has not confirmed."""
    return tuple(flag for food in foods if not food.confirmed for flag in doubts(food))


def written(name: str, found: Dialect) -> str:
    """How a larder file turned out to be written, in one line."""
    comma = {".": "point", ",": "comma", None: "none"}[found.decimal]
    between = {",": "comma", ";": "semicolon", "\t": "tab"}.get(found.delimiter, found.delimiter)
    return say("check-trip.dialect", file=name, encoding=found.encoding.upper(),
               delimiter=between, decimal=say(f"check-trip.{comma}"))  # fmt: skip
