"""Slips planted in every bundled food are found, and mostly called by their name.

The shares below are measured on the bundled larder (frozen): they guard the check against getting
blunter, and say honestly what it cannot see (a value that is wrong but possible).
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from oatsack.files.larder import bundled
from oatsack.larder.plausible import doubts
from oatsack.larder.slips import Slip, likely_slip, slips, undone
from oatsack.values.food import Food
from support.each import each
from support.foods import label

LEAST_KCAL = 10.0
"""Below this a dose is lost in the rounding of its label."""


def planted(key: str, *, bare: bool) -> list[Food]:
    """Every bundled food with one slip made in it; `bare` leaves only its energy."""
    out = []
    for food in bundled():
        if food.dose_kcal < LEAST_KCAL:
            continue
        for slip in slips(food):
            if slip.key == key and abs(math.log(slip.energy)) > 0.25:
                back = Slip(key=key, energy=1.0 / slip.energy, grams=1.0 / slip.grams)
                out.append(without_macros(undone(food, back)) if bare else undone(food, back))
    return out


def without_macros(food: Food) -> Food:
    blank = dict.fromkeys(("protein_g", "fat_g", "carb_g", "sugars_g", "fibre_g"))
    return replace(food, per_100g=replace(food.per_100g, **blank))


@pytest.mark.slow
@each(
    ("key", "bare", "found", "named"),
    [
        ("kj-as-kcal", False, 0.99, 0.99),
        ("kj-as-kcal", True, 0.97, 0.90),
        ("kcal-as-kj", False, 0.98, 0.97),
        ("kcal-as-kj", True, 0.92, 0.40),
        ("100g-as-serving", False, 0.96, 0.90),
        ("100g-as-serving", True, 0.92, 0.40),
        ("serving-as-100g", False, 0.85, 0.85),
        ("serving-as-100g", True, 0.85, 0.80),
        ("ounces-as-grams", False, 0.99, 0.95),
        ("ounces-as-grams", True, 0.99, 0.90),
        ("pack-as-serving", False, 0.99, 0.80),
        ("serving-as-pack", False, 0.94, 0.60),
        ("100g-as-pack", False, 0.65, 0.45),
        ("pack-as-100g", False, 0.90, 0.50),
        ("decimal-right", False, 0.99, 0.98),
        ("decimal-left", False, 0.98, 0.98),
    ],
)
def test_planted_slips_are_found(key: str, bare: bool, found: float, named: float) -> None:
    foods = planted(key, bare=bare)
    assert len(foods) > 100
    questioned = [doubts(food) for food in foods]
    assert sum(map(bool, questioned)) / len(foods) >= found
    right = sum(bool(flags) and flags[0].key == f"larder.{key}" for flags in questioned)
    assert right / len(foods) >= named


def test_undoing_a_slip_gives_the_label_back() -> None:
    food = label(kcal=800, of_g=170.0, pack_g=170.0, doses=6.0, fat_g=54.0)
    for slip in slips(food):
        back = Slip(key=slip.key, energy=1.0 / slip.energy, grams=1.0 / slip.grams)
        again = undone(undone(food, back), slip)
        assert again.per_100g.energy_kcal == pytest.approx(food.per_100g.energy_kcal)
        assert again.per_100g.fat_g == pytest.approx(food.per_100g.fat_g)


def test_a_food_of_one_dose_has_no_slips_between_pack_and_serving() -> None:
    keys = {slip.key for slip in slips(label(kcal=500, of_g=113.0))}
    assert not keys & {"pack-as-serving", "serving-as-pack", "100g-as-pack", "pack-as-100g"}


def test_a_right_label_is_explained_by_no_slip_that_changes_little() -> None:
    food = label(kcal=480, of_g=100.0, category="nut", name="Nut mix")
    assert "100g" not in likely_slip(food)
