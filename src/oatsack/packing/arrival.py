"""When one comes to a place, and how likely it is open then and a box lies ready.

Rests on what the walker states: the earliest, the expected and the latest day, the weekdays on
which it is open, the days of post and hold. The spread between them is a triangle of ours; public
holidays and closing hours within a day are not known here. Days are numbers of the walk (C4).
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from oatsack.values.pack import Place

WEEK = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Posting:
    """The day of posting that serves best, and the chance that goes with it."""

    day: int
    chance: float


def arrivals(place: Place, expected: int, *, behind_days: int = 0) -> Mapping[int, float]:
    """Chance of each day of arrival: most on the expected day, falling evenly to nothing on the day
    before the earliest and on the day after the latest (ours)."""
    first, last = expected - place.early_days, expected + place.late_days + behind_days
    weight = {
        day: 1.0 - (expected - day) / (expected - first + 1) if day <= expected
        else 1.0 - (day - expected) / (last - expected + 1)
        for day in range(first, last + 1)
    }  # fmt: skip
    whole = sum(weight.values())
    return {day: part / whole for day, part in weight.items()}


def is_open(place: Place, day: int, start: dt.date) -> bool:
    """Whether the place is open on the weekday of a day; day 1 of the walk is `start`."""
    return (start + dt.timedelta(days=day - 1)).weekday() in place.open_weekdays


def open_chance(place: Place, expected: int, start: dt.date) -> float:
    """Chance that it is open on the day one comes, 0 to 1."""
    spread = arrivals(place, expected)
    return sum(part for day, part in spread.items() if is_open(place, day, start))


def longest_wait(place: Place, expected: int, start: dt.date) -> int:
    """Days until it opens for whoever comes at the worst time; a week where it never does."""
    return max(
        next((n for n in range(WEEK) if is_open(place, day + n, start)), WEEK)
        for day in arrivals(place, expected)
    )


def ready_chance(place: Place, expected: int, posted: int) -> float:
    """Chance that a box posted on a day is there and still held when one comes, 0 to 1.

    Each day from the fastest to the slowest is an equally likely time on the way (ours), and it is
    independent of the walk.
    """
    times = range(place.transit_fast_days, place.transit_slow_days + 1)
    return sum(
        part * sum(posted + t <= day <= posted + t + place.hold_days for t in times) / len(times)
        for day, part in arrivals(place, expected).items()
    )


def best_posting(place: Place, expected: int) -> Posting:
    """The day of posting with the best chance; of several, the one in the middle, for it leaves the
    most room on either side."""
    days = range(
        expected - place.early_days - place.hold_days - place.transit_slow_days,
        expected + place.late_days - place.transit_fast_days + 1,
    )
    chance = {day: ready_chance(place, expected, day) for day in days}
    most = max(chance.values())
    best = [day for day, one in chance.items() if one >= most - 1e-9]
    day = best[len(best) // 2]
    return Posting(day=day, chance=chance[day])
