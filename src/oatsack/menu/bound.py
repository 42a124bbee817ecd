"""A better proof: how good a menu can be at most, from days solved apart at the relaxed prices.

Rows that reach over days are priced by their duals; what is left falls into the days of single
walkers, each a small whole-number problem. What several of them hold, a dish of the group, stands
in each as a copy with a part of its cost, as if each could choose for itself. The
sum of their bounds is a bound for the whole, for any prices (Lagrangian decomposition); with the
relaxed problem's own prices it is never below its bound.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np

from oatsack.menu.frame import Frame
from oatsack.menu.lanes import AT_ONCE
from oatsack.menu.price import Engine, Relaxed
from oatsack.menu.structure import Mask, entry_rows, summed
from oatsack.values.problem import Floats, Ints, Problem, Work

BLOCK_NODES, BLOCK_SECONDS = 20, 120.0
BLOCK_GAP = 0.0005
"""A day ends this close to its best, as a share of the whole bound; ours."""
NOWHERE = -1


@dataclass(frozen=True, slots=True, kw_only=True)
class Parted:
    """Columns by block (-1: none, or copied), rows by the block they lie in (-1: none)."""

    block: Ints
    row_block: Ints
    copied: Mapping[int, tuple[int, ...]]
    """Column -> the blocks that each hold a copy of it."""
    also: Mapping[int, tuple[int, ...]]
    """Block -> rows of copied columns alone: they hold among the copies of every block."""
    count: int

    @property
    def inner(self) -> Mask:
        """Rows that lie inside one block."""
        return np.asarray(self.row_block >= 0, np.bool_)


def proven(
    frame: Frame, problem: Problem, relaxed: Relaxed, engine: Engine, *,
    halt: Callable[[float], bool] | None = None,
) -> float:  # fmt: skip
    """A bound for the whole problem, at least the relaxed one; `halt` ends the days' proofs."""
    parted = parted_by_days(frame, problem)
    rows, count = entry_rows(problem), len(problem.columns)
    prices = np.where(parted.inner, 0.0, relaxed.duals)
    outer = problem.cost - summed(problem.index, problem.value * prices[rows], count)
    total = problem.offset + _of_rows(problem, prices) + _of_rest(problem, parted, outer)
    if not np.isfinite(total):
        return relaxed.bound
    gap = BLOCK_GAP * abs(relaxed.bound) / max(1, parted.count)
    work = Work(
        nodes=BLOCK_NODES, seconds=BLOCK_SECONDS, gap_abs=gap, prove=True, halt=halt
    )  # fmt: skip
    parts = list(_blocks(problem, parted, outer, relaxed.duals))
    with ThreadPoolExecutor(AT_ONCE) as pool:  # added in order: the sum is always the same
        answers = list(pool.map(lambda part: engine(part, work), parts))
    total += sum(answer.bound for answer in answers)
    return max(total, relaxed.bound) if np.isfinite(total) else relaxed.bound


def parted_by_days(frame: Frame, problem: Problem) -> Parted:
    """Every portion in the block of its walker and day, with what measures it."""
    block, copied, count = _places(frame, problem)
    rows = entry_rows(problem)
    shared = np.isin(np.arange(len(problem.columns)), list(copied))
    alone = np.bincount(problem.index, minlength=len(problem.columns)) == 1
    measures = alone & ~problem.integer & (problem.cost >= 0.0) & ~shared
    own = ~(measures | shared)[problem.index]
    low = np.full(len(problem.rows), np.iinfo(np.int64).max)
    high = np.full(len(problem.rows), -2)
    np.minimum.at(low, rows[own], block[problem.index[own]])
    np.maximum.at(high, rows[own], block[problem.index[own]])
    row_block = np.where((low == high) & (low >= 0), low, NOWHERE)
    for e in np.flatnonzero(shared[problem.index]):
        if row_block[rows[e]] not in copied[int(problem.index[e])]:
            row_block[rows[e]] = NOWHERE
    for e in np.flatnonzero(measures[problem.index] & (row_block[rows] >= 0)):
        block[problem.index[e]] = row_block[rows[e]]
    also = _also(problem, copied, shared)
    return Parted(block=block, row_block=row_block, copied=copied, also=also, count=count)


def _places(frame: Frame, problem: Problem) -> tuple[Ints, dict[int, tuple[int, ...]], int]:
    """Block of every portion, blocks of what is shared, and the number of blocks."""
    block = np.full(len(problem.columns), NOWHERE, np.int64)
    number: dict[tuple[str, int], int] = {}
    held: dict[int, dict[int, None]] = {}
    for (walker, day, _), options in frame.options.items():
        at = number.setdefault((walker, day), len(number))
        for o in options:
            block[o.eat] = at
            if o.use >= 0 and o.use in frame.sharers:
                held.setdefault(o.use, {})[at] = None
            elif o.use >= 0:
                block[o.use] = at
    return block, {column: tuple(blocks) for column, blocks in held.items()}, len(number)


def _also(
    problem: Problem, copied: Mapping[int, tuple[int, ...]], shared: Mask
) -> dict[int, tuple[int, ...]]:  # fmt: skip
    out: dict[int, list[int]] = {}
    others = np.bincount(
        entry_rows(problem), weights=~shared[problem.index], minlength=len(problem.rows)
    )
    for i in np.flatnonzero((others == 0) & (np.diff(problem.start) > 0)).tolist():
        columns = problem.index[problem.start[i] : problem.start[i + 1]].tolist()
        for at in set.intersection(*(set(copied[c]) for c in columns)):
            out.setdefault(at, []).append(i)
    return {at: tuple(rows) for at, rows in out.items()}


def _blocks(problem: Problem, parted: Parted, outer: Floats, duals: Floats) -> Iterator[Problem]:
    """The problem of every block. A copy costs what its block's rows give for it at these prices,
    and an equal share of what is left: over all copies that is the column's whole cost."""
    rows = entry_rows(problem)
    told = problem.value * duals[rows]
    left = problem.cost - summed(problem.index, told, len(problem.columns))
    by_block: dict[int, list[int]] = {}
    for column, blocks in parted.copied.items():
        for at in blocks:
            by_block.setdefault(at, []).append(column)
    for at in range(parted.count):
        copies = np.array(by_block.get(at, ()), np.int64)
        columns = np.concatenate([np.flatnonzero(parted.block == at), copies])
        own_rows = np.flatnonzero(parted.row_block == at)
        inside = parted.row_block[rows] == at
        here = summed(problem.index[inside], told[inside], len(problem.columns))
        cost = outer[columns]
        if len(copies):
            shares = np.array([len(parted.copied[c]) for c in copies.tolist()])
            cost[-len(copies) :] = here[copies] + left[copies] / shares
        chosen = np.concatenate([own_rows, np.array(parted.also.get(at, ()), np.int64)])
        yield _cut(problem, columns, chosen.astype(np.int64), cost)


def _cut(problem: Problem, columns: Ints, rows: Ints, cost: Floats) -> Problem:
    """These columns and rows at these costs; every entry of the rows lies in the columns."""
    number = np.full(len(problem.columns), -1, np.int64)
    number[columns] = np.arange(len(columns))
    spans = [np.arange(problem.start[i], problem.start[i + 1]) for i in rows.tolist()]
    entries = np.concatenate(spans) if spans else np.zeros(0, np.int64)
    lengths = np.diff(problem.start)[rows]
    return Problem(
        columns=tuple(problem.columns[c] for c in columns.tolist()),
        rows=tuple(problem.rows[i] for i in rows.tolist()),
        cost=cost, low=problem.low[columns], high=problem.high[columns],
        integer=problem.integer[columns], row_low=problem.row_low[rows],
        row_high=problem.row_high[rows],
        start=np.concatenate([[0], np.cumsum(lengths)]).astype(np.int64),
        index=number[problem.index[entries]], value=problem.value[entries],
    )  # fmt: skip


def _of_rows(problem: Problem, prices: Floats) -> float:
    """What the priced rows bring at least: their low end at a price, their high end at a cost."""
    ends = np.where(prices > 0.0, problem.row_low, problem.row_high)
    used = prices != 0.0
    return float((prices[used] * ends[used]).sum())


def _of_rest(problem: Problem, parted: Parted, reduced: Floats) -> float:
    """The least that columns of no block can bring."""
    rest = parted.block == NOWHERE
    rest[list(parted.copied)] = False
    slight = np.where(np.abs(reduced) < 1e-7, 0.0, reduced)[rest]
    ends = np.where(slight > 0.0, problem.low[rest], problem.high[rest])
    used = slight != 0.0
    return float((slight[used] * ends[used]).sum())
