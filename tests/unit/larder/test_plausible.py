"""Which labels are believed and which are questioned, and with what slip."""

from __future__ import annotations

import string
from dataclasses import replace
from typing import Any

import pytest

from oatsack.larder.plausible import admitted, doubts
from oatsack.reports.words import sentences
from oatsack.values.food import Food
from support.each import each
from support.foods import by_id, label


def keys(food: Food) -> list[str]:
    return [flag.key.removeprefix("larder.") for flag in doubts(food)]


@each(
    ("name", "food"),
    [
        # Common practice: what walkers buy and what its pack says.
        ("three ounces of dried meat, 250 kcal",
         label(kcal=250, of_g=85.0, category="protein", name="Dried meat", role="snack")),
        ("three ounces of jerky by name",
         label(kcal=250, of_g=85.0, category="protein", name="Beef jerky", role="snack")),
        ("six ounces of nut and fruit mix, 800 kcal",
         label(kcal=800, of_g=170.0, category="nut", name="Nut and fruit mix", role="snack")),
        ("four ounces of freeze-dried dinner, 500 kcal",
         label(kcal=500, of_g=113.4, category="meal", name="Freeze-dried dinner", role="main")),
        ("an effervescent tablet for 16 fl oz",
         label(kcal=10, of_g=4.0, category="drink", name="Effervescent electrolyte tablet",
               role="small", carb_g=1.0, protein_g=0.0, fat_g=0.0, sodium_mg=300.0)),
        ("a hot breakfast of 350 kcal",
         label(kcal=350, of_g=86.0, category="breakfast", name="Oatmeal packets", role="main")),
        ("a bar of 250 kcal",
         label(kcal=250, of_g=60.0, category="snack", name="Bar", role="snack")),
        ("a tablet that states nothing",
         label(kcal=None, of_g=4.0, category="small", name="Tablet", role="small")),
        ("a sachet of sweetener called 0 kcal",
         label(kcal=0, of_g=1.0, category="small", name="Sweetener", role="small", carb_g=1.0,
               protein_g=0.0, fat_g=0.0)),
        ("coffee sticks called 0 kcal",
         label(kcal=0, of_g=2.0, category="drink", name="Coffee", role="small", carb_g=1.0,
               protein_g=0.0, fat_g=0.0)),
        ("a fresh apple", label(kcal=52, of_g=100.0, category="fruit", name="Apple", role="snack")),
        ("a ready meal", label(kcal=330, of_g=300.0, category="meal", name="Bean stew in a pouch",
                               role="main")),
        ("a sweet with polyols",
         label(kcal=240, of_g=100.0, category="sweet", name="Sugar-free sweets", role="snack",
               carb_g=98.0, protein_g=0.0, fat_g=0.0, polyols_g=98.0, sugars_g=0.0)),
        ("a high-fibre crispbread by the European way",
         label(kcal=330, of_g=100.0, category="bread", name="Crispbread", carb_g=80.0,
               fibre_g=17.0, protein_g=9.0, fat_g=1.5)),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_common_packs_are_believed(name: str, food: Food) -> None:
    assert keys(food) == [], name


def test_a_one_ounce_oatmeal_packet_of_150_kcal_is_questioned() -> None:
    # Usda2015, NDB 08120: rolled oats hold 379 kcal in 100 g, so one ounce holds about 107.
    packet = label(kcal=150, of_g=28.35, category="breakfast", name="Oatmeal packet", role="main")
    (flag,) = doubts(packet)
    assert flag.key == "larder.energy-high"
    assert flag.values["energy_kcal"] == pytest.approx(529.1, abs=0.1)
    assert flag.values["fits_g"] == pytest.approx(150 / 3.79, rel=0.05)
    usual = label(kcal=105, of_g=28.35, category="breakfast", name="Oatmeal packet", role="main")
    assert doubts(usual) == ()


MIX = {"category": "nut", "name": "Nut mix", "role": "snack"}
DINNER = {"category": "meal", "name": "Freeze-dried dinner", "role": "main"}
MACROS = {"protein_g": 24.0, "fat_g": 54.0, "carb_g": 76.0}


@each(
    ("slip", "food"),
    [
        ("kj-as-kcal", label(kcal=3347, of_g=170.0, **MIX)),
        ("kj-as-kcal", label(kcal=3347, of_g=170.0, **MIX, **MACROS)),
        ("kcal-as-kj", label(kcal=191, of_g=170.0, **MIX, **MACROS)),
        ("ounces-as-grams", label(kcal=500, of_g=4.0, **DINNER)),
        ("ounces-as-grams", label(kcal=250, of_g=3.0, category="protein", name="Jerky")),
        ("100g-as-serving", label(kcal=470, of_g=28.0, pack_g=168.0, doses=6.0, **MIX,
                                  protein_g=14.0, fat_g=32.0, carb_g=45.0)),
        ("serving-as-100g", label(kcal=134, of_g=100.0, pack_g=170.0, doses=6.0, **MIX)),
        ("pack-as-serving", label(kcal=800, of_g=17.0, pack_g=170.0, doses=10.0, **MIX, **MACROS)),
        ("decimal-right", label(kcal=8000, of_g=170.0, **MIX, **MACROS)),
        ("pack-in-ounces", label(kcal=18, of_g=4.0, **DINNER)),
        ("over-100", label(kcal=480, of_g=100.0, category="grain", name="Meal base",
                           protein_g=40.0, fat_g=2.0, carb_g=78.0)),
        ("available-as-total", label(kcal=486, of_g=100.0, category="nut", name="Seeds",
                                     protein_g=16.5, fat_g=30.7, carb_g=7.7, fibre_g=34.4)),
        ("sugars-over-carb", label(kcal=300, of_g=100.0, category="sweet", name="Jam",
                                   protein_g=0.4, fat_g=0.1, carb_g=60.0, sugars_g=69.0)),
        ("doses-over-pack", replace(label(kcal=800, of_g=170.0, **MIX), dose_g=40.0,
                                    doses_per_pack=6.0)),
        ("doses-under-pack", replace(label(kcal=800, of_g=170.0, **MIX), dose_g=28.0,
                                     doses_per_pack=2.0)),
        ("salt-as-sodium", label(kcal=540, of_g=100.0, category="snack", name="Crackers",
                                 sodium_mg=4000.0)),
        ("sodium-high", label(kcal=540, of_g=100.0, category="snack", name="Crackers",
                              sodium_mg=40000.0)),
        ("sodium-in-grams", label(kcal=540, of_g=100.0, category="snack", name="Crackers",
                                  sodium_mg=1.2, taste="salty")),
        ("caffeine-high", label(kcal=398, of_g=100.0, category="drink", name="Cocoa mix",
                                caffeine_mg=1800.0)),
        ("volume-odd", label(kcal=800, of_g=170.0, pack_ml=17.0, **MIX)),
        ("not-its-macros", label(kcal=640, of_g=100.0, category="nut", name="Nut mix",
                                 protein_g=14.0, fat_g=30.0, carb_g=30.0)),
        ("energy-low", label(kcal=260, of_g=100.0, **MIX)),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_a_slip_is_named(slip: str, food: Food) -> None:
    assert slip in keys(food)
    for flag in doubts(food):
        text = sentences()[f"flags.{flag.key}"]
        wanted = {name for _, name, _, _ in string.Formatter().parse(text) if name}
        assert wanted <= set(flag.values), flag.key
        assert flag.scope == "larder/thing"
        assert flag.level == "caution"


@each("food", [pytest.param(f, id=f.id) for f in by_id().values()])
def test_every_bundled_food_is_plausible(food: Food) -> None:
    assert doubts(food) == ()


def test_a_doubted_food_is_left_out_until_it_is_confirmed() -> None:
    odd = label(kcal=3347, of_g=170.0, **MIX)
    blank = label(kcal=None, of_g=170.0, id="blank")
    fine = label(kcal=800, of_g=170.0, id="fine", **MIX)
    inside, flags = admitted([odd, blank, fine])
    assert inside == (fine,)
    assert [flag.key for flag in flags] == ["larder.kj-as-kcal", "larder.no-energy"]
    confirmed = replace(odd, confirmed=True)
    assert admitted([confirmed, fine]) == ((confirmed, fine), ())


def test_a_food_without_energy_is_let_in_with_the_sum_of_its_macronutrients() -> None:
    bare = label(kcal=None, of_g=100.0, **MIX, protein_g=14.0, fat_g=32.0, carb_g=45.0)
    (food,), (flag,) = admitted([bare])
    assert food.per_100g.energy_kcal == pytest.approx(4 * 14 + 9 * 32 + 4 * 45)
    assert flag.key == "larder.energy-from-macros"


def test_a_counted_thing_may_do_without_energy() -> None:
    tablet = label(kcal=None, of_g=4.0, category="small", role="small")
    assert admitted([tablet]) == ((tablet,), ())


def test_rounding_on_a_label_raises_no_doubt() -> None:
    # Fda2009, app. H: 28 g of almonds read 160 kcal, 14 g fat, 6 g carbohydrate, 6 g protein.
    almonds = label(kcal=160, of_g=28.0, category="nut", name="Almonds", fat_g=14.0, carb_g=6.0,
                    protein_g=6.0, fibre_g=4.0, sugars_g=1.0)  # fmt: skip
    assert doubts(almonds) == ()


def test_cocoa_is_believed_though_the_general_factors_run_ninety_per_cent_over() -> None:
    # Usda2015, NDB 19165; its general sum is 433 kcal against 228.
    cocoa = by_id()["cocoa-powder"]
    assert cocoa.per_100g.energy_kcal == 228.0
    assert doubts(cocoa) == ()


def test_each_key_comes_once() -> None:
    odd: dict[str, Any] = {"protein_g": 90.0, "fat_g": 60.0, "carb_g": 80.0, "sugars_g": 200.0}
    found = keys(label(kcal=5000, of_g=100.0, sodium_mg=90000.0, **MIX, **odd))
    assert len(found) == len(set(found))
    assert "sugars-over-carb" in found


def test_a_small_thing_with_macronutrients_gets_an_energy_and_says_so() -> None:
    gel = label(kcal=None, of_g=40.0, category="small", role="small", carb_g=25.0, fat_g=0.0,
                protein_g=0.0)  # fmt: skip
    (food,), (flag,) = admitted([gel])
    assert food.dose_kcal == pytest.approx(100.0)
    assert flag.key == "larder.energy-from-macros"


def test_parts_that_overflow_name_the_slip_that_explains_them_though_the_energy_could_be() -> None:
    # Twice what 100 g hold: 860 kcal are still below pure fat, yet no 100 g hold 190 g of parts.
    food = label(kcal=860, of_g=100.0, pack_g=50.0, category="other", name="Mash",
                 protein_g=20.0, fat_g=5.0, carb_g=165.0)  # fmt: skip
    assert keys(food) == ["100g-as-serving"]


@each(
    ("food", "low", "high"),
    [
        # Frozen: the class for what its class cannot hold, the macronutrients for what they cannot.
        (label(kcal=260, of_g=100.0, **MIX), 285.0, 770.0),
        (label(kcal=640, of_g=100.0, **MIX, protein_g=14.0, fat_g=30.0, carb_g=30.0, fibre_g=0.0),
         0.9 * (2.44 * 14 + 8.37 * 30 + 3.6 * 30) - 13.5,
         1.1 * (4.36 * 14 + 9.02 * 30 + 4.2 * 30) + 13.5),
        (label(kcal=900, of_g=100.0, category="drink", name="Water", id="w"), 0.0, 550.0),
        (label(kcal=800, of_g=100.0, **MIX, protein_g=14.0, fat_g=30.0, carb_g=30.0, fibre_g=0.0),
         285.0, 770.0),  # too much for any nut, whatever it is made of
    ],
)  # fmt: skip
def test_a_doubt_tells_the_span_that_was_broken_and_never_a_debt(
    food: Food, low: float, high: float
) -> None:
    (flag,) = doubts(food)
    assert flag.values["low_kcal"] == pytest.approx(low)
    assert flag.values["high_kcal"] == pytest.approx(high)
    assert flag.values["energy_kcal"] == food.per_100g.energy_kcal


def test_the_mass_that_would_fit_is_taken_at_the_middle_of_the_class() -> None:
    # Bounds of nuts 290 to 765 kcal, widened by 5 kcal a dose of 170 g to both sides.
    (flag,) = doubts(label(kcal=3000, of_g=170.0, category="nut", name="Nut mix", id="x"))
    assert flag.values["fits_g"] == pytest.approx(3000 * 100 / ((290 + 765) / 2))
    (flag,) = doubts(label(kcal=30, of_g=1.0, category="condiment", name="Salt", id="x"))
    assert flag.values["fits_g"] == pytest.approx(30 * 100 / ((0 + 10 + 500) / 2))


@each(
    ("dose_g", "sodium_mg", "doubted"),
    [(50.0, 2109.0, False), (50.0, 2111.0, True), (25.0, 2119.0, False), (25.0, 2121.0, True),
     (5.0, 2199.0, False), (5.0, 2201.0, True)],
)  # fmt: skip
def test_rounding_of_sodium_counts_five_milligrams_a_dose(
    dose_g: float, sodium_mg: float, doubted: bool
) -> None:
    # Snacks hold 1,600 mg at most: a quarter more and 100 mg are believed, and the rounding.
    food = label(kcal=480, of_g=100.0, category="snack", name="Crackers", sodium_mg=sodium_mg)
    assert bool(keys(replace(food, dose_g=dose_g, doses_per_pack=100.0 / dose_g))) is doubted


@each(
    ("sodium_mg", "key"), [(5249.0, "salt-as-sodium"), (5251.0 + 25.0, "sodium-high")]
)
def test_salt_explains_sodium_only_if_salt_could_be_so_much(sodium_mg: float, key: str) -> None:
    food = label(kcal=480, of_g=100.0, category="snack", name="Crackers", sodium_mg=sodium_mg)
    assert keys(food) == [key]  # 2.5 times the 2,105 mg that are believed: 5,262


def test_nothing_is_saltier_than_salt() -> None:
    # 22.99 / 58.44 of salt is sodium: 39,340 mg in 100 g.
    for sodium_mg, wanted in ((39_340.0, []), (39_460.0, ["salt-as-sodium"])):
        salt = label(kcal=0, of_g=1000.0, category="condiment", name="Salt", id="salt")
        found = keys(replace(salt, per_100g=replace(salt.per_100g, sodium_mg=sodium_mg)))
        assert found == wanted, sodium_mg


@each(
    ("taste", "category", "sodium_mg", "doubted"),
    [
        ("salty", "snack", 1.2, True),
        ("salty", "soup", 2.9, True),
        ("salty", "meal", 0.5, True),
        ("salty", "snack", 3.0, False),
        ("salty", "snack", 0.0, False),  # says that it has none
        ("sweet", "snack", 1.2, False),
        ("salty", "nut", 1.2, False),  # unsalted nuts hold a milligram
    ],
)
def test_milligrams_of_sodium_are_taken_for_grams_only_in_what_is_salted(
    taste: Any, category: str, sodium_mg: float, doubted: bool
) -> None:
    food = label(kcal=320, of_g=100.0, category=category, name="Thing", sodium_mg=sodium_mg,
                 taste=taste)  # fmt: skip
    assert ("sodium-in-grams" in keys(food)) is doubted


@each(
    ("category", "role", "doubted"),
    [("meal", "main", True), ("nut", "snack", True), ("meal", "side", False),
     ("protein", "main", False), ("sweet", "snack", False)],
)  # fmt: skip
def test_only_what_comes_in_bulk_is_doubted_for_a_tiny_pack(
    category: str, role: Any, doubted: bool
) -> None:
    tiny = label(kcal=50, of_g=12.0, category=category, name="Thing", role=role)
    assert ("pack-in-ounces" in keys(tiny)) is doubted


def test_doubts_stand_in_the_order_of_the_label() -> None:
    food = replace(
        label(kcal=900, of_g=100.0, **MIX, carb_g=20.0, sugars_g=70.0, sodium_mg=90_000.0,
              pack_ml=5.0),
        doses_per_pack=3.0,
    )  # fmt: skip
    assert keys(food)[-4:] == ["sugars-over-carb", "doses-over-pack", "sodium-high", "volume-odd"]


@each(
    ("pack_g", "dose_g", "doses", "key"),
    [
        (1000.0, 10.0, 90.0, []),  # a tenth of the pack may be left over
        (1000.0, 10.0, 89.9, ["doses-under-pack"]),
        (100.0, 40.0, 1.5, []),  # or one dose, where that is more
        (100.0, 40.0, 1.49, ["doses-under-pack"]),
        (1000.0, 10.0, 105.1, []),  # a twentieth and a gram too much are rounding
        (1000.0, 10.0, 105.2, ["doses-over-pack"]),
        (20.0, 11.0, 2.0, []),
        (20.0, 11.01, 2.0, ["doses-over-pack"]),
    ],
)
def test_doses_fill_a_pack_up_to_rounding_and_leave_less_than_one_or_a_tenth(
    pack_g: float, dose_g: float, doses: float, key: list[str]
) -> None:
    food = replace(label(kcal=480, of_g=100.0, **MIX), pack_g=pack_g, dose_g=dose_g,
                   doses_per_pack=doses)  # fmt: skip
    assert [one for one in keys(food) if one.startswith("doses")] == key


@each(
    ("caffeine_mg", "doubted"), [(459.0, False), (461.0, True)]
)
def test_caffeine_is_believed_to_half_above_its_class_and_a_hundred(
    caffeine_mg: float, doubted: bool
) -> None:
    # Drinks hold 240 mg in 100 g at most: 1.5 x 240 + 100.
    drink = label(kcal=300, of_g=100.0, category="drink", name="Syrup", caffeine_mg=caffeine_mg)
    assert ("caffeine-high" in keys(drink)) is doubted


@each(
    ("dose_g", "fibre_g", "doubted"),
    [(100.0, 51.4, False), (100.0, 51.6, True), (25.0, 54.4, False), (25.0, 54.6, True)],
)
def test_a_part_may_exceed_its_whole_by_two_roundings_and_half_a_gram(
    dose_g: float, fibre_g: float, doubted: bool
) -> None:
    # Half a gram a dose on either line (Fda2009, app. H), per 100 g.
    food = label(kcal=300, of_g=100.0, category="other", carb_g=50.0, fibre_g=fibre_g)
    food = replace(food, dose_g=dose_g, doses_per_pack=100.0 / dose_g)
    assert ("available-as-total" in keys(food)) is doubted
