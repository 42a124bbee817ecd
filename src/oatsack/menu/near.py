"""Staying close to an earlier menu: its portions as an answer of the new problem, and what moved.

A change should leave the rest alone: every portion that moves costs something in the aim, and the
earlier menu itself is the first plan wherever the new rules allow it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from oatsack.menu.frame import Frame, OpenBag, Option
from oatsack.menu.refuse import Give
from oatsack.menu.usual import Key
from oatsack.values.menu import Menu, Portion
from oatsack.values.problem import Floats, Problem

MOVE_GRAMS = 25.0
"""What moving one portion costs in the aim, carried for the mean time; ours."""
DINNER_FACTOR = 6.0
"""A dinner that moves costs so many times more: the dial and small edits leave dinners alone."""
EDIT_FACTOR = 2.5
"""In an edit every portion that moves costs so many times more: what the search finds better only
now is no reason to change what nobody touched; ours, measured."""
EDIT = "near.edit"
"""Setting: 1 in an edit, where other doses are a portion moved too; 0 between rounds of one plan,
where only what is eaten counts."""


def stay(frame: Frame) -> None:
    """Adds the price of moving to the columns of chosen portions and bags."""
    near = frame.request.near
    if near is None:
        return
    there = {(p.walker, p.day, p.meal, p.food) for p in near.portions}
    seen: set[int] = set()
    for key, options in frame.options.items():
        for o in options:
            if o.use >= 0 and o.use not in seen:
                seen.add(o.use)
                _pay(frame, o.use, _price(frame, o), here=(*key, o.food.id) in there)
    if frame.setting(EDIT, 1.0):
        _stay_as_many(frame, near)
    open_bags = {(b.walker, b.food, b.open_day, b.last_day) for b in near.pools}
    for bags in frame.bags.values():
        open_bags -= {_bag(b) for b in bags if b.fixed}
        for b in bags:
            if not b.fixed:
                grams = move_grams(frame) * len(b.bag.days)
                _pay(frame, b.column, grams, here=_bag(b) in open_bags)


def _price(frame: Frame, o: Option) -> float:
    """What it costs to move a portion."""
    main_dinner = o.slot.meal == "dinner" and o.food.role == "main"
    return move_grams(frame) * (DINNER_FACTOR if main_dinner else 1.0)


def move_grams(frame: Frame) -> float:
    """What one portion that moves costs in the aim."""
    factor = EDIT_FACTOR if frame.setting(EDIT, 1.0) else 1.0
    return MOVE_GRAMS * factor * frame.mean_carry


def _stay_as_many(frame: Frame, near: Menu) -> None:
    """Half as many again, or half as many, costs what another food would, and one dose at most
    that: for each portion that stays, what is more or less than before is measured."""
    for o, had in _had(frame, near):
        if o.most > 1.0:
            name, cost = "/".join(map(str, (*o.key, o.food.id))), _price(frame, o)
            cost /= max(1.0, had / 2.0)
            more, less = (frame.slack(f"near-{way}/{name}", cost) for way in ("more", "less"))
            terms = [(o.eat, 1.0), (o.use, -had), (more, -1.0), (less, 1.0)]
            frame.builder.row(f"near/{name}", terms, low=0.0, high=0.0)


def _pay(frame: Frame, column: int, grams: float, *, here: bool) -> None:
    """Taking what was not there costs; leaving out what was there costs as much."""
    frame.builder.cost[column] += -grams if here else grams
    if here:
        frame.builder.offset += grams


def answer_of(frame: Frame, problem: Problem, menu: Menu) -> Floats:
    """The earlier menu in the columns of the new problem, as far as they exist; what is picked or
    counted stands by itself and is not eaten twice."""
    x = problem.low.copy()
    for o, had in _had(frame, menu):
        x[o.eat] = had
        x[o.use] = max(x[o.use], 1.0)
    _open_again(frame, x, menu)
    return x


def _had(frame: Frame, menu: Menu) -> Iterator[tuple[Option, float]]:
    """Portions of an earlier menu that may be chosen again, with as many doses as may be."""
    doses = {(p.walker, p.day, p.meal, p.food): p.doses for p in menu.portions}
    for key, options in frame.options.items():
        stands = {o.food.id: o.most for o in options if o.use < 0}
        for o in options:
            had = doses.get((*key, o.food.id), 0.0) if o.use >= 0 else 0.0
            had -= stands.get(o.food.id, 0.0)
            if had > 0:
                yield o, min(max(round(had), o.least), o.most)


def _open_again(frame: Frame, x: Floats, menu: Menu) -> None:
    """The bags of the earlier menu, without those that the walker's usual opens anyway."""
    open_bags = {(b.walker, b.food, b.open_day, b.last_day) for b in menu.pools}
    for bags in frame.bags.values():
        open_bags -= {_bag(b) for b in bags if b.fixed}
        for b in bags:
            if not b.fixed and _bag(b) in open_bags:
                x[b.column] = 1.0


def _bag(b: OpenBag) -> tuple[str, str, int, int]:
    return (b.bag.walker, b.bag.food.id, b.bag.days[0], b.bag.days[-1])


def days_to_free(frame: Frame, gives: Iterable[Give]) -> list[tuple[str, int]]:
    """Walker-days that broken rows name. Only where none names any, a row over the whole trip
    speaks of every day of its walker."""
    out: set[tuple[str, int]] = set()
    theirs: set[tuple[str, int]] = set()
    for give in gives:
        parts = give.row.split("/")
        named = {(w, d) for w, d in frame.day_keys if w in parts and str(d) in parts}
        groups = {w for g in frame.groups if g.name in parts for w in g.walkers}
        named |= {(w, d) for w, d in frame.day_keys if w in groups and str(d) in parts}
        out |= named
        theirs |= {(w, d) for w, d in frame.day_keys if w in parts}
    return sorted(out or theirs or frame.day_keys)


def moved(near: Menu, portions: Iterable[Portion]) -> int:
    """Portions that differ between two menus, by walker, day, meal and food."""
    before = {place(p): round(p.doses, 6) for p in near.portions}
    after = {place(p): round(p.doses, 6) for p in portions}
    return sum(1 for key in before.keys() | after.keys() if before.get(key) != after.get(key))


def place(p: Portion) -> tuple[Key, str]:
    """Where a portion stands, and of what."""
    return (p.walker, p.day, p.meal), p.food
