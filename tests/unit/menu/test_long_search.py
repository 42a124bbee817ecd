"""The long search: better and proven better than the everyday one, ended at any moment, and what
its clock cut short is told."""

from __future__ import annotations

import time
from dataclasses import replace

import numpy as np
import pytest

from oatsack.errors import NoPlan
from oatsack.menu import long
from oatsack.menu.choose import LONG_WORK, SOLVED_WHOLE, choose
from oatsack.menu.improve import State, improve
from oatsack.menu.lanes import Engine
from oatsack.menu.long import FEW_AT_LAST, searched_long
from oatsack.menu.price import price
from oatsack.menu.problem import build
from oatsack.menu.proof import Proof
from oatsack.menu.start import start
from oatsack.solve.highs import solve
from oatsack.values.food import Food
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.problem import Answer, Problem, Work
from support.menu_checker import faults_of
from support.menus import food, request, walker


def foods() -> tuple[Food, ...]:
    return (
        food("stew", role="main", meals="dinner", category="meal", dose_g=100, kcal=430),
        food("curry", role="main", meals="dinner", category="meal", dose_g=120, kcal=410),
        food("oats", role="main", meals="breakfast", category="meal", dose_g=80),
        food("bar", meals="lunch move"),
        food("nuts", meals="move", carry="bag", dose_g=30, kcal=600, doses=4.0),
        *(food(f"snack-{i}", meals="move lunch", dose_g=30.0 + 5 * i) for i in range(4)),
    )


def asking(count: int = 7, *, work: int = LONG_WORK) -> MenuRequest:
    asked = request(foods(), [walker("anna")], count=count, need=1500.0, hot_drinks={})
    return replace(asked, budget_work=work)


def begun(asked: MenuRequest) -> State:
    frame, problem = build(asked)
    state, _ = start(frame, problem, price(frame, problem, solve), solve)
    assert state is not None
    return state


def with_clock(times: int) -> tuple[Engine, list[int]]:
    """An engine whose clock ends the first so many of its whole-number problems."""
    left = [times]

    def engine(problem: Problem, work: Work) -> Answer:
        answer = solve(problem, work)
        if left[0] > 0 and (work.hint is not None or work.prove):
            left[0] -= 1
            return replace(answer, ended="clock")
        return answer

    return engine, left


@pytest.mark.slow
def test_the_engine_has_the_last_word_on_a_problem_that_is_small_enough() -> None:
    """With more work the menu is no worse, the bound no lower, and the engine got the whole."""
    asked = asking()
    _, problem = build(asked)
    assert SOLVED_WHOLE < problem.integer.sum() <= FEW_AT_LAST
    sizes: list[int] = []

    def engine(part: Problem, work: Work) -> Answer:
        if work.hint is not None and not work.prove:
            sizes.append(len(part.columns))
        return solve(part, work)

    few, more = choose(replace(asked, budget_work=1), solve), choose(asked, engine)
    assert faults_of(asked, more) == []
    assert more.aim <= few.aim + 1e-6
    assert more.bound >= few.bound - 1e-6
    assert more.ended == "proved" or max(sizes) == len(problem.columns)


@pytest.mark.slow
def test_equal_work_gives_equal_menus_however_slow_the_proof_is() -> None:
    def late(problem: Problem, work: Work) -> Answer:
        if work.prove:
            time.sleep(0.5)
        return solve(problem, work)

    one, two = choose(asking(), solve), choose(asking(), late)
    assert one.portions == two.portions
    assert one.aim == two.aim
    assert one.ended == two.ended
    assert one.bound == pytest.approx(two.bound, rel=1e-9)


def test_a_proof_lies_between_the_relaxed_bound_and_the_truth() -> None:
    frame, problem = build(asking(2))
    relaxed = price(frame, problem, solve)
    best = solve(problem, Work(nodes=4000)).bound
    state = begun(asking(2))
    proof = Proof(frame, problem, relaxed, solve)
    proof.begin(state.x, nodes=1)
    assert proof.joined(lambda: False)
    proof.end()
    assert relaxed.bound - 1e-6 <= proof.bound <= best * (1 + 1e-6)


def test_a_proof_that_nobody_waits_for_ends_where_it_stands() -> None:
    state = begun(asking(1))
    asked: list[float] = []

    def engine(problem: Problem, work: Work) -> Answer:
        assert work.halt is not None
        while not work.halt(state.bound + 1.0):
            asked.append(1.0)
            time.sleep(0.005)
        return Answer(status="nothing", x=None, aim=np.inf, bound=state.bound + 1.0)

    proof = Proof(state.frame, state.problem, state.relaxed, engine)
    proof.begin(state.x, nodes=1)
    assert not proof.joined(lambda: bool(asked))
    assert proof.bound == state.bound + 1.0
    proof.end()


def test_an_error_in_the_proof_is_not_swallowed() -> None:
    state = begun(asking(1))

    def engine(problem: Problem, work: Work) -> Answer:
        raise ZeroDivisionError

    proof = Proof(state.frame, state.problem, state.relaxed, engine)
    proof.begin(state.x, nodes=1)
    with pytest.raises(ZeroDivisionError):
        proof.joined(lambda: False)
    proof.end()


def test_a_search_is_stopped_inside_the_engine_and_keeps_its_menu() -> None:
    """An engine that never ends by itself: only asking ends it."""
    asked = asking(2)
    state = begun(asked)
    aim = state.aim

    def endless(problem: Problem, work: Work) -> Answer:
        if work.halt is None or not problem.integer.any():
            return solve(problem, work)
        while not work.halt(-np.inf):
            time.sleep(0.005)
        return Answer(status="nothing", x=None, aim=np.inf, bound=-np.inf, ended="stopped")

    calls: list[int] = []

    def stop(now: State) -> bool:
        calls.append(1)
        return len(calls) > 1

    assert searched_long(state, endless, stop, close=0.01) == "stopped"
    assert state.aim == aim
    assert state.bound >= state.relaxed.bound


def test_the_last_word_can_be_stopped_as_well(monkeypatch: pytest.MonkeyPatch) -> None:
    state = begun(asking(1))
    monkeypatch.setattr(long, "_bettered", lambda *a, **k: "work")
    halted: list[bool] = []

    def engine(problem: Problem, work: Work) -> Answer:
        if work.prove:
            return Answer(status="nothing", x=None, aim=np.inf, bound=-np.inf)
        assert work.halt is not None
        while not work.halt(-np.inf):
            time.sleep(0.005)
        halted.append(True)
        return Answer(status="nothing", x=None, aim=np.inf, bound=-np.inf, ended="stopped")

    calls: list[int] = []

    def stop(now: State) -> bool:
        calls.append(1)
        return len(calls) > 2

    assert searched_long(state, engine, stop, close=1e-9) == "stopped"
    assert halted == [True]


@pytest.mark.slow
def test_steps_side_by_side_keep_every_rule_and_never_make_it_worse() -> None:
    for seed in range(3):
        asked = replace(asking(3), seed=seed)
        state = begun(asked)
        before = state.aim
        improve(state, solve, steps=12, done_gap=-1.0, stop=lambda now: False)
        assert state.aim <= before + 1e-6
        assert state.aim == pytest.approx(
            float(state.problem.cost @ state.x) + state.problem.offset
        )
        assert state.steps <= 12


@pytest.mark.slow
def test_a_clock_that_ended_a_step_is_told_with_the_menu() -> None:
    engine, left = with_clock(2)
    menu = choose(asking(work=3), engine)
    assert left == [0]
    told = [f for f in menu.flags if f.key == "menu.clock"]
    assert [f.values for f in told] == [{"n_times": 2}]
    assert told[0].level == "quiet"
    assert menu.ended in ("clock", "proved")
    quiet = choose(asking(work=3), solve)
    assert not [f for f in quiet.flags if f.key == "menu.clock"]


def test_a_clock_is_told_with_a_refusal_too() -> None:
    asked = asking(1)
    asked = replace(asked, rules=replace(asked.rules, budget=0.01))

    def engine(problem: Problem, work: Work) -> Answer:
        return replace(solve(problem, work), ended="clock")

    with pytest.raises(NoPlan) as refused:
        choose(asked, engine)
    assert "menu.clock" in {f.key for f in refused.value.flags}


def test_a_menu_found_whole_says_its_clock_as_well() -> None:
    asked = asking(1, work=1)
    _, problem = build(asked)
    assert problem.integer.sum() <= SOLVED_WHOLE
    menu: Menu = choose(asked, lambda p, w: replace(solve(p, w), ended="clock"))
    assert menu.ended == "clock"
    assert [f.key for f in menu.flags if f.key == "menu.clock"] == ["menu.clock"]
