"""Why a food is not on the menu: the gate, one's own pick, or what it would cost, in parts."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.menu.family import family_of
from oatsack.menu.improve import State
from oatsack.menu.price import price
from oatsack.menu.problem import build
from oatsack.menu.why_not import anywhere, why_not
from oatsack.solve.highs import solve
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Floats, Work
from oatsack.values.trip import Hold, Rules
from oatsack.values.walker import Choice, Pick, Usual
from support.menus import boiled, food, request, walker

DINNERS = [
    food(f"dinner-{i}", role="main", meals="dinner", category="meal", dose_g=100 + 5 * i,
         kcal=450, prep=boiled(), price=3.0 + i, liking=1.0 + i)
    for i in range(4)
]  # fmt: skip
OATS = food("oats", role="main", meals="breakfast", category="breakfast", dose_g=80)
BARS = [
    food(f"bar-{i}", meals="lunch move", dose_g=25 + 5 * i, kcal=420 + 20 * i, price=1.0 + i,
         taste="salty" if i % 2 else "sweet", liking=2.0 + 0.7 * i)
    for i in range(4)
]  # fmt: skip
NUTS = food("nuts", carry="bag", meals="move", kcal=600.0, dose_g=20.0, doses=8.0, price=30.0)
LARDER = (*DINNERS, OATS, *BARS)


def asking(*more_foods: Food, **more: object) -> MenuRequest:
    settled: dict[str, object] = {"hot_drinks": {}, "need": 1900.0, **more}
    return request((*LARDER, *more_foods), **settled)  # type: ignore[arg-type]


def state_of(asked: MenuRequest) -> tuple[State, dict[str, Floats]]:
    family = family_of(asked, solve)
    problem = family.under((1.0, 1.0, 1.0))
    answer = solve(problem, Work(nodes=60, gap_rel=0.005))
    assert answer.x is not None
    relaxed = price(family.frame, problem, solve)
    state = State(frame=family.frame, problem=problem, relaxed=relaxed, x=answer.x,
                  aim=answer.aim, bound=answer.bound)  # fmt: skip
    return state, dict(family.prices)


def answer_to(asked: MenuRequest, name: str) -> Flag:
    state, prices = state_of(asked)
    row = next(f for f in asked.foods if f.id == name)
    return anywhere(state, solve, row, prices)[0]


def test_one_meal_names_the_gate_or_what_it_would_cost() -> None:
    state, _ = state_of(asking(rules=Rules(holds=(Hold(food="dinner-0", count=0),))))
    key = ("anna", 1, "dinner")
    assert why_not(state, solve, key, "gone").key == "why-not.unknown"
    gate = why_not(state, solve, key, "dinner-0")
    assert (gate.key, gate.values["gate"]) == ("why-not.gate", "banned")
    answers = {f"dinner-{i}": why_not(state, solve, key, f"dinner-{i}") for i in (1, 2, 3)}
    assert [f.key for f in answers.values()].count("why-not.chosen") == 1
    dearer = [f for f in answers.values() if f.key == "why-not.dearer"]
    assert dearer and all(float(f.values["more_g"]) >= 0 for f in dearer)


def test_what_is_on_the_menu_is_told_with_its_meals() -> None:
    found = answer_to(asking(), "oats")
    assert (found.key, found.values["meal"]) == ("why-not.chosen-at", "breakfast")


def test_a_gate_is_named_for_each_walker_whom_it_meets() -> None:
    ham = food("ham", role="main", meals="dinner", category="meal", diet="meat", prep=boiled())
    party = [walker("anna", eats="vegan"), walker("ben", eats="vegetarian")]
    state, prices = state_of(asking(ham, walkers=party))
    found = anywhere(state, solve, ham, prices)
    assert [(f.values["walker"], f.values["gate"]) for f in found] == [
        ("anna", "diet"), ("ben", "diet"),
    ]  # fmt: skip


def test_a_food_for_no_meal_of_the_walk_says_so() -> None:
    found = answer_to(asking(food("feast", meals="drinks", role="drink"), keep="dinner"), "feast")
    assert (found.key, found.values["gate"]) == ("why-not.gate-all", "meal")


def test_where_all_its_meals_are_picked_that_is_the_reason() -> None:
    usual = Usual(meals={"breakfast": (Choice(picks=(Pick(food="oats"),)),)})
    porridge = food("porridge", role="main", meals="breakfast", category="breakfast", dose_g=70)
    found = answer_to(asking(porridge, walkers=[walker(usual=usual)], count=2), "porridge")
    assert found.key in ("why-not.picked-all", "why-not.gate-all")
    assert found.key == "why-not.picked-all" or found.values["gate"] == "meal"


@pytest.mark.slow
def test_what_it_would_cost_is_what_the_best_menu_with_it_costs_more() -> None:
    """Oracle: the whole problem solved again with the food forced in somewhere."""
    asked = asking(food("dear", meals="lunch", dose_g=30.0, price=12.0, liking=2.0))
    state, prices = state_of(asked)
    row = asked.foods[-1]
    found = anywhere(state, solve, row, prices)[0]
    assert found.key == "why-not.would-cost"
    uses = [o.use for options in state.frame.options.values() for o in options
            if o.food.id == "dear"]  # fmt: skip
    best = np.inf
    for use in uses:
        low = state.problem.low.copy()
        low[use] = 1.0
        forced = solve(replace(state.problem, low=low), Work(nodes=200, gap_rel=0.001))
        best = min(best, forced.aim)
    more = (best - state.aim) / state.frame.mean_carry
    assert float(found.values["more_g"]) >= more - 0.01 * state.aim
    parts = sum(
        float(found.values[name]) for name in ("kg_days_g", "liking_g", "price_g", "rest_g")
    )
    assert parts == pytest.approx(float(found.values["more_g"]), abs=1e-6)


def test_a_food_of_counted_packs_is_bought_when_it_is_weighed() -> None:
    """A budget counts packs: one that must not be bought would clash with everything."""
    extra = food("extra", meals="lunch", dose_g=30.0, price=2.0, liking=2.0)
    found = answer_to(asking(extra, rules=Rules(budget=400.0)), "extra")
    assert found.key in ("why-not.would-cost", "why-not.level", "why-not.chosen-at")


@pytest.mark.slow
def test_an_open_bag_is_weighed_over_all_its_days() -> None:
    found = answer_to(asking(NUTS, count=3, need=2400.0), "nuts")
    assert found.key in ("why-not.would-cost", "why-not.level", "why-not.chosen-at")
    assert found.values["meal"] == "move"


@pytest.mark.slow
def test_a_shared_dish_is_weighed_for_all_who_share_it() -> None:
    party = [walker("anna"), walker("ben")]
    stew = food("stew", role="main", meals="dinner", category="meal", dose_g=20.0, doses=30.0,
                carry="repack", prep=boiled(), price=40.0, liking=1.0)  # fmt: skip
    found = answer_to(asking(stew, walkers=party), "stew")
    assert found.key in ("why-not.would-cost", "why-not.level", "why-not.chosen-at")
    assert found.values["meal"] == "dinner"


def test_what_fits_with_nothing_says_so() -> None:
    brick = food("brick", meals="lunch", dose_g=300.0, kcal=600.0)
    asked = asking(brick, need=1500.0)
    if not any("brick" in name for name in build(asked)[1].columns):
        pytest.fail("the food has no column; the test says nothing")
    assert answer_to(asked, "brick").key == "why-not.clash-at"
