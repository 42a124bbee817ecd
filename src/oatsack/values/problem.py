"""A menu problem as plain numbers: named columns and rows, bounds, aim. Any solver can take it.

A column is keyed by what it decides, a row by the rule and scope it comes from, so that an answer,
an explanation and a text snapshot can speak of them. Units are those of the named rows; the aim is
in grams-days, or in grams where a rule says so.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """minimise cost·x, row_low <= A x <= row_high, low <= x <= high, some x whole numbers."""

    columns: tuple[str, ...]
    rows: tuple[str, ...]
    cost: Floats
    low: Floats
    high: Floats
    integer: npt.NDArray[np.bool_]
    row_low: Floats
    row_high: Floats
    start: Ints
    """CSR: entries of row i are index[start[i]:start[i+1]]."""
    index: Ints
    value: Floats
    offset: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """How much may be spent: nodes and rounds decide; seconds are only a safety net."""

    nodes: int = 20_000
    seconds: float = 60.0
    gap_abs: float = 0.0
    gap_rel: float = 0.0
    seed: int = 0
    hint: Floats | None = None
    """An answer to start from, where the engine can use one."""
    prove: bool = False
    """Only the bound is wanted: no search for better answers than the hint."""
    halt: Callable[[float], bool] | None = None
    """Is asked now and then, with the bound so far; True ends the work."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a solver found. `x` is None when nothing was found."""

    status: str
    """optimal, feasible, infeasible, unbounded, nothing."""
    x: Floats | None
    aim: float
    bound: float
    ended: str = "proved"
    duals: Floats | None = None
    reduced: Floats | None = None
    nodes: int = 0


def activity(problem: Problem, x: Floats) -> Floats:
    """A x, row by row."""
    rows = np.repeat(np.arange(len(problem.rows)), np.diff(problem.start))
    out = np.zeros(len(problem.rows))
    np.add.at(out, rows, problem.value * x[problem.index])
    return out


def aim_of(problem: Problem, x: Floats) -> float:
    """What an answer costs."""
    return float(problem.cost @ x) + problem.offset


def worst_breach(problem: Problem, x: Floats) -> float:
    """The largest amount by which x breaks a row or a bound; 0 when it breaks none."""
    a = activity(problem, x)
    breaches = [problem.row_low - a, a - problem.row_high, problem.low - x, x - problem.high]
    return max([0.0] + [float(b.max()) for b in breaches if b.size])


@dataclass(slots=True)
class Builder:
    """Collects columns and rows while rules write them; `done` turns them into arrays."""

    columns: list[str] = field(default_factory=list)
    at: dict[str, int] = field(default_factory=dict)
    cost: list[float] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    integer: list[bool] = field(default_factory=list)
    rows: list[str] = field(default_factory=list)
    row_low: list[float] = field(default_factory=list)
    row_high: list[float] = field(default_factory=list)
    start: list[int] = field(default_factory=lambda: [0])
    index: list[int] = field(default_factory=list)
    value: list[float] = field(default_factory=list)
    offset: float = 0.0

    def column(
        self, name: str, *, low: float = 0.0, high: float = np.inf, integer: bool = True,
        cost: float = 0.0,
    ) -> int:  # fmt: skip
        """Adds a column and returns its number; an equal name is an error."""
        if name in self.at:
            raise ValueError(f"column {name!r} is offered twice")
        number = len(self.columns)
        self.at[name] = number
        self.columns.append(name)
        self.low.append(low)
        self.high.append(high)
        self.integer.append(integer)
        self.cost.append(cost)
        return number

    def row(
        self, name: str, terms: Sequence[tuple[int, float]], *, low: float = -np.inf,
        high: float = np.inf,
    ) -> int:  # fmt: skip
        """Adds a row low <= sum value*column <= high and returns its number."""
        number = len(self.rows)
        self.rows.append(name)
        self.row_low.append(low)
        self.row_high.append(high)
        told = [term for term in terms if term[1] != 0.0]
        if told:
            columns, values = zip(*told, strict=True)
            self.index += columns
            self.value += values
        self.start.append(len(self.index))
        return number

    def done(self) -> Problem:
        """The finished value."""
        return Problem(
            columns=tuple(self.columns), rows=tuple(self.rows), cost=np.array(self.cost, float),
            low=np.array(self.low, float), high=np.array(self.high, float),
            integer=np.array(self.integer, bool), row_low=np.array(self.row_low, float),
            row_high=np.array(self.row_high, float), start=np.array(self.start, np.int64),
            index=np.array(self.index, np.int64), value=np.array(self.value, float),
            offset=self.offset,
        )  # fmt: skip
