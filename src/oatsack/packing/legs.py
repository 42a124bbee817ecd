"""Legs of a long walk: what waits at each resupply, when a box may be posted, what a leg weighs.

Days are numbers of the walk (C4): day 0 is the day before it begins, day -4 is four days earlier
still. Opening hours, transit and hold are facts of a place that somebody must ask for; the defaults
are common practice and say when they were checked, if ever.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from oatsack.packing.arrival import best_posting, longest_wait, open_chance
from oatsack.values.pack import Bag, Box, Place
from oatsack.values.route import Day

LONG_RAMP: tuple[tuple[float, float], ...] = ((2, 0.8), (6, 1.0), (14, 1.1))
LONG_RAMP_LATER = 1.2
"""Appetite of a long walk: up to a day, times the level (common practice; one's own first)."""
LEVEL_KG = 0.72
"""Food per person and day before the ramp [kg], as packed (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """When a box may be posted so that it is there and still held, in days of the walk and dates.

    `closed` are arrival dates on which the place hands nothing out; `open` those on which it does.
    A window with `earliest` after `latest` does not exist: ask for a longer hold or a faster post.
    """

    place: str
    earliest: int
    latest: int
    earliest_date: dt.date
    latest_date: dt.date
    open: tuple[dt.date, ...]
    closed: tuple[dt.date, ...]

    @property
    def exists(self) -> bool:
        """Whether any day of posting suits every day of arrival."""
        return self.earliest <= self.latest

    def at_risk(self, posted: int) -> bool:
        """Whether a box posted on this day may come too late, or go back too soon."""
        return not self.earliest <= posted <= self.latest


def places_of(days: Sequence[Day], places: Sequence[Place] = ()) -> tuple[Place, ...]:
    """The place at the start of every later leg: as given, else a box at the last leg's end."""
    given = {p.leg: p for p in places}
    ends: dict[int, Day] = {day.leg: day for day in days}
    out = []
    for leg in sorted(ends)[1:]:
        end = ends[max(e for e in ends if e < leg)]
        name = end.supplied or end.camp_name
        out.append(given.get(leg) or Place(leg=leg, day=end.number, name=name))
    return tuple(out)


def arrive_day(leg: int, days: Iterable[Day]) -> int:
    """The day on which a leg's food is taken on: the evening before its first day."""
    return max(1, min(day.number for day in days if day.leg == leg) - 1)


def boxes_of(bags: Sequence[Bag], days: Sequence[Day],
             places: Iterable[Place]) -> tuple[Box, ...]:  # fmt: skip
    """What each later leg takes on: a box with its days of posting, or what a shop must have."""
    return tuple(
        _box([b for b in bags if b.leg == place.leg], days, place)
        for place in places
        if any(b.leg == place.leg for b in bags)
    )


def _box(bags: Sequence[Bag], days: Sequence[Day], place: Place) -> Box:
    arrive = arrive_day(place.leg, days)
    first = min(days, key=lambda day: day.number)
    start = first.date - dt.timedelta(days=first.number - 1)
    window = posting_window(place, arrive, start)
    posted = place.kind == "box"
    best = best_posting(place, arrive) if posted else None
    return Box(
        leg=place.leg, place=place.name, arrive_day=arrive, bags=tuple(b.id for b in bags),
        gross_g=sum(b.gross_g for b in bags), kind=place.kind, shut=window.closed,
        post_from=window.earliest_date if posted else None,
        post_until=window.latest_date if posted else None,
        open_chance=open_chance(place, arrive, start),
        wait_days=longest_wait(place, arrive, start),
        box_chance=best.chance if best else None,
        post_on=date_of(best.day, start) if best else None,
        early=date_of(arrive - place.early_days, start),
        late=date_of(arrive + place.late_days, start),
    )  # fmt: skip


def posting_window(place: Place, expected: int, start: dt.date, *,
                   behind_days: int = 0) -> Window:  # fmt: skip
    """When to post a box for a walker expected on a day of the walk that begins on `start`.

    Latest: the earliest arrival less the slowest transit. Earliest: the latest arrival less the
    hold and the fastest transit. `behind_days` moves the latest arrival when one is late.
    """
    first = expected - place.early_days
    last = expected + place.late_days + behind_days
    latest = first - place.transit_slow_days
    earliest = last - place.hold_days - place.transit_fast_days
    arrivals = [date_of(day, start) for day in range(first, last + 1)]
    return Window(
        place=place.name, earliest=earliest, latest=latest,
        earliest_date=date_of(earliest, start), latest_date=date_of(latest, start),
        open=tuple(d for d in arrivals if d.weekday() in place.open_weekdays),
        closed=tuple(d for d in arrivals if d.weekday() not in place.open_weekdays),
    )  # fmt: skip


def date_of(day: int, start: dt.date) -> dt.date:
    """The date of a day of the walk; day 1 is its start."""
    return start + dt.timedelta(days=day - 1)


def ramp_on(day: float, ramp: Sequence[tuple[float, float]] = LONG_RAMP,
            later: float = LONG_RAMP_LATER) -> float:  # fmt: skip
    """Appetite factor of a day of a long walk; the ramp carries on over legs."""
    return next((factor for end, factor in ramp if day <= end), later)


def carried_by_leg_kg(lengths: Sequence[float], level_kg: float = LEVEL_KG, *,
                      flat: bool = False) -> tuple[float, ...]:  # fmt: skip
    """Food carried on each leg [kg per person]: level times the ramp over its days.

    A leg may end within a day: half a day counts half of that day's food. `flat`: without a ramp.
    """
    out, at = [], 0.0
    for length in lengths:
        whole = [(day, _overlap(day, at, at + length)) for day in range(1, int(at + length) + 2)]
        out.append(level_kg * sum(part * (1.0 if flat else ramp_on(d)) for d, part in whole))
        at += length
    return tuple(out)


def _overlap(day: int, start: float, end: float) -> float:
    """How much of a day (from day - 1 to day on the walk's axis) lies in a span."""
    return max(0.0, min(float(day), end) - max(float(day - 1), start))

