"""Allergens a walker must avoid are never lost, softened or guessed on the way in (C10, C11)."""

from __future__ import annotations

import itertools
from typing import get_args

import pytest

from oatsack.errors import TripFileError
from oatsack.files.trip import parse_trip
from oatsack.files.trip.picks import ALLERGEN_HINTS
from oatsack.values.food import ALLERGENS
from oatsack.values.trip import Trip
from oatsack.values.walker import Avoid, Scope
from support.each import each

BASE = """\
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"
[[walkers]]
mass = "68 kg"
avoids = {avoids}
[route]
usual_day = {{ distance = "16 km" }}
"""


def trip(avoids: str) -> Trip:
    return parse_trip(BASE.format(avoids=avoids), "trip.toml")


@each("allergen", ALLERGENS)
def test_every_allergen_can_be_named_short_and_long(allergen: str) -> None:
    for source in (f'"{allergen}"', f'["{allergen}"]', f'[{{ allergen = "{allergen}" }}]',
                   f'["{allergen.upper()}"]'):  # fmt: skip
        assert trip(source).walkers[0].avoids == (Avoid(allergen=allergen),)


@each(
    ("allergen", "scope", "traces"),
    list(itertools.product(["peanut", "gluten"], get_args(Scope), [True, False])),
)
def test_scope_and_traces_arrive_as_written(allergen: str, scope: Scope, traces: bool) -> None:
    source = f'[{{ allergen = "{allergen}", scope = "{scope}", traces = {str(traces).lower()} }}]'
    expected = Avoid(allergen=allergen, scope=scope, traces=traces)
    assert trip(source).walkers[0].avoids == (expected,)


def test_traces_are_not_fine_unless_said() -> None:
    assert trip('["peanut"]').walkers[0].avoids[0].traces is False


def test_all_of_several_arrive() -> None:
    listed = ", ".join(f'"{one}"' for one in ALLERGENS)
    assert [one.allergen for one in trip(f"[{listed}]").walkers[0].avoids] == list(ALLERGENS)


WORDS_OF_PEOPLE = sorted(ALLERGEN_HINTS)


@each("word", WORDS_OF_PEOPLE)
def test_a_word_that_people_use_is_refused_with_the_right_names_not_guessed(word: str) -> None:
    with pytest.raises(TripFileError) as caught:
        trip(f'["{word}"]')
    (fault,) = caught.value.faults
    assert fault.path == "walkers[0].avoids[0]"
    named = fault.instead.split('"')[1::2]
    assert named
    assert set(named) <= set(ALLERGENS)


@each(
    ("word", "named"),
    [
        ("nuts", {"tree_nut", "peanut"}),
        ("shellfish", {"crustacean", "mollusc"}),
        ("coeliac", {"gluten"}),
        ("lactose", {"milk"}),
    ],
)
def test_a_word_for_several_allergens_names_all_of_them(word: str, named: set[str]) -> None:
    with pytest.raises(TripFileError) as caught:
        trip(f'["{word}"]')
    assert set(caught.value.faults[0].instead.split('"')[1::2]) == named


@each("word", ["strawberry", "", "peanut butter", "no milk", "milk?"])
def test_a_word_that_is_no_allergen_is_refused_not_dropped(word: str) -> None:
    with pytest.raises(TripFileError):
        trip(f'["egg", "{word}"]')


@each(
    "avoids",
    ['{ allergen = "peanut" }', "[]", "true", '[["peanut"]]', '[{ scope = "pot" }]',
     '[{ allergen = "peanut", scope = "kitchen" }]', '[{ allergen = "peanut", traces = "no" }]',
     '[{ allergen = "peanut", trace = true }]'],
)  # fmt: skip
def test_nothing_but_an_empty_list_means_no_allergy(avoids: str) -> None:
    if avoids == "[]":
        assert trip(avoids).walkers[0].avoids == ()
    else:
        with pytest.raises(TripFileError):
            trip(avoids)


@each("key", ["avoid", "allergies", "avoyds", "Avoids", "allergy"])
def test_a_misspelt_key_for_allergies_never_passes_unseen(key: str) -> None:
    text = BASE.format(avoids='["peanut"]').replace("avoids", key)
    with pytest.raises(TripFileError) as caught:
        parse_trip(text, "trip.toml")
    assert [fault.line for fault in caught.value.faults] == [5]
