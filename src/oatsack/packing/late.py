"""The prepared answer to being one, two or three days late.

What is left on the evening when it is noticed, spare food included, is spread over what remains of
the walk and the days more. The answer is a share of each walker's own number, never a fixed band
of energy: every meal and hot drink stays, each gets thinner. Under 18, pregnant or ill: full food
first, and the others stretch (C11).
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from oatsack.values.food import Food
from oatsack.values.kitchen import FuelPlan
from oatsack.values.menu import Menu
from oatsack.values.plan import Late
from oatsack.values.route import Day

COUNTS = (1, 2, 3)


def late_plans(menu: Menu, foods: Mapping[str, Food], target: Mapping[str, Mapping[int, float]],
               fuel: FuelPlan | None, days: Sequence[Day], *,
               notice_day: int | None = None) -> tuple[Late, ...]:  # fmt: skip
    """The late plans of the longest leg.

    `target` is what each walker chose to eat by day; the fullest day of it is the walker's number.
    `notice_day` is the day on whose evening the delay is known; None: half-way through the leg.
    """
    first, last = _longest_leg(days)
    notice = (first - 1 + math.ceil((last - first + 1) / 2)) if notice_day is None else notice_day
    left = {w: left_kcal(menu, foods, w, notice, last) for w in target}
    return tuple(
        _late(count, left, target, fuel, notice=notice, last=last) for count in COUNTS
    )  # fmt: skip


def _longest_leg(days: Sequence[Day]) -> tuple[int, int]:
    spans: dict[int, list[int]] = {}
    for day in days:
        spans.setdefault(day.leg, []).append(day.number)
    best = max(spans.values(), key=len)
    return min(best), max(best)


def left_kcal(menu: Menu, foods: Mapping[str, Food], walker: str, after: int,
              last: int) -> float:  # fmt: skip
    """Energy a walker still has after a day, to the leg's end, spare food included [kcal]."""
    planned = sum(
        p.doses * foods[p.food].dose_kcal
        for p in menu.portions
        if p.walker == walker and after < p.day <= last
    )
    spare = sum(p.doses * foods[p.food].dose_kcal for p in menu.spare if p.walker == walker)
    return planned + spare


def day_equivalents(target: Mapping[int, float], after: int, last: int) -> float:
    """How many full days of the walker's number are planned after a day, part days as parts."""
    full = max(target.values(), default=0.0)
    rest = sum(kcal for day, kcal in target.items() if after < day <= last)
    return rest / full if full > 0 else 0.0


def _late(count: int, left: Mapping[str, float], target: Mapping[str, Mapping[int, float]],
          fuel: FuelPlan | None, *, notice: int, last: int) -> Late:  # fmt: skip
    share, kcal_day = {}, {}
    for walker, kcal in left.items():
        full = max(target[walker].values(), default=0.0)
        whole = full * (day_equivalents(target[walker], notice, last) + count)
        share[walker] = min(1.0, kcal / whole) if whole > 0 else 1.0
        kcal_day[walker] = share[walker] * full
    fuel_left, fuel_needed = fuel_g(fuel, notice, last, count)
    return Late(days=count, left_kcal=dict(left), share=share, kcal_day=kcal_day,
                fuel_left_g=fuel_left, fuel_needed_g=fuel_needed)  # fmt: skip


def fuel_g(fuel: FuelPlan | None, notice: int, last: int, more_days: int) -> tuple[float, float]:
    """Fuel left on the evening of a day, and needed for the rest and so many full days more [g].

    A full day burns as much as the thirstiest day of the plan; the reserve counts as left.
    """
    if fuel is None:
        return 0.0, 0.0
    by_day = {int(day): grams for day, grams in fuel.by_day_g.items()}
    left = fuel.carried_g - sum(g for day, g in by_day.items() if day <= notice)
    needed = sum(g for day, g in by_day.items() if notice < day <= last)
    return max(0.0, left), needed + more_days * max(by_day.values(), default=0.0)
