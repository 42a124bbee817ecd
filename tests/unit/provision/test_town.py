"""Meals eaten in a town on the way: no slot, less to carry, and on the timeline all the same."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.menu.slots import MEAL_SHARE, day_shares, in_town, slots_of, town_share
from oatsack.provision.loads import Backs
from oatsack.provision.needs import shares_of, wanted
from oatsack.provision.town import LEAST_OWN, fed_kcal, stated_kcal, town_moments
from oatsack.values.pack import Place
from oatsack.values.trip import Trip
from oatsack.values.walker import Target
from support.packs import days_of, people, trip_for

DAYS = days_of(5, (2, 3))
TYPED = 3000.0
TOWN = Place(name="Mill Town", kind="shop", leg=2, day=2,
             town_meals=frozenset({"dinner", "breakfast"}))  # fmt: skip


def trip_with(*places: Place) -> Trip:
    (one,) = people(1)
    trip = trip_for((replace(one, target=Target(kcal=TYPED)),), 5)
    return replace(trip, places=places)


def targets_with(*places: Place) -> tuple[dict[int, float], dict[int, float]]:
    """Targets and credits by day."""
    trip = trip_with(*places)
    backs = Backs({"a": {d.number: np.full(len(d.stretches), 12.0) for d in DAYS}}, {})
    found = wanted(trip, DAYS, slots_of(trip, DAYS), backs).targets["a"]
    return dict(found.kcal), dict(found.town_kcal)


def test_dinner_of_the_day_and_breakfast_of_the_next_are_eaten_there() -> None:
    trip = trip_with(TOWN)
    assert in_town(trip) == {(2, "dinner"), (3, "breakfast")}
    meals = {(s.day, s.meal) for s in slots_of(trip, DAYS)}
    plain = {(s.day, s.meal) for s in slots_of(trip_with(), DAYS)}
    assert plain - meals == {(2, "dinner"), (3, "breakfast")}


def test_hot_drinks_go_with_the_last_of_the_days_own_hot_meals() -> None:
    both = replace(TOWN, town_meals=frozenset({"dinner"}))
    early = replace(TOWN, leg=1, day=1, town_meals=frozenset({"breakfast"}))
    meals = {(s.day, s.meal) for s in slots_of(trip_with(both, early), DAYS)}
    assert (2, "drinks") not in meals
    assert (3, "drinks") in meals


def test_shares_of_a_day_count_what_is_eaten_in_town() -> None:
    trip = trip_with(TOWN)
    slots = slots_of(trip, DAYS)
    plain = trip_with()
    assert day_shares(trip, slots) == pytest.approx(day_shares(plain, slots_of(plain, DAYS)))
    assert shares_of(trip, slots, "a")[2] == pytest.approx(1.0)
    assert town_share(trip, 2) == MEAL_SHARE["dinner"]
    assert town_share(trip, 4) == 0.0


def test_meals_named_take_off_what_they_would_have_brought() -> None:
    """By hand: 30 % of 3,000 kcal for the dinner, 20 % for the breakfast."""
    plain, none = targets_with()
    kcal, town = targets_with(TOWN)
    assert none == {}
    assert town == {2: pytest.approx(900.0), 3: pytest.approx(600.0)}
    assert {d: plain[d] - kcal[d] for d in plain} == {
        1: 0.0, 2: pytest.approx(900.0), 3: pytest.approx(600.0), 4: 0.0, 5: 0.0,
    }  # fmt: skip


def test_a_stated_energy_is_shared_out_by_the_meals_named() -> None:
    """By hand: 1,500 kcal in town, 3/5 of it at dinner."""
    _, town = targets_with(replace(TOWN, town_kcal=1500.0))
    assert town == {2: pytest.approx(900.0), 3: pytest.approx(600.0)}
    _, light = targets_with(replace(TOWN, town_kcal=500.0))
    assert light == {2: pytest.approx(300.0), 3: pytest.approx(200.0)}


def test_a_stated_energy_without_meals_is_eaten_on_the_day_of_arrival() -> None:
    bare = replace(TOWN, town_meals=frozenset(), town_kcal=800.0)
    assert stated_kcal(trip_with(bare), 2) == 800.0
    assert stated_kcal(trip_with(bare), 3) is None
    assert targets_with(bare)[1] == {2: pytest.approx(800.0)}


def test_a_feast_leaves_half_of_the_days_own_meals_in_the_sack() -> None:
    plain, _ = targets_with()
    kcal, town = targets_with(replace(TOWN, town_kcal=9000.0))
    own = plain[2] * (1.0 - MEAL_SHARE["dinner"])
    assert kcal[2] == pytest.approx(LEAST_OWN * own)
    assert kcal[2] + town[2] == pytest.approx(plain[2])


def test_a_light_meal_in_town_makes_the_days_own_meals_larger() -> None:
    """What is stated counts, also where it is less than the meals would have brought."""
    meals, _ = targets_with(TOWN)
    light, _ = targets_with(replace(TOWN, town_kcal=100.0))
    assert light[2] > meals[2]


def test_what_is_eaten_in_all_is_the_same_as_without_a_town() -> None:
    plain, _ = targets_with()
    kcal, town = targets_with(replace(TOWN, town_kcal=1700.0))
    assert fed_kcal(kcal, town) == pytest.approx(plain)


def test_meals_in_town_stand_at_their_clock() -> None:
    """Dinner of day 2 at 18:30, breakfast of day 3 at 07:00; a bare energy at dinner."""
    trip = trip_with(TOWN)
    assert town_moments(trip, {2: 900.0, 3: 600.0}) == [
        (1440.0 + 1110.0, 900.0), (2 * 1440.0 + 420.0, 600.0),
    ]  # fmt: skip
    bare = trip_with(replace(TOWN, town_meals=frozenset(), town_kcal=800.0))
    assert town_moments(bare, {2: 800.0}) == [(1440.0 + 1110.0, 800.0)]
    assert town_moments(trip_with(), {}) == []


def test_on_a_part_day_a_meal_in_town_is_worth_what_it_is_on_a_full_one() -> None:
    """The walk begins at nine: a day without its breakfast, yet a dinner of 30 % of 3,000 kcal."""
    early = replace(TOWN, leg=1, day=1, town_meals=frozenset({"dinner"}))
    plain, _ = targets_with()
    kcal, town = targets_with(early)
    assert plain[1] < 2500.0
    assert town == {1: pytest.approx(900.0)}
    assert kcal[1] == pytest.approx(plain[1] - 900.0)


def test_a_town_that_names_only_its_energy_is_beside_one_that_names_its_meals() -> None:
    """What one place states is not lost for another that states nothing."""
    stated = replace(TOWN, leg=1, day=1, town_meals=frozenset(), town_kcal=700.0)
    trip = trip_with(stated, TOWN)
    assert (stated_kcal(trip, 1), stated_kcal(trip, 2), stated_kcal(trip, 3)) == (700.0, None, None)
    _, town = targets_with(stated, TOWN)
    assert town == {1: pytest.approx(700.0), 2: pytest.approx(900.0), 3: pytest.approx(600.0)}
    both = (stated, replace(stated, day=2, town_kcal=500.0))
    assert [stated_kcal(trip_with(*both), day) for day in (1, 2, 3)] == [700.0, 500.0, None]


def test_meals_in_town_stand_on_the_timeline_at_their_clocks_in_the_order_of_the_days() -> None:
    """Dinner at half past six of day 2, breakfast at seven of day 3, by the usual clocks."""
    found = list(town_moments(trip_with(TOWN), {3: 600.0, 2: 900.0}))
    assert found == [(1440.0 + 1110.0, 900.0), (2 * 1440.0 + 420.0, 600.0)]
    both = replace(TOWN, town_meals=frozenset({"lunch", "dinner"}))
    (at_lunch, lunch), (at_dinner, dinner) = sorted(town_moments(trip_with(both), {2: 1000.0}))
    assert (at_lunch, at_dinner) == (1440.0 + 750.0, 1440.0 + 1110.0)
    assert lunch + dinner == pytest.approx(1000.0)
    assert lunch / dinner == pytest.approx(MEAL_SHARE["lunch"] / MEAL_SHARE["dinner"])
