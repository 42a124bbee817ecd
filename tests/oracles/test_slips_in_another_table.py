"""Slips planted in rows of Ciqual2020, a table that the bounds were not drawn from.

The classes' bounds follow Usda2015 rows; here they are asked about another agency's foods, so that
the check is not only fitted to its own data. Shares are measured (frozen).
"""

from __future__ import annotations

import csv
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from oatsack.larder.energy import KJ_PER_KCAL
from oatsack.larder.plausible import doubts
from oatsack.larder.slips import OUNCE_G
from oatsack.values.food import Food
from support.each import each
from support.foods import by_id, label

LINES = (Path(__file__).parent / "crosscheck_ciqual.csv").read_text(encoding="utf-8").splitlines()
GRAMS = ("protein_g", "fat_g", "sugars_g", "fibre_g")


def food_of(row: dict[str, str]) -> Food:
    """A row as a food in packs of 200 g with doses of 40 g, by its own name."""
    stated = {name: float(row[name]) for name in GRAMS if row[name]}
    return label(
        kcal=float(row["kcal"]), of_g=100.0, pack_g=200.0, doses=5.0, id=row["id"],
        name=row["ciqual_name"], category=by_id()[row["id"]].category,
        carb_g=float(row["carb_total_g"]), **stated,
    )  # fmt: skip


ROWS = [food_of(row) for row in csv.DictReader(LINES) if row["kcal"]]


def energy_times(factor: float) -> Callable[[Food], Food]:
    def slip(food: Food) -> Food:
        energy = (food.per_100g.energy_kcal or 0.0) * factor
        return replace(food, per_100g=replace(food.per_100g, energy_kcal=energy))

    return slip


def all_times(factor: float) -> Callable[[Food], Food]:
    def slip(food: Food) -> Food:
        per = food.per_100g
        fields = ("energy_kcal", "carb_g", *GRAMS)
        grown = {n: None if getattr(per, n) is None else getattr(per, n) * factor for n in fields}
        return replace(food, per_100g=replace(per, **grown))

    return slip


def test_there_are_enough_rows_with_a_declared_energy() -> None:
    assert len(ROWS) >= 28


@each("food", ROWS, ids=lambda food: food.id)
def test_their_rows_are_believed_as_they_are(food: Food) -> None:
    assert doubts(food) == ()


@each(
    ("key", "slip", "found", "named"),
    [
        ("kj-as-kcal", energy_times(KJ_PER_KCAL), 1.0, 1.0),
        ("kcal-as-kj", energy_times(1.0 / KJ_PER_KCAL), 0.95, 0.95),
        ("100g-as-serving", all_times(2.5), 0.9, 0.8),
        ("serving-as-100g", all_times(0.4), 0.8, 0.75),
        ("ounces-as-grams", all_times(OUNCE_G), 1.0, 0.9),
        ("decimal-right", energy_times(10.0), 1.0, 0.95),
        ("decimal-left", energy_times(0.1), 0.95, 0.95),
    ],
)
def test_slips_in_their_rows_are_found_and_named(
    key: str, slip: Callable[[Food], Food], found: float, named: float
) -> None:
    flags = [doubts(slip(food)) for food in ROWS]
    assert sum(map(bool, flags)) / len(ROWS) >= found
    right = sum(bool(some) and some[0].key == f"larder.{key}" for some in flags)
    assert right / len(ROWS) >= named
