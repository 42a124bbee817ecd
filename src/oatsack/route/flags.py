"""What a person should hear about the days of a walk, as keys and values."""

from __future__ import annotations

from typing import TYPE_CHECKING

from oatsack.values.flags import Flag

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from oatsack.values.route import Day
    from oatsack.values.trip import Trip

HIGH_M = 2500.0
"""From here on height is felt. Source: common practice."""
LONG_MIN = 600.0
"""More walking than this makes a long day. Source: common practice."""
LEAST_DARK_MIN = 10.0
STEEP_PCT = 40.0
"""Beyond this the walking-cost models were not measured downhill."""
STEEP_SHARE = 0.03
"""Steep for at least this share of a day's way before it is mentioned."""


def flags_of(days: Iterable[Day], trip: Trip) -> tuple[Flag, ...]:
    """Days too long for their hours or their light, high or steep, in day order; then, in one, the
    days of which no slopes are known."""
    walked = tuple(days)
    each = (flag for day in walked for flag in _of_day(day, trip))
    return (*_paces(trip), *each, *_by_hand(walked))


def _by_hand(days: Iterable[Day]) -> Iterator[Flag]:
    """Days typed, or on a track without heights: their slopes are assumed."""
    typed = [day.number for day in days if day.by_hand and day.distance_m > 0]
    if typed:
        yield Flag(key="route.by-hand", level="note", values={"days": len(typed)})


def _paces(trip: Trip) -> Iterator[Flag]:
    """A pace that a recorded track tells, with what it rests on."""
    for walker in trip.walkers:
        own = walker.own_pace
        if own is not None:
            yield Flag(
                key="route.own-pace", level="note", scope=f"trip/{walker.id}",
                values={"walker": walker.id, "track": own.track, "flat_ms": own.flat_ms,
                        "distance_m": own.distance_m, "moving_min": own.moving_min},
            )  # fmt: skip


def _of_day(day: Day, trip: Trip) -> Iterator[Flag]:
    scope = f"days/{day.number}"
    if day.short_min >= 1.0:
        yield Flag(
            key="route.too-long", level="caution", scope=scope,
            values={"day": day.number, "short_min": day.short_min},
        )  # fmt: skip
    elif day.walking_min > LONG_MIN:
        yield Flag(
            key="route.long-day", level="quiet", scope=scope, source="common practice",
            values={"day": day.number, "walking_min": day.walking_min},
        )  # fmt: skip
    yield from _light(day, scope)
    yield from _early(day, trip, scope)
    yield from _ground(day, scope)


def _light(day: Day, scope: str) -> Iterator[Flag]:
    """Walking before sunrise or after sunset."""
    walks = [s for s in day.stretches if s.kind == "walk"]
    if day.daylight_min is None or not walks:
        return
    rise, fall = day.daylight_min
    dark = sum(_outside(s.start_min, s.end_min, rise, fall) for s in walks)
    if dark >= LEAST_DARK_MIN:
        yield Flag(
            key="route.after-dark", level="caution", scope=scope,
            values={"day": day.number, "dark_min": dark, "sunrise_min": rise, "sunset_min": fall,
                    "arrive_min": walks[-1].end_min},
        )  # fmt: skip


def _outside(start: float, end: float, rise: float, fall: float) -> float:
    """Minutes of a span that lie outside the light."""
    return (end - start) - max(0.0, min(end, fall) - max(start, rise))


def _early(day: Day, trip: Trip, scope: str) -> Iterator[Flag]:
    """Setting out before the walker's own start, so that the last day ends in time."""
    first = next((s.start_min for s in day.stretches if s.kind == "walk"), None)
    if first is not None and day.number > 1 and first < trip.route.start_clock_min - 1.0:
        yield Flag(
            key="route.early-start", level="quiet", scope=scope,
            values={"day": day.number, "start_min": first},
        )  # fmt: skip


def _ground(day: Day, scope: str) -> Iterator[Flag]:
    if day.highest_m > HIGH_M:
        yield Flag(
            key="route.high", level="quiet", scope=scope, source="common practice",
            values={"day": day.number, "highest_m": day.highest_m},
        )  # fmt: skip
    steep = sum(s.distance_m for s in day.stretches if abs(s.grade_pct) > STEEP_PCT)
    if day.distance_m > 0 and steep >= STEEP_SHARE * day.distance_m:
        yield Flag(
            key="route.steep", level="quiet", scope=scope,
            values={"day": day.number, "steep_m": steep, "limit_pct": STEEP_PCT},
        )  # fmt: skip
