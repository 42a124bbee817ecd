"""The rows of a larder file, read cell by cell, with every fault of every cell.

Each cell is read by the kind of its column; larder_build.py then puts the row together. A row with
a fault makes no food, and reading goes on to the end of the file.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any, Final

from oatsack.errors import Fault
from oatsack.files import cells
from oatsack.files.cells import BadCell
from oatsack.files.larder_build import build
from oatsack.files.larder_columns import COLUMNS, PER_100G, PER_PACK, PER_SERVING, Head
from oatsack.files.sheet import Decimal, Row, Sheet, number
from oatsack.values.food import Food

Read = Callable[[str], Any]
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_BASES: Final = {
    "100g": PER_100G, "100": PER_100G, "serving": PER_SERVING, "dose": PER_SERVING,
    "portion": PER_SERVING, "pack": PER_PACK,
}  # fmt: skip
_UNITS: Final[Mapping[str, Mapping[str, float]]] = {
    "mass": cells.MASS,
    "nutrient": cells.MASS,
    "milli": {unit: factor * 1000.0 for unit, factor in cells.MASS.items()},
    "energy": cells.ENERGY,
    "volume": cells.VOLUME,
    "minutes": cells.TIME,
    "days": {"d": 1.0, "day": 1.0, "week": 7.0},
}


class FoodRows:
    """Reads the rows of one sheet; `faults` fills while reading."""

    def __init__(
        self, sheet: Sheet, heads: tuple[Head | None, ...], decimal: Decimal | None
    ) -> None:
        self.sheet = sheet
        self.readers = [head and (head.key, reader_of(head, decimal)) for head in heads]
        self.index = {head.key: i for i, head in enumerate(heads) if head}
        self.bases = {head.key: head.basis for head in heads if head and head.basis}
        self.faults: list[Fault] = []

    def read(self) -> tuple[Food, ...]:
        """All rows without a fault, as foods; the second of two with one id is a fault."""
        foods: dict[str, Food] = {}
        for row in self.sheet.rows:
            food = self._food(row)
            if food is None:
                continue
            first = foods.setdefault(food.id, food)
            if first is not food:
                key = "id" if "id" in self.index else "name"
                wrong = f"stands in line {first.origin.line} already"
                self._fault(row, key, food.id, BadCell(wrong, "give each food an id of its own"))
        return tuple(foods.values())

    def _food(self, row: Row) -> Food | None:
        before = len(self.faults)
        got = self._cells(row)
        who = str(got.get("id") or got.get("name") or "")
        for column in COLUMNS:
            if column.required and column.name not in got and self._blank(row, column.name):
                self._fault(row, column.name, who, BadCell("is blank", column.about))
        if len(self.faults) > before or "name" not in got or "pack_g" not in got:
            return None
        food, clashes = build(got, self.bases, (self.sheet.name, row.line))
        for key, bad in clashes:
            self._fault(row, key, who, bad)
        return food

    def _blank(self, row: Row, key: str) -> bool:
        index = self.index.get(key)
        return index is not None and not (index < len(row.cells) and row.cells[index])

    def _cells(self, row: Row) -> dict[str, Any]:
        """The values of a row by column; blanks are left out, faults noted."""
        got: dict[str, Any] = {}
        for text, reader in zip(row.cells, self.readers, strict=False):
            if text and reader:
                try:
                    got[reader[0]] = reader[1](text)
                except BadCell as bad:
                    self._fault(row, reader[0], str(got.get("id") or got.get("name") or ""), bad)
        for index, text in enumerate(row.cells[len(self.readers) :], len(self.readers)):
            if text:
                said = {
                    "wrong": "stands beyond the last column",
                    "read": repr(text),
                    "instead": BEYOND,
                }
                self.faults.append(self.sheet.fault(row, index, path=f"column {index + 1}", **said))
        return got

    def _fault(self, row: Row, key: str, who: str, bad: BadCell) -> None:
        index = self.index.get(key, 0)
        read = row.cells[index] if index < len(row.cells) else ""
        self.faults.append(
            self.sheet.fault(
                row,
                index,
                path=f"{who}: {key}" if who else key,
                wrong=bad.wrong,
                read=repr(read) if read else "nothing",
                instead=bad.instead,
            )
        )


BEYOND: Final = "name the column in the first line, or put a text with separators in quotes"


def reader_of(head: Head, decimal: Decimal | None) -> Read:
    """The function that reads the cells of one column."""
    column = head.column
    simple = {"text": str, "id": read_id, "yes": cells.yes_no, "date": cells.date}
    if column.kind in simple:
        return simple[column.kind]
    if column.kind in ("choice", "words"):
        return (cells.choice if column.kind == "choice" else cells.words)(column.known)
    if column.kind == "basis":
        return basis_reader(decimal)
    if column.kind == "score":
        return score_reader(decimal)
    return quantity_reader(head, decimal)


def read_id(text: str) -> str:
    """An id: small letters, digits and single hyphens."""
    if not _ID.fullmatch(text):
        raise BadCell("is no id", "write small letters, digits and single hyphens, as trail-mix-2")
    return text


def quantity_reader(head: Head, decimal: Decimal | None) -> Read:
    """A reader of numbers in the column's or the header's unit."""
    units = _UNITS.get(head.column.kind, {})
    own = units[head.unit] if head.unit else units["kj"] if head.column.name == "kj" else 1.0

    def read(text: str) -> float:
        plain = number(text, decimal)
        return plain * own if plain is not None else cells.quantity(text, decimal, units)

    return read


def score_reader(decimal: Decimal | None) -> Read:
    """A reader of 1 to 5."""

    def read(text: str) -> float:
        value = cells.quantity(text, decimal, {})
        if not 1.0 <= value <= 5.0:
            raise BadCell("is out of range", "write 1 (no) to 5 (love it), or leave it blank")
        return value

    return read


def basis_reader(decimal: Decimal | None) -> Read:
    """A reader of what nutrients stand for: 100 g, serving or pack as words, another mass in g."""

    def read(text: str) -> str | float:
        bare = text.lower().replace(" ", "").removeprefix("per")
        if bare in _BASES:
            return _BASES[bare]
        try:
            grams = cells.quantity(text, decimal, cells.MASS)
        except BadCell:
            grams = 0.0
        if grams == 0.0:
            raise BadCell("is no basis", "write 100 g, serving, pack, or a mass such as 30 g")
        return grams

    return read
