"""Whether the invented packs could stand in a shop: mass, volume, wrapping, price, water, minutes.

The ranges are common practice where nothing else stands beside them. Allergens are held against a
list of words that was written apart from the table.
"""

from __future__ import annotations

import re

import pytest

from oatsack.files.larder import bundled
from oatsack.values.food import Food
from support.each import each
from support.foods import by_id

FOODS = [pytest.param(food, id=food.id) for food in bundled()]
EATEN = [pytest.param(food, id=food.id) for food in bundled() if food.role != "small"]

MUST_CONTAIN = {
    "milk": "milk|cheese|cheddar|parmesan|gouda|swiss|^butter$|ghee|creamer|whey|caramel",
    "egg": "egg|mayonnaise",
    "fish": "tuna|salmon|sardine",
    "peanut": "peanut",
    "tree_nut": "almond|cashew|walnut|pecan|macadamia|hazelnut|pistachio|brazil|mixed-nuts",
    "wheat": "wheat|flour|tortilla$|pita|bagel|saltines|pretzel|ramen|couscous|bulgur|pasta|farina"
             "|macaroni|spaghetti|lasagna|cookie|shortbread",
    "gluten": "oat|granola|rye|wheat|flour|pita|bagel|ramen|couscous|bulgur|pasta|farina",
    "soy": "soy|tofu|tvp",
    "sesame": "sesame|tahini|halva|hummus",
    "mustard": "^mustard$|mayonnaise",
}  # fmt: skip
"""Ids that must hold an allergen (common knowledge), as patterns."""
NOT_HELD = {
    "wheat": {"peanut-flour", "corn-tortilla"},
    "gluten": {"peanut-flour", "rolled-oats-gf"},
}
"""Foods that the pattern meets by chance or that are made free of it."""


@each("allergen", MUST_CONTAIN)
def test_foods_named_after_an_allergen_contain_it(allergen: str) -> None:
    named = [f for f in bundled() if re.search(MUST_CONTAIN[allergen], f.id)]
    assert named
    missing = {f.id for f in named if f.state(allergen) != "contains"}
    assert missing == NOT_HELD.get(allergen, set())


def test_meat_and_fish_are_in_no_vegetarian_food() -> None:
    words = "beef|chicken|salami|pepperoni|sausage|bacon|jerky|tuna|salmon|sardine|meat|marshmallow"
    for food in bundled():
        if re.search(words, food.id):
            assert food.diet in ("meat", "fish"), food.id


@each("food", FOODS)
def test_a_pack_weighs_what_people_carry(food: Food) -> None:
    assert 5.0 < food.pack_g <= 1000.0
    assert 0.2 <= food.dose_g <= 130.0


@each("food", FOODS)
def test_a_pack_has_a_possible_bulk(food: Food) -> None:
    assert food.pack_ml is not None
    assert 0.06 <= food.pack_g / food.pack_ml <= 1.45


@each("food", EATEN)
def test_a_kilogram_costs_what_food_costs(food: Food) -> None:
    assert food.price is not None
    assert 0.8 <= 1000.0 * food.price / food.pack_g <= 185.0


@each("food", EATEN)
def test_a_dose_holds_a_sensible_amount_of_energy(food: Food) -> None:
    limits = {"main": (100, 570), "snack": (35, 350), "side": (8, 320), "topping": (0.5, 250),
              "drink": (2, 160)}[food.role]  # fmt: skip
    assert limits[0] <= food.dose_kcal <= limits[1]


@each(
    ("carry", "category", "low", "high"),
    [
        # Shares of the gross mass (common practice): bars and sachets, foil pouches, bags.
        ("sealed", "snack", 0.03, 0.08),
        ("sealed", "meal", 0.12, 0.25),
        ("bag", "nut", 0.01, 0.06),
        ("bag", "fruit", 0.01, 0.06),
        ("repack", "grain", 0.005, 0.05),
    ],
)
def test_wrapping_is_the_share_that_such_packs_have(
    carry: str, category: str, low: float, high: float
) -> None:
    some = [f for f in bundled() if f.carry == carry and f.category == category]
    assert len(some) >= 5
    for food in some:
        assert food.wrap_g is not None
        assert low <= food.wrap_g / (food.pack_g + food.wrap_g) <= high, food.id


@each(
    ("food_id", "low", "high"),
    [
        # Water in ml for each gram of dry food (common practice): by volume one to one for flakes,
        # couscous and instant rice; two to two and a half for oats; a litre for 340 g of pasta.
        ("couscous", 1.0, 1.6), ("instant-white-rice", 1.8, 2.6), ("potato-flakes", 3.0, 4.5),
        ("rolled-oats", 4.5, 7.0), ("pasta", 2.5, 3.2), ("white-rice", 2.0, 2.6),
        ("instant-oatmeal-maple", 2.7, 3.7), ("red-lentils", 2.0, 3.2), ("ramen", 4.0, 6.0),
        ("whole-milk-powder", 0.0, 0.0),
    ],
)  # fmt: skip
def test_dry_food_takes_the_water_that_it_needs(food_id: str, low: float, high: float) -> None:
    food = by_id()[food_id]
    assert low <= food.prep.water_ml / food.dose_g <= high


@each(
    "food", [pytest.param(f, id=f.id) for f in bundled() if f.category == "meal"]
)
def test_a_freeze_dried_dish_takes_water_in_the_measure_of_its_cooked_row(food: Food) -> None:
    # Rescaled rows: 2.3 to 5.2 g as eaten for each gram dry; the water poured is about the rest.
    poured = food.prep.water_ml / food.dose_g
    assert 1.2 <= poured <= 4.3
    assert 5.0 <= food.prep.wait_min <= 20.0


@each("food", FOODS)
def test_hot_drinks_are_a_mug_and_no_more(food: Food) -> None:
    if food.prep.kind == "boil" and "drinks" in food.meals:
        assert 150.0 <= food.prep.water_ml <= 350.0


@each("food", FOODS)
def test_minutes_on_the_flame_are_minutes(food: Food) -> None:
    assert food.prep.simmer_min <= 45.0
    assert food.prep.wait_min <= 30.0
    assert food.prep.cold_soak_min is None or 10.0 <= food.prep.cold_soak_min <= 480.0


def test_raw_rice_pasta_and_pulses_cannot_be_soaked_cold() -> None:
    # Common practice: raw rice and raw pasta never; raw pulses not safely.
    for name in ("white-rice", "pasta", "pasta-whole-wheat", "red-lentils", "split-peas"):
        assert by_id()[name].prep.cold_soak_min is None


@each(
    ("food_id", "opened", "warm"),
    [
        # Fsis and common practice, as classes: fish pouch at once, hard cheese days, dry weeks.
        ("tuna-oil", 0.0, None), ("hard-salami", 3.0, 21.0), ("cheddar", 3.0, 5.0),
        ("flour-tortilla", 7.0, 7.0), ("parmesan-hard", 14.0, 21.0), ("cream-cheese", 0.0, 1.0),
        ("beef-jerky", 7.0, None), ("couscous", None, None), ("olive-oil", None, None),
    ],
)  # fmt: skip
def test_foods_keep_as_their_class_does(
    food_id: str, opened: float | None, warm: float | None
) -> None:
    keep = by_id()[food_id].keep
    assert (keep.opened_days, keep.warm_days) == (opened, warm)


def test_what_melts_and_what_crushes_is_known() -> None:
    for name in ("milk-chocolate", "dark-chocolate", "granola-bar-coated", "coconut-oil", "butter"):
        assert by_id()[name].keep.melts
    for name in ("potato-chips", "wheat-crackers", "ramen", "egg-noodles"):
        assert by_id()[name].keep.crushes
    assert not by_id()["peanuts"].keep.melts


def test_a_common_day_adds_up_as_walkers_know_it() -> None:
    # Common practice: a hot breakfast of about 350, two bars of about 250, a dinner of about 500
    # make about 1,350; with 500 to 600 of snacks 1,850 to 1,950.
    larder = by_id()
    breakfast = 2 * larder["instant-oatmeal-maple"].dose_kcal
    bars = 2 * larder["energy-bar"].dose_kcal
    dinner = larder["fd-mac-cheese"].dose_kcal
    snacks = 4 * larder["trail-mix-choc"].dose_kcal
    assert breakfast == pytest.approx(350, rel=0.12)
    assert bars == pytest.approx(500, rel=0.12)
    assert dinner == pytest.approx(500, rel=0.12)
    assert breakfast + bars + dinner == pytest.approx(1350, rel=0.05)
    assert 1750 <= breakfast + bars + dinner + snacks <= 1950
