"""A menu put back into the columns it came from is the same answer: nothing is eaten twice."""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.menu.decode import pools_of, portions_of
from oatsack.menu.frame import Frame
from oatsack.menu.near import answer_of
from oatsack.menu.problem import build
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.problem import Floats, Problem, Work
from oatsack.values.trip import Hold, Rules
from oatsack.values.walker import Choice, Count, Pick, Usual
from support.menus import boiled, food, request, walker

NUTS = food("nuts", carry="bag", meals="move", kcal=600.0, dose_g=25.0, doses=8.0)
SEEDS = food("seeds", carry="bag", meals="move", kcal=560.0, dose_g=25.0, doses=8.0)
LARDER = (
    food("stew", role="main", meals="dinner", category="meal", dose_g=110.0, prep=boiled()),
    food("rice", role="main", meals="dinner", category="meal", dose_g=120.0, prep=boiled()),
    food("oats", role="main", meals="breakfast", category="breakfast", dose_g=80.0),
    food("bar", meals="lunch move", dose_g=45.0),
    food("loaf", meals="lunch", role="side", category="bread", dose_g=45.0),
    food("tea", role="drink", meals="drinks", kcal=0.0, dose_g=2.0),
    NUTS,
    SEEDS,
)


def solved(asked: MenuRequest) -> tuple[Frame, Problem, Floats]:
    frame, problem = build(asked)
    answer = solve(problem, Work(nodes=30, gap_rel=0.02))
    assert answer.x is not None
    return frame, problem, answer.x


USUALS = {
    "nothing picked": Usual(),
    "a bag of one's own": Usual(bags=(Pick(food="nuts"),)),
    "two bags of the same": Usual(bags=(Pick(food="nuts", count=2.0),)),
    "a dinner and a count": Usual(
        meals={"dinner": (Choice(picks=(Pick(food="stew", count=1.0),)),)},
        counts=(Count(food="tea", count=2.0),),
    ),
}


@pytest.mark.parametrize("usual", USUALS.values(), ids=USUALS)
def test_a_menu_put_back_is_the_answer_it_came_from(usual: Usual) -> None:
    """An edit starts from the earlier menu: a bag of the usual must not be opened a second time."""
    asked = request(LARDER, [walker(usual=usual)], count=4, need=2800.0, hot_drinks={},
                    rules=Rules(holds=(Hold(food="bar", count=1.0, meal="lunch"),)))  # fmt: skip
    frame, problem, x = solved(asked)
    menu = Menu(portions=portions_of(frame, x), pools=pools_of(frame, x))
    again = answer_of(frame, problem, menu)
    other = np.flatnonzero(problem.integer & (np.abs(again - x) > 1e-6))
    assert [problem.columns[i] for i in other] == []
