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
from oatsack.larder.slips import Slip, is_whole, likely_slip, slips, undone
from oatsack.values.food import Food, Nutrients
from support.each import each
from support.foods import by_id, label

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


MIX = label(kcal=150, of_g=30.0, pack_g=240.0, doses=8.0, category="nut", name="Nut mix",
            protein_g=4.5, fat_g=12.0, carb_g=6.0)  # fmt: skip


@each(
    ("key", "energy", "grams"),
    [
        # 4.184 kJ are one kcal (Usda2015); 28.35 g are one ounce; doses of 30 g, 8 in 240 g.
        ("kj-as-kcal", 4.184, 1.0),
        ("kcal-as-kj", 1 / 4.184, 1.0),
        ("100g-as-serving", 100 / 30, 100 / 30),
        ("serving-as-100g", 0.3, 0.3),
        ("ounces-as-grams", 28.349523125, 28.349523125),
        ("grams-as-ounces", 1 / 28.349523125, 1 / 28.349523125),
        ("pack-as-serving", 8.0, 8.0),
        ("serving-as-pack", 0.125, 0.125),
        ("100g-as-pack", 1 / 2.4, 1 / 2.4),
        ("pack-as-100g", 2.4, 2.4),
        ("decimal-right", 10.0, 1.0),
        ("decimal-left", 0.1, 1.0),
    ],
)
def test_each_slip_multiplies_energy_and_grams_by_what_it_confuses(
    key: str, energy: float, grams: float
) -> None:
    (slip,) = (slip for slip in slips(MIX) if slip.key == key)
    assert (slip.energy, slip.grams) == (pytest.approx(energy), pytest.approx(grams))
    # ... and undone it divides by them, whatever was blank stays so.
    mended = undone(MIX, slip).per_100g
    assert mended.energy_kcal == pytest.approx(500.0 / energy)
    assert (mended.fat_g, mended.sodium_mg) == (pytest.approx(40.0 / grams), None)


@each(
    ("changed", "whole"),
    [
        ({}, True),
        ({"energy_kcal": None}, False),
        ({"energy_kcal": 900.0}, False),  # beyond its class
        ({"energy_kcal": 250.0}, False),  # below it
        ({"energy_kcal": 700.0}, False),  # in its class, not what its macronutrients make
        ({"energy_kcal": 700.0, "fat_g": None}, True),  # nobody can tell
        ({"protein_g": 60.0, "fat_g": 20.0, "carb_g": 35.0}, False),  # 115 g in 100 g
    ],
)
def test_a_label_is_whole_when_energy_class_and_parts_agree(
    changed: dict[str, float | None], whole: bool
) -> None:
    assert is_whole(replace(MIX, per_100g=replace(MIX.per_100g, **changed))) is whole


@each(
    ("food", "slip"),
    [
        # Frozen: of the slips that explain a label, the nearer to the middle of the class, and the
        # commoner of two as near. A pack below 16 g was most likely given in ounces.
        (replace(MIX, per_100g=Nutrients(energy_kcal=500.0 * 4.184)), "kj-as-kcal"),
        (replace(MIX, dose_g=10.0, doses_per_pack=24.0, per_100g=Nutrients(energy_kcal=5000.0)),
         "100g-as-serving"),
        (replace(MIX, per_100g=Nutrients(energy_kcal=500.0 * 10)), "pack-as-serving"),
        (label(kcal=500, of_g=5.0, category="nut", name="Nut mix"), "ounces-as-grams"),
        (label(kcal=5000, of_g=100.0, category="nut", name="Nut mix"), "decimal-right"),
        (label(kcal=15000, of_g=100.0, category="nut", name="Nut mix"), "ounces-as-grams"),
        (label(kcal=50, of_g=100.0, category="nut", name="Nut mix"), "decimal-left"),
        (label(kcal=18, of_g=100.0, category="nut", name="Nut mix"), "grams-as-ounces"),
        (label(kcal=40000, of_g=100.0, category="nut", name="Nut mix"), ""),
    ],
)
def test_of_several_slips_the_likeliest_is_named(food: Food, slip: str) -> None:
    assert likely_slip(food) == slip


@each(
    ("grams", "slip"), [(1.0, "kj-as-kcal"), (100 / 30, "100g-as-serving"), (None, "kj-as-kcal")]
)
def test_the_macronutrients_decide_between_slips_that_fit_the_class_alike(
    grams: float | None, slip: str
) -> None:
    # 1,667 kcal: 398 if they are kJ, 500 if a dose of 30 g was given the energy of 100 g.
    parts = {"protein_g": 14.0, "fat_g": 32.0, "carb_g": 20.0}
    many = {name: None if grams is None else value * grams for name, value in parts.items()}
    per = Nutrients(energy_kcal=500.0 * 100 / 30, fibre_g=0.0, **many)
    assert likely_slip(replace(MIX, per_100g=per)) == slip


@each(
    ("food_id", "key"),
    [("sugar", "decimal-right"), ("creamer", "decimal-right"), ("dried-shiitake", "decimal-right"),
     ("creamer", "decimal-left"), ("sugar", "100g-as-pack")],
)  # fmt: skip
def test_where_several_slips_fit_the_one_that_mends_the_parts_as_well_is_named(
    food_id: str, key: str
) -> None:
    # Frozen: a point slipped in the energy alone leaves the parts true, and they tell.
    food = by_id()[food_id]
    (slip,) = (one for one in slips(food) if one.key == key)
    back = Slip(key=key, energy=1.0 / slip.energy, grams=1.0 / slip.grams)
    assert likely_slip(undone(food, back)) == key
