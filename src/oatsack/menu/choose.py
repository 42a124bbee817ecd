"""Chooses a menu: from a request and an engine to portions, open bags, spare food, and the gap.

Four stages: price (one relaxed problem: the bound), build (a first plan from tables), complete (the
exact matrix says what it costs), improve (fix and choose anew). The engine is an argument.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import islice

from oatsack.errors import NoPlan
from oatsack.menu import legs
from oatsack.menu.bound import proven
from oatsack.menu.decode import pools_of, portions_of
from oatsack.menu.first import TRIES, broken_by, first_valid
from oatsack.menu.frame import Frame, lay
from oatsack.menu.improve import Neighbourhoods, State, improve
from oatsack.menu.near import answer_of, days_to_free, moved
from oatsack.menu.price import Engine, Relaxed, price
from oatsack.menu.problem import build
from oatsack.menu.refuse import Give, clashes, flags_of
from oatsack.menu.reprice import matrix_of, rebuild
from oatsack.menu.spare import spare_of
from oatsack.menu.structure import completed, fixed_outside
from oatsack.menu.tidy import tidy
from oatsack.menu.ways_out import MOST_TRIED, ways
from oatsack.values.flags import Flag
from oatsack.values.menu import Menu, MenuRequest, Portion
from oatsack.values.problem import Problem, Work

Progress = Callable[[Menu], bool]
"""Is shown the best menu so far; False asks to stop."""

STEPS_PER_WORK, STEPS_NEAR = 8, 6
EVERYDAY_GAP = 0.04
"""Nothing more is tried once a menu is proven this close, at the everyday amount of work."""
REBUILD_ROUNDS, REBUILD_LEAST = 3, 0.002
TRIES_FOR_A_WAY = 3
DAYS_PROVED = 42
"""Up to so many walker-days the bound is proven better at the everyday amount of work; ours."""
SOLVED_WHOLE, SMALL_NODES = 120, 250
"""Up to so many whole-number columns the engine takes the whole problem; ours."""
UNITS = {
    "energy-day": "kcal", "energy-trip": "kcal", "minutes": "min", "pot": "ml", "packs": "money",
    "container": "ml",
}  # fmt: skip
"""Unit in which a rule gives, as the name of a flag's value ends."""


def choose(request: MenuRequest, engine: Engine, *, progress: Progress | None = None) -> Menu:
    """The best menu found within the request's work. Raises NoPlan, with reasons and flags.

    `progress` is called with the first plan and after every improvement. Legs are chosen apart
    where they share nothing, and legs that ask the same are chosen once.
    """
    if not legs.can_part(request):
        return _choose_whole(request, engine, progress)
    known: dict[object, tuple[int, Menu]] = {}
    parts, used = [], dict[str, float]()
    for leg in legs.leg_numbers(request):
        asked = legs.leg_request(request, leg, used)
        first, like = legs.first_day(asked.slots), legs.likeness(asked)
        if like not in known or request.near is not None:
            known[like] = (first, _choose_whole(asked, engine, progress))
        at, menu = known[like]
        parts.append(legs.shifted(menu, first - at))
        for name, packs in legs.stock_used(asked, parts[-1]).items():
            used[name] = used.get(name, 0.0) + packs
    return legs.joined(parts, spare_of(request, lay(request)))


def _choose_whole(request: MenuRequest, engine: Engine, progress: Progress | None) -> Menu:
    frame, problem = build(request)
    relaxed = price(frame, problem, engine)
    if relaxed.fits and problem.integer.sum() <= SOLVED_WHOLE:
        whole = engine(problem, Work(nodes=SMALL_NODES, gap_abs=1e-6, seed=request.seed))
        if whole.x is not None and whole.status == "optimal":
            state = State(frame=frame, problem=problem, relaxed=relaxed, x=whole.x, aim=whole.aim,
                          bound=whole.bound)  # fmt: skip
            if progress is not None:
                progress(menu_of(state, whole.ended))
            return menu_of(state, whole.ended)
    start, broken = _start(frame, problem, relaxed, engine)
    if start is None:
        raise _no_plan(request, frame, engine, broken or clashes(problem, engine))
    return _bettered(start, engine, progress)


def _bettered(state: State, engine: Engine, progress: Progress | None) -> Menu:
    """The menu after as much improving as the request allows."""
    request = state.frame.request
    state.seed = request.seed

    def stop(now: State) -> bool:
        return progress is not None and progress(menu_of(now, "work")) is False

    steps = request.budget_work * (STEPS_NEAR if request.near else STEPS_PER_WORK)
    if stop(state) or (request.near is None and _rebuilt(state, engine, stop)):
        return menu_of(state, "stopped")
    gap = EVERYDAY_GAP / request.budget_work
    days = len(state.frame.day_keys)
    proves = request.near is None and days <= DAYS_PROVED * request.budget_work
    if proves and state.aim - state.bound > gap * abs(state.aim):
        state.bound = max(state.bound, proven(state.frame, state.problem, state.relaxed, engine))
    ended = improve(state, engine, steps=steps, done_gap=gap, stop=stop)
    if request.near is None and ended != "stopped":
        tidy(state, engine)
    return menu_of(state, ended)


def _rebuilt(state: State, engine: Engine, stop: Callable[[State], bool]) -> bool:
    """Rounds of rebuilding days while they help; True when it was stopped."""
    matrix = matrix_of(state.problem)
    for _ in range(REBUILD_ROUNDS):
        before = state.aim
        answer = (state.x, state.aim)
        state.x, state.aim = rebuild(state.frame, matrix, state.relaxed, engine, answer)
        if state.aim < before and stop(state):
            return True
        if state.aim >= before - REBUILD_LEAST * abs(before):
            return False
    return False


def _start(
    frame: Frame, problem: Problem, relaxed: Relaxed, engine: Engine, tries: int = TRIES
) -> tuple[State | None, list[Give]]:
    """The first valid plan, or what its nearest try still breaks."""
    if not relaxed.fits:
        return None, []
    if frame.request.near is not None:
        kept = _from_near(frame, problem, relaxed, engine, frame.request.near)
        if kept is not None:
            return kept, []
    attempt = first_valid(frame, problem, relaxed, engine, tries=tries)
    if attempt.answer is None:
        return None, attempt.broken
    x, aim = attempt.answer
    state = State(frame=frame, problem=problem, relaxed=relaxed, x=x, aim=aim, bound=relaxed.bound)
    return state, []


def _from_near(
    frame: Frame, problem: Problem, relaxed: Relaxed, engine: Engine, near: Menu
) -> State | None:
    """The earlier menu where it still holds; else with the days that break chosen anew."""
    x = answer_of(frame, problem, near)
    done = completed(problem, engine, x)
    state = State(frame=frame, problem=problem, relaxed=relaxed, x=x, aim=math.inf,
                  bound=relaxed.bound)  # fmt: skip
    if done is None:
        days = days_to_free(frame, broken_by(problem, engine, x))
        free = Neighbourhoods(state).days(days, dinners=True)
        part, numbers = fixed_outside(problem, free, x)
        answer = engine(part, Work(nodes=60, seconds=3.0, gap_rel=0.01))
        if answer.x is None:
            return None
        x[numbers] = answer.x
        done = completed(problem, engine, x)
    if done is None:
        return None
    state.x, state.aim = done
    return state


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
    frame, near = state.frame, state.frame.request.near
    portions = portions_of(frame, state.x)
    return Menu(
        portions=portions, pools=pools_of(frame, state.x),
        moved=None if near is None else moved(near, portions),
        spare=spare_of(frame.request, frame), aim=state.aim, bound=min(state.bound, state.aim),
        ended=ended, flags=tuple(frame.given.flags),  # type: ignore[arg-type]
    )  # fmt: skip
