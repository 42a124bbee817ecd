"""Every doubt about a food has a sentence, and every such sentence belongs to a doubt."""

from __future__ import annotations

import datetime as dt
import string
from functools import cache

import pytest

from oatsack.larder.energy import with_energy
from oatsack.larder.plausible import doubts
from oatsack.larder.slips import Slip, slips, undone
from oatsack.larder.stock import Lot, stale
from oatsack.reports.words import sentences
from oatsack.values.flags import Flag
from support.each import each
from support.foods import by_id, label

PREFIX = "flags.larder."
WORDS = {
    key.removeprefix(PREFIX): text
    for key, text in sentences().items()
    if key.startswith(PREFIX)
}
DAY = dt.date(2027, 1, 1)
MIX = {"category": "nut", "name": "Nut mix", "role": "snack"}


@cache
def raised() -> dict[str, Flag]:
    """One flag of each key that the larder can raise, from foods made for it."""
    flags: list[Flag] = []
    for food in by_id().values():
        for slip in slips(food):
            back = Slip(key="", energy=1 / slip.energy, grams=1 / slip.grams)
            flags += doubts(undone(food, back))
    for food in (
        label(kcal=260, of_g=100.0, **MIX),
        label(kcal=860, of_g=100.0, **MIX),
        label(kcal=640, of_g=100.0, **MIX, protein_g=14.0, fat_g=30.0, carb_g=30.0),
        label(kcal=480, of_g=100.0, category="grain", protein_g=40.0, fat_g=2.0, carb_g=78.0),
        label(kcal=400, of_g=100.0, carb_g=10.0, fibre_g=30.0, sugars_g=30.0, polyols_g=30.0),
        label(kcal=800, of_g=170.0, **MIX, doses=3.0, dose_g=90.0),
        label(kcal=800, of_g=170.0, **MIX, dose_g=20.0),
        label(kcal=18, of_g=4.0, category="meal", role="main"),
        label(kcal=540, of_g=100.0, category="snack", sodium_mg=4000.0),
        label(kcal=540, of_g=100.0, category="snack", sodium_mg=40000.0),
        label(kcal=540, of_g=100.0, category="snack", sodium_mg=1.2, taste="salty"),
        label(kcal=398, of_g=100.0, category="drink", caffeine_mg=1800.0),
        label(kcal=800, of_g=170.0, pack_ml=17.0, **MIX),
    ):
        flags += doubts(food)
    flags += with_energy(label(kcal=None, of_g=1.0))[1]
    flags += with_energy(label(kcal=None, of_g=1.0, protein_g=0.1, fat_g=0.1, carb_g=0.1))[1]
    flags += stale([Lot(food="x", packs=1.0, best_before=DAY)], DAY.replace(year=DAY.year + 1))
    return {flag.key.removeprefix("larder."): flag for flag in flags}


@pytest.mark.slow
def test_every_doubt_has_a_sentence_and_every_sentence_a_doubt() -> None:
    assert set(raised()) == set(WORDS)


@each("key", sorted(WORDS))
def test_a_sentence_uses_only_what_its_flag_gives(key: str) -> None:
    wanted = {name for _, name, _, _ in string.Formatter().parse(WORDS[key]) if name}
    assert wanted <= set(raised()[key].values)
    assert "food" in wanted


@each("key", sorted(WORDS))
def test_a_sentence_says_what_to_do_or_what_was_likely_misread(key: str) -> None:
    said = ("Most likely", "Look at", "misread", "not counted", "left out", "worked out")
    assert any(word in WORDS[key] for word in said)


def test_a_flag_points_at_its_food() -> None:
    assert raised()
    for flag in raised().values():
        assert flag.scope == f"larder/{flag.values['food']}", flag.key
