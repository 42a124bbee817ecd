"""HiGHS as the engine: a Problem in, an Answer out. Nodes decide, the clock is only a net.

The banner never reaches standard output, one thread is used, and a seed makes runs repeatable.
While it works it asks now and then whether that is enough (`Work.halt`), also inside a root node.
The menu's own parts never import this file: the solver is handed to them as a function.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import highspy
import numpy as np

from oatsack.errors import SolverFailed
from oatsack.values.problem import Answer, Problem, Work, aim_of

_ENDED = {
    highspy.HighsModelStatus.kOptimal: "proved",
    highspy.HighsModelStatus.kInfeasible: "proved",
    highspy.HighsModelStatus.kUnbounded: "proved",
    highspy.HighsModelStatus.kUnboundedOrInfeasible: "proved",
    highspy.HighsModelStatus.kTimeLimit: "clock",
    highspy.HighsModelStatus.kSolutionLimit: "work",
    highspy.HighsModelStatus.kIterationLimit: "work",
    highspy.HighsModelStatus.kInterrupt: "stopped",
}
_INFEASIBLE = (
    highspy.HighsModelStatus.kInfeasible,
    highspy.HighsModelStatus.kUnboundedOrInfeasible,
)


_ASKED = (
    highspy.cb.HighsCallbackType.kCallbackSimplexInterrupt,
    highspy.cb.HighsCallbackType.kCallbackIpmInterrupt,
    highspy.cb.HighsCallbackType.kCallbackMipInterrupt,
)
"""Moments at which the engine can be told that it is enough."""
_SEARCHING = ("feasibility_jump", "rins", "rens", "root_reduced_cost")
"""Ways of the engine to look for answers; none of them proves anything."""


class _Quiet(highspy.Highs):
    """An engine without a voice: hooking up callbacks is what makes it print its banner, so that
    it is silenced first, and hooked up only where somebody wants to be asked."""

    def enableCallbacks(self) -> None:
        """Silences the engine instead."""
        self.silent()

    def ask(self, halt: Callable[[float], bool]) -> None:
        """Asks while it works, with the bound so far, whether that is enough."""

        def asked(kind: Any, _: str, told: Any, answer: Any, __: Any) -> None:
            whole = kind == highspy.cb.HighsCallbackType.kCallbackMipInterrupt
            if halt(float(told.mip_dual_bound) if whole else -np.inf):
                answer.user_interrupt = True

        super(highspy.Highs, self).setCallback(asked, None)
        for kind in _ASKED:
            self.startCallback(kind)


def solve(problem: Problem, work: Work) -> Answer:
    """The best answer found within the work allowed. Raises SolverFailed on an engine error.

    Without whole-number columns the answer carries duals and reduced costs.
    """
    if not problem.columns:
        return _empty(problem)
    engine: Any = _Quiet()  # type: ignore[no-untyped-call]
    _options(engine, problem, work)
    if engine.passModel(_model(problem)) == highspy.HighsStatus.kError:
        raise SolverFailed("the engine refused the problem")
    if work.hint is not None:
        _hint(engine, work.hint)
    if work.halt is not None:
        engine.ask(work.halt)
    engine.run()
    return _answer(engine, problem)


def _empty(problem: Problem) -> Answer:
    fits = bool(np.all(problem.row_low <= 1e-9) and np.all(problem.row_high >= -1e-9))
    status = "optimal" if fits else "infeasible"
    x = np.zeros(0) if fits else None
    return Answer(status=status, x=x, aim=problem.offset, bound=problem.offset)


def _options(engine: Any, problem: Problem, work: Work) -> None:
    values: dict[str, Any] = {
        "output_flag": False, "log_to_console": False, "threads": 1, "random_seed": work.seed,
        "mip_max_nodes": work.nodes, "time_limit": work.seconds, "mip_rel_gap": work.gap_rel,
        "mip_abs_gap": max(work.gap_abs, 1e-6), "mip_feasibility_tolerance": 1e-7,
    }  # fmt: skip
    if not problem.integer.any():
        values["presolve"] = "off"  # measured: a third quicker without
    if work.prove:
        values |= {f"mip_heuristic_run_{name}": False for name in _SEARCHING}
        values |= {"mip_heuristic_effort": 0.0, "mip_allow_restart": False}
    for name, value in values.items():
        engine.setOptionValue(name, value)


def _model(problem: Problem) -> Any:
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(problem.columns), len(problem.rows)
    lp.col_cost_, lp.offset_ = problem.cost, problem.offset
    lp.col_lower_, lp.col_upper_ = problem.low, problem.high
    lp.row_lower_, lp.row_upper_ = problem.row_low, problem.row_high
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.num_col_, lp.a_matrix_.num_row_ = lp.num_col_, lp.num_row_
    lp.a_matrix_.start_ = problem.start.astype(np.int32)
    lp.a_matrix_.index_ = problem.index.astype(np.int32)
    lp.a_matrix_.value_ = problem.value
    if problem.integer.any():
        kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
        lp.integrality_ = [kinds[int(whole)] for whole in problem.integer]
    return lp


def _hint(engine: Any, hint: Any) -> None:
    solution = highspy.HighsSolution()
    solution.col_value = list(hint)
    engine.setSolution(solution)


def _answer(engine: Any, problem: Problem) -> Answer:
    status, info = engine.getModelStatus(), engine.getInfo()
    ended = _ENDED.get(status)
    if ended is None:
        raise SolverFailed(f"the engine stopped with {engine.modelStatusToString(status)}")
    if status in _INFEASIBLE:
        return Answer(status="infeasible", x=None, aim=np.inf, bound=np.inf)
    if status == highspy.HighsModelStatus.kUnbounded:
        return Answer(status="unbounded", x=None, aim=-np.inf, bound=-np.inf)
    whole = bool(problem.integer.any())
    bound = float(info.mip_dual_bound) if whole else float(info.objective_function_value)
    solution = engine.getSolution()
    if not solution.value_valid or info.primal_solution_status != 2:
        return Answer(status="nothing", x=None, aim=np.inf, bound=bound, ended=ended)
    x = np.array(solution.col_value, float)
    x[problem.integer] = np.round(x[problem.integer])
    lp_only = not whole and solution.dual_valid
    return Answer(
        status="optimal" if ended == "proved" else "feasible", x=x,
        aim=aim_of(problem, x), bound=bound, ended=ended,
        duals=np.array(solution.row_dual, float) if lp_only else None,
        reduced=np.array(solution.col_dual, float) if lp_only else None,
        nodes=int(max(0, info.mip_node_count)),
    )  # fmt: skip
