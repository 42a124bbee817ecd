"""Laws of the chooser on questions too large to be solved to the end: there the best is only known
to lie between a menu's bound and its aim, so that what is asked less of may not be proven worse.

A relaxed question's aim x (1 - gap) is a bound for the strict one as well.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest
from bench.instances import instance

from oatsack.menu.choose import choose
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.trip import Hold
from support.each import each
from support.menu_checker import faults_of

pytestmark = pytest.mark.slow

QUESTIONS = ("solo3-150-none-easy", "solo7-60-half-easy", "couple7-60-none-easy",
             "4x10-60-none-easy", "solo7-60-none-tight")  # fmt: skip
LEFT_OUT = 25
"""Every such food is missing where its return is the relaxation."""


@cache
def strict(name: str) -> MenuRequest:
    """The question with a bit of everything to be let go: a budget above what it asks, a ban, a
    dislike, foods left out, and no spare food, whose choice hangs on the larder."""
    asked = instance(name).request
    foods = tuple(f for n, f in enumerate(asked.foods) if n % LEFT_OUT)
    ban = Hold(food=foods[7].id, count=0)
    first = asked.walkers[0]
    return replace(
        asked, foods=foods, rules=replace(asked.rules, spare="none", holds=(ban,)),
        walkers=(replace(first, dislikes=frozenset({"nut"})), *asked.walkers[1:]),
    )  # fmt: skip


def wider(asked: MenuRequest) -> MenuRequest:
    return replace(asked, rules=replace(asked.rules, day_window=0.25, trip_window=0.12))


def allowed(asked: MenuRequest) -> MenuRequest:
    return replace(asked, rules=replace(asked.rules, holds=()))


def liked(asked: MenuRequest) -> MenuRequest:
    walkers = tuple(replace(w, dislikes=frozenset()) for w in asked.walkers)
    return replace(asked, walkers=walkers)


def richer(asked: MenuRequest) -> MenuRequest:
    budget = asked.rules.budget
    return replace(asked, rules=replace(asked.rules, budget=budget and 1.5 * budget))


def more_foods(asked: MenuRequest) -> MenuRequest:
    have = {f.id for f in asked.foods}
    name = next(q for q in QUESTIONS if strict(q) is asked)
    rest = tuple(f for f in instance(name).request.foods if f.id not in have)
    return replace(asked, foods=(*asked.foods, *rest))


RELAXATIONS: tuple[Callable[[MenuRequest], MenuRequest], ...] = (
    wider, allowed, liked, richer, more_foods,
)  # fmt: skip


@cache
def chosen(name: str) -> Menu:
    return choose(strict(name), solve)


@each("name", QUESTIONS)
def test_what_is_asked_less_of_is_never_proven_worse(name: str) -> None:
    menu = chosen(name)
    assert faults_of(strict(name), menu) == []
    bounds = {}
    for relax in RELAXATIONS:
        asked = relax(strict(name))
        relaxed = choose(asked, solve)
        assert faults_of(asked, relaxed) == [], relax.__name__
        assert relaxed.bound == pytest.approx(relaxed.aim * (1.0 - relaxed.gap))
        bounds[relax.__name__] = relaxed.bound
    worse = {what: bound for what, bound in bounds.items() if bound > menu.aim + 1e-6}
    assert worse == {}, menu.aim


@each("name", QUESTIONS[:2])
def test_order_and_names_of_units_leave_the_best_between_both_bounds(name: str) -> None:
    """Foods in another order, and money in hundredths, ask the same: neither menu may be better
    than the other's bound."""
    asked = strict(name)
    turned = replace(asked, foods=tuple(reversed(asked.foods)))
    cents = replace(
        asked, rules=replace(asked.rules, weight_price=asked.rules.weight_price / 100.0),
        foods=tuple(replace(f, price=None if f.price is None else 100.0 * f.price)
                    for f in asked.foods if f.price is not None),
    )  # fmt: skip
    priced = replace(asked, foods=tuple(f for f in asked.foods if f.price is not None))
    for one, other in ((asked, turned), (priced, cents)):
        a, b = choose(one, solve), choose(other, solve)
        assert a.bound <= b.aim + 1e-6 and b.bound <= a.aim + 1e-6
