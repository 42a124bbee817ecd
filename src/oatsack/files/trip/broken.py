"""Lines that are no TOML: which one is at fault, what to write instead, and how to read on.

A broken line is reported and blanked, with those that only carry it on; a broken heading is mended,
so that the keys below it stay in their table.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator

from tree_sitter import Node

from oatsack.files.trip.document import Document, Path, Place, path_text, resolved

_HEADER = re.compile(r"\s*(\[\[?)\s*([\w-]+(?:\s*\.\s*[\w-]+)*)")
_KEY = re.compile(r"\s*([\w-]+(?:\s*\.\s*[\w-]+)*)\s*=")
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


def syntax(rows: list[str], at: int) -> tuple[int, str, str]:
    """Column, what is wrong and what to write for a row that is no TOML."""
    row = rows[at]
    column = 1 + _blanks(row)
    if _HEADER.match(row):
        return column, "not a table's heading", 'write "[kit]", or "[[walkers]]" for one of several'
    found = _KEY.match(row)
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


def take_out(document: Document, rows: list[str], row: int, why: tuple[int, str, str]) -> None:
    """Reports a broken line, and blanks it with the lines that only carry it on."""
    column, wrong, instead = why
    found = _KEY.match(rows[row])
    place = Place(row + 1, column, "")
    path = (*_path_above(rows, row), *_steps(found[1])) if found else ()
    document.broken |= {path} if path else set()
    heading = _HEADER.match(rows[row])
    read = _short(document.line(row + 1).strip())
    said = path_text(path) or (heading[2] if heading else "this line")
    document.faults.append(document.fault(said, place, wrong, read=read, instead=instead))
    mended = f"{heading[1]}{heading[2]}{heading[1].replace('[', ']')}" if heading else ""
    rows[row] = mended if mended != rows[row].strip() else ""
    while row + 1 < len(rows) and not _NEW_START.match(rows[row + 1]):
        row += 1
        rows[row] = ""


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


def take_out_refused(
    document: Document, rows: list[str], root: Node, error: tomllib.TOMLDecodeError
) -> None:
    """Reports what is grammatical and yet refused: a key given twice, a 30th of February."""
    found = re.search(r"(.*) \(at line (\d+), column (\d+)\)", str(error))
    row = int(found[2]) - 1 if found else len(rows) - 1
    holder = _holder(root, row)
    row = holder.start_point.row if holder else row
    message = found[1] if found else str(error)
    key = _KEY.match(rows[row])
    twice = "overwrite" in message or "twice" in message or "mutate" in message
    column = 1 + _blanks(rows[row]) if twice or not key else key.end() + 2
    wrong = "given twice" if twice else "a value that cannot be read"
    instead = "keep one of them" if twice else message[:1].lower() + message[1:]
    take_out(document, rows, row, (column, wrong, instead))
    last = holder.end_point.row if holder else row
    if holder and holder.end_point.column == 0:
        last -= 1
    for gone in range(row, min(last + 1, len(rows))):
        rows[gone] = ""


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
