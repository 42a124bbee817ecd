"""Four yardsticks side by side, against the hand sums of common practice."""

from __future__ import annotations

import pytest

from oatsack.packing.yardsticks import (
    by_energy_kg,
    by_mass_kg,
    by_meals_kg,
    by_volume_kg,
    by_volume_l,
    day_factors,
    yardsticks,
)
from oatsack.values.food import Meal
from oatsack.values.menu import Slot
from support.each import each
from support.packs import BEGIN, days_of


def test_solo_three_nights_by_level() -> None:
    """Common practice: 0.75 kg x (0.75 + 0.85 + 1.00 + 0.70) = 2,475 g."""
    assert day_factors(4) == (0.75, 0.85, 1.0, 0.70)
    assert by_mass_kg(sum(day_factors(4))) == pytest.approx(2.475)


def test_solo_three_nights_by_meals() -> None:
    """Common practice: 3 x 130 + 2 x 150 + 3 x 180 + drinks 4 x 40 + 18 h x 55 = 2,380 g."""
    assert by_meals_kg({"breakfast": 3, "lunch": 2, "dinner": 3}, 4, 18.0) == pytest.approx(2.380)


def test_the_two_agree_within_four_per_cent() -> None:
    """Common practice."""
    assert abs(2.475 - 2.380) / 2.4275 == pytest.approx(0.04, abs=0.002)


def test_twelve_for_eight_days() -> None:
    """Common practice: 0.78 kg x 7.15 x 12 = 66.9 kg; 141 l by the rule of 1.64 l."""
    person_days = 12 * 7.15
    assert by_mass_kg(person_days, 0.78) == pytest.approx(66.9, abs=0.05)
    assert by_volume_l(person_days) == pytest.approx(141.0, abs=0.5)
    assert by_volume_kg(person_days) == pytest.approx(0.5 * by_volume_l(person_days))


def test_naive_days_times_two_pounds_is_far_above() -> None:
    """Common practice: 3,600 g for the solo case, 1.2 kg too much."""
    assert 4 * 0.9 - by_mass_kg(sum(day_factors(4))) == pytest.approx(1.125)


@each(
    ("days", "factors"),
    [(0, ()), (1, (0.7,)), (2, (0.75, 0.7)), (3, (0.75, 0.85, 0.7))],
)
def test_short_walks_have_short_factors(days: int, factors: tuple[float, ...]) -> None:
    assert day_factors(days) == factors


def test_appetite_grows_with_weeks() -> None:
    factors = day_factors(40)
    assert (factors[5], factors[6], factors[13], factors[14], factors[28]) == (
        1.0, 1.1, 1.1, 1.2, 1.3,
    )  # fmt: skip
    assert factors[-1] == 0.7


def test_energy_over_density() -> None:
    assert by_energy_kg(4000.0) == pytest.approx(1.0)


def slots(days: int) -> tuple[Slot, ...]:
    meals: tuple[Meal, ...] = ("breakfast", "lunch", "dinner", "move", "drinks")
    return tuple(
        Slot(walker="a", day=d, date=BEGIN, meal=m, clock_min=720.0, hot=False)
        for d in range(1, days + 1)
        for m in meals
    )


def test_the_spread_is_the_width_over_the_mean() -> None:
    got = yardsticks(slots(4), days_of(4), {"a": dict.fromkeys(range(1, 5), 2500.0)}, 2400.0)
    four = (got.by_mass_kg, got.by_energy_kg, got.by_meals_kg, got.by_volume_kg)
    assert got.spread == pytest.approx((max(four) - min(four)) / (sum(four) / 4))
    assert got.plan_kg == pytest.approx(2.4)
    assert got.by_energy_kg == pytest.approx(2.5)


def test_an_ordinary_walk_has_yardsticks_that_agree_within_a_third() -> None:
    got = yardsticks(slots(4), days_of(4), {"a": dict.fromkeys(range(1, 5), 2500.0)}, 2400.0)
    assert got.spread < 0.35


def test_a_walk_without_slots_has_nothing_to_size() -> None:
    assert yardsticks((), days_of(0), {}, 0.0).spread == 0.0
