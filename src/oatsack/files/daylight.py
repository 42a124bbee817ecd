"""Sunrise and sunset by date at a place, for `route.days.days_of`, which is pure and asks no sky.

The sky's geometry comes from a library; hills around the place are not known, and mountains shorten
the day. Where the sun does not set at all the day is light from midnight to midnight.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from zoneinfo import ZoneInfo

from oatsack.values.route import Track
from oatsack.values.trip import Trip

WHOLE_DAY = (0.0, 1440.0)
NO_DAY = (720.0, 720.0)


def daylight_of(trip: Trip, track: Track | None) -> Mapping[dt.date, tuple[float, float]]:
    """Sunrise and sunset of every date of the trip in minutes from midnight, at the track's middle.

    Empty without a track: nobody said where the walk is.
    """
    if track is None or not track.lat:
        return {}
    middle = len(track.lat) // 2
    first = trip.begin.astimezone(ZoneInfo(trip.zone)).date()
    dates = (first + dt.timedelta(days=k) for k in range(trip.day_count))
    return light_at(track.lat[middle], track.lon[middle], dates=dates, zone=trip.zone)


def light_at(
    lat: float, lon: float, *, dates: Iterable[dt.date], zone: str
) -> Mapping[dt.date, tuple[float, float]]:
    """Sunrise and sunset at a place by date, on the wall clock of a zone [min from midnight]."""
    return {date: _one(lat, lon, date, ZoneInfo(zone)) for date in dates}


def _one(lat: float, lon: float, date: dt.date, zone: ZoneInfo) -> tuple[float, float]:
    from astral import Observer
    from astral.sun import elevation, sunrise, sunset

    place = Observer(latitude=lat, longitude=lon)
    noon = dt.datetime.combine(date, dt.time(12), dt.UTC) - dt.timedelta(hours=lon / 15.0)
    try:
        rise, fall = sunrise(place, date, tzinfo=zone), sunset(place, date, tzinfo=zone)
    except ValueError:
        return WHOLE_DAY if elevation(place, noon) > 0.0 else NO_DAY
    return _minutes(rise, date), _minutes(fall, date)


def _minutes(moment: dt.datetime, date: dt.date) -> float:
    """Wall clock since the date's midnight; beyond 1440 after the next one."""
    days = (moment.date() - date).days
    return days * 1440.0 + moment.hour * 60.0 + moment.minute + moment.second / 60.0
