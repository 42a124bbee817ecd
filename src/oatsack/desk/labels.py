"""One's own larder in a folder: a label judged, kept in larder.csv, taken in, given out."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from oatsack.desk.export import write_file
from oatsack.errors import Fault, LarderError, NotThere, UsageError
from oatsack.files.larder import bundled, read_larder, read_with_dialect, write_larder
from oatsack.files.larder_columns import BY_NAME, COLUMNS, PER_100G, Column, is_per
from oatsack.files.sheet import Decimal, Dialect
from oatsack.larder.plausible import doubts
from oatsack.reports.words import Voice, say
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.frozen import dataclass

FILE = "larder.csv"
LABEL = "this label"
LIKED = "liking_"
"""Begins a column of what one walker thinks of a food."""
MOST_BYTES = 2_000_000
"""About ten thousand foods; nobody's larder is larger."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A typed label as read: the food and its doubts, or its faults by column."""

    food: Food | None = None
    doubts: tuple[Flag, ...] = ()
    faults: tuple[Fault, ...] = ()

    def says(self, voice: Voice) -> tuple[str, ...]:
        """The doubts in words."""
        return tuple(voice.flag(flag) for flag in self.doubts)

    def beside(self) -> dict[str, list[Fault]]:
        """Faults by the column that they are about."""
        out: dict[str, list[Fault]] = {}
        for fault in self.faults:
            out.setdefault(fault.path.rpartition(": ")[2], []).append(fault)
        return out


def judged(given: Mapping[str, Any]) -> Judged:
    """The food of a typed label (column -> text), and everything wrong or doubtful about it."""
    filled = {"name": "", "pack_g": "", "per": ""}
    known = [key for key in given if key in BY_NAME or key.startswith(LIKED)]
    filled |= {key: str(given[key]).strip() for key in known if given[key]}
    if not (filled.get("kcal") or filled.get("kj")):
        filled["kcal"] = ""
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, list(filled), lineterminator="\n")
    writer.writeheader()
    writer.writerow(filled)
    try:
        foods = read_larder(out.getvalue().encode("utf-8"), LABEL)
    except LarderError as error:
        return Judged(faults=tuple(error.faults))
    if not foods:  # a row without a word is no row
        return Judged(faults=tuple(_blank(column) for column in COLUMNS if column.required))
    return Judged(food=foods[0], doubts=tuple(doubts(foods[0])))


STANDS_IN = {"name": "x", "pack_g": "100 g"}
"""For what a label that is still being typed lacks."""
OF_A_PACK = ("doses", "dose_g", "pack_ml", "wrap_g")
"""Only makes sense beside the mass of a pack."""


def so_far(given: Mapping[str, Any]) -> Judged:
    """What can be said of a label while it is typed: nothing about what is still blank.

    Faults are those of what was typed; what is at fault does not keep the rest from being doubted.
    """
    typed = {key: str(text).strip() for key, text in given.items() if str(text).strip()}
    if not typed.get("pack_g"):
        typed = {key: text for key, text in typed.items() if key not in OF_A_PACK}
        if typed.get("per") == "pack":
            typed.pop("per")
    found = judged(STANDS_IN | typed)
    beside = found.beside()
    faults = tuple(fault for name in beside if name in typed for fault in beside[name])
    if not faults:
        return Judged(food=found.food, doubts=found.doubts)
    rest = judged(STANDS_IN | {key: text for key, text in typed.items() if key not in beside})
    return Judged(food=rest.food, doubts=rest.doubts, faults=faults)


def _blank(column: Column) -> Fault:
    return Fault(file=LABEL, path=column.name, wrong="is blank", read="", instead=column.about)


def row_of(food: Food) -> dict[str, str]:
    """A food as its label's form is filled: column -> text, per 100 g, numbers to six digits."""
    table = list(csv.reader(io.StringIO(write_larder([food]).decode("utf-8-sig"))))
    row = {name: _brief(text) for name, text in zip(table[0], table[1], strict=True)}
    return row | {"per": PER_100G}


def _brief(text: str) -> str:
    """A number of a serving turned into one of 100 g, without the digits nobody has read."""
    return f"{float(text):.6g}" if re.fullmatch(r"\d{1,5}\.\d{5,}", text) else text


def changed(food: Food, typed: Mapping[str, Any]) -> dict[str, Any]:
    """A food's row with what was typed over it, so that what no form asks for stays.

    What was confirmed is to be confirmed anew, and what was typed is no longer invented; nutrients
    that nobody typed go where the others are no longer per 100 g.
    """
    row = row_of(food)
    kept = [n for n in row["invented"].split() if typed.get(n, row.get(n)) == row.get(n)]
    row |= {"confirmed": ""}
    per_100g = str(typed.get("per", PER_100G)).replace(" ", "") == PER_100G.replace(" ", "")
    if not per_100g:
        row = {key: text for key, text in row.items()
               if key not in BY_NAME or not is_per(BY_NAME[key])}  # fmt: skip
    return row | dict(typed) | {"invented": " ".join(kept)}


def own(folder: Path) -> tuple[Food, ...]:
    """The foods of the folder's larder file; none without one. Raises LarderError."""
    path = folder / FILE
    return read_larder(path.read_bytes(), FILE) if path.is_file() else ()


def every(folder: Path) -> tuple[Food, ...]:
    """One's own foods, then those of the bundled larder that they do not replace."""
    mine = own(folder)
    known = {food.id for food in mine}
    return (*mine, *(food for food in bundled() if food.id not in known))


def food_of(folder: Path, name: str) -> Food:
    """A food by its id. Raises NotThere."""
    found = next((food for food in every(folder) if food.id == name), None)
    if found is None:
        raise NotThere(say("desk.no-food"))
    return found


def keep(folder: Path, foods: Iterable[Food]) -> None:
    """Adds foods, or puts them in the place of those with the same id; the older file is kept."""
    rows = {food.id: food for food in (*own(folder), *foods)}
    write_file(folder / FILE, write_larder(rows.values()), often=True)


def drop(folder: Path, name: str) -> None:
    """Takes one's own food out of the file again; the older file is kept. Raises UsageError."""
    rows = own(folder)
    left = [food for food in rows if food.id != name]
    if len(left) == len(rows):
        raise UsageError(say("desk.not-own"))
    write_file(folder / FILE, write_larder(left), often=True)


def take_in(folder: Path, data: bytes) -> tuple[int, Dialect]:
    """A whole larder file taken in: how many foods, and how the file was written.

    Raises LarderError with every fault, UsageError for a file that is no larder by its size.
    """
    if len(data) > MOST_BYTES:
        raise UsageError(say("desk.large-larder", mb=MOST_BYTES // 1_000_000))
    found = read_with_dialect(data, "the file")
    keep(folder, found.foods)
    return len(found.foods), found.dialect


def written(folder: Path, *, decimal: Decimal = ".") -> bytes:
    """The folder's larder as CSV, as sheet programs of either decimal mark read it."""
    return write_larder(own(folder), decimal=decimal)


__all__ = [
    "COLUMNS", "FILE", "Judged", "changed", "drop", "every", "food_of", "judged", "keep", "own",
    "row_of", "so_far", "take_in", "written",
]  # fmt: skip
