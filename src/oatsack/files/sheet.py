"""A table as sheet programs write it: bytes -> header, rows, and the place of every cell.

It finds out the encoding (UTF-8 with or without mark, UTF-16, Windows 1252), the separator (comma,
semicolon, tab) and whether numbers have a decimal point or comma, and says what it found. Cells are
read with the standard csv module; the place of a cell (line and column, both from 1) is worked out
only when a fault asks for it. It knows nothing of what the columns mean.

On the way out a text that a sheet program would run as a formula gets an apostrophe in front, which
is taken off again on the way in.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections.abc import Iterable, Sequence
from typing import Literal

from oatsack.errors import Fault
from oatsack.values.frozen import dataclass

Decimal = Literal[".", ","]
DELIMITERS = ",;\t"
RISKY = "=+-@\t\r'"
"""First characters that start a formula in some sheet program, and the guard itself."""

_PLAIN = re.compile(r"[0-9]+(?:\.[0-9]+)?|\.[0-9]+")
_WITH_POINT = re.compile(r"[+-]?[0-9]*\.[0-9]+")
_WITH_COMMA = re.compile(r"[+-]?[0-9]*,[0-9]+")
_GROUP = re.compile(r"[+-]?[1-9][0-9]{0,2}[.,][0-9]{3}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Dialect:
    """How a file was written, as found out. `decimal` is None when no cell tells."""

    encoding: str = "utf-8"
    delimiter: str = ","
    decimal: Decimal | None = "."


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One record: the line it starts on and its cells, stripped and unguarded."""

    line: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A whole file: header and rows, and the raw lines that places are found in."""

    name: str
    encoding: str
    delimiter: str
    header: Row
    rows: tuple[Row, ...]
    lines: tuple[str, ...]

    def place(self, row: Row, index: int) -> tuple[int, int]:
        """Line and column (from 1) of the first character of a cell of a row."""
        return _place(self.lines, row.line, self.delimiter, index)

    def fault(self, row: Row, index: int, **said: str) -> Fault:
        """A Fault at a cell; `said` holds path, wrong, read and instead."""
        line, column = self.place(row, index)
        text = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Fault(file=self.name, line=line, column=column, text=text, **said)


class NotATable(ValueError):
    """The bytes are no table; `line` is where that shows, 0 for all of it."""

    def __init__(self, why: str, line: int = 0) -> None:
        self.line = line
        super().__init__(why)


def decode(data: bytes) -> tuple[str, str]:
    """Text and the name of its encoding. Raises NotATable."""
    if data.startswith(codecs.BOM_UTF8):
        return _strictly(data[3:], "utf-8", "utf-8 with mark")
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return _strictly(data, "utf-16", "utf-16")
    if b"\0" in data[:200]:
        little = data[1:2] == b"\0"
        return _strictly(data, "utf-16-le" if little else "utf-16-be", "utf-16")
    try:
        return data.decode("utf-8"), "utf-8"
    except UnicodeDecodeError:
        return _strictly(data, "cp1252", "windows-1252")


def _strictly(data: bytes, codec: str, name: str) -> tuple[str, str]:
    try:
        return data.decode(codec), name
    except UnicodeDecodeError as fault:
        raise NotATable(f"byte {fault.start + 1} is no {name} text") from fault


def read_sheet(data: bytes, name: str) -> Sheet:
    """A table from the bytes of a file. Raises NotATable; an empty file has an empty header."""
    text, encoding = decode(data)
    lines = tuple(re.split(r"\r\n|\n|\r", text))
    delimiter, skip = _delimiter(lines)
    rows = [row for row in _rows(text, delimiter)[skip:] if any(row.cells)]
    header = rows[0] if rows else Row(line=1, cells=())
    return Sheet(
        name=name,
        encoding=encoding,
        delimiter=delimiter,
        header=header,
        rows=tuple(rows[1:]),
        lines=lines,
    )


def _rows(text: str, delimiter: str) -> list[Row]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    clean = _clean if "'" in text else str.strip
    out: list[Row] = []
    line = 1
    try:
        for cells in reader:
            out.append(Row(line=line, cells=tuple([clean(cell) for cell in cells])))
            line = reader.line_num + 1
    except csv.Error as fault:
        why = 'a quotation mark is not closed, or text follows one (inside, write it twice: "")'
        raise NotATable(why, line) from fault
    return out


def _delimiter(lines: Sequence[str]) -> tuple[str, int]:
    """The separator and how many leading records only tell it (``sep=;`` as some sheets write)."""
    first = next((line for line in lines if line.strip()), "")
    if re.fullmatch(r"sep=.", first.strip(" ")):
        return first.strip(" ")[4], 1
    bare = re.sub(r'"[^"]*"', "", first)
    return max(DELIMITERS, key=lambda mark: (bare.count(mark), -DELIMITERS.index(mark))), 0


def _place(lines: Sequence[str], first: int, delimiter: str, index: int) -> tuple[int, int]:
    """Walks over a record from its first line to the start of a cell."""
    line, column, quoted, cell, fresh = first, 1, False, 0, True
    while cell < index and line <= len(lines):
        text = lines[line - 1]
        if column > len(text):
            if not quoted:
                break
            line, column = line + 1, 1
            continue
        mark = text[column - 1]
        if quoted and text[column - 1 : column + 1] == '""':
            column += 2
            continue
        if mark == '"' and (quoted or fresh):
            quoted = not quoted
        fresh = mark == delimiter and not quoted
        cell += fresh
        column += 1
    return line, column


def decimal_of(cells: Iterable[str], delimiter: str) -> Decimal | None:
    """Which decimal mark the numbers of a file have, from all its cells that hold numbers.

    A cell with three digits behind its mark could be thousands and says nothing, unless no other
    cell speaks and the comma separates the cells. None: the cells do not tell, or contradict.
    """
    points = commas = groups = 0
    for cell in cells:
        if _GROUP.fullmatch(cell):
            groups += 1
        elif _WITH_POINT.fullmatch(cell):
            points += 1
        elif _WITH_COMMA.fullmatch(cell):
            commas += 1
    if points or commas:
        return "." if points >= commas else ","
    return None if groups and delimiter != "," else "."


def number(text: str, decimal: Decimal | None) -> float | None:
    """A plain number without sign, or None if the text is none in a file of this decimal mark.

    ``1.234,5`` and ``1,234.5`` are read where the marks leave one reading only.
    """
    if decimal != "," and _PLAIN.fullmatch(text):
        return float(text) if decimal == "." or "." not in text else None
    if "," in text or "." in text:
        return _marked(text, decimal)
    return float(text) if text.isascii() and text.isdigit() else None


def _marked(text: str, decimal: Decimal | None) -> float | None:
    if decimal is None:
        return None
    other = "," if decimal == "." else "."
    if re.fullmatch(rf"[1-9][0-9]{{0,2}}(?:\{other}[0-9]{{3}})+\{decimal}[0-9]+", text):
        return float(text.replace(other, "").replace(decimal, "."))
    if re.fullmatch(rf"[0-9]*\{decimal}[0-9]+", text):
        return float(text.replace(decimal, "."))
    return None


def _clean(cell: str) -> str:
    return unguarded(cell.strip())


def guarded(text: str) -> str:
    """A text that no sheet program takes for a formula."""
    return "'" + text if text and text[0] in RISKY else text


def unguarded(text: str) -> str:
    """The text as it was before `guarded`."""
    return text[1:] if len(text) > 1 and text[0] == "'" and text[1] in RISKY else text


def write_sheet(header: Sequence[str], rows: Iterable[Sequence[str]], decimal: Decimal) -> bytes:
    """Bytes of a table: commas with a decimal point, semicolons with a decimal comma."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter="," if decimal == "." else ";", lineterminator="\n")
    writer.writerow(header)
    writer.writerows([[guarded(cell) for cell in row] for row in rows])
    return out.getvalue().encode("utf-8")
