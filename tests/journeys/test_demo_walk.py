"""The bundled walk: invented, reproducible, and walkable."""

from __future__ import annotations

import hashlib
import importlib.util
import sys
from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest

from oatsack.files.daylight import daylight_of
from oatsack.files.tracks import read_track
from oatsack.files.trip import read_trip
from oatsack.route.days import days_of
from oatsack.route.flags import flags_of
from oatsack.values.route import Day, Track
from oatsack.values.trip import Trip

ROOT = Path(__file__).resolve().parents[2]
DEMO = files("oatsack") / "data" / "demo"


@pytest.fixture(scope="module")
def trip() -> Trip:
    return read_trip(Path(str(DEMO / "trip.toml")))


@pytest.fixture(scope="module")
def track(trip: Trip) -> Track:
    assert trip.route.track is not None
    return read_track((DEMO / trip.route.track).read_bytes(), trip.route.track)


@pytest.fixture(scope="module")
def days(trip: Trip, track: Track) -> tuple[Day, ...]:
    return days_of(trip, track, daylight=daylight_of(trip, track))


def test_five_days_end_at_the_named_camps(trip: Trip, days: tuple[Day, ...]) -> None:
    assert tuple(day.camp_name for day in days) == (*trip.route.camps, "")
    assert [day.camp_dry for day in days] == [True, False, False, False, False]


def test_the_days_are_an_ordinary_walk(days: tuple[Day, ...]) -> None:
    """Common practice: 10 to 20 km and up to 1,000 m of climb a day with a full pack."""
    for day in days:
        assert 9_000 <= day.distance_m <= 20_000
        assert day.ascent_m <= 1_000
        assert day.short_min == 0.0
        assert len(day.stretches) <= 250
    assert 2_000 <= sum(day.ascent_m for day in days) <= 3_500


def test_nothing_about_the_way_is_alarming(trip: Trip, days: tuple[Day, ...]) -> None:
    assert [flag.key for flag in flags_of(days, trip) if flag.level in ("caution", "block")] == []


def test_every_day_passes_water_and_one_source_is_doubtful(days: tuple[Day, ...]) -> None:
    assert all(day.water for day in days)
    told = {place.name: place.reliability for day in days for place in day.water}
    assert {"doubtful", "likely"} <= set(told.values())


def test_files_say_that_they_are_invented() -> None:
    for name in ("trip.toml", "track.gpx"):
        assert "nvented" in (DEMO / name).read_text(encoding="utf-8")[:1200]


def test_party_differs_in_size_diet_and_in_what_was_picked(trip: Trip) -> None:
    one, other = trip.walkers
    assert abs(one.mass_kg - other.mass_kg) > 20
    assert one.eats != other.eats
    assert "breakfast" in one.usual.meals
    assert "breakfast" not in other.usual.meals
    assert trip.kit.containers
    assert trip.rules.budget is not None


@pytest.mark.slow
def test_the_script_writes_the_bundled_track_again(tmp_path: Path) -> None:
    """Equal seed, equal ground and equal way; bytes may differ where another machine rounds."""
    spec = importlib.util.spec_from_file_location("drawn", ROOT / "scripts" / "make_demo_track.py")
    assert spec is not None
    assert spec.loader is not None
    script = importlib.util.module_from_spec(spec)
    sys.modules["drawn"] = script
    spec.loader.exec_module(script)
    script.TARGET = tmp_path / "track.gpx"
    script.main()
    bundled = (DEMO / "track.gpx").read_bytes()
    again = script.TARGET.read_bytes()
    if hashlib.sha256(again).digest() != hashlib.sha256(bundled).digest():
        new, old = read_track(again, "again"), read_track(bundled, "bundled")
        assert np.array(new.lat) == pytest.approx(np.array(old.lat), abs=2e-6)
        assert np.array(new.height_m) == pytest.approx(np.array(old.height_m), abs=0.2)
