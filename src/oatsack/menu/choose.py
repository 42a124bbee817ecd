"""Chooses a menu: from a request and an engine to portions, open bags, spare food, and the gap.

Four stages: price (one relaxed problem: the bound), build (a first plan from tables), complete (the
exact matrix says what it costs), improve (fix and choose anew). The engine is an argument.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from oatsack.errors import NoPlan
from oatsack.menu.build import first_plan
from oatsack.menu.decode import pools_of, portions_of
from oatsack.menu.frame import Frame
from oatsack.menu.improve import State, improve
from oatsack.menu.price import Engine, Relaxed, price
from oatsack.menu.problem import build
from oatsack.menu.reprice import matrix_of, rebuild
from oatsack.menu.spare import spare_of
from oatsack.menu.structure import completed
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.problem import Floats, Problem, Work, worst_breach

Progress = Callable[[Menu], bool]
"""Is shown the best menu so far; True asks to stop."""

STEPS_PER_WORK = 30
EVERYDAY_GAP = 0.025
"""Nothing more is tried once a menu is proven this close, at the everyday amount of work."""
REBUILD_ROUNDS, REBUILD_LEAST = 3, 0.002
TOLERANCE = 1e-5


def choose(request: MenuRequest, engine: Engine, *, progress: Progress | None = None) -> Menu:
    """The best menu found within the request's work. Raises NoPlan, with reasons and flags.

    `progress` is called with the first plan and after every improvement.
    """
    frame, problem = build(request)
    relaxed = price(frame, problem, engine)
    state = _first(frame, problem, relaxed, engine) if relaxed.fits else None
    if state is None:
        raise NoPlan(["no menu fits"])
    state.seed = request.seed

    def stop(now: State) -> bool:
        return progress is not None and progress(menu_of(now, "work"))

    ended = "stopped" if stop(state) or _rebuilt(state, engine, stop) else improve(
        state, engine, steps=STEPS_PER_WORK * request.budget_work, stop=stop,
        done_gap=EVERYDAY_GAP / request.budget_work,
    )  # fmt: skip
    return menu_of(state, ended)


def _rebuilt(state: State, engine: Engine, stop: Callable[[State], bool]) -> bool:
    """Rounds of rebuilding days while they help; True when it was stopped."""
    matrix = matrix_of(state.problem)
    for _ in range(REBUILD_ROUNDS):
        before = state.aim
        answer = (state.x, state.aim)
        state.x, state.aim = rebuild(state.frame, matrix, state.relaxed, engine, answer)
        if state.aim >= before - REBUILD_LEAST * abs(before):
            return False
        if stop(state):
            return True
    return False


def _first(frame: Frame, problem: Problem, relaxed: Relaxed, engine: Engine) -> State | None:
    """The first valid plan: from tables, else from the engine on the whole problem."""
    done = completed(problem, engine, first_plan(frame, problem, relaxed))
    if done is None or worst_breach(problem, done[0]) > TOLERANCE:
        done = _by_engine(problem, engine)
    if done is None:
        return None
    x, aim = done
    return State(
        frame=frame, problem=problem, relaxed=relaxed, x=x, aim=aim, bound=relaxed.bound
    )  # fmt: skip


def _by_engine(problem: Problem, engine: Engine) -> tuple[Floats, float] | None:
    answer = engine(problem, Work(nodes=500, gap_rel=0.05))
    if answer.x is None:
        return None
    return np.array(answer.x), answer.aim


def menu_of(state: State, ended: str) -> Menu:
    """The menu of an answer."""
    frame = state.frame
    return Menu(
        portions=portions_of(frame, state.x), pools=pools_of(frame, state.x),
        spare=spare_of(frame.request, frame), aim=state.aim, bound=min(state.bound, state.aim),
        ended=ended, flags=tuple(frame.given.flags),  # type: ignore[arg-type]
    )  # fmt: skip
