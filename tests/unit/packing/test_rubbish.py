"""Rubbish by day: grams, litres, what goes into emptied pouches, bags to bring."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.packing.rubbish import RUBBISH_BAG_ML, at_end_of, scraps_g
from oatsack.values.food import Pouch, Prep
from oatsack.values.menu import Menu
from oatsack.values.pack import Item
from support.packs import LARDER, bag, eat, food, packed, people, usual_menu

STEW = food(
    "stew", 450.0, role="main", carry="sealed", category="meal", pack_g=130.0, dose_g=130.0,
    doses_per_pack=1.0, wrap_g=25.0, pack_ml=350.0, pouch=Pouch(closes=True, holds_ml=600.0),
    prep=Prep(kind="boil", water_ml=400.0, from_bag=True),
)  # fmt: skip
FOODS = {**LARDER, "stew": STEW}


def dinners(count: int, what: str = "stew") -> Menu:
    return Menu(portions=tuple(eat("a", d, "dinner", what) for d in range(1, count + 1)))


def test_rubbish_grows_every_day() -> None:
    rows = packed(people(2), 5).rubbish
    assert [r.day for r in rows] == [1, 2, 3, 4, 5]
    assert [r.mass_g for r in rows] == sorted(r.mass_g for r in rows)
    assert [r.volume_ml for r in rows] == sorted(r.volume_ml for r in rows)


def test_at_the_end_every_wrapper_but_that_of_spare_food_has_become_rubbish() -> None:
    menu = usual_menu(["a"], 4)
    plan = packed(people(1), 4, menu=menu)
    wraps = sum(b.wrap_g for b in plan.bags if b.label != "spare")
    wet = sum(scraps_g(i, LARDER[i.food]) for b in plan.bags for i in b.items if i.day > 0)
    assert plan.rubbish[-1].mass_g == pytest.approx(wraps + wet)


def test_a_leg_starts_without_rubbish() -> None:
    menu = usual_menu(["a"], 4)
    menu = replace(menu, pools=(), portions=tuple(p for p in menu.portions if p.why != "bag"))
    rows = packed(people(1), 4, menu=menu, legs=(2, 2)).rubbish
    assert rows[2].mass_g < rows[1].mass_g


def test_an_emptied_pouch_leaves_its_wrapping_and_a_wet_rest() -> None:
    """Common practice: 5 to 20 g of wet rest in each pouch."""
    rows = packed(people(1), 2, menu=dinners(2), foods=FOODS).rubbish
    assert rows[0].mass_g == pytest.approx(25.0 + 10.0)
    assert rows[1].mass_g == pytest.approx(2 * 35.0)


def test_pouches_that_close_take_the_other_rubbish_in() -> None:
    closing = packed(people(1), 3, menu=dinners(3), foods=FOODS).rubbish[-1]
    assert closing.in_pouches_ml == pytest.approx(closing.volume_ml)
    assert closing.bags == 0
    open_pouch = replace(STEW, pouch=Pouch(closes=False, holds_ml=600.0))
    loose = packed(people(1), 3, menu=dinners(3), foods={**FOODS, "stew": open_pouch}).rubbish[-1]
    assert (loose.in_pouches_ml, loose.bags) == (0.0, 1)


def test_as_many_bags_are_brought_as_the_rest_fills() -> None:
    many = [bag(contents={"bar": 4000.0}, sealed=True, wrap_g=450.0)]
    row = at_end_of(1, many, LARDER, 1)
    assert row.volume_ml == pytest.approx(4500.0)
    assert row.bags == 3
    assert (row.bags - 1) * RUBBISH_BAG_ML < row.volume_ml <= row.bags * RUBBISH_BAG_ML


def test_a_cooked_dish_leaves_two_to_five_per_cent_of_scraps() -> None:
    """Common practice."""
    item = Item(food="lentils", doses=2.0, net_g=100.0)
    assert 0.02 <= scraps_g(item, LARDER["lentils"]) / (100.0 + 400.0) <= 0.05
    assert scraps_g(Item(food="coffee", doses=1.0, net_g=2.0), LARDER["coffee"]) == 0.0
    assert scraps_g(Item(food="bar", doses=1.0, net_g=40.0), LARDER["bar"]) == 0.0


@pytest.mark.parametrize(("sealed", "low", "high"), [(True, 60.0, 100.0), (False, 15.0, 30.0)])
def test_wrapping_a_person_day_lies_in_the_common_range(
    sealed: bool, low: float, high: float
) -> None:
    """Common practice: 60 to 100 g with pouches, 15 to 30 g repacked; ends within 15 per cent."""
    days = 5
    menu = usual_menu(["a"], days)
    if sealed:
        kept = tuple(p for p in menu.portions if p.meal not in ("dinner", "breakfast"))
        stews = tuple(eat("a", d, m, "stew") for d in range(1, days + 1)
                      for m in ("breakfast", "dinner"))  # fmt: skip
        menu = replace(menu, portions=kept + stews)
    plan = packed(people(1), days, menu=menu, foods=FOODS)
    wet = sum(scraps_g(i, FOODS[i.food]) for b in plan.bags for i in b.items if i.day > 0)
    assert 0.85 * low <= (plan.rubbish[-1].mass_g - wet) / days <= 1.15 * high
