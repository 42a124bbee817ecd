"""Sub-problems by fixing and slicing: answers of a part are answers of the whole, or bounds."""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.menu.frame import lay
from oatsack.menu.price import price, walker_columns
from oatsack.menu.problem import build
from oatsack.menu.structure import completed, fixed_outside, projected, relaxed, with_bounds
from oatsack.solve.highs import solve
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Problem, Work, worst_breach
from support.menus import tiny

SEEDS = [seed for seed in range(40) if solve(build(tiny(seed))[1], Work()).x is not None][:12]


def problem_of(seed: int) -> Problem:
    return build(tiny(seed))[1]


@pytest.mark.parametrize("seed", SEEDS)
def test_relaxing_whole_numbers_is_a_bound(seed: int) -> None:
    problem = problem_of(seed)
    loose, exact = solve(relaxed(problem), Work()), solve(problem, Work())
    assert loose.aim <= exact.aim + 1e-6


@pytest.mark.parametrize("seed", SEEDS)
def test_forgetting_columns_with_their_rows_is_a_bound(seed: int) -> None:
    problem = problem_of(seed)
    exact = solve(problem, Work())
    inside = np.array(["dinner" in name or name.startswith("short") for name in problem.columns])
    part, numbers = projected(problem, inside)
    assert set(part.rows) <= set(problem.rows)
    assert list(part.columns) == [problem.columns[i] for i in numbers]
    assert solve(part, Work()).aim <= exact.aim + 1e-6


@pytest.mark.parametrize("seed", SEEDS)
def test_fixing_the_best_answer_outside_a_part_gives_it_back(seed: int) -> None:
    problem = problem_of(seed)
    exact = solve(problem, Work())
    assert exact.x is not None
    free = np.array([not name.startswith(("eat/anna/1/lunch", "use/anna/1/lunch"))
                     for name in problem.columns])  # fmt: skip
    part, numbers = fixed_outside(problem, free, exact.x)
    answer = solve(part, Work())
    assert answer.aim == pytest.approx(exact.aim)
    whole = exact.x.copy()
    assert answer.x is not None
    whole[numbers] = answer.x
    assert worst_breach(problem, whole) <= 1e-6


@pytest.mark.parametrize("seed", SEEDS)
def test_completing_the_best_answer_changes_nothing_and_a_broken_one_is_refused(seed: int) -> None:
    problem = problem_of(seed)
    exact = solve(problem, Work())
    assert exact.x is not None
    done = completed(problem, solve, np.where(problem.integer, exact.x, 0.0))
    assert done is not None
    assert done[1] == pytest.approx(exact.aim)
    nothing = np.where(problem.integer, 0.0, exact.x)
    assert completed(problem, solve, nothing) is None


@pytest.mark.parametrize("seed", SEEDS)
def test_the_price_of_the_whole_is_a_bound_and_fits(seed: int) -> None:
    asked: MenuRequest = tiny(seed)
    frame, problem = build(asked)
    got = price(frame, problem, solve)
    assert got.fits
    assert got.bound <= solve(problem, Work()).aim + 1e-6


def test_a_walkers_columns_are_all_columns_of_a_party_of_one() -> None:
    frame, problem = build(tiny(SEEDS[0]))
    named = walker_columns(frame, problem, "anna")
    rest = {problem.columns[i].split("/")[0] for i in np.flatnonzero(~named)}
    assert rest <= {"buy", "home"}


def test_bounds_can_be_changed_and_the_frame_has_no_rows_of_its_own() -> None:
    problem = problem_of(SEEDS[0])
    tight = with_bounds(problem, problem.low, problem.low)
    assert (tight.high == problem.low).all()
    assert lay(tiny(SEEDS[0])).builder.rows == []
