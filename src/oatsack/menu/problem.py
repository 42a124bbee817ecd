"""From the question to the exact matrix: columns of the frame, rows of rules, prices of aims.

There is one exact problem; sub-problems come from it by fixing and slicing only (`menu/structure`).
"""

from __future__ import annotations

from oatsack.menu.aims import AIMS
from oatsack.menu.frame import Frame, lay
from oatsack.menu.near import stay
from oatsack.menu.rules import RULES
from oatsack.values.menu import MenuRequest
from oatsack.values.problem import Problem


def build(request: MenuRequest, *, only: str | None = None) -> tuple[Frame, Problem]:
    """The frame and the exact problem of a request, or with one aim `only` ("" for none at all).

    Where aims are asked for in order, the first of them is the aim.
    """
    only = request.aims[0] if only is None and request.aims else only
    frame = lay(request)
    for rule in RULES:
        rule.rows(frame)
    for aim in AIMS:
        weight = aim.weight(frame) if only is None else float(aim.name == only)
        if weight:
            aim.add(frame, weight * aim.grams * scale_of(frame, aim.name))
    stay(frame)
    return frame, frame.builder.done()


def scale_of(frame: Frame, aim: str) -> float:
    """kg-days count their own days; every other aim is carried for the mean time."""
    return 1.0 if aim == "kg-days" else frame.mean_carry


def text_of(problem: Problem, *, only: str = "") -> str:
    """Rows as text, one a line; `only` keeps those whose name begins so."""
    return "\n".join(
        _row_text(problem, i) for i, name in enumerate(problem.rows) if name.startswith(only)
    )


def _row_text(problem: Problem, i: int) -> str:
    span = slice(problem.start[i], problem.start[i + 1])
    terms = " ".join(
        f"{value:+.6g} {problem.columns[column]}"
        for column, value in zip(problem.index[span], problem.value[span], strict=True)
    )
    low, high = problem.row_low[i], problem.row_high[i]
    left = "" if low == -float("inf") else f"{low:.6g} <= "
    right = "" if high == float("inf") else f" <= {high:.6g}"
    return f"{problem.rows[i]}: {left}{terms}{right}"
