"""The days of a walk: which dates it has, and which minutes of each lie inside it (C4).

A day runs from waking to waking and bears its waking date; only what lies between the trip's begin
and end counts. Its clock is the wall clock at waking, carried on: when the clocks change at night
the day is an hour longer or shorter, and the next one starts on the new wall clock. So no hour is
lost and none is counted twice.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

if TYPE_CHECKING:
    from oatsack.values.trip import Trip

WAKE_MIN = 360.0
"""Waking at 06:00 (common practice), or an hour before walking begins where that is earlier."""
BEFORE_START_MIN = 60.0
DAY_MIN = 1440.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The part of one day that lies inside the walk, in minutes from its midnight."""

    number: int
    date: dt.date
    start_min: float
    end_min: float
    walk_from_min: float
    """When walking begins: the start clock, on the first day the trip's begin."""
    wake_min: float
    night: bool
    """Whether the day ends with a night in camp."""
    share: float
    """How much of a full day's walking fits into it, 0 to 1."""

    @property
    def inside_min(self) -> float:
        """Minutes inside the walk."""
        return self.end_min - self.start_min


def windows_of(trip: Trip) -> tuple[Window, ...]:
    """Every day with at least one minute inside the walk, in order, numbered from 1."""
    zone = ZoneInfo(trip.zone)
    begin, end = trip.begin.astimezone(zone), trip.end.astimezone(zone)
    wake = min(WAKE_MIN, trip.route.start_clock_min - BEFORE_START_MIN)
    dates = [
        begin.date() + dt.timedelta(days=k) for k in range((end.date() - begin.date()).days + 1)
    ]
    found: list[Window] = []
    for date in dates:
        start = begin if date == begin.date() else _instant(date, wake, zone)
        close = min(end, _instant(date + dt.timedelta(days=1), wake, zone), key=_utc)
        if _utc(start) < _utc(close):
            found.append(_window(trip, len(found) + 1, start, close, wake))
    return _with_some_share(tuple(found))


def _window(
    trip: Trip, number: int, start: dt.datetime, close: dt.datetime, wake_min: float
) -> Window:
    """One day between two instants."""
    start_min = _wall(start)
    end_min = start_min + (_utc(close) - _utc(start)).total_seconds() / 60.0
    start_clock = trip.route.start_clock_min
    walk_from = start_min if number == 1 else min(max(start_min, start_clock), end_min)
    return Window(
        number=number,
        date=start.date(),
        start_min=start_min,
        end_min=end_min,
        walk_from_min=walk_from,
        wake_min=wake_min,
        night=_utc(close) < _utc(trip.end) or end_min >= DAY_MIN + wake_min - 180.0,
        share=_share(
            walk_from, end_min, start_clock, trip.rules.meal_clock_min.get("dinner", 1110.0)
        ),
    )


def _share(walk_from: float, end: float, start_clock: float, dinner: float) -> float:
    """Walking hours of this day over those of a full one, from the start clock to dinner."""
    full = max(60.0, dinner - start_clock)
    return min(1.0, max(0.0, min(end, dinner) - walk_from) / full)


def _with_some_share(windows: tuple[Window, ...]) -> tuple[Window, ...]:
    """A walk that lies wholly outside the usual walking hours still walks: all its days share."""
    if not windows or any(window.share > 0.0 for window in windows):
        return windows
    longest = max(window.inside_min for window in windows)
    return tuple(replace(window, share=window.inside_min / longest) for window in windows)


def _instant(date: dt.date, minutes: float, zone: ZoneInfo) -> dt.datetime:
    """The wall clock of a date as an instant."""
    midnight = dt.datetime.combine(date, dt.time(), zone)
    return midnight + dt.timedelta(minutes=minutes)


def _utc(instant: dt.datetime) -> dt.datetime:
    """Comparable and subtractable across a clock change."""
    return instant.astimezone(dt.UTC)


def _wall(instant: dt.datetime) -> float:
    """Minutes on the wall clock since midnight."""
    return instant.hour * 60.0 + instant.minute + instant.second / 60.0
