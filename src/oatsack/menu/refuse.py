"""Why no menu fits: the smallest set of wishes that must give, by how much, and what would help.

First every wish may give at a price relative to itself, on the relaxed problem; then wishes that
need not give are taken back one by one; then the amounts are found on the exact matrix. A way out
is only named when the problem with it has been solved. Safety rules never give (C11).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from oatsack.menu.price import Engine
from oatsack.menu.rules import RULES
from oatsack.menu.structure import relaxed
from oatsack.values.flags import Flag
from oatsack.values.problem import Answer, Floats, Problem, Work

SMALL = 1e-6
GIVING = {"energy-day", "energy-trip", "mains", "items", "minutes", "pot", "packs"}
"""Rules whose rows may give; see `may_give`."""
RELUCTANCE: Mapping[str, float] = {
    "mains": 20.0, "items": 20.0, "energy-day": 3.0, "energy-trip": 3.0, "container": 1.0,
}  # fmt: skip
"""How much rather another wish gives than this one; ours. What is not named counts 1."""
MOST_TAKEN_BACK = 12
EXACT_NODES, EXACT_SECONDS = 20, 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Give:
    """One row that must give: by how much below its low or above its high end."""

    row: str
    short: float = 0.0
    over: float = 0.0
    low: float = 0.0
    high: float = 0.0

    @property
    def share(self) -> float:
        """How much gives, relative to the limit itself."""
        ends = [abs(v) for v in (self.low, self.high) if np.isfinite(v)]
        return (self.short + self.over) / max([1.0, *ends])

    @property
    def group(self) -> str:
        """Rule and whom it concerns: rows of one group are told together."""
        parts = self.row.split("/")
        return "/".join(parts[:2]) if parts[0] in ("energy-day", "energy-trip") else parts[0]


def may_give(row: str) -> bool:
    """Whether a way out may touch this row."""
    rule = row.split("/")[0]
    bends = {r.name for r in RULES if r.hard and r.bends}
    measured = row.startswith(("energy-day/near/", "packs/")) and row != "packs/budget"
    return rule in bends & GIVING and not measured


def clashes(problem: Problem, engine: Engine) -> list[Give]:
    """The smallest set of rows found that must give for a menu to exist, and by how much each."""
    rows = [i for i, name in enumerate(problem.rows) if may_give(name)]
    answer = elastic(problem, rows, engine, whole=False)
    if answer.x is None:
        return []
    found = giving(problem, rows, answer.x)
    if not found:
        return []
    rows = _fewest(problem, engine, rows, found)
    exact = elastic(problem, rows, engine, whole=True)
    if exact.x is not None:
        return giving(problem, rows, exact.x)
    loose = elastic(problem, rows, engine, whole=False)
    return found if loose.x is None else giving(problem, rows, loose.x)


def elastic(problem: Problem, rows: Sequence[int], engine: Engine, *, whole: bool) -> Answer:
    """The answer with only these rows giving, least relative give first."""
    easy = _with_gives(problem, rows)
    work = Work(nodes=EXACT_NODES, seconds=EXACT_SECONDS, gap_rel=0.05)
    return engine(easy if whole else relaxed(easy), work)


def _with_gives(problem: Problem, rows: Sequence[int]) -> Problem:
    """Two more columns for every giving row: what it may be short and what it may be over."""
    count, more = len(problem.columns), 2 * len(rows)
    scale = np.array([_scale(problem, i) for i in rows])
    dear = np.array([RELUCTANCE.get(problem.rows[i].split("/")[0], 1.0) for i in rows])
    per_row: dict[int, int] = {row: n for n, row in enumerate(rows)}
    start, index, value = [0], [], []
    for i in range(len(problem.rows)):
        span = slice(problem.start[i], problem.start[i + 1])
        index.append(problem.index[span])
        value.append(problem.value[span])
        if i in per_row:
            n = count + 2 * per_row[i]
            index.append(np.array([n, n + 1]))
            value.append(np.array([1.0, -1.0]))
        start.append(start[-1] + len(problem.index[span]) + (2 if i in per_row else 0))
    return replace(
        problem,
        columns=problem.columns + tuple(f"give/{n}" for n in range(more)),
        cost=np.concatenate([np.zeros(count), np.repeat(dear / scale, 2)]),
        low=np.concatenate([problem.low, np.zeros(more)]),
        high=np.concatenate([problem.high, np.full(more, np.inf)]),
        integer=np.concatenate([problem.integer, np.zeros(more, bool)]),
        start=np.array(start, np.int64), index=np.concatenate(index).astype(np.int64),
        value=np.concatenate(value), offset=0.0,
    )  # fmt: skip


def _scale(problem: Problem, row: int) -> float:
    ends = [abs(v) for v in (problem.row_low[row], problem.row_high[row]) if np.isfinite(v)]
    return float(max([1.0, *ends]))


def giving(problem: Problem, rows: Sequence[int], x: Floats) -> list[Give]:
    """The rows that give in an answer of the elastic problem."""
    out, count = [], len(problem.columns)
    for n, i in enumerate(rows):
        short, over = float(x[count + 2 * n]), float(x[count + 2 * n + 1])
        if max(short, over) > SMALL * _scale(problem, i):
            low, high = float(problem.row_low[i]), float(problem.row_high[i])
            row = problem.rows[i]
            out.append(Give(row=row, short=short, over=over, low=low, high=high))
    return out


def _fewest(
    problem: Problem, engine: Engine, rows: Sequence[int], found: Sequence[Give]
) -> list[int]:
    """Rows of the groups that must give: groups that can be spared are taken back, least first."""
    total: dict[str, float] = {}
    for give in found:
        total[give.group] = total.get(give.group, 0.0) + give.share
    groups = sorted(total, key=lambda g: total[g])
    kept = set(groups)
    for group in groups[:MOST_TAKEN_BACK]:
        if len(kept) == 1:
            break
        trial = _rows_of(problem, rows, kept - {group})
        if elastic(problem, trial, engine, whole=False).x is not None:
            kept.discard(group)
    return _rows_of(problem, rows, kept)


def _rows_of(problem: Problem, rows: Sequence[int], groups: set[str]) -> list[int]:
    return [i for i in rows if Give(row=problem.rows[i]).group in groups]


def flags_of(gives: Sequence[Give], units: Mapping[str, str]) -> tuple[Flag, ...]:
    """One flag per group of rows that must give: the rule, whom, on which days, by how much."""
    groups: dict[str, list[Give]] = {}
    for give in gives:
        groups.setdefault(give.group, []).append(give)
    return tuple(_flag(group, found, units) for group, found in groups.items())


def _flag(group: str, found: Sequence[Give], units: Mapping[str, str]) -> Flag:
    rule, *whom = group.split("/")
    worst = max(found, key=lambda g: max(g.short, g.over))
    parts = worst.row.split("/")
    unit = units.get(rule, "n")
    values: dict[str, float | int | str] = {
        "rule": rule, "rows": len(found), f"short_{unit}": worst.short, f"over_{unit}": worst.over,
        f"limit_{unit}": worst.low if worst.short > worst.over else worst.high,
    }  # fmt: skip
    if whom:
        values["walker"] = whom[0]
    if rule == "packs":
        values |= {"over_money": worst.over, "limit_money": worst.high}
    if len(parts) > 2 and parts[2].isdigit():
        values["day"] = int(parts[2])
    if len(parts) > 3:
        values["meal"] = parts[3]
    side = "over" if worst.over > worst.short else "short"
    return Flag(key=f"no-plan.{rule}-{side}", level="block", scope=worst.row, values=values)
