"""Broken TOML of many shapes: the line at fault is named once, the lines around it are read."""

from __future__ import annotations

from typing import Any

from oatsack.files.trip.broken import never_closed
from oatsack.files.trip.toml import read_toml
from support.each import each

Said = list[tuple[int, int, str]]


def read(text: str) -> tuple[Said, dict[str, Any]]:
    document = read_toml(text, "t.toml")
    return [(f.line, f.column, f.wrong) for f in document.faults], document.data


LIST = "a list or table that cannot be read"
OPEN = "a text that is not closed"
BARE = "a text without quotes"
WORDS = "neither a key nor a heading"
HEADING = "not a table's heading"
TWICE = "given twice"
BAD = "a value that cannot be read"


@each(
    ("text", "said", "data"),
    [
        # lists over several lines
        ("a = [\n  1,\n  2\nb = 3\n", [(1, 5, LIST)], {"b": 3}),
        ("a = [\n  1,\n  2\n\n[t]\nb = 3\n", [(1, 5, LIST)], {"t": {"b": 3}}),
        ("a = [\n  1,\n  2\n\n[[t]]\nb = 3\n", [(1, 5, LIST)], {"t": [{"b": 3}]}),
        ("a = [\n  1\n  2,\n]\nb = 3\n", [(1, 5, LIST)], {"b": 3}),
        ("a = [\n  1,,\n  2,\n]\nb = 3\n", [(1, 5, LIST)], {"b": 3}),
        ("a = [[1, 2], [3, 4]\nb = 3\n", [(1, 5, LIST)], {"b": 3}),
        ("a = [[1, 2], [3, 4]]]\nb = 3\n", [(1, 5, LIST)], {"b": 3}),
        ("a = [ # [\n  1, # ]\n]\nb = 3\n", [], {"a": [1], "b": 3}),
        ('a = [ "[", "]]", \'[\' ]\nb = 3\n', [], {"a": ["[", "]]", "["], "b": 3}),
        ('a = [\n  "x\n]\nb = 3\n', [(2, 3, OPEN)], {"a": [], "b": 3}),
        ('a = [\n  "x",\n  y z,\n]\nb = 3\n', [(3, 3, BARE)], {"a": ["x"], "b": 3}),
        ("b = 3\na = [1,\n", [(2, 5, LIST)], {"b": 3}),
        # inline tables
        ("a = { b = 1\nc = 3\n", [(1, 5, LIST)], {"c": 3}),
        ("a = { b = 1 c = 2 }\nd = 3\n", [(1, 5, LIST)], {"d": 3}),
        ("a = { b = }\nd = 3\n", [(1, 5, BAD)], {"d": 3}),
        ("a = { b 1 }\nd = 3\n", [(1, 5, LIST)], {"d": 3}),
        ("a = { b = 16 km }\nd = 3\n", [(1, 5, LIST)], {"d": 3}),
        ("a = { b = 1, b = 2 }\nd = 3\n", [(1, 5, BAD)], {"d": 3}),
        # texts
        ('a = "x\nb = "y"\n', [(1, 5, OPEN)], {"b": "y"}),
        ("a = x\"\nb = 1\n", [(1, 5, BARE)], {"b": 1}),
        ("a = 'it's'\nb = 1\n", [(1, 5, OPEN)], {"b": 1}),
        ('a = "say "hi""\nb = 1\n', [(1, 5, OPEN)], {"b": 1}),
        ('a = """\nx\n"""\nb = 1\n', [], {"a": "x\n", "b": 1}),
        ('a = "tab\\there"\nb = 1\n', [], {"a": "tab\there", "b": 1}),
        # bare values
        ("a = 68 kg\nb = 80kg\nc = 1,5\n", [(1, 5, BARE), (2, 5, BARE), (3, 5, BARE)], {}),
        ("a = Anna\nb = 1\n", [(1, 5, BARE)], {"b": 1}),
        ("a = 1 # fine\nb = 2 km # not\n", [(2, 5, BARE)], {"a": 1}),
        ("a = ½\nb = 1\n", [(1, 5, BARE)], {"b": 1}),
        ("a = +-1\nb = 1\n", [(1, 5, BARE)], {"b": 1}),
        ("a = 0123\nb = 1\n", [(1, 5, BARE)], {"b": 1}),
        # keys
        ("a b = 1\nc = 2\n", [(1, 1, WORDS)], {"c": 2}),
        ("ä = 1\nc = 2\n", [(1, 1, WORDS)], {"c": 2}),
        ("a: 1\nc = 2\n", [(1, 1, WORDS)], {"c": 2}),
        ("a == 1\nc = 2\n", [(1, 4, BARE)], {"c": 2}),
        ("a = 1 b = 2\nc = 2\n", [(1, 5, BAD)], {"c": 2}),
        ("a. = 1\nc = 2\n", [(1, 1, WORDS)], {"c": 2}),
        ("- a\n* b\n// c\nd = 1\n", [(1, 1, WORDS), (2, 1, WORDS), (3, 1, WORDS)], {"d": 1}),
        # headings
        ("[t\na = 1\n", [(1, 1, HEADING)], {"t": {"a": 1}}),
        ("[[t]\na = 1\n", [(1, 1, HEADING)], {"t": [{"a": 1}]}),
        ("[t]]\na = 1\n", [(1, 1, HEADING)], {"t": {"a": 1}}),
        ("  [ t . u\na = 1\n", [(1, 3, HEADING)], {"t": {"u": {"a": 1}}}),
        ("[t] x\na = 1\n", [(1, 1, HEADING)], {"t": {"a": 1}}),
        ("[]\na = 1\n", [(1, 1, WORDS)], {"a": 1}),
        ("t]\na = 1\n", [(1, 1, WORDS)], {"a": 1}),
        # twice
        ("a = 1\na = 2\nb = 3\n", [(2, 1, TWICE)], {"a": 1, "b": 3}),
        ("[t]\na = 1\n  a = 2\n", [(3, 3, TWICE)], {"t": {"a": 1}}),
        ("a.b = 1\na = 2\nc = 3\n", [(2, 1, TWICE)], {"a": {"b": 1}, "c": 3}),
        ("[t]\na = 1\n[t]\nb = 2\n[u]\nc = 3\n", [(3, 1, TWICE)], {"t": {"a": 1}, "u": {"c": 3}}),
        # values that are grammar and yet nothing
        ("a = 2026-02-30\nb = 1\n", [(1, 5, BAD)], {"b": 1}),
        ("a = 25:00\nb = 1\n", [(1, 5, BARE)], {"b": 1}),
        ("a = 2026-13-01 09:00\nb = 1\n", [(1, 5, BARE)], {"b": 1}),
    ],
)  # fmt: skip
def test_a_broken_text(text: str, said: Said, data: dict[str, Any]) -> None:
    found, kept = read(text)
    assert found == said
    assert kept == data


@each(
    ("line", "instead"),
    [
        ("a = 68 kg", 'write "68 kg", in quotes'),
        ("a = 68 kg  # in May", 'write "68 kg", in quotes'),
        ('a = "x', 'close it with " on the same line'),
        ("a = 'x", "close it with ' on the same line"),
        ("a =", 'write a value behind the "="'),
        ("a = yes", "write true or false"),
        ("a = [1", "check its commas, quotes and brackets"),
        ("[kit", 'write "[kit]", or "[[walkers]]" for one of several'),
        ("words", 'write "key = value", one per line'),
    ],
)
def test_what_to_write_instead(line: str, instead: str) -> None:
    (fault,) = read_toml(line + "\n", "t.toml").faults
    assert fault.instead == instead
    assert fault.read == line
    assert fault.text == line


def test_a_long_line_is_cut_where_it_is_quoted() -> None:
    (fault,) = read_toml(f"a = {'x ' * 100}\n", "t.toml").faults
    assert len(fault.read) == 60
    assert fault.read.endswith("…")


@each(
    ("rows", "opened"),
    [
        (["a = ["], 0),
        (["a = [", "1,", "b = 2"], 0),
        (["a = [1]", "b = [", "[kit]"], 1),
        (["a = { b = [1 }"], 0),
        (["a = [1]", "b = 2"], None),
        (["a = '['", "b = 2"], None),
        (["a = [ # ]", "1 ]", "b = 2"], None),
        (["[kit]", "a = 1"], None),
        (["[[kit]]", "a = [", "b = 1"], 1),
    ],
)
def test_where_a_list_was_opened_that_is_never_closed(rows: list[str], opened: int | None) -> None:
    assert never_closed(rows, len(rows) - 1) == opened


def test_what_stands_in_a_broken_line_is_remembered_by_its_path() -> None:
    text = "a = 1 kg\n[[w]]\n[[w]]\nb.c = x y\n[[w.v]]\nd = [\n[t.u]\ne = {\n"
    document = read_toml(text, "t.toml")
    assert document.broken == {("a",), ("w", 1, "b", "c"), ("w", 1, "v", 0, "d"), ("t", "u", "e")}


@each("count", [1, 10, 200])
def test_many_broken_lines_are_named_each_once(count: int) -> None:
    text = "\n".join(f"k{number} = {number} kg" for number in range(count))
    found, data = read(text)
    assert [line for line, _, _ in found] == list(range(1, count + 1))
    assert data == {}


def test_a_file_of_thousands_of_broken_lines_is_given_up_in_words() -> None:
    text = "\n".join("no words at all" for _ in range(2000))
    found, data = read(text)
    assert 100 <= len(found) <= 2000
    assert data == {}
