"""Rebuilds one day at a time with prices that know what the other days already bring.

A soft row asks of a day what it would cost there: nothing while there is room, its full price once
it is missed, and in between the mean slope over what the day brings. Hard rows keep the price of
the relaxed answer. A day is only exchanged when the exact matrix says that the whole got better.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oatsack.menu.build import Tables, bag_kcal, dish_costs, units_of
from oatsack.menu.days import day_table, read_back
from oatsack.menu.frame import Frame
from oatsack.menu.meals import Prices
from oatsack.menu.price import Engine, Relaxed
from oatsack.menu.structure import Mask, completed, entry_rows, summed
from oatsack.values.problem import Floats, Ints, Problem

DAY_RULES = ("doses/", "mains/", "toppings/", "items/", "energy-day/", "energy-meal/", "drinks/")
"""Rows that the tables of a day keep themselves."""


@dataclass(slots=True)
class Matrix:
    """The exact matrix by column, with what missing each row costs."""

    problem: Problem
    rows: Ints
    order: Ints
    first: Ints
    far: Mask
    short: Floats
    over: Floats

    def entries(self, columns: Ints) -> Ints:
        """Numbers of all entries of some columns."""
        spans = [self.order[self.first[c] : self.first[c + 1]] for c in columns.tolist()]
        return np.concatenate(spans) if spans else np.zeros(0, np.int64)


def matrix_of(problem: Problem) -> Matrix:
    """The matrix by column; a row that cannot be missed costs infinity."""
    rows, count = entry_rows(problem), len(problem.rows)
    alone = np.bincount(problem.index, minlength=len(problem.columns)) == 1
    measures = alone & ~problem.integer & (problem.cost > 0)
    short, over = np.full(count, np.inf), np.full(count, np.inf)
    for e in np.flatnonzero(measures[problem.index]):
        price = float(problem.cost[problem.index[e]] / abs(problem.value[e]))
        kind = short if problem.value[e] > 0 else over
        kind[rows[e]] = min(kind[rows[e]], price)
    order = np.argsort(problem.index, kind="stable")
    counts = np.bincount(problem.index, minlength=len(problem.columns))
    return Matrix(
        problem=problem, rows=rows, order=order, first=np.concatenate([[0], np.cumsum(counts)]),
        far=np.array([not name.startswith(DAY_RULES) for name in problem.rows], bool),
        short=short, over=over,
    )  # fmt: skip


def prices_now(matrix: Matrix, relaxed: Relaxed, x: Floats, columns: Ints) -> Prices:
    """Prices of these columns, all others standing at x."""
    p = matrix.problem
    chosen = matrix.entries(columns)
    chosen = chosen[matrix.far[matrix.rows[chosen]]]
    rows = matrix.rows[chosen]
    without = np.where(p.integer | (p.low == p.high), x, 0.0)
    activity = summed(matrix.rows, p.value * without[p.index], len(p.rows))
    own = summed(rows, p.value[chosen] * x[p.index[chosen]], len(p.rows))
    slope = _slopes(matrix, relaxed, activity, own)
    extra = summed(p.index[chosen], p.value[chosen] * slope[rows], len(p.columns))
    return Prices(cost=p.cost + extra, rank=relaxed.prices.rank)


def _slopes(matrix: Matrix, relaxed: Relaxed, activity: Floats, own: Floats) -> Floats:
    """Per row the mean slope of its penalty between half and one and a half times the own part."""
    p = matrix.problem
    width = np.maximum(np.abs(own), 1e-6)
    low = activity - 0.5 * width
    high = activity + 0.5 * width
    miss_low = _penalty(matrix, p, low)
    miss_high = _penalty(matrix, p, high)
    with np.errstate(invalid="ignore"):
        slope = (miss_high - miss_low) / width
    return np.where(np.isfinite(slope), slope, -relaxed.duals)


def _penalty(matrix: Matrix, p: Problem, activity: Floats) -> Floats:
    with np.errstate(invalid="ignore"):
        short = np.where(activity < p.row_low, matrix.short * (p.row_low - activity), 0.0)
        over = np.where(activity > p.row_high, matrix.over * (activity - p.row_high), 0.0)
    return np.asarray(short + over, float)


def rebuild(
    frame: Frame, matrix: Matrix, relaxed: Relaxed, engine: Engine, answer: tuple[Floats, float]
) -> tuple[Floats, float]:  # fmt: skip
    """One round over all days; the answer after it, never worse."""
    x, aim = answer
    for group in frame.groups:
        for members, day in units_of(frame, group):
            trial = _day_anew(frame, matrix, relaxed, x, (members, day))
            done = completed(matrix.problem, engine, trial)
            if done is not None and done[1] < aim - 1e-6 * abs(aim):
                x, aim = done
    return x, aim


def _day_anew(
    frame: Frame, matrix: Matrix, relaxed: Relaxed, x: Floats, unit: tuple[tuple[str, ...], int]
) -> Floats:  # fmt: skip
    members, day = unit
    options = [o for w in members for o in frame.day_options(w, day) if o.use >= 0]
    columns = np.unique([c for o in options for c in (o.eat, o.use)]).astype(np.int64)
    prices = prices_now(matrix, relaxed, x, columns)
    tables: Tables = {(w, day): day_table(frame, w, day, prices) for w in members}
    energy = {(w, day): bag_kcal(frame, w, day, x) for w in members}
    costs = dish_costs(frame, members, day, tables, energy, prices)
    dish = min(costs, key=lambda name: (costs[name], name), default="")
    trial = x.copy()
    trial[columns] = 0.0
    for walker in members:
        for o, doses in read_back(frame, tables[(walker, day)], dish, energy[(walker, day)]):
            trial[o.eat] = doses
            trial[o.use] = max(trial[o.use], 1.0)
    return trial
