"""Where belief ends: each bound of the plausibility check, just inside and just outside.

Foods have doses of 100 kg, so that the rounding of a label (5 kcal and half a gram a dose) is
nothing and the bounds themselves are met.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.larder.plausible import DENSEST_G_ML, LOOSEST_G_ML, doubts
from oatsack.larder.slips import class_range, energy_range, grams_over
from oatsack.values.classes import CLASSES, KINDS
from oatsack.values.food import Food, Nutrients
from support.each import each
from support.foods import label

BULK_G = 100_000.0
HAIR = 0.5


def bulk(kcal: float, category: str, **more: object) -> Food:
    """A food per 100 g with a dose so large that rounding does not matter."""
    food = label(kcal=kcal, of_g=100.0, category=category, **more)  # type: ignore[arg-type]
    return replace(food, pack_g=BULK_G, dose_g=BULK_G, doses_per_pack=1.0)


def questioned(food: Food) -> bool:
    return bool(doubts(food))


@each("category", CLASSES)
def test_a_class_believes_up_to_its_bounds_and_no_further(category: str) -> None:
    row = CLASSES[category]
    assert not questioned(bulk(row.high_kcal - HAIR, category))
    assert questioned(bulk(row.high_kcal + HAIR, category))
    assert not questioned(bulk(row.low_kcal + HAIR, category))
    if row.low_kcal > HAIR:
        assert questioned(bulk(row.low_kcal - HAIR, category))


@each("kind", KINDS, ids=lambda kind: kind.kind)
def test_a_kind_believes_up_to_its_bounds_and_no_further(kind) -> None:  # type: ignore[no-untyped-def]
    name = " ".join(sorted(kind.words[0]))
    category = sorted(kind.categories - {"other"})[0]
    for inside in (kind.low_kcal + HAIR, kind.high_kcal - HAIR):
        assert not questioned(bulk(inside, category, name=name, id="x"))
    assert questioned(bulk(kind.high_kcal + HAIR, category, name=name, id="x"))
    if kind.low_kcal > HAIR:
        assert questioned(bulk(kind.low_kcal - HAIR, category, name=name, id="x"))


def test_rounding_widens_the_bounds_by_five_kilocalories_a_dose() -> None:
    # Fda2009, appendix H: to 10 kcal above 50, so half a step is 5.
    large = class_range(bulk(400, "snack"))
    small = class_range(label(kcal=120, of_g=30.0, category="snack"))
    assert small[1] - large[1] == pytest.approx(5.0 / 30.0 * 100.0, abs=0.01)
    assert large[0] - small[0] == pytest.approx(5.0 / 30.0 * 100.0, abs=0.01)


@each("sodium_mg", [0.0, 500.0, 2000.0])
def test_the_parts_may_fill_the_whole_and_not_more(sodium_mg: float) -> None:
    salt = sodium_mg * 2.5 / 1000.0
    full = Nutrients(protein_g=10.0, fat_g=20.0, carb_g=70.0 - salt, sodium_mg=sodium_mg)
    assert grams_over(full, 0.0) == 0.0
    over = replace(full, carb_g=75.0 - salt)
    assert grams_over(over, 0.0) == pytest.approx(4.0)


def test_blank_parts_weigh_nothing() -> None:
    assert grams_over(Nutrients(protein_g=99.0), 0.0) == 0.0


@each(
    ("protein", "fat", "carb", "fibre"),
    [
        (10.0, 20.0, 60.0, 5.0),
        (25.0, 50.0, 20.0, 9.0),
        (0.0, 0.0, 99.0, 0.0),
        (7.0, 1.0, 80.0, 3.0),
    ],
)
def test_energy_is_believed_as_far_as_the_macronutrients_allow(
    protein: float, fat: float, carb: float, fibre: float
) -> None:
    def with_energy(kcal: float) -> Food:
        return bulk(kcal, "other", protein_g=protein, fat_g=fat, carb_g=carb, fibre_g=fibre)

    general = 4.0 * protein + 9.0 * fat + 4.0 * carb
    span = energy_range(with_energy(general))
    assert span is not None
    assert span[0] < 0.93 * general < general < 1.05 * general < span[1]
    assert not questioned(with_energy(general))
    assert not questioned(with_energy(0.93 * general))
    assert questioned(with_energy(span[0] - 1.0))
    assert questioned(with_energy(min(span[1] + 1.0, 901.0)))


@each("category", ["snack", "bread", "meal", "nut", "protein"])
def test_sodium_is_believed_to_a_quarter_above_the_high_value_of_the_class(category: str) -> None:
    high = CLASSES[category].high["sodium_mg"]
    middle = (CLASSES[category].low_kcal + CLASSES[category].high_kcal) / 2
    assert not questioned(bulk(middle, category, sodium_mg=1.25 * high + 99.0))
    assert questioned(bulk(middle, category, sodium_mg=1.25 * high + 102.0))


@each("name", ["Table salt", "Bouillon cube", "Rehydration salts"])
def test_salty_things_may_be_salty(name: str) -> None:
    kcal = {"Table salt": 0.0, "Bouillon cube": 200.0, "Rehydration salts": 260.0}[name]
    sodium = {"Table salt": 38758.0, "Bouillon cube": 24000.0, "Rehydration salts": 8307.0}[name]
    assert not questioned(bulk(kcal, "condiment" if name == "Table salt" else "small",
                               name=name, sodium_mg=sodium))  # fmt: skip


@each(
    ("name", "caffeine_mg", "doubted"),
    [
        ("Instant coffee", 3142.0, False),
        ("Instant coffee", 6000.0, True),
        ("Tea powder", 5714.0, False),
        ("Decaf coffee", 122.0, False),
        ("Decaf coffee", 3142.0, True),
        ("Energy drink powder", 300.0, False),
        ("Energy drink powder", 3000.0, True),
    ],
)
def test_caffeine_is_believed_by_kind(name: str, caffeine_mg: float, doubted: bool) -> None:
    food = bulk(300.0, "drink", name=name, id="x", caffeine_mg=caffeine_mg)
    assert questioned(food) is doubted


@each(
    ("doses", "dose_g", "doubted"),
    [
        (6.0, 28.0, False),  # 168 of 170: the crumbs are left over (C5)
        (6.0, 29.0, False),  # 174 of 170: "about 6 servings"
        (6.0, 30.5, True),
        (5.0, 28.0, True),  # a sixth dose is not accounted for
        (5.0, 30.0, False),  # 150 of 170: less than one dose left over
        (2.0, 85.0, False),
        (3.0, 85.0, True),
        (6.0, 1.0, True),  # an ounce read as a gram
    ],
)
def test_doses_must_fill_the_pack_and_not_burst_it(
    doses: float, dose_g: float, doubted: bool
) -> None:
    food = label(kcal=800, of_g=170.0, category="nut", name="Mix")
    assert questioned(replace(food, doses_per_pack=doses, dose_g=dose_g)) is doubted


@each(
    ("grams_per_ml", "doubted"),
    [(LOOSEST_G_ML * 1.01, False), (LOOSEST_G_ML * 0.99, True), (DENSEST_G_ML * 0.99, False),
     (DENSEST_G_ML * 1.01, True), (0.5, False)],
)  # fmt: skip
def test_volume_is_believed_between_crisps_and_syrup(grams_per_ml: float, doubted: bool) -> None:
    food = label(kcal=480, of_g=100.0, category="snack", pack_ml=100.0 / grams_per_ml)
    assert questioned(food) is doubted


@each("role", ["main", "snack"])
@each(("pack_g", "doubted"), [(15.9, True), (16.1, False)])
def test_tiny_packs_of_bulky_food_are_taken_for_ounces(
    role: str, pack_g: float, doubted: bool
) -> None:
    food = label(kcal=4.4 * pack_g, of_g=pack_g, category="meal", name="Dinner", role=role)
    assert questioned(food) is doubted


@each("role", ["small", "topping", "drink", "side"])
def test_tiny_packs_of_other_things_are_what_they_are(role: str) -> None:
    food = label(kcal=20.0, of_g=5.0, category="dairy", name="Milk sachet", role=role)
    assert not questioned(food)


@each(
    ("part", "key"),
    [
        ("fibre_g", "larder.available-as-total"),
        ("sugars_g", "larder.sugars-over-carb"),
        ("polyols_g", "larder.polyols-over-carb"),
    ],
)
def test_a_part_of_carbohydrate_may_equal_it_and_not_exceed_it(part: str, key: str) -> None:
    equal = bulk(300.0, "other", carb_g=50.0, **{part: 50.0})
    over = bulk(300.0, "other", carb_g=50.0, **{part: 51.0})
    assert not questioned(equal)
    assert [flag.key for flag in doubts(over)] == [key]


def test_parts_without_a_whole_are_not_judged() -> None:
    assert not questioned(bulk(300.0, "other", sugars_g=50.0, fibre_g=20.0))
