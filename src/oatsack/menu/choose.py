"""Chooses a menu: from a request and an engine to portions, open bags, spare food, and the gap."""

from __future__ import annotations

from collections.abc import Callable

from oatsack.errors import NoPlan
from oatsack.menu.decode import pools_of, portions_of
from oatsack.menu.problem import build
from oatsack.menu.spare import spare_of
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.problem import Answer, Problem, Work

Engine = Callable[[Problem, Work], Answer]


def choose(
    request: MenuRequest, engine: Engine, *, progress: Callable[[Menu], bool] | None = None
) -> Menu:
    """The best menu found. Raises NoPlan with reasons when nothing fits."""
    frame, problem = build(request)
    work = Work(nodes=2000 * request.budget_work, seconds=20.0, gap_rel=0.01, seed=request.seed)
    answer = engine(problem, work)
    if answer.x is None:
        raise NoPlan([f"no menu fits ({answer.status})"])
    return Menu(
        portions=portions_of(frame, answer.x), pools=pools_of(frame, answer.x),
        spare=spare_of(request, frame), aim=answer.aim, bound=answer.bound,
        flags=tuple(frame.given.flags),
    )  # fmt: skip
