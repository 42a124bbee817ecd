"""Sub-problems of the one exact matrix, by fixing and slicing only, and relaxations of it.

`fixed_outside` keeps every row with what the fixed columns already bring, so an answer of it is an
answer of the whole. `projected` and `relaxed` only forget: their best is a bound for the whole.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from oatsack.values.problem import Answer, Floats, Ints, Problem, Work, aim_of, worst_breach

Mask = npt.NDArray[np.bool_]
TOLERANCE = 1e-5
"""A row counts as kept up to this much."""


def relaxed(problem: Problem, *, keep: Mask | None = None) -> Problem:
    """The same without whole numbers, except where `keep` says so."""
    whole = np.zeros(len(problem.columns), bool) if keep is None else problem.integer & keep
    return replace(problem, integer=whole)


def entry_rows(problem: Problem) -> Ints:
    """The row of every entry."""
    return np.repeat(np.arange(len(problem.rows)), np.diff(problem.start))


def summed(where: Ints, what: Floats, count: int) -> Floats:
    """Sums of `what` by number `where`."""
    return np.asarray(np.bincount(where, weights=what, minlength=count), np.float64)


def fixed_outside(problem: Problem, free: Mask, x: Floats) -> tuple[Problem, Ints]:
    """Only the free columns, all others standing at x; and the numbers of the free columns.

    Rows without a free column are left out: check them on the whole answer.
    """
    rows = entry_rows(problem)
    held = np.where(free, 0.0, x)
    brings = summed(rows, problem.value * held[problem.index], len(problem.rows))
    offset = problem.offset + float(problem.cost @ held)
    return _cut(problem, free, rows[free[problem.index]], brings, offset)


def projected(problem: Problem, inside: Mask) -> tuple[Problem, Ints]:
    """Only these columns, and only the rows that speak of nothing else: a relaxation as long as
    the columns left out cost nothing below zero."""
    rows = entry_rows(problem)
    outside = np.bincount(rows, weights=~inside[problem.index], minlength=len(problem.rows)) > 0
    whole_rows = ~outside[rows] & inside[problem.index]
    brings = np.zeros(len(problem.rows))
    return _cut(problem, inside, rows[whole_rows], brings, 0.0, entries=whole_rows)


def _cut(
    problem: Problem, free: Mask, rows: Ints, brings: Floats, offset: float,
    entries: Mask | None = None,
) -> tuple[Problem, Ints]:  # fmt: skip
    chosen = np.flatnonzero(free)
    entries = free[problem.index] if entries is None else entries
    used, counts = np.unique(rows, return_counts=True)
    number = np.cumsum(free) - 1
    cut = Problem(
        columns=tuple(problem.columns[i] for i in chosen),
        rows=tuple(problem.rows[i] for i in used),
        cost=problem.cost[chosen], low=problem.low[chosen], high=problem.high[chosen],
        integer=problem.integer[chosen], row_low=problem.row_low[used] - brings[used],
        row_high=problem.row_high[used] - brings[used],
        start=np.concatenate([[0], np.cumsum(counts)]).astype(np.int64),
        index=number[problem.index[entries]], value=problem.value[entries], offset=offset,
    )  # fmt: skip
    return cut, chosen


def bought(problem: Problem) -> Mask:
    """The measuring and buying columns: what is filled in once the menu stands."""
    buys = np.array([name.startswith("buy/") for name in problem.columns], np.bool_)
    return np.asarray(~problem.integer | buys, np.bool_)


def with_bounds(problem: Problem, low: Floats, high: Floats) -> Problem:
    """The same with other bounds on the columns."""
    return replace(problem, low=low, high=high)


def completed(
    problem: Problem, engine: Callable[[Problem, Work], Answer], x: Floats
) -> tuple[Floats, float] | None:
    """The answer with its measuring and buying columns filled in; None where it breaks a rule."""
    part, numbers = fixed_outside(problem, bought(problem), x)
    answer = engine(part, Work(gap_rel=0.001))
    if answer.x is None:
        return None
    full = x.copy()
    full[numbers] = answer.x
    if worst_breach(problem, full) > TOLERANCE:
        return None
    return full, aim_of(problem, full)
