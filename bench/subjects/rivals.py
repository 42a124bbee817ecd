"""Measures our search against whole-problem solvers given much longer: HiGHS, and CP-SAT.

Both get the one exact matrix and sixty seconds, ours ten (thirty for twelve walkers); a ratio of
aims of at most 1 means that ours was not worse. CP-SAT comes with ortools, which is no dependency:
where it is not installed, its rows say so. Ours and CP-SAT work with two threads, HiGHS, whose
search is of one, with one.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from bench.instances import Instance, full_set, instance
from bench.subjects.menu import WORK
from bench.watch import Watch, all_quiet
from oatsack.menu.choose import choose
from oatsack.menu.frame import Frame
from oatsack.menu.near import answer_of
from oatsack.menu.problem import build
from oatsack.menu.structure import completed
from oatsack.solve.highs import solve
from oatsack.values.problem import Problem, Work, worst_breach

RIVAL_S = {False: 20.0, True: 60.0}
OURS_S = {"12x14": 30.0}
SUBSET = ("solo7-150-none-easy", "couple7-150-none-easy")


def run(full: bool) -> list[dict[str, Any]]:
    """Rows of what, value, unit, bar and whether it holds."""
    names = [name for name in full_set() if not name.endswith("impossible")] if full else SUBSET
    return [row for name in names for row in _rows(instance(name), full)]


def _rows(one: Instance, full: bool) -> list[dict[str, Any]]:
    frame, problem = build(one.request)
    ours, proven = _ours(one, frame, problem)
    out = [_row(one, "ours", ours, None), _row(one, "ours gap", (ours - proven) / ours, None)]
    for rival, aim in (("HiGHS", _highs), ("CP-SAT", _cp_sat)):
        found = aim(problem, RIVAL_S[full])
        ratio = ours / found if found else (math.nan if found is None else 0.0)
        out.append(_row(one, f"ours / {rival} after {RIVAL_S[full]:.0f} s", ratio, 1.0))
    return out


def _row(one: Instance, what: str, value: float, bar: float | None) -> dict[str, Any]:
    """A ratio of 0: the rival found nothing. Not a number: the rival is not installed."""
    holds = bar is None or math.isnan(value) or value <= bar + 1e-9
    return {"what": f"{one.name} {what}", "value": value, "unit": "", "bar": bar, "holds": holds}


def _ours(one: Instance, frame: Frame, problem: Problem) -> tuple[float, float]:
    """The aim of our best menu within its seconds, and the best bound that was proven. What is
    chosen leg by leg is weighed on the one matrix of all legs, as its rivals are."""
    all_quiet()
    watch = Watch(OURS_S.get(one.name.split("-")[0], 10.0))
    last = choose(replace(one.request, budget_work=WORK), solve, progress=watch)
    if len({slot.leg for slot in one.request.slots}) > 1:
        done = completed(problem, solve, answer_of(frame, problem, last))
        return math.nan if done is None else done[1], last.bound
    best = watch.best or last
    return best.aim, min(max(best.bound, last.bound), best.aim)


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
    solver.set_solver_specific_parameters("num_workers:2")
    status = solver.solve(model)
    if status not in (ortools.SolveStatus.OPTIMAL, ortools.SolveStatus.FEASIBLE):
        return 0.0
    x = np.array([solver.value(column) for column in columns])
    return float(solver.objective_value) if worst_breach(problem, x) < 1e-3 else 0.0
