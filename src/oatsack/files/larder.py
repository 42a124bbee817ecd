"""Larder files: a table that people keep in a sheet program <-> foods.

`read_larder` reads all of it or raises LarderError with every fault at its line and column;
`bundled` is the larder that comes with Oatsack; `write_larder` writes a table back. What the
columns mean stands in larder_columns.py, how sheet programs write a table in sheet.py. Whether a
label is plausible is not asked here: see oatsack.larder.plausible.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Final

from oatsack.errors import Fault, LarderError
from oatsack.files.cells import nearest
from oatsack.files.larder_columns import BY_NAME, COLUMNS, is_per
from oatsack.files.larder_headers import Head, normal, understand
from oatsack.files.larder_rows import FoodRows
from oatsack.files.sheet import (
    Decimal,
    Dialect,
    NotATable,
    Sheet,
    decimal_of,
    read_sheet,
    write_sheet,
)
from oatsack.values.food import ALLERGENS, Food
from oatsack.values.frozen import dataclass

BUNDLED: Final = Path(__file__).resolve().parents[1] / "data" / "larder.csv"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """The foods of a file, and how it turned out to be written."""

    foods: tuple[Food, ...]
    dialect: Dialect
    sheet: Sheet
    columns: Mapping[str, int]
    """Name of a column -> its number in the sheet, from 0."""

    def fault(self, line: int, columns: Iterable[str], **said: str) -> Fault:
        """A fault at the first of these columns that the file has, in the row of a line."""
        row = next(row for row in self.sheet.rows if row.line == line)
        index = next((self.columns[one] for one in columns if one in self.columns), 0)
        return self.sheet.fault(row, index, **said)


def read_larder(data: bytes, name: str) -> tuple[Food, ...]:
    """The foods of a larder file in its order. Raises LarderError with all faults of the file."""
    return read_with_dialect(data, name).foods


@cache
def bundled() -> tuple[Food, ...]:
    """The larder that comes with Oatsack; packs, prices and allergens in it are invented."""
    return read_larder(BUNDLED.read_bytes(), BUNDLED.name)


def read_with_dialect(data: bytes, name: str) -> Reading:
    """As `read_larder`, and how the file is written."""
    sheet = _sheet(data, name)
    heads, faults = _heads(sheet)
    numeric = [i for i, head in enumerate(heads) if head and head.column.kind not in _WORDY]
    decimal = _decimal(sheet, numeric)
    rows = FoodRows(sheet, heads, decimal)
    foods = rows.read()
    if faults or rows.faults:
        found = sorted((*faults, *rows.faults), key=lambda f: (f.line, f.column))
        raise LarderError(found, foods, None if rows.nameless else frozenset(rows.at_fault))
    dialect = Dialect(encoding=sheet.encoding, delimiter=sheet.delimiter, decimal=decimal)
    return Reading(foods=foods, dialect=dialect, sheet=sheet, columns=rows.index)


_WORDY: Final = frozenset({"text", "id", "choice", "words", "yes", "date", "basis"})


def _sheet(data: bytes, name: str) -> Sheet:
    try:
        sheet = read_sheet(data, name)
    except NotATable as fault:
        raise LarderError([_whole(name, str(fault), line=fault.line)]) from fault
    if not sheet.header.cells:
        raise LarderError([_whole(name, "the file is empty")])
    return sheet


def _whole(name: str, wrong: str, *, line: int = 0, read: str = "this file") -> Fault:
    return Fault(
        file=name,
        line=line,
        column=1 if line else 0,
        path="larder",
        wrong=wrong,
        read=read,
        instead="save it as CSV, with the columns of the larder page in its first line",
    )


def _heads(sheet: Sheet) -> tuple[tuple[Head | None, ...], list[Fault]]:
    """What each header cell means, with a fault for each that means nothing or comes twice."""
    heads: list[Head | None] = []
    faults: list[Fault] = []
    seen: dict[str, int] = {}
    for index, text in enumerate(sheet.header.cells):
        head = understand(text) if text else None
        wrong, instead = _header_fault(text, head, seen)
        if wrong:
            said = {"wrong": wrong, "read": repr(text), "instead": instead}
            faults.append(sheet.fault(sheet.header, index, path=f"column {index + 1}", **said))
        if head and not wrong:
            seen[head.key] = index
        heads.append(None if wrong else head)
    faults += [] if any(faults) and not seen else _missing(sheet, heads)
    return tuple(heads), faults


def _header_fault(text: str, head: Head | None, seen: dict[str, int]) -> tuple[str, str]:
    if not text:
        return "", ""
    if head is None:
        return "no column is called so", suggest(text)
    if head.key in seen:
        return (
            f"the column {head.key} comes twice",
            f"leave out this one or column {seen[head.key] + 1}",
        )
    return "", ""


def _missing(sheet: Sheet, heads: Sequence[Head | None]) -> list[Fault]:
    """Faults of the header as a whole: columns that every larder must have."""
    names = {head.column.name for head in heads if head}
    lacking = [column.name for column in COLUMNS if column.required and column.name not in names]
    if not names & {"kcal", "kj"}:
        lacking.append("kcal")
    if "per" not in names and any(h and is_per(h.column) and not h.basis for h in heads):
        lacking.append("per")
    return [
        sheet.fault(
            sheet.header,
            0,
            path=name,
            wrong="this column is missing",
            read=f"{len(names)} known columns",
            instead=f"add a column {name}: {BY_NAME[name].about}",
        )
        for name in lacking
    ]


def suggest(text: str) -> str:
    """What to write instead of an unknown column name."""
    name = normal(text).partition("_per_")[0]
    if name in ("carbohydrate", "carbohydrates", "carbs", "carb", "carbohydrate_g", "carbs_g"):
        return "write carb_g where fibre is in it (American labels), else carb_available_g"
    if name in ALLERGENS:
        return f"write {name} into a cell of the column contains, may_contain or free_of"
    near = nearest(name, tuple(BY_NAME))
    return f"did you mean {near!r}?" if near else "leave it out, or see the larder page"


def _decimal(sheet: Sheet, numeric: Sequence[int]) -> Decimal | None:
    cells = [row.cells[i] for row in sheet.rows for i in numeric if i < len(row.cells)]
    if sheet.delimiter == "," and not any("," in cell for cell in cells):
        return "."
    return decimal_of((cell for cell in cells if "," in cell or "." in cell), sheet.delimiter)


def write_larder(foods: Iterable[Food], *, decimal: Decimal = ".") -> bytes:
    """A larder file of these foods, per 100 g; semicolons where the decimal mark is a comma."""
    foods = tuple(foods)
    walkers = sorted({walker for food in foods for walker in food.liking_by})
    shown = [column for column in COLUMNS if column.show]
    header = [column.name for column in shown] + [f"liking_{walker}" for walker in walkers]
    rows = (
        [_text(column.show(food), decimal) for column in shown if column.show]
        + [_text(food.liking_by.get(walker), decimal) for walker in walkers]
        for food in foods
    )
    return write_sheet(header, rows, decimal)


def _text(value: object, decimal: Decimal) -> str:
    if value is None or value is False:
        return ""
    if value is True:
        return "yes"
    if isinstance(value, int | float):
        return plain(float(value)).replace(".", decimal)
    if isinstance(value, list | tuple):
        return " ".join(value)
    return value.isoformat() if isinstance(value, dt.date) else str(value)


def plain(value: float) -> str:
    """A number without exponent that reads back as the same float."""
    text = repr(value)
    if "e" in text:
        from decimal import Decimal as Exact  # seldom needed, and slow to import

        text = format(Exact(text), "f")
    return text.removesuffix(".0")
