"""One rule of a menu at a time: what a given menu costs by it, or that it forbids the menu.

The exact problem is cut down to the rows of the rules under test; what is eaten is fixed, and only
the columns that a rule needs for itself (whether a food is taken at all, packs, what is short or
over) are left to the engine. Everything else may be as odd as the test likes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from oatsack.menu.problem import build
from oatsack.solve.highs import solve
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Problem, Work

Eaten = Mapping[str, float]
"""``anna/1/lunch/bar`` -> doses; ``anna/1-2/nuts`` -> packs of an open bag.."""
MEASURES = ("short/", "over/", "under/", "small-meal/", "large-meal/", "no-drink/", "again/",
            "plain/", "bare/", "lunch/")  # fmt: skip
"""Columns that say by how much a wish is missed."""


def missed(asked: MenuRequest, eaten: Eaten, *rules: str) -> float | None:
    """Grams that missing the wishes of these rules costs; None where they forbid the menu."""
    _, problem = build(asked)
    answer = solve(fixed(only(problem, ("doses", *rules)), eaten), Work(gap_rel=0.0))
    return None if answer.x is None else answer.aim


def allowed(asked: MenuRequest, eaten: Eaten, *rules: str) -> bool:
    """Whether these rules allow the menu at all."""
    return missed(asked, eaten, *rules) is not None


def only(problem: Problem, rules: tuple[str, ...]) -> Problem:
    """The problem with no rows but those of some rules."""
    keep = np.array([name.split("/")[0] in rules for name in problem.rows], bool)
    rows = np.repeat(np.arange(len(problem.rows)), np.diff(problem.start))
    stay = keep[rows]
    counts = np.bincount(rows[stay], minlength=len(problem.rows))[keep]
    return replace(
        problem, rows=tuple(n for n, k in zip(problem.rows, keep, strict=True) if k),
        row_low=problem.row_low[keep], row_high=problem.row_high[keep],
        start=np.concatenate([[0], np.cumsum(counts)]).astype(np.int64),
        index=problem.index[stay], value=problem.value[stay], offset=0.0,
        cost=np.where([n.startswith(MEASURES) for n in problem.columns], problem.cost, 0.0),
    )  # fmt: skip


def fixed(problem: Problem, eaten: Eaten) -> Problem:
    """The problem with what is eaten fixed. A name that is no column is a slip of the test."""
    low, high = problem.low.copy(), problem.high.copy()
    left = dict(eaten)
    for i, name in enumerate(problem.columns):
        kind, _, key = name.partition("/")
        if kind in ("eat", "bag"):
            low[i] = high[i] = left.pop(key, 0.0)
    assert not left, f"no such column: {sorted(left)}; there is {problem.columns}"
    return replace(problem, low=low, high=high)
