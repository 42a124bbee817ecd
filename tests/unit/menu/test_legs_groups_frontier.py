"""Legs apart, cook groups, the frontier, and spare food."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from oatsack.menu import legs
from oatsack.menu.choose import choose
from oatsack.menu.frame import lay
from oatsack.menu.frontier import Point, frontier, undominated
from oatsack.menu.groups import cook_groups
from oatsack.menu.spare import spare_kcal, spare_of
from oatsack.menu.usual import given_of
from oatsack.solve.highs import solve
from oatsack.values.food import Stock
from oatsack.values.kitchen import DosePrice
from oatsack.values.menu import Menu, MenuRequest, Portion
from oatsack.values.trip import Hold, Rules
from oatsack.values.walker import Avoid, Choice, Count, Pick, Usual
from support.menu_checker import faults_of
from support.menus import FREE, boiled, food, request, walker

DINNERS = [
    food(f"dinner-{i}", role="main", meals="dinner", category="meal", dose_g=100 + 5 * i,
         kcal=450, prep=boiled(), price=3.0 + i, liking=1.0 + i)
    for i in range(4)
]  # fmt: skip
BREAKFASTS = [
    food(f"breakfast-{i}", role="main", meals="breakfast", category="breakfast", dose_g=80,
         price=1.0 + i)
    for i in range(2)
]  # fmt: skip
BARS = [
    food(f"bar-{i}", meals="lunch move", dose_g=45 + 5 * i, kcal=420 + 20 * i, price=1.0 + i,
         taste="salty" if i % 2 else "sweet", liking=2.0 + 0.7 * i)
    for i in range(4)
]  # fmt: skip
LARDER = (*DINNERS, *BREAKFASTS, *BARS)
TWO_LEGS = (1, 1, 2, 2)


def asking(**more: object) -> MenuRequest:
    return request(LARDER, hot_drinks={}, need=1900.0, **more)  # type: ignore[arg-type]


def test_legs_are_chosen_apart_and_put_together() -> None:
    asked = asking(count=4, legs=TWO_LEGS)
    menu = choose(asked, solve)
    assert faults_of(asked, menu) == []
    assert {p.day for p in menu.portions} == {1, 2, 3, 4}
    parts = [choose(legs.leg_request(asked, leg, {}), solve) for leg in (1, 2)]
    assert menu.aim == pytest.approx(sum(p.aim for p in parts))
    assert menu.bound == pytest.approx(sum(p.bound for p in parts))


def test_equal_legs_have_equal_menus_days_later() -> None:
    asked = asking(count=6, legs=(1, 1, 2, 2, 3, 3), begin=6, end=20)
    target = {"anna": dict.fromkeys(range(1, 7), 1600.0)}
    menu = choose(replace(asked, target_kcal=target), solve)

    def of(first: int) -> set[tuple[int, str, str, float]]:
        return {(p.day - first, p.meal, p.food, p.doses) for p in menu.portions
                if first <= p.day < first + 2}  # fmt: skip

    assert of(1) == of(3) == of(5)


def test_what_makes_a_leg_its_own() -> None:
    asked = asking(count=4, legs=TWO_LEGS)
    flat = replace(asked, target_kcal={"anna": dict.fromkeys((1, 2, 3, 4), 1600.0)})
    one, two = (legs.leg_request(flat, leg, {}) for leg in (1, 2))
    assert legs.likeness(one) == legs.likeness(two)
    hot = replace(two, temperatures_c={3: 30.0})
    assert legs.likeness(one) != legs.likeness(hot)
    hungrier = replace(two, target_kcal={"anna": {3: 1700.0, 4: 1600.0}})
    assert legs.likeness(one) != legs.likeness(hungrier)


def test_whatever_a_rule_reads_of_a_day_makes_a_leg_its_own() -> None:
    asked = asking(count=4, legs=TWO_LEGS)
    days = (1, 2, 3, 4)
    flat = replace(asked, target_kcal={"anna": dict.fromkeys(days, 1600.0)})
    date = next(s.date for s in asked.slots if s.day == 3)
    usual = Usual(meals={"dinner": tuple(Choice(picks=(Pick(food=f"dinner-{i}"),))
                                         for i in range(3))})  # fmt: skip
    once = Usual(counts=(Count(food="bar-0", count=1, per="trip"),))
    makes = {
        "hours walked": {"walking_h": {"anna": {3: 5.0}}},
        "hot drinks": {"hot_drinks": {"anna": {4: 1.0}}},
        "bottles": {"bottle_fills": {"anna": {4: 1.0}}},
        "minutes in the kitchen": {"prices": {("dinner-1", 3): DosePrice(wait_min=9.0)}},
        "water in the kitchen": {"prices": {("dinner-1", 4): DosePrice(water_ml=9.0)}},
        "heat": {"temperatures_c": {3: 30.0}},
        "heat before": {"temperatures_c": {2: 30.0}},
        "stock that has passed": {"foods": tuple(
            replace(f, stock=Stock(packs=1.0, best_before=date)) for f in LARDER)},
        "turns of the usual": {"walkers": (walker(usual=usual),)},
        "what is counted once": {"walkers": (walker(usual=once),)},
        "a shop": {"shops": {2: frozenset()}, "foods": tuple(
            replace(f, stock=Stock(packs=1.0)) for f in LARDER)},
        "appetite": {"target_kcal": {"anna": dict.fromkeys(days, 1600.0) | {4: 1600.5}}},
    }  # fmt: skip

    def alike(**more: object) -> bool:
        one, two = (legs.leg_request(replace(flat, **more), leg, {})  # type: ignore[arg-type]
                    for leg in (1, 2))  # fmt: skip
        return legs.likeness(one) == legs.likeness(two)

    assert alike()
    assert [what for what, more in makes.items() if alike(**more)] == []
    same = {
        "hours on both": {"walking_h": {"anna": dict.fromkeys(days, 5.0)}},
        "mild": {"temperatures_c": {1: 12.0, 2: 24.0, 3: 8.0, 4: 19.0}},
        "two turns in two days": {"walkers": (walker(usual=Usual(
            meals={"dinner": usual.meals["dinner"][:2]})),)},
        "stock that lasts": {"foods": tuple(
            replace(f, stock=Stock(packs=1.0, best_before=dt.date(2030, 1, 1))) for f in LARDER)},
    }  # fmt: skip
    assert [what for what, more in same.items() if not alike(**more)] == []


def test_a_usual_goes_on_where_the_leg_before_left_it() -> None:
    usual = Usual(
        meals={"dinner": tuple(Choice(picks=(Pick(food=f"dinner-{i}"),)) for i in range(3))},
        counts=(Count(food="bar-0", count=2, per="trip"), Count(food="bar-1", count=1, per="day")),
    )  # fmt: skip
    asked = request(LARDER, [walker(usual=usual)], hot_drinks={}, need=1900.0, count=8,
                    legs=(1, 1, 2, 2, 3, 3, 4, 4))  # fmt: skip
    parts = [given_of(leg, lay(leg).gate) for leg in
             (legs.leg_request(asked, n, {}) for n in (1, 2, 3, 4))]  # fmt: skip
    whole = given_of(asked, lay(asked).gate)
    for given in (parts, [whole]):
        fixed = [f for part in given for f in part.fixed]
        dinners = [f.food.id for f in fixed if f.slot.meal == "dinner" and f.why == "usual"]
        assert dinners == [f"dinner-{i % 3}" for i in range(8)]
        counted = [(f.slot.day, f.food.id, f.doses) for f in fixed if f.why == "count"]
        assert [c for c in counted if c[1] == "bar-0"] == [(2, "bar-0", 2.0)], "once, on leg 1"
        assert len([c for c in counted if c[1] == "bar-1"]) == 8


def test_what_a_leg_is_bought_is_not_taken_from_home() -> None:
    stocked = tuple(replace(f, stock=Stock(packs=3.0), shop="village") for f in LARDER)
    asked = replace(asking(count=4, legs=TWO_LEGS), foods=stocked)
    for sells, left in ((frozenset({"village"}), 0.0), (frozenset(), 0.0),
                        (frozenset({"kiosk"}), 2.0)):  # fmt: skip
        shop = replace(asked, shops={2: sells})
        one, two = (legs.leg_request(shop, leg, {"bar-0": 1.0}) for leg in (1, 2))
        assert {f.id: f.home_packs for f in one.foods}["bar-0"] == 2.0
        assert {f.id: f.home_packs for f in two.foods}["bar-0"] == left, sells


def test_rows_of_a_leg_chosen_once_are_told_of_its_own_days() -> None:
    rows = ("energy-day/anna/2", "container/1", "mains/anna/3/dinner", "energy-trip/anna")
    shifted = legs.shifted(Menu(portions=(), binds=rows), 6).binds
    assert shifted == ("energy-day/anna/8", "container/1", "mains/anna/9/dinner",
                       "energy-trip/anna")  # fmt: skip


def test_no_more_is_taken_from_home_than_is_there() -> None:
    stocked = tuple(replace(f, stock=Stock(packs=0.5)) for f in LARDER)
    asked = replace(asking(count=2), foods=stocked)
    eaten = (Portion(walker="anna", day=1, meal="lunch", food="bar-0", doses=1.0),
             Portion(walker="anna", day=2, meal="lunch", food="bar-1", doses=9.0))  # fmt: skip
    assert legs.stock_used(asked, Menu(portions=eaten)) == {"bar-0": 0.2, "bar-1": 0.5}


def test_money_keeps_the_legs_together() -> None:
    assert legs.can_part(asking(count=4, legs=TWO_LEGS))
    assert not legs.can_part(asking(count=4, legs=TWO_LEGS, rules=Rules(budget=90.0)))
    assert not legs.can_part(asking(count=4))


def test_stock_that_one_leg_ate_is_gone_for_the_next() -> None:
    stocked = tuple(replace(f, stock=Stock(packs=1.0)) for f in LARDER)
    asked = replace(asking(count=4, legs=TWO_LEGS), foods=stocked)
    first = choose(legs.leg_request(asked, 1, {}), solve)
    used = legs.stock_used(asked, first)
    assert used
    assert all(0 < packs <= 1.0 for packs in used.values())
    left = {f.id: f.stock.packs for f in legs.leg_request(asked, 2, used).foods}
    assert all(left[name] == pytest.approx(1.0 - packs) for name, packs in used.items())


def test_a_hold_of_one_leg_is_not_reported_lost_by_the_others() -> None:
    asked = asking(count=4, legs=TWO_LEGS)
    date = next(s.date for s in asked.slots if s.day == 4)
    hold = Hold(food="dinner-3", date=date, meal="dinner", count=1)
    menu = choose(replace(asked, rules=replace(asked.rules, holds=(hold,))), solve)
    assert menu.flags == ()
    assert [p.food for p in menu.portions if p.why == "held"] == ["dinner-3"]


def dishes(count: int, **more: object) -> list:  # type: ignore[type-arg]
    return [food(f"dish-{i}", role="main", meals="dinner", category="meal", dose_g=100, **more)
            for i in range(count)]  # fmt: skip


def group_sizes(walkers, foods, **rules) -> list[int]:  # type: ignore[no-untyped-def]
    asked = request(foods, walkers, rules=Rules(**rules))
    return sorted(len(g.walkers) for g in cook_groups(asked))


def test_a_couple_of_unlike_eaters_shares_when_enough_dishes_suit_both() -> None:
    couple = [walker("anna", eats="vegetarian"), walker("ben")]
    assert group_sizes(couple, dishes(4)) == [2]
    assert group_sizes(couple, dishes(4, diet="meat")) == [1, 1]
    assert group_sizes(couple, dishes(4), mains_shared=False) == [1, 1]


def test_twelve_with_mixed_diets_make_two_groups() -> None:
    party = [walker(f"w{i}") for i in range(7)]
    party += [walker(f"v{i}", eats="vegetarian") for i in range(3)]
    party += [walker("c", avoids=(Avoid(allergen="gluten"),)),
              walker("n", avoids=(Avoid(allergen="tree_nut", scope="pot"),))]  # fmt: skip
    assert group_sizes(party, dishes(6)) == [5, 7]


def test_a_large_party_of_equals_is_split_into_pots() -> None:
    assert group_sizes([walker(f"w{i}") for i in range(12)], dishes(6)) == [6, 6]


def test_a_coeliac_with_no_dish_in_common_eats_alone() -> None:
    party = [walker("anna"), walker("ben", avoids=(Avoid(allergen="gluten"),))]
    wheat = dishes(6, allergens={**FREE, "gluten": "contains"})
    assert group_sizes(party, wheat) == [1, 1]


def test_a_shared_dinner_is_one_dish_split_by_need() -> None:
    party = [walker("anna"), walker("ben", 90.0)]
    small = [replace(d, dose_g=25.0, pack_g=125.0, carry="repack") for d in DINNERS]
    asked = request((*small, *BREAKFASTS, *BARS), party, count=2, hot_drinks={}, need=2000.0)
    hungry = {"anna": {1: 1500.0, 2: 1500.0}, "ben": {1: 2100.0, 2: 2100.0}}
    menu = choose(replace(asked, target_kcal=hungry), solve)
    for day in (1, 2):
        got = {p.walker: p for p in menu.portions if (p.day, p.meal) == (day, "dinner")}
        assert got["anna"].food == got["ben"].food


@pytest.fixture(scope="module")
def points() -> list[Point]:
    return frontier(asking(count=2), solve)


def test_the_frontier_goes_from_light_to_cheap_to_loved(points: list[Point]) -> None:
    by_name = {p.name: p for p in points}
    assert len(points) == 10
    assert by_name["lightest"].mass_g <= 1.05 * min(p.mass_g for p in points)
    assert by_name["cheapest"].price == min(p.price for p in points)
    assert by_name["best-loved"].liking == max(p.liking for p in points)


def test_points_that_are_beaten_in_all_can_be_left_out(points: list[Point]) -> None:
    kept = undominated(points)
    assert {"lightest", "cheapest", "best-loved"} & {p.name for p in kept}
    for a in kept:
        for b in points:
            assert not (b.mass_g < a.mass_g and b.price < a.price and b.liking > a.liking)


def test_spare_food_is_a_cold_meal_up_to_seven_days_and_a_day_beyond() -> None:
    short, long = asking(count=7), asking(count=8)
    full = max(short.target_kcal["anna"].values())
    assert spare_kcal(short, lay(short), "anna") == pytest.approx(0.25 * full)
    assert spare_kcal(long, lay(long), "anna") == max(long.target_kcal["anna"].values())
    for wish, kcal in (("none", 0.0), (700.0, 700.0)):
        asked = asking(count=2, rules=Rules(spare=wish))
        assert spare_kcal(asked, lay(asked), "anna") == kcal
    stated = replace(short, spare_kcal={"anna": 432.0})
    assert spare_kcal(stated, lay(stated), "anna") == 432.0


def test_spare_portions_are_whole_cold_and_enough() -> None:
    asked = replace(asking(count=2), spare_kcal={"anna": 500.0})
    portions = spare_of(asked, lay(asked))
    rows = {f.id: f for f in LARDER}
    assert sum(p.doses * rows[p.food].dose_kcal for p in portions) >= 500.0
    assert all(p.day == 0 and rows[p.food].prep.kind == "none" for p in portions)
    assert spare_of(replace(asked, spare_kcal={"anna": 0.0}), lay(asked)) == ()
