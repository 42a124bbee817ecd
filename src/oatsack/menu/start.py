"""The menu everything starts from: an earlier one where it still holds, else the first plan."""

from __future__ import annotations

import math
from collections.abc import Iterator

from oatsack.menu.first import TRIES, broken_by, first_valid
from oatsack.menu.frame import Frame
from oatsack.menu.improve import Neighbourhoods, State
from oatsack.menu.near import answer_of, days_to_free
from oatsack.menu.price import Engine, Relaxed
from oatsack.menu.refuse import Give
from oatsack.menu.structure import Mask, completed, fixed_outside
from oatsack.values.flags import Flag
from oatsack.values.menu import Menu
from oatsack.values.problem import Floats, Problem, Work

WalkerDay = tuple[str, int]
MOST_WIDER = 6
"""So many single days are tried besides those that break; ours."""
REPAIR_NODES, REPAIR_SECONDS, REPAIR_GAP = 60, 20.0, 0.01


def start(
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
    """The earlier menu where it still holds; else with the days that break chosen anew, and the
    fewest others found."""
    x = answer_of(frame, problem, near)
    done = completed(problem, engine, x)
    state = State(frame=frame, problem=problem, relaxed=relaxed, x=x, aim=math.inf,
                  bound=relaxed.bound)  # fmt: skip
    if done is None:
        named = days_to_free(frame, broken_by(frame, problem, engine, x))
        plan = Neighbourhoods(state)
        for days in wider(frame, named):
            done = _repaired(state, engine, plan.days(days, dinners=True))
            if done is not None:
                frame.given.flags += freed(named, days)
                break
    if done is None:
        return None
    state.x, state.aim = done
    return state


def _repaired(state: State, engine: Engine, free: Mask) -> tuple[Floats, float] | None:
    """The menu with this chosen anew and all else as it was; None where that fails."""
    part, numbers = fixed_outside(state.problem, free, state.x)
    answer = engine(part, Work(nodes=REPAIR_NODES, seconds=REPAIR_SECONDS, gap_rel=REPAIR_GAP))
    if answer.x is None:
        return None
    x = state.x.copy()
    x[numbers] = answer.x
    return completed(state.problem, engine, x)


def wider(frame: Frame, named: list[WalkerDay]) -> Iterator[list[WalkerDay]]:
    """Days to choose anew: those that break, then one more of them or another, the nearest first,
    then all days of who is concerned, then all."""
    yield named
    walkers, every = {w for w, _ in named}, list(frame.day_keys)
    others = [at for at in every if at not in set(named)]
    others.sort(key=lambda at: (at[0] not in walkers, min(abs(at[1] - d) for _, d in named)))
    for other in others[:MOST_WIDER]:
        yield [*named, other]
    theirs = [at for at in every if at[0] in walkers]
    if len(named) + 1 < len(theirs) < len(every):
        yield theirs
    if len(others) > 1:
        yield every


def freed(named: list[WalkerDay], days: list[WalkerDay]) -> list[Flag]:
    """What is told where more than the days that broke had to be chosen anew."""
    more = [at for at in days if at not in set(named)]
    if len(more) == 1:
        walker, day = more[0]
        values: dict[str, float | int | str] = {"walker": walker, "day": day}
        return [Flag(key="menu.day-freed", level="note", scope=f"menu/{walker}/{day}",
                     values=values)]  # fmt: skip
    return [Flag(key="menu.days-freed", level="note", values={"days": len(more)})] if more else []
