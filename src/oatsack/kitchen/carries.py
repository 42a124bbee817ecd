"""Water on the back: from each place with water to the next, dry camps between them included.

Knows times and distances of the day, and how much is asked for on the way. A place marked doubtful
is not counted on. Where a day names no places at all nobody knows what must be carried, and the
walker's bottles bound the suggestion.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from oatsack.values.kitchen import WaterCarry
from oatsack.values.route import Day

DAY_MIN = 1440.0
NEAR_MIN = 15.0
"""A place so shortly before the next one saves nobody anything, and is passed over. Ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """A place with water: from when until when one is there, minutes from the first midnight."""

    name: str
    day: int
    at: float
    until: float
    distance_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """Water used evenly over a span, or at a point (start = end), per walker [ml]."""

    start: float
    end: float
    water_ml: float

    def within(self, start: float, end: float) -> float:
        """The part used after `start` and up to `end` [ml]."""
        if self.end <= self.start:
            return self.water_ml if start < self.start <= end else 0.0
        overlap = min(end, self.end) - max(start, self.start)
        return self.water_ml * max(0.0, overlap) / (self.end - self.start)


def minute(day: Day, clock_min: float) -> float:
    """Minutes from the first day's midnight."""
    return (day.number - 1) * DAY_MIN + clock_min


def arrival_min(day: Day) -> float:
    """When one stands in camp: the end of the last walking, or of nothing, the day's start."""
    walks = [s for s in day.stretches if s.kind == "walk"]
    if walks:
        return walks[-1].end_min
    return day.stretches[0].start_min if day.stretches else 0.0


def departure_min(day: Day) -> float:
    """When one leaves the camp one woke in; a day without walking stays until it ends."""
    walks = [s for s in day.stretches if s.kind == "walk"]
    if walks:
        return walks[0].start_min
    return day.stretches[-1].end_min if day.stretches else DAY_MIN


def supplies(days: Sequence[Day]) -> list[Supply]:
    """Start, water places, camps with water and the end, in order of time."""
    first, last = days[0], days[-1]
    out = [_at(first, "start", departure_min(first), 0.0)]
    base = 0.0
    for i, day in enumerate(days):
        for place in day.water:
            if place.reliability != "doubtful":
                out.append(_at(day, place.name, place.at_min, base + place.distance_m))
        base += day.distance_m
        if day.camp_m is not None and not day.camp_dry and day is not last:
            out.append(
                Supply(
                    name=day.camp_name or f"camp {day.number}",
                    day=day.number,
                    at=minute(day, arrival_min(day)),
                    until=minute(days[i + 1], departure_min(days[i + 1])),
                    distance_m=base,
                )
            )
    end = last.stretches[-1].end_min if last.stretches else DAY_MIN
    ordered = [*sorted(out, key=lambda s: (s.at, s.until)), _at(last, "end", end, base)]
    return [a for a, b in pairwise(ordered) if a is ordered[0] or not _near(a, b)] + ordered[-1:]


def _near(a: Supply, b: Supply) -> bool:
    """Whether a place without a night lies just before another one."""
    return a.at == a.until and b.name != "end" and b.at - a.until <= NEAR_MIN


def _at(day: Day, name: str, clock_min: float, distance_m: float) -> Supply:
    at = minute(day, clock_min)
    return Supply(name=name, day=day.number, at=at, until=at, distance_m=distance_m)


def carries(
    days: Sequence[Day], demands: Sequence[Demand], *, bottles_ml: float
) -> tuple[WaterCarry, ...]:
    """Litres from each place with water to the next, per walker (the mean of the party)."""
    if not days:
        return ()
    by_number = {day.number: day for day in days}
    legs = []
    for a, b in pairwise(supplies(days)):
        water = sum(d.within(a.until, b.at) for d in demands)
        if water <= 0 or b.at <= a.until:
            continue
        why = _why(a, b, by_number)
        legs.append(
            WaterCarry(
                day=a.day if a.until <= minute(by_number[a.day], DAY_MIN) else a.day + 1,
                start=a.name,
                end=b.name,
                distance_m=b.distance_m - a.distance_m,
                minutes=b.at - a.until,
                carry_ml=min(water, bottles_ml) if why == "places-unknown" else water,
                why=why,
            )
        )
    return tuple(legs)


def _why(a: Supply, b: Supply, days: dict[int, Day]) -> str:
    """dry-camp: a night without water lies between; places-unknown: nobody named any."""
    between = [days[n] for n in range(a.day, b.day + 1) if n in days]
    if any(d.camp_dry and minute(d, arrival_min(d)) < b.at for d in between):
        return "dry-camp"
    walked = [d for d in between if minute(d, arrival_min(d)) > a.until]
    return "to-next-water" if any(d.water for d in walked) else "places-unknown"
