"""Aims in order: the first is made as small as it will go, then the next within a share of it.

The menu of the first aim is where the second starts, with one more row: what the first aim comes to
may grow by so much and no more. What the rules ask for a miss stands in every aim alike. The bound
and the gap are those of the first aim.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from oatsack.menu.blend import blend
from oatsack.menu.frame import Frame
from oatsack.menu.improve import State, improve
from oatsack.menu.price import Engine, price
from oatsack.menu.problem import build
from oatsack.menu.reprice import matrix_of, rebuild
from oatsack.values.problem import Floats, Problem, Work, aim_of

NO_AIM = ""
DONE_GAP = 0.002
BLENDS, BLENDED_GAP = (0, 100), 0.05
"""Columns beside those in use that a blend takes in, one after the other, and from which gap on;
ours, measured."""
ROOT_UP_TO, ROOT_SECONDS = 4_000, 60.0
"""Columns up to which a far menu's bound comes from the root of the whole; ours, measured."""
EXACT_COLUMNS, EXACT_NODES = 400, 250
"""Up to so many whole-number columns the engine takes a further aim whole; ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """An aim already served: its price of every column, and the most it may come to."""

    name: str
    cost: Floats
    most: float


def in_order(state: State, engine: Engine, *, steps: int) -> State:
    """The menu after every further aim in its turn; its aim and bound are those of the first."""
    request = state.frame.request
    first, *others = request.aims or (NO_AIM,)
    blended_far(state, engine)
    own, x = _own_costs(state.frame, first, state.problem), state.x
    kept: list[Kept] = []
    for before, name in zip([first, *others], others, strict=False):
        kept.append(Kept(name=before, cost=own, most=_most(float(own @ x), request.aims_within)))
        _, bare = build(request, only=name)
        own = _own_costs(state.frame, name, bare)
        x = _served(state.frame, with_kept(bare, kept), engine, x, steps)
    aim = aim_of(state.problem, x)
    return replace(state, x=x, aim=aim, bound=min(state.bound, aim))


def proved_whole(state: State, engine: Engine) -> None:
    """A bound from the engine's root on the whole, where the menu is far above the one it has:
    days apart share no packs, and buy parts of them."""
    if len(state.problem.columns) <= ROOT_UP_TO and _far(state):
        work = Work(nodes=1, seconds=ROOT_SECONDS, hint=state.x, prove=True, seed=state.seed)
        state.bound = max(state.bound, min(engine(state.problem, work).bound, state.aim))


def blended_far(state: State, engine: Engine) -> None:
    """The menu of the first aim blended with the relaxed answer, where it is far above it: where
    whole packs cost, a menu built day by day buys too many things."""
    for more in BLENDS:
        if _far(state):
            blend(state, engine, more=more)


def _far(state: State) -> bool:
    return state.aim - state.bound > BLENDED_GAP * abs(state.aim)


def _own_costs(frame: Frame, name: str, problem: Problem) -> Floats:
    """What this aim alone asks of every column, without what rules ask for a miss."""
    _, none = build(frame.request, only=NO_AIM)
    return problem.cost - none.cost


def _most(reached: float, within: float) -> float:
    return reached + within * abs(reached) + 1e-6


def with_kept(problem: Problem, kept: Sequence[Kept]) -> Problem:
    """The problem with a row for every aim already served."""
    index, value, start = [problem.index], [problem.value], list(problem.start.tolist())
    for one in kept:
        used = np.flatnonzero(one.cost)
        index.append(used)
        value.append(one.cost[used])
        start.append(start[-1] + len(used))
    most = [one.most for one in kept]
    return replace(
        problem, rows=problem.rows + tuple(f"order/{one.name}" for one in kept),
        row_low=np.concatenate([problem.row_low, np.full(len(kept), -np.inf)]),
        row_high=np.concatenate([problem.row_high, most]),
        start=np.array(start, np.int64), index=np.concatenate(index),
        value=np.concatenate(value),
    )  # fmt: skip


def _served(frame: Frame, problem: Problem, engine: Engine, x: Floats, steps: int) -> Floats:
    """A menu that serves this aim as well as the work allows, from one that is valid."""
    if problem.integer.sum() <= EXACT_COLUMNS:
        answer = engine(problem, Work(nodes=EXACT_NODES, gap_abs=1e-6, hint=x))
        return x if answer.x is None else answer.x
    relaxed = price(frame, problem, engine)
    aim = aim_of(problem, x)
    x, aim = rebuild(frame, matrix_of(problem), relaxed, engine, (x.copy(), aim))
    state = State(frame=frame, problem=problem, relaxed=relaxed, x=x, aim=aim, bound=relaxed.bound)
    blended_far(state, engine)
    improve(state, engine, steps=steps, done_gap=DONE_GAP, stop=lambda now: False)
    return state.x
