"""Where a track's heights come from decides how much of their wavering counts as climb."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from oatsack.errors import TripFileError
from oatsack.files.trip import parse_trip
from oatsack.route.climb import MAP_THRESHOLD_M, SATELLITE_THRESHOLD_M
from oatsack.route.cuts import course_of
from oatsack.route.days import days_of
from oatsack.route.profile import HEIGHTS
from oatsack.values.route import Track
from support.tracks import line

TEXT = """
from = "2026-07-02 08:00"
to = "2026-07-02 20:00"
[[walkers]]
mass = "68 kg"
[route]
track = "way.gpx"
{more}
"""


def wavering(deviation_m: float, seed: int = 3) -> Track:
    """A steady climb of 300 m over 10 km with satellite-like noise that wanders."""
    true = line(10_000.0, lambda along: 500.0 + 0.03 * along, step_m=10.0)
    rng = np.random.default_rng(seed)
    noise = np.convolve(
        rng.normal(0.0, deviation_m, len(true.lat) + 30), np.ones(31) / 5.6, "valid"
    )
    heights = tuple(float(h or 0.0) + float(n) for h, n in zip(true.height_m, noise, strict=True))
    return dataclasses.replace(true, height_m=heights)


def climbed(track: Track, heights: str) -> float:
    profile = course_of(track, heights=heights).profile  # type: ignore[arg-type]
    return profile.climb_m(0.0, profile.length_m)[0]


def test_thresholds_are_3_m_for_maps_and_barometers_and_10_for_bare_satellites() -> None:
    """Common practice."""
    assert HEIGHTS["map"][1] == HEIGHTS["barometer"][1] == MAP_THRESHOLD_M == 3.0
    assert HEIGHTS["satellite"][1] == SATELLITE_THRESHOLD_M == 10.0


def test_satellite_heights_count_less_of_the_noise() -> None:
    track = wavering(5.0)
    by_map, by_satellite = climbed(track, "map"), climbed(track, "satellite")
    assert by_satellite < by_map
    assert abs(by_satellite - 300.0) < abs(by_map - 300.0)


def test_on_smooth_ground_it_makes_no_difference() -> None:
    track = line(10_000.0, lambda along: 500.0 + 0.03 * along)
    assert climbed(track, "satellite") == pytest.approx(climbed(track, "map"), abs=1.0)


def test_the_trip_file_says_where_heights_come_from() -> None:
    track = wavering(5.0)
    found = {}
    for word in HEIGHTS:
        trip = parse_trip(TEXT.format(more=f'heights = "{word}"'), "trip.toml")
        assert trip.route.heights == word
        found[word] = days_of(trip, track)[0].ascent_m
    assert found["map"] == found["barometer"] > found["satellite"]
    left_out = parse_trip(TEXT.format(more=""), "trip.toml")
    assert "route.heights" in left_out.defaults
    assert days_of(left_out, track)[0].ascent_m == found["map"]


def test_another_word_is_refused_at_its_place() -> None:
    with pytest.raises(TripFileError) as caught:
        parse_trip(TEXT.format(more='heights = "moon"'), "trip.toml")
    (fault,) = caught.value.faults
    assert (fault.path, fault.line) == ("route.heights", 8)
    assert '"satellite"' in fault.instead
