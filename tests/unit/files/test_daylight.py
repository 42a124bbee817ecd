"""Sunrise and sunset where the walk is."""

from __future__ import annotations

import datetime as dt
import math

import pytest

from oatsack.files.daylight import NO_DAY, WHOLE_DAY, daylight_of, light_at
from support.each import each
from support.tracks import line
from support.trips import trip_of


def day_length_h(lat: float, date: dt.date) -> float:
    """Length of the day by the sunrise equation with Cooper's declination; from memory."""
    number = date.timetuple().tm_yday
    tilt = math.radians(23.45 * math.sin(math.radians(360.0 * (284 + number) / 365.0)))
    edge = math.radians(-0.833)
    phi = math.radians(lat)
    cosine = (math.sin(edge) - math.sin(phi) * math.sin(tilt)) / (math.cos(phi) * math.cos(tilt))
    return 2.0 * math.degrees(math.acos(cosine)) / 15.0


@each("lat", [-43.0, 0.0, 30.0, 47.0, 58.0])
@each("month", [1, 3, 6, 9, 12])
def test_the_length_of_the_day_is_that_of_the_sunrise_equation(lat: float, month: int) -> None:
    # oracle: the sunrise equation, good to about ten minutes with this declination
    date = dt.date(2026, month, 21)
    rise, fall = light_at(lat, 13.0, dates=[date], zone="Etc/GMT-1")[date]
    assert (fall - rise) / 60.0 == pytest.approx(day_length_h(lat, date), abs=0.2)


def test_the_middle_of_the_day_is_noon_by_the_sun() -> None:
    date = dt.date(2026, 4, 15)  # the equation of time is nearly zero then
    rise, fall = light_at(47.0, 15.0, dates=[date], zone="Etc/GMT-1")[date]
    assert (rise + fall) / 2.0 == pytest.approx(720.0, abs=2.0)


def test_summer_time_moves_the_clock_not_the_sun() -> None:
    date = dt.date(2026, 7, 1)
    winter = light_at(47.0, 13.0, dates=[date], zone="Etc/GMT-1")[date]
    summer = light_at(47.0, 13.0, dates=[date], zone="Europe/Vienna")[date]
    assert summer == (pytest.approx(winter[0] + 60.0), pytest.approx(winter[1] + 60.0))


def test_beyond_the_circle_the_sun_stays_up_or_down() -> None:
    june, december = dt.date(2026, 6, 21), dt.date(2026, 12, 21)
    light = light_at(70.0, 25.0, dates=[june, december], zone="Europe/Oslo")
    assert light == {june: WHOLE_DAY, december: NO_DAY}


def test_every_date_of_the_trip_has_its_light_and_without_a_track_none_has() -> None:
    trip = trip_of("2026-06-04 09:00", "2026-06-07 15:00")
    light = daylight_of(trip, line(9000.0))
    assert [date.day for date in light] == [4, 5, 6, 7]
    assert all(240.0 < rise < 360.0 and 1200.0 < fall < 1300.0 for rise, fall in light.values())
    assert daylight_of(trip, None) == {}
