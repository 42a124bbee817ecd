"""The walker's own boil test: efficiency with its error, and what it refuses."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from oatsack.errors import UsageError
from oatsack.kitchen.boiltest import Boil, boil_test
from oatsack.kitchen.heat import heat_kj_kg, pot_kj
from support.each import each

LHV_GAS = 45.73


def boil(eta: float = 0.55, *, water: float = 500.0, start: float = 15.0, end: float = 90.0,
         pot_g: float = 0.0, minutes: float | None = None) -> Boil:  # fmt: skip
    """A boil of exactly this efficiency, on a perfect scale."""
    kj = water / 1000.0 * heat_kj_kg(start, end) + pot_kj(pot_g, "titanium", end - start)
    burnt = kj / (LHV_GAS * eta)
    return Boil(water_ml=water, from_c=start, to_c=end, before_g=300.0, after_g=300.0 - burnt,
                pot_mass_g=pot_g, minutes=minutes)  # fmt: skip


def test_a_perfect_test_gives_the_efficiency_back() -> None:
    got = boil_test([boil(), boil(), boil()], "gas", scale_g=0.0)
    assert got.efficiency == pytest.approx(0.55)
    assert got.error == pytest.approx(0.0, abs=1e-9)
    assert got.enough


def test_the_pot_counts_as_heated() -> None:
    got = boil_test([boil(pot_g=200.0)] * 3, "gas")
    assert got.efficiency == pytest.approx(0.55)
    without = [replace(boil(pot_g=200.0), pot_mass_g=0.0)] * 3
    assert boil_test(without, "gas").efficiency < 0.55


def test_a_gram_on_seven_is_fourteen_percent_and_three_boils_help() -> None:
    # one boil of about 7 g on a scale of 1 g: each figure is uncertain by a gram at worst
    single = boil(0.5)
    assert 6.5 < single.fuel_g < 7.5
    one = boil_test([single], "gas", scale_g=1.0)
    three = boil_test([single] * 3, "gas", scale_g=1.0)
    assert three.error < one.error
    assert three.error / three.efficiency == pytest.approx((3 / 6) ** 0.5 / (3 * 7.0), rel=0.05)


def test_fewer_than_three_boils_are_not_enough() -> None:
    assert not boil_test([boil(), boil()], "gas").enough
    assert boil_test([boil()] * 3, "gas").enough


def test_scatter_widens_the_error() -> None:
    steady = boil_test([boil(0.55)] * 3, "gas", scale_g=0.1)
    shaky = boil_test([boil(0.50), boil(0.55), boil(0.60)], "gas", scale_g=0.1)
    assert shaky.error > 2.0 * steady.error
    assert shaky.low < 0.55 < shaky.high


def test_the_error_covers_the_truth_about_as_often_as_it_says() -> None:
    # oracle: 400 made-up tests with a rounding scale and real scatter; two standard errors should
    # hold for most of them (three boils are few: a little under 95 %)
    dice = random.Random(7)
    inside = 0
    for _ in range(400):
        truth, boils = 0.55, []
        for _ in range(3):
            real = boil(truth * dice.gauss(1.0, 0.04))
            before = 300.0 + dice.random()
            boils.append(
                replace(real, before_g=round(before), after_g=round(before - real.fuel_g))
            )
        got = boil_test(boils, "gas", scale_g=1.0)
        inside += got.low <= truth <= got.high
    assert 0.80 <= inside / 400 <= 0.99


def test_power_comes_from_the_clock() -> None:
    timed = boil(minutes=2.5)
    expected = timed.fuel_g * LHV_GAS * 1000.0 / 150.0
    assert boil_test([timed] * 3, "gas").power_w == pytest.approx(expected)
    assert boil_test([boil()] * 3, "gas").power_w is None


def test_a_boil_from_snow_counts_its_melting() -> None:
    snowy = Boil(water_ml=500.0, from_c=0.0, to_c=90.0, before_g=300.0, after_g=284.0, snow_c=-5.0)
    watery = replace(snowy, snow_c=None)
    assert snowy.heat_kj - watery.heat_kj == pytest.approx(0.5 * (2.05 * 5.0 + 333.43), rel=0.001)


@each(
    ("wrong", "word"),
    [
        (replace(boil(), after_g=301.0), "burnt no fuel"),
        (replace(boil(), water_ml=5000.0), "efficient"),
        (replace(boil(), to_c=5.0), "efficient"),
    ],
)
def test_an_impossible_boil_is_named(wrong: Boil, word: str) -> None:
    with pytest.raises(UsageError, match=word) as caught:
        boil_test([boil(), wrong], "gas")
    assert "boil 2" in str(caught.value)


def test_no_boil_no_answer() -> None:
    with pytest.raises(UsageError, match="no boil"):
        boil_test([], "gas")


def test_a_seller_of_spirit_says_22_to_23_grams_a_litre() -> None:
    # a spirit seller's bench note: 22 to 23 g for a litre from 21 C, so 55 to 59 % net
    for grams, low, high in ((22.0, 0.57, 0.62), (23.0, 0.54, 0.59)):
        one = Boil(water_ml=1000.0, from_c=21.0, to_c=99.97, before_g=grams, after_g=0.0)
        assert low < boil_test([one], "ethanol").efficiency < high
