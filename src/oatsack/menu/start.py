"""The menu everything starts from: an earlier one where it still holds, else the first plan."""

from __future__ import annotations

import math

from oatsack.menu.first import TRIES, broken_by, first_valid
from oatsack.menu.frame import Frame
from oatsack.menu.improve import Neighbourhoods, State
from oatsack.menu.near import answer_of, days_to_free
from oatsack.menu.price import Engine, Relaxed
from oatsack.menu.refuse import Give
from oatsack.menu.structure import completed, fixed_outside
from oatsack.values.menu import Menu
from oatsack.values.problem import Problem, Work

REPAIR_NODES, REPAIR_SECONDS, REPAIR_GAP = 60, 3.0, 0.01


def start(
    frame: Frame, problem: Problem, relaxed: Relaxed, engine: Engine, tries: int = TRIES
) -> tuple[State | None, list[Give]]:
    """The first valid plan, or what its nearest try still breaks."""
    if not relaxed.fits:
        return None, []
    if frame.request.near is not None:
        kept = _from_near(frame, problem, relaxed, engine, frame.request.near)
        if kept is not None:
            return kept, []
    attempt = first_valid(frame, problem, relaxed, engine, tries=tries)
    if attempt.answer is None:
        return None, attempt.broken
    x, aim = attempt.answer
    state = State(frame=frame, problem=problem, relaxed=relaxed, x=x, aim=aim, bound=relaxed.bound)
    return state, []


def _from_near(
    frame: Frame, problem: Problem, relaxed: Relaxed, engine: Engine, near: Menu
) -> State | None:
    """The earlier menu where it still holds; else with the days that break chosen anew."""
    x = answer_of(frame, problem, near)
    done = completed(problem, engine, x)
    state = State(frame=frame, problem=problem, relaxed=relaxed, x=x, aim=math.inf,
                  bound=relaxed.bound)  # fmt: skip
    if done is None:
        days = days_to_free(frame, broken_by(frame, problem, engine, x))
        free = Neighbourhoods(state).days(days, dinners=True)
        part, numbers = fixed_outside(problem, free, x)
        answer = engine(part, Work(nodes=REPAIR_NODES, seconds=REPAIR_SECONDS, gap_rel=REPAIR_GAP))
        if answer.x is None:
            return None
        x[numbers] = answer.x
        done = completed(problem, engine, x)
    if done is None:
        return None
    state.x, state.aim = done
    return state
