"""Menus along the energy dial, from little to much, each within its own gap.

The menu of one place, turned by whole things of each walker's own list, is where the next begins;
its dinners stay. Where whole things alone do not meet the new windows a first plan is made.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from oatsack.menu import purse
from oatsack.menu.blend import blend
from oatsack.menu.by_leg import parted
from oatsack.menu.choose import choose, menu_of
from oatsack.menu.dial import dial
from oatsack.menu.family import DONE_GAP, STEPS, far, prove
from oatsack.menu.frame import Frame
from oatsack.menu.frontier import Point, Seen, point_of
from oatsack.menu.improve import State, improve
from oatsack.menu.near import answer_of
from oatsack.menu.price import Engine, Relaxed, price
from oatsack.menu.problem import build
from oatsack.menu.start import start
from oatsack.menu.structure import completed, with_bounds
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.problem import Floats, Problem

SHARES = (0.8, 0.9, 1.0, 1.1, 1.2)
"""Places of the dial, as shares of what the walkers eat now; ours."""


def along_the_dial(
    request: MenuRequest, engine: Engine, shares: Sequence[float] = SHARES, *,
    known: Menu | None = None, seen: Seen | None = None,
) -> list[Point]:  # fmt: skip
    """Menus for shares of the target, from little to much; `known` is one of the target itself.

    A place at which no menu is found is left out. Raises NoPlan where the target itself has none.
    """
    asked = replace(request, near=None)
    menus = {1.0: choose(asked, engine) if known is None else known}
    points: dict[float, Point] = {}
    for share in sorted(shares, key=lambda s: (abs(s - 1.0), s)):
        nearest = min(menus, key=lambda s: abs(s - share))
        menu = _at(asked, engine, (nearest, menus[nearest]), share)
        if menu is None:
            continue
        menus[share] = menu
        points[share] = point_of(f"{share:.0%}", asked, menu)
        if seen is not None and seen(points[share]) is False:
            break
    return [points[share] for share in sorted(points)]


def at_share(request: MenuRequest, share: float) -> MenuRequest:
    """The same question with a share of every day's target."""
    target = {w: {d: kcal * share for d, kcal in by_day.items()}
              for w, by_day in request.target_kcal.items()}  # fmt: skip
    return replace(request, target_kcal=target)


def _at(
    asked: MenuRequest, engine: Engine, known: tuple[float, Menu], share: float
) -> Menu | None:  # fmt: skip
    """The menu of a share, from that of another."""
    before, menu = known
    to = at_share(asked, share)
    if purse.apart(asked):
        return choose(replace(to, near=menu), engine)
    turned = _turned(asked, menu, share - before)
    legs = parted(to, turned)
    menus = [_chosen(of, engine, part) for of, part in legs.asked]
    whole = [menu for menu in menus if menu is not None]
    return legs.joined(whole) if len(whole) == len(menus) else None


def _turned(request: MenuRequest, menu: Menu, more: float) -> Menu:
    """The menu with so much more, as a share of the target, of every walker's own things."""
    if not more:
        return menu
    for walker, days in request.target_kcal.items():
        by_day = {day: more * kcal for day, kcal in days.items()}
        menu = dial(request, menu, walker, 0.0, by_day=by_day)
    return menu


def _chosen(request: MenuRequest, engine: Engine, turned: Menu) -> Menu | None:
    """The turned menu made better, its dinners held; else a first plan made better."""
    frame, problem = build(request)
    relaxed = price(frame, problem, engine)
    if not relaxed.fits:
        return None
    state = _begun(frame, problem, relaxed, engine, turned)
    if state is None:
        return None
    if far(state, DONE_GAP):
        blend(state, engine)
    improve(state, engine, steps=STEPS, done_gap=DONE_GAP, stop=lambda now: False)
    state.bound = prove(frame, problem, engine, state)
    return menu_of(state, "work")


def _begun(
    frame: Frame, problem: Problem, relaxed: Relaxed, engine: Engine, turned: Menu
) -> State | None:
    done = completed(problem, engine, answer_of(frame, problem, turned))
    if done is None:
        return start(frame, problem, relaxed, engine)[0]
    x, aim = done
    return State(frame=frame, problem=_dinners_held(frame, problem, x), relaxed=relaxed, x=x,
                 aim=aim, bound=relaxed.bound)  # fmt: skip


def _dinners_held(frame: Frame, problem: Problem, x: Floats) -> Problem:
    """The problem in which every dinner's main stays what it is."""
    low, high = problem.low.copy(), problem.high.copy()
    mains = [o.use for key, options in frame.options.items() if key[2] == "dinner"
             for o in options if o.use >= 0 and o.food.role == "main"]  # fmt: skip
    low[mains] = high[mains] = x[mains]
    return with_bounds(problem, low, high)
