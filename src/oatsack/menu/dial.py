"""The energy dial: more or less by whole things of the walker's own list; dinners do not move."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import combinations, combinations_with_replacement

from oatsack.values.food import Food
from oatsack.values.menu import Menu, MenuRequest, Portion

MOST_THINGS = 3
MOST_A_DAY = 3
CANDIDATES = 8
MOVES = ("move", "lunch", "breakfast")
"""Meals that the dial may touch."""


def dial(request: MenuRequest, menu: Menu, walker: str, kcal_day: float, *,
         by_day: Mapping[int, float] | None = None) -> Menu:  # fmt: skip
    """The menu with about so much more (or less) energy on every full day of one walker [kcal].

    Only foods that this walker already eats away from dinner are added or taken, in whole doses, at
    most three different ones; part days change by their share. What is held stays as it is held.
    `by_day` says how much on each day instead, where a change is not the same on all. `moved`
    counts the portions changed.
    """
    foods = {f.id: f for f in request.foods}
    mine = [p for p in menu.portions if p.walker == walker and p.meal in MOVES]
    own = _own_list(mine, foods)
    targets = request.target_kcal[walker]
    full = max(targets.values(), default=1.0)
    wanted = by_day or {day: kcal_day * target / full for day, target in targets.items()}
    best: dict[int, tuple[tuple[str, int], ...]] = {}
    least = float("inf")
    for things in _choices(own):
        plan = {d: _day(want, d, things, mine, foods) for d, want in wanted.items()}
        miss = sum(abs(wanted[d] - _kcal(plan[d], foods)) for d in wanted)
        if miss + 10.0 * len(things) < least - 1e-9:
            least, best = miss + 10.0 * len(things), plan
    portions = _changed(menu.portions, walker, best)
    count = sum(1 for changes in best.values() for _ in changes)
    return replace(menu, portions=portions, moved=count)


def _own_list(mine: Iterable[Portion], foods: Mapping[str, Food]) -> list[str]:
    """Foods eaten in whole doses away from dinner, the most often eaten first."""
    often: dict[str, int] = {}
    held = {p.food for p in mine if p.why == "held"}
    for p in (p for p in mine if p.food not in held):
        whole = p.why != "bag" and foods[p.food].role in ("snack", "side", "topping")
        if whole and foods[p.food].dose_kcal > 0:
            often[p.food] = often.get(p.food, 0) + 1
    return sorted(often, key=lambda name: (-often[name], name))[:CANDIDATES]


def _choices(own: list[str]) -> Iterable[tuple[str, ...]]:
    for n in range(MOST_THINGS + 1):
        yield from combinations(own, n)


def _day(
    want: float, day: int, things: tuple[str, ...], mine: list[Portion], foods: Mapping[str, Food]
) -> tuple[tuple[str, int], ...]:  # fmt: skip
    """Whole doses added (or taken, where there are any) that come closest to the wish."""
    sign = 1 if want >= 0 else -1
    if sign > 0:
        things = tuple(name for name in things if _may_come(name, day, mine, foods))
    best: tuple[tuple[str, int], ...] = ()
    least = abs(want)
    for n in range(1, MOST_A_DAY + 1):
        for some in combinations_with_replacement(things, n):
            changes = tuple((name, sign * some.count(name)) for name in dict.fromkeys(some))
            if sign < 0 and not _there(changes, day, mine):
                continue
            miss = abs(want - _kcal(changes, foods))
            if miss < least - 1e-9:
                least, best = miss, changes
    return best


def _may_come(name: str, day: int, mine: list[Portion], foods: Mapping[str, Food]) -> bool:
    """Whether more of it has a meal that day: one where it stands, or else on the move."""
    stands = any((p.day, p.food) == (day, name) and p.why != "bag" for p in mine)
    return stands or "move" in foods[name].meals


def _there(changes: tuple[tuple[str, int], ...], day: int, mine: list[Portion]) -> bool:
    """Whether the day holds what is to be taken."""
    for name, n in changes:
        have = sum(p.doses for p in mine if p.day == day and p.food == name and p.why != "bag")
        if have < -n:
            return False
    return True


def _kcal(changes: tuple[tuple[str, int], ...], foods: Mapping[str, Food]) -> float:
    return sum(n * foods[name].dose_kcal for name, n in changes)


def _changed(
    portions: tuple[Portion, ...], walker: str, plan: Mapping[int, tuple[tuple[str, int], ...]]
) -> tuple[Portion, ...]:
    out = list(portions)
    for day, changes in plan.items():
        for name, n in changes:
            _change(out, walker, day, name, n)
    return tuple(p for p in out if p.doses > 1e-9)


def _change(out: list[Portion], walker: str, day: int, name: str, n: int) -> None:
    """Adds or takes doses where the food already stands that day, else on the move."""
    places = [
        i for i, p in enumerate(out)
        if (p.walker, p.day, p.food) == (walker, day, name) and p.why != "bag" and p.meal in MOVES
    ]  # fmt: skip
    left = n
    for i in places:
        step = left if left > 0 else max(left, -round(out[i].doses))
        out[i] = replace(out[i], doses=out[i].doses + step)
        left -= step
    if left > 0:
        out.append(Portion(walker=walker, day=day, meal="move", food=name, doses=float(left)))
