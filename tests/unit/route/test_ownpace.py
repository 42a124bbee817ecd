"""A recorded track with times gives the walker's own flat speed."""

from __future__ import annotations

import dataclasses
import itertools
import math

import numpy as np
import pytest

from oatsack.errors import UsageError
from oatsack.route import pace
from oatsack.route.ownpace import own_pace
from oatsack.values.route import Track
from support.tracks import line


def hills(along: float) -> float:
    return 700.0 + 120.0 * math.sin(along / 500.0)


def walked(track: Track, flat_ms: float, rule: str = "campbell-2022") -> Track:
    """The track with the times of someone who keeps exactly to a rule, scaled to their speed."""
    model = pace.model(rule)
    heights = [0.0 if h is None else h for h in track.height_m]
    step = 20.0
    times = [0.0]
    for a, b in itertools.pairwise(heights):
        grade = 100.0 * (b - a) / step
        speed = float(pace.speed_ms(model, grade, flat_ms=flat_ms))
        times.append(times[-1] + step / speed)
    return dataclasses.replace(track, time_s=tuple(times))


@pytest.mark.parametrize("flat_ms", [0.8, 1.15, 1.5])
@pytest.mark.parametrize("rule", ["campbell-2022", "tobler"])
def test_who_keeps_to_a_rule_gets_their_own_speed_back(flat_ms: float, rule: str) -> None:
    track = walked(line(9000.0, hills), flat_ms, rule)
    found = own_pace(track, pace.model(rule))
    assert found.flat_ms == pytest.approx(flat_ms, rel=0.02)
    assert found.rule == rule
    assert found.distance_m == pytest.approx(9000.0)
    assert found.spread < 0.1


def test_long_halts_do_not_slow_the_walker() -> None:
    track = walked(line(9000.0, hills), 1.2)
    halts = np.zeros(len(track.lat))
    halts[100:] += 1800.0
    halts[300:] += 600.0
    late = tuple(float(t or 0.0) + float(h) for t, h in zip(track.time_s, halts, strict=True))
    found = own_pace(dataclasses.replace(track, time_s=late))
    assert found.flat_ms == pytest.approx(1.2, rel=0.02)
    assert found.paused_min == pytest.approx(40.0, abs=4.0)  # with the rest of two 100 m parts


def test_a_stretch_by_bus_is_left_out() -> None:
    track = walked(line(9000.0, hills), 1.2)
    times = [float(t or 0.0) for t in track.time_s]
    ride = [times[150] + (k - 150) * 2.0 for k in range(150, 250)]
    after = [ride[-1] + t - times[249] for t in times[250:]]
    found = own_pace(dataclasses.replace(track, time_s=tuple(times[:150] + ride + after)))
    assert found.flat_ms == pytest.approx(1.2, rel=0.02)
    assert found.distance_m == pytest.approx(7000.0, abs=150.0)


def test_missing_times_are_bridged() -> None:
    track = walked(line(9000.0, hills), 1.2)
    sparse = tuple(t if k % 5 == 0 else None for k, t in enumerate(track.time_s))
    assert own_pace(dataclasses.replace(track, time_s=sparse)).flat_ms == pytest.approx(
        1.2, rel=0.02
    )


def test_a_track_without_times_or_too_short_says_so() -> None:
    with pytest.raises(UsageError, match="no times"):
        own_pace(line(9000.0, hills))
    with pytest.raises(UsageError, match="less than a kilometre"):
        own_pace(walked(line(600.0, hills), 1.2))
