"""Projections of the exact matrix are relaxations: what fits the whole fits them for no more."""

from __future__ import annotations

import numpy as np

from oatsack.menu.frame import Frame
from oatsack.menu.price import walker_columns
from oatsack.menu.problem import build
from oatsack.menu.refuse import elastic
from oatsack.menu.structure import fixed_outside, projected, relaxed
from oatsack.menu.thin import thinned
from oatsack.solve.highs import solve
from oatsack.values.problem import Floats, Problem, Work, worst_breach
from support.menus import tiny


def answers() -> list[tuple[int, Frame, Problem, Floats]]:
    """Menus of the whole, each the best by prices drawn anew, so that all are not alike."""
    out = []
    for seed in range(14):
        frame, problem = build(tiny(seed))
        drawn = np.random.default_rng(seed).uniform(0.0, 1.0, len(problem.columns))
        own = Problem(**{n: getattr(problem, n) for n in Problem.__slots__} | {"cost": drawn})
        answer = solve(own, Work(nodes=50))
        if answer.x is not None:
            out.append((seed, frame, problem, answer.x))
    return out


FOUND = answers()


def cost(problem: Problem, x: Floats) -> float:
    return float(problem.cost @ x) + problem.offset


def test_there_are_menus_to_judge_by() -> None:
    assert len(FOUND) >= 6


def test_without_whole_numbers_every_menu_still_fits_at_its_cost() -> None:
    wrong = [seed for seed, _, problem, x in FOUND
             if worst_breach(relaxed(problem), x) > 1e-6
             or cost(relaxed(problem), x) != cost(problem, x)]  # fmt: skip
    assert wrong == []


def test_the_part_of_a_menu_in_a_projection_fits_and_costs_no_more() -> None:
    wrong = []
    for seed, frame, problem, x in FOUND:
        dinner = np.array(["dinner" in name for name in problem.columns])
        half = np.arange(len(x)) % 2 == 0
        for inside in (dinner, half, walker_columns(frame, problem, "anna")):
            part, numbers = projected(problem, inside)
            fits = worst_breach(part, x[numbers]) <= 1e-6
            if not fits or cost(part, x[numbers]) > cost(problem, x) + 1e-6:
                wrong.append(seed)
    assert wrong == []


def test_packs_put_in_for_what_is_eaten_cost_no_more_than_whole_packs() -> None:
    tried, wrong = 0, []
    for seed, frame, problem, x in FOUND:
        thin = thinned(problem, frame.buy)
        if thin is not None:
            tried += 1
            fits = worst_breach(thin.problem, x) <= 1e-6
            if not fits or cost(thin.problem, x) > cost(problem, x) + 1e-6:
                wrong.append(seed)
    assert tried and wrong == []


def test_a_menu_fits_where_limits_may_give_with_nothing_given() -> None:
    wrong = []
    for seed, frame, problem, x in FOUND:
        rows = list(range(0, len(problem.rows), 2))
        easy = elastic(frame, problem, rows)
        full = np.concatenate([x, np.zeros(2 * len(rows))])
        if worst_breach(easy, full) > 1e-6 or abs(cost(easy, full) - cost(problem, x)) > 1e-6:
            wrong.append(seed)
    assert wrong == []


def test_what_is_fixed_brings_its_share_so_that_a_part_costs_what_the_whole_does() -> None:
    wrong = []
    for seed, _, problem, x in FOUND:
        free = np.arange(len(x)) % 3 != 0
        part, numbers = fixed_outside(problem, free, x)
        same = abs(cost(part, x[numbers]) - cost(problem, x)) <= 1e-6
        if worst_breach(part, x[numbers]) > 1e-6 or not same:
            wrong.append(seed)
    assert wrong == []
