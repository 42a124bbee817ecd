"""Four worked cases of the trade, hand sums against the program (common practice throughout).

The yardsticks of the first two stand in `unit/packing/test_yardsticks`; here are the counts that
come from clock times, the heat, the room, the legs and the boxes.
"""

from __future__ import annotations

import datetime as dt
from collections import Counter
from dataclasses import replace

import pytest

from oatsack.kitchen.heat import heat_kj_kg
from oatsack.kitchen.price import WATER_FILL
from oatsack.menu.slots import slots_of
from oatsack.packing.arrival import open_chance
from oatsack.packing.container import by_rule_ml
from oatsack.packing.legs import carried_by_leg_kg, posting_window
from oatsack.packing.yardsticks import by_volume_kg, day_factors
from oatsack.route.days import days_of
from oatsack.units import volume_ml
from oatsack.values.kit import Pot, Stove
from oatsack.values.pack import Place
from oatsack.values.trip import Rules, Trip
from oatsack.values.walker import Walker
from support.burning import grams as grams_for
from support.trips import USUAL, trip_of


def meals(trip: Trip) -> Counter[str]:
    return Counter(slot.meal for slot in slots_of(trip, days_of(trip)))


def test_solo_from_friday_two_to_monday_eleven_eats_three_dinners_three_breakfasts_two_lunches(
) -> None:  # fmt: skip
    """Case 1: days times three would be twelve meals, the clock says eight."""
    found = meals(trip_of("2026-06-05 14:00", "2026-06-08 11:00", usual_day=USUAL))
    assert (found["dinner"], found["breakfast"], found["lunch"]) == (3, 3, 2)


def test_solo_boils_four_litres_for_which_a_can_with_50_g_is_not_enough() -> None:
    """Case 1: 3 x 0.45 + 3 x 0.30 + 6 x 0.30 = 4.05 l; 57 g of gas, 73 g with wind and two boils
    in reserve. Ours from physics, water of 10 deg C and an everyday stove, is some grams above, so
    that of a can with 75 g it would say that it is just too little."""
    litres = 3 * 0.45 + 3 * 0.30 + 6 * 0.30
    assert litres == pytest.approx(4.05)
    burnt = grams_for(litres * heat_kj_kg(10.0, 100.0), Stove())
    assert burnt == pytest.approx(57.0, rel=0.15)
    reserved = 1.1 * burnt + grams_for(2 * 0.35 * heat_kj_kg(10.0, 100.0), Stove())
    assert reserved == pytest.approx(73.0, rel=0.08)
    assert reserved > 50.0


def twelve() -> Trip:
    """Case 2: eight days, lunch of the first day one's own, out at two in the afternoon."""
    trip = trip_of("2026-06-05 09:00", "2026-06-12 14:00", usual_day=USUAL)
    people = tuple(Walker(id=f"w{i}", name=f"W {i}", mass_kg=70.0) for i in range(12))
    rules = Rules(first_day_meals=frozenset({"move", "dinner"}))
    return replace(trip, walkers=people, rules=rules)


def test_twelve_for_eight_days_have_84_dinners_84_breakfasts_and_84_lunches() -> None:
    found = meals(twelve())
    assert (found["dinner"], found["breakfast"], found["lunch"]) == (84, 84, 84)


def test_twelve_need_twelve_or_thirteen_containers_by_mass_and_by_the_rule() -> None:
    """Case 2: 66.9 kg at 0.5 kg/l are 134 l, the rule of 1.64 l says 141 l: consistent."""
    factors = (0.6, 0.85, *(1.0,) * 5, 0.7)
    person_days = 12 * sum(factors)
    assert sum(factors) == pytest.approx(7.15)
    litres = 0.78 * person_days / 0.5
    rule = by_rule_ml(person_days) / 1000.0
    assert (litres, rule) == (pytest.approx(134.0, abs=0.5), pytest.approx(141.0, abs=0.5))
    assert abs(litres - rule) / rule < 0.06
    assert {round(x / 11.0) for x in (litres, rule)} <= {12, 13}
    assert by_volume_kg(person_days) == pytest.approx(0.5 * rule)


def test_our_own_day_factors_agree_with_the_case_of_twelve_within_a_twentieth() -> None:
    """Case 2 takes 0.6 for a day that begins after lunch; ours do not know the hour."""
    assert sum(day_factors(8)) == pytest.approx(7.15, rel=0.05)


def test_five_legs_of_a_long_walk_carry_19_kg_and_a_flat_plan_is_wrong_at_both_ends() -> None:
    """Case 3: 3.3, 4.7, 3.7, 4.8, 3.0 kg; flat 3.6, 4.3, 3.2, 4.0, 2.5."""
    lengths = (5.0, 6.0, 4.5, 5.5, 3.5)
    ramped, flat = carried_by_leg_kg(lengths), carried_by_leg_kg(lengths, flat=True)
    assert ramped == pytest.approx((3.3, 4.7, 3.7, 4.8, 3.0), abs=0.08)
    assert sum(ramped) == pytest.approx(19.4, abs=0.1)
    assert flat == pytest.approx((3.6, 4.3, 3.2, 4.0, 2.5), abs=0.05)
    assert flat[0] > ramped[0] and flat[-1] < ramped[-1]


POST = Place(leg=2, name="Otter Ford", transit_fast_days=3, transit_slow_days=6, hold_days=15,
             early_days=1, late_days=3)  # fmt: skip


def test_a_box_for_day_11_is_posted_from_day_minus_4_to_day_4() -> None:
    """Case 4: earliest 10, latest 14; with a hold of 30 days from day -19; six days behind, day 2
    is the first that is safe."""
    start = dt.date(2026, 6, 1)
    window = posting_window(POST, 11, start)
    assert (window.earliest, window.latest) == (-4, 4)
    assert posting_window(replace(POST, hold_days=30), 11, start).earliest == -19
    assert posting_window(POST, 11, start, behind_days=6).earliest == 2


def test_the_office_must_be_open_on_days_10_to_14_which_a_weekend_spoils() -> None:
    """Case 4 asks for it. Begun on a Monday, days 13 and 14 are a weekend (1/6 and 1/12 of our
    triangle); begun on a Friday, only day 10 is a Sunday (1/6)."""
    assert open_chance(POST, 11, dt.date(2026, 6, 1)) == pytest.approx(1.0 - 1 / 6 - 1 / 12)
    assert open_chance(POST, 11, dt.date(2026, 6, 5)) == pytest.approx(1.0 - 1 / 6)


def test_a_pot_of_700_ml_holds_between_two_and_three_cups_and_boils_two_and_a_half() -> None:
    """Common practice; clear water fills a pot to 85 %."""
    cup = volume_ml("1 cup")
    assert 2 * cup < volume_ml("700 ml") < 3 * cup
    pot = Pot(volume_ml=700.0)
    assert WATER_FILL * pot.volume_ml / cup == pytest.approx(2.5, abs=0.05)
