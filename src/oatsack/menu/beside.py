"""What stands beside a choice: the rules that hold a menu, and the next best food at a place.

Nothing is searched and no engine is asked: a menu is weighed on its own exact matrix, what measures
and what is bought filled in by arithmetic. One food is exchanged, all else stays as it is.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from oatsack.menu.frame import Frame, Option
from oatsack.menu.near import answer_of
from oatsack.menu.problem import build
from oatsack.menu.structure import Mask, entry_rows, summed
from oatsack.values.food import Food
from oatsack.values.frozen import dataclass
from oatsack.values.menu import Menu, MenuRequest, Portion
from oatsack.values.problem import Floats, Problem

SHAPE_RULES = ("doses/", "mains/", "toppings/", "items/", "drinks/", "packs/", "energy-day/near/")
"""Rows that say what a meal is, or measure; all others can hold a choice back. A budget can too."""
COUNTS = ("variety/", "warm/", "taste/lunch/", "energy-meal/")
"""Rows that count things one by one, or stand at a limit by themselves: told where missed."""
BUDGET = "packs/budget"
NEAR_SHARE = 0.005
"""A row stands at its limit within so much of all that it sums; ours."""
TOLERANCE = 1e-6
LEVEL_G = 0.5
"""Less than this is no difference."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """Another food at the place of a portion, all else as it is.

    `more_g` is what the aim would grow by, in grams carried for the mean time: mass, liking, price,
    minutes, steps and every wish together. The other figures are the portions themselves.
    """

    food: str
    doses: float
    more_g: float
    mass_g: float
    price: float
    kcal: float


def binding(problem: Problem, x: Floats) -> tuple[str, ...]:
    """Names of the rows that hold an answer back, the dearest miss first: wishes that it misses,
    and limits at which it stands."""
    measured = measures(problem)
    activity = _activity(problem, np.where(measured, 0.0, x))
    room = NEAR_SHARE * summed(
        entry_rows(problem), np.abs(problem.value * np.where(measured, 0.0, x)[problem.index]),
        len(problem.rows),
    ) + TOLERANCE  # fmt: skip
    held = (activity <= problem.row_low + room) | (activity >= problem.row_high - room)
    held &= problem.row_low < problem.row_high
    miss = _penalties(problem, activity)
    told = [i for i in np.flatnonzero(held) if _can_hold(problem.rows[i], float(miss[i]))]
    return tuple(problem.rows[i] for i in sorted(told, key=lambda i: (-miss[i], i)))


def misses(request: MenuRequest, menu: Menu) -> dict[str, float]:
    """Rows of wishes that a menu misses -> by how much, in the unit of the row's rule."""
    frame, problem = build(request)
    x = np.where(measures(problem), 0.0, answer_of(frame, problem, menu))
    activity = _activity(problem, x)
    missed = np.maximum(problem.row_low - activity, activity - problem.row_high)
    return {problem.rows[i]: float(missed[i]) for i in np.flatnonzero(missed > TOLERANCE)
            if _can_hold(problem.rows[i], float(missed[i]))}  # fmt: skip


def next_best(request: MenuRequest, menu: Menu, portion: Portion) -> Other | None:
    """The food among the request's that would cost least in the place of a chosen portion; None
    where nothing else fits. A dish that is shared changes for everyone who shares it."""
    found = list(others(request, menu, portion))
    return min(found, key=lambda other: (other.more_g, other.food), default=None)


def others(request: MenuRequest, menu: Menu, portion: Portion) -> Iterator[Other]:
    """Every food that could stand in the place of a portion without breaking a rule."""
    frame, problem = build(request)
    key = (portion.walker, portion.day, portion.meal)
    options = [o for o in frame.options.get(key, ()) if o.use >= 0]
    there = next((o for o in options if o.food.id == portion.food), None)
    if there is None:
        return
    x = answer_of(frame, problem, menu)
    stands = weighed(frame, problem, x)
    for o in options:
        if o is there or x[o.eat] > 0.0 or not _same_kind(o.food, there.food):
            continue
        then = weighed(frame, problem, _exchanged(frame, x, there, o))
        if np.isfinite(then):
            doses = _doses(o, portion.doses * there.food.dose_kcal)
            yield Other(
                food=o.food.id, doses=doses, more_g=(then - stands) / frame.mean_carry,
                mass_g=doses * o.facts.mass_g, kcal=doses * o.food.dose_kcal,
                price=doses * o.facts.price,
            )  # fmt: skip


def measures(problem: Problem) -> Mask:
    """Columns that only measure a miss: in one row, not whole, at a price."""
    alone = np.bincount(problem.index, minlength=len(problem.columns)) == 1
    return np.asarray(alone & ~problem.integer & (problem.cost > 0.0), np.bool_)


def weighed(frame: Frame, problem: Problem, x: Floats) -> float:
    """The aim of an answer, what measures and what is bought filled in; infinite where it breaks a
    rule. Dates of what is at home are not looked at."""
    full = _bought(frame, problem, np.where(measures(problem), 0.0, x))
    miss = _penalties(problem, _activity(problem, full))
    dated = np.array([name.startswith("packs/in-date/") for name in problem.rows], bool)
    return float(problem.cost @ full + miss[~dated].sum()) + problem.offset


def _can_hold(name: str, miss: float) -> bool:
    """Whether a row at its limit is worth telling; of counts only those that are missed."""
    if name == BUDGET:
        return True
    return not name.startswith(SHAPE_RULES) and (miss > 0.0 or not name.startswith(COUNTS))


def _activity(problem: Problem, x: Floats) -> Floats:
    return summed(entry_rows(problem), problem.value * x[problem.index], len(problem.rows))


def _penalties(problem: Problem, activity: Floats) -> Floats:
    """Per row what its miss costs: the cheapest columns that measure it, each up to its bound."""
    short = np.maximum(0.0, problem.row_low - activity)
    over = np.maximum(0.0, activity - problem.row_high)
    out = np.zeros(len(problem.rows))
    measured = measures(problem)
    for i in np.flatnonzero(np.maximum(short, over) > TOLERANCE):
        span = slice(problem.start[i], problem.start[i + 1])
        out[i] = _price_of(problem, measured, span, float(short[i] - over[i]))
    return out


def _price_of(problem: Problem, measured: Mask, span: slice, miss: float) -> float:
    """What a row's miss costs; `miss` above zero is short of it, below zero over it."""
    columns, values = problem.index[span], problem.value[span]
    fits = measured[columns] & (values * miss > 0.0)
    prices = problem.cost[columns[fits]] / np.abs(values[fits])
    room = problem.high[columns[fits]] * np.abs(values[fits])
    left, cost = abs(miss), 0.0
    for i in np.argsort(prices, kind="stable"):
        part = min(left, float(room[i]))
        cost, left = cost + part * float(prices[i]), left - part
    return cost if left <= TOLERANCE else float("inf")


def _bought(frame: Frame, problem: Problem, x: Floats) -> Floats:
    """Packs bought and doses from home for what is eaten."""
    full = x.copy()
    row_at = {name: i for i, name in enumerate(problem.rows)} if frame.buy else {}
    for food, buy in frame.buy.items():
        i = row_at[f"packs/{food}"]
        columns = problem.index[problem.start[i] : problem.start[i + 1]]
        values = problem.value[problem.start[i] : problem.start[i + 1]]
        eaten = float(values[values > 0.0] @ full[columns[values > 0.0]])
        for home in columns[(values < 0.0) & (columns != buy)]:
            full[home] = min(eaten, float(problem.high[home]))
            eaten -= float(full[home])
        packs = eaten / -float(values[columns == buy][0])
        full[buy] = np.ceil(packs - TOLERANCE) if problem.integer[buy] else packs
    return full


def _same_kind(food: Food, other: Food) -> bool:
    """A main for a main, a drink for a drink, else what goes with them."""
    whole = ("main", "drink")
    return food.role == other.role or (food.role not in whole and other.role not in whole)


def _doses(o: Option, kcal: float) -> float:
    """Whole doses that bring about so much energy, within what makes a portion."""
    if o.food.dose_kcal <= 0.0:
        return o.least
    return float(min(max(round(kcal / o.food.dose_kcal), o.least), o.most))


def _exchanged(frame: Frame, x: Floats, there: Option, other: Option) -> Floats:
    """The answer with one food for another, for all who share the dish."""
    out = x.copy()
    for key, options in frame.options.items():
        before = next((o for o in options if o.use == there.use and o.use >= 0), None)
        after = next((o for o in options if o.use == other.use and o.use >= 0), None)
        alone = key == there.key or there.use != there.eat
        if before is None or after is None or not alone or x[before.eat] <= 0.0:
            continue
        out[after.eat] = _doses(after, float(x[before.eat]) * before.food.dose_kcal)
        out[after.use] = 1.0
        out[before.eat] = 0.0
    out[there.use] = 0.0
    out[other.use] = max(out[other.use], 1.0)
    return out
