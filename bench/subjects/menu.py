"""Measures the menu chooser: first plan, gap, edits and refusals. `rivals` compares it with others.

Bars are held in wall-clock seconds, which only mean something on a quiet machine, and beside them
in CPU seconds. The search is stopped after ten seconds, thirty with twelve walkers.
"""

from __future__ import annotations

import random
import resource
import statistics
import time
from contextlib import suppress
from dataclasses import replace
from typing import Any

from bench.instances import Instance, instances
from bench.watch import Watch, all_quiet
from oatsack.errors import NoPlan
from oatsack.menu.choose import choose
from oatsack.menu.problem import build
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu, MenuRequest, Portion
from oatsack.values.trip import Hold

WATCH_S = {"12x14": 30.0}
"""Seconds after which ours is stopped; 10 elsewhere."""
WORK = 16
"""More work than the seconds allow, so that they end the search and not the work."""
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
        ("gap", "", GAP.get(party)), ("ended_s", "s", None), ("ended_cpu_s", "s", None),
        ("edit_median_s", "s", median), ("edit_worst_s", "s", worst),
        ("edit_median_cpu_s", "s", median), ("edit_worst_cpu_s", "s", worst),
        ("edit_moved", "", None), ("edits_refused", "", None),
        ("refused_s", "s", REFUSAL_S.get(party)), ("refused_cpu_s", "s", REFUSAL_S.get(party)),
        ("ways_out", "", None), ("columns", "", None), ("memory_mb", "MB", MEMORY_MB),
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
    all_quiet()
    watch = Watch(WATCH_S.get(party, 10.0))
    try:
        menu = choose(replace(one.request, budget_work=WORK), solve, progress=watch)
    except NoPlan as refused:
        ways = sum(1 for f in refused.flags if f.key.startswith("way-out"))
        return row | {"refused_s": watch.seconds(), "refused_cpu_s": watch.cpu(), "ways_out": ways,
                      "memory_mb": _memory()}  # fmt: skip
    row |= {"first_s": watch.first_s, "first_cpu_s": watch.first_cpu_s,
            "first_gap": None if watch.first is None else round(watch.first.gap, 4),
            "gap": round(menu.gap, 4), "ended_s": watch.seconds(), "ended_cpu_s": watch.cpu(),
            "columns": len(build(one.request)[1].columns)}  # fmt: skip
    if one.name in ("solo7-150-none-easy", "4x10-150-none-easy"):
        row |= _edits(one.request, menu, EDITS[full][party])
    return row | {"memory_mb": _memory()}


def _edits(request: MenuRequest, menu: Menu, count: int) -> dict[str, Any]:
    """Random edits, each solved near the menu: a food forbidden at its meal, another held in its
    place, or a day that is to bring more or less."""
    dice = random.Random(7)
    chosen = [p for p in menu.portions if p.why == "chosen"]
    seconds, cpu, moves = [], [], []
    for n, p in enumerate(dice.sample(chosen, min(count, len(chosen)))):
        asked = replace(_edited(request, menu, p, n, dice), near=menu)
        all_quiet()
        begin, begin_cpu = time.perf_counter(), time.process_time()
        with suppress(NoPlan):  # an edit may ask for what cannot be: to say so takes time as well
            moves.append(choose(asked, solve).moved or 0)
        seconds.append(time.perf_counter() - begin)
        cpu.append(time.process_time() - begin_cpu)
    return {
        "edit_median_s": round(statistics.median(seconds), 2),
        "edit_worst_s": round(max(seconds), 2),
        "edit_median_cpu_s": round(statistics.median(cpu), 2),
        "edit_worst_cpu_s": round(max(cpu), 2),
        "edit_moved": statistics.median(moves),
        "edits_refused": len(seconds) - len(moves),
    }


def _edited(
    request: MenuRequest, menu: Menu, p: Portion, n: int, dice: random.Random
) -> MenuRequest:  # fmt: skip
    """The request with one edit at this portion; half of them forbid its food."""
    if n % 4 == 3:
        target = {w: dict(by_day) for w, by_day in request.target_kcal.items()}
        target[p.walker][p.day] *= dice.choice((0.93, 1.07))
        return replace(request, target_kcal=target)
    dates = {s.day: s.date for s in request.slots}
    at = {"walker": p.walker, "date": dates[p.day], "meal": p.meal}
    holds = [Hold(food=p.food, count=0, **at)]  # type: ignore[arg-type]
    others = [q for q in menu.portions if q.why == "chosen" and q.food != p.food
              and (q.walker, q.meal) == (p.walker, p.meal) and q.day != p.day]  # fmt: skip
    if n % 4 == 1 and others:
        other = dice.choice(others)
        holds.append(Hold(food=other.food, count=other.doses, **at))  # type: ignore[arg-type]
    return replace(request, rules=replace(request.rules, holds=tuple(holds)))


def _memory() -> int:
    """Most memory of this process so far [MB]."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
