"""Reading TOML with places: where things stand, and how broken lines are got round."""

from __future__ import annotations

import datetime as dt

from oatsack.files.trip.document import Path, path_text
from oatsack.files.trip.toml import read_toml, with_seconds
from support.each import each


def places(text: str) -> dict[str, tuple[int, int]]:
    document = read_toml(text, "t.toml")
    assert document.faults == []
    return {path_text(p): (at.line, at.column) for p, at in document.values.items()}


def faults(text: str) -> list[tuple[int, int, str, str]]:
    return [(one.line, one.column, one.path, one.wrong) for one in read_toml(text, "t.toml").faults]


def test_every_value_has_its_place() -> None:
    text = """\
title = "a"
a.b = [1, { x = "ä", "y z" = 2 }]  # note
[kit]
  mug = "1 l"
[[walkers]]
name = "A"
[walkers.usual]
lunch = [
  "x",   # first
  "y",
]
[[walkers]]
[[walkers.avoids]]
allergen = "egg"
"""
    assert places(text) == {
        "title": (1, 9),
        "a.b": (2, 7),
        "a.b[0]": (2, 8),
        "a.b[1]": (2, 11),
        "a.b[1].x": (2, 17),
        "a.b[1].y z": (2, 30),
        "kit": (3, 1),
        "kit.mug": (4, 9),
        "walkers": (5, 1),
        "walkers[0]": (5, 1),
        "walkers[0].name": (6, 8),
        "walkers[0].usual": (7, 1),
        "walkers[0].usual.lunch": (8, 9),
        "walkers[0].usual.lunch[0]": (9, 3),
        "walkers[0].usual.lunch[1]": (10, 3),
        "walkers[1]": (12, 1),
        "walkers[1].avoids": (13, 1),
        "walkers[1].avoids[0]": (13, 1),
        "walkers[1].avoids[0].allergen": (14, 12),
    }


def test_columns_count_characters_not_bytes() -> None:
    assert places('"ä ö" = ["ü", "x"]')["ä ö[1]"] == (1, 15)


def test_windows_lines_and_a_mark_at_the_start_are_fine() -> None:
    assert places('\ufeffa = 1\r\nb = "x"\r\n') == {"a": (1, 5), "b": (2, 5)}


@each(
    ("text", "expected"),
    [
        ("a = 07:30", "a = 07:30:00"),
        ("a = 2026-07-02 09:00 # 10:00", "a = 2026-07-02 09:00:00 # 10:00"),
        ("a = 2026-07-02T09:00", "a = 2026-07-02T09:00:00"),
        ("a = [07:30, 08:30]", "a = [07:30:00, 08:30:00]"),
        ("a = 07:30:15", "a = 07:30:15"),
        ("a = 2026-07-02T09:00:00+02:00", "a = 2026-07-02T09:00:00+02:00"),
        ("a = '07:30' # x", "a = '07:30' # x"),
        ('a = "at 07:30"', 'a = "at 07:30"'),
        ('a = "\\"07:30"', 'a = "\\"07:30"'),
        ('a = """\n07:30\n"""', 'a = """\n07:30\n"""'),
        ("a = '''\n07:30\n'''", "a = '''\n07:30\n'''"),
    ],
)
def test_only_bare_times_get_their_seconds(text: str, expected: str) -> None:
    assert with_seconds(text) == expected


def test_columns_do_not_shift_where_seconds_were_left_out() -> None:
    text = "a = { t = 07:30, u = 08:30, x = 1 }"
    document = read_toml(text, "t.toml")
    assert document.data["a"]["t"] == dt.time(7, 30)
    assert places(text)["a.u"] == (1, 1 + text.index("08:30"))
    assert places(text)["a.x"] == (1, 1 + text.index("1 }"))
    end = document.values[("a",)].end
    assert end == (1, len(text) + 1)


@each(
    ("line", "column", "wrong"),
    [
        ('x = "open', 5, "a text that is not closed"),
        ("x = 'open", 5, "a text that is not closed"),
        ("x = 68 kg", 5, "a text without quotes"),
        ("x =", 4, "no value"),
        ("x = # nothing", 5, "no value"),
        ("x = yes", 5, "neither true nor false"),
        ("x = True", 5, "neither true nor false"),
        ('x = ["a" "b"]', 5, "a list or table that cannot be read"),
        ("x = { a = 1, b }", 5, "a list or table that cannot be read"),
        ("just words", 1, "neither a key nor a heading"),
        ("= 5", 1, "neither a key nor a heading"),
        ("[kit", 1, "not a table's heading"),
        ("[[kit]", 1, "not a table's heading"),
        ("x = 2026-02-30", 5, "a value that cannot be read"),
        ('x = "a\\qb"', 5, "a text that is not closed"),
        ("y = 2", 1, "given twice"),
    ],
)
def test_a_broken_line_is_named_and_the_rest_is_read(line: str, column: int, wrong: str) -> None:
    document = read_toml(f"y = 1\n{line}\nz = 3\n", "t.toml")
    (fault,) = document.faults
    assert (fault.line, fault.wrong) == (2, wrong)
    assert fault.column == column
    assert fault.read == line.strip()
    assert fault.instead
    assert document.data["y"] == 1
    held = document.data.get("kit", document.data)
    assert (held[0] if isinstance(held, list) else held)["z"] == 3


def test_many_broken_lines_are_each_named() -> None:
    lines = [f"k{n} = {n} kg" if n % 3 else f'k{n} = "{n}"' for n in range(60)]
    found = faults("\n".join(lines))
    assert [line for line, *_ in found] == [n + 1 for n in range(60) if n % 3]


def test_a_broken_line_knows_its_table() -> None:
    text = """\
[[walkers]]
[[walkers.avoids]]
[[walkers]]
mass = 68 kg
[[walkers.avoids]]
scope = far away
[walkers.usual]
lunch = oats
[route]
up = 700 m
"""
    assert [path for *_, path, _ in faults(text)] == [
        "walkers[1].mass",
        "walkers[1].avoids[0].scope",
        "walkers[1].usual.lunch",
        "route.up",
    ]


def test_a_list_that_is_never_closed_is_one_fault() -> None:
    text = 'a = [\n  "x",\n  "y"\nb = 2\n[kit]\nc = 3\n'
    assert [(line, wrong) for line, _, _, wrong in faults(text)] == [
        (1, "a list or table that cannot be read")
    ]
    assert read_toml(text, "t.toml").data == {"b": 2, "kit": {"c": 3}}


def test_a_table_given_twice_is_one_fault() -> None:
    text = "[kit]\na = 1\n[route]\nb = 2\n[kit]\nc = 3\nd = 4\n[rules]\ne = 5\n"
    document = read_toml(text, "t.toml")
    assert [(one.line, one.wrong) for one in document.faults] == [(5, "given twice")]
    assert document.data == {"kit": {"a": 1}, "route": {"b": 2}, "rules": {"e": 5}}


def test_a_multi_line_value_given_twice_is_one_fault() -> None:
    text = "a = [1]\na = [\n  2,\n]\nb = 3\n"
    document = read_toml(text, "t.toml")
    assert [(one.line, one.wrong) for one in document.faults] == [(2, "given twice")]
    assert document.data == {"a": [1], "b": 3}


@each("text", ["", "\n\n", "# only a note", "\x00", "a" * 5000, "[" * 500])
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    document = read_toml(text, "t.toml")
    assert document.faults or document.data == {}


def test_a_place_that_is_not_there_is_that_of_the_table_around_it() -> None:
    document = read_toml("[kit]\nmug = 1\n", "t.toml")
    paths: list[tuple[Path, int]] = [(("kit", "pots", 0), 1), (("kit", "mug", "x"), 2), (("a",), 1)]
    assert [document.place(path).line for path, _ in paths] == [line for _, line in paths]


def test_brackets_inside_each_other_without_end_are_a_fault_at_their_place() -> None:
    deep = f"a = {'[' * 5000}{']' * 5000}"
    for text in (f"x = 1\n{deep}\n", f"x = 1\nb = {'{c = ' * 3000}1{'}' * 3000}\n"):
        document = read_toml(text, "walk.toml")
        assert document.data == {"x": 1}
        (fault,) = document.faults
        assert (fault.line, fault.instead) == (2, "write fewer brackets inside each other")
    assert read_toml(f"a = {'[' * 40}1{']' * 40}", "walk.toml").faults == []
