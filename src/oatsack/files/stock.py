"""A stock file: what is at home, one line per lot (food, packs, best before) -> lots.

It stands beside a larder when one food has several lots with different dates; a single lot can
stand in the larder's own columns home_packs and best_before. Reads like a larder file: any
separator, decimal mark and encoding, and all faults at once.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection
from typing import Final

from oatsack.errors import Fault, LarderError
from oatsack.files import cells
from oatsack.files.cells import BadCell, nearest
from oatsack.files.larder_headers import normal
from oatsack.files.sheet import (
    Decimal,
    NotATable,
    Row,
    Sheet,
    decimal_of,
    read_sheet,
    write_sheet,
)  # fmt: skip
from oatsack.larder.stock import Lot

STOCK_COLUMNS: Final = {
    "food": "Id of the food in the larder.",
    "packs": "Packs at home; an opened one is a part of one.",
    "best_before": "Best before. Blank: not dated.",
}


def read_stock(data: bytes, name: str, known: Collection[str]) -> tuple[Lot, ...]:
    """The lots of a stock file. `known` are the food ids of the larders. Raises LarderError."""
    try:
        sheet = read_sheet(data, name)
    except NotATable as bad:
        raise LarderError([_fault(name, "stock", str(bad), line=bad.line)]) from bad
    columns: dict[str, int] = {}
    for i, text in enumerate(sheet.header.cells):
        if text:
            columns.setdefault(normal(text), i)
    faults = _header_faults(sheet, columns)
    if faults:
        raise LarderError(faults)
    place = columns["packs"]
    decimal = decimal_of(
        (row.cells[place] for row in sheet.rows if place < len(row.cells)), sheet.delimiter
    )
    lots = [_lot(sheet, row, columns, decimal, known, faults) for row in sheet.rows]
    if faults:
        raise LarderError(faults)
    return tuple(lot for lot in lots if lot)


def write_stock(lots: Collection[Lot], *, decimal: Decimal = ".") -> bytes:
    """A stock file of these lots."""
    rows = [
        [lot.food, f"{lot.packs:g}".replace(".", decimal), str(lot.best_before or "")]
        for lot in lots
    ]
    return write_sheet(tuple(STOCK_COLUMNS), rows, decimal)


def _header_faults(sheet: Sheet, columns: dict[str, int]) -> list[Fault]:
    faults = [
        sheet.fault(
            sheet.header,
            index,
            path=f"column {index + 1}",
            wrong="no column is called so",
            read=repr(sheet.header.cells[index]),
            instead=cells.one_of(text, tuple(STOCK_COLUMNS)),
        )
        for text, index in columns.items()
        if text not in STOCK_COLUMNS
    ]
    faults += [
        sheet.fault(
            sheet.header,
            index,
            path=f"column {index + 1}",
            wrong=f"the column {normal(text)} comes twice",
            read=repr(text),
            instead=f"leave out this one or column {columns[normal(text)] + 1}",
        )
        for index, text in enumerate(sheet.header.cells)
        if text and columns[normal(text)] != index
    ]
    for name in ("food", "packs"):
        if name not in columns:
            faults.append(_fault(sheet.name, name, "this column is missing", line=1))
    return faults


def _fault(name: str, path: str, wrong: str, *, line: int = 0) -> Fault:
    instead = f"the columns are: {', '.join(STOCK_COLUMNS)}"
    return Fault(
        file=name, line=line, column=1 if line else 0, path=path, wrong=wrong, read="this file",
        instead=instead,
    )  # fmt: skip


def _lot(
    sheet: Sheet, row: Row, columns: dict[str, int], decimal: Decimal | None,
    known: Collection[str], faults: list[Fault],
) -> Lot | None:  # fmt: skip
    got: dict[str, object] = {}
    for key, index in columns.items():
        text = row.cells[index] if index < len(row.cells) else ""
        try:
            got[key] = _value(key, text, decimal, known)
        except BadCell as bad:
            faults.append(
                sheet.fault(
                    row, index, path=key, wrong=bad.wrong, read=repr(text) if text else "nothing",
                    instead=bad.instead,
                )
            )  # fmt: skip
    if len(got) < len(columns):
        return None
    date = got.get("best_before")
    assert date is None or isinstance(date, dt.date)
    return Lot(food=str(got["food"]), packs=float(str(got["packs"])), best_before=date)


def _value(key: str, text: str, decimal: Decimal | None, known: Collection[str]) -> object:
    if key == "best_before":
        return cells.date(text) if text else None
    if not text:
        raise BadCell("is blank", STOCK_COLUMNS[key])
    if key == "packs":
        return cells.quantity(text, decimal, "number")
    if text not in known:
        near = nearest(text, tuple(known))
        raise BadCell(
            "is no food of the larder", f"did you mean {near!r}?" if near else "see the ids"
        )
    return text
