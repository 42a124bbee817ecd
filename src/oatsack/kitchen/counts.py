"""Small things counted by habit: tablets, flavouring, sweetener, coffee; so many per what.

How many are packed the menu says, which books the energy they may carry; here stands what they are
for: which bottle, how much water each is made for. What goes per bottle goes into the first one, so
that there is plain water to cook and wash with.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from itertools import cycle
from math import ceil

from oatsack.kitchen.price import in_mug
from oatsack.values.food import Food
from oatsack.values.kitchen import CountLine
from oatsack.values.menu import Menu, Portion
from oatsack.values.walker import Count, Walker

TABLET_ML = 473.0
"""Water for which one effervescent tablet is made: 16 fl oz. Common practice."""


def fills(day_ml: float, bottles_ml: Sequence[float]) -> tuple[tuple[int, float], ...]:
    """Which bottle is filled how often for a day's water: pairs of bottle (from 0) and its fills.

    Bottles are drunk in turn, and the last fill of the day may be a part of one.
    """
    out = dict.fromkeys(range(len(bottles_ml)), 0.0)
    left = day_ml
    for i in cycle(range(len(bottles_ml))):
        if left <= 0 or bottles_ml[i] <= 0:
            break
        part = min(1.0, left / bottles_ml[i])
        out[i] += part
        left -= bottles_ml[i]
    return tuple(out.items())


def first_fills(day_ml: float, bottles_ml: Sequence[float]) -> int:
    """How often the first bottle is filled for a day's water, a part of a fill counted whole."""
    return ceil(sum(n for i, n in fills(day_ml, bottles_ml) if i == 0) - 1e-9)


def strength(bottle_ml: float, tablets: float, tablet_ml: float = TABLET_ML) -> float:
    """How strong a bottle comes out; 1 is as the tablet is meant."""
    return tablets * tablet_ml / bottle_ml


def mugs(portions: Sequence[Portion], foods: Mapping[str, Food], walker: str) -> dict[int, float]:
    """Day -> mugs of hot drink a walker has."""
    out: dict[int, float] = {}
    for p in portions:
        food = foods[p.food]
        if p.walker == walker and in_mug(food):
            out[p.day] = out.get(p.day, 0.0) + p.doses
    return out


def count_lines(
    menu: Menu, foods: Mapping[str, Food], walkers: Sequence[Walker], bottles_ml: Sequence[float]
) -> dict[str, dict[str, CountLine]]:
    """Walker -> food -> every small thing of the walker's usual that the menu packs."""
    booked: dict[tuple[str, str], dict[str, float]] = defaultdict(dict)
    for p in menu.portions:
        if p.why == "count":
            days = booked[p.walker, p.food]
            days[str(p.day)] = days.get(str(p.day), 0.0) + p.doses
    out: dict[str, dict[str, CountLine]] = {}
    for walker in walkers:
        for count in walker.usual.counts:
            by_day = booked.get((walker.id, count.food))
            if by_day:
                line = _line(count, foods[count.food], by_day, bottles_ml)
                out.setdefault(walker.id, {})[count.food] = line
    return out


def _line(
    count: Count, food: Food, by_day: Mapping[str, float], bottles_ml: Sequence[float]
) -> CountLine:
    bottle = count.per == "bottle" and bool(bottles_ml)
    return CountLine(
        per=count.per,
        each=count.count,
        by_day=by_day,
        take=float(ceil(sum(by_day.values()) - 1e-9)),
        bottle_ml=bottles_ml[0] if bottle else 0.0,
        made_for_ml=(food.prep.water_ml or TABLET_ML) if bottle else food.prep.water_ml,
    )
