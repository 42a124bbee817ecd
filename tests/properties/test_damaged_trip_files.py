"""Trip files damaged by chance: always read or refused in words, with places inside the file."""

from __future__ import annotations

import random

import pytest

from oatsack.errors import Fault, TripFileError
from oatsack.files.trip import named_files, parse_trip
from oatsack.files.trip.toml import read_toml
from support.amount import some
from support.each import each
from support.tripfiles import full_file

SIGNS = "\"'[]{}=,.#-+0123456789 \tabcxyzäé½\n\r\\/%°"


def faults_of(text: str) -> tuple[Fault, ...]:
    try:
        parse_trip(text, "t.toml")
    except TripFileError as error:
        return error.faults
    return ()


def damaged(text: str, rng: random.Random, times: int) -> str:
    """Signs put in, taken out and changed, and lines swapped, dropped or doubled."""
    for _ in range(times):
        at = rng.randrange(len(text))
        how = rng.randrange(6)
        if how == 0:
            text = text[:at] + rng.choice(SIGNS) + text[at:]
        elif how == 1:
            text = text[:at] + text[at + 1 :]
        elif how == 2:
            text = text[:at] + rng.choice(SIGNS) + text[at + 1 :]
        else:
            lines = text.split("\n")
            row = rng.randrange(len(lines))
            if how == 3:
                del lines[row]
            elif how == 4:
                lines.insert(row, lines[rng.randrange(len(lines))])
            else:
                other = rng.randrange(len(lines))
                lines[row], lines[other] = lines[other], lines[row]
            text = "\n".join(lines)
    return text


def assert_sound(text: str, faults: tuple[Fault, ...]) -> None:
    lines = text.replace("\r\n", "\n").split("\n")
    for fault in faults:
        assert fault.file == "t.toml"
        assert 1 <= fault.line <= len(lines), fault
        assert 1 <= fault.column <= len(lines[fault.line - 1]) + 1, fault
        assert fault.text == lines[fault.line - 1]
        assert fault.wrong, fault
        assert fault.read, fault
        assert fault.instead, fault
        assert str(fault).startswith(f"t.toml:{fault.line}:{fault.column}: ")
    assert [f.line for f in faults] == sorted(f.line for f in faults)


@pytest.mark.slow
@each("by_track", [True, False], ids=["track", "hand"])
@each("seed", some(range(40)))
def test_a_damaged_file_is_read_or_refused_in_words(seed: int, by_track: bool) -> None:
    rng = random.Random(seed)
    text = damaged("\n".join(full_file(by_track=by_track)[0]), rng, rng.choice([1, 2, 5, 30]))
    assert_sound(text, faults_of(text))
    named_files(text)


@pytest.mark.slow
@each("seed", range(100, 500))
def test_many_damaged_files_are_read_or_refused_in_words(seed: int) -> None:
    rng = random.Random(seed)
    lines = full_file(by_track=rng.random() < 0.5)[0]
    text = damaged("\n".join(lines), rng, rng.choice([1, 1, 2, 3, 10, 100]))
    assert_sound(text, faults_of(text))


@each("seed", some(range(60)))
def test_one_broken_line_costs_at_most_that_line(seed: int) -> None:
    """A line without its quotes is told, and every other answer is read as if it were not there."""
    rng = random.Random(seed)
    lines, entries = full_file(by_track=seed % 2 == 0)
    entry = rng.choice(entries)
    whole = read_toml("\n".join(lines), "t.toml")
    lines[entry.line - 1] = f"{entry.key} = 7 {rng.choice(['kg', 'o clock', 'times a day'])}"
    broken = read_toml("\n".join(lines), "t.toml")
    (fault,) = broken.faults
    assert (fault.line, fault.path) == (entry.line, entry.path)
    lost = set(whole.values) - set(broken.values)
    assert all(place.line == entry.line for path, place in whole.values.items() if path in lost)
    for path, place in broken.values.items():
        assert whole.values[path].line == place.line


@each("seed", some(range(20)))
def test_cutting_a_file_short_is_told_at_its_end_or_as_missing(seed: int) -> None:
    text = "\n".join(full_file(by_track=True)[0])
    cut = random.Random(seed).randrange(len(text))
    assert_sound(text[:cut], faults_of(text[:cut]))


@each(
    "text",
    ["\x00" * 50, "[" * 3000, "a = " + "[" * 900, "{" * 500, '"' * 999, "=" * 999, "a.b." * 300,
     "\ud7ff\ue000", "a = '''", 'a = """', "a = 1\r", "\r\r\r", "é" * 2000, "[[" * 700,
     "a = " + "9" * 5000, "a = 1e999", "a = nan", "a = -inf", "a = 0x" + "f" * 900],
    ids=range(19),
)  # fmt: skip
def test_odd_texts_are_refused_in_words(text: str) -> None:
    faults = faults_of(text)
    assert faults
    for fault in faults:
        assert fault.wrong
