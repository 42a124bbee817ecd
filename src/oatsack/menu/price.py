"""Prices: what every column costs by the aim and by the rules that reach beyond its own meal.

One relaxed problem (of the whole, or of each walker alone where the party is large) gives a proven
bound, a price for every far-reaching rule, and a ranking for short lists.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from oatsack.menu.frame import Frame
from oatsack.menu.meals import Prices
from oatsack.menu.structure import Mask, entry_rows, projected, relaxed, summed
from oatsack.menu.thin import thinned
from oatsack.values.problem import Answer, Floats, Problem, Work

Engine = Callable[[Problem, Work], Answer]

NEAR_RULES = (
    "doses/", "mains/", "toppings/", "items/", "energy-day/", "energy-meal/", "drinks/",
    "variety/dinner", "variety/breakfast", "taste/lunch/",
)  # fmt: skip
"""Rows that `menu/meals` and `menu/days` keep themselves; all others are priced."""
WHOLE_UP_TO = 16_000
"""Columns up to which the whole problem is relaxed at once; ours, measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxed:
    """A relaxed answer: the bound, the prices, and x; `fits` is False where no menu can exist."""

    fits: bool
    bound: float
    prices: Prices
    x: Floats
    duals: Floats


def price(frame: Frame, problem: Problem, engine: Engine) -> Relaxed:
    """The relaxed answer of the whole, put together from parts where the whole is too large.

    A column that several parts hold (a shared dish) brings its cost in equal shares, so that the
    sum of the parts' bounds stays a bound for the whole.
    """
    thin = thinned(problem, frame.buy)
    if thin is None:
        return _priced(frame, problem, engine)
    found = _priced(frame, thin.problem, engine)
    return replace(found, x=thin.filled(found.x), duals=thin.duals(problem, found.duals))


def _priced(frame: Frame, problem: Problem, engine: Engine) -> Relaxed:
    parts = _parts(frame, problem)
    holders = np.maximum(1, np.sum(parts, axis=0))
    shared = replace(problem, cost=problem.cost / holders)
    count = len(problem.columns)
    cost, rank, x = problem.cost.copy(), np.zeros(count), problem.low.copy()
    bound, fits = problem.offset, True
    duals, row_at = np.zeros(len(problem.rows)), {name: i for i, name in enumerate(problem.rows)}
    for inside in parts:
        part, numbers = projected(shared, inside)
        answer = engine(relaxed(part), Work())
        if answer.x is None or answer.duals is None or answer.reduced is None:
            fits = False
            continue
        bound += answer.bound
        x[numbers] = answer.x
        rank[numbers] += answer.reduced
        duals[[row_at[name] for name in part.rows]] = answer.duals
        cost[numbers] -= _far(part, answer.duals)
    return Relaxed(fits=fits, bound=bound, prices=Prices(cost=cost, rank=rank), x=x, duals=duals)


def _far(part: Problem, duals: Floats) -> Floats:
    """What the far-reaching rows give towards each column."""
    far = np.array([not name.startswith(NEAR_RULES) for name in part.rows], bool)
    weights = np.where(far, duals, 0.0)[entry_rows(part)] * part.value
    return summed(part.index, weights, len(part.columns))


def _parts(frame: Frame, problem: Problem) -> list[Mask]:
    if len(problem.columns) <= WHOLE_UP_TO:
        return [np.ones(len(problem.columns), bool)]
    return [walker_columns(frame, problem, walker) for walker in frame.days]


def walker_columns(frame: Frame, problem: Problem, walker: str) -> Mask:
    """The columns of one walker: portions, bags, wishes, and the dishes of the cook group."""
    group = next(g.name for g in frame.groups if walker in g.walkers)
    inside = np.zeros(len(problem.columns), bool)
    for i, name in enumerate(problem.columns):
        parts = name.split("/")
        inside[i] = walker in parts or (parts[0] in ("dish", "again") and group in parts)
    return inside
