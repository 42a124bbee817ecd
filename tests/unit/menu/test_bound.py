"""Days proven apart: copies of what walkers and days share never prove more than is true."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.menu.bound import parted_by_days, proven
from oatsack.menu.frame import Frame
from oatsack.menu.price import price
from oatsack.menu.problem import build
from oatsack.solve.highs import solve
from oatsack.values.food import Food
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Problem, Work
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


def asking(count: int = 1, names: str = "anna ben cleo") -> MenuRequest:
    party = [walker(name) for name in names.split()]
    return request(foods(), party, count=count, need=1500.0, hot_drinks={})


def of(asked: MenuRequest) -> tuple[Frame, Problem, float]:
    frame, problem = build(asked)
    return frame, problem, solve(problem, Work(nodes=4000, gap_rel=0.0)).bound


def test_a_shared_dish_stands_as_a_copy_in_the_day_of_everybody_who_shares_it() -> None:
    frame, problem = build(asking())
    parted = parted_by_days(frame, problem)
    assert parted.count == 3
    dishes = {c for c, name in enumerate(problem.columns) if name.startswith("dish/")}
    assert dishes == set(parted.copied)
    assert all(len(blocks) == 3 for blocks in parted.copied.values())
    assert (parted.block[list(dishes)] == -1).all()


def test_the_choice_of_one_dish_is_asked_of_every_copy() -> None:
    """The row of mains speaks of dishes alone: it holds in each walker's day."""
    frame, problem = build(asking())
    parted = parted_by_days(frame, problem)
    mains = [i for i, name in enumerate(problem.rows)
             if name.startswith("mains/") and name.endswith("/dinner")]  # fmt: skip
    assert len(mains) == 1
    assert all(set(mains) <= set(parted.also[at]) for at in range(3))


@pytest.mark.slow
def test_the_bound_lies_between_the_relaxed_one_and_the_truth() -> None:
    for names, count in (("anna", 2), ("anna ben", 1), ("anna ben cleo", 1)):
        frame, problem, best = of(asking(count, names))
        got = price(frame, problem, solve)
        bound = proven(frame, problem, got, solve)
        assert got.bound - 1e-6 <= bound <= best * 1.0001 + 1e-6, names


@pytest.mark.slow
def test_any_prices_prove_nothing_false_about_a_group_and_its_bags() -> None:
    frame, problem, best = of(asking(2, "anna ben"))
    got = price(frame, problem, solve)
    for seed in range(4):
        dice = np.random.default_rng(seed)
        wrong = got.duals * dice.uniform(0.0, 1.5, len(got.duals))
        skewed = replace(got, duals=wrong, bound=-np.inf)
        bound = proven(frame, problem, skewed, solve)
        assert bound <= best * 1.0001 + 1e-6, seed


def test_two_days_side_by_side_prove_the_same_every_time() -> None:
    frame, problem = build(asking(1))
    got = price(frame, problem, solve)
    assert len({proven(frame, problem, got, solve) for _ in range(3)}) == 1


def test_a_bound_that_is_cut_short_is_still_true() -> None:
    """Days left off where they stand prove less, never too much."""
    frame, problem, best = of(asking(1, "anna ben"))
    got = price(frame, problem, solve)
    bound = proven(frame, problem, got, solve, halt=lambda _: True)
    assert got.bound - 1e-6 <= bound <= best * 1.0001 + 1e-6
