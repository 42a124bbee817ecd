"""Measures the menu chooser: first plan, gap, edits, refusals, and HiGHS on the whole problem.

Times are wall-clock seconds and only mean something on a quiet machine; ratios decide. CP-SAT is
compared where ortools happens to be installed; it is no dependency.
"""

from __future__ import annotations

import random
import resource
import statistics
import time
from dataclasses import replace
from typing import Any

from bench.instances import Instance, instances
from oatsack.errors import NoPlan
from oatsack.menu.choose import choose
from oatsack.menu.problem import build
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.problem import Work
from oatsack.values.trip import Hold

WATCH_S = {"12x14": 30.0}
"""Seconds after which ours is compared; 10 elsewhere."""
WHOLE_S = {False: 20.0, True: 60.0}
WHOLE_UP_TO = 20_000
"""Columns up to which HiGHS is given the whole problem in the subset."""
EDITS = {False: 10, True: 50}


FIRST_S = {"solo7": 0.5, "couple7": 1.0, "4x10": 2.0, "12x14": 10.0, "150x25": 20.0}
GAP = {"solo7": 0.02, "couple7": 0.03, "4x10": 0.03}
EDIT_S = {"solo7": (0.3, 1.0), "4x10": (1.0, 3.0)}
REFUSAL_S = {"solo7": 1.0, "4x10": 3.0}
MEMORY_MB = 400.0


def run(full: bool) -> list[dict[str, Any]]:
    """Rows of what, value, unit, bar and whether it holds, for every question of the set."""
    return [row for one in instances(full=full) for row in told(row_of(one, full=full))]


def told(row: dict[str, Any]) -> list[dict[str, Any]]:
    """The measurements of one question as rows with their bars."""
    name = row["instance"]
    party = name.split("-")[0]
    median, worst = EDIT_S.get(party, (None, None))
    wanted = (
        ("first_s", "s", FIRST_S.get(party)), ("first_gap", "", None), ("gap", "", GAP.get(party)),
        ("ratio", "", 1.0), ("edit_median_s", "s", median), ("edit_worst_s", "s", worst),
        ("edit_moved", "", None), ("refused_s", "s", REFUSAL_S.get(party)),
        ("columns", "", None), ("memory_mb", "MB", MEMORY_MB),
    )  # fmt: skip
    return [
        {"what": f"{name} {key}", "value": row[key], "unit": unit, "bar": bar,
         "holds": bar is None or row[key] <= bar}
        for key, unit, bar in wanted if row.get(key) is not None
    ]  # fmt: skip


def row_of(one: Instance, *, full: bool) -> dict[str, Any]:
    """The measurements of one question."""
    row: dict[str, Any] = {"instance": one.name}
    watch = _Watch(WATCH_S.get(one.name.split("-")[0], 10.0))
    try:
        menu = choose(replace(one.request, budget_work=8), solve, progress=watch)
    except NoPlan as refused:
        seconds = round(time.perf_counter() - watch.begin, 2)
        said = [f.key for f in refused.flags if f.key.startswith(("no-plan", "way-out"))]
        return row | {"refused_s": seconds, "said": said, "memory_mb": _memory()}
    row |= {"first_s": watch.first_s, "first_gap": watch.first_gap, "seconds": watch.seconds(),
            "aim": round(menu.aim, 1), "gap": round(menu.gap, 4)}  # fmt: skip
    row |= _whole(one.request, menu, full=full)
    if one.name.startswith(("solo7-150-none-easy", "4x10-150-none-easy")):
        row |= _edits(one.request, menu, EDITS[full])
    return row | {"memory_mb": _memory()}


class _Watch:
    """Remembers the first plan and stops after so many seconds."""

    def __init__(self, limit_s: float) -> None:
        self.begin = time.perf_counter()
        self.limit_s = limit_s
        self.first_s: float | None = None
        self.first_gap: float | None = None

    def __call__(self, menu: Menu) -> bool:
        if self.first_s is None:
            self.first_s = self.seconds()
            self.first_gap = round(menu.gap, 4)
        return time.perf_counter() - self.begin < self.limit_s

    def seconds(self) -> float:
        return round(time.perf_counter() - self.begin, 2)


def _whole(request: MenuRequest, menu: Menu, *, full: bool) -> dict[str, Any]:
    """HiGHS on the whole exact problem for so many seconds, and the ratio of the aims."""
    _, problem = build(request)
    out: dict[str, Any] = {"columns": len(problem.columns), "rows": len(problem.rows)}
    if len(problem.columns) > WHOLE_UP_TO and not full:
        return out
    limit = WHOLE_S[full]
    answer = solve(problem, Work(nodes=10**9, seconds=limit))
    if answer.x is None:
        return out | {"highs_aim": "none found", "highs_s": limit}
    ratio = round(menu.aim / answer.aim, 4)
    return out | {"highs_aim": round(answer.aim, 1), "highs_s": limit, "ratio": ratio}


def _edits(request: MenuRequest, menu: Menu, count: int) -> dict[str, Any]:
    """Random bans of chosen portions, each solved near the menu."""
    dice = random.Random(7)
    chosen = [p for p in menu.portions if p.why == "chosen"]
    dates = {s.day: s.date for s in request.slots}
    seconds, moves = [], []
    for p in dice.sample(chosen, min(count, len(chosen))):
        ban = Hold(food=p.food, walker=p.walker, date=dates[p.day], meal=p.meal, count=0)
        asked = replace(request, near=menu, rules=replace(request.rules, holds=(ban,)))
        begin = time.perf_counter()
        moves.append(choose(asked, solve).moved or 0)
        seconds.append(time.perf_counter() - begin)
    return {
        "edit_median_s": round(statistics.median(seconds), 2),
        "edit_worst_s": round(max(seconds), 2),
        "edit_moved": statistics.median(moves),
    }


def _memory() -> int:
    """Most memory of this process so far [MB]."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
