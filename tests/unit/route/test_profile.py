"""From recorded points to a height profile."""

from __future__ import annotations

import dataclasses
import math
import random
import time

import numpy as np
import pytest

from oatsack.route.profile import kept, profile_of, smoothed
from oatsack.values.route import Track
from support.each import each
from support.tracks import line


def hill(along: float) -> float:
    """Up 300 m and down again on 6 km."""
    return 500.0 + 300.0 * math.sin(math.pi * along / 6000.0)


def test_a_smooth_hill_keeps_its_climb_and_its_top() -> None:
    profile = profile_of(line(6000.0, hill))
    up, down = profile.climb_m(0.0, profile.length_m)
    assert (up, down) == (pytest.approx(300.0, abs=0.5), pytest.approx(300.0, abs=0.5))
    assert profile.highest_m(0.0, 6000.0) == pytest.approx(800.0, abs=0.3)
    assert profile.length_m == pytest.approx(6000.0, rel=1e-9)


@each("step_m", [2.0, 7.0, 20.0, 60.0])
def test_the_climb_hardly_depends_on_how_densely_the_line_was_recorded(step_m: float) -> None:
    dice = random.Random(3)
    profile = profile_of(line(6000.0, lambda x: hill(x) + dice.gauss(0.0, 0.8), step_m=step_m))
    assert profile.climb_m(0.0, 6000.0)[0] == pytest.approx(300.0, abs=8.0)


def test_white_noise_on_level_ground_is_nearly_no_climb() -> None:
    dice = random.Random(11)
    noisy = line(6000.0, lambda x: 500.0 + dice.gauss(0.0, 2.0), step_m=2.0)
    naive = np.diff(np.array(noisy.height_m, dtype=float))
    assert naive[naive > 0].sum() > 3000.0
    assert profile_of(noisy).climb_m(0.0, 6000.0)[0] < 60.0


def test_missing_heights_are_bridged() -> None:
    track = line(6000.0, lambda x: None if 1000 < x < 1400 else hill(x))
    profile = profile_of(track)
    assert profile.dropped == sum(h is None for h in track.height_m) > 10
    assert profile.height_at(1200.0) == pytest.approx((hill(1000) + hill(1400)) / 2, abs=1.0)


def test_absurd_heights_and_spikes_are_left_out() -> None:
    track = line(6000.0, hill)
    heights = list(track.height_m)
    heights[50], heights[51], heights[120], heights[200] = 32_767.0, -9999.0, 1500.0, 0.0
    profile = profile_of(dataclasses.replace(track, height_m=tuple(heights)))
    assert profile.dropped == 4
    assert profile.climb_m(0.0, 6000.0)[0] == pytest.approx(300.0, abs=1.0)
    assert profile.highest_m(0.0, 6000.0) == pytest.approx(800.0, abs=1.0)


def test_a_real_step_up_a_cliff_path_is_no_spike() -> None:
    points = np.arange(0.0, 400.0, 20.0)
    heights = np.where(points < 200.0, 500.0, 540.0)
    assert kept(points, heights).all()


@each("heights", [lambda x: None, lambda x: 0.0])
def test_a_line_without_heights_lies_at_the_base_and_says_so(heights: object) -> None:
    profile = profile_of(line(3000.0, heights), base_m=640.0)  # type: ignore[arg-type]
    assert not profile.known
    assert profile.climb_m(0.0, 3000.0) == (0.0, 0.0)
    assert profile.height_at(1500.0) == 640.0


def test_smoothing_keeps_both_ends_and_a_straight_slope() -> None:
    knots = np.array([0.0, 13.0, 40.0, 71.0, 100.0])
    at = np.linspace(0.0, 100.0, 41)
    assert smoothed(knots, 3.0 * knots, at, 50.0) == pytest.approx(3.0 * at)


def test_smoothing_is_a_mean_over_distance_not_over_points() -> None:
    """Many points on the low half must not pull the mean down."""
    knots = np.concatenate([np.linspace(0.0, 50.0, 500), [50.1, 100.0]])
    heights = np.where(knots <= 50.0, 0.0, 10.0)
    middle = smoothed(knots, heights, np.array([0.0, 50.05, 100.0]), 50.0)[1]
    assert middle == pytest.approx(5.0, abs=0.01)


def test_standing_still_adds_no_climb() -> None:
    track = line(2000.0, lambda x: 500.0 + 0.1 * x)
    dice = random.Random(5)
    wait = tuple(600.0 + dice.gauss(0.0, 3.0) for _ in range(400))
    mid = 50
    still = Track(
        name="stood",
        lat=track.lat[:mid] + (track.lat[mid],) * 400 + track.lat[mid:],
        lon=track.lon[:mid] + (track.lon[mid],) * 400 + track.lon[mid:],
        height_m=track.height_m[:mid] + wait + track.height_m[mid:],
    )
    assert profile_of(still).climb_m(0.0, 2000.0)[0] == pytest.approx(200.0, abs=3.0)


def test_slopes_are_taken_over_a_hundred_metres() -> None:
    profile = profile_of(line(1000.0, lambda x: 500.0 + 0.2 * x))
    joints, slopes = profile.slopes(0.0, 1000.0, 100.0)
    assert len(joints) == 11
    assert slopes == pytest.approx(np.full(10, 20.0), abs=0.01)


def test_a_long_lift_between_segments_has_no_length_and_a_short_gap_is_walked() -> None:
    def two(gap_m: float) -> Track:
        first, second = line(1000.0), line(1000.0)
        shift = (1000.0 + gap_m) / 1000.0 * (first.lat[-1] - first.lat[0])
        return dataclasses.replace(
            first,
            lat=first.lat + tuple(lat + shift for lat in second.lat),
            lon=first.lon + second.lon,
            height_m=first.height_m + second.height_m,
            starts=(0, len(first.lat)),
        )

    assert profile_of(two(200.0)).length_m == pytest.approx(2200.0, rel=1e-6)
    assert profile_of(two(5000.0)).length_m == pytest.approx(2000.0, rel=1e-6)


def test_a_hundred_thousand_points_take_no_time() -> None:
    dice = random.Random(1)
    track = line(
        200_000.0, lambda x: 900.0 + 200.0 * math.sin(x / 2000.0) + dice.gauss(0, 2), step_m=2.0
    )
    begun = time.perf_counter()
    profile_of(track)
    assert time.perf_counter() - begun < 1.0  # about 0.1 s on a quiet machine
