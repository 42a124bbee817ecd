"""The chooser against exhaustive search: the same best aim, the same refusals. Oracle tests."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.errors import NoPlan, SolverFailed
from oatsack.menu.choose import choose
from oatsack.menu.problem import build
from oatsack.solve import exhaustive, highs
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Builder, Work, worst_breach
from support.amount import EVERYDAY
from support.each import each
from support.menu_checker import faults_of
from support.menus import tiny
from support.smalls import KINDS, small

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


MOST_SMALLS = 30
FEW = {"stock": 15, "drinks": 20, "open bags": 20, "whole trip": 15, "one dish for two": 20}
"""Kinds whose answers are many: seeds of each."""


def best_of(asked: MenuRequest) -> float:
    """The best aim by trying everything; infinite where nothing fits. Doses from home are whole in
    these questions, as everything else is."""
    problem = build(asked)[1]
    home = np.array([name.startswith("home/") for name in problem.columns], np.bool_)
    problem = replace(problem, integer=problem.integer | home)
    return exhaustive.solve(problem, Work()).aim


def fault_of(asked: MenuRequest, best: float) -> str:
    """What is wrong with the chooser's answer; nothing where it is the best there is."""
    try:
        menu = choose(asked, highs.solve)
    except NoPlan:
        return "" if np.isinf(best) else f"refused what has a menu of {best:.3f}"
    if np.isinf(best):
        return "a menu where there is none"
    if menu.aim != pytest.approx(best, rel=1e-6):
        return f"{menu.aim:.3f} for {best:.3f}"
    if menu.bound > best + 1e-6 * abs(best):
        return f"bound {menu.bound:.3f} above the best, {best:.3f}"
    return "; ".join(faults_of(asked, menu)[:2])


@pytest.mark.slow
@each("kind", KINDS)
def test_every_rule_is_judged_by_trying_everything(kind: str) -> None:
    """The same best aim and the same refusals, in dozens of questions for each rule; and the rule
    is felt: without it many of them have another answer."""
    felt, wrong = 0, {}
    seeds = range(some_of(FEW.get(kind, MOST_SMALLS)))
    for seed in seeds:
        asked, eased = small(kind, seed)
        best = best_of(asked)
        felt += best != pytest.approx(best_of(eased), rel=1e-9)
        if fault := fault_of(asked, best):
            wrong[seed] = fault
    assert wrong == {}
    assert felt >= 0.15 * len(seeds), f"{felt} of {len(seeds)}"


@pytest.mark.slow
@each("kind", ["minutes", "pot", "container", "budget", "allergens", "keeping", "no flame",
               "holds and bans", "whole trip"])  # fmt: skip
def test_the_checker_faults_what_breaks_the_rule_of_a_kind(kind: str) -> None:
    """The menu of the question without its rule, where that rule would have refused it: written
    from the question, not from the matrix, the checker sees it too."""
    seen = 0
    for seed in range(MOST_SMALLS):
        asked, eased = small(kind, seed)
        if seen < 3 and np.isinf(best_of(asked)) and not np.isinf(best_of(eased)):
            seen += 1
            assert faults_of(asked, choose(eased, highs.solve)), (kind, seed)
    assert seen or kind in NEVER_NONE, "no seed refuses"


NEVER_NONE = ("budget", "holds and bans")
"""Kinds that always leave a menu."""


def some_of(whole: int) -> int:
    return 6 if EVERYDAY else whole


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
