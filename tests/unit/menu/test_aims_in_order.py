"""Aims in order: the second within a share of the first, judged by trying everything."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.menu.choose import choose
from oatsack.menu.decode import portions_of
from oatsack.menu.order import BLENDED_GAP, Kept, blended_far, proved_whole, with_kept
from oatsack.menu.price import price
from oatsack.menu.problem import build
from oatsack.menu.start import start
from oatsack.solve import exhaustive
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.problem import Floats, Problem, Work
from support.menu_checker import faults_of
from support.menus import food, request, retarget, tiny

ORDERS = (("kg-days", "price"), ("price", "liking"), ("liking", "kg-days"), ("mass", "price"))


def judged(asked: MenuRequest) -> tuple[float, float] | None:
    """The first aim, and the second within its share, of everything that can be eaten."""
    first, second = asked.aims
    _, one = build(asked)
    _, two = build(asked, only=second)
    _, none = build(asked, only="")
    best = exhaustive.solve(one, Work())
    if best.x is None:
        return None
    own = one.cost - none.cost
    reached = float(own @ best.x)
    most = reached + asked.aims_within * abs(reached) + 1e-6
    then = exhaustive.solve(with_kept(two, [Kept(name=first, cost=own, most=most)]), Work())
    return best.aim, then.aim


def columns_of(asked: MenuRequest, menu: Menu) -> Floats:
    """The menu in the columns of its problem, with measures filled in by the engine."""
    frame, problem = build(asked)
    chosen = {(p.walker, p.day, p.meal, p.food): p.doses for p in menu.portions}
    low, high = problem.low.copy(), problem.high.copy()
    for key, options in frame.options.items():
        for o in options:
            if o.use >= 0:
                doses = chosen.get((*key, o.food.id), 0.0)
                low[o.eat] = high[o.eat] = doses
                low[o.use] = high[o.use] = max(float(doses > 0), doses if o.use == o.eat else 0.0)
    answer = solve(replace(problem, low=low, high=high), Work())
    assert answer.x is not None
    assert portions_of(frame, answer.x) == menu.portions
    return answer.x


def second_aim(asked: MenuRequest, x: Floats) -> float:
    two: Problem = build(asked, only=asked.aims[1])[1]
    return float(two.cost @ x) + two.offset


@pytest.mark.slow
@pytest.mark.parametrize("order", ORDERS)
def test_the_second_aim_is_the_best_within_a_share_of_the_first(order: tuple[str, str]) -> None:
    """Oracle: everything tried twice. The first aim never grows beyond its share."""
    tried = 0
    for seed in range(24):
        asked = replace(tiny(seed), aims=order, aims_within=0.10)
        judge = judged(asked)
        if judge is None:
            continue
        tried += 1
        menu = choose(asked, solve)
        assert faults_of(asked, menu) == [], seed
        x = columns_of(asked, menu)
        assert second_aim(asked, x) == pytest.approx(judge[1], rel=1e-6, abs=1e-4), seed
        assert menu.bound <= judge[0] + 1e-6 * abs(judge[0]), seed
        assert menu.aim >= judge[0] - 1e-6 * abs(judge[0]), seed
    assert tried >= 8


@pytest.mark.slow
def test_nothing_given_up_leaves_the_first_aim_at_its_best() -> None:
    for seed in range(12):
        asked = replace(tiny(seed), aims=("price", "liking"), aims_within=0.0)
        judge = judged(asked)
        if judge is not None:
            menu = choose(asked, solve)
            bare = choose(replace(asked, aims=("price",)), solve)
            own = build(asked)[1].cost - build(asked, only="")[1].cost
            now, then = columns_of(asked, menu), columns_of(asked, bare)
            assert float(own @ now) <= float(own @ then) + 1e-4, seed


def test_more_given_up_never_makes_the_second_aim_worse() -> None:
    asked = replace(tiny(3), aims=("kg-days", "price"))
    found = []
    for within in (0.0, 0.05, 0.2, 0.6):
        one = replace(asked, aims_within=within)
        found.append(second_aim(one, columns_of(one, choose(one, solve))))
    assert found == sorted(found, reverse=True)


def test_one_aim_alone_is_that_aim_and_no_aim_all_at_once() -> None:
    asked = tiny(3)
    _, mixed = build(asked)
    _, light = build(replace(asked, aims=("kg-days",)))
    _, none = build(asked, only="")
    assert not np.array_equal(mixed.cost, light.cost)
    eaten = [i for i, name in enumerate(none.columns) if name.startswith("eat/")]
    assert not none.cost[eaten].any()
    assert light.cost[eaten].any()


@pytest.mark.slow
def test_a_longer_walk_is_served_in_steps_and_stays_valid() -> None:
    foods = [
        food("stew", role="main", meals="dinner", category="meal", dose_g=100, price=9.0, doses=1),
        food("dal", role="main", meals="dinner", category="meal", dose_g=125, kcal=360, price=3.0,
             doses=1),
        food("oats", role="main", meals="breakfast", category="meal", dose_g=80, price=1.0),
        *(food(f"bar-{i}", meals="lunch move", dose_g=40 + 5 * i, kcal=520 - 30 * i,
               price=6.0 - i) for i in range(5)),
    ]  # fmt: skip
    asked = retarget(request(foods, count=5, hot_drinks={}), 1700.0)
    light = choose(replace(asked, aims=("kg-days",)), solve)
    both = replace(asked, aims=("kg-days", "price"), aims_within=0.15)
    menu = choose(both, solve)
    assert faults_of(both, menu) == []
    price = {f.id: f.price / f.doses_per_pack for f in foods if f.price is not None}
    spent = [sum(p.doses * price[p.food] for p in m.portions) for m in (light, menu)]
    assert spent[1] < spent[0]
    assert menu.aim <= light.aim * 1.25


@pytest.mark.slow
def test_whole_packs_are_proven_from_the_whole_and_never_above_the_truth() -> None:
    """Where packs are bought whole, days apart prove little: the root of the whole proves more."""
    foods = [
        *(food(f"pot-{i}", role="main", meals="dinner", category="meal", dose_g=90 + 10 * i,
               price=4.0 + i, doses=4.0) for i in range(3)),
        *(food(f"bar-{i}", meals="lunch move", dose_g=40 + 5 * i, kcal=520 - 30 * i,
               price=6.0 - i) for i in range(4)),
    ]  # fmt: skip
    asked = replace(retarget(request(foods, count=4, hot_drinks={}), 1500.0), aims=("price",))
    frame, problem = build(asked)
    relaxed = price(frame, problem, solve)
    begun, _ = start(frame, problem, relaxed, solve)
    assert begun is not None
    aim, bound = begun.aim, begun.bound
    assert aim - bound > BLENDED_GAP * aim
    blended_far(begun, solve)
    proved_whole(begun, solve)
    best = solve(problem, Work(nodes=3000, hint=begun.x))
    assert begun.aim <= aim
    assert bound + 1e-6 < begun.bound <= best.aim + 1e-6
    assert choose(asked, solve).gap <= (aim - bound) / aim
