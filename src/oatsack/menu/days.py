"""Days from meals: the cheapest day for every amount of energy that open bags bring, and back.

The energy rules of the day and of each meal are kept here exactly, in bins of 10 kcal.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from oatsack.menu.frame import Frame
from oatsack.menu.meals import BIN_KCAL, Dish, Item, Meals, Prices, table_of
from oatsack.menu.rules import energy_day, energy_meal
from oatsack.menu.rules.energy_day import carried, day_window
from oatsack.menu.usual import Key
from oatsack.values.problem import Floats

OUTSIDE = 1e6
"""What a day outside its window costs, and every kcal of it; above every aim."""
BAG_BINS = 100
"""Bags are looked at up to 1,000 kcal a day."""


@dataclass(slots=True)
class DayTable:
    """One walker's day: value of the day by dinner dish and by energy from bags."""

    walker: str
    day: int
    meals: dict[str, Meals]
    value: dict[str, Floats] = field(default_factory=dict)
    rest: Floats = field(default_factory=lambda: np.zeros(1))

    def best(self, b: int) -> float:
        """The cheapest day with about b x 10 kcal from bags, whatever the dinner."""
        b = min(b, BAG_BINS - 1)
        return min((float(v[b]) for v in self.value.values()), default=0.0)


def joined(a: Floats, b: Floats) -> Floats:
    """out[k] = min over i of a[i] + b[k - i]."""
    if len(a) > len(b):
        a, b = b, a
    out = np.full(len(a) + len(b) - 1, np.inf)
    for i in np.flatnonzero(np.isfinite(a)):
        span = out[i : i + len(b)]
        np.minimum(span, a[i] + b, out=span)
    return out


def meal_cost(frame: Frame, key: Key, kcal: Floats) -> Floats:
    """What the rule on the size of a meal asks at these energies."""
    slot = frame.slots[key]
    usual = frame.meal_kcal(slot)
    if key in frame.given.whole or usual <= 0:
        return np.zeros(len(kcal))
    rule = energy_meal.RULE
    low, high = rule.value(frame, "least") * usual, rule.value(frame, "most") * usual
    per_kcal = rule.value(frame, "grams_per_kcal") * max(1.0, slot.carry_days)
    missed = np.maximum(0.0, low - kcal) + np.maximum(0.0, kcal - high)
    return np.asarray(per_kcal * missed, np.float64)


def day_cost(frame: Frame, walker: str, day: int, kcal: Floats) -> Floats:
    """What the rule on the energy of a day asks; outside its window so much that a day only goes
    there, and not far, where there is no other."""
    target = frame.target(walker, day)
    if target <= 0:
        return np.zeros(len(kcal))
    rule = energy_day.RULE
    band = rule.value(frame, "free_band")
    carry = carried(frame, walker, day)
    per_kcal = rule.value(frame, "grams_per_kcal") * carry
    under = np.maximum(0.0, (1.0 - band) * target - kcal)
    over = np.maximum(0.0, kcal - (1.0 + band) * target)
    low, high = _window(frame, walker, day)
    miss = np.maximum(low - kcal, kcal - high)
    outside = np.where(miss > 1e-9, OUTSIDE * (1.0 + np.maximum(0.0, miss)), 0.0)
    return np.asarray(outside + per_kcal * (under + 0.3 * over), np.float64)


def _window(frame: Frame, walker: str, day: int) -> tuple[float, float]:
    """The day's window, no wider than the trip's: days inside it make a trip inside it."""
    at = (walker, day)
    if at not in frame.windows:
        low, high = day_window(frame, walker, day)
        target, width = frame.target(walker, day), frame.request.rules.trip_window
        picked = high > (1.0 + frame.request.rules.day_window) * target + 1e-6
        least = max(low, (1.0 - width) * target)
        frame.windows[at] = least, high if picked else max(least, min(high, (1.0 + width) * target))
    return frame.windows[at]


def kcal_of(array: Floats) -> Floats:
    """The energies of the bins of an array [kcal]."""
    return np.arange(len(array), dtype=np.float64) * BIN_KCAL


def day_table(frame: Frame, walker: str, day: int, prices: Prices) -> DayTable:
    """The day's meals and what the day costs by dinner and by energy from bags."""
    keys = frame.day_keys[(walker, day)]
    table = DayTable(
        walker=walker, day=day, meals={key[2]: table_of(frame, key, prices) for key in keys}
    )
    for key in keys:
        if key[2] != "move":
            for dish in table.meals[key[2]].dishes.values():
                dish.cost = dish.cost + meal_cost(frame, key, kcal_of(dish.cost))
    table.rest = _rest(table)
    dinner = table.meals.get("dinner")
    if dinner is None or not dinner.dishes:
        table.value[""] = _by_bag(frame, table, table.rest)
        return table
    for name, dish in dinner.dishes.items():
        table.value[name] = _by_bag(frame, table, joined(table.rest, dish.cost))
    return table


def _cheapest_dish(meals: Meals) -> Floats:
    size = max(len(d.cost) for d in meals.dishes.values())
    out = np.full(size, np.inf)
    for dish in meals.dishes.values():
        np.minimum(out[: len(dish.cost)], dish.cost, out=out[: len(dish.cost)])
    return out


def _rest(table: DayTable) -> Floats:
    """The cheapest breakfast, lunch and drinks together, by energy."""
    rest = np.zeros(1)
    for meal in ("breakfast", "lunch", "drinks"):
        meals = table.meals.get(meal)
        if meals is not None and meals.dishes:
            rest = joined(rest, _cheapest_dish(meals))
    return rest


def _by_bag(frame: Frame, table: DayTable, rest: Floats) -> Floats:
    """The cheapest day by energy from bags: over what is nibbled besides, and over the rest."""
    move = table.meals.get("move")
    nibbled = np.zeros(1) if move is None or not move.dishes else _cheapest_dish(move)
    size = len(nibbled) + BAG_BINS
    moves = np.arange(size, dtype=np.float64) * BIN_KCAL
    totals = np.arange(size + len(rest) - 1, dtype=np.float64) * BIN_KCAL
    costs = day_cost(frame, table.walker, table.day, totals)
    after = (rest[None, :] + sliding_window_view(costs, len(rest))).min(axis=1)
    key = (table.walker, table.day, "move")
    if key in frame.slots:
        after = after + meal_cost(frame, key, moves)
    steps = sliding_window_view(after, len(nibbled))[:BAG_BINS]
    return np.asarray((nibbled[None, :] + steps).min(axis=1), float)


def read_back(frame: Frame, table: DayTable, dish: str, bag_kcal: float) -> list[Item]:
    """The portions of the cheapest day with this dinner and this energy from bags."""
    parts = [m for name in ("breakfast", "lunch", "drinks", "dinner", "move")
             if (m := table.meals.get(name)) is not None and m.dishes]  # fmt: skip
    arrays = [_array_of(m, dish) for m in parts]
    chosen = _split(frame, table, arrays, parts, bag_kcal)
    out: list[Item] = []
    for meals, b in zip(parts, chosen, strict=True):
        out += _dish_at(meals, dish, b).meal(b)
    return out


def _array_of(meals: Meals, dish: str) -> Floats:
    if meals.key[2] == "dinner" and dish in meals.dishes:
        return meals.dishes[dish].cost
    return _cheapest_dish(meals)


def _dish_at(meals: Meals, dish: str, b: int) -> Dish:
    if meals.key[2] == "dinner" and dish in meals.dishes:
        return meals.dishes[dish]
    fits = [d for d in meals.dishes.values() if b < len(d.cost)]
    return min(fits, key=lambda d: float(d.cost[b]))


def _split(
    frame: Frame, table: DayTable, arrays: list[Floats], parts: list[Meals], bag_kcal: float
) -> list[int]:
    """The bin of every part in the cheapest day, found from the back."""
    sums = [np.zeros(1)]
    for array, meals in zip(arrays, parts, strict=True):
        if meals.key[2] == "move":
            array = array + meal_cost(frame, meals.key, kcal_of(array) + bag_kcal)
        sums.append(joined(sums[-1], array))
    total = sums[-1] + day_cost(frame, table.walker, table.day, kcal_of(sums[-1]) + bag_kcal)
    left = int(np.argmin(total))
    chosen: list[int] = []
    for array, before, meals in zip(arrays[::-1], sums[-2::-1], parts[::-1], strict=True):
        if meals.key[2] == "move":
            array = array + meal_cost(frame, meals.key, kcal_of(array) + bag_kcal)
        b = _step(array, before, left)
        chosen.append(b)
        left -= b
    return chosen[::-1]


def _step(array: Floats, before: Floats, left: int) -> int:
    bins = np.arange(max(0, left - len(before) + 1), min(left, len(array) - 1) + 1)
    return int(bins[np.argmin(array[bins] + before[left - bins])])
