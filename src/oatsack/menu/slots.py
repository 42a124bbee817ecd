"""Which meals a walk holds, counted from clock times, and what share of a full day each day is.

A meal belongs to the day of its window and is served if the window's middle lies inside the walk
(C4); days times three is never asked. How much is eaten in all is not known here (`walker/target`),
nor what (`menu/choose`).
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Set

from oatsack.values.food import Meal
from oatsack.values.menu import Slot
from oatsack.values.route import Day
from oatsack.values.trip import MEAL_CLOCK, Rules, Trip
from oatsack.values.walker import Walker

MEAL_SHARE: Mapping[Meal, float] = {
    "breakfast": 0.20, "lunch": 0.22, "move": 0.28, "dinner": 0.30, "drinks": 0.0,
}  # fmt: skip
"""Share of a full day's energy by meal. Source: common practice (breakfast 15-25 %, grazing and
lunch 40-50 %, dinner 25-35 %)."""

HOT_DRINK_MEALS: frozenset[Meal] = frozenset({"breakfast", "dinner"})
"""Meals that hot drinks go with (common practice)."""
LEAST_MOVE_MIN = 90.0
"""Nibbling is planned from this much of the daytime on; ours."""


def slots_of(trip: Trip, days: tuple[Day, ...]) -> tuple[Slot, ...]:
    """Every occasion of every walker inside the walk, in walker, day and clock order."""
    out: list[Slot] = []
    for walker in trip.walkers:
        for day in days:
            out += _day_slots(trip, days, day, walker)
    return tuple(out)


def day_shares(trip: Trip, slots: tuple[Slot, ...]) -> dict[int, float]:
    """Day -> share of a full day's eating that lies inside the walk, for one walker's slots.

    Meals in a town on the way count, though no sack holds them.
    """
    out: dict[int, float] = {}
    for slot in slots:
        share = MEAL_SHARE[slot.meal]
        if slot.meal == "move":
            share *= _daytime_inside(trip, slot.date)
        out[slot.day] = out.get(slot.day, 0.0) + share
    return {day: share + town_share(trip, day) for day, share in out.items()}


def cups(a_day: float, meals: Set[Meal]) -> float:
    """Hot drinks of a day with these meals: half of them belong to breakfast, half to dinner, and a
    day that has only one of the two has half, rounded up."""
    return float(math.ceil(a_day * len(meals & HOT_DRINK_MEALS) / len(HOT_DRINK_MEALS) - 1e-9))


def in_town(trip: Trip) -> frozenset[tuple[int, Meal]]:
    """Day and meal of everything that is eaten in a town on the way: lunch and dinner of the day on
    which one comes there, breakfast of the next."""
    return frozenset(
        (place.day + (meal == "breakfast"), meal)
        for place in trip.places if place.day > 0
        for meal in place.town_meals
    )  # fmt: skip


def town_share(trip: Trip, day: int) -> float:
    """Share of a full day's eating that happens in town on a day."""
    return sum(MEAL_SHARE[meal] for at, meal in in_town(trip) if at == day)


def _day_slots(trip: Trip, days: tuple[Day, ...], day: Day, walker: Walker) -> list[Slot]:
    served = _meals_served(trip, day.date)
    served -= {meal for at, meal in in_town(trip) if at == day.number}
    if not served & {"breakfast", "dinner"}:
        served -= {"drinks"}
    if served - {"drinks"} == set():
        return []
    first = min(d.number for d in days if d.leg == day.leg)
    clocks = {**MEAL_CLOCK, "move": 600.0, "drinks": 1140.0, **trip.rules.meal_clock_min}
    ordered = sorted(served, key=lambda meal: clocks[meal])
    return [
        Slot(
            walker=walker.id, day=day.number, date=day.date, meal=meal, clock_min=clocks[meal],
            hot=meal_is_hot(meal, trip), minutes_limit=trip.rules.minutes.get(meal),
            carry_days=float(day.number - first + 1), leg=day.leg,
        )
        for meal in ordered
    ]  # fmt: skip


def _meals_served(trip: Trip, date: dt.date) -> set[Meal]:
    clocks = {**MEAL_CLOCK, **trip.rules.meal_clock_min}
    timed: tuple[Meal, ...] = ("breakfast", "lunch", "dinner")
    served: set[Meal] = {meal for meal in timed if _inside(trip, date, clocks[meal])}
    if _daytime_inside(trip, date) * daytime_min(trip.rules) >= LEAST_MOVE_MIN:
        served.add("move")
    if served & {"breakfast", "dinner"}:
        served.add("drinks")
    return _switched(served, trip, date)


def _switched(served: set[Meal], trip: Trip, date: dt.date) -> set[Meal]:
    """The walker's own word on the first day's meals and on the lunch of the finish day."""
    first, last = trip.rules.first_day_meals, trip.rules.last_lunch
    if first is not None and date == trip.begin.date():
        served = set(first) | (served & {"drinks"} if first & {"breakfast", "dinner"} else set())
    if last is not None and date == trip.end.date():
        served = served | {"lunch"} if last else served - {"lunch"}
    return served


def meal_is_hot(meal: Meal, trip: Trip) -> bool:
    """Whether anything may be heated at this meal on this trip."""
    if trip.rules.no_flame or trip.kit.stove is None:
        return False
    if meal == "breakfast":
        return trip.rules.hot_breakfast
    if meal == "lunch":
        return trip.rules.cook_midday
    return meal in ("dinner", "drinks")


def _position(trip: Trip, date: dt.date, clock_min: float) -> float:
    return (date - trip.begin.date()).days * 1440.0 + clock_min


def _walk_limits(trip: Trip) -> tuple[float, float]:
    """Begin and end of the walk on the wall clock, minutes from the first midnight."""
    begin = trip.begin.hour * 60.0 + trip.begin.minute
    end = _position(trip, trip.end.date(), trip.end.hour * 60.0 + trip.end.minute)
    return begin, end


def _inside(trip: Trip, date: dt.date, clock_min: float) -> bool:
    begin, end = _walk_limits(trip)
    return begin <= _position(trip, date, clock_min) <= end


def daytime_min(rules: Rules) -> float:
    """Length of the time in which one nibbles: from breakfast to dinner [min]."""
    clocks = {**MEAL_CLOCK, **rules.meal_clock_min}
    return max(1.0, clocks["dinner"] - clocks["breakfast"])


def _daytime_inside(trip: Trip, date: dt.date) -> float:
    """Share of the time between breakfast and dinner of that date that lies inside the walk."""
    clocks = {**MEAL_CLOCK, **trip.rules.meal_clock_min}
    begin, end = _walk_limits(trip)
    low = max(begin, _position(trip, date, clocks["breakfast"]))
    high = min(end, _position(trip, date, clocks["dinner"]))
    return min(1.0, max(0.0, high - low) / daytime_min(trip.rules))
