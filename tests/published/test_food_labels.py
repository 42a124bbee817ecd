"""Printed energies, label rules and rounding tables, each from its source."""

from __future__ import annotations

import pytest

from oatsack.larder.energy import KJ_PER_KCAL, SPECIFIC, by_factors, fibre_apart
from oatsack.larder.labels import LESS, band, eu_energy, us_label, us_rounded
from oatsack.values.food import Nutrients
from support.each import each
from support.foods import by_id, one

# Usda2015, FOOD_DES and NUT_DATA: protein, fat, carbohydrate and energy of single rows.


@each(
    ("factors", "protein_g", "fat_g", "carb_g", "kcal", "half"),
    [
        ("oats", 13.15, 6.52, 67.70, 379, 0.5),  # NDB 08120
        ("peanuts", 22.21, 51.36, 22.31, 598, 0.5),  # NDB 16098
        ("tree nuts", 21.15, 49.93, 21.55, 579, 0.5),  # NDB 12061
        ("honey", 0.30, 0.00, 82.40, 304, 0.5),  # NDB 19296
        ("olive oil", 0.0, 100.0, 0.0, 884, 0.5),  # NDB 04053
        ("white rice", 7.13, 0.66, 79.95, 365, 0.5),  # NDB 20044
        ("milk", 26.32, 26.71, 38.42, 496, 0.5),  # NDB 01090
    ],
)
def test_specific_factors_give_the_tables_energy(
    factors: str, protein_g: float, fat_g: float, carb_g: float, kcal: float, half: float
) -> None:
    found = by_factors(protein_g, fat_g, carb_g, factors=SPECIFIC[factors])
    assert abs(found - kcal) <= half


def test_rolled_oats_have_three_energies_by_three_ways() -> None:
    # Usda2015, NDB 08120: 379 kcal, 1586 kJ; P 13.15, F 6.52, C 67.70, fibre 10.1.
    oats = Nutrients(protein_g=13.15, fat_g=6.52, carb_g=67.70, fibre_g=10.1)
    specific = by_factors(13.15, 6.52, 67.70, factors=SPECIFIC["oats"])
    assert specific == pytest.approx(379.0, abs=0.05)
    assert by_factors(13.15, 6.52, 67.70) == pytest.approx(382.1, abs=0.05)
    assert fibre_apart(oats) == pytest.approx(361.9, abs=0.05)
    assert pytest.approx(1586, abs=0.5) == 379 * KJ_PER_KCAL


@each(
    ("protein_g", "fat_g", "carb_g", "table", "general"),
    [(22.21, 51.36, 22.31, 598, 640.3), (21.15, 49.93, 21.55, 579, 620.2)],
)
def test_the_general_factors_run_seven_per_cent_high_for_nuts(
    protein_g: float, fat_g: float, carb_g: float, table: float, general: float
) -> None:
    # Usda2015, NDB 16098 and 12061: a check that wants 5 % agreement must fail here.
    found = by_factors(protein_g, fat_g, carb_g)
    assert found == pytest.approx(general, abs=0.05)
    assert found / table == pytest.approx(1.071, abs=0.0005)


@each(
    ("code", "protein_g", "fat_g", "carb_g", "fibre_g", "acids_g", "kcal", "kj"),
    [
        # Ciqual2020, declared energies (protein N x 6.25) of five foods, by their codes.
        (9681, 13.2, 1.45, 72.7, 4.33, 0.0, 365, 1550),
        (19021, 26.9, 26.8, 37.5, 0.0, 0.0, 499, 2090),
        (31074, 10.4, 46.3, 26.9, 12.8, 0.0, 591, 2450),
        (31004, 7.5, 30.8, 55.6, 2.9, 0.54, 537, 2240),
        (9340, 14.1, 6.07, 58.1, 7.0, 0.0, 358, 1510),
    ],
)
def test_european_energy_gives_the_declared_values(
    code: int, protein_g: float, fat_g: float, carb_g: float, fibre_g: float, acids_g: float,
    kcal: float, kj: float,
) -> None:  # fmt: skip
    # Eu1169, Annex XIV.
    found = eu_energy(protein_g, fat_g, carb_available_g=carb_g, fibre_g=fibre_g, acids_g=acids_g)
    assert found[0] == pytest.approx(kcal, abs=1.0)
    assert found[1] == pytest.approx(kj, abs=6.0)


def test_a_european_label_in_kilojoules_is_read_as_its_kilocalories() -> None:
    # Ciqual2020, 9681: 1550 kJ declared beside 365 kcal; the kJ are rounded to tens.
    food = one(
        "name;pack_g;per;kJ;carb_available_g;fibre_g;protein_g;fat_g\n"
        "Couscous;500;100 g;1550;72,7;4,33;13,2;1,45\n"
    )
    assert food.per_100g.energy_kcal == pytest.approx(365, abs=6)
    assert food.per_100g.carb_g == pytest.approx(77.03)
    assert fibre_apart(food.per_100g) == pytest.approx(365.3, abs=0.05)


@each(
    ("nutrient", "value", "accepted"),
    [
        # Fda2009, appendix H.
        ("energy_kcal", 4.9, {0, 5}), ("energy_kcal", 2.4, {0}), ("energy_kcal", 47, {45}),
        ("energy_kcal", 48, {50}), ("energy_kcal", 50, {50}), ("energy_kcal", 52, {50}),
        ("energy_kcal", 57, {60}), ("energy_kcal", 123, {120}), ("energy_kcal", 126, {130}),
        ("energy_kcal", 55, {50, 60}),
        ("fat_g", 0.49, {0}), ("fat_g", 0.6, {0.5}), ("fat_g", 4.8, {5}), ("fat_g", 5.4, {5}),
        ("fat_g", 5.6, {6}),
        ("sodium_mg", 4.9, {0}), ("sodium_mg", 137, {135}), ("sodium_mg", 138, {140}),
        ("sodium_mg", 143, {140}), ("sodium_mg", 147, {150}),
        ("carb_g", 0.4, {0}), ("carb_g", 0.7, {LESS}), ("carb_g", 1.4, {1}), ("carb_g", 1.6, {2}),
        ("carb_g", 3.5, {3, 4}), ("protein_g", 0.7, {LESS, 1}), ("protein_g", 0.4, {0}),
    ],
)  # fmt: skip
def test_american_rounding(nutrient: str, value: float, accepted: set[float | str]) -> None:
    assert us_rounded(nutrient, value) == accepted


def test_a_nutrient_without_a_rule_is_refused() -> None:
    with pytest.raises(KeyError, match="caffeine"):
        us_rounded("caffeine_mg", 3.0)


def test_a_whole_american_label_of_28_g_of_almonds() -> None:
    # Usda2015, NDB 12061, rounded by Fda2009, appendix H; fibre 3.5 g is a tie.
    lines = us_label(by_id()["almonds"].per_100g, 28.0)
    assert lines == {
        "energy_kcal": {160}, "fat_g": {14}, "carb_g": {6}, "protein_g": {6}, "sugars_g": {1},
        "sodium_mg": {0}, "fibre_g": {3, 4},
    }  # fmt: skip
    # Rebuilt from the rounded label by the general factors it reads 174 kcal: both are correct.
    assert by_factors(6, 14, 6) == 174
    assert band(160)[0] < 174 < band(160)[1]


def test_the_band_round_a_label_is_a_fifth_to_either_side() -> None:
    # Cfr101, (g): a fifth over what is declared is the limit for energy, fat and sodium.
    assert band(500.0) == (400.0, 600.0)


def test_rehydration_salts_hold_what_the_formula_says() -> None:
    # WhoUnicef2006, per litre: NaCl 2.6 g, glucose 13.5 g, KCl 1.5 g, trisodium citrate dihydrate
    # 2.9 g; sodium 75, potassium 20, glucose 75 mmol/l. Molar masses 58.443, 180.156, 74.551,
    # 294.10 g/mol.
    sodium, potassium = 2.6 / 58.443 + 3 * 2.9 / 294.10, 1.5 / 74.551
    assert sodium * 1000 == pytest.approx(74.1, abs=0.05)
    assert potassium * 1000 == pytest.approx(20.1, abs=0.05)
    assert pytest.approx(74.9, abs=0.05) == 13.5 / 180.156 * 1000
    sachet = by_id()["ors-powder"]
    assert sachet.dose_g == pytest.approx(2.6 + 13.5 + 1.5 + 2.9)
    assert sachet.prep.water_ml == 1000.0
    assert sachet.per_dose("sodium_mg") == pytest.approx(sodium * 22_990, rel=0.001)
    assert sachet.per_dose("potassium_mg") == pytest.approx(potassium * 39_098, rel=0.001)
    assert sachet.per_dose("sugars_g") == pytest.approx(13.5, rel=0.001)
