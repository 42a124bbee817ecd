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
from oatsack.menu.tidy import rare, things, tidy, uses
from oatsack.solve.highs import solve
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Work, worst_breach
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
