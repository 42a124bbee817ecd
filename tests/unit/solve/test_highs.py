"""The engine behind its one function: statuses, silence, duals, limits, the same answer again."""

from __future__ import annotations

import subprocess
import sys

import numpy as np
import pytest

from oatsack.menu.problem import build
from oatsack.solve.highs import solve
from oatsack.values.problem import Builder, Problem, Work
from support.menus import tiny


def knapsack() -> Problem:
    b = Builder(offset=5.0)
    items = [b.column(f"c{i}", high=1.0, cost=-value) for i, value in enumerate((6, 5, 4))]
    b.row("room", list(zip(items, (5.0, 4.0, 3.0), strict=True)), high=7.0)
    return b.done()


def test_a_small_knapsack_is_solved_to_the_end() -> None:
    answer = solve(knapsack(), Work())
    assert answer.status == "optimal"
    assert answer.x is not None
    assert answer.x.tolist() == [0.0, 1.0, 1.0]
    assert answer.aim == answer.bound == -4.0
    assert answer.duals is None


def test_a_relaxed_problem_has_duals_that_price_it() -> None:
    b = Builder()
    x = b.column("x", integer=False, cost=2.0)
    b.row("least", [(x, 1.0)], low=3.0)
    answer = solve(b.done(), Work())
    assert answer.duals is not None
    assert answer.reduced is not None
    assert answer.duals.tolist() == [2.0]
    assert answer.reduced.tolist() == [0.0]


def test_an_impossible_problem_is_infeasible() -> None:
    b = Builder()
    x = b.column("x", high=1.0)
    b.row("two", [(x, 1.0)], low=2.0)
    answer = solve(b.done(), Work())
    assert (answer.status, answer.x) == ("infeasible", None)


def test_no_columns_is_no_question() -> None:
    assert solve(Builder(offset=3.0).done(), Work()).aim == 3.0
    b = Builder()
    b.row("never", [], low=1.0)
    assert solve(b.done(), Work()).status == "infeasible"


def test_an_unbounded_problem_is_said() -> None:
    b = Builder()
    b.column("x", integer=False, cost=-1.0)
    assert solve(b.done(), Work()).status in ("unbounded", "infeasible")


def test_whole_numbers_come_back_whole() -> None:
    problems = [build(tiny(seed))[1] for seed in range(12)]
    answers = [(p, solve(p, Work()).x) for p in problems]
    found = [x[p.integer] for p, x in answers if x is not None]
    assert found
    assert all((whole == np.round(whole)).all() for whole in found)


def test_equal_work_gives_equal_answers() -> None:
    problem = build(tiny(4))[1]
    one, two = (solve(problem, Work(nodes=5, seed=3)) for _ in range(2))
    assert one.aim == two.aim
    assert (one.x is None) == (two.x is None)
    if one.x is not None and two.x is not None:
        assert (one.x == two.x).all()


def test_a_hint_is_taken_up() -> None:
    problem = knapsack()
    hint = np.array([0.0, 1.0, 1.0])
    assert solve(problem, Work(hint=hint)).aim == -4.0


@pytest.mark.parametrize("whole", [True, False])
def test_the_engine_writes_nothing_to_standard_output(whole: bool) -> None:
    code = (
        "from oatsack.values.problem import Builder, Work\n"
        "from oatsack.solve.highs import solve\n"
        "b = Builder()\n"
        f"x = b.column('x', integer={whole}, cost=1.0)\n"
        "b.row('r', [(x, 1.0)], low=1.5)\n"
        "solve(b.done(), Work())\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, text=True)
    assert done.stdout == ""
    assert done.stderr == ""
