"""Boiling, snow, pots, fuels, stoves and gas in the cold, on small cases."""

from __future__ import annotations

import pytest

from oatsack.cite import UNSOURCED, bibliography
from oatsack.errors import UsageError
from oatsack.kitchen import canister, fuels, heat
from oatsack.values.kit import FuelKind, Stove
from support.burning import grams as grams_for
from support.burning import heating_mj_kg, wood_mj_kg
from support.each import each


def test_the_one_line_form_of_the_boiling_point_holds_to_6000_m() -> None:
    # common practice: a kelvin per 300 m, here as our own line through the full chain
    for height in range(0, 6001, 250):
        assert abs(heat.boiling_c(float(height)) - (99.974 - 0.003342 * height)) < 0.035


@each(("barometer", "boiling"), [(980.0, 99.04), (1040.0, 100.71)])
def test_weather_moves_the_boiling_point(barometer: float, boiling: float) -> None:
    # IapwsIF97, evaluated apart from this code
    assert heat.boiling_c(0.0, barometer) == pytest.approx(boiling, abs=0.01)


@each(
    ("sea_level_c", "hpa", "boiling"),
    [(-10.0, 586.7, 85.35), (15.0, 616.6, 86.63), (30.0, 632.7, 87.29)],
)
def test_a_warm_season_lifts_the_pressure_aloft(
    sea_level_c: float, hpa: float, boiling: float
) -> None:
    # ISO2533 with another temperature at sea level, evaluated apart from this code
    assert heat.pressure_hpa(4000.0, sea_level_c=sea_level_c) == pytest.approx(hpa, abs=0.05)
    assert heat.boiling_c(4000.0, 1013.25, sea_level_c) == pytest.approx(boiling, abs=0.01)


def test_geometric_and_geopotential_height_differ_by_little() -> None:
    # ICAO prints 701.085 hPa for 3,000 m of geopotential height; geometric it is 701.211
    assert heat.pressure_hpa(3000.0) == pytest.approx(701.211, abs=0.005)
    assert heat.pressure_hpa(3001.4165) == pytest.approx(701.085, abs=0.01)


def test_height_lowers_the_heat_to_the_boil_by_about_a_twenty_fifth_per_kilometre() -> None:
    low = heat.heat_kj_kg(10.0, heat.boiling_c(0.0))
    high = heat.heat_kj_kg(10.0, heat.boiling_c(1000.0))
    assert 1.0 - high / low == pytest.approx(0.037, abs=0.004)


def test_snow_takes_about_twice_the_heat_of_water() -> None:
    # common practice: twice the fuel per litre
    snow = heat.snow_kj_kg(-10.0, heat.boiling_c(3000.0))
    water = heat.heat_kj_kg(5.0, heat.boiling_c(3000.0))
    assert snow / water == pytest.approx(2.05, abs=0.02)


def test_melting_alone() -> None:
    # IAPWS06: from -10 C to water of 0 C takes 354 kJ/kg
    assert heat.snow_kj_kg(-10.0, 0.0) == pytest.approx(354.0, abs=0.3)


def test_wet_snow_takes_less() -> None:
    dry = heat.snow_kj_kg(0.0, 0.0)
    assert heat.snow_kj_kg(0.0, 0.0, liquid_share=0.25) == pytest.approx(0.75 * dry)


def test_a_titanium_pot_takes_one_and_a_half_percent_of_a_litre() -> None:
    assert heat.pot_kj(120.0, "titanium", 80.0) == pytest.approx(5.0, abs=0.05)
    assert heat.pot_kj(120.0, "aluminium", 80.0) > heat.pot_kj(120.0, "titanium", 80.0)


@each(
    ("height", "factor"), [(1500.0, 1.42), (3000.0, 2.00), (4000.0, 2.53), (5000.0, 3.19)]
)
def test_staples_simmer_longer(height: float, factor: float) -> None:
    # a chemist's Q10 of 2, evaluated apart from this code (counted from 100 C: hence 0.6 %)
    assert heat.staple_factor(heat.boiling_c(height)) == pytest.approx(factor, rel=0.006)


def test_instant_food_waits_half_the_excess() -> None:
    at = heat.boiling_c(3000.0)
    excess = heat.staple_factor(at) - 1.0
    assert heat.soak_factor(at) == pytest.approx(1.0 + excess / 2.0)


def test_under_high_pressure_nothing_cooks_faster_than_at_sea_level() -> None:
    assert heat.staple_factor(101.0) == 1.0
    assert heat.soak_factor(101.0) == 1.0


def test_ten_minutes_at_the_sea_are_about_fifteen_at_5000_ft() -> None:
    # common practice, quoted from a field manual: 10 min become 15 at 5,000 ft, 20 at 10,000 ft
    assert 10.0 * heat.staple_factor(heat.boiling_c(1524.0)) == pytest.approx(15.0, abs=1.0)
    assert 10.0 * heat.staple_factor(heat.boiling_c(3048.0)) == pytest.approx(20.0, abs=1.0)


def test_every_kind_of_fuel_has_a_row() -> None:
    assert set(fuels.fuels()) == set(FuelKind.__args__)


def test_every_stove_burns_a_fuel_that_exists_and_orders_its_efficiencies() -> None:
    for row in fuels.stoves().values():
        assert row.fuel in fuels.fuels()
        for low, likely, high in (row.calm, row.windy):
            assert 0.0 < low <= likely <= high < 1.0
        assert all(w <= c for w, c in zip(row.windy, row.calm, strict=True))
        assert row.fire_rule in ("valve", "open")


def test_every_row_of_the_tables_names_a_source_that_resolves() -> None:
    words = (*UNSOURCED, "planning prior", "computed")
    for table in ("fuels.csv", "stoves.csv", "substances.csv"):
        for row in fuels.rows(table):
            head = row["source"].split(",")[0].split(";")[0].split(" from ")[0].strip()
            known = head in bibliography() or any(row["source"].startswith(w) for w in words)
            assert known, f"{table}: {row['source']}"


def test_gas_is_what_its_parts_say() -> None:
    parts = fuels.substances()
    net = 0.8 * heating_mj_kg(parts["isobutane"]) + 0.2 * heating_mj_kg(
        parts["propane"]
    )
    gross = 0.8 * heating_mj_kg(parts["isobutane"], gross=True)
    gross += 0.2 * heating_mj_kg(parts["propane"], gross=True)
    assert fuels.fuel_of("gas").lhv_mj_kg == pytest.approx(net, rel=0.001)
    assert fuels.fuel_of("gas").hhv_mj_kg == pytest.approx(gross, rel=0.001)


def test_spirit_is_ethanol_with_water_that_must_be_boiled_off() -> None:
    pure = heating_mj_kg(fuels.substances()["ethanol"])
    share = 0.9376
    wet = share * pure - (1.0 - share) * 2.442
    assert fuels.fuel_of("ethanol").lhv_mj_kg == pytest.approx(wet, rel=0.002)


def test_white_gas_lies_under_its_stand_in() -> None:
    heptane = heating_mj_kg(fuels.substances()["n-heptane"])
    assert 0.97 * heptane < fuels.fuel_of("white-gas").lhv_mj_kg < heptane


def test_wood_has_less_the_wetter_it_is() -> None:
    # NZ energy agency's table as quoted in print: 19.00, 14.72, 12.58 at 0, 20, 30 % (from memory)
    for moisture, mj in ((0.0, 19.00), (0.2, 14.72), (0.3, 12.58)):
        assert wood_mj_kg(moisture) == pytest.approx(mj, abs=0.02)
    assert fuels.fuel_of("wood").lhv_mj_kg == pytest.approx(wood_mj_kg(0.2), abs=0.01)


def test_gross_and_net_efficiency_are_kept_apart() -> None:
    # 52 % of the gross value of gas is 56 % of the net one
    gas = fuels.fuel_of("gas")
    assert 0.52 * gas.hhv_mj_kg / gas.lhv_mj_kg == pytest.approx(0.563, abs=0.002)


@each(("kind", "grams"), [("gas-open", 15.0), ("gas-exchanger", 11.0)])
def test_a_litre_from_10_degrees_takes_what_practice_says(kind: str, grams: float) -> None:
    # common practice: 15 g a litre on an open burner, 11 with a heat exchanger
    kj = heat.heat_kj_kg(10.0, heat.boiling_c(500.0)) + heat.pot_kj(120.0, "titanium", 88.0)
    assert grams_for(kj, Stove(kind=kind)) == pytest.approx(grams, abs=0.3)


def test_spirit_takes_25_to_31_grams_a_litre() -> None:
    # common practice
    kj = heat.heat_kj_kg(10.0, heat.boiling_c(500.0))
    grams = grams_for(kj, Stove(kind="spirit-shielded", fuel="ethanol"))
    assert 25.0 <= grams <= 31.0


def test_the_walkers_own_efficiency_outranks_the_prior_and_falls_in_the_wind_alike() -> None:
    own = Stove(kind="gas-open", efficiency=0.66)
    row = fuels.stove_row("gas-open")
    assert fuels.efficiency(own) == 0.66
    assert fuels.efficiency(own, windy=True) == pytest.approx(0.66 * row.windy[1] / row.calm[1])


def test_the_prior_is_wide() -> None:
    row = fuels.stove_row("gas-open")
    assert row.calm[::2] == (0.45, 0.60)
    assert row.windy[::2] == (0.15, 0.35)


def test_own_power_outranks_the_row() -> None:
    assert fuels.power_w(Stove()) == 2000.0
    assert fuels.power_w(Stove(power_w=1500.0)) == 1500.0


def test_unknown_kinds_are_refused_with_the_known_ones() -> None:
    with pytest.raises(UsageError, match="gas-open"):
        fuels.stove_row("campfire-9000")
    with pytest.raises(UsageError, match="white-gas"):
        fuels.fuel_of("uranium")


@each(
    ("name", "height", "celsius"),
    [
        ("isobutane", 0.0, -11.75), ("isobutane", 2000.0, -17.8), ("isobutane", 4000.0, -23.8),
        ("n-butane", 0.0, -0.49), ("n-butane", 2000.0, -6.7), ("n-butane", 4000.0, -12.9),
    ],
)  # fmt: skip
def test_gases_boil_where_their_pressure_meets_the_air(
    name: str, height: float, celsius: float
) -> None:
    # CoolProp 8.0.0
    ambient = heat.pressure_hpa(height) / 10.0
    assert canister.vapour_kpa(name, celsius) == pytest.approx(ambient, rel=0.004)


@each(
    ("left", "kpa"), [(1.0, 167.0), (0.5, 130.0), (0.25, 114.0), (0.1, 109.0)]
)
def test_propane_leaves_first(left: float, kpa: float) -> None:
    # Raoult at -10 C, 80/20 isobutane and propane, evaluated apart from this code
    rest = canister.stripped(canister.MIX, -10.0, left)
    assert canister.mix_kpa(rest, -10.0) == pytest.approx(kpa, abs=1.0)


def test_a_butane_mix_dies_at_half_in_the_cold() -> None:
    # 70/30 n-butane and propane at -10 C: 169 kPa full, 97 at half, under the air at sea level
    mix = {"n-butane": 0.7, "propane": 0.3}
    full = canister.mix_kpa(canister.moles(mix), -10.0)
    half = canister.mix_kpa(canister.stripped(mix, -10.0, 0.5), -10.0)
    assert full == pytest.approx(169.0, abs=2.0)
    assert half == pytest.approx(97.0, abs=2.0)
    assert half < 101.3


def test_stripping_keeps_the_mass_that_is_asked_for() -> None:
    for left in (0.9, 0.5, 0.1):
        rest = canister.stripped(canister.MIX, -5.0, left)
        mass = sum(n * fuels.substances()[name].molar_g for name, n in rest.items())
        assert mass == pytest.approx(left, rel=1e-9)


def test_height_helps_gas_to_flow() -> None:
    assert canister.push_kpa(-5.0, 2500.0) > canister.push_kpa(-5.0, 0.0)
    assert canister.push_kpa(10.0, 0.0) > canister.PUSH_KPA > canister.push_kpa(-10.0, 0.0)


def test_no_vapour_pressure_is_invented() -> None:
    with pytest.raises(ValueError, match="hexamine"):
        canister.vapour_kpa("hexamine", 20.0)
