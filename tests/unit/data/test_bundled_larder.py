"""The larder that comes with Oatsack: made by its script, whole, realistic, marked as invented."""

from __future__ import annotations

import csv
import importlib.util
import re
import subprocess
import sys
import time
from pathlib import Path
from types import ModuleType

import pytest

from oatsack.cite import cite
from oatsack.files.larder import BUNDLED, bundled, read_larder, write_larder
from oatsack.values.classes import CATEGORIES
from oatsack.values.food import ALLERGENS, MEALS, Food
from support.each import each
from support.foods import by_id, placeless

ROOT = Path(__file__).resolve().parents[3]
FOODS = [pytest.param(food, id=food.id) for food in bundled()]


def maker() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_larder", ROOT / "scripts/make_larder.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_file_is_what_its_script_makes() -> None:
    assert write_larder(maker().foods()) == BUNDLED.read_bytes()


def test_it_holds_enough_foods_of_every_class() -> None:
    assert len(bundled()) >= 190
    assert {food.category for food in bundled()} == set(CATEGORIES) - {"other"}


def test_it_writes_and_reads_back() -> None:
    again = read_larder(write_larder(bundled()), "x")
    assert [placeless(food) for food in again] == [placeless(food) for food in bundled()]


def test_reading_it_needs_no_heavy_library() -> None:
    code = (
        "import sys; from oatsack.files.larder import bundled; bundled();"
        "print([m for m in ('numpy', 'pydantic', 'difflib', 'rich') if m in sys.modules])"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


@each("food", FOODS)
def test_every_food_is_whole(food: Food) -> None:
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", food.id)
    assert len(food.id) <= 26
    assert food.doses_per_pack * food.dose_g == pytest.approx(food.pack_g)
    assert food.per_100g.energy_kcal is not None
    assert food.wrap_g is not None
    assert food.price is not None
    assert food.pack_ml is not None
    assert food.price > 0.0
    assert 0.0 < food.wrap_g <= max(25.0, 0.35 * food.pack_g)
    assert food.meals <= set(MEALS)
    assert food.liking is None or 1.0 <= food.liking <= 5.0
    assert food.stock.packs == 0.0


@each("food", FOODS)
def test_every_food_says_where_it_is_from_and_what_is_invented(food: Food) -> None:
    assert cite(food.origin.source)
    wanted = {"pack_g", "wrap_g", "pack_ml", "price", "shop", "allergens", "liking", "prep"}
    assert wanted <= food.origin.invented
    if food.origin.source.startswith("Usda2015"):
        assert re.search(r"\d{5}", food.origin.source_id)
    if food.origin.source in ("ours", "from memory"):
        assert "per_100g" in food.origin.invented


@each("food", FOODS)
def test_made_hot_or_cold_as_its_prep_says(food: Food) -> None:
    prep = food.prep
    assert (prep.water_ml > 0.0) == (prep.kind != "none")
    assert (prep.simmer_min > 0.0) == (prep.kind == "simmer")
    assert prep.needs_pot == (prep.kind == "simmer")
    if prep.kind == "none":
        assert prep.wait_min == 0.0


def test_all_four_allergen_states_occur_and_wheat_brings_gluten() -> None:
    states = {food.state(name) for food in bundled() for name in ALLERGENS}
    assert states == {"contains", "may", "free", "unknown"}
    for food in bundled():
        if food.state("wheat") == "contains":
            assert food.state("gluten") == "contains", food.id


@each("food", FOODS)
def test_diet_and_allergens_agree(food: Food) -> None:
    held = {name for name in ALLERGENS if food.state(name) == "contains"}
    if food.diet == "vegan":
        assert not held & {"milk", "egg", "fish", "crustacean", "mollusc"}
    if food.diet == "vegetarian":
        assert not held & {"fish", "crustacean", "mollusc"}
    if food.diet == "fish":
        assert "fish" in held


def number(text: str) -> float | None:
    return float(text) if text else None


def test_the_nutrients_are_those_of_the_table_kept_beside_the_script() -> None:
    text = (ROOT / "scripts/data/composition.csv").read_text(encoding="utf-8")
    rows = {row["id"]: row for row in csv.DictReader(text.splitlines())}
    same = 0
    for food in bundled():
        row = rows.get(food.id)
        if row and row["kcal"]:
            assert food.per_100g.energy_kcal == float(row["kcal"])
            assert food.per_100g.potassium_mg == number(row["potassium_mg"])
            assert food.per_100g.caffeine_mg == number(row["caffeine_mg"])
            same += 1
    assert same >= 190


def test_blank_cells_of_the_table_stay_blank() -> None:
    assert by_id()["couscous"].per_100g.sugars_g is None
    assert by_id()["trail-mix"].per_100g.fibre_g is None
    assert by_id()["tvp"].per_100g.sugars_g is None


@each(
    ("food_id", "pack_g", "kcal", "doses"),
    [
        # Common practice: what is in the shops, in the sizes that walkers buy.
        ("instant-oatmeal-maple", 344, 8 * 158, 8),
        ("fd-chili-beans", 113, 478, 1),
        ("fd-mac-cheese", 113, 478, 1),
        ("fd-lasagna-meat", 113, 501, 1),
        ("energy-bar", 408, 6 * 262, 6),
        ("granola-bar-hard", 252, 6 * 198, 6),
        ("trail-mix-choc", 170, 823, 6),
        ("beef-jerky", 85, 348, 3),
        ("ramen", 85, 374, 1),
        ("flour-tortilla", 392, 8 * 145.5, 8),
    ],
)
def test_packs_have_the_sizes_that_walkers_buy(
    food_id: str, pack_g: float, kcal: float, doses: float
) -> None:
    food = by_id()[food_id]
    assert (food.pack_g, food.doses_per_pack) == (pack_g, doses)
    assert food.dose_kcal * doses == pytest.approx(kcal, rel=0.01)


HOT = ("decaf-coffee", "instant-coffee", "tea-bag")
"""Counted too, but a mug of it is one of the hot drinks of the day."""


@each(
    "food_id",
    ["drink-flavour", "sweetener-sachet", "sugar-sachet", "electrolyte-tablet", "water-tablet",
     "decaf-coffee", "instant-coffee", "tea-bag", "toilet-paper", "salt-sachet", "creamer"],
)  # fmt: skip
def test_the_counted_things_are_there_and_small(food_id: str) -> None:
    food = by_id()[food_id]
    assert food.role == ("drink" if food_id in HOT else "small")
    assert food.dose_kcal < 30.0


def test_an_electrolyte_tablet_is_for_half_a_litre() -> None:
    tablet = by_id()["electrolyte-tablet"]
    assert tablet.prep.water_ml == 500.0
    assert (tablet.dose_g, tablet.dose_name) == (4.0, "tablet")


def test_caffeine_of_the_usual_single_drinks() -> None:
    # Usda2015: 3142 mg in 100 g of instant coffee (NDB 14214), 47 mg in a cup of tea (NDB 14355),
    # 18 mg in 100 g of cocoa mix (NDB 14192); decaffeinated 122 mg in 100 g (NDB 14218).
    per_dose = {name: by_id()[name].per_dose("caffeine_mg") for name in
                ("instant-coffee", "tea-bag", "cocoa-mix", "decaf-coffee")}  # fmt: skip
    assert per_dose["instant-coffee"] == pytest.approx(63, abs=0.5)
    assert per_dose["tea-bag"] == pytest.approx(47, abs=0.5)
    assert per_dose["cocoa-mix"] == pytest.approx(5, abs=0.1)
    assert per_dose["decaf-coffee"] == pytest.approx(2, abs=0.3)


def test_freeze_dried_pouches_stand_close_and_hold_their_water() -> None:
    pouches = [food for food in bundled() if food.pouch]
    assert len(pouches) >= 12
    for food in pouches:
        pouch = food.pouch
        assert pouch is not None
        assert pouch.stands
        assert pouch.closes
        assert pouch.flat_ml == food.pack_ml
        assert pouch.puffed_ml is not None
        assert pouch.flat_ml is not None
        assert pouch.holds_ml is not None
        assert 1.5 * pouch.flat_ml < pouch.puffed_ml
        assert food.doses_per_pack * food.prep.water_ml + food.pack_g < pouch.holds_ml


def test_a_party_with_a_coeliac_a_vegan_or_a_nut_allergy_finds_dinners() -> None:
    mains = [food for food in bundled() if food.role == "main" and "dinner" in food.meals]
    assert sum(food.diet == "vegan" for food in mains) >= 5
    assert sum(food.state("gluten") == "free" for food in mains) >= 4
    assert sum(food.state("tree_nut") == "free" and food.state("peanut") == "free"
               for food in mains) >= 10  # fmt: skip


def test_some_of_everything_does_without_a_stove() -> None:
    cold = [f for f in bundled() if f.prep.kind in ("none", "soak") or f.prep.cold_soak_min]
    for meal in ("breakfast", "lunch", "move", "dinner"):
        assert sum(f.role in ("main", "snack", "side") and meal in f.meals for f in cold) >= 5, meal


def test_a_third_of_the_snacks_are_not_sweet() -> None:
    snacks = [food for food in bundled() if food.role == "snack"]
    assert sum(food.taste != "sweet" for food in snacks) / len(snacks) >= 1 / 3


def test_reading_it_takes_less_than_sixty_milliseconds_of_work() -> None:
    # Verbs that only show something answer in 0.2 s, start of Python included.
    data = BUNDLED.read_bytes()

    def work() -> float:
        start = time.process_time()
        read_larder(data, "x")
        return time.process_time() - start

    assert min(work() for _ in range(8)) < 0.06
