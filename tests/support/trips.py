"""Small trips for tests: one walker, a zone, and a route."""

from __future__ import annotations

import datetime as dt
from typing import Any
from zoneinfo import ZoneInfo

from oatsack.values.trip import HandDay, RouteSpec, Trip
from oatsack.values.walker import Walker

ZONE = "Europe/Vienna"
USUAL = HandDay(distance_m=16_000.0, ascent_m=700.0, descent_m=700.0)


def at(text: str, zone: str = ZONE) -> dt.datetime:
    """An aware clock: ``2026-06-04 09:00``."""
    return dt.datetime.fromisoformat(text).replace(tzinfo=ZoneInfo(zone))


def trip_of(begin: str, end: str, *, zone: str = ZONE, **route: Any) -> Trip:
    """A trip of one walker between two wall clocks, with these fields of its route."""
    return Trip(
        title="a walk of the tests",
        begin=at(begin, zone),
        end=at(end, zone),
        zone=zone,
        walkers=(Walker(id="ida", name="Ida", mass_kg=75.0),),
        route=RouteSpec(**route),
    )
