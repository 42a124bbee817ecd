"""The bundled larder against another agency's food table, read through the larder code.

The table is Ciqual2020 (Anses, Licence Ouverte 2.0): 48 foods mapped to ours. Tolerances: protein,
fat and total carbohydrate 20 % or 3 g, energy 10 %. Left out are four rows that are other products
(sweetened cocoa, coffee with other extraction, noodles without their frying fat, a drier wrap) and
the carbohydrate of two cheeses, which that table gives as 0. Nine of its rows took potassium from
Usda2015, so minerals are not compared.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from oatsack.larder.energy import fibre_apart
from oatsack.larder.plausible import doubts
from oatsack.values.food import Food
from support.each import each
from support.foods import by_id, read, table

ROWS = list(csv.DictReader(
    (Path(__file__).parent / "crosscheck_ciqual.csv").read_text(encoding="utf-8").splitlines()
))  # fmt: skip
OTHER_PRODUCTS = {"cocoa-powder", "instant-coffee", "ramen", "flour-tortilla"}
NO_CARB = {"cheddar", "parmesan-grated"}
COLUMNS = {
    "id": "id", "ciqual_name": "name", "kcal": "kcal", "carb_available_g": "carb_available_g",
    "protein_g": "protein_g", "fat_g": "fat_g", "sugars_g": "sugars_g", "fibre_g": "fibre_g",
    "sodium_mg": "sodium_mg", "potassium_mg": "potassium_mg",
}  # fmt: skip


def theirs(delimiter: str = ",", decimal: str = ".") -> dict[str, Food]:
    """Their table as a larder file of packs of 100 g, read as any user's file is."""
    header = [*COLUMNS.values(), "pack_g", "per", "category"]
    rows = [
        [numeric(row[name], decimal) for name in COLUMNS]
        + ["100", "100 g", by_id()[row["id"]].category]
        for row in ROWS
    ]
    return {food.id: food for food in read(table(header, rows, delimiter=delimiter), "ciqual.csv")}


def numeric(text: str, decimal: str) -> str:
    try:
        float(text)
    except ValueError:
        return text
    return text.replace(".", decimal)


THEIRS = theirs()
SAME = [row["id"] for row in ROWS if row["id"] not in OTHER_PRODUCTS]


def test_all_of_their_rows_are_read() -> None:
    assert len(THEIRS) == len(ROWS) == 48
    assert len(SAME) == 44


def test_a_sheet_with_decimal_commas_and_semicolons_reads_the_same() -> None:
    assert theirs(";", ",") == THEIRS


@each("food_id", SAME)
@each("nutrient", ["protein_g", "fat_g", "carb_g"])
def test_macronutrients_agree_within_a_fifth_or_three_grams(food_id: str, nutrient: str) -> None:
    if nutrient == "carb_g" and food_id in NO_CARB:
        assert THEIRS[food_id].per_100g.carb_g == 0.0
        return
    ours = getattr(by_id()[food_id].per_100g, nutrient)
    other = getattr(THEIRS[food_id].per_100g, nutrient)
    assert abs(ours - other) <= max(3.0, 0.2 * other)


@each("food_id", SAME)
def test_energies_agree_within_a_tenth(food_id: str) -> None:
    other = THEIRS[food_id].per_100g.energy_kcal
    if other is None:
        # Their table gives no energy by the European rule: the fallback stands in (C3).
        other = fibre_apart(THEIRS[food_id].per_100g)
        assert other is not None
    assert other == pytest.approx(by_id()[food_id].per_100g.energy_kcal, rel=0.1)


@each("food_id", sorted(OTHER_PRODUCTS))
def test_the_products_left_out_do_differ(food_id: str) -> None:
    ours, other = by_id()[food_id].per_100g, THEIRS[food_id].per_100g
    energy = abs((other.energy_kcal or 0.0) / (ours.energy_kcal or 1.0) - 1.0) > 0.1
    fat = abs((ours.fat_g or 0.0) - (other.fat_g or 0.0)) > max(3.0, 0.2 * (other.fat_g or 0.0))
    assert energy or fat


@each("row", ROWS, ids=lambda row: row["id"])
def test_total_carbohydrate_is_available_plus_fibre(row: dict[str, str]) -> None:
    assert THEIRS[row["id"]].per_100g.carb_g == pytest.approx(float(row["carb_total_g"]), abs=0.011)


@each("food_id", SAME)
def test_their_rows_are_plausible_too(food_id: str) -> None:
    assert doubts(THEIRS[food_id]) == ()


DAY = {
    "instant-oatmeal-maple": 86, "whole-milk-powder": 20, "instant-coffee": 4,
    "trail-mix-choc": 100, "flour-tortilla": 98, "peanut-butter": 64, "dried-apricots": 50,
    "cheddar": 56, "ramen": 85, "tuna-oil": 74, "olive-oil": 14, "dark-chocolate": 40,
    "cocoa-mix": 28, "beef-jerky": 40,
}  # fmt: skip
"""Grams eaten on one day."""


def total(nutrient: str, foods: dict[str, float]) -> float:
    return sum(getattr(by_id()[name].per_100g, nutrient) * g / 100.0 for name, g in foods.items())


def test_a_day_of_food_sums_to_the_hand_sum() -> None:
    # Summed apart from the program from rows of Usda2015.
    assert sum(DAY.values()) == 759
    for nutrient, wanted, half in [
        ("energy_kcal", 3093, 0.5), ("protein_g", 112.9, 0.05), ("fat_g", 164.0, 0.05),
        ("carb_g", 314.6, 0.05), ("sugars_g", 127.1, 0.05), ("fibre_g", 29.0, 0.05),
        ("sodium_mg", 4868, 0.5), ("potassium_mg", 3508, 0.5), ("caffeine_mg", 163, 0.5),
    ]:  # fmt: skip
        assert total(nutrient, DAY) == pytest.approx(wanted, abs=half), nutrient


def test_the_days_density_and_its_split_by_the_general_factors() -> None:
    # 4-9-4 on the totals runs 3 % high; per ounce, the factor is 28.3495 g.
    kcal, grams = total("energy_kcal", DAY), sum(DAY.values())
    assert kcal / grams == pytest.approx(4.08, abs=0.005)
    assert kcal / grams * 28.349523125 == pytest.approx(115.5, abs=0.1)
    parts = [factor * total(name, DAY) for name, factor in
             (("protein_g", 4.0), ("fat_g", 9.0), ("carb_g", 4.0))]  # fmt: skip
    assert sum(parts) == pytest.approx(3186, abs=1.0)
    assert sum(parts) / kcal == pytest.approx(1.030, abs=0.0005)
    assert [100 * part / sum(parts) for part in parts] == pytest.approx(
        [14.2, 46.3, 39.5], abs=0.05
    )


def test_the_same_day_from_an_older_release_is_a_fifth_of_a_per_cent_apart() -> None:
    # Release 26 of the same table (2013), thirteen foods; the maple oatmeal is not in it.
    others = {name: g for name, g in DAY.items() if name != "instant-oatmeal-maple"}
    assert total("energy_kcal", others) == pytest.approx(2769.8, rel=0.0035)
