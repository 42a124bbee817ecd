"""From read cells to a food: what is worked out, what clashes, what stays absent.

Energies come here in kcal, whatever column they stood in.
"""

from __future__ import annotations

from typing import Any

import pytest

from oatsack.files.larder_build import Clashes, build, slug
from oatsack.values.food import Food, Keep, Pouch, Prep, Stock
from support.each import each

BASE: dict[str, Any] = {"name": "Thing", "pack_g": 200.0, "per": "100 g", "kcal": 400.0}


def made(**more: Any) -> Food:
    food, clashes = build(BASE | more, {}, ("t.csv", 7))
    assert clashes == []
    assert food is not None
    return food


def clashing(**more: Any) -> Clashes:
    food, clashes = build(BASE | more, {}, ("t.csv", 7))
    assert food is None
    return clashes


def test_a_food_knows_where_it_was_read() -> None:
    assert (made().origin.file, made().origin.line) == ("t.csv", 7)


@each(
    ("name", "identity"),
    [
        ("Rolled oats", "rolled-oats"),
        ("Müsli, 500 g", "musli-500-g"),
        ("  Käse -- alt ", "kase-alt"),
        ("100% Cocoa", "100-cocoa"),
        ("Crème brûlée", "creme-brulee"),
        ("饼", ""),
    ],
)
def test_an_id_is_made_of_the_names_letters_and_digits(name: str, identity: str) -> None:
    assert slug(name) == identity


@each(
    ("got", "doses", "dose_g"),
    [
        ({}, 1.0, 200.0),
        ({"doses": 4.0}, 4.0, 50.0),
        ({"dose_g": 30.0}, 6.0, 30.0),
        ({"dose_g": 50.0}, 4.0, 50.0),
        ({"dose_g": 66.66666666666667}, 3.0, 66.66666666666667),
        ({"doses": 6.0, "dose_g": 30.0}, 6.0, 30.0),
        ({"doses": 2.5}, 2.5, 80.0),
    ],
)
def test_doses_and_dose_follow_from_each_other_and_the_pack(
    got: dict[str, float], doses: float, dose_g: float
) -> None:
    food = made(**got)
    assert food.doses_per_pack == doses
    assert food.dose_g == pytest.approx(dose_g)


@each(
    ("per", "factor"),
    [("100 g", 1.0), ("serving", 2.0), ("pack", 0.5), (25.0, 4.0), (28.349523125, 3.5273962)],
)
def test_every_nutrient_is_brought_to_100_g(per: str | float, factor: float) -> None:
    amounts = {"protein_g": 1.0, "fat_g": 2.0, "carb_g": 3.0, "fibre_g": 0.5, "sugars_g": 0.25,
               "polyols_g": 0.125, "potassium_mg": 30.0, "caffeine_mg": 4.0,
               "sodium_mg": 5.0}  # fmt: skip
    food = made(per=per, doses=4.0, **amounts)
    assert food.per_100g.energy_kcal == pytest.approx(400.0 * factor)
    for name, value in amounts.items():
        assert getattr(food.per_100g, name) == pytest.approx(value * factor), name


def test_a_headers_basis_goes_before_the_rows() -> None:
    food, _ = build(BASE | {"fat_g": 10.0}, {"fat_g": "pack"}, ("t.csv", 2))
    assert food is not None
    assert (food.per_100g.energy_kcal, food.per_100g.fat_g) == (400.0, 5.0)


def test_a_nutrient_without_any_basis_clashes_once_for_each() -> None:
    got = {"name": "X", "pack_g": 100.0, "kcal": 400.0, "fat_g": 3.0}
    _, clashes = build(got, {}, ("t.csv", 2))
    assert [key for key, _ in clashes] == ["per", "per"]


def test_salt_is_two_and_a_half_times_sodium() -> None:
    # Eu1169, Annex I.
    assert made(salt_g=1.25).per_100g.sodium_mg == pytest.approx(500.0)


@each(
    ("got", "total"),
    [
        ({"carb_g": 60.0}, 60.0),
        ({"carb_g": 60.0, "fibre_g": 9.0}, 60.0),
        ({"carb_available_g": 51.0, "fibre_g": 9.0}, 60.0),
        ({"carb_available_g": 51.0}, 51.0),
        ({"carb_g": 60.0, "carb_available_g": 51.0, "fibre_g": 9.0}, 60.0),
        ({"fibre_g": 9.0}, None),
    ],
)
def test_total_carbohydrate_is_stated_or_added_up(
    got: dict[str, float], total: float | None
) -> None:
    assert made(**got).per_100g.carb_g == total


@each(
    ("got", "columns"),
    [
        ({"kj": 95.6}, ["kj"]),
        ({"sodium_mg": 400.0, "salt_g": 0.4}, ["salt_g"]),
        ({"carb_g": 60.0, "carb_available_g": 60.0, "fibre_g": 9.0}, ["carb_available_g"]),
        ({"pack_g": 0.0}, ["pack_g"]),
        ({"doses": 0.0}, ["doses"]),
        ({"dose_g": 0.0}, ["dose_g"]),
        ({"serving_g": 0.0}, ["serving_g"]),
        ({"dose_g": 210.0}, ["dose_g"]),
        ({"doses": 0.9}, ["doses"]),
        ({"contains": frozenset({"milk"}), "free_of": frozenset({"milk"})}, ["free_of"]),
        ({"name": "饼"}, ["name"]),
        ({"kj": 95.6, "salt_g": 9.0, "sodium_mg": 1.0, "name": "饼"}, ["kj", "salt_g", "name"]),
    ],
)
def test_every_contradiction_of_a_row_is_told(got: dict[str, Any], columns: list[str]) -> None:
    clashes = clashing(**got)
    assert [key for key, _ in clashes] == columns
    assert all(bad.wrong and bad.instead for _, bad in clashes)


@each("twin", [{"kj": 1674.0}, {"kj": 1640.0}, {"kj": 1715.0}])
def test_two_energies_may_differ_by_rounding(twin: dict[str, float]) -> None:
    got = {"kcal": 400.0, "kj": twin["kj"] / 4.184}
    assert made(**got).per_100g.energy_kcal == 400.0


def test_an_allergen_in_three_columns_is_told_for_each_but_the_first() -> None:
    milk = frozenset({"milk"})
    clashes = clashing(contains=milk, may_contain=milk, free_of=milk)
    assert [key for key, _ in clashes] == ["may_contain", "free_of"]


def test_what_is_not_stated_is_the_default_of_its_value() -> None:
    food = made()
    assert (food.prep, food.keep, food.stock) == (Prep(), Keep(), Stock())
    assert food.pouch is None
    assert food.allergens == {}
    assert (food.role, food.carry, food.diet, food.category) == ("side", "repack", "check", "other")


def test_one_stated_thing_of_a_pouch_makes_a_pouch() -> None:
    assert made(pouch_holds_ml=900.0).pouch == Pouch(holds_ml=900.0)
    assert made(pouch_stands=False).pouch == Pouch()


def test_prep_and_keep_are_put_together() -> None:
    stated = {"prep": "boil", "water_ml": 240.0, "wait_min": 5.0, "from_bag": True}
    food = made(**stated, opened_days=3.0, melts=True)
    assert food.prep == Prep(kind="boil", water_ml=240.0, wait_min=5.0, from_bag=True)
    assert food.keep == Keep(opened_days=3.0, melts=True)


def test_origin_keeps_source_number_and_what_is_invented() -> None:
    origin = made(source="Usda2015", source_id="08120", invented="price  wrap_g").origin
    assert (origin.source, origin.source_id) == ("Usda2015", "08120")
    assert origin.invented == {"price", "wrap_g"}
