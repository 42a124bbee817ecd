"""The refusal itself: what clashes, and the ways out that were tried and work.

A way out is only named when a menu of the request so changed is there: the menu that showed what
gives, where the change makes it valid, else a first plan.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import chain, islice

import numpy as np

from oatsack.errors import NoPlan
from oatsack.menu.add_food import additions
from oatsack.menu.decode import portions_of
from oatsack.menu.frame import Frame
from oatsack.menu.price import Engine, price
from oatsack.menu.problem import build
from oatsack.menu.refuse import BUDGET, Clash, flags_of, giving, menu_giving
from oatsack.menu.rounded import rounded
from oatsack.menu.start import start
from oatsack.menu.structure import completed
from oatsack.menu.unserved import NO_MAIN, kept_from
from oatsack.menu.ways_out import MOST_TRIED, ways
from oatsack.values.flags import Flag
from oatsack.values.menu import MenuRequest, Portion
from oatsack.values.problem import Floats, Problem

TRIES_FOR_A_WAY = 3
LARGE, TRIES_IF_LARGE, MOST_IF_LARGE = 6_000, 1, 4
"""From so many columns on, first plans are dear: fewer of them are tried; ours."""
MOST_ASKED = 4
"""So many kinds of food are tried, the likeliest first; ours."""
NEARLY = 0.15
"""A menu that is over its budget by up to this share is mended; ours."""
UNITS = {
    "energy-day": "kcal", "energy-trip": "kcal", "minutes": "min", "pot": "ml", "packs": "money",
    "container": "ml",
}  # fmt: skip
"""Unit in which a rule gives, as the name of a flag's value ends."""


def no_plan(frame: Frame, problem: Problem, engine: Engine, found: Clash) -> NoPlan:
    """The refusal, explained."""
    request = frame.request
    flags = [*flags_of(found.gives, UNITS), *_kept_out(frame, found)]
    flags += [flag for flag in frame.given.flags if flag.key != NO_MAIN]
    search = _Ways(frame, problem, engine, found)
    said: set[str] = set()
    asked = islice(additions(request, found.gives), MOST_ASKED)
    for way in chain(islice(ways(request, found.gives), MOST_TRIED), asked):
        mass = None if way.flag.key in said else search.mass_g(way.request)
        if mass is not None:
            said.add(way.flag.key)
            values = {**way.flag.values, "mass_g": mass}
            flags.append(Flag(key=way.flag.key, level=way.flag.level, values=values))
    if not said:
        flags.append(Flag(key="way-out.none", level="note"))
    if not found.gives:
        flags.append(Flag(key="no-plan.unknown", level="block"))
    return NoPlan([flag.key for flag in flags], flags)


def _kept_out(frame: Frame, found: Clash) -> list[Flag]:
    """What keeps foods from the walkers who find too little."""
    short = (give.row.split("/") for give in found.gives if give.short > 0)
    hungry = dict.fromkeys(row[1] for row in short if row[0] in ("energy-day", "energy-trip"))
    return kept_from(frame, hungry)


class _Ways:
    """Tries requests: with the menu that showed what gives, then with a first plan."""

    def __init__(self, frame: Frame, problem: Problem, engine: Engine, found: Clash) -> None:
        self.frame, self.problem, self.engine = frame, problem, engine
        self.near: Mapping[str, float] = (
            {} if found.menu is None
            else dict(zip(problem.columns, found.menu.tolist(), strict=True))
        )  # fmt: skip
        self.money = any(give.row == BUDGET for give in found.gives)
        large = len(problem.columns) > LARGE
        self.tries = TRIES_IF_LARGE if large else TRIES_FOR_A_WAY
        self.left = MOST_IF_LARGE if large else MOST_TRIED

    def mass_g(self, request: MenuRequest) -> float | None:
        """Mass of a valid menu of this request [g]; None where none was found."""
        frame, problem = self._built(request)
        x = self._shown(problem)
        if x is None and self.left > 0:
            self.left -= 1
            x = self._cheapest(frame, problem) if self.money else self._begun(frame, problem)
        return None if x is None else sum(food_g(frame, p) for p in portions_of(frame, x))

    def _built(self, request: MenuRequest) -> tuple[Frame, Problem]:
        """Frame and problem of a request; of another budget alone only the limit is another."""
        asked, budget = self.frame.request, request.rules.budget
        alike = replace(asked, rules=replace(asked.rules, budget=budget)) == request
        if not alike or budget is None or BUDGET not in self.problem.rows:
            return build(request)
        high = np.where([name == BUDGET for name in self.problem.rows], budget,
                        self.problem.row_high)  # fmt: skip
        return self.frame, replace(self.problem, row_high=high)

    def _begun(self, frame: Frame, problem: Problem) -> Floats | None:
        """A menu near the relaxed answer, else a first plan; where only money is in its way, one
        made as if there were none."""
        relaxed = price(frame, problem, self.engine)
        near = rounded(frame, problem, self.engine, relaxed.x) if relaxed.fits else None
        if near is not None:
            return near[0]
        state, broken = start(frame, problem, relaxed, self.engine, self.tries)
        if state is not None:
            return state.x
        return self._cheapest(frame, problem) if {g.row for g in broken} == {BUDGET} else None

    def _cheapest(self, frame: Frame, problem: Problem) -> Floats | None:
        """A menu made as if there were no money, where that is within the budget."""
        row = problem.rows.index(BUDGET)
        menu = menu_giving(frame, problem, self.engine, [row], most=NEARLY)
        if menu is None or giving(problem, [row], menu):
            return None
        return menu[: len(problem.columns)]

    def _shown(self, problem: Problem) -> Floats | None:
        if not self.near:
            return None
        x = np.array([self.near.get(name, 0.0) for name in problem.columns])
        done = completed(problem, self.engine, np.clip(x, problem.low, problem.high))
        return None if done is None else done[0]


def food_g(frame: Frame, portion: Portion) -> float:
    """Mass of a portion with its wrapping [g]."""
    return portion.doses * frame.facts[portion.food].mass_g
