"""Each kind of value a trip file holds: what it reads, what it refuses, how it is shown again."""

from __future__ import annotations

import datetime as dt
import tomllib
from typing import Any

import pytest
from pydantic import BaseModel, ValidationError

from oatsack import units
from oatsack.errors import UnitError
from oatsack.files.trip import kinds
from oatsack.files.trip.kinds import Kind
from oatsack.files.trip.tables import fields
from support.each import each
from support.tripfiles import all_entries

MASS = kinds.quantity(units.mass_g, "a mass", "250 g", show=units.show_mass, low=0.0, high=5000.0)
AIR = kinds.quantity(
    units.temperature_c, "a temperature", "18 C", show=units.show_temperature, low=-50.0, high=55.0
)
OPEN = kinds.quantity(units.mass_g, "a mass", "250 g", show=units.show_mass)
COUNT = kinds.number("doses", "2", low=0.0, high=9.0)
WHOLE = kinds.number("days", "2", low=1, high=9, whole=True)
FREE = kinds.number("a number", "2")
WORD = kinds.words("a scope", "plate", "pot", "party")


def complaint(kind: Kind, value: Any) -> tuple[str, str]:
    with pytest.raises(UnitError) as caught:
        kind.read(value)
    return caught.value.wrong, caught.value.instead


@each(
    ("kind", "value", "expected"),
    [
        (MASS, "250 g", 250.0),
        (MASS, "0 g", 0.0),
        (MASS, "5 kg", 5000.0),
        (AIR, "-50 C", -50.0),
        (AIR, "131 F", 55.0),
        (OPEN, "-3 kg", -3000.0),
        (COUNT, 2, 2.0),
        (COUNT, 2.5, 2.5),
        (COUNT, 0, 0.0),
        (WHOLE, 2, 2),
        (WHOLE, 2.0, 2),
        (FREE, -1e9, -1e9),
        (WORD, "pot", "pot"),
        (kinds.TEXT, "  a b ", "a b"),
        (kinds.YES_NO, True, True),
        (kinds.YES_NO, False, False),
        (kinds.MOMENT, "2026-07-02 09:00", dt.datetime(2026, 7, 2, 9)),
        (kinds.MOMENT, "2026-07-02T09:00:30", dt.datetime(2026, 7, 2, 9, 0, 30)),
        (kinds.MOMENT, dt.datetime(2026, 7, 2, 9), dt.datetime(2026, 7, 2, 9)),
        (kinds.DATE, "2026-07-04", dt.date(2026, 7, 4)),
        (kinds.DATE, dt.date(2026, 7, 4), dt.date(2026, 7, 4)),
        (kinds.ZONE, "Europe/Vienna", "Europe/Vienna"),
        (kinds.ZONE, "UTC", "UTC"),
        (kinds.CLOCK, "7:30", 450.0),
        (kinds.CLOCK, "7 pm", 1140.0),
        (kinds.CLOCK, dt.time(7, 30), 450.0),
    ],
)
def test_a_value_is_read(kind: Kind, value: Any, expected: object) -> None:
    found = kind.read(value)
    assert found == expected
    assert type(found) is type(expected)


@each(
    ("kind", "value", "wrong", "instead"),
    [
        (MASS, 250, "a number where a mass with its unit is needed", 'write for example "250 g"'),
        (MASS, True, "not a mass with its unit", 'write for example "250 g"'),
        (MASS, "250", "a mass without its unit", 'write for example "250 g"'),
        (MASS, "250 m", '"m" is no unit of a mass', 'write for example "250 g"'),
        (MASS, "-5 g", "negative", "write a value, 0 g to 5 kg"),
        (MASS, "5.1 kg", "out of range", "write a value, 0 g to 5 kg"),
        (MASS, "1,500 g", "a number with two readings, 1500 or 1.5", 'write "1500 g" or "1.5 g"'),
        (AIR, "-51 C", "out of range", "write a value, -50 °C to 55 °C"),
        (AIR, "18", "a temperature without its unit", 'write for example "18 C"'),
        (COUNT, "2", "not a number", "write 2, without quotes"),
        (COUNT, "two", "not a number", "write for example 2"),
        (COUNT, True, "not a number", "write for example 2"),
        (COUNT, float("nan"), "not a number", "write for example 2"),
        (COUNT, float("inf"), "not a number", "write for example 2"),
        (COUNT, -1, "negative", "write a value, 0 to 9"),
        (COUNT, 10, "out of range", "write a value, 0 to 9"),
        (WHOLE, 2.5, "not a whole number", "write for example 2"),
        (WHOLE, 0, "out of range", "write a value, 1 to 9"),
        (WORD, "pots", "no scope we know", 'did you mean "pot"? known: "plate", "pot", "party"'),
        (WORD, "xyz", "no scope we know", 'known: "plate", "pot", "party"'),
        (WORD, 3, "a number where a scope is needed", 'write for example "plate"'),
        (kinds.TEXT, " ", "an empty text", "write a few words, or leave the key out"),
        (kinds.TEXT, 3, "a number where a text is needed", 'write for example "a few words"'),
        (kinds.YES_NO, "yes", "neither true nor false", "write true or false, without quotes"),
        (kinds.YES_NO, 1, "neither true nor false", "write true or false, without quotes"),
        (kinds.MOMENT, "2026-07-02", "a date without a time",
         'write for example "2026-07-02 09:00"'),
        (kinds.MOMENT, dt.date(2026, 7, 2), "no date with a time",
         'write for example "2026-07-02 09:00"'),
        (kinds.MOMENT, "2026-07-02 09:00+02:00", "a time with an offset",
         'write local time, and the zone in "zone"'),
        (kinds.MOMENT, "noon", "no date with a time",
         'write for example "2026-07-02 09:00": year, month, day, then the time'),
        (kinds.DATE, "4 July", "no date", 'write for example "2026-07-04"'),
        (kinds.DATE, dt.datetime(2026, 7, 4, 9), "no date", 'write for example "2026-07-04"'),
        (kinds.ZONE, "vienna", "no time zone we know", 'did you mean "Europe/Vienna"?'),
        (kinds.ZONE, "Europe/Viena", "no time zone we know", 'did you mean "Europe/Vienna"?'),
        (kinds.ZONE, "xyzzy", "no time zone we know", 'write for example "Europe/Vienna"'),
        (kinds.CLOCK, "7", "not a time of day", 'write "7:30" or "19:05"'),
        (kinds.CLOCK, 7, "a number where a time of day is needed", 'write for example "7:30"'),
    ],
)  # fmt: skip
def test_a_value_is_refused_in_words(kind: Kind, value: Any, wrong: str, instead: str) -> None:
    assert complaint(kind, value) == (wrong, instead)


def test_what_is_refused_reaches_pydantic_with_both_parts() -> None:
    from typing import Annotated

    class Model(BaseModel):
        mass: Annotated[float, MASS]

    assert Model.model_validate({"mass": "3 oz"}).mass == pytest.approx(85.0485694)
    with pytest.raises(ValidationError) as caught:
        Model.model_validate({"mass": 3})
    (error,) = caught.value.errors()
    assert error["type"] == "value"
    assert error["ctx"]["instead"] == 'write for example "250 g"'


ENTRIES = list(all_entries())


@each("entry", ENTRIES, ids=lambda entry: entry.path)
def test_the_example_of_every_key_is_read_and_shown_again(entry: Any) -> None:
    kind: Kind = entry.kind
    value = kind.read(tomllib.loads(f"x = {kind.example}")["x"])
    again = kind.read(tomllib.loads(f"x = {kind.show(value)}")["x"])
    assert again == (pytest.approx(value) if isinstance(value, float) else value)


@each("entry", ENTRIES, ids=lambda entry: entry.path)
def test_every_kind_says_what_it_takes(entry: Any) -> None:
    kind: Kind = entry.kind
    assert kind.says
    assert not kind.says.endswith(".")
    if kind.options is not None:
        for word in kind.options():
            assert kind.read(word) == word


@each(
    ("text", "short"),
    [
        ("8.00 kg", "8 kg"),
        ("1.50 kg", "1.5 kg"),
        ("1.25 l", "1.25 l"),
        ("10.0 l", "10 l"),
        ("100 g", "100 g"),
        ("1500 g", "1500 g"),
        ("0.70 km/h", "0.7 km/h"),
        ("80.00 EUR", "80 EUR"),
    ],
)
def test_noughts_behind_the_point_are_trimmed(text: str, short: str) -> None:
    assert kinds.trimmed(text) == short


@each(
    ("word", "known", "expected"),
    [
        ("mas", ["mass", "name"], "mass"),
        ("MASS", ["mass", "name"], "mass"),
        ("walker", ["walkers", "route"], "walkers"),
        ("zzz", ["mass"], ""),
        ("", ["mass"], ""),
        ("mass", [], ""),
    ],
)
def test_the_nearest_name(word: str, known: list[str], expected: str) -> None:
    assert kinds.nearest(word, known) == expected


@each(
    ("text", "source"), [("a", '"a"'), ('a"b', '"a\\"b"'), ("a\\b", '"a\\\\b"')]
)
def test_a_quoted_text_is_toml(text: str, source: str) -> None:
    assert kinds.quoted(text) == source
    assert tomllib.loads(f"x = {source}")["x"] == text


@each(
    ("kind", "low", "high"),
    [
        (fields.a_mass("1 kg", 100.0, 2000.0), "99 g", "2.01 kg"),
        (fields.a_mass_kg("68 kg", 10.0, 300.0), "9.9 kg", "301 kg"),
        (fields.a_volume("1 l", 100.0, 2000.0), "99 ml", "2.01 l"),
        (fields.a_span_h("3 h"), "-1 min", "24 h 1 min"),
        (fields.a_few_mm("95 mm"), "9 mm", "101 cm"),
        (fields.a_share(0.1, 0.5, "12%"), "9%", "51%"),
    ],
)
def test_bounds_hold_in_any_unit(kind: Kind, low: str, high: str) -> None:
    for text in (low, high):
        wrong, instead = complaint(kind, text)
        assert wrong in ("out of range", "negative")
        assert " to " in instead


def test_a_key_that_needs_other_kinds_of_lists_takes_one_or_many() -> None:
    assert fields.one_or_many("oats") == ["oats"]
    assert fields.one_or_many(["oats"]) == ["oats"]
    assert fields.one_or_many(3) == 3
