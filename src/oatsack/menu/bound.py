"""A better proof: how good a menu can be at most, from days solved apart at the relaxed prices.

Rows that reach over days are priced by their duals; what is left falls into days of a cook group,
each a small whole-number problem. The sum of their bounds is a bound for the whole, for any prices
(Lagrangian relaxation); with the relaxed problem's own prices it is never below its bound.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from oatsack.menu.frame import Frame
from oatsack.menu.price import Engine, Relaxed
from oatsack.menu.structure import Mask, entry_rows, projected, summed
from oatsack.values.problem import Floats, Ints, Problem, Work

BLOCK_NODES, BLOCK_SECONDS = 40, 4.0
BLOCK_GAP = 0.0005
"""A day ends this close to its best, as a share of the whole bound; ours."""
NOWHERE = -1
PAIR = 2
"""Groups up to this size are solved together; ours, measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parted:
    """Columns by block (-1: none), rows that lie inside one, and the number of blocks."""

    block: Ints
    inner: Mask
    count: int


def proven(frame: Frame, problem: Problem, relaxed: Relaxed, engine: Engine) -> float:
    """A bound for the whole problem, at least the relaxed one."""
    parted = parted_by_days(frame, problem)
    rows = entry_rows(problem)
    prices = np.where(parted.inner, 0.0, relaxed.duals)
    reduced = problem.cost - summed(
        problem.index, problem.value * prices[rows], len(problem.columns)
    )
    total = problem.offset + _of_rows(problem, prices) + _of_rest(problem, parted, reduced)
    if not np.isfinite(total):
        return relaxed.bound
    priced = replace(problem, cost=reduced, offset=0.0)
    gap = BLOCK_GAP * abs(relaxed.bound)
    for number in range(parted.count):
        part, _ = projected(priced, parted.block == number)
        answer = engine(part, Work(nodes=BLOCK_NODES, seconds=BLOCK_SECONDS, gap_abs=gap))
        total += answer.bound
    return max(total, relaxed.bound) if np.isfinite(total) else relaxed.bound


def parted_by_days(frame: Frame, problem: Problem) -> Parted:
    """Every portion and dish in the block of its cook group and day, with what measures it."""
    block = _blocks(frame, problem)
    rows = entry_rows(problem)
    alone = np.bincount(problem.index, minlength=len(problem.columns)) == 1
    measures = alone & ~problem.integer & (problem.cost >= 0.0)
    eaten = ~measures[problem.index]
    low = np.full(len(problem.rows), np.iinfo(np.int64).max)
    high = np.full(len(problem.rows), -2)
    np.minimum.at(low, rows[eaten], block[problem.index[eaten]])
    np.maximum.at(high, rows[eaten], block[problem.index[eaten]])
    inner = (low == high) & (low >= 0)
    for entry in np.flatnonzero(measures[problem.index] & inner[rows]):
        block[problem.index[entry]] = low[rows[entry]]
    return Parted(block=block, inner=inner, count=int(block.max(initial=-1)) + 1)


def _blocks(frame: Frame, problem: Problem) -> Ints:
    """A pair's day is one block; in larger groups every walker's is, and shared dishes are in none
    (what ties portions to them is priced)."""
    block = np.full(len(problem.columns), NOWHERE, np.int64)
    number: dict[tuple[str, int], int] = {}
    small = {w: g.name for g in frame.groups for w in g.walkers if len(g.walkers) <= PAIR}
    for (walker, day, _), options in frame.options.items():
        at = number.setdefault((small.get(walker, walker), day), len(number))
        for o in options:
            block[o.eat] = at
            shared = o.use >= 0 and problem.columns[o.use].startswith("dish/")
            if o.use >= 0 and (walker in small or not shared):
                block[o.use] = at
    return block


def _of_rows(problem: Problem, prices: Floats) -> float:
    """What the priced rows bring at least: their low end at a price, their high end at a cost."""
    ends = np.where(prices > 0.0, problem.row_low, problem.row_high)
    used = prices != 0.0
    return float((prices[used] * ends[used]).sum())


def _of_rest(problem: Problem, parted: Parted, reduced: Floats) -> float:
    """The least that columns of no block can bring."""
    rest = parted.block == NOWHERE
    slight = np.where(np.abs(reduced) < 1e-7, 0.0, reduced)[rest]
    ends = np.where(slight > 0.0, problem.low[rest], problem.high[rest])
    used = slight != 0.0
    return float((slight[used] * ends[used]).sum())
