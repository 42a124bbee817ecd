"""Buying: whole packs, stock tested at the day it is eaten, and what remains."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from oatsack.packing.buy import (
    Wanted,
    from_home_g,
    lots_of,
    packs_for,
    remainders,
    reserved_g,
    shopping,
    stock_too_old,
    when_of,
)
from oatsack.values.food import Keep, Stock
from oatsack.values.menu import Menu
from oatsack.values.pack import Buy
from support.each import each
from support.packs import BEGIN, LARDER, eat, food, packed, people, usual_menu


def want(grams: float, day: int = 1, name: str = "oats", leg: int = 1) -> Wanted:
    return Wanted(food=name, date=BEGIN + dt.timedelta(days=day - 1), grams=grams, leg=leg)


@each(
    ("grams", "packs"), [(0.0, 0), (-5.0, 0), (1.0, 1), (500.0, 1), (500.0000001, 1), (501.0, 2)]
)
def test_packs_are_whole(grams: float, packs: int) -> None:
    assert packs_for(grams, 500.0) == packs


def test_what_is_needed_comes_from_home_or_is_bought_and_the_rest_is_left() -> None:
    rows = {r.food: r for r in packed(people(2), 5).buy}
    for row in rows.values():
        assert row.from_home_g + row.packs * row.pack_g == pytest.approx(row.need_g + row.left_g)
        assert row.left_g < row.pack_g
    assert rows["oats"].need_g == pytest.approx(2 * 5 * 50.0)


def test_needs_are_the_grams_of_the_bags() -> None:
    plan = packed(people(3), 4)
    in_bags = sum(b.net_g for b in plan.bags)
    assert sum(r.need_g for r in plan.buy) == pytest.approx(in_bags)


def test_stock_is_used_before_anything_is_bought() -> None:
    at_home = food("oats", stock=Stock(packs=1.0))
    (row,) = shopping([want(600.0)], {"oats": at_home})
    assert (row.from_home_g, row.packs, row.left_g) == (500.0, 1.0, 400.0)
    (enough,) = shopping([want(300.0)], {"oats": at_home})
    assert (enough.from_home_g, enough.packs) == (300.0, 0.0)


def test_stock_is_tested_at_the_day_it_is_eaten_not_at_the_start() -> None:
    """Good on the first two days, past its date on the third."""
    row = food("oats", stock=Stock(packs=9.0, best_before=BEGIN + dt.timedelta(days=1)))
    heap = [want(100.0, 1), want(100.0, 2), want(100.0, 3)]
    assert from_home_g(row, heap, lots_of(row)) == pytest.approx(200.0)
    assert stock_too_old(heap, lots_of(row))
    assert not stock_too_old(heap[:2], lots_of(row))


def test_the_last_good_day_is_the_best_before_itself() -> None:
    row = food("oats", stock=Stock(packs=9.0, best_before=BEGIN))
    assert from_home_g(row, [want(100.0, 1)], lots_of(row)) == pytest.approx(100.0)
    assert from_home_g(row, [want(100.0, 2)], lots_of(row)) == 0.0


def test_spare_food_must_be_good_to_the_end() -> None:
    bars = replace(LARDER["bar"], stock=Stock(packs=9.0, best_before=BEGIN + dt.timedelta(days=2)))
    menu = Menu(portions=(eat("a", 1, "move", "bar"),), spare=(eat("a", 0, "move", "bar"),))
    (row,) = packed(people(1), 5, menu=menu, foods={**LARDER, "bar": bars}).buy
    assert row.from_home_g == pytest.approx(40.0)


def test_sealed_stock_is_taken_in_whole_doses_and_open_bags_in_whole_packs() -> None:
    bars = replace(LARDER["bar"], stock=Stock(packs=0.4))
    nuts = replace(LARDER["nuts"], stock=Stock(packs=1.5))
    assert from_home_g(bars, [want(400.0)], lots_of(bars)) == pytest.approx(80.0)
    assert from_home_g(nuts, [want(400.0)], lots_of(nuts)) == pytest.approx(200.0)


def test_an_opened_pack_at_home_counts_for_what_is_measured_out() -> None:
    half = food("oats", stock=Stock(packs=0.5))
    assert from_home_g(half, [want(400.0)], lots_of(half)) == pytest.approx(250.0)


@each(
    ("keep", "category", "leg", "when"),
    [
        (Keep(), "grain", 1, "weeks before"),
        (Keep(warm_days=7.0), "dairy", 1, "day before"),
        (Keep(warm_days=30.0), "dairy", 1, "weeks before"),
        (Keep(), "bread", 1, "day before"),
        (Keep(warm_days=60.0), "bread", 1, "weeks before"),
        (Keep(), "grain", 2, "on the way"),
    ],
)
def test_what_does_not_keep_is_bought_the_day_before(
    keep: Keep, category: str, leg: int, when: str
) -> None:
    assert when_of(food(keep=keep, category=category), leg) == when


def test_what_goes_into_boxes_is_bought_once_with_the_rest() -> None:
    rows = shopping([want(300.0, 1), want(300.0, 9)], LARDER)
    assert [(r.packs, r.leg) for r in rows] == [(2.0, 1)]


def test_a_shop_on_the_way_sells_whole_packs_of_its_own() -> None:
    rows = shopping([want(300.0, 1), want(300.0, 9, leg=2)], LARDER)
    assert [(r.packs, r.leg, r.when) for r in rows] == [
        (1.0, 1, "weeks before"), (1.0, 2, "on the way"),
    ]  # fmt: skip


def test_stock_at_home_does_not_help_in_a_shop_on_the_way() -> None:
    at_home = {"oats": food("oats", stock=Stock(packs=5.0))}
    (row,) = shopping([want(300.0, leg=2)], at_home)
    assert (row.from_home_g, row.packs) == (0.0, 1.0)


def line(name: str, left: float, leg: int = 1) -> Buy:
    return Buy(food=name, shop="supermarket", need_g=100.0, from_home_g=0.0, packs=1.0,
               pack_g=LARDER[name].pack_g, price=1.0, left_g=left, leg=leg)  # fmt: skip


def test_remainders_know_what_they_are_good_for() -> None:
    opened = replace(LARDER["cheese"], keep=Keep(warm_days=7.0, opened_days=3.0))
    rows = {**LARDER, "cheese": opened, "oats": food("oats", resealable=True)}
    uses = {r.food: r.use for r in remainders(
        [line("bar", 80.0), line("cheese", 40.0), line("oats", 200.0), line("lentils", 90.0),
         line("lentils", 90.0, leg=2)], rows)}  # fmt: skip
    assert uses == {
        "bar": "spare", "cheese": "eat at home", "oats": "next walk", "lentils": "eat at home",
    }  # fmt: skip
    first = remainders([line("lentils", 90.0), line("lentils", 90.0, leg=2)], rows)[0]
    assert first.use == "next leg"


def test_a_remainder_states_doses_and_energy() -> None:
    (rest,) = remainders([line("bar", 80.0)], LARDER)
    assert (rest.doses, rest.energy_kcal) == pytest.approx((2.0, 360.0))
    assert remainders([line("bar", 0.0)], LARDER) == ()


def test_only_what_comes_from_home_would_be_reserved() -> None:
    rows = {**LARDER, "oats": food("oats", stock=Stock(packs=1.0))}
    bought = shopping([want(300.0), want(40.0, name="bar")], rows)
    assert reserved_g(bought) == {"oats": pytest.approx(300.0)}


def test_a_stock_past_its_date_is_said_quietly() -> None:
    old = replace(LARDER["oats"], stock=Stock(packs=5.0, best_before=BEGIN))
    plan = packed(people(1), 4, menu=usual_menu(["a"], 4), foods={**LARDER, "oats": old})
    (flag,) = [f for f in plan.flags if f.key == "packing.stock.old"]
    assert flag.level == "quiet"
    assert flag.values["food"] == "oats"


def test_what_only_home_has_and_lacks_is_said() -> None:
    home = replace(LARDER["oats"], shop="home")
    plan = packed(people(1), 2, foods={**LARDER, "oats": home})
    assert any(f.key == "packing.stock.short" for f in plan.flags)


def lot(packs: float, good_to_day: int | None = None) -> Stock:
    best = None if good_to_day is None else BEGIN + dt.timedelta(days=good_to_day - 1)
    return Stock(packs=packs, best_before=best)


def test_the_lot_that_ends_first_is_used_first_and_leaves_the_other_for_later_days() -> None:
    """One pack good to day 2 and one without a date cover 400 g early and 500 g late; using the
    undated one first would cover less."""
    lots = (lot(1.0), lot(1.0, good_to_day=2))
    heap = [want(400.0, 1), want(500.0, 5)]
    assert from_home_g(food("oats"), heap, lots) == pytest.approx(900.0)


def test_no_order_of_lots_covers_more() -> None:
    """Against every way of giving dates their lots, in steps of a pack."""
    import itertools

    lots = (lot(1.0, 2), lot(2.0, 4), lot(1.0))
    units = [x for x in lots for _ in range(int(x.packs))]
    for days in itertools.product((1, 2, 3, 4, 5), repeat=3):
        heap = [want(500.0, d) for d in days]
        best = max(
            sum(500.0 for d, unit in zip(days, order, strict=False)
                if unit.best_before is None or unit.best_before >= BEGIN + dt.timedelta(days=d - 1))
            for order in itertools.permutations(units, 3)
        )  # fmt: skip
        assert from_home_g(food("oats"), heap, lots) == pytest.approx(best)
