"""The chooser against exhaustive search: the same best aim, the same refusals. Oracle tests."""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.errors import NoPlan, SolverFailed
from oatsack.menu.choose import choose
from oatsack.menu.problem import build
from oatsack.solve import exhaustive, highs
from oatsack.values.problem import Builder, Work, worst_breach
from support.amount import EVERYDAY
from support.each import each
from support.menu_checker import faults_of
from support.menus import tiny

SEEDS = range(3 if EVERYDAY else 150)


@each("seed", SEEDS)
def test_the_engine_finds_what_trying_everything_finds(seed: int) -> None:
    _, problem = build(tiny(seed))
    judge, fast = exhaustive.solve(problem, Work()), highs.solve(problem, Work())
    assert fast.status == judge.status
    if judge.x is not None:
        assert fast.x is not None
        assert fast.aim == pytest.approx(judge.aim, rel=1e-6)
        assert worst_breach(problem, fast.x) <= 1e-6


@each("seed", SEEDS)
def test_the_chooser_finds_what_trying_everything_finds(seed: int) -> None:
    asked = tiny(seed)
    judge = exhaustive.solve(build(asked)[1], Work())
    if judge.x is None:
        with pytest.raises(NoPlan):
            choose(asked, highs.solve)
        return
    menu = choose(asked, highs.solve)
    assert menu.aim == pytest.approx(judge.aim, rel=1e-6)
    assert menu.bound <= judge.aim + 1e-6 * abs(judge.aim)
    assert faults_of(asked, menu) == []


@pytest.mark.slow
def test_the_seeds_hold_both_menus_and_refusals() -> None:
    found = [exhaustive.solve(build(tiny(seed))[1], Work()).x is not None for seed in range(14)]
    assert 0.25 * len(found) < sum(found) < 0.95 * len(found)


def test_the_judge_itself_fills_in_what_measures() -> None:
    b = Builder()
    eat = b.column("eat", high=3.0, cost=1.0)
    short = b.column("short", integer=False, cost=10.0)
    b.row("wish", [(eat, 1.0), (short, 1.0)], low=5.0)
    answer = exhaustive.solve(b.done(), Work())
    assert answer.x is not None
    assert np.allclose(answer.x, [3.0, 2.0])
    assert answer.aim == 23.0


def test_the_judge_refuses_what_it_cannot_judge() -> None:
    b = Builder()
    free = b.column("free", integer=False, cost=1.0)
    b.row("one", [(free, 1.0)], low=1.0)
    b.row("two", [(free, 1.0)], low=2.0)
    with pytest.raises(SolverFailed):
        exhaustive.solve(b.done(), Work())
    many = Builder()
    for i in range(30):
        many.column(f"c{i}", high=9.0)
    with pytest.raises(SolverFailed):
        exhaustive.solve(many.done(), Work())
