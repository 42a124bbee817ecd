"""Label rules beside their printed cases: monotone, on their steps, only for what has a rule."""

from __future__ import annotations

import math

import pytest

from oatsack.larder.labels import (
    LESS,
    band,
    energy_slack,
    eu_energy,
    grams_slack,
    us_label,
    us_rounded,
)  # fmt: skip
from oatsack.values.food import Nutrients
from support.each import each
from support.foods import by_id


def numbers(nutrient: str, value: float) -> list[float]:
    return sorted(x if isinstance(x, float) else 0.75 for x in us_rounded(nutrient, value))


@each(
    "nutrient", ["energy_kcal", "fat_g", "sodium_mg", "potassium_mg", "carb_g", "protein_g"]
)
def test_more_in_the_food_is_never_less_on_the_label(nutrient: str) -> None:
    values = [n * 0.13 for n in range(2000)]
    shown = [numbers(nutrient, value)[-1] for value in values]
    assert shown == sorted(shown)


@each(
    ("nutrient", "border", "fine", "coarse"),
    [("energy_kcal", 50.0, 5.0, 10.0), ("fat_g", 5.0, 0.5, 1.0), ("sodium_mg", 140.0, 5.0, 10.0)],
)
def test_steps_change_at_the_border(
    nutrient: str, border: float, fine: float, coarse: float
) -> None:
    # Fda2009, appendix H.
    below = {x for v in range(int(border * 10)) for x in numbers(nutrient, v / 10)}
    tenths = range(int(border * 10) + 1, int(border * 30))
    above = {x for v in tenths for x in numbers(nutrient, v / 10)}
    assert all(math.isclose(x % fine, 0.0, abs_tol=1e-9) for x in below)
    assert any(not math.isclose(x % coarse, 0.0, abs_tol=1e-9) for x in below)
    assert all(math.isclose(x % coarse, 0.0, abs_tol=1e-9) for x in above)


@each("nutrient", ["carb_g", "sugars_g", "fibre_g", "polyols_g"])
def test_half_a_gram_to_a_gram_is_less_than_one(nutrient: str) -> None:
    assert us_rounded(nutrient, 0.499) == {0.0}
    assert us_rounded(nutrient, 0.5) == {LESS}
    assert us_rounded(nutrient, 0.999) == {LESS}
    assert us_rounded(nutrient, 1.0) == {1.0}


def test_a_label_has_no_line_for_what_is_not_stated() -> None:
    lines = us_label(Nutrients(energy_kcal=400.0, fat_g=10.0), 30.0)
    assert lines == {"energy_kcal": {120.0}, "fat_g": {3.0}}


@each("food_id", ["almonds", "beef-jerky", "rolled-oats", "trail-mix-choc"])
def test_a_label_read_back_lies_within_its_rounding(food_id: str) -> None:
    food = by_id()[food_id]
    for name, shown in us_label(food.per_100g, food.dose_g).items():
        exact = food.per_dose(name)
        assert exact is not None
        slack = {"energy_kcal": energy_slack, "sodium_mg": energy_slack}.get(name, grams_slack)
        for value in shown:
            if isinstance(value, float):
                assert abs(value - exact) <= slack(food.dose_g) * food.dose_g / 100.0 + 1e-9, name


@each(
    ("part", "kcal", "kj"),
    [("protein_g", 4, 17), ("fat_g", 9, 37), ("carb_available_g", 4, 17), ("fibre_g", 2, 8),
     ("polyols_g", 2.4, 10), ("acids_g", 3, 13), ("alcohol_g", 7, 29)],
)  # fmt: skip
def test_each_factor_of_the_european_annex(part: str, kcal: float, kj: float) -> None:
    # Eu1169, Annex XIV.
    amounts = {"protein_g": 0.0, "fat_g": 0.0, "carb_available_g": 0.0} | {part: 10.0}
    protein, fat = amounts.pop("protein_g"), amounts.pop("fat_g")
    assert eu_energy(protein, fat, **amounts) == (pytest.approx(10 * kcal), pytest.approx(10 * kj))


def test_the_band_is_symmetric_and_grows_with_the_value() -> None:
    assert band(0.0) == (0.0, 0.0)
    low, high = band(3093.0)
    assert (low + high) / 2 == pytest.approx(3093.0)
    assert high / low == pytest.approx(1.5)


def test_rounding_matters_more_the_smaller_the_serving() -> None:
    assert energy_slack(28.0) == pytest.approx(17.857, abs=1e-3)
    assert energy_slack(4.0) > energy_slack(28.0) > energy_slack(113.0)
    assert grams_slack(50.0) == 1.0


@each(
    ("nutrient", "value", "shown"),
    [
        # Fda2009, appendix H; both neighbours at a tie.
        ("energy_kcal", 4.9, {0.0, 5.0}),
        ("energy_kcal", 5.0, {5.0}),
        ("energy_kcal", 47.4, {45.0}),
        ("energy_kcal", 47.5, {45.0, 50.0}),
        ("energy_kcal", 54.9, {50.0}),
        ("energy_kcal", 55.0, {50.0, 60.0}),
        ("energy_kcal", 55.1, {60.0}),
        ("fat_g", 0.49, {0.0}),
        ("fat_g", 0.5, {0.5}),
        ("fat_g", 4.7, {4.5}),
        ("fat_g", 4.75, {4.5, 5.0}),
        ("fat_g", 5.4, {5.0}),
        ("fat_g", 5.5, {5.0, 6.0}),
        ("sodium_mg", 4.9, {0.0}),
        ("sodium_mg", 5.0, {5.0}),
        ("sodium_mg", 137.0, {135.0}),
        ("sodium_mg", 145.0, {140.0, 150.0}),
        ("potassium_mg", 144.9, {140.0}),
        ("protein_g", 0.7, {LESS, 1.0}),
        ("protein_g", 0.4, {0.0}),
        ("carb_g", 2.5, {2.0, 3.0}),
        ("carb_g", 2.6, {3.0}),
    ],
)
def test_each_rule_at_its_border(nutrient: str, value: float, shown: set[float | str]) -> None:
    assert us_rounded(nutrient, value) == shown


def test_what_has_no_rule_is_refused_by_its_name() -> None:
    with pytest.raises(KeyError, match="caffeine_mg"):
        us_rounded("caffeine_mg", 40.0)
