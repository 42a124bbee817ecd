"""Meals eaten in a town on the way: what they take off the day's target, and when they are eaten.

``target = base x ramp x share of the day's meals inside the walk - what is eaten in town`` (C15).
The share counts the town's meals too; no sack holds them, so no slot stands for them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from oatsack.menu.slots import MEAL_SHARE, in_town, town_share
from oatsack.provision.moments import day_start
from oatsack.values.trip import MEAL_CLOCK, Trip
from oatsack.walker.target import Targets

LEAST_OWN = 0.5
"""However much one eats in town, so much of what the day's own meals would bring is carried (ours):
a town's kitchen may be shut, and breakfast is eaten before one comes there."""


def credited(trip: Trip, targets: Targets, shares: Mapping[int, float]) -> Targets:
    """Targets less what is eaten in town; `shares` are those of the day's meals, town included."""
    town = {
        day: kcal for day in targets.kcal
        if (kcal := _credit(trip, day, targets.kcal[day], shares.get(day, 0.0))) != 0.0
    }  # fmt: skip
    left = {day: kcal - town.get(day, 0.0) for day, kcal in targets.kcal.items()}
    return replace(targets, kcal=left, town_kcal=town)


def _credit(trip: Trip, day: int, kcal: float, share: float) -> float:
    """What is eaten in town on a day, as far as it spares food of one's own [kcal]."""
    part = town_share(trip, day)
    as_planned = kcal * part / share if share > 0 else 0.0
    told = stated_kcal(trip, day)
    most = kcal - LEAST_OWN * (kcal - as_planned)
    return min(most, as_planned if told is None else told)


def stated_kcal(trip: Trip, day: int) -> float | None:
    """What the trip says is eaten in town on a day [kcal]; None: it names meals at most.

    A stated energy is shared out by the usual shares of the meals named; without one it is eaten on
    the day of arrival.
    """
    told = [place for place in trip.places if place.town_kcal is not None]
    parts = [
        place.town_kcal * _part(place.day, place.town_meals, day)
        for place in told
        if place.town_kcal is not None
    ]
    return sum(parts) if any(parts) else None


def _part(arrival: int, meals: frozenset[str], day: int) -> float:
    """The part of what is eaten in a town that falls on a day."""
    if not meals:
        return float(day == arrival)
    weights = {m: MEAL_SHARE[m] for m in MEAL_SHARE if m in meals}
    mine = sum(w for m, w in weights.items() if arrival + (m == "breakfast") == day)
    return mine / sum(weights.values())


def town_moments(trip: Trip, town: Mapping[int, float]) -> Sequence[tuple[float, float]]:
    """Minute and energy [kcal] of each meal in town, for a timeline."""
    clocks = {**MEAL_CLOCK, **trip.rules.meal_clock_min}
    out = []
    for day, kcal in sorted(town.items()):
        meals = sorted(m for d, m in in_town(trip) if d == day) or ["dinner"]
        whole = sum(MEAL_SHARE[m] for m in meals)
        out += [(day_start(day) + clocks[m], kcal * MEAL_SHARE[m] / whole) for m in meals]
    return out


def fed_kcal(targets: Mapping[int, float], town: Mapping[int, float]) -> Mapping[int, float]:
    """Day -> all that is eaten, from the sack and in town [kcal]."""
    return {day: kcal + town.get(day, 0.0) for day, kcal in targets.items()}
