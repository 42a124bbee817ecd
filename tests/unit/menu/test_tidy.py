"""Fewer things to buy, at a stated price in grams, and never at the cost of a rule."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.menu.choose import menu_of
from oatsack.menu.improve import State
from oatsack.menu.price import price
from oatsack.menu.problem import build
from oatsack.menu.structure import completed
from oatsack.menu.tidy import THING_GRAMS, rare, things, tidy, uses
from oatsack.solve.highs import solve
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Answer, Problem, Work, worst_breach
from support.menu_checker import faults_of
from support.menus import food, request

BARS = [
    food(f"bar-{i}", meals="lunch move", dose_g=50, kcal=450 + 2 * i, every_day_fine=True,
         taste="salty" if i % 2 else "sweet")
    for i in range(6)
]  # fmt: skip
STEW = food("stew", role="main", meals="dinner", category="meal", dose_g=110)


def asking(**more: object) -> MenuRequest:
    return request((*BARS, STEW), count=4, need=1800.0, hot_drinks={}, keep="lunch move dinner",
                   settings={"variety.twice_grams": 0.0}, **more)  # type: ignore[arg-type]  # fmt: skip


@pytest.fixture
def scattered() -> State:
    """A valid menu that takes another bar at every meal."""
    asked = asking()
    frame, problem = build(asked)
    scatter = replace(problem, cost=problem.cost.copy())
    days = {key: n for n, key in enumerate(frame.slots)}
    for key, options in frame.options.items():
        for o in options:
            if o.food.role == "snack":
                number = int(o.food.id.removeprefix("bar-"))
                scatter.cost[o.use] += 0.0 if (number + days[key]) % 3 == 0 else 400.0
    answer = solve(scatter, Work(gap_rel=0.01))
    assert answer.x is not None
    done = completed(problem, solve, np.where(problem.integer, answer.x, problem.low))
    assert done is not None
    relaxed = price(frame, problem, solve)
    return State(frame=frame, problem=problem, relaxed=relaxed, x=done[0], aim=done[1],
                 bound=relaxed.bound)  # fmt: skip


def test_rare_things_give_way_and_every_rule_still_holds(
    scattered: State, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("oatsack.menu.tidy.FEW_USES", 12)
    before, aim = things(scattered), scattered.aim
    gone = tidy(scattered, solve)
    after = things(scattered)
    assert gone >= 1
    assert len(after) <= len(before) - gone
    assert after <= before
    assert worst_breach(scattered.problem, scattered.x) <= 1e-5
    asked = scattered.frame.request
    assert faults_of(asked, menu_of(scattered, "work")) == []
    worth = 18.0 * scattered.frame.mean_carry
    assert scattered.aim <= aim + gone * worth + 1e-6


def test_the_setting_turns_it_off(scattered: State) -> None:
    still = replace(scattered.frame.request, settings={"tidy.grams": 0.0})
    scattered.frame.request = still
    before = scattered.x.copy()
    assert tidy(scattered, solve) == 0
    assert (scattered.x == before).all()


def test_rare_foods_come_the_rarest_first_and_dinners_are_left_alone(scattered: State) -> None:
    counted = uses(scattered)
    found = rare(scattered)
    assert "stew" not in found
    assert [len(counted[f]) for f in found] == sorted(len(counted[f]) for f in found)
    assert all(len(counted[f]) <= 2 for f in found)


def test_giving_up_where_it_cannot_pay_changes_no_menu(
    scattered: State, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The engine is told to stop once its bound is beyond what one thing less is worth."""
    monkeypatch.setattr("oatsack.menu.tidy.FEW_USES", 12)
    told: list[bool] = []

    def patient(problem: Problem, work: Work) -> Answer:
        told.append(work.halt is not None)
        return solve(problem, replace(work, halt=None))

    twin = replace(scattered, x=scattered.x.copy())
    assert tidy(scattered, solve) == tidy(twin, patient) > 0
    assert scattered.x.tolist() == twin.x.tolist()
    assert any(told)


def test_a_bound_beyond_its_worth_ends_a_try(
    scattered: State, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is asked of the engine while it works: no below the limit, yes above it."""
    monkeypatch.setattr("oatsack.menu.tidy.FEW_USES", 12)
    most = scattered.aim + THING_GRAMS * scattered.frame.mean_carry
    seen: set[tuple[bool, bool]] = set()

    def listening(part: Problem, work: Work) -> Answer:
        if work.halt is None:
            return solve(part, work)
        seen.add((work.halt(most - 0.01), work.halt(most + 0.01)))
        return Answer(status="nothing", x=None, aim=np.inf, bound=-np.inf)

    assert tidy(scattered, listening) == 0
    assert seen == {(False, True)}
