"""How complaints become faults: keys that were meant, what is missing, stand-ins for the rest."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from pydantic import ValidationError

from oatsack.errors import Fault, TripFileError
from oatsack.files.trip import parse_trip
from oatsack.files.trip.document import Path, Place, path_text, resolved
from oatsack.files.trip.faults import (
    SYNONYMS,
    fields_of,
    inner_table,
    is_many,
    kind_of,
    likely,
    related,
    short,
    table_at,
)
from oatsack.files.trip.heal import healed
from oatsack.files.trip.reference import sections
from oatsack.files.trip.tables import (
    AvoidTable,
    DayTable,
    KitTable,
    PotTable,
    TripTable,
    UsualTable,
    WalkerTable,
)
from support.each import each

GOOD: dict[str, Any] = {
    "from": "2026-07-02 09:00",
    "to": "2026-07-05 15:00",
    "walkers": [{"mass": "68 kg", "usual": {"lunch": ["bread"]}, "avoids": ["egg"]}],
    "route": {"usual_day": {"distance": "16 km"}},
    "kit": {"pots": ["900 ml"], "stove": "gas-open"},
}


def faults_of(text: str) -> tuple[Fault, ...]:
    with pytest.raises(TripFileError) as caught:
        parse_trip(text, "trip.toml")
    return caught.value.faults


@each(
    ("path", "text"),
    [
        ((), ""),
        (("a",), "a"),
        (("walkers", 0, "mass"), "walkers[0].mass"),
        (("walkers", 0, "usual", "lunch", 2), "walkers[0].usual.lunch[2]"),
    ],
)
def test_a_path_is_said(path: Path, text: str) -> None:
    assert path_text(path) == text


def test_a_heading_means_the_last_of_several_tables() -> None:
    last: dict[Path, int] = {("walkers",): 1, ("walkers", 1, "avoids"): 0}
    assert resolved(("walkers", "avoids"), last) == ("walkers", 1, "avoids", 0)
    assert resolved(("kit",), last) == ("kit",)


@each(
    ("one", "other", "expected"),
    [
        (("a",), ("a", "b"), True),
        (("a", "b"), ("a",), True),
        (("a", "b"), ("a", "b"), True),
        (("a", "b"), ("a", "c"), False),
        (("a", 0), ("a", 1), False),
        ((), ("a",), True),
    ],
)
def test_paths_are_related_if_one_leads_to_the_other(
    one: Path, other: Path, expected: bool
) -> None:
    assert related(one, other) is expected
    assert related(other, one) is expected


@each(
    ("path", "table"),
    [
        ((), TripTable),
        (("walkers",), WalkerTable),
        (("walkers", 3), WalkerTable),
        (("walkers", 0, "avoids", 1), AvoidTable),
        (("walkers", 0, "usual"), UsualTable),
        (("route", "usual_day"), DayTable),
        (("kit", "pots", 0), PotTable),
        (("walkers", 0, "mass"), None),
        (("nothing",), None),
        (("nothing", "more"), None),
    ],
)
def test_the_table_at_a_path(path: Path, table: type | None) -> None:
    assert table_at(path) is table


def test_every_field_holds_a_table_or_has_a_kind() -> None:
    for path, table in sections():
        for key, info in fields_of(table).items():
            has_kind = kind_of(info) is not None
            assert has_kind or inner_table(info.annotation), f"{path}.{key}"


def test_lists_are_known_from_single_values() -> None:
    kit = fields_of(KitTable)
    assert {key for key, info in kit.items() if is_many(info)} == {
        "pots", "cans", "bottles", "containers",
    }  # fmt: skip


# ------------------------------------------------------------------------- keys that were meant


@each(
    ("path", "meant"),
    [
        (("titel",), "title"),
        (("walker",), "walkers"),
        (("walkers", 0, "mas"), "mass"),
        (("walkers", 0, "Mass"), "mass"),
        (("walkers", 0, "weight"), "mass"),
        (("walkers", 0, "allergies"), "avoids"),
        (("walkers", 0, "diet"), "eats"),
        (("walkers", 0, "coffee"), "hot_drinks"),
        (("walkers", 0, "kcal"), "target"),
        (("walkers", 0, "usual", "snacks"), "bags"),
        (("walkers", 0, "usual", "brekfast"), "breakfast"),
        (("route", "gpx"), "track"),
        (("route", "usual_day", "ascent"), "up"),
        (("route", "usual_day", "descent"), "down"),
        (("route", "usual_day", "gain"), "up"),
        (("kit", "pot"), "pots"),
        (("kit", "fuel"), "cans"),
        (("kit", "bottle"), "bottles"),
        (("rules", "never"), "bans"),
        (("rules", "keep"), "holds"),
        (("start",), "from"),
        (("end",), "to"),
        (("timezone",), "zone"),
        (("people",), "walkers"),
    ],
)
def test_an_unknown_key_is_taken_for_the_likeliest(path: Path, meant: str) -> None:
    assert likely(path) == (*path[:-1], meant)


@each("path", [("xyzzy",), ("walkers", 0, "qqq"), ("kit", "weight")])
def test_a_key_like_no_other_is_taken_for_none(path: Path) -> None:
    assert likely(path) == path


def test_every_synonym_leads_to_a_key_of_some_table() -> None:
    keys = {key for _, table in sections() for key in fields_of(table)}
    assert set(SYNONYMS.values()) <= keys


def test_an_unknown_key_like_no_other_lists_what_is_known() -> None:
    (fault,) = faults_of(BASE + "[larder]\nxyzzy = 1\n")
    assert fault.instead == "known here: files, stock"


BASE = """\
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"
[[walkers]]
mass = "68 kg"
[route]
usual_day = { distance = "16 km" }
"""


@each(
    ("line", "path", "instead"),
    [
        ('from = "2026-07-02 09:00"', "from", 'add from = "2026-07-02 09:00"'),
        ('to = "2026-07-05 15:00"', "to", 'add to = "2026-07-02 09:00"'),
        ('mass = "68 kg"', "walkers[0].mass", 'add mass = "68 kg"'),
    ],
)
def test_a_missing_key_says_how_it_is_written(line: str, path: str, instead: str) -> None:
    (fault,) = faults_of(BASE.replace(line, ""))
    assert (fault.path, fault.wrong, fault.instead) == (path, "is missing", instead)


def test_a_missing_table_says_how_it_is_opened() -> None:
    faults = faults_of('from = "2026-07-02 09:00"\nto = "2026-07-05 15:00"\n')
    assert [(fault.path, fault.instead) for fault in faults] == [
        ("walkers", "add a table [[walkers]]"),
        ("route", "add a table [route]"),
    ]


@each(
    ("source", "expected"),
    [
        ('"a"', '"a"'),
        ("[\n 1,\n 2,\n]", "[…"),
        ("x" * 60, "x" * 60),
        ("x" * 61, "x" * 59 + "…"),
        ("", ""),
    ],
)
def test_what_was_read_is_cut_to_a_readable_length(source: str, expected: str) -> None:
    assert short(source) == expected


@each(
    ("old", "new", "path", "wrong"),
    [
        ("[route]", "[[route]]", "route", "not a table"),
        ("[[walkers]]", "[walkers]", "walkers", "not a list"),
        ('mass = "68 kg"', 'mass = "68 kg"\navoids = 3', "walkers[0].avoids", "not a list"),
        ('mass = "68 kg"', 'mass = "68 kg"\navoids = [3]', "walkers[0].avoids[0]", "not a table"),
        ('mass = "68 kg"', 'mass = "68 kg"\nusual = "oats"', "walkers[0].usual", "not a table"),
        ('mass = "68 kg"', 'mass = "68 kg"\nliking = 3', "walkers[0].liking", "not a table"),
        ('mass = "68 kg"', 'mass = "68 kg"\nliking = { a = "b" }', "walkers[0].liking.a",
         "not a number"),
        ('{ distance = "16 km" }', '"16 km"', "route.usual_day", "not a table"),
    ],
)  # fmt: skip
def test_a_value_of_another_shape_is_refused(old: str, new: str, path: str, wrong: str) -> None:
    (fault,) = faults_of(BASE.replace(old, new, 1))
    assert (fault.path, fault.wrong) == (path, wrong)
    assert fault.instead


def test_a_fault_prints_its_place_line_caret_and_hint() -> None:
    (fault,) = faults_of(BASE.replace('"68 kg"', '"68"'))
    assert str(fault) == (
        'trip.toml:4:8: walkers[0].mass: a mass without its unit, got "68"\n'
        '    mass = "68"\n'
        "           ^\n"
        '    write for example "68 kg"'
    )


def test_faults_are_in_the_order_of_the_file() -> None:
    text = BASE.replace('"68 kg"', '"68"').replace("2026-07-05", "2025-07-05") + "xyz = 1\n[kit\n"
    faults = faults_of(text)
    assert [fault.line for fault in faults] == [2, 4, 7, 8]


# ----------------------------------------------------------------------------------- stand-ins


def heal(changes: dict[str, Any]) -> tuple[TripTable | None, set[str]]:
    data = copy.deepcopy(GOOD) | changes
    with pytest.raises(ValidationError) as caught:
        TripTable.model_validate(data)
    before = copy.deepcopy(data)
    table, guessed = healed(data, caught.value)
    assert data == before, "the file's own data stay as they were"
    return table, {path_text(path) for path in guessed}


@each(
    ("changes", "guessed"),
    [
        ({"from": 3}, {"from"}),
        ({"zone": "Moon"}, {"zone"}),
        ({"walkers": [{}]}, {"walkers[0].mass"}),
        ({"walkers": [{"mass": "68"}, {"mass": "80 kg", "age": "x"}]},
         {"walkers[0].mass", "walkers[1].age"}),
        ({"walkers": 3}, {"walkers", "walkers[0].mass"}),
        ({"walkers": ["a"]}, {"walkers[0]", "walkers[0].mass"}),
        ({"route": 3}, {"route"}),
        ({"route": {"usual_day": {"distance": 3, "dwon": 4}}},
         {"route.usual_day.distance", "route.usual_day.down"}),
        ({"kit": {"pots": "oz"}}, {"kit.pots[0].volume"}),
        ({"kit": {"pots": ["oz", "1 l"], "stove": "gaz"}},
         {"kit.pots[0].volume", "kit.stove.kind"}),
        ({"kit": {"bottles": ["1", "1 l"]}}, {"kit.bottles[0]"}),
        ({"walkers": [{"mass": "68 kg", "usual": {"lunch": "2"}}]}, {"walkers[0].usual.lunch[0]"}),
        ({"walkers": [{"mass": "68 kg", "liking": {"a": 9}}]}, {"walkers[0].liking.a"}),
        ({"surplus": 3}, {"surplus"}),
        ({"rules": {"holds": [{"count": "x"}]}}, {"rules.holds[0].food", "rules.holds[0].count"}),
        ({"now": {}}, {"now.day"}),
    ],
)  # fmt: skip
def test_a_stand_in_takes_the_place_of_each_value_at_fault(
    changes: dict[str, Any], guessed: set[str]
) -> None:
    table, found = heal(changes)
    assert table is not None
    assert found == guessed


def test_values_that_are_fine_stay_beside_stand_ins() -> None:
    table, _ = heal({"zone": "Moon", "kit": {"mug": "1", "pots": ["700 ml", "3"]}})
    assert table is not None
    assert table.walkers[0].mass_kg == 68.0
    assert table.kit is not None
    assert table.kit.pots is not None
    assert table.kit.pots[0].volume_ml == 700.0


def test_a_place_remembers_where_it_ends() -> None:
    assert Place(1, 2, "x", (1, 3)).end == (1, 3)


MISNAMED = """\
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"
[[walker]]
mass = "70"
targt = "2000 kcal"
[walker.usual]
lunch = ["Oat Cake"]
[[walker]]
name = "Ben"
[route]
usual_day = { distance = "16 km" }
[rule]
bugdet = "30 EUR"
spare = "some"
"""


def test_what_is_wrong_below_a_misspelt_heading_is_told_in_the_same_run() -> None:
    """All faults of a file at once, each at its own line and column, as its owner wrote it."""
    with pytest.raises(TripFileError) as caught:
        parse_trip(MISNAMED, "trip.toml")
    rows = MISNAMED.splitlines()
    told = [(f.line, f.column, f.path) for f in caught.value.faults]
    assert told == [
        (3, 1, "walker"), (4, 8, "walkers[0].mass"), (5, 1, "walkers[0].targt"),
        (7, 10, "walkers[0].usual.lunch[0]"), (8, 1, "walkers[1].mass"), (12, 1, "rule"),
        (13, 1, "rules.bugdet"), (14, 9, "rules.spare"),
    ]  # fmt: skip
    assert all(f.text == rows[f.line - 1] for f in caught.value.faults)


def test_a_misspelt_heading_beside_the_right_one_is_told_alone() -> None:
    text = MISNAMED.replace("[rule]", "[rules]").replace("[[walker]]", "[[walkers]]", 1)
    with pytest.raises(TripFileError) as caught:
        parse_trip(text.replace("[walker.usual]", "[walkers.usual]"), "trip.toml")
    assert "walkers[1].mass" not in {f.path for f in caught.value.faults}
    assert "walker" in {f.path for f in caught.value.faults}
