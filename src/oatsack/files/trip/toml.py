"""TOML text -> data, the place of every key and value, and every fault of its grammar.

The data come from the standard library, the places from tree-sitter, whose parser carries on after
an error: a broken line is reported, taken out, and the rest is read as if it had not been there, so
that one run finds all faults. Knows nothing of trips.

One kindness beyond TOML 1.0: ``2026-07-02 09:00`` and ``7:30`` may leave out their seconds.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

import tree_sitter_toml
from tree_sitter import Language, Node, Parser

from oatsack.errors import Fault

Path = tuple[str | int, ...]

PARSER = Parser(Language(tree_sitter_toml.language()))
MOST_ROUNDS = 400
"""A file with more broken lines than this is not a trip file."""

_NOT_A_CLOCK = (
    r'"""(?:\\.|[^\\])*?"""|' + r"'''.*?'''|" + r'"(?:\\.|[^"\\\n])*"|' + r"'[^'\n]*'|#[^\n]*"
)
_CLOCK = re.compile(
    rf"(?P<other>{_NOT_A_CLOCK})"
    r"|(?<![\w:.+-])(?P<clock>(?:\d{4}-\d\d-\d\d[T ])?\d\d:\d\d)(?![\w:.+])",
    re.DOTALL,
)
_HEADER = re.compile(r"\s*(\[\[?)\s*([\w-]+(?:\s*\.\s*[\w-]+)*)")
_KEY = re.compile(r"\s*([\w-]+(?:\s*\.\s*[\w-]+)*)\s*=")
_NEW_START = re.compile(r"\s*(?:#|$|\[|[\w.\"'-]+(?:\s*\.\s*[\w-]+)*\s*=)")


def path_text(path: Path) -> str:
    """``walkers[0].usual.breakfast[1]``."""
    out = ""
    for part in path:
        out += f"[{part}]" if isinstance(part, int) else f".{part}" if out else part
    return out


@dataclass(frozen=True, slots=True)
class Place:
    """Where something stands, both from 1, its source text, and where it ends (line, column)."""

    line: int
    column: int
    source: str
    end: tuple[int, int] = (0, 0)


@dataclass(slots=True)
class Document:
    """One file as read: data, places, lines, faults; and what was unreadable."""

    name: str
    lines: tuple[str, ...]
    data: dict[str, Any] = field(default_factory=dict)
    keys: dict[Path, Place] = field(default_factory=dict)
    values: dict[Path, Place] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    broken: set[Path] = field(default_factory=set)
    """Paths whose lines could not be read."""
    bodies: dict[Path, int] = field(default_factory=dict)
    """Table with a heading -> the last line of its own keys, or of the heading."""

    def place(self, path: Path, *, of_key: bool = False) -> Place:
        """The place of a value (or of its key); of the nearest table around it if it has none."""
        for end in range(len(path), 0, -1):
            here = path[:end]
            found = self.keys.get(here) if of_key else self.values.get(here)
            if found := found or self.values.get(here) or self.keys.get(here):
                return found
        return Place(1, 1, "")

    def line(self, number: int) -> str:
        """The text of a line, as the user wrote it."""
        return self.lines[number - 1] if 0 < number <= len(self.lines) else ""

    def fault(self, path: str, place: Place, wrong: str, *, read: str, instead: str) -> Fault:
        """A fault at a place, with its line."""
        return Fault(
            file=self.name, path=path, wrong=wrong, read=read, instead=instead,
            line=place.line, column=place.column, text=self.line(place.line),
        )  # fmt: skip


def read_toml(text: str, name: str) -> Document:
    """Reads what can be read; everything that cannot stands in `faults`."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    document = Document(name=name, lines=tuple(text.split("\n")))
    inserted: dict[int, list[int]] = {}
    rows = with_seconds(text, inserted).split("\n")
    for _ in range(MOST_ROUNDS):
        source = "\n".join(rows)
        root = PARSER.parse(source.encode()).root_node
        bad = next(_errors(root), None)
        if bad is not None:
            _take_out(document, rows, bad.start_point.row, _syntax(bad, rows))
            continue
        try:
            document.data = tomllib.loads(source)
        except tomllib.TOMLDecodeError as error:
            _take_out_refused(document, rows, root, error)
            continue
        _Places(document, inserted, source.encode()).walk(root)
        break
    document.faults.sort(key=lambda fault: (fault.line, fault.column))
    return document


def with_seconds(text: str, inserted: dict[int, list[int]] | None = None) -> str:
    """The text with ``:00`` behind every time without seconds; notes row -> columns of those."""

    def add(found: re.Match[str]) -> str:
        if found["clock"] is None:
            return found[0]
        if inserted is not None:
            row = text.count("\n", 0, found.start())
            inserted.setdefault(row, []).append(found.end() - text.rfind("\n", 0, found.end()) - 1)
        return found[0] + ":00"

    return _CLOCK.sub(add, text)


def _errors(node: Node) -> Iterator[Node]:
    """Every node that is no TOML, in the order of the text."""
    if node.type == "ERROR" or node.is_missing:
        yield node
        return
    if node.has_error:
        for child in node.children:
            yield from _errors(child)


def _syntax(bad: Node, rows: list[str]) -> tuple[int, str, str]:
    """Column, what is wrong and what to write for a node that is no TOML."""
    row = rows[bad.start_point.row]
    column = len(row.encode()[: bad.start_point.column].decode(errors="ignore")) + 1
    if bad.is_missing:
        return column, f"{bad.type} is missing", f"close what was opened with {bad.type}"
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


def _take_out(document: Document, rows: list[str], row: int, why: tuple[int, str, str]) -> None:
    """Reports a broken line, and blanks it with the lines that only carry it on."""
    column, wrong, instead = why
    found = _KEY.match(rows[row])
    place = Place(row + 1, column, "")
    path = (*_path_above(rows, row), *_steps(found[1])) if found else ()
    document.broken |= {path} if path else set()
    read = _short(document.line(row + 1).strip())
    said = path_text(path) or "this line"
    document.faults.append(document.fault(said, place, wrong, read=read, instead=instead))
    heading = _HEADER.match(rows[row])
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


def resolved(names: Path, last: Mapping[Path, int]) -> Path:
    """A heading's path: the name of several tables means the last one so far."""
    path: Path = ()
    for name in names:
        path = (*path, name)
        if path in last:
            path = (*path, last[path])
    return path


def _take_out_refused(
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
    _take_out(document, rows, row, (column, wrong, instead))
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


class _Places:
    """Walks the syntax tree and notes where every key and value stands."""

    def __init__(
        self, document: Document, inserted: Mapping[int, list[int]], source: bytes
    ) -> None:
        self.document, self.inserted, self.source = document, inserted, source
        self.rows = source.split(b"\n")
        self.counts: dict[Path, int] = {}

    def walk(self, root: Node) -> None:
        self.document.bodies[()] = 0
        for node in root.children:
            if node.type == "pair":
                self.pair((), node)
                self.document.bodies[()] = node.end_point.row + 1
            elif node.type in ("table", "table_array_element"):
                self.table(node)

    def table(self, node: Node) -> None:
        names = next(self.names(c) for c in node.children if c.type in _KEYS)
        path = resolved(tuple(names[:-1]), self.counts)
        many = node.type == "table_array_element"
        heading = self.place(node, whole=False)
        if many:
            whole: Path = (*path, names[-1])
            self.counts[whole] = self.counts.get(whole, -1) + 1
            self.note(whole, heading)
            path = (*whole, self.counts[whole])
        else:
            path = (*path, names[-1])
        self.note(path, heading)
        self.document.bodies[path] = heading.line
        for child in node.children:
            if child.type == "pair":
                self.pair(path, child)
                self.document.bodies[path] = child.end_point.row + 1

    def note(self, path: Path, place: Place) -> None:
        self.document.keys.setdefault(path, place)
        self.document.values.setdefault(path, place)

    def pair(self, path: Path, node: Node) -> None:
        parts = [child for child in node.children if child.type != "comment"]
        key, value = parts[0], parts[-1]
        place = self.place(key)
        for name in self.names(key):
            path = (*path, name)
            self.document.keys.setdefault(path, place)
        self.value(path, value)

    def value(self, path: Path, node: Node) -> None:
        place = self.place(node)
        self.document.values[path] = place
        self.document.keys.setdefault(path, place)
        items = [c for c in node.children if c.type not in _MARKS]
        if node.type == "array":
            for number, item in enumerate(items):
                self.value((*path, number), item)
        elif node.type == "inline_table":
            for item in items:
                self.pair(path, item)

    def names(self, node: Node) -> list[str]:
        if node.type == "dotted_key":
            return [n for c in node.children if c.type in _KEYS for n in self.names(c)]
        text = self.text(node)
        return [text] if node.type == "bare_key" else list(tomllib.loads(f"{text} = 0"))

    def text(self, node: Node) -> str:
        return self.source[node.start_byte : node.end_byte].decode()

    def place(self, node: Node, *, whole: bool = True) -> Place:
        line, column = self.point(node.start_point.row, node.start_point.column)
        row = self.rows[line - 1].decode(errors="replace")
        source = self.text(node) if whole else row.strip()
        return Place(line, column, source, self.point(node.end_point.row, node.end_point.column))

    def point(self, row: int, at: int) -> tuple[int, int]:
        """Line and column in the text as the user wrote it, without the seconds put in."""
        column = len(self.rows[row][:at].decode(errors="ignore"))
        return row + 1, 1 + column - sum(3 for end in self.inserted.get(row, ()) if end < column)


_KEYS = ("bare_key", "quoted_key", "dotted_key")
_MARKS = ("[", "]", "{", "}", ",", "comment")
