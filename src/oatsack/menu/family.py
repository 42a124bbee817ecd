"""One exact matrix under many aims: what is found under one is where the next starts.

Rows, columns and what the rules ask for a miss are written once; only the weights of three aims
change. So every menu found under some weights is a valid menu under all others, and what is proven
under some proves something for others: the least cost, as a function of the weights, is concave.
Mixed weights therefore cost at least the same mixture of proven bounds.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from oatsack.menu.aims import AIMS
from oatsack.menu.beside import binding
from oatsack.menu.blend import blend
from oatsack.menu.bound import proven
from oatsack.menu.choose import SOLVED_WHOLE, menu_of
from oatsack.menu.decode import pools_of, portions_of
from oatsack.menu.frame import Frame, lay
from oatsack.menu.improve import State, improve
from oatsack.menu.near import answer_of
from oatsack.menu.no_plan import no_plan
from oatsack.menu.price import Engine, price
from oatsack.menu.problem import scale_of
from oatsack.menu.refuse import Give, clash
from oatsack.menu.reprice import matrix_of, rebuild
from oatsack.menu.rules import RULES
from oatsack.menu.start import start
from oatsack.menu.structure import completed
from oatsack.menu.tidy import tidy
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.problem import Floats, Problem, Work, aim_of

TURNED = ("kg-days", "liking", "price")
"""The aims whose weights change; all others keep theirs."""
Weights = tuple[float, float, float]
STEPS, DONE_GAP = 5, 0.03
"""Steps of improving at each point, and how near to the best is near enough; ours, measured."""
FRESH_FROM, PROVE_FROM, WIDE_FROM = 0.06, 0.05, 0.10
"""So far above its bound a known menu meets a first plan of the point's own; a bound is proven
better; a blend takes more foods in. Ours, measured."""
WIDE = 150
FEW_NODES, NEAR_ENOUGH = 10, 0.01
"""What the engine may spend on a small problem as it is; ours."""
DAYS_PROVED = 42
"""Up to so many walker-days bounds are proven better; ours."""


@dataclass(slots=True)
class Family:
    """The matrix without the turned aims, their prices by column, and all that was found."""

    frame: Frame
    problem: Problem
    prices: Mapping[str, Floats]
    answers: list[Floats] = field(default_factory=list)
    proofs: list[tuple[Weights, float]] = field(default_factory=list)

    def under(self, weights: Weights) -> Problem:
        """The problem with these weights."""
        cost = self.problem.cost.copy()
        for name, weight in zip(TURNED, weights, strict=True):
            cost += weight * self.prices[name]
        return replace(self.problem, cost=cost)


def family_of(request: MenuRequest, engine: Engine, begin: Menu | None = None) -> Family:
    """The matrix of a request, with a menu to begin from where it is a valid one."""
    frame = lay(request)
    for rule in RULES:
        rule.rows(frame)
    prices = {}
    for aim in AIMS:
        before = np.array(frame.builder.cost)
        weight = 1.0 if aim.name in TURNED else aim.weight(frame)
        if weight:
            aim.add(frame, weight * aim.grams * scale_of(frame, aim.name))
        if aim.name in TURNED:
            prices[aim.name] = np.array(frame.builder.cost) - before
            frame.builder.cost[:] = before.tolist()
    out = Family(frame=frame, problem=frame.builder.done(), prices=prices)
    done = None if begin is None else completed(
        out.problem, engine, answer_of(frame, out.problem, begin)
    )  # fmt: skip
    if done is not None:
        out.answers.append(done[0])
    return out


def best_under(family: Family, engine: Engine, weights: Weights) -> Menu:
    """The best menu under these weights that a little work finds. Raises NoPlan."""
    state = _begun(family, engine, weights)
    if state.problem.integer.sum() <= SOLVED_WHOLE:
        _whole(state, engine)
    else:
        _bettered(state, engine)
        tidy(state, engine)
    family.answers.append(state.x)
    family.proofs.append((weights, state.bound))
    return menu_of(state, "work" if far(state, 1e-6) else "proved")


def _whole(state: State, engine: Engine) -> None:
    """A small problem as it is, by the engine."""
    answer = engine(state.problem, Work(nodes=FEW_NODES, gap_rel=NEAR_ENOUGH, hint=state.x))
    if answer.x is not None and answer.aim <= state.aim:
        state.x, state.aim = answer.x, answer.aim
        state.bound = max(state.bound, answer.bound)


def _bettered(state: State, engine: Engine) -> None:
    """A few steps of a search, from what stands."""
    state.x, state.aim = rebuild(state.frame, matrix_of(state.problem), state.relaxed, engine,
                                 (state.x, state.aim))  # fmt: skip
    if far(state, DONE_GAP):
        blend(state, engine)
    if far(state, WIDE_FROM):
        blend(state, engine, more=WIDE)
    improve(state, engine, steps=STEPS, done_gap=DONE_GAP, stop=lambda now: False)
    state.bound = prove(state.frame, state.problem, engine, state)


def far(state: State, gap: float) -> bool:
    """Whether a menu is further above its bound than this share of it."""
    return state.aim - state.bound > gap * abs(state.aim)


def _begun(family: Family, engine: Engine, weights: Weights) -> State:
    """The best of what is known; where that is far above its bound, or nothing is known, a first
    plan of these weights' own if it is better. Raises NoPlan where there is none."""
    frame, problem = family.frame, family.under(weights)
    relaxed = price(frame, problem, engine)
    family.proofs.append((weights, relaxed.bound))
    bound = mixed(family, engine, weights)
    found = [best_known(family, weights)] if family.answers else []
    if not found or found[0][1] - bound > FRESH_FROM * abs(found[0][1]):
        fresh, broken = start(frame, problem, relaxed, engine)
        if fresh is not None:
            found.append((fresh.x, fresh.aim))
        elif not found:
            found.append(_at_last(frame, problem, engine, broken))
    x, aim = min(found, key=lambda answer: answer[1])
    return State(frame=frame, problem=problem, relaxed=relaxed, x=x.copy(), aim=aim, bound=bound,
                 seed=frame.request.seed)  # fmt: skip


def _at_last(
    frame: Frame, problem: Problem, engine: Engine, broken: Sequence[Give]
) -> tuple[Floats, float]:
    """The menu in which least gives, where in the end nothing does. Raises NoPlan."""
    found = clash(frame, problem, engine, broken)
    if found.gives or found.menu is None:
        raise no_plan(frame, problem, engine, found)
    return found.menu, aim_of(problem, found.menu)


def best_known(family: Family, weights: Weights) -> tuple[Floats, float]:
    """The best answer found so far under these weights, whatever it was found for."""
    problem = family.under(weights)
    aims = [aim_of(problem, x) for x in family.answers]
    at = int(np.argmin(aims))
    return family.answers[at], aims[at]


def prove(frame: Frame, problem: Problem, engine: Engine, state: State) -> float:
    """The bound of a state, proven better where its menu is far above it and days are few."""
    few = len(frame.day_keys) <= DAYS_PROVED * frame.request.budget_work
    if not few or not far(state, PROVE_FROM):
        return state.bound
    return max(state.bound, proven(frame, problem, state.relaxed, engine))


def mixed(family: Family, engine: Engine, weights: Weights) -> float:
    """The best bound under these weights that a mixture of what is proven gives.

    Sums of proven bounds with shares that add up to one, whose mixed weights are nowhere above
    these: every aim is never below nothing, so that more weight never costs less.
    """
    known = family.proofs
    rows = np.array([[of[k] for of, _ in known] for k in range(len(TURNED))] + [[1.0] * len(known)])
    count = len(known)
    problem = Problem(
        columns=tuple(f"share/{i}" for i in range(count)), rows=(*TURNED, "whole"),
        cost=-np.array([bound for _, bound in known]), low=np.zeros(count), high=np.ones(count),
        integer=np.zeros(count, np.bool_), row_low=np.array([-np.inf] * len(TURNED) + [1.0]),
        row_high=np.array([*weights, 1.0]), start=np.arange(len(rows) + 1) * count,
        index=np.tile(np.arange(count), len(rows)), value=rows.ravel(),
    )  # fmt: skip
    return -engine(problem, Work()).aim


def best_again(family: Family, engine: Engine, weights: Weights) -> Menu:
    """The menu that is best under these weights of all that were found, within all that is
    proven."""
    x, aim = best_known(family, weights)
    problem = family.under(weights)
    bound = min(aim, mixed(family, engine, weights))
    portions = portions_of(family.frame, x)
    return Menu(
        portions=portions, pools=pools_of(family.frame, x), aim=aim, bound=bound, ended="work",
        binds=binding(problem, x), flags=tuple(family.frame.given.flags),
    )  # fmt: skip
