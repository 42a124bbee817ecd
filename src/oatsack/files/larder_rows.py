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
from oatsack.files.cells import BadCell, Measure
from oatsack.files.larder_build import Clashes, build, slug
from oatsack.files.larder_columns import COLUMNS, PER_100G, PER_PACK, PER_SERVING
from oatsack.files.larder_headers import Head
from oatsack.files.sheet import Decimal, Row, Sheet
from oatsack.values.food import Food

Read = Callable[[str], Any]
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_BASES: Final = {
    "100g": PER_100G, "100": PER_100G, "serving": PER_SERVING, "dose": PER_SERVING,
    "portion": PER_SERVING, "pack": PER_PACK,
}  # fmt: skip
_MEASURES: Final[Mapping[str, Measure]] = {
    "mass": "mass_g",
    "nutrient": "mass_g",
    "milli": "mass_mg",
    "energy": "energy_kcal",
    "volume": "volume_ml",
    "minutes": "minutes",
}


class FoodRows:
    """Reads the rows of one sheet; `faults` fills while reading."""

    def __init__(
        self, sheet: Sheet, heads: tuple[Head | None, ...], decimal: Decimal | None
    ) -> None:
        self.sheet = sheet
        self.readers = [(head.key, reader_of(head, decimal)) if head else None for head in heads]
        self.index = {head.key: i for i, head in enumerate(heads) if head}
        self.bases = {head.key: head.basis for head in heads if head and head.basis}
        self.faults: list[Fault] = []
        self.at_fault: set[str] = set()
        """Ids of rows that made no food."""
        self.nameless = False
        """Whether some row that made no food could not be told by a name."""

    def read(self) -> tuple[Food, ...]:
        """All rows without a fault, as foods."""
        lines: dict[str, int] = {}
        foods = [self._food(row, lines) for row in self.sheet.rows]
        return tuple(food for food in foods if food)

    def _food(self, row: Row, lines: dict[str, int]) -> Food | None:
        """One food, or None where its row has a fault; `lines` holds the line of each id so far."""
        before = len(self.faults)
        got = self._cells(row)
        who = str(got.get("id") or got.get("name") or "")
        for column in COLUMNS:
            if column.required and column.name not in got and self._blank(row, column.name):
                about = f"fill it in: {column.about[:1].lower()}{column.about[1:]}"
                self._fault(row, column.name, who, BadCell("is blank", about))
        wrong = {fault.column for fault in self.faults[before:] if fault.line == row.line}
        food, clashes = build(_UNREAD | got, self.bases, (self.sheet.name, row.line))
        told: set[tuple[str, str]] = set()
        for key, bad in [*clashes, *self._twice(row, got, lines)]:
            lacking = key == "per" and key not in self.index
            known = lacking or (key, bad.wrong) in told  # the header says it, or the row did
            if not known and self.sheet.place(row, self.index.get(key, 0))[1] not in wrong:
                self._fault(row, key, who, bad)
                told.add((key, bad.wrong))
        if len(self.faults) == before and "pack_g" in got:
            return food
        identity = str(got.get("id") or slug(got.get("name", "")))
        self.at_fault |= {identity} if identity else set()
        self.nameless |= not identity
        return None

    def _twice(self, row: Row, got: dict[str, Any], lines: dict[str, int]) -> Clashes:
        """A clash if an earlier row has the id of this one."""
        identity = got.get("id") or slug(got.get("name", ""))
        line = lines.setdefault(identity, row.line) if identity else row.line
        if line == row.line:
            return []
        bad = BadCell(f"stands in line {line} already", "give each food an id of its own")
        return [("id" if "id" in got else "name", bad)]

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


_UNREAD: Final[dict[str, Any]] = {"name": "unread", "pack_g": 1e9}
"""Stand in for what could not be read, so that the rest of a faulty row is looked at too."""
BEYOND: Final = "name the column in the first line, or put a text with separators in quotes"


class _Memory(dict[str, Any]):
    """Values by text: a text that stands in many cells of a column is read once."""

    def __init__(self, read: Read) -> None:
        super().__init__()
        self.read = read

    def __missing__(self, text: str) -> Any:
        value = self[text] = self.read(text)
        return value


def reader_of(head: Head, decimal: Decimal | None) -> Read:
    """The function that reads the cells of one column."""
    return _Memory(_reader_of(head, decimal)).__getitem__


def _reader_of(head: Head, decimal: Decimal | None) -> Read:
    column = head.column
    simple: dict[str, Read] = {
        "text": str,
        "id": read_id,
        "yes": cells.yes_no,
        "date": cells.date,
    }
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
    measure = _MEASURES.get(head.column.kind, "number")
    unit = "kJ" if head.column.name == "kj" else head.unit
    own = cells.measured(f"1 {unit}", ".", measure) if unit else 1.0

    return lambda text: cells.quantity(text, decimal, measure, own=own)


def score_reader(decimal: Decimal | None) -> Read:
    """A reader of 1 to 5."""

    def read(text: str) -> float:
        value = cells.quantity(text, decimal, "number")
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
            grams = cells.quantity(text, decimal, "mass_g")
        except BadCell:
            grams = 0.0
        if grams == 0.0:
            raise BadCell("is no basis", "write 100 g, serving, pack, or a mass such as 30 g")
        return grams

    return read
