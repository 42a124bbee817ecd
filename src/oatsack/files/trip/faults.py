"""What pydantic found wrong -> faults with place, source line and what to write instead."""

from __future__ import annotations

import types
import typing
from collections.abc import Iterator
from typing import Any

from pydantic import ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from oatsack.errors import Fault
from oatsack.files.trip.document import Document, Path, path_text
from oatsack.files.trip.kinds import Kind, nearest
from oatsack.files.trip.tables import Table, TripTable

SYNONYMS = {
    "weight": "mass", "body_mass": "mass", "start": "from", "begin": "from", "end": "to",
    "timezone": "zone", "snacks": "bags", "allergies": "avoids", "diet": "eats", "fuel": "cans",
    "ascent": "up", "climb": "up", "gain": "up", "descent": "down", "loss": "down", "gpx": "track",
    "people": "walkers", "water_per_hour": "water", "pot": "pots", "bottle": "bottles",
    "kcal": "target", "coffee": "hot_drinks", "never": "bans", "keep": "holds", "slope": "grade",
}  # fmt: skip
"""Words that people try -> the key that means it, where the table has it."""


def inner_table(annotation: Any) -> type[Table] | None:
    """The table that a field holds, one or many; None for plain values."""
    while typing.get_origin(annotation) in (list, typing.Annotated, types.UnionType, typing.Union):
        annotation = typing.get_args(annotation)[0]
    return annotation if isinstance(annotation, type) and issubclass(annotation, Table) else None


def is_many(info: FieldInfo) -> bool:
    """Whether a field holds several values in a list."""
    annotation = info.annotation
    while typing.get_origin(annotation) in (typing.Annotated, types.UnionType, typing.Union):
        annotation = typing.get_args(annotation)[0]
    return typing.get_origin(annotation) is list


def fields_of(table: type[Table]) -> dict[str, FieldInfo]:
    """The fields of a table by the key they have in the file."""
    return {str(info.alias or name): info for name, info in table.model_fields.items()}


def table_at(path: Path) -> type[Table] | None:
    """The table at a path of the file; None where plain values stand."""
    table: type[Table] | None = TripTable
    for part in path:
        if table is not None and isinstance(part, str):
            info = fields_of(table).get(part)
            table = None if info is None else inner_table(info.annotation)
    return table


def kind_of(info: FieldInfo) -> Kind | None:
    """The kind of a field's value, or of the items of its list."""
    for extra in info.metadata:
        if isinstance(extra, Kind):
            return extra
    parts = typing.get_args(info.annotation)
    while parts:
        for part in parts:
            if isinstance(part, Kind):
                return part
        parts = tuple(p for part in parts for p in typing.get_args(part))
    return None


def related(one: Path, other: Path) -> bool:
    """Whether one path is the other's, or leads to it."""
    shorter = min(len(one), len(other))
    return one[:shorter] == other[:shorter]


def complaints(error: ValidationError) -> list[tuple[Path, ErrorDetails]]:
    """Path and details of everything that pydantic found."""
    found = error.errors(include_url=False, include_input=False)
    return [(tuple(part for part in item["loc"] if part != "[key]"), item) for item in found]


def likely(path: Path) -> Path:
    """The path that an unknown key was most likely meant to be; its own if there is none."""
    name, known = str(path[-1]), list(fields_of(table_at(path[:-1]) or TripTable))
    synonym = SYNONYMS.get(name.casefold(), "")
    close = synonym if synonym in known else nearest(name, known)
    return (*path[:-1], close) if close else path


def faults_of(error: ValidationError, document: Document) -> Iterator[Fault]:
    """Every complaint as a fault; those that only follow from a broken line are left out."""
    found = complaints(error)
    meant = {likely(path) for path, item in found if item["type"] == "extra_forbidden"}
    for path, item in found:
        if item["type"] == "missing":
            if path not in meant and not any(related(path, one) for one in document.broken):
                yield _missing(document, path)
        elif item["type"] == "extra_forbidden":
            yield _unknown(document, path)
        else:
            yield _wrong(document, path, item)


def _missing(document: Document, path: Path) -> Fault:
    place = document.place(path[:-1]) if path[:-1] else document.place(())
    table = table_at(path[:-1])
    info = fields_of(table).get(str(path[-1])) if table else None
    return document.fault(
        path_text(path), place, "is missing", read="nothing", instead=_how(str(path[-1]), info)
    )


def _how(name: str, info: FieldInfo | None) -> str:
    """How a missing key is written."""
    if info is None:
        return f"write {name}"
    if inner_table(info.annotation):
        many = is_many(info)
        return f"add a table [[{name}]]" if many else f"add a table [{name}]"
    kind = kind_of(info)
    return f"add {name} = {kind.example}" if kind else f"add {name}"


def _unknown(document: Document, path: Path) -> Fault:
    name = str(path[-1])
    place = document.place(path, of_key=True)
    known = list(fields_of(table_at(path[:-1]) or TripTable))
    close = likely(path)
    instead = f"known here: {', '.join(known)}"
    instead = instead if close == path else f'did you mean "{close[-1]}"?'
    return document.fault(path_text(path), place, "unknown key", read=f'"{name}"', instead=instead)


SHAPES = {
    "list_type": ("not a list", "write a list in square brackets: [ ... ]"),
    "dict_type": ("not a table", "write a table: key = value, one per line"),
    "model_type": ("not a table", "write a table: key = value, one per line"),
    "model_attributes_type": ("not a table", "write a table: key = value, one per line"),
}


def _wrong(document: Document, path: Path, item: ErrorDetails) -> Fault:
    here = path
    while here and here not in document.values and here not in document.keys:
        here = here[:-1]
    place = document.place(here)
    context = item.get("ctx", {})
    wrong, instead = SHAPES.get(item["type"], (item["msg"], ""))
    return document.fault(
        path_text(here), place, str(context.get("wrong", wrong)),
        read=short(place.source), instead=str(context.get("instead", instead)),
    )  # fmt: skip


def short(source: str, most: int = 60) -> str:
    """The first line of a value's source, cut to a readable length."""
    first, _, rest = source.partition("\n")
    return first[: most - 1] + "…" if rest or len(first) > most else first
