"""Lines that are no TOML: which one is at fault, what to write instead, and how to read on.

A broken line is reported and blanked, with those that only carry it on; a broken heading is mended,
so that the keys below it stay in their table.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from tree_sitter import Node

from oatsack.files.trip.document import Document, Path, Place, path_text, resolved

_HEADER = re.compile(r"\s*(\[\[?)\s*([\w-]+(?:\s*\.\s*[\w-]+)*)")
_KEY = re.compile(r"\s*([\w-]+(?:\s*\.\s*[\w-]+)*)\s*=", re.ASCII)
_STARTS = re.compile(rf"\s*(?:$|#|[\"'].*=)|{_HEADER.pattern}|{_KEY.pattern}", re.ASCII)
_PURE_HEADER = re.compile(r"\s*\[\[?\s*[A-Za-z_][\w.-]*\s*\]\]?\s*(?:#.*)?")
_QUOTED = re.compile(r""""(?:\\.|[^"\\])*"|'[^']*'|#.*""")
_NEW_START = re.compile(r"\s*(?:#|$|\[|[\w.\"'-]+(?:\s*\.\s*[\w-]+)*\s*=)")


def errors(node: Node) -> Iterator[Node]:
    """Every node that is no TOML, in the order of the text."""
    if node.type == "ERROR" or node.is_missing:
        yield node
        return
    if node.has_error:
        for child in node.children:
            yield from errors(child)


def never_closed(rows: list[str], last: int) -> int | None:
    """The row of a list or table into which a new key or heading falls, up to some row."""
    depth, opened = 0, 0
    for number, row in enumerate(rows[: last + 1]):
        if depth and (_KEY.match(row) or _PURE_HEADER.fullmatch(row)):
            return opened
        bare = _QUOTED.sub("", row)
        if not depth:
            bare, opened = bare.partition("=")[2], number
        depth = max(0, depth + sum(bare.count(s) for s in "[{") - sum(bare.count(s) for s in "]}"))
    return opened if depth else None


def plain_words(rows: list[str]) -> list[int]:
    """Rows that are neither blank, note, key nor heading, nor part of a list or a long text."""
    found: list[int] = []
    depth, long_text = 0, ""
    for number, row in enumerate(rows):
        ends = [mark for mark in ('"""', "'''") if row.count(mark) % 2]
        if long_text:
            long_text = "" if long_text in ends else long_text
            continue
        if not depth and not _STARTS.match(row):
            found.append(number)
            continue
        long_text = ends[0] if ends else ""
        depth = max(0, depth + _depth(row)) if depth or _KEY.match(row) else 0
    return found


def _depth(row: str) -> int:
    """How many more brackets a row opens than it closes."""
    bare = _QUOTED.sub("", row)
    return sum(bare.count(sign) for sign in "[{") - sum(bare.count(sign) for sign in "]}")


def syntax(rows: list[str], at: int, *, inside: bool = False) -> tuple[int, str, str]:
    """Column, what is wrong and what to write for a row that is no TOML; `inside` a list or not."""
    row = rows[at]
    column = 1 + _blanks(row)
    if _HEADER.match(row):
        return column, "not a table's heading", 'write "[kit]", or "[[walkers]]" for one of several'
    found = _KEY.match(row)
    if found is None and inside:
        return column, *_bad_value(row.strip().rstrip(","))
    if found is None:
        return column, "neither a key nor a heading", 'write "key = value", one per line'
    return found.end() + _blanks(row[found.end() :]) + 1, *_bad_value(row[found.end() :].strip())


def _blanks(text: str) -> int:
    return len(text) - len(text.lstrip())


def _bad_value(value: str) -> tuple[str, str]:
    """Why what stands behind an equals sign is no value."""
    bare = value.split("#")[0].strip()
    if not bare:
        return "no value", 'write a value behind the "="'
    if bare[0] in "\"'":
        return "a text that is not closed", f"close it with {bare[0]} on the same line"
    if bare[0] in "[{":
        return "a list or table that cannot be read", "check its commas, quotes and brackets"
    if bare.casefold() in ("yes", "no", "true", "false", "on", "off"):
        return "neither true nor false", "write true or false"
    return "a text without quotes", f'write "{bare}", in quotes'


def report(document: Document, rows: list[str], row: int, *, inside: bool = True) -> None:
    """Reports a row that is no TOML and takes it out; `inside`: it may be part of a list."""
    opener = never_closed(rows, row - 1) if row and inside else None
    why = syntax(rows, row, inside=opener is not None)
    take_out(document, rows, row, why=why, opener=opener)


def take_out(
    document: Document, rows: list[str], row: int, *, why: tuple[int, str, str],
    opener: int | None = None,
) -> None:  # fmt: skip
    """Says why a row is broken, and blanks it with the rows that only carry it on.

    `opener` is the row of the list in which it stands.
    """
    column, wrong, instead = why
    found = _KEY.match(rows[row if opener is None else opener])
    place = Place(row + 1, column, "")
    path = (*_path_above(rows, row), *_steps(found[1])) if found else ()
    document.broken |= {path} if path else set()
    heading = _HEADER.match(rows[row])
    read = _short(document.line(row + 1).strip())
    said = path_text(path) or (heading[2] if heading else "this line")
    document.faults.append(document.fault(said, place, wrong, read=read, instead=instead))
    mended = f"{heading[1]}{heading[2]}{heading[1].replace('[', ']')}" if heading else ""
    opens = not heading and _opens(rows[row])
    rows[row] = mended if mended != rows[row].strip() else ""
    while opens and row + 1 < len(rows) and not _NEW_START.match(rows[row + 1]):
        row += 1
        rows[row] = ""


def _opens(row: str) -> bool:
    """Whether a row opens a list, a table or a long text that it does not close."""
    return _depth(row) > 0 or row.count('"""') % 2 == 1 or row.count("'''") % 2 == 1


def _steps(dotted: str) -> Path:
    return tuple(step.strip() for step in dotted.split("."))


def _path_above(rows: list[str], row: int) -> Path:
    """The path of the table in which a row stands."""
    counts: dict[Path, int] = {}
    path: Path = ()
    for text in rows[:row]:
        if heading := _HEADER.match(text):
            names = _steps(heading[2])
            path = resolved(names[:-1], counts)
            path = (*path, names[-1])
            if heading[1] == "[[":
                counts[path] = counts.get(path, -1) + 1
                path = (*path, counts[path])
    return path


def take_out_refused(document: Document, rows: list[str], root: Node, error: ValueError) -> None:
    """Reports what is grammatical and yet refused: a key given twice, a 30th of February."""
    found = re.search(r"(.*) \(at line (\d+), column (\d+)\)", str(error))
    row = int(found[2]) - 1 if found else _longest(rows)
    holder = _holder(root, row)
    row = holder.start_point.row if holder else row
    message = found[1] if found else str(error)
    key = _KEY.match(rows[row])
    twice = "overwrite" in message or "twice" in message or "mutate" in message
    column = 1 + _blanks(rows[row]) if twice or not key else key.end() + 2
    wrong = "given twice" if twice else "a value that cannot be read"
    instead = "keep one of them" if twice else message[:1].lower() + message[1:]
    take_out(document, rows, row, why=(column, wrong, instead))
    last = holder.end_point.row if holder else row
    if holder and holder.end_point.column == 0:
        last -= 1
    for gone in range(row, min(last + 1, len(rows))):
        rows[gone] = ""


def _longest(rows: list[str]) -> int:
    """The longest row: where a refusal without a place comes from (a number of 5,000 digits)."""
    return max(range(len(rows)), key=lambda number: len(rows[number]))


def _holder(root: Node, row: int) -> Node | None:
    """The pair around a row, or the table whose heading stands on it."""
    found: Node | None = None
    for node in root.children:
        if node.start_point.row <= row <= node.end_point.row:
            found = node
    while found is not None and found.type.startswith("table") and found.start_point.row != row:
        inner = [c for c in found.children if c.start_point.row <= row <= c.end_point.row]
        if not inner or inner[-1].type != "pair":
            return None
        found = inner[-1]
    return found


def _short(text: str, most: int = 60) -> str:
    return text if len(text) <= most else text[: most - 1] + "…"
