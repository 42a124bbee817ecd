"""Classes and kinds of food: their bounds hold the table rows, and blanks count high (C2)."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from oatsack.values.classes import (
    ALL_FAT_KCAL,
    CATEGORIES,
    CLASSES,
    KINDS,
    NUTRIENTS,
    class_of,
    energy_bounds,
    high_of,
    kind_of,
    pack_ml_of,
)  # fmt: skip
from support.each import each
from support.foods import by_id, label

TABLE = Path(__file__).resolve().parents[3] / "scripts" / "data" / "composition.csv"
LINES = TABLE.read_text(encoding="utf-8").splitlines()
ROWS = [row for row in csv.DictReader(LINES) if row["made"] == "table"]


@each("row", ROWS, ids=lambda row: row["id"])
def test_the_class_of_a_table_row_holds_its_energy(row: dict[str, str]) -> None:
    # Usda2015: the rows of each class.
    bounds = CLASSES[row["category"]]
    assert bounds.low_kcal <= float(row["kcal"]) <= bounds.high_kcal


@each("food", [pytest.param(f, id=f.id) for f in by_id().values()])
def test_a_blank_would_count_at_least_as_high_as_the_value(food) -> None:  # type: ignore[no-untyped-def]
    assert energy_bounds(food)[0] <= (food.per_100g.energy_kcal or 0.0) <= energy_bounds(food)[1]
    for nutrient in NUTRIENTS:
        value = getattr(food.per_100g, nutrient)
        assert value is None or value <= high_of(food, nutrient), nutrient


@each("category", CATEGORIES)
def test_the_table_of_classes_is_sane(category: str) -> None:
    row = CLASSES[category]
    assert row.category == category
    assert 0.0 <= row.low_kcal < row.high_kcal <= ALL_FAT_KCAL
    assert 0.1 < row.loose_g_ml < 1.5
    assert set(row.high) == set(NUTRIENTS)
    assert all(0.0 <= row.high[n] <= 100.0 for n in NUTRIENTS if n.endswith("_g"))
    assert row.source


@each("kind", KINDS, ids=lambda kind: kind.kind)
def test_every_kind_stands_inside_known_classes(kind) -> None:  # type: ignore[no-untyped-def]
    assert kind.categories <= set(CATEGORIES)
    assert kind.low_kcal < kind.high_kcal <= ALL_FAT_KCAL
    assert set(kind.high) <= set(NUTRIENTS)


@each(
    ("food_id", "kind"),
    [
        ("rolled-oats", "oats"), ("instant-oatmeal-maple", "oats"), ("beef-jerky", "dried meat"),
        ("banana-chips", "fried fruit"), ("raisins", "dried fruit"), ("olive-oil", "oil"),
        ("instant-coffee", "coffee"), ("decaf-coffee", "decaffeinated"), ("tea-bag", "tea"),
        ("coffee-milk-sugar", "mixed coffee"), ("salt-sachet", "salt"),
        ("fd-beef-stew", "dry meal"), ("whole-milk-powder", "milk powder"),
        ("oatmeal-cookie", None), ("granola-bar-hard", None), ("almonds", None),
    ],
)  # fmt: skip
def test_words_of_the_name_tell_the_kind(food_id: str, kind: str | None) -> None:
    found = kind_of(by_id()[food_id])
    assert (found.kind if found else None) == kind


def test_a_blank_counts_as_the_high_value_of_its_class() -> None:
    food = label(kcal=None, of_g=100.0, category="snack")
    assert high_of(food, "sodium_mg") == CLASSES["snack"].high["sodium_mg"]
    assert high_of(food, "energy_kcal") == CLASSES["snack"].high_kcal


def test_a_kind_outranks_its_class() -> None:
    coffee = label(kcal=None, of_g=2.0, category="drink", name="Coffee sticks")
    assert high_of(coffee, "caffeine_mg") > 10 * CLASSES["drink"].high["caffeine_mg"]


def test_an_unknown_category_counts_as_other() -> None:
    assert class_of(label(kcal=1, of_g=1.0, category="mystery")) is CLASSES["other"]


def test_a_pack_without_volume_gets_that_of_its_class_and_says_so() -> None:
    food = label(kcal=100, of_g=290.0, category="nut")
    millilitres, guessed = pack_ml_of(food)
    assert (millilitres, guessed) == (pytest.approx(500.0), True)
    assert pack_ml_of(label(kcal=100, of_g=290.0, pack_ml=321.0)) == (321.0, False)


@each(
    ("category", "food_id"),
    [
        ("nut", "almonds"),
        ("breakfast", "granola"),
        ("vegetable", "onion-flakes"),
        ("fat", "butter"),
    ],
)
def test_loose_densities_are_near_household_measures(category: str, food_id: str) -> None:
    # Usda2015, household measures: almonds 143 g, granola 122 g a cup; onion flakes 14 g a quarter
    # cup; butter 227 g a cup (236.588 ml).
    row = next(row for row in ROWS if row["id"] == food_id)
    assert row["density"] == "measure"
    assert CLASSES[category].loose_g_ml == pytest.approx(float(row["density_g_ml"]), rel=0.2)
