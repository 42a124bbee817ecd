"""TOML text -> data, the place of every key and value, and every fault of its grammar.

The data come from the standard library, the places from tree-sitter, whose parser carries on after
an error: a broken line is reported, taken out, and the rest is read as if it had not been there, so
that one run finds all faults. Knows nothing of trips.

One kindness beyond TOML 1.0: ``2026-07-02 09:00`` and ``7:30`` may leave out their seconds.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping

import tree_sitter_toml
from tree_sitter import Language, Node, Parser

from oatsack.files.trip.broken import errors, never_closed, plain_words, report, take_out_refused
from oatsack.files.trip.document import Document, Path, Place, resolved

PARSER = Parser(Language(tree_sitter_toml.language()))
TOO_DEEP = "write fewer brackets inside each other"
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


def read_toml(text: str, name: str) -> Document:
    """Reads what can be read; everything that cannot stands in `faults`."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    document = Document(name=name, lines=tuple(text.split("\n")))
    inserted: dict[int, list[int]] = {}
    rows = with_seconds(text, inserted).split("\n")
    for row in plain_words(rows):
        report(document, rows, row, inside=False)
    for _ in range(MOST_ROUNDS):
        source = "\n".join(rows)
        root = PARSER.parse(source.encode()).root_node
        if _take_out_errors(document, rows, root):
            continue
        try:
            document.data = tomllib.loads(source)
            _Places(document, inserted, source.encode()).walk(root)
        except ValueError as error:  # also a number of more digits than Python reads
            take_out_refused(document, rows, root, error)
            continue
        except RecursionError:
            take_out_refused(document, rows, root, ValueError(TOO_DEEP))
            continue
        break
    document.faults.sort(key=lambda fault: (fault.line, fault.column))
    return document


def _take_out_errors(document: Document, rows: list[str], root: Node) -> bool:
    """Takes out what the grammar refuses: the first row, and those broken by themselves."""
    taken = -1
    for bad in errors(root):
        row = never_closed(rows, bad.end_point.row) if taken < 0 else None
        row = bad.start_point.row if row is None else row
        if taken < 0 or (row > taken and _is_broken_alone(rows[row])):
            report(document, rows, row)
            taken = row
    return taken >= 0


def _is_broken_alone(row: str) -> bool:
    """Whether a row holds one key, and is no TOML wherever it stands."""
    plain = "=" in row and not set(row) & set("[]{}\"'")
    return plain and PARSER.parse(row.encode()).root_node.has_error


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
        for end in range(1, len(path) + 1):  # tables that only headings below imply have a place
            self.note(path[:end], heading)
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
