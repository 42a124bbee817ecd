"""What grams of protein, fat and carbohydrate can mean, each factor met alone."""

from __future__ import annotations

import pytest

from oatsack.larder.energy import fibre_apart, possible_energy
from oatsack.values.food import Nutrients
from support.each import each

BARE = {"protein_g": 0.0, "fat_g": 0.0, "carb_g": 0.0}


@each(
    ("part", "low", "high"),
    [("protein_g", 244.0, 436.0), ("fat_g", 837.0, 902.0), ("carb_g", 360.0, 420.0)],
)
def test_each_macronutrient_alone_spans_its_lowest_and_highest_factor(
    part: str, low: float, high: float
) -> None:
    # MerrillWatt1973, the span of its factors, from memory.
    per = Nutrients(**(BARE | {part: 100.0}), fibre_g=0.0)
    assert possible_energy(per, fibre_high_g=50.0) == (pytest.approx(low), pytest.approx(high))


@each("lacking", list(BARE))
def test_nothing_is_possible_while_one_macronutrient_is_blank(lacking: str) -> None:
    per = Nutrients(**{name: 10.0 for name in BARE if name != lacking})
    assert possible_energy(per, fibre_high_g=5.0) is None
    assert fibre_apart(per) is None


@each(
    ("fibre", "polyols", "fibre_high", "digested"),
    [
        (10.0, None, 40.0, 40.0),
        (None, None, 15.0, 35.0),  # a blank may be as much as its class holds (C2)
        (None, None, 80.0, 0.0),  # and never more than all the carbohydrate
        (10.0, 30.0, 40.0, 10.0),
        (30.0, 30.0, 40.0, 0.0),  # overlapping statements never make a debt
    ],
)
def test_what_may_pass_undigested_lowers_the_low_end_alone(
    fibre: float | None, polyols: float | None, fibre_high: float, digested: float
) -> None:
    per = Nutrients(protein_g=0.0, fat_g=0.0, carb_g=50.0, fibre_g=fibre, polyols_g=polyols)
    span = possible_energy(per, fibre_high_g=fibre_high)
    assert span == (pytest.approx(3.6 * digested), pytest.approx(4.2 * 50.0))


def test_fibre_beyond_the_carbohydrate_takes_nothing_from_the_rest() -> None:
    per = Nutrients(protein_g=10.0, fat_g=0.0, carb_g=10.0, fibre_g=25.0)
    assert fibre_apart(per) == pytest.approx(4 * 10 + 2 * 25)  # Eu1169, Annex XIV
