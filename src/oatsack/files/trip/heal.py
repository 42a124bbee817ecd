"""A trip file with faults, made whole by stand-ins, so that its other answers can be compared.

Every value at fault is replaced by its kind's example, every unknown key is dropped, every missing
one is put in; the paths of the stand-ins are kept, and no fault is reported that rests on one.
"""

from __future__ import annotations

import copy
import itertools
import tomllib
from typing import Any

from pydantic import ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from oatsack.files.trip.document import Path
from oatsack.files.trip.faults import (
    complaints,
    fields_of,
    inner_table,
    is_many,
    kind_of,
    likely,
    table_at,
)
from oatsack.files.trip.tables import TripTable

ROUNDS = 5
"""A stand-in table is filled in the next round; tables are not deeper than this."""


def healed(data: dict[str, Any], error: ValidationError) -> tuple[TripTable | None, set[Path]]:
    """The tables with stand-ins, and where those are; None if it takes more than `ROUNDS`."""
    data = copy.deepcopy(data)
    guessed: set[Path] = set()
    for _ in range(ROUNDS):
        for path, item in complaints(error):
            guessed.add(likely(path) if item["type"] == "extra_forbidden" else path)
            _heal(data, path, item)
        try:
            return TripTable.model_validate(data), guessed
        except ValidationError as again:
            error = again
    return None, guessed


def _heal(data: Any, path: Path, item: ErrorDetails) -> None:
    """Mends one fault in place."""
    holder = data
    for step, follows in itertools.pairwise(path):
        inner = holder[step]
        if not isinstance(inner, list if isinstance(follows, int) else dict):
            inner = holder[step] = _wrapped(follows)  # a text stood for a list or a table
        holder = inner
    if item["type"] == "extra_forbidden":
        holder.pop(path[-1], None)
    else:
        holder[path[-1]] = _stand_in(path)


def _wrapped(follows: str | int) -> Any:
    return [None] * (follows + 1) if isinstance(follows, int) else {}


def _stand_in(path: Path) -> Any:
    """An example of what may stand at a path: of the key itself, or of an item of its list."""
    depth = len(path) - sum(isinstance(step, int) for step in path[-1:])
    table = table_at(path[: depth - 1])
    info = fields_of(table).get(str(path[depth - 1])) if table is not None else None
    if info is None:  # a value keyed by food: the key above knows its kind
        return _stand_in(path[:-1])
    whole = depth == len(path)
    if inner_table(info.annotation) is not None:
        return [{}] if whole and is_many(info) else {}
    return [_example(info)] if whole and is_many(info) else _example(info)


def _example(info: FieldInfo) -> Any:
    kind = kind_of(info)
    return tomllib.loads(f"x = {kind.example}")["x"] if kind else None
