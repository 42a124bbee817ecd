"""The slow, obvious solver that judges the fast one: it tries everything.

Every combination of whole numbers is looked at; what only measures (a column of one row, at a
price) takes the least value that the rows ask. For small problems only.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

import numpy as np

from oatsack.errors import SolverFailed
from oatsack.values.problem import Answer, Floats, Ints, Problem, Work

MOST_TRIED = 3_000_000
AT_ONCE = 4096
TOLERANCE = 1e-7


def solve(problem: Problem, work: Work) -> Answer:
    """The best of all answers. Raises SolverFailed where there are too many or it cannot judge."""
    del work
    whole = np.flatnonzero(problem.integer)
    ranges = [range(int(problem.low[c]), int(problem.high[c]) + 1) for c in whole]
    if np.prod([len(r) for r in ranges], dtype=float) > MOST_TRIED:
        raise SolverFailed("too many answers to try them all")
    short, over = _prices(problem)
    matrix = _dense(problem)
    best_aim, best = np.inf, None
    for some in _handfuls(ranges):
        x = np.tile(problem.low, (len(some), 1))
        x[:, whole] = some
        aims = _aims(problem, matrix @ x.T, x, short, over)
        i = int(np.argmin(aims))
        if aims[i] < best_aim - 1e-12:
            best_aim, best = float(aims[i]), x[i]
    if best is None:
        return Answer(status="infeasible", x=None, aim=np.inf, bound=np.inf)
    x = _filled(problem, matrix, best)
    return Answer(status="optimal", x=x, aim=best_aim, bound=best_aim)


def _handfuls(ranges: Sequence[range]) -> Iterator[Ints]:
    every = itertools.product(*ranges)
    while some := list(itertools.islice(every, AT_ONCE)):
        yield np.array(some, np.int64).reshape(len(some), len(ranges))


def _dense(problem: Problem) -> Floats:
    matrix = np.zeros((len(problem.rows), len(problem.columns)))
    for i in range(len(problem.rows)):
        span = slice(problem.start[i], problem.start[i + 1])
        matrix[i, problem.index[span]] = problem.value[span]
    return matrix


def _measures(problem: Problem) -> Iterator[tuple[int, int, float, float]]:
    """Every measuring column with its row, entry and price per unit of the row."""
    rows = np.repeat(np.arange(len(problem.rows)), np.diff(problem.start))
    for c in np.flatnonzero(~problem.integer & (problem.low < problem.high)):
        places = np.flatnonzero(problem.index == c)
        if len(places) != 1 or problem.cost[c] < 0 or np.isfinite(problem.high[c]):
            raise SolverFailed(f"cannot judge column {problem.columns[c]}")
        value = float(problem.value[places[0]])
        yield int(c), int(rows[places[0]]), value, float(problem.cost[c]) / abs(value)


def _prices(problem: Problem) -> tuple[Floats, Floats]:
    """What a unit short of every row costs, and a unit over; infinite where nothing measures it."""
    short, over = np.full(len(problem.rows), np.inf), np.full(len(problem.rows), np.inf)
    for _, row, value, price in _measures(problem):
        ends = short if value > 0 else over
        ends[row] = min(ends[row], price)
    return short, over


def _aims(problem: Problem, activity: Floats, x: Floats, short: Floats, over: Floats) -> Floats:
    """The aim of every answer, with the price of what its rows miss."""
    aims = x @ problem.cost + problem.offset
    missing = problem.row_low[:, None] - activity
    above = activity - problem.row_high[:, None]
    for amount, price in ((missing, short), (above, over)):
        amount = np.where(amount > TOLERANCE, amount, 0.0)
        with np.errstate(invalid="ignore"):
            asked = np.where(amount > 0.0, amount * price[:, None], 0.0)
        aims = aims + asked.sum(axis=0)
    return np.asarray(aims, np.float64)


def _filled(problem: Problem, matrix: Floats, x: Floats) -> Floats:
    """The best answer with its cheapest measuring columns filled in."""
    x = x.copy()
    activity = matrix @ x
    for c, row, value, _ in sorted(_measures(problem), key=lambda m: m[3]):
        short, over = problem.row_low[row] - activity[row], activity[row] - problem.row_high[row]
        missing = short if value > 0 else over
        if missing > TOLERANCE:
            x[c] = missing / abs(value)
            activity[row] += value * x[c]
    return x
