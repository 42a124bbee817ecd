"""Whole packs: what is eaten or spare comes from packs bought or at home, and a budget holds for
packs."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Sequence

import numpy as np

from oatsack.menu.facts import price_of_pack
from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Term, gathered
from oatsack.menu.spare import spare_of
from oatsack.values.food import Food


def rows(frame: Frame) -> None:
    """Per food: doses eaten <= doses per pack x (packs bought + packs at home); budget over all.

    What is spare is bought too, so that a budget holds for it as well (C16). Packs are counted
    whole where a budget is set or price is an aim of its own; else their price goes by the dose.
    Stock counts for meals up to its best-before date.
    """
    budget = frame.request.rules.budget
    whole = budget is not None or "price" in frame.request.aims
    eaten = eaten_terms(frame)
    if budget is not None:
        _add_spare(frame, eaten)
    for food in frame.request.foods:
        terms = eaten.get(food.id)
        if terms and (whole or food.at_home):
            _buy(frame, food, terms, whole=whole)
    if budget is not None and frame.buy:
        bought = [f for f in frame.request.foods if f.id in frame.buy]
        terms = [(frame.buy[food.id], price_of_pack(food)) for food in bought]
        frame.builder.row("packs/budget", terms, high=budget)


def eaten_terms(frame: Frame) -> dict[str, list[Term]]:
    """Food -> terms that sum the doses of it that everybody eats."""
    out: dict[str, list[Term]] = defaultdict(list)
    for options in frame.options.values():
        for o in options:
            out[o.food.id].append((o.eat, 1.0))
    for bags in frame.bags.values():
        for b in bags:
            out[b.bag.food.id].append((b.column, b.bag.food.doses_per_pack))
    return {name: gathered(terms) for name, terms in out.items()}


def _add_spare(frame: Frame, eaten: dict[str, list[Term]]) -> None:
    """A column for the spare doses of each food, which are settled."""
    spare: dict[str, float] = {}
    for p in spare_of(frame.request, frame):
        spare[p.food] = spare.get(p.food, 0.0) + p.doses
    for name, doses in spare.items():
        column = frame.builder.column(f"spare/{name}", low=doses, high=doses, integer=False)
        eaten.setdefault(name, []).append((column, 1.0))


def _buy(frame: Frame, food: Food, terms: list[Term], *, whole: bool) -> None:
    most = sum(value * frame.builder.high[column] for column, value in terms)
    packs = float(np.ceil(most / food.doses_per_pack))
    buy = frame.builder.column(f"buy/{food.id}", high=packs, integer=whole)
    frame.buy[food.id] = buy
    row = [*terms, (buy, -food.doses_per_pack)]
    homes = _at_home(frame, food)
    row += [(home, -1.0) for home, _ in homes]
    _in_date(frame, food, homes)
    frame.builder.row(f"packs/{food.id}", row, high=0.0)


def _at_home(frame: Frame, food: Food) -> list[tuple[int, dt.date | None]]:
    """A column of doses for each lot at home, with its date, the soonest first."""
    return [
        (frame.builder.column(f"home/{food.id}/{k}" if k else f"home/{food.id}",
                              high=lot.packs * food.doses_per_pack, integer=False),
         lot.best_before)
        for k, lot in enumerate(food.at_home)
    ]  # fmt: skip


def _in_date(frame: Frame, food: Food, homes: Sequence[tuple[int, dt.date | None]]) -> None:
    """Doses from a lot are eaten by its date. Lots end one after the other, so that all that end
    by a date must fit into what is eaten by it; no other choice of lots fits more."""
    for k, (_, last) in enumerate(homes):
        if last is not None:
            soon = [(column, 1.0) for column, _ in homes[: k + 1]]
            name = f"packs/in-date/{food.id}" + (f"/{k}" if k else "")
            frame.builder.row(name, [*soon, *_eaten_by(frame, food, last)], high=0.0)


def _eaten_by(frame: Frame, food: Food, last: dt.date) -> list[Term]:
    """Doses of a food eaten up to a date, taken off."""
    good = [
        (o.eat, 1.0) for options in frame.options.values() for o in options
        if o.food.id == food.id and o.slot.date <= last
    ]  # fmt: skip
    dates = {(s.walker, s.day): s.date for s in frame.slots.values()}
    good += [
        (b.column, b.bag.food.doses_per_pack) for bags in frame.bags.values() for b in bags
        if b.bag.food.id == food.id and dates[(b.bag.walker, b.bag.days[-1])] <= last
    ]  # fmt: skip
    return [(column, -value) for column, value in gathered(good)]


RULE = Rule(
    name="packs",
    help="Food is bought in whole packs, within the budget.",
    rows=rows,
    gives_in="money",
    in_trip=("rules.budget",),
)
