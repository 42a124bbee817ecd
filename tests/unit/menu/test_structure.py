"""Sub-problems by fixing and slicing: answers of a part are answers of the whole, or bounds."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.menu.bound import parted_by_days, proven
from oatsack.menu.frame import lay
from oatsack.menu.price import price, walker_columns
from oatsack.menu.problem import build
from oatsack.menu.structure import completed, fixed_outside, projected, relaxed, with_bounds
from oatsack.solve.highs import solve
from oatsack.values.food import Food
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Problem, Work, worst_breach
from support.each import each
from support.menus import food, request, tiny, walker

SEEDS = [seed for seed in range(40) if solve(build(tiny(seed))[1], Work()).x is not None][:12]


def problem_of(seed: int) -> Problem:
    return build(tiny(seed))[1]


@each("seed", SEEDS)
def test_relaxing_whole_numbers_is_a_bound(seed: int) -> None:
    problem = problem_of(seed)
    loose, exact = solve(relaxed(problem), Work()), solve(problem, Work())
    assert loose.aim <= exact.aim + 1e-6


@each("seed", SEEDS)
def test_forgetting_columns_with_their_rows_is_a_bound(seed: int) -> None:
    problem = problem_of(seed)
    exact = solve(problem, Work())
    inside = np.array(["dinner" in name or name.startswith("short") for name in problem.columns])
    part, numbers = projected(problem, inside)
    assert set(part.rows) <= set(problem.rows)
    assert list(part.columns) == [problem.columns[i] for i in numbers]
    assert solve(part, Work()).aim <= exact.aim + 1e-6


@each("seed", SEEDS)
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


@each("seed", SEEDS)
def test_completing_the_best_answer_changes_nothing_and_a_broken_one_is_refused(seed: int) -> None:
    problem = problem_of(seed)
    exact = solve(problem, Work())
    assert exact.x is not None
    done = completed(problem, solve, np.where(problem.integer, exact.x, 0.0))
    assert done is not None
    assert done[1] == pytest.approx(exact.aim)
    nothing = np.where(problem.integer, 0.0, exact.x)
    assert completed(problem, solve, nothing) is None


@each("seed", SEEDS)
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


@each("seed", SEEDS)
def test_days_solved_apart_prove_no_more_than_is_true_and_no_less_than_the_relaxed(
    seed: int,
) -> None:
    frame, problem = build(tiny(seed))
    got = price(frame, problem, solve)
    bound = proven(frame, problem, got, solve)
    assert got.bound - 1e-6 <= bound <= solve(problem, Work()).aim + 1e-6


@each("seed", SEEDS)
def test_any_prices_give_a_bound_that_is_true(seed: int) -> None:
    """Lagrangian bounds hold for wrong prices too: only their signs must fit the rows."""
    frame, problem = build(tiny(seed))
    got = price(frame, problem, solve)
    dice = np.random.default_rng(seed)
    wrong = got.duals * dice.uniform(0.0, 1.0, len(got.duals))
    skewed = replace(got, duals=wrong, bound=-np.inf)
    assert proven(frame, problem, skewed, solve) <= solve(problem, Work()).aim + 1e-6


def test_every_portion_lies_in_the_block_of_its_day() -> None:
    asked = request(bars_and_stews(), count=3, need=1500.0, hot_drinks={})
    frame, problem = build(asked)
    parted = parted_by_days(frame, problem)
    assert parted.count == 3
    for key, options in frame.options.items():
        numbers = {int(parted.block[o.eat]) for o in options}
        assert numbers == {key[1] - 1}
    spanning = [n for n, inner in zip(problem.rows, parted.inner, strict=True) if not inner]
    assert {"energy-trip/anna", "protein/anna", "fat/anna"} <= set(spanning)


def bars_and_stews() -> tuple[Food, ...]:
    stew = food("stew", role="main", meals="dinner", category="meal", dose_g=100)
    oats = food("oats", role="main", meals="breakfast", category="breakfast", dose_g=80)
    return (stew, oats, food("bar", meals="lunch move"))


def test_a_party_priced_walker_by_walker_has_a_bound_below_that_of_the_whole(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A shared dish brings its cost once: in parts, each walker carries an equal share of it."""
    party = [walker("anna"), walker("ben"), walker("cleo")]
    asked = request(bars_and_stews(), party, count=2, need=1500.0, hot_drinks={})
    frame, problem = build(asked)
    whole = price(frame, problem, solve)
    monkeypatch.setattr("oatsack.menu.price.WHOLE_UP_TO", 0)
    parts = price(frame, problem, solve)
    assert parts.fits
    assert parts.bound <= whole.bound + 1e-6
    assert parts.bound >= 0.8 * whole.bound
