"""Exchanges: what a change costs is what the exact matrix says, and no menu gets worse by one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from random import Random

import numpy as np
import pytest

from oatsack.menu.choose import menu_of
from oatsack.menu.exchange import Exchange, exchange_of
from oatsack.menu.improve import BETWEEN, State, improve
from oatsack.menu.price import price
from oatsack.menu.problem import build
from oatsack.menu.start import start
from oatsack.menu.structure import completed
from oatsack.solve.highs import solve
from oatsack.values.food import Food
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Floats, aim_of, worst_breach
from oatsack.values.trip import Rules
from support.menu_checker import faults_of
from support.menus import food, request, walker


def foods() -> tuple[Food, ...]:
    return (
        food("stew", role="main", meals="dinner", category="meal", dose_g=100, kcal=430),
        food("curry", role="main", meals="dinner", category="meal", dose_g=120, kcal=410),
        food("oats", role="main", meals="breakfast", category="meal", dose_g=80),
        food("bar", meals="lunch move", liking=2.0),
        food("nuts", meals="move", carry="bag", dose_g=30, kcal=600, doses=4.0),
        *(food(f"snack-{i}", meals="move lunch", dose_g=30.0 + 5 * i, liking=1.0 + i)
          for i in range(4)),
    )  # fmt: skip


def asking(names: Sequence[str] = ("anna",), *, count: int = 3, **rules: float) -> MenuRequest:
    people = [walker(name) for name in names]
    return request(foods(), people, count=count, need=1500.0, hot_drinks={},
                   rules=Rules(**rules))  # type: ignore[arg-type]  # fmt: skip


def begun(asked: MenuRequest) -> State:
    frame, problem = build(asked)
    state, _ = start(frame, problem, price(frame, problem, solve), solve)
    assert state is not None
    return state


def with_choice(exchange: Exchange, number: int, dose: float) -> Floats:
    """The columns of the menu with one unit changed."""
    x, unit = exchange.state.x.copy(), exchange.units[number]
    x[unit.eat] = dose
    if unit.use >= 0:
        x[unit.use] = float(dose > 0.0)
    return x


def test_every_change_costs_what_the_exact_matrix_says() -> None:
    """Judged by the engine, which fills in what measures; a broken rule costs more than all."""
    state = begun(asking(day_window=0.35, trip_window=0.35))
    exchange = exchange_of(state)
    now = exchange._begin()
    patch = exchange._patch("anna", 1, 3)
    changes = patch.changes(now.doses, now.brings)
    wrong, told, broken = [], 0, 0
    for unit, dose, change in zip(patch.unit, patch.dose, changes, strict=True):
        name = state.problem.columns[exchange.units[int(unit)].eat]
        if dose == now.doses[unit]:
            wrong += [name] if np.isfinite(change) else []
            continue
        trial = now.copy()
        exchange._set(trial, int(unit), float(dose))
        if trial.aim - now.aim != pytest.approx(change, rel=1e-9, abs=1e-6):
            wrong.append(f"{name} {dose:g}: taken {trial.aim - now.aim}, told {change}")
        done = completed(state.problem, solve, with_choice(exchange, int(unit), float(dose)))
        if done is None:
            broken += 1
            wrong += [f"{name} {dose:g} breaks a rule for {change}"] if change < 100.0 else []
        else:
            told += 1
            if done[1] - state.aim != pytest.approx(change, rel=1e-6, abs=1e-4):
                wrong.append(f"{name} {dose:g}: {done[1] - state.aim}, told {change}")
    assert wrong == []
    assert told >= 10
    assert broken >= 10


@pytest.mark.slow
def test_no_menu_gets_worse_and_every_rule_is_kept() -> None:
    better = 0
    for seed in range(3):
        asked = replace(asking(), seed=seed)
        state = begun(asked)
        state.seed, before = seed, state.aim
        better += exchange_of(state).better(solve, tries=60)
        assert state.aim <= before + 1e-9
        assert state.aim == pytest.approx(aim_of(state.problem, state.x))
        assert worst_breach(state.problem, state.x) <= 1e-5
        assert faults_of(asked, menu_of(state, "work")) == []
    assert better


@pytest.mark.slow
def test_equal_seeds_exchange_the_same_and_a_second_round_goes_on() -> None:
    found = []
    for _ in range(2):
        state = begun(asking())
        exchange = exchange_of(state)
        aims = []
        for _ in range(3):
            exchange.better(solve, tries=20)
            aims.append(state.aim)
        assert exchange.tries == 60
        found.append((aims, state.x.tolist()))
    assert found[0] == found[1]


def test_a_shared_dish_stays_and_packs_bought_stay() -> None:
    asked = asking(("anna", "ben"), count=2, budget=90.0)
    state = begun(asked)
    before = state.x.copy()
    exchange = exchange_of(state)
    dishes = [i for i, name in enumerate(state.problem.columns) if name.startswith("dish/")]
    buys = list(state.frame.buy.values())
    assert dishes and buys and before[buys].sum() > 0
    exchange.better(solve, tries=40)
    assert np.array_equal(state.x[dishes], before[dishes])
    assert not [u for u in exchange.units if u.eat in buys or u.use in dishes]
    assert faults_of(asked, menu_of(state, "work")) == []


def test_exchanges_end_when_it_is_enough_and_keep_what_they_found() -> None:
    state, asked = begun(asking()), list[int]()
    before = state.aim

    def stop() -> bool:
        asked.append(1)
        return len(asked) > 1

    exchange_of(state).better(solve, tries=100_000, stop=stop)
    assert len(asked) == 2
    assert state.aim <= before
    assert worst_breach(state.problem, state.x) <= 1e-5


def test_where_nothing_may_be_taken_off_nothing_is_tried() -> None:
    state = begun(asking(count=1))
    exchange = exchange_of(state)
    assert not replace(exchange, units=()).better(solve, tries=5)
    state.x[[u.eat for u in exchange.units]] = 0.0
    state.aim = 1e9
    assert exchange._off(exchange._begin(), Random(1)) == []


@pytest.mark.slow
def test_other_ways_of_search_come_before_the_first_step_and_after_some() -> None:
    state, at = begun(asking()), list[int]()

    def between() -> bool:
        at.append(state.steps)
        return False

    improve(state, solve, steps=2 * BETWEEN + 2, done_gap=-1.0, stop=lambda now: False,
            between=between)  # fmt: skip
    assert at[0] == 0
    assert at == sorted(set(at))
    assert len(at) >= 2
