"""One's own larder in a folder: a label judged, kept in larder.csv, taken in, given out."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from oatsack.desk.export import write_file
from oatsack.errors import LarderError
from oatsack.files.larder import read_larder, write_larder
from oatsack.larder.plausible import doubts
from oatsack.reports.words import Voice
from oatsack.values.food import Food

FILE = "larder.csv"
FIELDS = ("name", "category", "role", "carry", "pack_g", "serving_g", "doses", "per", "kcal", "kj",
          "protein_g", "fat_g", "carb_g", "fibre_g", "sodium_mg", "price", "contains", "meals",
          "prep", "confirmed")  # fmt: skip


def judged(given: Mapping[str, Any]) -> tuple[Food | None, tuple[str, ...]]:
    """The food of a typed label, and everything that is wrong or doubtful about it, in words."""
    filled = {key: str(given[key]).strip() for key in FIELDS if str(given.get(key, "")).strip()}
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, list(filled) or ["name"], lineterminator="\n")
    writer.writeheader()
    writer.writerow(filled)
    try:
        food = read_larder(out.getvalue().encode("utf-8"), "this label")[0]
    except LarderError as error:
        return None, tuple(f"{f.path}: {f.wrong}, got {f.read}; {f.instead}" for f in error.faults)
    voice = Voice(foods={food.id: food.name})
    return food, tuple(voice.flag(flag) for flag in doubts(food))


def own(folder: Path) -> tuple[Food, ...]:
    """The foods of the folder's larder file; none without one. Raises LarderError."""
    path = folder / FILE
    return read_larder(path.read_bytes(), FILE) if path.is_file() else ()


def keep(folder: Path, foods: Iterable[Food]) -> None:
    """Adds foods, or puts them in the place of those with the same id; the older file is kept."""
    rows = {food.id: food for food in (*own(folder), *foods)}
    write_file(folder / FILE, write_larder(rows.values()))


def take_in(folder: Path, data: bytes) -> int:
    """A whole larder file taken in; how many foods. Raises LarderError with every fault."""
    foods = read_larder(data, "the file")
    keep(folder, foods)
    return len(foods)


def written(folder: Path) -> bytes:
    """The folder's larder as CSV."""
    return write_larder(own(folder))
