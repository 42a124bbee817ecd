"""Sentences: found by key, filled in the walker's units, and never failing on a reader."""

from __future__ import annotations

import re
import string

import pytest

from oatsack.reports.measures import Measures
from oatsack.reports.words import KINDS, NAMES, PLAIN, Voice, say, say_flag, sentences
from oatsack.values.flags import Flag
from support.each import each

US = Voice(measures=Measures(units="us", currency="USD"))


def test_a_sentence_is_found_by_the_path_through_its_tables() -> None:
    assert say("meals.move") == "on the move"


def test_a_key_that_does_not_exist_is_an_error() -> None:
    with pytest.raises(KeyError):
        say("no.such.key")


@each("key", sorted(sentences()))
def test_every_sentence_is_a_well_formed_template_of_known_kinds(key: str) -> None:
    for _, name, spec, _ in string.Formatter().parse(sentences()[key]):
        if name is None or not spec:
            continue
        known = spec in KINDS or spec in NAMES or spec.count("|") == 1
        assert known or format(1.5, spec), f"{key}: {spec}"


@each("key", sorted(sentences()))
def test_every_sentence_formats_with_numbers_and_without_any_values(key: str) -> None:
    names = [n for _, n, _, _ in string.Formatter().parse(sentences()[key]) if n]
    filled = say(key, **dict.fromkeys(names, 1234.5))
    assert re.search(r"\{\w+(:[^}]*)?\}", filled) is None
    assert isinstance(say(key), str)


def test_kinds_show_numbers_in_the_units_of_the_voice() -> None:
    voice = Voice(walkers={"a": "Anna"})
    line = "trip.day_walk"
    assert voice.say(line, distance=16093.44, climb=304.8) == "16.1 km, up 305 m"
    assert US.say(line, distance=16093.44, climb=304.8) == "10.0 mi, up 1,000 ft"


def test_one_and_many_differ() -> None:
    assert PLAIN.shown(1, "# day|# days") == "1 day"
    assert PLAIN.shown(3, "# day|# days") == "3 days"
    assert PLAIN.shown(0, "no night|# nights") == "0 nights"


def test_names_stand_for_ids_of_walkers_foods_meals_and_days() -> None:
    voice = Voice(walkers={"a": "Anna"}, foods={"oats": "Oat cereal"}, days={"2": "Fri 11"})
    assert voice.shown("a", "walker") == "Anna"
    assert voice.shown("oats", "food") == "Oat cereal"
    assert voice.shown("move", "meal") == "on the move"
    assert voice.shown(2, "day") == "Fri 11"
    assert voice.shown("2", "day") == "Fri 11"


def test_an_unknown_name_stands_for_itself() -> None:
    assert PLAIN.shown("zz", "walker") == "zz"
    assert PLAIN.shown(9, "day") == "day 9"


def test_a_text_where_a_number_is_expected_is_shown_as_it_is() -> None:
    assert PLAIN.shown("half", "percent") == "half"


def test_a_flag_without_a_sentence_shows_its_key_and_values_instead_of_nothing() -> None:
    flag = Flag(key="nobody.wrote.this", level="quiet", values={"over_g": 12})
    assert say_flag(flag) == "nobody.wrote.this: over_g 12"


def test_a_value_that_nobody_gave_shows_as_a_gap() -> None:
    assert "?" in say("trip.day_walk", distance=1000.0)


def test_the_scope_of_a_flag_names_walker_and_day() -> None:
    from oatsack.reports.words import _of_scope

    assert _of_scope("need/anna/2") == {"walker": "anna", "day": "2"}
    assert _of_scope("") == {}
    assert _of_scope("kitchen/fuel") == {"walker": "fuel"}
