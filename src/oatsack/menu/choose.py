"""Chooses a menu: from a request and an engine to portions, open bags, spare food, and the gap.

Four stages: price (one relaxed problem: the bound), build (a first plan from tables), complete (the
exact matrix says what it costs), improve (fix and choose anew). The engine is an argument.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from oatsack.errors import NoPlan
from oatsack.menu import legs, purse
from oatsack.menu.beside import binding
from oatsack.menu.bound import proven
from oatsack.menu.decode import pools_of, portions_of
from oatsack.menu.frame import lay
from oatsack.menu.improve import STEPS_PER_WORK, State, Stop, improve
from oatsack.menu.lanes import Clocked
from oatsack.menu.long import searched_long
from oatsack.menu.near import moved
from oatsack.menu.no_plan import no_plan
from oatsack.menu.order import blended_far, in_order, proved_whole
from oatsack.menu.price import Engine, price
from oatsack.menu.problem import build
from oatsack.menu.refuse import clash
from oatsack.menu.reprice import matrix_of, rebuild
from oatsack.menu.spare import spare_of
from oatsack.menu.start import start
from oatsack.menu.tidy import tidy
from oatsack.values.flags import Flag
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.problem import Work, aim_of

Progress = Callable[[Menu], bool]
"""Is shown the best menu so far, again and again while nothing betters it; False asks to stop."""

STEPS_NEAR = 6
EVERYDAY_GAP = 0.04
"""Nothing more is tried once a menu is proven this close, at the everyday amount of work."""
REBUILD_ROUNDS, REBUILD_LEAST = 3, 0.002
DAYS_PROVED = 42
"""Up to so many walker-days the bound is proven better at the everyday amount of work; ours."""
LONG_WORK = 4
"""From so much work on the proof goes on beside the search, and all steps are taken; ours."""
SOLVED_WHOLE, SMALL_NODES = 120, 250
"""Up to so many whole-number columns the engine takes the whole problem; ours."""


def choose(request: MenuRequest, engine: Engine, *, progress: Progress | None = None) -> Menu:
    """The best menu found within the request's work. Raises NoPlan, with reasons and flags.

    `progress` is called with the first plan, after every step and while one is at work. Legs are
    chosen apart where they share nothing but a budget, and legs that ask the same are chosen once.
    A clock that ended any part of the work is told: the same question may then be answered
    otherwise another time.
    """
    clocked = Clocked(engine)
    try:
        menu = _chosen(request, clocked, progress)
    except NoPlan as refused:
        raise NoPlan(refused.reasons, [*refused.flags, *_ran_out(clocked)]) from None
    if not clocked.fired:
        return menu
    ended = "clock" if menu.ended == "work" else menu.ended
    return replace(menu, ended=ended, flags=(*menu.flags, *_ran_out(clocked)))


def _ran_out(engine: Clocked) -> list[Flag]:
    times = len(engine.fired)
    return [Flag(key="menu.clock", level="quiet", values={"n_times": times})] if times else []


def _chosen(request: MenuRequest, engine: Engine, progress: Progress | None) -> Menu:
    if legs.can_part(request):
        return _choose_legs(request, engine, progress)
    if purse.apart(request):
        return purse.within_budget(
            request, engine, lambda asked: _choose_legs(asked, engine, progress)
        )
    return _choose_whole(request, engine, progress)


def _choose_legs(request: MenuRequest, engine: Engine, progress: Progress | None) -> Menu:
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
            state = _then(state, engine)
            if progress is not None:
                progress(menu_of(state, whole.ended))
            return menu_of(state, whole.ended)
    begun, broken = start(frame, problem, relaxed, engine)
    if begun is None:
        found = clash(frame, problem, engine, broken)
        if found.gives or found.menu is None:
            raise no_plan(frame, problem, engine, found)
        aim = aim_of(problem, found.menu)
        begun = State(frame=frame, problem=problem, relaxed=relaxed, x=found.menu, aim=aim,
                      bound=relaxed.bound)  # fmt: skip
    return _bettered(begun, engine, progress)


def _bettered(state: State, engine: Engine, progress: Progress | None) -> Menu:
    """The menu after as much improving as the request allows."""
    request = state.frame.request
    state.seed = request.seed
    stop = _asking(progress)
    long = request.near is None and request.budget_work >= LONG_WORK
    rebuilds = request.near is None and not long
    ordered = bool(request.aims) and request.near is None
    if ordered and not stop(state):
        blended_far(state, engine)
    if stop(state) or (rebuilds and _rebuilt(state, engine, stop)):
        return menu_of(state, "stopped")
    close = EVERYDAY_GAP / request.budget_work
    if long:
        ended = searched_long(state, engine, stop, close=close)
    else:
        ended = _searched(state, engine, stop, close=close)
    if ordered and ended != "stopped" and not long:
        proved_whole(state, engine)
    if request.near is None and ended != "stopped":
        tidy(state, engine)
    return menu_of(_then(state, engine), ended)


def _searched(state: State, engine: Engine, stop: Stop, *, close: float) -> str:
    """The everyday search: proven close enough, or so many steps."""
    request, gap = state.frame.request, close * abs(state.aim)
    steps = request.budget_work * (STEPS_NEAR if request.near else STEPS_PER_WORK)
    few = len(state.frame.day_keys) <= DAYS_PROVED * request.budget_work
    if request.near is None and few and state.aim - state.bound > gap and not stop(state):
        state.bound = max(state.bound, proven(state.frame, state.problem, state.relaxed, engine))
    return improve(state, engine, steps=steps, done_gap=close, stop=stop)


def _asking(progress: Progress | None) -> Stop:
    """Shows an answer and says whether that is enough; a menu is made once for each answer."""
    shown: dict[tuple[float, float], Menu] = {}

    def stop(now: State) -> bool:
        if progress is None:
            return False
        key = (now.aim, now.bound)
        if key not in shown:
            shown.clear()
            shown[key] = menu_of(now, "work")
        return progress(shown[key]) is False

    return stop


def _then(state: State, engine: Engine) -> State:
    """The menu after the aims that come after the first."""
    request = state.frame.request
    if len(request.aims) < 2:
        return state
    return in_order(state, engine, steps=request.budget_work * STEPS_PER_WORK)


def _rebuilt(state: State, engine: Engine, stop: Stop) -> bool:
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


def menu_of(state: State, ended: str) -> Menu:
    """The menu of an answer."""
    frame, near = state.frame, state.frame.request.near
    portions = portions_of(frame, state.x)
    return Menu(
        portions=portions, pools=pools_of(frame, state.x),
        moved=None if near is None else moved(near, portions),
        spare=spare_of(frame.request, frame), aim=state.aim, bound=min(state.bound, state.aim),
        binds=binding(state.problem, state.x),
        ended=ended, flags=tuple(frame.given.flags),  # type: ignore[arg-type]
    )  # fmt: skip
