"""The same relaxed problem without the packs bought: what a dose takes of its pack, it takes of the
budget and of the price.

In a relaxed answer packs are bought in parts, so a pack column always stands at what is eaten of
it. Put in for it, the rows that tie every day to every other through packs are gone, and simplex is
several times quicker. Columns keep their numbers; prices of the rows left out are found again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from oatsack.menu.structure import Mask, entry_rows
from oatsack.values.problem import Floats, Ints, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Packs:
    """One food's row of packs: its number, the pack column, and packs per unit of the others."""

    row: int
    buy: int
    eaten: Ints
    share: Floats
    per_pack: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Thin:
    """The thinner problem, the rows of the whole that it keeps, and what was put in."""

    problem: Problem
    kept: Ints
    packs: tuple[Packs, ...]

    def filled(self, x: Floats) -> Floats:
        """The answer of the whole: packs bought in parts."""
        full = x.copy()
        for p in self.packs:
            full[p.buy] = float(p.share @ x[p.eaten])
        return full

    def duals(self, whole: Problem, thin: Floats) -> Floats:
        """Prices of all rows of the whole: what is put in costs what its pack costs."""
        out = np.zeros(len(whole.rows))
        out[self.kept] = thin
        rows = entry_rows(whole)
        per_unit = np.bincount(
            whole.index, weights=whole.value * out[rows], minlength=len(whole.columns)
        )
        for p in self.packs:
            out[p.row] = (per_unit[p.buy] - whole.cost[p.buy]) / p.per_pack
        return out


def thinned(problem: Problem, buy: Mapping[str, int]) -> Thin | None:
    """The problem with every pack column put in whose food is not at home as well; or None."""
    row_at = {name: i for i, name in enumerate(problem.rows) if name.startswith("packs/")}
    packs = [
        p for name, column in buy.items()
        if (row := row_at.get(f"packs/{name}")) is not None
        and (p := _packs(problem, row, column)) is not None
    ]  # fmt: skip
    return _put_in(problem, packs) if packs else None


def _packs(problem: Problem, row: int, buy: int) -> Packs | None:
    span = slice(problem.start[row], problem.start[row + 1])
    columns, values = problem.index[span], problem.value[span]
    own = columns == buy
    per_pack = -float(values[own].sum())
    home = bool((values[~own] < 0.0).any())
    if home or per_pack <= 0.0 or problem.row_high[row] != 0.0 or problem.low[buy] != 0.0:
        return None
    share = values[~own] / per_pack
    return Packs(row=row, buy=buy, eaten=columns[~own], share=share, per_pack=per_pack)


def _put_in(problem: Problem, packs: list[Packs]) -> Thin:
    """Every entry of a pack column, its cost too, goes to what is eaten of the pack."""
    rows, gone = entry_rows(problem), _mask(len(problem.rows), [p.row for p in packs])
    bought = _mask(len(problem.columns), [p.buy for p in packs])
    cost = problem.cost.copy()
    stays = ~gone[rows] & ~bought[problem.index]
    row_parts, column_parts = [rows[stays]], [problem.index[stays]]
    value_parts = [problem.value[stays]]
    for p in packs:
        cost[p.eaten] += cost[p.buy] * p.share
        cost[p.buy] = 0.0
        for entry in np.flatnonzero((problem.index == p.buy) & ~gone[rows]):
            row_parts.append(np.full(len(p.eaten), rows[entry]))
            column_parts.append(p.eaten)
            value_parts.append(p.share * problem.value[entry])
    kept = np.flatnonzero(~gone)
    return Thin(
        problem=_sorted(
            replace(problem, cost=cost), kept, np.concatenate(row_parts),
            np.concatenate(column_parts), np.concatenate(value_parts),
        ),
        kept=kept, packs=tuple(packs),
    )  # fmt: skip


def _mask(size: int, where: list[int]) -> Mask:
    out = np.zeros(size, bool)
    out[where] = True
    return out


def _sorted(problem: Problem, kept: Ints, rows: Ints, columns: Ints, values: Floats) -> Problem:
    """A problem of these entries, row by row; entries that meet are added."""
    keys, place = np.unique(rows * len(problem.columns) + columns, return_inverse=True)
    counts = np.bincount(keys // len(problem.columns), minlength=len(problem.rows))[kept]
    return replace(
        problem, rows=tuple(problem.rows[i] for i in kept), row_low=problem.row_low[kept],
        row_high=problem.row_high[kept],
        start=np.concatenate([[0], np.cumsum(counts)]).astype(np.int64),
        index=(keys % len(problem.columns)).astype(np.int64),
        value=np.asarray(np.bincount(place, weights=values), np.float64),
    )  # fmt: skip


__all__ = ["Packs", "Thin", "thinned"]
