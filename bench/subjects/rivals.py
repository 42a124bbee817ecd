"""Measures our search against whole-problem solvers given much longer: HiGHS, and CP-SAT.

Both get the one exact matrix and sixty seconds, ours ten (thirty for twelve walkers); a ratio of
aims of at most 1 means that ours was not worse. CP-SAT comes with ortools, which is no dependency:
where it is not installed, its rows say so. One thread each, for whoever plans has one machine.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from bench.instances import Instance, instance
from bench.watch import Watch
from oatsack.menu.choose import choose
from oatsack.menu.problem import build
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu
from oatsack.values.problem import Problem, Work, worst_breach

RIVAL_S = {False: 20.0, True: 60.0}
OURS_S = {"12x14": 30.0}
SUBSET = ("solo7-150-none-easy", "couple7-150-none-easy")
WHOLE_SET = (
    "solo3-150-none-easy", "solo7-150-none-easy", "solo7-60-none-easy", "solo7-400-none-easy",
    "solo7-150-half-easy", "solo7-150-none-tight", "couple7-150-none-easy",
    "couple7-150-half-easy", "4x10-150-none-easy", "4x10-150-none-tight", "12x14-150-none-easy",
    "150x25-150-none-easy",
)  # fmt: skip


def run(full: bool) -> list[dict[str, Any]]:
    """Rows of what, value, unit, bar and whether it holds."""
    return [row for name in (WHOLE_SET if full else SUBSET) for row in _rows(instance(name), full)]


def _rows(one: Instance, full: bool) -> list[dict[str, Any]]:
    ours = _ours(one)
    _, problem = build(one.request)
    out = [_row(one, "ours gap", ours.gap, None)]
    for rival, aim in (("HiGHS", _highs), ("CP-SAT", _cp_sat)):
        found = aim(problem, RIVAL_S[full])
        ratio = ours.aim / found if found else (math.nan if found is None else 0.0)
        out.append(_row(one, f"ours / {rival} after {RIVAL_S[full]:.0f} s", ratio, 1.0))
    return out


def _row(one: Instance, what: str, value: float, bar: float | None) -> dict[str, Any]:
    """A ratio of 0: the rival found nothing. Not a number: the rival is not installed."""
    holds = bar is None or math.isnan(value) or value <= bar + 1e-9
    return {"what": f"{one.name} {what}", "value": value, "unit": "", "bar": bar, "holds": holds}


def _ours(one: Instance) -> Menu:
    """Our best menu within its seconds, with the best bound that was proven."""
    limit = OURS_S.get(one.name.split("-")[0], 10.0)
    watch = Watch(limit)
    last = choose(replace(one.request, budget_work=8), solve, progress=watch)
    best = watch.best or last
    return replace(best, bound=max(best.bound, min(last.bound, best.aim)))


def _highs(problem: Problem, seconds: float) -> float:
    """The aim HiGHS reaches on the whole problem; 0 for nothing found."""
    answer = solve(problem, Work(nodes=10**9, seconds=seconds))
    return 0.0 if answer.x is None else answer.aim


def _cp_sat(problem: Problem, seconds: float) -> float | None:
    """The aim CP-SAT reaches on the whole problem; 0 for nothing found, None where it is not
    installed. An answer that breaks a row by more than a thousandth is none."""
    try:
        from ortools.linear_solver.python import model_builder as ortools
    except ImportError:
        return None
    model = ortools.Model()
    columns = [
        model.new_var(low, high, whole, "")
        for low, high, whole in zip(problem.low, problem.high, problem.integer, strict=True)
    ]
    for i in range(len(problem.rows)):
        span = slice(problem.start[i], problem.start[i + 1])
        terms = [columns[j] * v for j, v in zip(problem.index[span], problem.value[span],
                                                strict=True)]  # fmt: skip
        model.add_linear_constraint(
            ortools.LinearExpr.sum(terms), problem.row_low[i], problem.row_high[i]
        )
    model.minimize(
        ortools.LinearExpr.weighted_sum(columns, list(problem.cost), constant=problem.offset)
    )
    return _cp_sat_aim(ortools, model, columns, problem, seconds)


def _cp_sat_aim(ortools: Any, model: Any, columns: list[Any], problem: Problem,
                seconds: float) -> float:  # fmt: skip
    import numpy as np

    solver = ortools.Solver("sat")
    solver.set_time_limit_in_seconds(seconds)
    solver.set_solver_specific_parameters("num_workers:1")
    status = solver.solve(model)
    if status not in (ortools.SolveStatus.OPTIMAL, ortools.SolveStatus.FEASIBLE):
        return 0.0
    x = np.array([solver.value(column) for column in columns])
    return float(solver.objective_value) if worst_breach(problem, x) < 1e-3 else 0.0
