"""The first valid plan: built from tables, and where a far-reaching limit is broken, built again
with that limit dearer, until it holds or nothing helps.

A limit is a hard row over many meals: money, the container, the pot, minutes, the trip's energy.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from oatsack.menu.build import first_plan
from oatsack.menu.frame import Frame
from oatsack.menu.meals import Prices
from oatsack.menu.price import Engine, Relaxed
from oatsack.menu.refuse import Give, elastic, may_be_named
from oatsack.menu.structure import TOLERANCE, bought, completed, fixed_outside
from oatsack.values.problem import Floats, Problem, Work, activity

TRIES = 3
FIRST_PUSH, PUSH = 0.02, 2.5
"""A broken limit first costs this share of the aim for all of it, then so many times more; ours."""
LAST_NODES = 60


@dataclass(slots=True)
class Attempt:
    """What came of it: an answer with its aim, or the limits that the nearest try still breaks."""

    answer: tuple[Floats, float] | None
    broken: list[Give]


def first_valid(
    frame: Frame, problem: Problem, relaxed: Relaxed, engine: Engine, *, tries: int = TRIES
) -> Attempt:
    """The first plan that keeps every rule, or what the nearest try still breaks."""
    push: dict[str, float] = {}
    nearest: list[Give] = []
    for _ in range(tries):
        x = first_plan(frame, problem, _pushed(frame, problem, relaxed, push))
        done = completed(problem, engine, x)
        if done is not None:
            return Attempt(answer=done, broken=[])
        broken = broken_by(frame, problem, engine, x)
        if not broken:
            break
        if not nearest or _much(broken) < _much(nearest):
            nearest = broken
        for give in broken:
            push[give.row] = push.get(give.row, FIRST_PUSH / PUSH) * PUSH
    return Attempt(answer=None, broken=nearest)


def _much(gives: list[Give]) -> float:
    return sum(g.share for g in gives)


def broken_by(frame: Frame, problem: Problem, engine: Engine, x: Floats) -> list[Give]:
    """Which limits this menu breaks, and by how much."""
    part, numbers = fixed_outside(problem, bought(problem), x)
    rows = [i for i, name in enumerate(part.rows) if may_be_named(name)]
    answer = engine(elastic(frame, part, rows), Work(nodes=LAST_NODES, gap_rel=0.05))
    if answer.x is None:
        return []
    full = x.copy()
    full[numbers] = answer.x[: len(numbers)]
    return breaks(problem, full)


def breaks(problem: Problem, x: Floats) -> list[Give]:
    """Every limit that an answer breaks."""
    a = activity(problem, x)
    short, over = problem.row_low - a, a - problem.row_high
    return [
        Give(row=problem.rows[i], short=max(0.0, float(short[i])), over=max(0.0, float(over[i])),
             low=float(problem.row_low[i]), high=float(problem.row_high[i]))
        for i in np.flatnonzero(np.maximum(short, over) > TOLERANCE)
    ]  # fmt: skip


def _pushed(frame: Frame, problem: Problem, relaxed: Relaxed, push: dict[str, float]) -> Relaxed:
    """Prices in which the broken limits are dearer."""
    if not push:
        return relaxed
    cost = relaxed.prices.cost.copy()
    row_at = {name: i for i, name in enumerate(problem.rows)}
    for name, share in push.items():
        i = row_at[name]
        end = problem.row_high[i] if np.isfinite(problem.row_high[i]) else problem.row_low[i]
        per_unit = share * abs(relaxed.bound) / max(1.0, abs(float(end)))
        cost = cost + per_unit * _uses(frame, problem, i, name)
    prices = Prices(cost=cost, rank=relaxed.prices.rank + (cost - relaxed.prices.cost))
    return replace(relaxed, prices=prices)


def _uses(frame: Frame, problem: Problem, i: int, name: str) -> Floats:
    """How much of a limit a unit of every column uses; of money, through the packs it empties."""
    out = np.zeros(len(problem.columns))
    span = slice(problem.start[i], problem.start[i + 1])
    if name != "packs/budget":
        out[problem.index[span]] = problem.value[span]
        return out
    price = dict(zip(problem.index[span].tolist(), problem.value[span].tolist(), strict=True))
    rows = {name: i for i, name in enumerate(problem.rows) if name.startswith("packs/")}
    for food, buy in frame.buy.items():
        row = rows[f"packs/{food}"]
        entries = slice(problem.start[row], problem.start[row + 1])
        columns, values = problem.index[entries], problem.value[entries]
        per_pack = -float(values[columns == buy][0])
        others = columns != buy
        out[columns[others]] += values[others] * price.get(buy, 0.0) / per_pack
    return out
