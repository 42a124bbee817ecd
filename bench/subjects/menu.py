"""Measures the menu chooser: first plan, gap, edits and refusals. `rivals` compares it with others.

Bars are held in wall-clock seconds, which only mean something on a quiet machine, and beside them
in CPU seconds. The search is stopped after so many CPU seconds.
"""

from __future__ import annotations

import random
import resource
import statistics
import time
from dataclasses import replace
from typing import Any

from bench.instances import Instance, instances
from bench.watch import Watch
from oatsack.errors import NoPlan
from oatsack.menu.choose import choose
from oatsack.menu.problem import build
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.trip import Hold

WATCH_S = {"12x14": 30.0}
"""CPU seconds after which ours is stopped; 10 elsewhere."""
EDITS = {False: {"solo7": 50, "4x10": 15}, True: {"solo7": 50, "4x10": 50}}
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
        ("first_s", "s", FIRST_S.get(party)), ("first_cpu_s", "s", FIRST_S.get(party)),
        ("first_gap", "", None),
        ("gap", "", GAP.get(party)), ("ended_cpu_s", "s", None),
        ("edit_median_s", "s", median), ("edit_worst_s", "s", worst),
        ("edit_median_cpu_s", "s", median), ("edit_worst_cpu_s", "s", worst),
        ("edit_moved", "", None), ("refused_s", "s", REFUSAL_S.get(party)),
        ("refused_cpu_s", "s", REFUSAL_S.get(party)), ("ways_out", "", None), ("columns", "", None),
        ("memory_mb", "MB", MEMORY_MB),
    )  # fmt: skip
    return [
        {"what": f"{name} {key}", "value": row[key], "unit": unit, "bar": bar,
         "holds": bar is None or row[key] <= bar}
        for key, unit, bar in wanted if row.get(key) is not None
    ]  # fmt: skip


def row_of(one: Instance, *, full: bool) -> dict[str, Any]:
    """The measurements of one question."""
    row: dict[str, Any] = {"instance": one.name}
    party = one.name.split("-")[0]
    watch = Watch(WATCH_S.get(party, 10.0), by_cpu=True)
    try:
        menu = choose(replace(one.request, budget_work=8), solve, progress=watch)
    except NoPlan as refused:
        ways = sum(1 for f in refused.flags if f.key.startswith("way-out"))
        return row | {"refused_s": watch.seconds(), "refused_cpu_s": watch.cpu(), "ways_out": ways,
                      "memory_mb": _memory()}  # fmt: skip
    row |= {"first_s": watch.first_s, "first_cpu_s": watch.first_cpu_s,
            "first_gap": None if watch.first is None else round(watch.first.gap, 4),
            "gap": round(menu.gap, 4), "ended_cpu_s": watch.cpu(),
            "columns": len(build(one.request)[1].columns)}  # fmt: skip
    if one.name in ("solo7-150-none-easy", "4x10-150-none-easy"):
        row |= _edits(one.request, menu, EDITS[full][party])
    return row | {"memory_mb": _memory()}


def _edits(request: MenuRequest, menu: Menu, count: int) -> dict[str, Any]:
    """Random bans of chosen portions, each solved near the menu."""
    dice = random.Random(7)
    chosen = [p for p in menu.portions if p.why == "chosen"]
    dates = {s.day: s.date for s in request.slots}
    seconds, cpu, moves = [], [], []
    for p in dice.sample(chosen, min(count, len(chosen))):
        ban = Hold(food=p.food, walker=p.walker, date=dates[p.day], meal=p.meal, count=0)
        asked = replace(request, near=menu, rules=replace(request.rules, holds=(ban,)))
        begin, begin_cpu = time.perf_counter(), time.process_time()
        moves.append(choose(asked, solve).moved or 0)
        seconds.append(time.perf_counter() - begin)
        cpu.append(time.process_time() - begin_cpu)
    return {
        "edit_median_s": round(statistics.median(seconds), 2),
        "edit_worst_s": round(max(seconds), 2),
        "edit_median_cpu_s": round(statistics.median(cpu), 2),
        "edit_worst_cpu_s": round(max(cpu), 2),
        "edit_moved": statistics.median(moves),
    }


def _memory() -> int:
    """Most memory of this process so far [MB]."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
