"""Small things counted by habit: tablets, flavouring, sweetener, coffee; so many per what.

A count is never a fraction handed out: it is rounded over the whole trip, not each day. Knows
nothing of the energy they may carry; the menu books that.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import cycle
from math import ceil, floor

from oatsack.kitchen.price import in_mug
from oatsack.values.food import Food
from oatsack.values.menu import Portion
from oatsack.values.walker import Count, Walker

TABLET_ML = 473.0
"""Water for which one effervescent tablet is made: 16 fl oz. Common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """How many of one small thing a walker takes, by day and in all."""

    walker: str
    food: str
    per: str
    by_day: Mapping[int, float]
    """Before rounding, so that half a sachet a day is two on four days."""
    take: int
    """To pack: the sum, rounded up."""


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


def tablets_for(bottle_ml: float, tablet_ml: float = TABLET_ML) -> int:
    """Whole tablets for a bottle, the weaker side where it lies between two; at least one."""
    return max(1, floor(bottle_ml / tablet_ml + 0.25))


def strength(bottle_ml: float, tablets: int, tablet_ml: float = TABLET_ML) -> float:
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


def times(
    count: Count, *, days: Sequence[int], mugs_of: Mapping[int, float],
    fills_of: Mapping[int, float],
) -> dict[int, float]:  # fmt: skip
    """Day -> how many of a counted thing, before rounding. A thing per trip counts on day one."""
    if count.per == "trip":
        return {days[0]: count.count} if days else {}
    each = {"day": dict.fromkeys(days, 1.0), "mug": mugs_of, "bottle": fills_of}[count.per]
    return {day: count.count * each.get(day, 0.0) for day in days}


def counted(
    walker: Walker, portions: Sequence[Portion], foods: Mapping[str, Food], *,
    days: Sequence[int], walking_ml: Mapping[int, float], bottles_ml: Sequence[float],
) -> tuple[Counted, ...]:  # fmt: skip
    """Every small thing of a walker's usual. A thing per bottle goes into the first bottle.

    The other bottles hold plain water, so that there is always some to cook and wash with.
    """
    mugs_of = mugs(portions, foods, walker.id)
    flavoured = {
        day: float(ceil(sum(n for i, n in fills(walking_ml.get(day, 0.0), bottles_ml) if i == 0)))
        for day in days
    }
    out = []
    for count in walker.usual.counts:
        by_day = times(count, days=days, mugs_of=mugs_of, fills_of=flavoured)
        out.append(
            Counted(walker=walker.id, food=count.food, per=count.per, by_day=by_day,
                    take=ceil(sum(by_day.values()) - 1e-9))
        )  # fmt: skip
    return tuple(out)
