"""Rules of a single meal: whole portions, one main, few things, its share of the day."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.values.kit import Kit, Pot
from oatsack.values.kitchen import DosePrice
from oatsack.values.trip import Rules
from support.menus import boiled, food, request, retarget, walker
from support.ruled import allowed, missed

RICE = food("rice", role="main", meals="dinner", category="grain", dose_g=30.0,
            prep=boiled(needs_pot=True))  # fmt: skip
CURRY = food("curry", role="main", meals="dinner", category="meal", dose_g=120.0, prep=boiled())
PEAS = food("peas", role="side", meals="dinner", category="vegetable", dose_g=15.0)
BREAD = food("bread", role="side", meals="lunch", category="bread", dose_g=20.0)
WRAP = food("wrap", role="main", meals="lunch", category="bread", dose_g=60.0)
CHEESE = food("cheese", role="topping", meals="lunch", category="dairy", dose_g=20.0)
BARS = tuple(food(f"bar-{n}", meals="move", dose_g=40.0) for n in range(7))


class TestDoses:
    """Whole doses, in an amount that makes a portion."""

    asked = request((RICE, CURRY), keep="dinner")

    def test_a_portion_of_grain_is_between_sixty_and_a_hundred_and_twenty_grams(self) -> None:
        fits = [n for n in range(1, 7) if allowed(self.asked, {"anna/1/dinner/rice": n}, "doses")]
        assert fits == [2, 3, 4]

    def test_nothing_of_it_is_no_portion_and_allowed(self) -> None:
        assert allowed(self.asked, {}, "doses")

    def test_a_pouch_is_as_large_as_it_is(self) -> None:
        giant = food("giant", role="main", meals="dinner", category="meal", dose_g=400.0)
        assert allowed(request((giant,), keep="dinner"), {"anna/1/dinner/giant": 1}, "doses")


class TestMains:
    """A breakfast and a dinner have one main dish, a lunch has something to bite."""

    dinner = request((RICE, CURRY, PEAS), keep="dinner")
    lunch = request((BREAD, WRAP, CHEESE), keep="lunch")

    def test_a_dinner_without_a_main_is_none(self) -> None:
        assert not allowed(self.dinner, {"anna/1/dinner/peas": 1}, "mains")
        assert allowed(self.dinner, {"anna/1/dinner/curry": 1}, "mains")

    def test_two_mains_at_one_dinner_are_too_many(self) -> None:
        both = {"anna/1/dinner/curry": 1, "anna/1/dinner/rice": 3}
        assert not allowed(self.dinner, both, "mains")

    def test_a_lunch_needs_no_main_but_something_to_bite(self) -> None:
        assert allowed(self.lunch, {"anna/1/lunch/bread": 3}, "mains")
        assert allowed(self.lunch, {"anna/1/lunch/wrap": 1}, "mains")
        assert not allowed(self.lunch, {"anna/1/lunch/cheese": 1}, "mains")
        assert not allowed(self.lunch, {}, "mains")


class TestItems:
    """A meal is a few things, not a dozen."""

    asked = replace(request(BARS, keep="move"), settings={"items.move": 3.0})

    @pytest.mark.parametrize("kinds", range(6))
    def test_at_most_so_many_different_things(self, kinds: int) -> None:
        eaten = {f"anna/1/move/bar-{n}": 1.0 for n in range(kinds)}
        assert allowed(self.asked, eaten, "items") == (kinds <= 3)

    def test_two_of_one_thing_are_one_thing(self) -> None:
        eaten = {f"anna/1/move/bar-{n}": 2.0 for n in range(3)}
        assert allowed(self.asked, eaten, "items")


class TestEnergyOfAMeal:
    """Soft: a meal brings about its usual share of the day."""

    asked = retarget(request(BARS, keep="move"), 1000.0)

    def off(self, doses: float) -> float:
        """Grams that so many bars of 180 kcal in all cost."""
        eaten = {f"anna/1/move/bar-{n}": 1.0 for n in range(int(doses))}
        found = missed(self.asked, eaten, "energy-meal")
        assert found is not None
        return found

    def test_a_meal_of_usual_size_costs_nothing(self) -> None:
        assert self.off(5) == pytest.approx(0.0)

    def test_the_further_off_the_dearer(self) -> None:
        costs = [self.off(n) for n in range(6)]
        assert costs == sorted(costs, reverse=True)
        assert costs[0] > costs[3] > 0.0

    def test_each_kcal_short_costs_the_same(self) -> None:
        assert self.off(0) - self.off(1) == pytest.approx(self.off(1) - self.off(2))

    def test_nothing_is_forbidden(self) -> None:
        assert missed(self.asked, {}, "energy-meal") is not None


class TestMinutesAndPot:
    """From lighting the stove to the last portion, and what fits into the pot."""

    price = DosePrice(water_ml=200.0, boiled_ml=200.0, flame_min=4.0, wait_min=10.0, pot_ml=250.0)

    def asked(self, *, minutes: float | None = None, pot_ml: float = 1000.0, party: int = 1):
        """A dinner of rice or curry, within so many minutes, in this pot."""
        rules = Rules(minutes={"dinner": minutes}) if minutes else Rules()
        people = [walker(name) for name in ("anna", "ben", "cleo")[:party]]
        one = request((RICE, CURRY), people, keep="dinner", rules=rules)
        prices = {(name, 1): self.price for name in ("rice", "curry")}
        return replace(one, prices=prices, kit=Kit(pots=(Pot(volume_ml=pot_ml),)))

    @pytest.mark.parametrize(("limit", "fits"), [(13.0, False), (14.0, True), (30.0, True)])
    def test_flame_and_wait_of_the_main_are_counted(self, limit: float, fits: bool) -> None:
        eaten = {"anna/1/dinner/curry": 1}
        assert allowed(self.asked(minutes=limit), eaten, "minutes") == fits

    def test_flame_adds_up_over_the_cook_group_and_the_wait_does_not(self) -> None:
        two = {"anna/1/dinner/curry": 1, "ben/1/dinner/curry": 1}
        assert allowed(self.asked(minutes=18.0, party=2), two, "minutes")
        assert not allowed(self.asked(minutes=17.0, party=2), two, "minutes")

    def test_without_a_limit_nobody_counts_minutes(self) -> None:
        assert allowed(self.asked(), {"anna/1/dinner/curry": 1}, "minutes")

    @pytest.mark.parametrize(("pot_ml", "fits"), [(990.0, False), (1000.0, True)])
    def test_a_pot_is_three_quarters_full_with_food(self, pot_ml: float, fits: bool) -> None:
        eaten = {"anna/1/dinner/rice": 3}
        assert allowed(self.asked(pot_ml=pot_ml), eaten, "pot") == fits

    def test_what_is_eaten_from_its_bag_needs_no_room_in_the_pot(self) -> None:
        assert allowed(self.asked(pot_ml=300.0), {"anna/1/dinner/curry": 1}, "pot")
