"""What nobody stated, besides the five assumptions that matter: a line for each, folded away.

A line stands under `default` in the words, by the path of the trip file. Paths without a line are
such as say nothing when left out (dislikes, holds, a diameter). To add one: a line there, and here
the value that it shows, if any.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from oatsack.reports.telling import Telling
from oatsack.values.trip import MEAL_CLOCK, Trip
from oatsack.values.walker import Walker

OF_TRIP: Mapping[str, Callable[[Trip], Any]] = {
    "zone": lambda t: t.zone,
    "rules.times.breakfast": lambda t: _clock(t, "breakfast"),
    "rules.times.lunch": lambda t: _clock(t, "lunch"),
    "rules.times.dinner": lambda t: _clock(t, "dinner"),
    "rules.dinner_apart": lambda t: t.rules.dinner_apart_days,
    "rules.day_window": lambda t: t.rules.day_window,
    "rules.trip_window": lambda t: t.rules.trip_window,
    "rules.fat_ceiling": lambda t: t.rules.fat_ceiling,
    "rules.water": lambda t: t.rules.water_ml_h,
    "kit.pots": lambda t: t.kit.pots[0].volume_ml,
    "kit.mug": lambda t: t.kit.mug_ml,
    "kit.bottles": lambda t: sum(t.kit.bottles_ml),
    "route.start_height": lambda t: t.route.start_height_m,
    "route.warm": lambda t: t.route.warm_c,
    "route.cold": lambda t: t.route.cold_c,
    "route.walk_from": lambda t: t.route.start_clock_min,
    "need.model": lambda t: t.need.model,
}
"""Path -> the value that its line shows."""
OF_WALKER: Mapping[str, Callable[[Walker], Any]] = {"hot_drinks": lambda w: w.hot_drinks_day}
ALONE = (
    "rules.hot_breakfast", "rules.cook_midday", "rules.spare", "rules.one_pot", "rules.bags",
    "rules.weights.load", "rules.budget", "kit.stove.kind", "kit.cans", "kit.containers",
    "kit.treatment", "larder.files",
)  # fmt: skip
"""Paths whose line shows no value."""
EACH_ALONE = ("eats", "avoids")
"""Likewise, for each walker."""


def _clock(trip: Trip, meal: str) -> float:
    return {**MEAL_CLOCK, **trip.rules.meal_clock_min}[meal]  # type: ignore[index]


def default_lines(told: Telling) -> tuple[str, ...]:
    """A line for everything that stands at its default and is not among the assumptions."""
    named = {one.path for one in told.plan.assumptions}
    left = told.plan.trip.defaults - named
    if told.plan.trip.route.track:
        left -= {"route.start_height"}  # the track tells it
    return (*_of_trip(told, left), *_of_walkers(told, left))


def _of_trip(told: Telling, left: frozenset[str]) -> Iterator[str]:
    trip = told.plan.trip
    for path in (*OF_TRIP, *ALONE):
        if path in left:
            value = OF_TRIP[path](trip) if path in OF_TRIP else None
            yield told.say(f"default.{path}", value=value)


def _of_walkers(told: Telling, left: frozenset[str]) -> Iterator[str]:
    """One line for all whom it concerns; names only where there are several walkers."""
    walkers = told.plan.trip.walkers
    for key in (*OF_WALKER, *EACH_ALONE):
        whose = [w for n, w in enumerate(walkers) if f"walkers[{n}].{key}" in left]
        if whose:
            value = OF_WALKER[key](whose[0]) if key in OF_WALKER else None
            line = told.say(f"default.walkers.{key}", value=value)
            names = ", ".join(w.name for w in whose)
            yield line if len(walkers) == 1 else told.say("default.whose", names=names, line=line)
