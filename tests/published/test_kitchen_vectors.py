"""The kitchen's table of check values: standards, handbooks, agencies. Sources beside each group.

The table `kitchen-vectors.json` was computed apart from this code (CoolProp 8.0.0,
pythermalcomfort 4.8.1, formation enthalpies) or read in the source named here; each tolerance
stands in it, group by group.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from oatsack.kitchen import canister, drinking, fuels, heat, nesting, salt, sweat
from oatsack.values.kit import Stove
from support.burning import grams as grams_for
from support.burning import heating_mj_kg, wood_mj_kg
from support.burning import minutes as minutes_for
from support.each import each

TABLE = json.loads((Path(__file__).parent / "kitchen-vectors.json").read_text(encoding="utf-8"))
USED_ELSEWHERE = {"sweat_g", "windchill_C", "rho_g_ml"}
"""sweat_g: whole ISO runs, in oracles; wind chill and food density belong to other subjects."""
SEEN: set[str] = set()


def rows(name: str) -> list[tuple[str, float]]:
    SEEN.add(name)
    return [(key, value) for key, value in TABLE[name].items() if not key.startswith("tol")]


CAPS = dict(rows("caps"))


def close(name: str, got: float, expected: float) -> bool:
    group = TABLE[name]
    tolerance = group["tol"] if "tol" in group else group.get("tol_rel", 0.0) * abs(expected)
    return abs(got - expected) <= tolerance


@each(("height", "hpa"), rows("pressure_hPa"))
def test_pressure_follows_the_standard_atmosphere(height: str, hpa: float) -> None:
    # ISO2533
    assert close("pressure_hPa", heat.pressure_hpa(float(height)), hpa)


@each(("height", "celsius"), rows("boil_C"))
def test_water_boils_cooler_higher_up(height: str, celsius: float) -> None:
    # ISO2533 with IapwsIF97
    assert close("boil_C", heat.boiling_c(float(height)), celsius)


@each(("mpa", "kelvin"), rows("ts_IF97_K"))
def test_saturation_meets_the_check_values_of_its_release(mpa: str, kelvin: float) -> None:
    # IapwsIF97, Table 36
    assert close("ts_IF97_K", heat.saturation_k(float(mpa.removesuffix("MPa"))), kelvin)


@each(("case", "kj"), rows("heat_kJ_per_kg"))
def test_heat_to_the_boil(case: str, kj: float) -> None:
    # IAPWS-95 through CoolProp
    start, height = case.removesuffix("m").split("C@")
    boiling = heat.boiling_c(float(height))
    assert close("heat_kJ_per_kg", heat.heat_kj_kg(float(start), boiling), kj)
    assert close("heat_kJ_per_kg", heat.WATER_KJ_PER_KG_K * (boiling - float(start)), kj)


@each(("case", "kj"), rows("snow_kJ_per_kg"))
def test_heat_from_snow_to_the_boil(case: str, kj: float) -> None:
    # IAPWS06, melting enthalpy
    start, height = case.removesuffix("m").split("C@")
    got = heat.snow_kj_kg(float(start), heat.boiling_c(float(height)))
    assert close("snow_kJ_per_kg", got, kj)


@each(("name", "mj"), rows("LHV_MJ_per_kg"))
def test_net_heating_value(name: str, mj: float) -> None:
    # CODATA, from formation enthalpies; propane, n-butane, methanol: MoranShapiro, Table A-25
    if name.startswith("wood"):
        assert close("LHV_MJ_per_kg", wood_mj_kg(0.20), mj)
        return
    assert close("LHV_MJ_per_kg", heating_mj_kg(fuels.substances()[name]), mj)


@each(("case", "grams"), rows("fuel_g_per_kg"))
def test_grams_of_fuel_per_kilogram_of_water(case: str, grams: float) -> None:
    fuel, _, rest = case.partition(" eta.5 ")
    stove = {
        "gas": Stove(kind="gas-open", fuel="gas", efficiency=0.5),
        "ethanol95": Stove(kind="spirit-shielded", fuel="ethanol", efficiency=0.5),
    }[fuel]
    start, height = rest.removesuffix("m").replace("snow", "").replace("C", "").split("@")
    boiling = heat.boiling_c(float(height))
    per_kg = heat.snow_kj_kg if "snow" in rest else heat.heat_kj_kg
    assert close("fuel_g_per_kg", grams_for(per_kg(float(start), boiling), stove), grams)


@each(("case", "minutes"), rows("boil_time_min"))
def test_boil_time_follows_from_power(case: str, minutes: float) -> None:
    assert case == "2kW eta.5 1kg 20C@0m"
    kj = heat.heat_kj_kg(20.0, heat.boiling_c(0.0))
    assert close("boil_time_min", minutes_for(kj, 2000.0, 0.5), minutes)


@each(("case", "kpa"), rows("pvap_kPa"))
def test_gas_pressure(case: str, kpa: float) -> None:
    # reference equations of state through CoolProp; the mix by Raoult's law
    if case.startswith("mix"):
        got = canister.mix_kpa(canister.moles(canister.MIX), 0.0)
    else:
        name, celsius = case.removesuffix("C").rsplit(" ", 1)
        got = canister.vapour_kpa(name, float(celsius))
    assert close("pvap_kPa", got, kpa)


@each(("case", "grams"), rows("pw_sweat_g_m2_h"))
def test_marching_sweat(case: str, grams: float) -> None:
    # Gonzalez2009, piecewise equation, with clo 1.3, im/clo 0.33, half humid air
    air, work = case.removesuffix("W").split("C ")
    assert close("pw_sweat_g_m2_h", sweat.equation_g_m2_h(float(air), float(work)), grams)


@each(("case", "mg"), rows("sodium_mg"))
def test_sodium_in_sweat(case: str, mg: float) -> None:
    litres, mmol = case.removesuffix("mmol").split("L ")
    assert close("sodium_mg", salt.sodium_mg(float(litres), float(mmol)), mg)


@each(("height", "minutes"), rows("boil_minutes"))
def test_minutes_of_rolling_boil(height: str, minutes: float) -> None:
    # CDCBoil
    assert drinking.boil_minutes(float(height.removesuffix("m"))) == minutes


def test_hard_caps_of_drinking() -> None:
    # TBMED507: 1.5 quarts an hour, 12 quarts a day
    assert pytest.approx(CAPS["max_L_per_h"] * 1000.0) == drinking.HOUR_CAP_ML
    assert pytest.approx(CAPS["max_L_per_day"] * 1000.0) == drinking.DAY_CAP_ML
    assert abs(drinking.HOUR_CAP_ML - 1.5 * 946.353) < 5.0
    assert abs(drinking.DAY_CAP_ML - 12 * 946.353) < 5.0


@each(("diameter", "depth"), rows("pot_depth_mm_700ml"))
def test_depth_of_a_pot(diameter: str, depth: float) -> None:
    assert close("pot_depth_mm_700ml", nesting.depth_mm(700.0, float(diameter)), depth)


@each(("case", "mg"), rows("caffeine_mg"))
def test_caffeine_of_a_cup(case: str, mg: float) -> None:
    # USDACaffeine2004: mg per 100 g of instant powder, brewed coffee, brewed black tea
    from oatsack.kitchen.caffeine import by_day_mg
    from oatsack.values.food import Nutrients
    from support.kitchen import food, menu_of, portion

    per_100g = {"instant": 3142.0, "brewed": 40.0, "tea": 20.0}
    name, grams = case.removesuffix("g").split(" ")
    cup = food(name, dose_g=float(grams), per_100g=Nutrients(caffeine_mg=per_100g[name]))
    menu = menu_of([portion("anna", 1, "drinks", name)])
    assert close("caffeine_mg", by_day_mg(menu, {name: cup})["anna"][1], mg)


def test_no_group_of_the_table_is_left_out() -> None:
    assert set(TABLE) == SEEN | USED_ELSEWHERE


def test_boiling_points_of_an_extension_leaflet() -> None:
    # CSUAltitude: 208, 203, 198, 193 F at 2,000, 5,000, 7,500, 10,000 ft, to its own rounding
    for feet, fahrenheit in ((2000, 208), (5000, 203), (7500, 198), (10_000, 193)):
        got = heat.boiling_c(feet * 0.3048) * 1.8 + 32.0
        assert abs(got - fahrenheit) <= 1.0


def test_handbook_heating_values() -> None:
    # MoranShapiro, Table A-25: net and gross, MJ/kg
    for name, net, gross in (("propane", 46.36, 50.35), ("n-butane", 45.72, 49.50),
                             ("methanol", 19.92, 22.67)):  # fmt: skip
        one = fuels.substances()[name]
        assert heating_mj_kg(one) == pytest.approx(net, rel=0.001)
        assert heating_mj_kg(one, gross=True) == pytest.approx(gross, rel=0.001)


def test_gas_that_is_allowed_in_a_can() -> None:
    # EN417: at most 13.2 bar at 50 C; the usual mix is under it, neat propane is not
    assert canister.mix_kpa(canister.moles(canister.MIX), 50.0) < 1320.0
    assert canister.vapour_kpa("propane", 50.0) > 1320.0
