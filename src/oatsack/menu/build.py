"""The first plan: bags, then dinners, then the days, all from the tables of `menu/days`.

What comes out is checked on the exact matrix by completing it: the whole numbers are fixed, and
the engine fills in what measures and buys. `menu/choose` says what happens where that fails.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from oatsack.menu.days import BAG_BINS, DayTable, day_table, read_back
from oatsack.menu.frame import Frame, OpenBag, shares_dish
from oatsack.menu.groups import Group
from oatsack.menu.meals import BIN_KCAL, MOST_BAGS, Prices
from oatsack.menu.price import Relaxed
from oatsack.menu.rules import variety
from oatsack.values.problem import Floats, Problem

BAG_CANDIDATES = 60
ROUNDS = 6

Tables = dict[tuple[str, int], DayTable]


def first_plan(frame: Frame, problem: Problem, relaxed: Relaxed) -> Floats:
    """An answer whose whole-number columns are set; measuring columns stand at their least."""
    x = problem.low.copy()
    tables: Tables = {
        (walker, day): day_table(frame, walker, day, relaxed.prices)
        for walker, days in frame.days.items() for day in days
    }  # fmt: skip
    energy: dict[tuple[str, int], float] = {}
    for walker in frame.days:
        for bag in _bags(frame, walker, tables, relaxed):
            x[bag.column] = max(1.0, x[bag.column])
        for day in frame.days[walker]:
            energy[(walker, day)] = bag_kcal(frame, walker, day, x)
    dishes: dict[tuple[str, int], str] = {}
    for group in frame.groups:
        _dinners(frame, group, tables, energy, dishes, relaxed.prices)
    for at, table in tables.items():
        for o, doses in read_back(frame, table, dishes.get(at, ""), energy[at]):
            x[o.eat] = doses
            x[o.use] = max(x[o.use], 1.0)
    return x


def bag_kcal(frame: Frame, walker: str, day: int, x: Floats) -> float:
    """Energy that open bags bring to a walker's day [kcal]."""
    return sum(float(x[b.column]) * b.doses_day * b.facts.kcal for b in frame.day_bags(walker, day))


def _bags(frame: Frame, walker: str, tables: Tables, relaxed: Relaxed) -> list[OpenBag]:
    """Bags added, dropped and exchanged one at a time while the days get cheaper."""
    offered = [b for b in frame.bags.get(walker, ()) if not b.fixed]
    offered.sort(key=lambda b: (relaxed.prices.rank[b.column], b.column))
    search = _BagSearch(frame, walker, tables, relaxed, offered[:BAG_CANDIDATES])
    for bag in sorted(offered[:BAG_CANDIDATES], key=lambda b: -relaxed.x[b.column]):
        if relaxed.x[bag.column] > 0.2:
            search.better([bag], [])
    for _ in range(ROUNDS):
        if not search.sweep():
            break
    return search.taken


def _both_open(one: OpenBag, other: OpenBag) -> bool:
    """Whether two bags of one food would lie open on one day."""
    return one.bag.food.id == other.bag.food.id and bool(set(one.bag.days) & set(other.bag.days))


def _alike_days(some: list[OpenBag], others: list[OpenBag]) -> int:
    """Days on which bags of one class lie open beside each other."""
    return sum(
        len(set(one.bag.days).intersection(other.bag.days)) for one in some for other in others
        if one.bag.food.category == other.bag.food.category
    )  # fmt: skip


class _BagSearch:
    """The open bags of one walker, with the energy they bring to each day."""

    def __init__(
        self, frame: Frame, walker: str, tables: Tables, relaxed: Relaxed, offered: list[OpenBag]
    ) -> None:
        self.walker, self.tables, self.offered = walker, tables, offered
        self.cost = relaxed.prices.cost
        self.taken: list[OpenBag] = []
        self.kcal = {
            day: sum(b.bag.packs * b.doses_day * b.facts.kcal
                     for b in frame.day_bags(walker, day) if b.fixed)
            for day in frame.days[walker]
        }  # fmt: skip
        self.open = dict.fromkeys(frame.days[walker], 0)
        self.alike_g = variety.RULE.value(frame, "kind_grams") * frame.mean_carry

    def sweep(self) -> bool:
        """One round of all single changes; True when anything got better."""
        better = False
        for bag in list(self.taken):
            better |= self.better([], [bag])
        for bag in self.offered:
            if any(bag.column == b.column for b in self.taken):
                continue
            better |= self.better([bag], []) or any(
                self.better([bag], [other]) for other in list(self.taken)
                if set(other.bag.days) & set(bag.bag.days)
            )  # fmt: skip
        return better

    def better(self, add: list[OpenBag], drop: list[OpenBag]) -> bool:
        """Makes the change if the days get cheaper by it."""
        kcal, opened = self._after(add, drop)
        if any(self.open[d] + n > MOST_BAGS for d, n in opened.items() if n > 0):
            return False
        gone = {b.column for b in drop}
        stay = [b for b in self.taken if b.column not in gone]
        if any(_both_open(new, b) for new in add for b in stay):
            return False
        change = sum(float(self.cost[b.column]) for b in add)
        change -= sum(float(self.cost[b.column]) for b in drop)
        change += self.alike_g * (_alike_days(add, stay) - _alike_days(drop, stay))
        for day, extra in kcal.items():
            now, then = self._value(day, self.kcal[day]), self._value(day, self.kcal[day] + extra)
            if not np.isfinite(then):
                return False
            change += then - now if np.isfinite(now) else -1e9
        if change >= -1e-6:
            return False
        self._take(add, drop, kcal, opened)
        return True

    def _after(
        self, add: list[OpenBag], drop: list[OpenBag]
    ) -> tuple[dict[int, float], dict[int, int]]:
        kcal: dict[int, float] = {}
        opened: dict[int, int] = {}
        for sign, bags in ((1, add), (-1, drop)):
            for b in bags:
                for day in b.bag.days:
                    kcal[day] = kcal.get(day, 0.0) + sign * b.doses_day * b.facts.kcal
                    opened[day] = opened.get(day, 0) + sign
        return kcal, opened

    def _value(self, day: int, kcal: float) -> float:
        b = round(kcal / BIN_KCAL)
        return float("inf") if b >= BAG_BINS else self.tables[(self.walker, day)].best(b)

    def _take(
        self, add: list[OpenBag], drop: list[OpenBag], kcal: Mapping[int, float],
        opened: Mapping[int, int],
    ) -> None:  # fmt: skip
        gone = {b.column for b in drop}
        self.taken = [b for b in self.taken if b.column not in gone] + add
        for day, extra in kcal.items():
            self.kcal[day] += extra
            self.open[day] += opened[day]


def _dinners(
    frame: Frame, group: Group, tables: Tables, energy: Mapping[tuple[str, int], float],
    dishes: dict[tuple[str, int], str], prices: Prices,
) -> None:  # fmt: skip
    """The dish of every evening: cheapest for all who share it, and not the same again."""
    units = units_of(frame, group)
    costs = [dish_costs(frame, members, day, tables, energy, prices) for members, day in units]
    chosen: list[str] = [""] * len(units)
    for _ in range(3):
        for i, (members, day) in enumerate(units):
            if costs[i]:
                again = {name: _again(frame, units, chosen, i, name) for name in costs[i]}
                chosen[i] = min(costs[i], key=lambda n: (costs[i][n] + again[n], n))
            for walker in members:
                dishes[(walker, day)] = chosen[i]


def units_of(frame: Frame, group: Group) -> list[tuple[tuple[str, ...], int]]:
    """Who eats one dish on which day: the sharing members together, the others alone."""
    out: list[tuple[tuple[str, ...], int]] = []
    for day in sorted({d for w in group.walkers for d in frame.days.get(w, ())}):
        sharing = shares_dish(frame, group, day, "dinner")
        sharing = sharing if len(sharing) > 1 else []
        if sharing:
            out.append((tuple(sharing), day))
        out += [((w,), day) for w in group.walkers
                if w not in sharing and day in frame.days.get(w, ())]  # fmt: skip
    return out


def dish_costs(
    frame: Frame, members: tuple[str, ...], day: int, tables: Tables,
    energy: Mapping[tuple[str, int], float], prices: Prices,
) -> dict[str, float]:  # fmt: skip
    """What the day costs all who share its dinner, by dish."""
    price_of: dict[str, float] = {}
    for o in frame.options.get((members[0], day, "dinner"), ()):
        if o.use >= 0 and frame.builder.columns[o.use].startswith("dish/"):
            price_of[o.food.id] = float(prices.cost[o.use])
    common: set[str] | None = None
    for walker in members:
        names = set(tables[(walker, day)].value)
        common = names if common is None else common & names
    out = {}
    for name in sorted(common or ()):
        bins = {w: min(BAG_BINS - 1, round(energy[(w, day)] / BIN_KCAL)) for w in members}
        values = [float(tables[(w, day)].value[name][bins[w]]) for w in members]
        out[name] = price_of.get(name, 0.0) + sum(values)
    return out


def _again(
    frame: Frame, units: list[tuple[tuple[str, ...], int]], chosen: list[str], i: int, name: str
) -> float:
    """What it costs to eat the same dinner too soon for the same eaters."""
    members, day = units[i]
    apart = max(2, frame.request.rules.dinner_apart_days)
    wider = variety.RULE.value(frame, "dinner_wish_days")
    cost = 0.0
    for j, (others, at) in enumerate(units):
        eaters = len(set(others) & set(members))
        if j != i and name and chosen[j] == name and eaters:
            gap = abs(at - day)
            cost += eaters * variety.RULE.value(frame, "dinner_grams") if gap < apart else 0.0
            cost += eaters * variety.RULE.value(frame, "wish_grams") if gap < wider else 0.0
    return cost * frame.mean_carry
