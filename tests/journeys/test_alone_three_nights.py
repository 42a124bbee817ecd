"""A worked case of the trade as a whole plan: alone for three nights, Friday two to Monday eleven.

Source of the figures: common practice, hand sums; walking hours 3, 6, 6 and 3 as the case has them.
"""

from __future__ import annotations

from collections import Counter

import pytest

from support.plans import plan_of

pytestmark = pytest.mark.slow

TRIP = """
title = "Alone for three nights"
from = 2026-06-05T14:00
to = 2026-06-08T11:00
zone = "Europe/Oslo"
[[walkers]]
name = "Runa"
mass = "70 kg"
[route]
days = [
    { distance = "12 km", up = "300 m", down = "300 m" },
    { distance = "23 km", up = "700 m", down = "700 m" },
    { distance = "23 km", up = "700 m", down = "700 m" },
    { distance = "12 km", up = "300 m", down = "300 m" },
]
"""


def test_the_hours_walked_are_those_of_the_case() -> None:
    hours = [day.walking_min / 60.0 for day in plan_of(TRIP).days]
    assert hours == pytest.approx([3.0, 6.0, 6.0, 3.0], abs=0.3)


def test_three_dinners_three_breakfasts_and_two_lunches_are_counted() -> None:
    counts = Counter(slot.meal for slot in plan_of(TRIP).slots)
    assert (counts["dinner"], counts["breakfast"], counts["lunch"]) == (3, 3, 2)


def test_the_food_weighs_about_two_kilograms_and_a_half_and_far_less_than_days_times_two_pounds(
) -> None:  # fmt: skip
    """By slots 2,380 g, by level 2,475 g; naive four days at 2 lb are 3,600 g."""
    plan = plan_of(TRIP)
    grams = sum(b.gross_g for b in plan.packed.bags if b.label != "spare")
    assert 0.85 * 2380 <= grams <= 1.15 * 2475
    assert plan.yardsticks.by_mass_kg == pytest.approx(2.475)
    assert plan.yardsticks.by_meals_kg == pytest.approx(2.380, rel=0.03)
    assert grams < 3600 - 1000


def test_four_litres_are_boiled_for_which_a_can_with_75_g_is_enough_and_one_with_50_g_is_not(
) -> None:  # fmt: skip
    """4.05 l; with wind and a reserve 73 g."""
    plan = plan_of(TRIP)
    assert sum(m.boiled_ml for m in plan.kitchen.meals) == pytest.approx(4050.0, rel=0.15)
    assert plan.kitchen.fuel is not None
    assert plan.kitchen.fuel.need_g == pytest.approx(73.0, rel=0.15)
    assert plan.kitchen.fuel.burnt_g > 50.0
    assert plan.kitchen.fuel.burnt_g + 5.0 < 75.0, "wind and half a litre may go on top"
