"""A menu near a relaxed answer: whole, valid, and of what that answer holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from oatsack.menu.frame import Frame
from oatsack.menu.price import Relaxed, price
from oatsack.menu.problem import build
from oatsack.menu.refuse import elastic
from oatsack.menu.rounded import MORE, ceilings, rounded
from oatsack.menu.structure import bought
from oatsack.solve.highs import solve
from oatsack.values.problem import Answer, Problem, Work, aim_of, worst_breach
from support.menus import tiny

SEEDS = range(24)


def asked() -> Iterator[tuple[int, Frame, Problem, Relaxed]]:
    for seed in SEEDS:
        frame, problem = build(tiny(seed))
        relaxed = price(frame, problem, solve)
        if relaxed.fits:
            yield seed, frame, problem, relaxed


def test_the_answer_is_whole_valid_and_told_at_its_cost() -> None:
    found, wrong = 0, []
    for seed, frame, problem, relaxed in asked():
        done = rounded(frame, problem, solve, relaxed.x)
        if done is None:
            continue
        x, aim = done
        found += 1
        whole = np.allclose(x[problem.integer], np.round(x[problem.integer]))
        good = whole and worst_breach(problem, x) <= 1e-5 and abs(aim - aim_of(problem, x)) < 1e-6
        if not good or aim < relaxed.bound - 1e-6 * abs(relaxed.bound):
            wrong.append(seed)
    assert found >= 6 and wrong == []


def test_nothing_is_eaten_that_the_relaxed_answer_does_not_hold() -> None:
    wrong = []
    for seed, frame, problem, relaxed in asked():
        done = rounded(frame, problem, solve, relaxed.x)
        if done is None:
            continue
        for i, name in enumerate(problem.columns):
            most = np.ceil(relaxed.x[i]) + MORE[-1] if relaxed.x[i] > 1e-6 else problem.low[i]
            if name.startswith(("eat/", "bag/")) and done[0][i] > most + 1e-6:
                wrong.append((seed, name))
    assert wrong == []


def test_a_second_try_may_take_one_more_of_what_stands_and_of_nothing_else() -> None:
    _, frame, problem, relaxed = next(asked())
    once, again = (ceilings(frame, problem, relaxed.x, more) for more in MORE)
    eaten = np.array([name.startswith("eat/") for name in problem.columns])
    stands = relaxed.x > 1e-6
    assert (again[eaten & stands] <= once[eaten & stands] + 1.0).all()
    assert (again[eaten & stands] > once[eaten & stands]).any()
    assert (again[eaten & ~stands] == problem.low[eaten & ~stands]).all()


def test_what_measures_and_buys_stays_free() -> None:
    _, frame, problem, relaxed = next(asked())
    free = bought(problem)
    assert free.any()
    assert (ceilings(frame, problem, relaxed.x, 0.0)[free] == problem.high[free]).all()


def test_of_an_elastic_problem_only_what_gives_already_may_give() -> None:
    _, frame, problem, _ = next(asked())
    rows = [i for i, name in enumerate(problem.rows) if name.startswith("energy-trip/")]
    easy = elastic(frame, problem, rows)
    near = np.zeros(len(easy.columns))
    near[len(problem.columns)] = 0.4
    high = ceilings(frame, easy, near, 0.0)[len(problem.columns) :]
    assert high[0] == np.inf
    assert (high[1:] == 0.0).all()


def test_where_the_engine_finds_nothing_both_tries_are_made_and_none_is_said() -> None:
    _, frame, problem, relaxed = next(asked())
    calls = []

    def blind(part: Problem, work: Work) -> Answer:
        calls.append(work.nodes)
        return Answer(status="nothing", x=None, aim=np.inf, bound=-np.inf)

    assert rounded(frame, problem, blind, relaxed.x) is None
    assert calls == [1, 1]


def test_an_answer_that_breaks_a_row_is_not_taken() -> None:
    _, frame, problem, relaxed = next(asked())

    def lying(part: Problem, work: Work) -> Answer:
        return Answer(status="optimal", x=part.low.copy(), aim=0.0, bound=0.0)

    nothing = np.clip(np.zeros(len(problem.columns)), problem.low, problem.high)
    assert worst_breach(problem, nothing) > 1e-5
    assert rounded(frame, replace(problem), lying, relaxed.x) is None
