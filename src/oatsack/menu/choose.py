"""Chooses a menu: from a request and an engine to portions, open bags, spare food, and the gap.

Four stages: price (one relaxed problem: the bound), build (a first plan from tables), complete (the
exact matrix says what it costs), improve (fix and choose anew). The engine is an argument.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import islice

from oatsack.errors import NoPlan
from oatsack.menu.decode import pools_of, portions_of
from oatsack.menu.first import TRIES, first_valid
from oatsack.menu.frame import Frame
from oatsack.menu.improve import State, improve
from oatsack.menu.price import Engine, Relaxed, price
from oatsack.menu.problem import build
from oatsack.menu.refuse import Give, clashes, flags_of
from oatsack.menu.reprice import matrix_of, rebuild
from oatsack.menu.spare import spare_of
from oatsack.menu.ways_out import MOST_TRIED, ways
from oatsack.values.flags import Flag
from oatsack.values.menu import Menu, MenuRequest, Portion
from oatsack.values.problem import Problem

Progress = Callable[[Menu], bool]
"""Is shown the best menu so far; False asks to stop."""

STEPS_PER_WORK = 30
EVERYDAY_GAP = 0.025
"""Nothing more is tried once a menu is proven this close, at the everyday amount of work."""
REBUILD_ROUNDS, REBUILD_LEAST = 3, 0.002
TRIES_FOR_A_WAY = 3
UNITS = {
    "energy-day": "kcal", "energy-trip": "kcal", "minutes": "min", "pot": "ml", "packs": "money",
    "container": "ml",
}  # fmt: skip
"""Unit in which a rule gives, as the name of a flag's value ends."""


def choose(request: MenuRequest, engine: Engine, *, progress: Progress | None = None) -> Menu:
    """The best menu found within the request's work. Raises NoPlan, with reasons and flags.

    `progress` is called with the first plan and after every improvement.
    """
    frame, problem = build(request)
    relaxed = price(frame, problem, engine)
    state, broken = _start(frame, problem, relaxed, engine)
    if state is None:
        raise _no_plan(request, frame, engine, broken or clashes(problem, engine))
    state.seed = request.seed

    def stop(now: State) -> bool:
        return progress is not None and progress(menu_of(now, "work")) is False

    ended = "stopped" if stop(state) or _rebuilt(state, engine, stop) else improve(
        state, engine, steps=STEPS_PER_WORK * request.budget_work, stop=stop,
        done_gap=EVERYDAY_GAP / request.budget_work,
    )  # fmt: skip
    return menu_of(state, ended)


def _rebuilt(state: State, engine: Engine, stop: Callable[[State], bool]) -> bool:
    """Rounds of rebuilding days while they help; True when it was stopped."""
    matrix = matrix_of(state.problem)
    for _ in range(REBUILD_ROUNDS):
        before = state.aim
        answer = (state.x, state.aim)
        state.x, state.aim = rebuild(state.frame, matrix, state.relaxed, engine, answer)
        if state.aim >= before - REBUILD_LEAST * abs(before):
            return False
        if stop(state):
            return True
    return False


def _start(
    frame: Frame, problem: Problem, relaxed: Relaxed, engine: Engine, tries: int = TRIES
) -> tuple[State | None, list[Give]]:
    """The first valid plan, or what its nearest try still breaks."""
    if not relaxed.fits:
        return None, []
    attempt = first_valid(frame, problem, relaxed, engine, tries=tries)
    if attempt.answer is None:
        return None, attempt.broken
    x, aim = attempt.answer
    state = State(frame=frame, problem=problem, relaxed=relaxed, x=x, aim=aim, bound=relaxed.bound)
    return state, []


def _no_plan(
    request: MenuRequest, frame: Frame, engine: Engine, gives: Sequence[Give]
) -> NoPlan:  # fmt: skip
    """The refusal, explained: what clashes, and the ways out that were tried and work."""
    flags = [*flags_of(gives, UNITS), *frame.given.flags]
    said: set[str] = set()
    for way in islice(ways(request, gives), MOST_TRIED):
        if way.flag.key in said:
            continue
        state = _attempt(way.request, engine)
        if state is not None:
            said.add(way.flag.key)
            mass = sum(food_g(state.frame, p) for p in portions_of(state.frame, state.x))
            flags.append(replace(way.flag, values={**way.flag.values, "mass_g": mass}))
    if not gives:
        flags.append(Flag(key="no-plan.unknown", level="block"))
    return NoPlan([flag.key for flag in flags], flags)


def _attempt(request: MenuRequest, engine: Engine) -> State | None:
    """A first valid plan of a request, or None."""
    frame, problem = build(request)
    relaxed = price(frame, problem, engine)
    return _start(frame, problem, relaxed, engine, TRIES_FOR_A_WAY)[0]


def food_g(frame: Frame, portion: Portion) -> float:
    """Mass of a portion with its wrapping [g]."""
    return portion.doses * frame.facts[portion.food].mass_g


def menu_of(state: State, ended: str) -> Menu:
    """The menu of an answer."""
    frame = state.frame
    return Menu(
        portions=portions_of(frame, state.x), pools=pools_of(frame, state.x),
        spare=spare_of(frame.request, frame), aim=state.aim, bound=min(state.bound, state.aim),
        ended=ended, flags=tuple(frame.given.flags),  # type: ignore[arg-type]
    )  # fmt: skip
