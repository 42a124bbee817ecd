"""Labels: allergens merged fail-closed, wrapping, water, the day to eat it by."""

from __future__ import annotations

import itertools

import pytest

from oatsack.packing.label import (
    allergens_of,
    bag_g,
    eat_by_day,
    ready_made_wrap_g,
    repack_wrap_g,
    wait_of,
    water_of,
    wrap_is_blank,
)
from oatsack.values.food import Keep, Prep
from support.each import each
from support.packs import BAR, FREE, LENTILS, NUTS, OATS, OIL, SAUCE, bag, food


def test_a_bag_contains_what_any_of_its_foods_contains() -> None:
    milk = food("m", allergens={**FREE, "milk": "contains"})
    assert allergens_of([OATS, milk])["milk"] == "contains"


def test_what_one_food_leaves_unknown_the_bag_leaves_unknown() -> None:
    blank = food("b", allergens={k: v for k, v in FREE.items() if k != "soy"})
    assert "soy" not in allergens_of([OATS, blank])
    assert allergens_of([OATS, blank])["milk"] == "free"


def test_unknown_outranks_may_and_contains_outranks_unknown() -> None:
    order = ["contains", "unknown", "may", "free"]
    for a, b in itertools.product(order, repeat=2):
        worse = order[min(order.index(a), order.index(b))]
        merged = allergens_of([food("x", allergens={"egg": a}), food("y", allergens={"egg": b})])
        assert merged.get("egg", "unknown") == worse


def test_a_bag_grows_in_steps_and_never_weighs_nothing() -> None:
    assert bag_g(50.0) < bag_g(500.0) < bag_g(2500.0) < bag_g(3500.0)
    assert bag_g(0.0) > 0
    assert bag_g(6000.0) == pytest.approx(2 * bag_g(3000.0))


def test_oil_is_carried_in_a_bottle_not_a_bag() -> None:
    assert repack_wrap_g(OIL, 100.0) == pytest.approx(10.0)


def test_sealed_doses_share_the_wrapping_of_their_pack() -> None:
    assert ready_made_wrap_g(BAR, 3.0) == pytest.approx(6.0)


def test_an_open_bag_keeps_its_whole_wrapping_even_when_only_begun() -> None:
    assert ready_made_wrap_g(NUTS, 1.0) == 6.0
    assert ready_made_wrap_g(NUTS, 5.0) == 6.0
    assert ready_made_wrap_g(NUTS, 6.0) == 12.0


def test_unstated_wrapping_of_a_pouch_is_within_the_common_range() -> None:
    """Common practice: 18 to 35 g for a pouch that is eaten from."""
    pouch = food("p", carry="sealed", wrap_g=None, pack_g=125.0, dose_g=125.0, doses_per_pack=1.0,
                 prep=Prep(kind="boil", water_ml=400.0, from_bag=True))  # fmt: skip
    assert 18.0 <= ready_made_wrap_g(pouch, 1.0) <= 35.0


def test_unstated_wrapping_of_bars_is_four_to_eight_per_cent() -> None:
    """Common practice."""
    bar = food("p", carry="sealed", wrap_g=None)
    assert 0.04 <= ready_made_wrap_g(bar, 10.0) / 500.0 <= 0.08


def test_water_is_that_of_the_thirstiest_occasion() -> None:
    rows = {"lentils": LENTILS, "sauce": SAUCE}
    one = bag(contents={"lentils": 100.0, "sauce": 20.0})
    assert water_of(one.items, rows) == pytest.approx(2 * 200.0 + 200.0)
    assert wait_of(one.items, rows) == 8.0
    assert water_of((), rows) == wait_of((), rows) == 0.0


@each(
    ("carry", "keep", "expected"),
    [
        ("repack", Keep(), None),
        ("repack", Keep(opened_days=5.0), 5),
        ("repack", Keep(warm_days=3.0), 3),
        ("repack", Keep(opened_days=5.0, warm_days=3.0), 3),
        ("sealed", Keep(opened_days=1.0), None),
        ("sealed", Keep(opened_days=1.0, warm_days=4.0), 4),
        ("bag", Keep(opened_days=2.0), 4),
    ],
)
def test_repacked_food_was_opened_the_evening_before_and_a_bag_on_its_day(
    carry: str, keep: Keep, expected: int | None
) -> None:
    """The leg begins on day 1; an open bag is opened on day 3."""
    assert eat_by_day([food("x", carry=carry, keep=keep)], 1, 3) == expected


@each(
    ("ml", "grams"),
    [(1.0, 2.0), (300.0, 2.0), (301.0, 5.0), (1000.0, 5.0), (1001.0, 10.0), (3000.0, 10.0),
     (3001.0, 12.0), (3301.0, 15.0), (6000.0, 20.0), (6001.0, 22.0)],
)  # fmt: skip
def test_a_bag_is_the_smallest_of_the_common_sizes_that_holds_it(ml: float, grams: float) -> None:
    """Common practice: 0.3, 1 and 3 l, of 2, 5 and 10 g; more than 3 l goes into several."""
    assert bag_g(ml) == grams


def test_wrapping_is_blank_where_nobody_stated_it_and_it_is_carried() -> None:
    cases = {("sealed", None): True, ("bag", None): True, ("repack", None): False,
             ("sealed", 5.0): False, ("bag", 0.0): False}  # fmt: skip
    found = {key: wrap_is_blank(food("x", carry=key[0], wrap_g=key[1])) for key in cases}
    assert found == cases


def test_the_longest_wait_counts_the_minutes_on_the_flame_too() -> None:
    slow = food("slow", prep=Prep(kind="simmer", wait_min=2.0, simmer_min=9.0))
    rows = {"lentils": LENTILS, "slow": slow}
    assert wait_of(bag(contents={"lentils": 50.0, "slow": 50.0}).items, rows) == 11.0


def test_two_occasions_of_one_bag_take_the_water_of_the_thirstier() -> None:
    one, two = bag(contents={"lentils": 50.0}), bag(contents={"lentils": 150.0}, day=2)
    assert water_of((*one.items, *two.items), {"lentils": LENTILS}) == 3 * 200.0


def test_an_open_bag_that_is_repacked_after_all_was_opened_the_evening_before() -> None:
    keeps = food("x", carry="bag", keep=Keep(opened_days=2.0))
    assert eat_by_day([keeps], 1, 3) == 4
    assert eat_by_day([keeps], 1, 3, as_bought=False) == 2
