"""A relaxed problem without its packs bought has the same best answer and the same prices."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.menu.problem import build
from oatsack.menu.structure import entry_rows, relaxed, summed
from oatsack.menu.thin import thinned
from oatsack.solve.highs import solve
from oatsack.values.food import Stock
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Problem, Work, worst_breach
from oatsack.values.trip import Rules
from support.menus import boiled, food, request, retarget

STEW = food("stew", role="main", meals="dinner", category="meal", dose_g=100, kcal=450,
            prep=boiled(), price=4.0, doses=1.0)  # fmt: skip
PIE = food("pie", role="main", meals="dinner", category="meal", dose_g=100, kcal=450,
           price=9.0, doses=1.0)  # fmt: skip
BAR = food("bar", meals="lunch", dose_g=50, kcal=450, price=2.0, doses=3.0)
CHIPS = food("chips", meals="lunch", dose_g=50, kcal=500, price=2.0, doses=1.0, taste="salty")
FOODS = (STEW, PIE, BAR, CHIPS)


def asked(budget: float, foods=FOODS) -> MenuRequest:  # type: ignore[no-untyped-def]
    one = request(foods, keep="lunch dinner", rules=Rules(budget=budget, spare="none"))
    return retarget(one, 900.0)


def reduced_costs(problem: Problem, duals: np.ndarray) -> np.ndarray:  # type: ignore[type-arg]
    prices = problem.value * duals[entry_rows(problem)]
    return problem.cost - summed(problem.index, prices, len(problem.columns))


@pytest.mark.parametrize("budget", [6.5, 8.0, 40.0])
def test_the_best_relaxed_answer_is_the_same_and_prices_the_whole(budget: float) -> None:
    """Of both: the aim, a valid answer, and reduced costs that prove it best (LP duality)."""
    frame, problem = build(asked(budget))
    whole = solve(relaxed(problem), Work())
    thin = thinned(problem, frame.buy)
    assert thin is not None
    answer = solve(relaxed(thin.problem), Work())
    assert answer.x is not None and answer.duals is not None
    x, duals = thin.filled(answer.x), thin.duals(problem, answer.duals)
    assert answer.aim == pytest.approx(whole.aim)
    assert worst_breach(problem, x) < 1e-6
    assert problem.cost @ x + problem.offset == pytest.approx(whole.aim)
    reduced = reduced_costs(problem, duals)
    assert (reduced[x < problem.low + 1e-9] > -1e-6).all()
    between = (x > problem.low + 1e-9) & (x < problem.high - 1e-9)
    assert reduced[between] == pytest.approx(0.0, abs=1e-6)


def test_a_budget_that_no_relaxed_menu_keeps_is_seen_as_well() -> None:
    frame, problem = build(asked(3.0))
    thin = thinned(problem, frame.buy)
    assert thin is not None
    assert solve(relaxed(thin.problem), Work()).status == "infeasible"
    assert solve(relaxed(problem), Work()).status == "infeasible"


def test_rows_and_entries_of_packs_are_gone_and_the_columns_keep_their_numbers() -> None:
    frame, problem = build(asked(40.0))
    thin = thinned(problem, frame.buy)
    assert thin is not None
    assert thin.problem.columns == problem.columns
    left = [name for name in thin.problem.rows if name.startswith("packs/")]
    assert left == ["packs/budget"]
    assert not set(thin.problem.index.tolist()) & set(frame.buy.values())


def test_food_that_is_at_home_as_well_keeps_its_packs() -> None:
    home = replace(BAR, stock=Stock(packs=1.0))
    frame, problem = build(asked(40.0, foods=(STEW, PIE, home, CHIPS)))
    thin = thinned(problem, frame.buy)
    assert thin is not None
    assert "packs/bar" in thin.problem.rows
    assert "packs/stew" not in thin.problem.rows


def test_without_counted_packs_there_is_nothing_to_thin() -> None:
    frame, problem = build(retarget(request(FOODS, keep="lunch dinner"), 900.0))
    assert thinned(problem, frame.buy) is None
