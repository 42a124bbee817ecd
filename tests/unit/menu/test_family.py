"""One matrix under many aims: its costs are those of each alone, its bounds are true for all."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.menu.blend import blend, used_by_either
from oatsack.menu.family import (
    Family,
    Weights,
    best_again,
    best_known,
    best_under,
    family_of,
    mixed,
)
from oatsack.menu.improve import State
from oatsack.menu.price import price
from oatsack.menu.problem import build
from oatsack.solve.highs import solve
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Floats, Problem, Work, worst_breach
from support.menu_checker import faults_of
from support.menus import food, request, tiny

SEEDS = [seed for seed in range(30) if solve(build(tiny(seed))[1], Work()).x is not None][:6]
WEIGHTS: tuple[Weights, ...] = (
    (1.0, 0.0, 0.0), (1.0, 1.0, 1.0), (0.2, 0.1, 9.0), (0.3, 6.0, 0.3), (2.0, 0.5, 4.0),
)  # fmt: skip


def at(asked: MenuRequest, weights: Weights) -> MenuRequest:
    load, liking, money = weights
    rules = replace(
        asked.rules, weight_kgdays=load, weight_liking=liking, weight_price=money
    )  # fmt: skip
    return replace(asked, rules=rules)


def best_of(problem: Problem) -> float:
    return solve(problem, Work()).aim


def test_the_matrix_under_weights_is_that_of_a_request_with_these_weights() -> None:
    wrong = []
    for seed in SEEDS:
        family = family_of(tiny(seed), solve)
        for weights in WEIGHTS:
            own, alone = family.under(weights), build(at(tiny(seed), weights))[1]
            same = own.columns == alone.columns and own.rows == alone.rows
            if not same or not np.allclose(own.cost, alone.cost):
                wrong.append((seed, weights))
    assert wrong == []


@pytest.mark.slow
def test_a_mixture_of_proofs_is_never_above_the_best_there_is() -> None:
    wrong, useful = [], 0
    for seed in SEEDS:
        family = family_of(tiny(seed), solve)
        family.proofs += [(w, best_of(family.under(w))) for w in WEIGHTS[:4]]
        dice = np.random.default_rng(seed)
        for _ in range(8):
            shares = dice.dirichlet(np.ones(4))
            more = dice.uniform(0.0, 0.3, 3)
            of = shares @ np.array(WEIGHTS[:4]) + more
            weights = (float(of[0]), float(of[1]), float(of[2]))
            found, best = mixed(family, solve, weights), best_of(family.under(weights))
            useful += found > 0.9 * best
            if found > best + 1e-6 * abs(best):
                wrong.append((seed, weights, found, best))
    assert wrong == []
    assert useful > 8 * len(SEEDS) / 2


def test_a_proof_of_the_same_weights_is_given_back_whole() -> None:
    family = family_of(tiny(SEEDS[0]), solve)
    family.proofs += [((1.0, 1.0, 1.0), 700.0), ((1.0, 2.0, 1.0), 650.0)]
    assert mixed(family, solve, (1.0, 1.0, 1.0)) == pytest.approx(700.0)
    assert mixed(family, solve, (1.0, 2.0, 1.0)) == pytest.approx(700.0)


def test_weights_below_every_proof_are_proven_nothing() -> None:
    family = family_of(tiny(SEEDS[0]), solve)
    family.proofs.append(((1.0, 1.0, 1.0), 700.0))
    assert mixed(family, solve, (0.5, 1.0, 1.0)) == -np.inf


@pytest.mark.slow
def test_every_point_is_sound_and_within_what_is_true() -> None:
    wrong = []
    for seed in SEEDS:
        asked = tiny(seed)
        family = family_of(asked, solve)
        for weights in WEIGHTS:
            menu = best_under(family, solve, weights)
            best = best_of(family.under(weights))
            true = menu.bound - 1e-6 <= best <= menu.aim + 1e-6
            if faults_of(at(asked, weights), menu) or not true:
                wrong.append((seed, weights, menu.bound, best, menu.aim))
        for weights in WEIGHTS:
            again = best_again(family, solve, weights)
            best = best_of(family.under(weights))
            if not again.bound - 1e-6 <= best <= again.aim + 1e-6:
                wrong.append((seed, weights, again.bound, best, again.aim))
    assert wrong == []


def test_what_one_point_found_serves_another() -> None:
    family = family_of(tiny(SEEDS[0]), solve)
    for weights in WEIGHTS:
        best_under(family, solve, weights)
    for weights in WEIGHTS:
        problem = family.under(weights)
        aims = [float(problem.cost @ x) + problem.offset for x in family.answers]
        assert best_known(family, weights)[1] == pytest.approx(min(aims))


def test_a_known_menu_is_where_all_begin_and_a_broken_one_is_left() -> None:
    asked = tiny(SEEDS[0])
    family = family_of(asked, solve)
    menu = best_under(family, solve, (1.0, 1.0, 1.0))
    assert len(family_of(asked, solve, menu).answers) == 1
    half = replace(menu, portions=menu.portions[:1])
    assert family_of(asked, solve, half).answers == []


def larder() -> MenuRequest:
    foods = [
        food(f"dish-{i}", role="main", meals="dinner", category="meal", dose_g=90.0 + 10 * i,
             liking=1.0 + i % 5, price=2.0 + i)
        for i in range(5)
    ]  # fmt: skip
    foods += [food(f"bar-{i}", meals="lunch move", dose_g=35.0 + 5 * i, price=1.0 + i % 3,
                   liking=1.0 + i % 4) for i in range(6)]  # fmt: skip
    return request(foods, count=2, need=1700.0, hot_drinks={})


def poor(family: Family, weights: Weights) -> State:
    """A state that stands at the best menu of quite other weights."""
    problem = family.under(weights)
    x = solve(family.under((0.1, 9.0, 0.0)), Work()).x
    assert x is not None
    aim = float(problem.cost @ x) + problem.offset
    relaxed = price(family.frame, problem, solve)
    return State(frame=family.frame, problem=problem, relaxed=relaxed, x=x, aim=aim,
                 bound=relaxed.bound)  # fmt: skip


@pytest.mark.slow
def test_a_blend_is_better_valid_and_uses_only_what_either_uses() -> None:
    family = family_of(larder(), solve)
    state = poor(family, (1.0, 0.0, 6.0))
    before, x = state.aim, state.x.copy()
    free = used_by_either(state, 0)
    assert blend(state, solve) and state.aim < before
    assert worst_breach(state.problem, state.x) <= 1e-5
    assert np.array_equal(state.x[~free], x[~free])
    assert state.bound - 1e-6 <= best_of(state.problem) <= state.aim + 1e-6


@pytest.mark.slow
def test_more_columns_never_leave_a_blend_worse_and_a_portion_keeps_its_use() -> None:
    family = family_of(larder(), solve)
    state = poor(family, (1.0, 0.0, 6.0))
    narrow, wide = used_by_either(state, 0), used_by_either(state, 12)
    assert (wide | ~narrow).all() and wide.sum() > narrow.sum()
    for options in family.frame.options.values():
        assert all(wide[o.eat] == wide[o.use] for o in options if o.use >= 0)
    before: Floats = state.x.copy()
    aim = state.aim
    if not blend(state, solve, more=12):
        assert state.aim == aim and np.array_equal(state.x, before)


@pytest.mark.slow
def test_a_menu_of_the_ten_is_tidied_as_an_ordinary_one_is() -> None:
    """The dearer a thing to buy, the fewer of them; the menu stays valid and within its gap."""
    foods = [
        food("stew", role="main", meals="dinner", category="meal", dose_g=100, kcal=430),
        food("oats", role="main", meals="breakfast", category="meal", dose_g=80),
        *(food(f"bar-{i}", meals="lunch move", dose_g=30.0 + 3 * i, liking=2.0 + i % 3)
          for i in range(9)),
    ]  # fmt: skip
    things = []
    for grams in (0.0, 5_000.0):
        asked = replace(
            request(foods, count=5, need=1500.0, hot_drinks={}), settings={"tidy.grams": grams}
        )
        menu = best_under(family_of(asked, solve), solve, (1.0, 1.0, 1.0))
        assert faults_of(asked, menu) == []
        assert menu.bound <= menu.aim
        things.append(len({p.food for p in menu.portions}))
    assert things[1] < things[0]
