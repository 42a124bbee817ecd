"""Rules of taste and sense: what goes with what, not too fat, not the same again, something hot."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.menu.frame import lay
from oatsack.values.menu import MenuRequest
from oatsack.values.trip import Rules
from oatsack.values.walker import Pick, Usual
from support.menus import boiled, food, request, retarget, walker
from support.ruled import Eaten, allowed, missed

BREAD = food("bread", role="side", meals="lunch", category="bread", dose_g=50.0)
BUNS = food("buns", role="side", meals="lunch", category="bread", dose_g=50.0)
CHEESE = food("cheese", role="topping", meals="lunch dinner", category="dairy", dose_g=20.0,
              taste="salty")  # fmt: skip
JAM = food("jam", role="topping", meals="lunch", category="sweet", dose_g=20.0, taste="sweet")
OIL = food("oil", role="topping", meals="dinner lunch", category="fat", dose_g=10.0, kcal=880.0,
           fat_g=100.0)  # fmt: skip
RICE = food("rice", role="main", meals="dinner", category="grain", dose_g=100.0, prep=boiled())
STEW = food("stew", role="main", meals="dinner", category="meal", dose_g=120.0, taste="salty",
            prep=boiled())  # fmt: skip
SALAD = food("salad", role="main", meals="dinner", category="meal", dose_g=120.0, taste="salty")
OATS = food("oats", role="main", meals="breakfast", category="breakfast", dose_g=80.0,
            carry="repack", prep=boiled())  # fmt: skip
MUESLI = replace(OATS, id="muesli", prep=food("x").prep)
MILK = food("milk", role="topping", meals="breakfast", category="dairy", dose_g=20.0)
SOUP = food("soup", role="side", meals="dinner", category="soup", dose_g=20.0, taste="salty")
BROTH = replace(SOUP, id="broth")
LUNCH = (BREAD, BUNS, CHEESE, JAM, OIL)


def off(asked: MenuRequest, eaten: Eaten, rule: str) -> float:
    """Grams that a soft rule asks for a menu; a soft rule forbids nothing."""
    found = missed(asked, eaten, rule)
    assert found is not None
    return found


class TestWhatGoesWithWhat:
    """Hard: toppings need a carrier, bread needs company, one soup; a plain main is only dear."""

    lunch = request(LUNCH, keep="lunch")
    dinner = request((RICE, STEW, CHEESE, OIL, SOUP, BROTH), keep="dinner")
    breakfast = request((OATS, MUESLI, MILK), keep="breakfast")

    @pytest.mark.parametrize(("foods", "fits"), [
        (("bread", "cheese"), True), (("bread", "jam"), True), (("bread",), False),
        (("cheese",), False), (("oil",), False), (("bread", "buns", "cheese"), False),
    ])  # fmt: skip
    def test_a_lunch_of_bread(self, foods: tuple[str, ...], fits: bool) -> None:
        eaten = {f"anna/1/lunch/{name}": 1.0 for name in foods}
        assert allowed(self.lunch, eaten, "toppings") == fits

    @pytest.mark.parametrize(("foods", "fits"), [
        (("stew",), True), (("stew", "oil"), True), (("stew", "soup"), True),
        (("stew", "soup", "broth"), False), (("rice", "stew"), True),
    ])  # fmt: skip
    def test_one_soup_is_enough_for_a_dinner(self, foods: tuple[str, ...], fits: bool) -> None:
        eaten = {f"anna/1/dinner/{name}": 1.0 for name in foods}
        assert allowed(self.dinner, eaten, "toppings") == fits

    @pytest.mark.parametrize(("foods", "plain"), [
        (("stew",), False), (("rice",), True), (("rice", "cheese"), False), (("rice", "oil"), True),
        (("rice", "soup"), False),
    ])  # fmt: skip
    def test_a_dinner_has_a_taste_of_its_own(self, foods: tuple[str, ...], plain: bool) -> None:
        eaten = {f"anna/1/dinner/{name}": 1.0 for name in foods}
        assert (off(self.dinner, eaten, "toppings") > 0) == plain

    def test_a_dinner_of_plain_rice_wants_a_taste_and_something_of_substance(self) -> None:
        """Soy is no sauce, a sauce no plateful; cheese is both. A dish of its own wants neither."""
        soy = food("soy", role="side", meals="dinner", category="protein", dose_g=30.0)
        tomato = food("tomato", role="topping", meals="dinner", category="vegetable", dose_g=10.0,
                      taste="salty")  # fmt: skip
        asked = request((RICE, STEW, CHEESE, soy, tomato), keep="dinner")
        plain, bare = (lay(asked).mean_carry * grams for grams in (60.0, 30.0))
        wanted = {"rice": plain + bare, "rice soy": plain, "rice tomato": bare, "rice cheese": 0.0,
                  "rice soy tomato": 0.0, "stew": 0.0}  # fmt: skip
        found = {names: off(asked, {f"anna/1/dinner/{name}": 1.0 for name in names.split()},
                            "toppings") for names in wanted}  # fmt: skip
        assert found == pytest.approx(wanted)

    def test_tomato_powder_goes_on_what_is_plain_and_not_on_a_dish_with_its_own_sauce(self) -> None:
        tomato = food("tomato", role="topping", meals="dinner", category="vegetable", dose_g=10.0,
                      taste="salty")  # fmt: skip
        dash = food("dash", role="topping", meals="dinner", category="condiment", dose_g=8.0,
                    kcal=20.0, taste="salty")  # fmt: skip
        asked = request((RICE, STEW, tomato, dash), keep="dinner")
        fits = {names: allowed(asked, {f"anna/1/dinner/{name}": 1.0 for name in names.split()},
                               "toppings")
                for names in ("rice tomato", "stew tomato", "stew dash", "rice dash")}  # fmt: skip
        assert fits == {"rice tomato": True, "stew tomato": False, "stew dash": True,
                        "rice dash": True}  # fmt: skip

    def test_dried_meat_alone_is_no_lunch_and_costs(self) -> None:
        jerky = food("jerky", meals="lunch", category="protein", dose_g=30.0, taste="salty")
        bar = food("bar", meals="lunch", dose_g=40.0)
        asked = request((jerky, bar, BREAD), keep="lunch")
        cost = {names: off(asked, {f"anna/1/lunch/{name}": 1.0 for name in names.split()},
                           "toppings")
                for names in ("jerky", "jerky bar", "jerky bread", "bar")}  # fmt: skip
        alone = 40.0 * lay(asked).mean_carry
        assert cost == pytest.approx({"jerky": alone, "jerky bar": 0.0, "jerky bread": 0.0,
                                      "bar": 0.0})  # fmt: skip

    def test_one_handful_of_dried_fruit_is_enough_for_a_breakfast(self) -> None:
        fruit = [food(n, meals="breakfast", category="fruit", dose_g=30.0, taste="sweet")
                 for n in ("cherries", "raisins")]  # fmt: skip
        asked = request((OATS, *fruit), keep="breakfast")
        oats = {"anna/1/breakfast/oats": 1.0}
        one = {**oats, "anna/1/breakfast/cherries": 2.0}
        assert allowed(asked, one, "toppings")
        assert not allowed(asked, {**one, "anna/1/breakfast/raisins": 1.0}, "toppings")

    def test_muesli_wants_milk(self) -> None:
        dry, wet = {"anna/1/breakfast/muesli": 1.0}, {"anna/1/breakfast/milk": 1.0}
        assert off(self.breakfast, dry, "toppings") > 0
        assert off(self.breakfast, {**dry, **wet}, "toppings") == pytest.approx(0.0)

    def test_a_larder_without_milk_still_has_a_breakfast(self) -> None:
        asked = request((OATS, MUESLI), keep="breakfast")
        for name in ("oats", "muesli"):
            assert allowed(asked, {f"anna/1/breakfast/{name}": 1.0}, "toppings")


class TestFat:
    """A quiet wish, and a dear ceiling above it."""

    asked = retarget(
        request((food("lard", meals="lunch", dose_g=10.0, kcal=900.0, fat_g=100.0),
                 food("sugar", meals="lunch", dose_g=10.0, kcal=400.0, fat_g=0.0)),
                keep="lunch", rules=Rules(fat_ceiling=0.45)), 1000.0)  # fmt: skip

    def cost(self, lard: int) -> float:
        """Grams for so many doses of 90 kcal of pure fat beside 360 kcal of sugar."""
        return off(self.asked, {"anna/1/lunch/lard": lard, "anna/1/lunch/sugar": 9}, "fat")

    def test_little_fat_costs_nothing(self) -> None:
        assert self.cost(2) == pytest.approx(0.0, abs=1e-9)

    def test_more_costs_more_and_beyond_the_ceiling_much_more(self) -> None:
        costs = [self.cost(n) for n in range(2, 9)]
        assert costs == sorted(costs)
        assert costs[-1] - costs[-2] > 2 * (costs[1] - costs[0]) > 0


class TestCarbohydrateOnTheWay:
    """Thirty grams an hour walked, but never more than a share of those meals."""

    bar = food("bar", meals="move", dose_g=50.0, carb_g=66.0, fibre_g=6.0)

    def asked(self, hours: float) -> MenuRequest:
        """A day with so many hours of walking; a bar brings 30 g that feed."""
        one = retarget(request((self.bar,), keep="move"), 2500.0)
        return replace(one, walking_h={"anna": {1: hours}})

    @pytest.mark.parametrize(("hours", "doses", "short"), [
        (0.0, 0, False), (1.0, 1, False), (2.0, 2, False), (2.0, 1, True), (1.0, 0, True),
    ])  # fmt: skip
    def test_an_hour_wants_thirty_grams(self, hours: float, doses: int, short: bool) -> None:
        cost = off(self.asked(hours), {"anna/1/move/bar": doses}, "carbs")
        assert (cost > 1e-6) == short

    def test_a_day_of_many_hours_never_asks_for_more_than_a_share_of_the_food(self) -> None:
        eaten = {"anna/1/move/bar": 1.0}
        assert off(self.asked(50.0), eaten, "carbs") == off(self.asked(500.0), eaten, "carbs")


class TestPlants:
    """Some dried fruit or vegetables; nuts with fruit count in part."""

    fruit = food("mango", meals="move", category="fruit", dose_g=25.0, taste="sweet")
    mix = food("mix", meals="move", category="nut", dose_g=25.0, taste="sweet")
    asked = request((fruit, mix), keep="move")

    @pytest.mark.parametrize(("handfuls", "free"), [(0, False), (1, False), (2, True)])
    def test_forty_grams_of_fruit_are_enough_for_a_day(self, handfuls: int, free: bool) -> None:
        """Source: common practice (25 to 50 g of dried fruit a day)."""
        cost = off(self.asked, {"anna/1/move/mango": float(handfuls)}, "plants")
        assert (cost == pytest.approx(0.0)) == free

    def test_a_mix_counts_in_part(self) -> None:
        nothing, mix, fruit = (
            off(self.asked, eaten, "plants")
            for eaten in ({}, {"anna/1/move/mix": 1.0}, {"anna/1/move/mango": 1.0})
        )
        assert nothing > mix > fruit


class TestWarm:
    """Breakfast and dinner are hot where they may be; a cold one costs, and is not forbidden."""

    asked = request((STEW, SALAD), keep="dinner")

    def test_a_cold_dinner_costs_and_a_hot_one_does_not(self) -> None:
        assert off(self.asked, {"anna/1/dinner/stew": 1.0}, "warm") == pytest.approx(0.0)
        assert off(self.asked, {"anna/1/dinner/salad": 1.0}, "warm") > 0

    def test_who_wants_it_cold_is_not_asked(self) -> None:
        cold = replace(self.asked, slots=tuple(replace(s, hot=False) for s in self.asked.slots))
        assert off(cold, {"anna/1/dinner/salad": 1.0}, "warm") == pytest.approx(0.0)


class TestNotTheSameAgain:
    """Dinners apart, snacks not twice a day, one kind of sweets: all soft."""

    other = replace(STEW, id="curry")
    dinners = request((STEW, other), count=3, keep="dinner")
    bars = tuple(food(f"bar-{n}", meals="lunch move", dose_g=40.0) for n in range(2))

    def days(self, *names: str) -> Eaten:
        """A dinner for each day."""
        return {f"anna/{day}/dinner/{name}": 1.0 for day, name in enumerate(names, start=1)}

    def test_the_same_dinner_again_costs_more_the_sooner(self) -> None:
        apart = off(self.dinners, self.days("stew", "curry", "stew"), "variety")
        running = off(self.dinners, self.days("stew", "stew", "curry"), "variety")
        thrice = off(self.dinners, self.days("stew", "stew", "stew"), "variety")
        assert 0 < apart < running < thrice

    def test_a_wide_larder_and_different_dinners_cost_nothing(self) -> None:
        third = replace(STEW, id="goulash")
        asked = request((STEW, self.other, third), count=3, keep="dinner")
        assert off(asked, self.days("stew", "curry", "goulash"), "variety") == pytest.approx(0.0)

    def test_the_same_snack_twice_a_day_costs(self) -> None:
        asked = request(self.bars, keep="lunch move")
        twice = {"anna/1/lunch/bar-0": 1.0, "anna/1/move/bar-0": 1.0}
        once = {"anna/1/lunch/bar-0": 1.0, "anna/1/move/bar-1": 1.0}
        assert off(asked, twice, "variety") > off(asked, once, "variety")

    def test_a_bar_that_is_fine_every_day_is_not_wanted_twice_on_one(self) -> None:
        bars = [replace(bar, every_day_fine=True) for bar in self.bars]
        asked = request(bars, count=2, keep="lunch move")
        two_days = {f"anna/{day}/{meal}/bar-{n}": 1.0
                    for day in (1, 2) for n, meal in enumerate(("lunch", "move"))}  # fmt: skip
        assert off(asked, two_days, "variety") == pytest.approx(0.0)
        twice = {f"anna/1/{meal}/bar-0": 1.0 for meal in ("lunch", "move")}
        assert off(asked, twice, "variety") == pytest.approx(15.0 * lay(asked).mean_carry)

    def test_nobody_is_offered_for_lunch_what_they_nibble_all_day(self) -> None:
        """A bag that the walker picked is open that day; it is not paid for, the lunch is: more
        than a snack twice, or a wish for something savoury buys more of the same."""
        nuts = food("nuts", meals="lunch move", dose_g=20.0, category="nut", every_day_fine=True)
        usual = Usual(bags=(Pick(food="nuts", count=1),))
        asked = request((*self.bars, nuts), [walker(usual=usual)], keep="lunch move")
        other, same = {"anna/1/lunch/bar-0": 1.0}, {"anna/1/lunch/nuts": 2.0}
        assert off(asked, same, "variety") - off(asked, other, "variety") == pytest.approx(
            40.0 * lay(asked).mean_carry
        )

    def test_two_bags_of_one_food_lie_open_on_one_day_at_a_price(self) -> None:
        """Each of two packs lasts two days: one after the other is free, both at once is not."""
        nuts = food("nuts", meals="move", category="snack", carry="bag", dose_g=25.0, kcal=500.0,
                    doses=8.0)  # fmt: skip
        asked = request((nuts,), count=4, keep="move", need=9000.0)
        after = {"1-2/nuts": 1.0, "3-4/nuts": 1.0}
        both = {"1-2/nuts": 1.0, "2-3/nuts": 1.0}
        cost = [
            missed(asked, {f"anna/{name}": packs for name, packs in bags.items()}, "variety")
            for bags in (after, both)
        ]
        assert cost[0] == pytest.approx(0.0)
        assert cost[1] == pytest.approx((60.0 + 60.0) * lay(asked).mean_carry)

    def test_the_same_sauce_two_evenings_running_costs_and_peas_or_a_dash_do_not(self) -> None:
        given = {"role": "topping", "meals": "dinner", "dose_g": 10.0, "taste": "salty"}
        tomato = food("tomato", category="vegetable", **given)
        dash = food("dash", category="condiment", **{**given, "dose_g": 2.0})
        peas = replace(tomato, id="peas", role="side")
        asked = request((RICE, STEW, self.other, tomato, dash, peas), count=4, keep="dinner")
        cost = {(name, days): off(asked, {f"anna/{day}/dinner/{name}": 2.0 for day in days},
                                  "variety")
                for name, days in (("tomato", (1, 3)), ("tomato", (1, 2)), ("tomato", (1, 2, 3)),
                                   ("dash", (1, 2)), ("peas", (1, 2)))}  # fmt: skip
        assert [n / lay(asked).mean_carry for n in cost.values()] == pytest.approx(
            [0.0, 12.0, 24.0, 0.0, 0.0]
        )

    def test_two_kinds_of_sweets_on_one_day_cost_and_two_of_one_kind_do_not(self) -> None:
        fudge, toffee = (food(n, meals="move", category="sweet", dose_g=20.0, taste="sweet")
                         for n in ("fudge", "toffee"))  # fmt: skip
        asked = request((fudge, toffee), keep="move")
        both = {"anna/1/move/fudge": 1.0, "anna/1/move/toffee": 1.0}
        assert off(asked, both, "variety") > off(asked, {"anna/1/move/fudge": 2.0}, "variety")


class TestTaste:
    """Two in five of what is nibbled are salty; a lunch is not only sweet."""

    salty = food("crackers", meals="move", category="snack", dose_g=40.0, taste="salty")
    sweet = food("fudge", meals="move", category="sweet", dose_g=30.0, taste="sweet")
    nibbles = request((salty, sweet), keep="move")

    def test_all_sweet_costs_and_half_and_half_does_not(self) -> None:
        sweet, half = ({"anna/1/move/fudge": 2.0},
                       {"anna/1/move/fudge": 1.0, "anna/1/move/crackers": 1.0})  # fmt: skip
        assert off(self.nibbles, sweet, "taste") > 0
        assert off(self.nibbles, half, "taste") == pytest.approx(0.0, abs=1e-3)

    def test_in_the_heat_half_of_it_is_wished_salty(self) -> None:
        """Common practice: salt is sweated. Two in five salty do on a mild day only."""
        biscuit = replace(self.salty, dose_g=20.0)
        fifths = {"anna/1/move/fudge": 2.0, "anna/1/move/crackers": 2.0}
        costs = []
        for warm in (18.0, 31.0):
            asked = request((biscuit, self.sweet), keep="move", temperatures_c={1: warm})
            costs.append(off(asked, fifths, "taste"))
        assert costs[0] == pytest.approx(0.0, abs=1e-3)
        assert costs[1] > 1.0

    def test_a_lunch_of_sweet_things_alone_costs_and_bread_does_not_mend_it(self) -> None:
        """Honey on crispbread is sweet; cheese on it, or beside it, is a lunch."""
        fudge = replace(self.sweet, meals=frozenset({"lunch"}))
        asked = request((fudge, BREAD, CHEESE), keep="lunch")
        cost = {
            names: off(asked, {f"anna/1/lunch/{name}": 1.0 for name in names.split()}, "taste")
            for names in ("fudge", "fudge bread", "bread cheese", "fudge bread cheese")
        }
        sweet = 80.0 * lay(asked).mean_carry
        assert cost == pytest.approx({"fudge": sweet, "fudge bread": sweet, "bread cheese": 0.0,
                                      "fudge bread cheese": 0.0})  # fmt: skip
