"""Sacks: what hangs on each back by day, wrappers to the leg's end (C13)."""

from __future__ import annotations

import pytest

from oatsack.packing.sacks import (
    at_waking_g,
    bags_on_leg,
    emptied_wrap_g,
    kg_days,
    net_left_g,
    order_in_sack,
)
from oatsack.values.pack import Item
from support.packs import bag, packed, people


def three_days(**more: object):
    items = tuple(
        Item(food="bar", doses=1, net_g=40.0, walker="a", day=d, meal="move") for d in (1, 2, 3)
    )
    return bag("1-move-a-bar", items=items, net_g=120.0, wrap_g=6.0, empty_day=3, **more)


def test_food_counts_until_eaten_and_wrapping_until_the_legs_end() -> None:
    bars = three_days(sealed=True)
    assert [net_left_g(bars, d) for d in (1, 2, 3, 4)] == [120.0, 80.0, 40.0, 0.0]
    assert [at_waking_g(bars, d) for d in (1, 2, 3, 4)] == [126.0, 86.0, 46.0, 6.0]


def test_kg_days_of_a_tin_for_the_sixth_night() -> None:
    """400 g eaten on the evening of day 6 is 2.4 kg-days (common practice)."""
    tin = bag(contents={"lentils": 400.0}, day=6, wrap_g=0.0)
    assert kg_days(tin, 1, 6) == pytest.approx(2.4)


def test_wrappers_of_a_lot_empty_one_by_one_and_of_a_bag_at_once() -> None:
    lot, loose = three_days(sealed=True), three_days(sealed=False)
    assert [emptied_wrap_g(lot, d) for d in (0, 1, 2, 3)] == pytest.approx([0.0, 2.0, 4.0, 6.0])
    assert [emptied_wrap_g(loose, d) for d in (0, 1, 2, 3)] == [0.0, 0.0, 0.0, 6.0]


def test_spare_food_is_carried_to_the_end_and_its_wrapper_is_never_rubbish() -> None:
    items = (Item(food="bar", doses=1, net_g=40.0, walker="a", day=0, meal="spare"),)
    spare = bag("1-spare-a", label="spare", items=items, net_g=40.0, empty_day=5)
    assert [net_left_g(spare, d) for d in (1, 5, 9)] == [40.0] * 3
    assert emptied_wrap_g(spare, 5) == 0.0


def test_a_sack_weighs_what_its_bags_weigh_and_gets_lighter_every_day() -> None:
    plan = packed(people(2), 4)
    bags = {b.id: b for b in plan.bags}
    for sack in plan.sacks:
        assert sack.start_g == pytest.approx(sum(bags[b].gross_g for b in sack.bags))
        assert sack.by_day_g["1"] == pytest.approx(sack.start_g)
        weights = [sack.by_day_g[str(d)] for d in range(1, 5)]
        assert weights == sorted(weights, reverse=True)
        wrappers = [sack.wrappers_by_day_g[str(d)] for d in range(1, 5)]
        assert wrappers == sorted(wrappers)
        assert sack.kg_days == pytest.approx(sum(weights) / 1000.0)


def test_all_sacks_together_weigh_all_bags() -> None:
    plan = packed(people(3), 4)
    assert sum(s.start_g for s in plan.sacks) == pytest.approx(sum(b.gross_g for b in plan.bags))
    assert sorted(b for s in plan.sacks for b in s.bags) == sorted(b.id for b in plan.bags)


def test_spare_food_rides_on_into_the_next_leg_and_nothing_else_does() -> None:
    from dataclasses import replace

    from support.packs import usual_menu

    menu = usual_menu(["a"], 4)
    menu = replace(menu, pools=(), portions=tuple(p for p in menu.portions if p.why != "bag"))
    plan = packed(people(1), 4, menu=menu, legs=(2, 2))
    legs = {1: (1, 2), 2: (3, 4)}
    second = bags_on_leg(plan.bags, 2, legs)
    assert {b.label for b in second if b.leg == 1} == {"spare"}
    (sack,) = [s for s in plan.sacks if s.leg == 2]
    spare = next(b for b in plan.bags if b.label == "spare")
    assert spare.id in sack.bags


def test_what_is_opened_first_lies_on_top_and_spare_food_at_the_bottom() -> None:
    soon, late = bag("x", open_day=1, empty_day=1), bag("y", open_day=4, empty_day=4)
    spoils = bag("z", open_day=4, empty_day=4, eat_by_day=1)
    spare = bag("s", label="spare", open_day=1, empty_day=5)
    order = [b.id for b in order_in_sack([spare, late, soon, spoils])]
    assert order.index("x") < order.index("y")
    assert order.index("z") < order.index("y")
    assert order[-1] == "s"
