"""Whole tables of the trade and of handbooks: heat, grams, litres per can, minutes, caffeine.

Kinds of number: *published* where a source stands beside it, *oracle* where a table was computed
apart from this code (CoolProp 8.0.0, iapws 1.5.5, formation enthalpies), *practice* where walkers
say so ("common practice").
"""

from __future__ import annotations

import pytest

from oatsack.kitchen import fuels, heat
from oatsack.kitchen.boiltest import Boil, boil_test
from oatsack.values.kit import Stove
from support.burning import grams as grams_for
from support.burning import heating_mj_kg
from support.burning import minutes as minutes_for
from support.each import each

# --- oracle: heat per kilogram to the local boiling point [kJ], IAPWS-IF97 by iapws 1.5.5
STARTS_C = (0.0, 5.0, 10.0, 15.0, 20.0, 25.0)
HEAT_KJ = {
    0: (418.9, 397.9, 376.9, 355.9, 335.0, 314.1),
    1000: (404.9, 383.9, 362.9, 341.9, 321.0, 300.0),
    2000: (390.8, 369.8, 348.8, 327.9, 306.9, 286.0),
    3000: (376.8, 355.8, 334.8, 313.8, 292.9, 272.0),
    4000: (362.7, 341.7, 320.7, 299.7, 278.8, 257.9),
    5000: (348.6, 327.6, 306.6, 285.6, 264.7, 243.8),
}


@each("height", HEAT_KJ)
@each("place", range(len(STARTS_C)))
def test_heat_to_the_local_boil(height: int, place: int) -> None:
    got = heat.heat_kj_kg(STARTS_C[place], heat.boiling_c(float(height)))
    assert got == pytest.approx(HEAT_KJ[height][place], abs=0.2)


# --- oracle: boiling points [deg C] and pressures [hPa] in steps of 500 m
STEPS = {
    0: (1013.25, 99.974), 500: (954.61, 98.313), 1000: (898.76, 96.649), 1500: (845.60, 94.984),
    2000: (795.01, 93.317), 2500: (746.92, 91.648), 3000: (701.21, 89.977),
    3500: (657.80, 88.304), 4000: (616.60, 86.628), 5000: (540.48, 83.268),
    5500: (505.39, 81.584), 6000: (472.18, 79.897),
}  # fmt: skip


@each("height", STEPS)
def test_pressure_and_boiling_point_every_500_m(height: int) -> None:
    hpa, celsius = STEPS[height]
    assert heat.pressure_hpa(float(height)) == pytest.approx(hpa, abs=0.006)
    assert heat.boiling_c(float(height)) == pytest.approx(celsius, abs=0.001)


def test_a_mile_and_6500_feet() -> None:
    assert heat.boiling_c(1609.344) == pytest.approx(94.620, abs=0.001)
    assert heat.boiling_c(1981.2) == pytest.approx(93.380, abs=0.001)


# --- oracle: snow to the boil [kJ/kg], ice Ih by iapws 1.5.5
@each(
    ("snow", "height", "kj"),
    [(0.0, 0.0, 752.35), (-10.0, 0.0, 772.95), (-10.0, 3000.0, 730.86), (-20.0, 4000.0, 736.65)],
)
def test_snow_to_the_boil(snow: float, height: float, kj: float) -> None:
    # constant specific heat of ice: 0.11 % at most
    assert heat.snow_kj_kg(snow, heat.boiling_c(height)) == pytest.approx(kj, rel=0.0015)


# --- oracle: grams of fuel per kilogram of water, 20 C to the boil at the sea
SHARES = (1.0, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3)
GRAMS = {
    "gas": (7.33, 9.16, 10.47, 12.21, 14.65, 18.31, 24.42),
    "white-gas": (7.61, 9.52, 10.88, 12.69, 15.23, 19.03, 25.38),
    "ethanol": (13.41, 16.77, 19.16, 22.35, 26.82, 33.53, 44.71),
    "methanol": (16.82, 21.02, 24.02, 28.03, 33.63, 42.04, 56.05),
    "hexamine": (11.92, 14.90, 17.03, 19.87, 23.84, 29.80, 39.74),
}


@each("kind", GRAMS)
@each("place", range(len(SHARES)))
def test_grams_of_each_fuel_by_efficiency(kind: str, place: int) -> None:
    kj = heat.heat_kj_kg(20.0, heat.boiling_c(0.0))
    stove = Stove(kind="gas-open", fuel=kind, efficiency=SHARES[place])  # type: ignore[arg-type]
    assert grams_for(kj, stove) == pytest.approx(GRAMS[kind][place], rel=0.002)


# --- oracle: litres boiled from 20 C by a can, at 0.5 and 0.4
@each(
    ("grams", "at_half", "at_two_fifths"), [(100.0, 6.8, 5.5), (230.0, 15.7, 12.6),
                                            (450.0, 30.7, 24.6)]
)  # fmt: skip
def test_litres_out_of_a_can(grams: float, at_half: float, at_two_fifths: float) -> None:
    kj = heat.heat_kj_kg(20.0, heat.boiling_c(0.0))
    for share, litres in ((0.5, at_half), (0.4, at_two_fifths)):
        assert grams / grams_for(kj, Stove(efficiency=share)) == pytest.approx(
            litres, abs=0.06
        )


# --- oracle: minutes per kilogram by power, 20 C, half efficient
@each(
    ("watts", "minutes"),
    [(1000.0, 11.2), (1500.0, 7.4), (2000.0, 5.6), (2500.0, 4.5), (3000.0, 3.7)],
)
def test_minutes_to_the_boil_by_power(watts: float, minutes: float) -> None:
    kj = heat.heat_kj_kg(20.0, heat.boiling_c(0.0))
    assert minutes_for(kj, watts, 0.5) == pytest.approx(minutes, abs=0.06)


def test_burn_rates_at_two_kilowatts() -> None:
    # oracle: 157 g of gas and 269 g of ethanol an hour (ethanol without its water)
    gas = 2.0 * 3600.0 / fuels.fuel_of("gas").lhv_mj_kg
    ethanol = 2.0 * 3600.0 / heating_mj_kg(fuels.substances()["ethanol"])
    assert gas == pytest.approx(157.0, abs=0.6)
    assert ethanol == pytest.approx(269.0, abs=0.6)


@each(
    ("kind", "low", "high"),
    [("ethanol", 20.0, 21.5), ("methanol", 15.5, 16.0), ("white-gas", 30.0, 33.0),
     ("hexamine", 36.5, 37.5)],
)  # fmt: skip
def test_energy_in_a_litre_of_fuel(kind: str, low: float, high: float) -> None:
    # from memory: handbook densities times net heating value
    fuel = fuels.fuel_of(kind)
    assert fuel.density_g_ml is not None
    assert low <= fuel.lhv_mj_kg * fuel.density_g_ml <= high


@each(
    ("share", "grams"), [(1.0, 8.0), (0.75, 11.0), (0.60, 14.0), (0.50, 16.5)]
)
def test_theory_of_a_litre_from_10_degrees(share: float, grams: float) -> None:
    # practice: 377 kJ a litre; 8 g at best, 11 at 75 %, 14 at 60 %, 16.5 at 50 %
    kj = heat.heat_kj_kg(10.0, heat.boiling_c(0.0))
    assert kj == pytest.approx(377.0, abs=0.5)
    assert grams_for(kj, Stove(efficiency=share)) == pytest.approx(grams, abs=0.35)


def test_twelve_to_fifteen_grams_of_gas_a_litre_in_the_open() -> None:
    # practice: the range for open burners and good conditions is inside the prior's own range
    kj = heat.heat_kj_kg(12.0, heat.boiling_c(800.0))
    low, _, high = fuels.stove_row("gas-open").calm
    best, worst = (grams_for(kj, Stove(efficiency=e)) for e in (high, low))
    assert best <= 15.0 and worst >= 15.0
    assert grams_for(kj, Stove(kind="gas-exchanger")) < 12.0


def test_wind_cold_and_snow_together_take_three_to_four_times() -> None:
    # practice
    calm = grams_for(heat.heat_kj_kg(15.0, heat.boiling_c(1000.0)), Stove())
    cold = heat.snow_kj_kg(-10.0, heat.boiling_c(1000.0))
    rough = grams_for(cold, Stove(kind="gas-shielded"), windy=True)
    assert 2.3 <= rough / calm <= 4.5
    assert grams_for(cold, Stove(), windy=True) / calm >= 4.0  # an open burner fails there


def test_a_three_stone_fire_is_a_tenth_efficient() -> None:
    # an informal weighing: 0.7 kg of wood for 3 l
    fire = Boil(water_ml=3000.0, from_c=20.0, to_c=99.9, before_g=700.0, after_g=0.0)
    assert boil_test([fire], "wood").efficiency == pytest.approx(0.10, abs=0.01)
    low, _, high = fuels.stove_row("open-fire").calm
    assert low < 0.10 < high


def test_shielded_spirit_stoves_come_near_60_percent() -> None:
    # BoilingPoint12: the two shielded, unpressurised spirit stoves
    low, likely, high = fuels.stove_row("spirit-shielded").calm
    assert low < likely < high == 0.60


# --- published: USDACaffeine2004, mg per 100 g and per usual single
CAFFEINE = [
    ("instant powder, teaspoon", 3142.0, 0.9, 28.0), ("instant powder, rounded", 3142.0, 1.8, 57.0),
    ("instant powder, stick", 3142.0, 2.0, 63.0), ("half-caffeine powder", 1571.0, 1.5, 24.0),
    ("decaffeinated powder", 122.0, 1.8, 2.0), ("brewed coffee", 40.0, 237.0, 95.0),
    ("espresso", 212.0, 30.0, 64.0), ("cappuccino mix", 307.0, 25.0, 77.0),
    ("mocha mix", 191.0, 25.0, 48.0), ("brewed black tea", 20.0, 237.0, 47.0),
    ("instant tea powder", 4352.0, 0.7, 30.0), ("cocoa mix", 18.0, 28.0, 5.0),
    ("cocoa powder", 230.0, 5.4, 12.0), ("alkalised cocoa powder", 78.0, 5.4, 4.0),
    ("dark chocolate", 62.0, 40.0, 25.0), ("milk chocolate", 20.0, 40.0, 8.0),
    ("cola", 10.0, 370.0, 37.0),
]  # fmt: skip


@each(("name", "per_100g", "grams", "mg"), CAFFEINE)
def test_caffeine_of_a_usual_single(name: str, per_100g: float, grams: float, mg: float) -> None:
    from oatsack.kitchen.caffeine import SINGLE_MG, single_mg
    from oatsack.values.food import Nutrients
    from support.kitchen import food, menu_of, portion

    one = food("one", dose_g=grams, per_100g=Nutrients(caffeine_mg=per_100g))
    got = single_mg(menu_of([portion("anna", 1, "drinks", "one")]), {"one": one}, "anna")
    assert got == pytest.approx(mg, abs=0.6)
    assert got < SINGLE_MG


def test_four_brewed_cups_are_within_a_day_and_five_are_not() -> None:
    # EfsaCaffeine2015 against USDACaffeine2004
    from oatsack.kitchen.caffeine import DAY_MG

    assert 4 * 95.0 <= DAY_MG < 5 * 95.0


def test_a_boil_only_meal_takes_about_a_cup_of_water() -> None:
    # common practice: about a US cup (236.6 ml) for a meal that is only poured on
    from oatsack.files.larder import bundled

    waters = sorted(
        f.prep.water_ml for f in bundled()
        if f.role == "main" and f.prep.kind == "boil" and not f.prep.needs_pot
    )  # fmt: skip
    assert len(waters) >= 15
    assert waters[len(waters) // 2] == pytest.approx(236.6, rel=0.25)
    assert all(0.25 * 236.6 <= ml <= 2.1 * 236.6 for ml in waters)
