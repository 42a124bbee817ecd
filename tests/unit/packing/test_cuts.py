"""Packs opened once and eaten from at meals: together, measured out, and never open too long."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.packing.cuts import runs
from oatsack.packing.label import eat_by_day
from oatsack.values.food import Food, Keep
from oatsack.values.menu import Menu
from oatsack.values.pack import Bag, Packed
from oatsack.values.walker import Avoid, Walker
from support.packs import LARDER, eat, food, packed, people

BLOCK = food("cheddar", role="topping", carry="bag", category="dairy", dose_g=40.0, pack_g=200.0,
             doses_per_pack=5.0, pack_ml=190.0, wrap_g=6.0,
             keep=Keep(opened_days=3.0, warm_days=9.0))  # fmt: skip
ROWS = {**LARDER, "cheddar": BLOCK}


def cheese(days: Sequence[int], *, walkers: Sequence[Walker] = (), doses: float = 1.0,
           row: Food = BLOCK, length: int = 8, meals: Mapping[int, str] | None = None,
           ) -> Packed:  # fmt: skip
    """Packing of a walk on which everyone eats cheese on some days, and lentils on all."""
    who = walkers or people(1)
    portions = [eat(w.id, d, "dinner", "lentils") for w in who for d in range(1, length + 1)]
    portions += [
        eat(w.id, d, (meals or {}).get(d, "lunch"), "cheddar", doses) for w in who for d in days
    ]
    return packed(who, length, menu=Menu(portions=tuple(portions)), foods={**ROWS, "cheddar": row})


def blocks(plan: Packed) -> list[Bag]:
    return [b for b in plan.bags if any(i.food == "cheddar" for i in b.items)]


def told(plan: Packed) -> list[tuple[bool, int, int, int | None, float]]:
    """Closed as bought, opened on, lasts to, eat by, grams."""
    return [(b.sealed, b.open_day, b.empty_day, b.eat_by_day, b.net_g) for b in blocks(plan)]


def test_what_keeps_from_home_is_cut_at_home_and_labelled() -> None:
    plan = cheese([1, 2, 3])
    assert told(plan) == [(False, 1, 3, 3, 120.0)]
    assert blocks(plan)[0].number > 0


def test_what_is_eaten_later_comes_from_a_block_that_is_opened_on_its_day() -> None:
    """By hand: days 1 and 3 from home, a block opened on day 5 lasts to day 7, 120 g of it left."""
    assert told(cheese([1, 3, 5, 7])) == [(False, 1, 3, 3, 80.0), (True, 5, 7, 7, 200.0)]
    later = blocks(cheese([1, 3, 5, 7]))[1]
    assert [(i.meal, i.net_g) for i in later.items if i.day == 0] == [("left", 120.0)]


def test_each_later_run_opens_a_block_of_its_own() -> None:
    found = told(cheese([2, 4, 8], row=replace(BLOCK, keep=Keep(opened_days=2.0))))
    assert [(closed, first, last) for closed, first, last, _, _ in found] == [
        (False, 2, 2), (True, 4, 4), (True, 8, 8),
    ]  # fmt: skip


def test_what_keeps_for_ever_once_opened_is_one_bag() -> None:
    assert told(cheese([1, 4, 8], row=replace(BLOCK, keep=Keep()))) == [
        (False, 1, 8, None, 120.0)
    ]


def test_lunch_and_dinner_are_cut_from_one_block() -> None:
    (one,) = blocks(cheese([1, 2, 3], meals={2: "dinner"}))
    assert {i.meal for i in one.items} == {"lunch", "dinner"}


def test_a_whole_block_is_carried_as_it_was_bought() -> None:
    assert told(cheese([1, 2, 3], doses=5 / 3)) == [(True, 1, 3, 3, pytest.approx(200.0))]


def test_a_cook_group_cuts_from_one_block_and_who_must_avoid_something_has_their_own() -> None:
    two = people(2)
    assert len(blocks(cheese([1, 2], walkers=two))) == 1
    careful = (two[0], replace(two[1], avoids=(Avoid(allergen="peanut"),)))
    assert sorted(b.group for b in blocks(cheese([1, 2], walkers=careful))) == ["a", "b"]


def test_what_is_left_in_a_block_is_bought_and_carried_and_not_eaten() -> None:
    plan = cheese([1, 5])
    (line,) = [b for b in plan.buy if b.food == "cheddar"]
    assert (line.need_g, line.packs) == (240.0, 2.0)
    sack = plan.sacks[0]
    later = next(b for b in blocks(plan) if b.sealed)
    assert sack.by_day_g["8"] >= 160.0 + later.wrap_g


def test_a_cut_bag_weighs_its_plastic_and_a_block_its_own_wrapping() -> None:
    home, block = blocks(cheese([1, 5]))
    assert home.wrap_g == 2.0
    assert block.wrap_g == BLOCK.wrap_g


@pytest.mark.slow
@settings(max_examples=80, deadline=None)
@given(
    days=st.sets(st.integers(1, 12), min_size=1), keeps=st.integers(1, 6),
    grams=st.sampled_from([40.0, 80.0, 120.0]),
)  # fmt: skip
def test_nothing_is_eaten_from_a_pack_that_stood_open_too_long(
    days: set[int], keeps: int, grams: float
) -> None:
    row = replace(BLOCK, keep=Keep(opened_days=float(keeps)))
    plan = cheese(sorted(days), row=row, doses=grams / 40.0, length=12)
    eaten = sum(i.net_g for b in blocks(plan) for i in b.items if i.day > 0)
    assert eaten == pytest.approx(len(days) * grams)
    for bag in blocks(plan):
        assert bag.eat_by_day is not None and bag.empty_day <= bag.eat_by_day, bag.id
        assert bag.eat_by_day == eat_by_day([row], 1, bag.open_day, as_bought=bag.sealed)
        if bag.sealed:
            assert bag.net_g % row.pack_g == pytest.approx(0.0, abs=1e-6)
    assert "packing.keeps" not in {f.key for f in plan.flags}


def test_openings_follow_one_another_in_order() -> None:
    plan = cheese([1, 3, 5, 7])
    items = [i for b in blocks(plan) for i in b.items if i.day > 0]
    assert [(day, [i.day for i in run]) for day, run in runs(items, BLOCK, 1)] == [
        (0, [1, 3]), (5, [5, 7]),
    ]  # fmt: skip
    assert [day for day, _ in runs(items, BLOCK, 4)] == [0, 7]
