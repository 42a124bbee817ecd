"""Foods and larder files for the tests of the larder. All invented, no one's label."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from oatsack.errors import Fault, LarderError
from oatsack.files.larder import bundled, read_larder
from oatsack.values.food import Food, Nutrients


def label(
    *, kcal: float | None, of_g: float, pack_g: float | None = None, doses: float = 1.0, **more: Any
) -> Food:
    """A food from a label: so many kcal (and macros) in so many grams, in a pack of doses."""
    macros = {name: more.pop(name) for name in list(more) if name.endswith(("_g", "_mg"))
              and name not in ("dose_g", "wrap_g")}  # fmt: skip
    pack = of_g if pack_g is None else pack_g
    per = {name: value * 100.0 / of_g for name, value in macros.items()}
    energy = None if kcal is None else kcal * 100.0 / of_g
    fields = {"id": "thing", "name": "Thing", "category": "other", "dose_g": pack / doses} | more
    return Food(
        per_100g=Nutrients(energy_kcal=energy, **per), pack_g=pack, doses_per_pack=doses, **fields
    )


def by_id() -> Mapping[str, Food]:
    """The bundled larder by id."""
    return {food.id: food for food in bundled()}


def placeless(food: Food) -> Food:
    """The food without the file and line it was read from."""
    return replace(food, origin=replace(food.origin, file="", line=0))


def table(
    header: Sequence[str], rows: Iterable[Sequence[str]], *, delimiter: str = ",", end: str = "\n"
) -> str:
    """A table as text, quoted where it must be."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=delimiter, lineterminator=end)
    writer.writerow(header)
    writer.writerows(rows)
    return out.getvalue()


def read(text: str | bytes, name: str = "larder.csv") -> tuple[Food, ...]:
    """The foods of a text."""
    return read_larder(text.encode() if isinstance(text, str) else text, name)


def one(text: str | bytes) -> Food:
    """The only food of a text."""
    (food,) = read(text)
    return food


def faults(text: str | bytes, name: str = "larder.csv") -> tuple[Fault, ...]:
    """The faults of a text; none if it can be read."""
    try:
        read(text, name)
    except LarderError as error:
        return error.faults  # type: ignore[return-value]
    return ()


def places(text: str | bytes) -> list[tuple[int, int]]:
    """Line and column of every fault."""
    return [(fault.line, fault.column) for fault in faults(text)]
