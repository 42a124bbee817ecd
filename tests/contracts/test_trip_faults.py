"""Every key of a trip file, broken in every way, is reported at its own line and column.

The keys come from the tables (support.tripfiles), the ways of breaking from the kinds: a kind
without ways is a failure here, so that none is forgotten.
"""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest

from oatsack.errors import Fault, TripFileError
from oatsack.files.trip import parse_trip, picks
from oatsack.files.trip.kinds import CLOCK, DATE, MOMENT, TEXT, YES_NO, ZONE, Kind
from support.amount import some
from support.each import each
from support.tripfiles import Entry, all_entries, full_file

ANY_TEXT = ["true", "7", "[[1]]", "{ x = 1 }", "2026-07-02", '""', '"  "']
NO_TEXT = ["true", "[[1]]", "{ x = 1 }", "2026-07-02"]
BY_KIND: list[tuple[Kind, list[str]]] = [
    (TEXT, ANY_TEXT),
    (YES_NO, ['"true"', "0", "1", "[[1]]", "2026-07-02"]),
    (MOMENT, ["true", "7", '"2026-07-02"', "2026-07-02", '"July 2nd, 9 am"', '"2026-02-30 09:00"',
              "2026-07-02T09:00:00Z", '"2026-07-02T09:00+02:00"']),
    (DATE, ["true", "7", '"02.07.2026"', '"2026-02-30"', "2026-07-02T09:00:00"]),
    (ZONE, ["true", "7", '"Vienna"', '"CESTE"', '"../etc/passwd"', '""']),
    (CLOCK, ["true", "7", '"7"', '"25:00"', '"7:75"', '"0:30 pm"', '"noon"']),
    (picks.FOOD, [*NO_TEXT, "7", '"Trail mix"', '""', '"trail_mix-"']),
    (picks.CHOICE, [*NO_TEXT, "7", '"2"', '"oats +"', '"-2 oats"', '"0 oats"', '"1,500 oats"',
                    '"Maple Oatmeal"', '"1000 oats"']),
    (picks.BAG, [*NO_TEXT, "7", '""', '"Trail mix"', '"0 trail-mix"']),
    (picks.COUNT, [*NO_TEXT, "7", '"2 coffee"', '"2 coffee a week"', '"coffee"',
                   '"0 coffee a day"']),
    (picks.ALLERGEN, [*NO_TEXT, "7", '"nuts"', '"lactose"', '"cat"']),
    (picks.TARGET, [*NO_TEXT, "2200", '"2200"', '"85"', '"0.85x"', '"2,200 kcal"', '"-2200 kcal"',
                    '"2200 cal"', '"1%"', '"400%"', '"22 kcal"', '"heavy"']),
    (picks.SPARE, [*NO_TEXT, "7", '"some"', '"500"', '"-5 kcal"', '"1,500 kcal"']),
    (picks.TERRAIN, ["true", '"mud"', "0.5", "9", "-1", '"1.1"']),
    (picks.MONEY, [*NO_TEXT, "80", '"80"', '"-80 EUR"', '"1,500 EUR"', '"eighty"', '"80 kr"']),
]  # fmt: skip
QUANTITY = ["true", "7", "7.5", "[[1]]", "{ x = 1 }", '""', '"7 sheaves"', '"kg"', '"about 7 kg"',
            '"1e3 kg"', '"7 kg 3 oz"']  # fmt: skip
NUMBER = ["true", '"7"', "[[1]]", "{ x = 1 }", "nan", "-1", "1e9"]


def ways(kind: Kind) -> list[str]:
    """TOML values that are wrong for a kind."""
    for known, values in BY_KIND:
        if kind is known:
            return values
    if kind.options is not None:
        return [*ANY_TEXT, '"nonsense"', kind.example.upper()]
    if kind.example[0].isdigit():
        return NUMBER
    unit = kind.example.strip('"').lstrip("0123456789.-")
    assert unit, f"no way known to break {kind.says}"
    wrong = [*QUANTITY, f'"7{unit.swapcase()}x"', '"1,500' + unit + '"', '"1.500' + unit + '"']
    wrong += ['"1e9' + unit + '"', '"1 000 000 000' + unit + '"']
    if not kind.says.startswith(("a temperature", "a height", "a slope")):
        wrong.append('"-7' + unit + '"')
    return wrong + (['"7"'] if unit != "%" else ['"75"'])


def faults_of(lines: list[str]) -> tuple[Fault, ...]:
    with pytest.raises(TripFileError) as caught:
        parse_trip("\n".join(lines) + "\n", "trip.toml")
    return caught.value.faults


def the_file(entry: Entry) -> tuple[list[str], Entry]:
    """A full file that has this key, and the key's entry in it."""
    for by_track in (True, False):
        lines, entries = full_file(by_track=by_track)
        for found in entries:
            if found.path == entry.path:
                return lines, found
    raise AssertionError(entry.path)


def where(faults: tuple[Fault, ...]) -> list[tuple[int, int]]:
    return [(fault.line, fault.column) for fault in faults]


KEYS = list(all_entries())
EACH_KEY = pytest.mark.parametrize("entry", KEYS, ids=lambda entry: entry.path)


def test_the_full_files_are_fine_before_they_are_broken() -> None:
    for by_track in (True, False):
        lines, entries = full_file(by_track=by_track)
        trip = parse_trip("\n".join(lines) + "\n", "trip.toml")
        assert len(entries) > 90
        left = {p for p in trip.defaults if p.startswith(("kit", "rules", "walkers"))}
        assert left <= {"walkers[0].pace", "walkers[0].pace_track"}  # a pace is told once


def test_every_key_of_the_tables_is_tried() -> None:
    assert len(KEYS) > 110
    assert len({entry.path for entry in KEYS}) == len(KEYS)


@pytest.mark.slow
@EACH_KEY
def test_a_wrong_value_is_reported_alone_and_at_its_place(entry: Entry) -> None:
    lines, entry = the_file(entry)
    for source in ways(entry.kind):
        broken = [*lines]
        broken[entry.line - 1] = entry.text(source)
        faults = faults_of(broken)
        assert where(faults) == [(entry.line, entry.column)], (source, faults)
        (fault,) = faults
        assert fault.path == entry.value_path, source
        assert fault.wrong, source
        assert fault.instead, source
        assert fault.text == broken[entry.line - 1]


@pytest.mark.slow
@EACH_KEY
def test_the_read_text_is_what_stands_there(entry: Entry) -> None:
    lines, entry = the_file(entry)
    lines[entry.line - 1] = entry.text("true" if entry.kind is not YES_NO else '"true"')
    (fault,) = faults_of(lines)
    assert fault.read == ("true" if entry.kind is not YES_NO else '"true"')


@pytest.mark.slow
@EACH_KEY
def test_a_misspelt_key_is_reported_at_the_key_and_named_rightly(entry: Entry) -> None:
    lines, entry = the_file(entry)
    lines[entry.line - 1] = entry.text(entry.source, entry.key + "q")
    (fault,) = faults_of(lines)
    assert (fault.line, fault.column, fault.wrong) == (entry.line, 1, "unknown key")
    assert fault.instead == f'did you mean "{entry.key}"?'


@each("entry", [e for e in KEYS if e.needed], ids=lambda entry: entry.path)
def test_a_missing_key_is_reported_at_its_table(entry: Entry) -> None:
    lines, entry = the_file(entry)
    lines[entry.line - 1] = ""
    (fault,) = faults_of(lines)
    heading = max((n for n in range(entry.line) if lines[n].startswith("[")), default=0)
    assert (fault.line, fault.path, fault.wrong) == (heading + 1, entry.path, "is missing")
    assert entry.kind.example in fault.instead


@pytest.mark.slow
@EACH_KEY
def test_a_value_without_quotes_is_reported_at_the_value(entry: Entry) -> None:
    lines, entry = the_file(entry)
    lines[entry.line - 1] = f"{entry.key} = seven and a half"
    (fault,) = faults_of(lines)
    assert (fault.line, fault.column) == (entry.line, len(f"{entry.key} = ") + 1)
    assert fault.path == entry.path
    assert fault.instead == 'write "seven and a half", in quotes'


@pytest.mark.slow
@EACH_KEY
def test_a_key_given_twice_is_reported_at_the_second(entry: Entry) -> None:
    lines, entry = the_file(entry)
    lines.insert(entry.line, entry.text(entry.source))
    (fault,) = faults_of(lines)
    assert (fault.line, fault.column, fault.wrong) == (entry.line + 1, 1, "given twice")


@each("by_track", [True, False], ids=["track", "hand"])
@each("way", some(range(max(len(ways(entry.kind)) for entry in KEYS))))
def test_every_key_broken_in_every_way_is_found_in_one_run(way: int, by_track: bool) -> None:
    lines, entries = full_file(by_track=by_track)
    for entry in entries:
        sources = ways(entry.kind)
        lines[entry.line - 1] = entry.text(sources[way % len(sources)])
    faults = faults_of(lines)
    assert where(faults) == [(entry.line, entry.column) for entry in entries]
    assert [fault.path for fault in faults] == [entry.value_path for entry in entries]
    assert all(fault.wrong and fault.read and fault.instead for fault in faults)


def planted(rng: random.Random, *, by_track: bool) -> tuple[list[str], set[tuple[int, int]]]:
    """A file in which most keys are broken, each in some way, and where the faults must be."""
    lines, entries = full_file(by_track=by_track)
    places: set[tuple[int, int]] = set()
    for entry in entries:
        kind = rng.randrange(4)
        if kind == 0:
            lines[entry.line - 1] = entry.text(entry.source, entry.key + "q")
            places.add((entry.line, 1))
        elif kind == 1:
            lines[entry.line - 1] = f"{entry.key} = seven and a half"
            places.add((entry.line, len(f"{entry.key} = ") + 1))
        elif kind == 2:
            lines[entry.line - 1] = entry.text(rng.choice(ways(entry.kind)))
            places.add((entry.line, entry.column))
    return lines, places


@each("by_track", [True, False], ids=["track", "hand"])
@each("seed", some(range(25)))
def test_all_planted_faults_are_found_in_one_run_and_no_others(seed: int, by_track: bool) -> None:
    lines, places = planted(random.Random(seed), by_track=by_track)
    found = where(faults_of(lines))
    assert len(places) > 50
    assert set(found) == places
    assert len(found) == len(places)
    assert found == sorted(found)


def headings() -> Iterator[tuple[list[str], int]]:
    for by_track in (True, False):
        lines, _ = full_file(by_track=by_track)
        for row, text in enumerate(lines):
            if text.startswith("["):
                yield lines, row


@each(("lines", "row"), some(headings()))
def test_a_broken_heading_is_reported_and_its_keys_stay_in_their_table(
    lines: list[str], row: int
) -> None:
    broken = [*lines]
    broken[row] = broken[row].rstrip("]")
    (fault,) = faults_of(broken)
    assert (fault.line, fault.wrong) == (row + 1, "not a table's heading")


@each(("lines", "row"), some(headings()))
def test_a_misspelt_heading_is_an_unknown_key(lines: list[str], row: int) -> None:
    broken = [*lines]
    name = broken[row].strip("[]")
    last = name.rpartition(".")[2]
    for number, text in enumerate(lines):
        if text.startswith("[") and (text.strip("[]") + ".").startswith(name + "."):
            broken[number] = text.replace(name, name + "q", 1)
    (fault,) = faults_of(broken)
    assert (fault.line, fault.wrong) == (row + 1, "unknown key")
    assert fault.instead == f'did you mean "{last}"?'
