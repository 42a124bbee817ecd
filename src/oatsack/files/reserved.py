"""The file beside the stock that says what packed plans take from home: trip, plan, food, packs.

Stock is reserved only when the walker says that it is packed (C17), and released as simply: the
rows of the trip go. The file is a plain table, so that its owner can read and mend it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from oatsack.errors import Fault, LarderError
from oatsack.files.sheet import NotATable, read_sheet, write_sheet

RESERVED_COLUMNS: Final = ("trip", "plan", "food", "packs")


@dataclass(frozen=True, slots=True, kw_only=True)
class Reserved:
    """So many packs of a food that the plan of a trip takes from home."""

    trip: str
    """The trip's file, as seen from the folder of the stock."""
    plan: str
    """The plan's version."""
    food: str
    packs: float


def read_reserved(data: bytes, name: str) -> tuple[Reserved, ...]:
    """The rows of the file. Raises LarderError with all its faults."""
    try:
        sheet = read_sheet(data, name)
    except NotATable as bad:
        raise LarderError([_fault(name, bad.line, str(bad))]) from bad
    if tuple(sheet.header.cells) != RESERVED_COLUMNS:
        raise LarderError([_fault(name, 1, "other columns than ours")])
    rows, faults = [], []
    for row in sheet.rows:
        made = _row(tuple(row.cells))
        if made is None:
            faults.append(_fault(name, row.line, "not a trip, a plan, a food and a number"))
        else:
            rows.append(made)
    if faults:
        raise LarderError(faults)
    return tuple(rows)


def write_reserved(rows: Iterable[Reserved]) -> bytes:
    """The file of these rows."""
    cells = [[one.trip, one.plan, one.food, f"{one.packs:.6g}"] for one in rows]
    return write_sheet(RESERVED_COLUMNS, cells, ".")


def _row(cells: tuple[str, ...]) -> Reserved | None:
    if len(cells) != len(RESERVED_COLUMNS) or not all(cells):
        return None
    trip, plan, food, packs = cells
    try:
        count = float(packs.replace(",", "."))
    except ValueError:
        return None
    fits = 0.0 <= count < 1e6
    return Reserved(trip=trip, plan=plan, food=food, packs=count) if fits else None


def _fault(name: str, line: int, wrong: str) -> Fault:
    return Fault(
        file=name, line=line, column=1 if line else 0, path="reserved", wrong=wrong,
        read="this line" if line > 1 else "this file",
        instead=f"the columns are: {', '.join(RESERVED_COLUMNS)}; `oatsack packed` writes them",
    )  # fmt: skip
