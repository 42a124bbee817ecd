"""Counting climb between turning points."""

from __future__ import annotations

import random

import numpy as np
import pytest

from oatsack.route.climb import naive_m, running_climb_m, turning_points
from support.climbs import climbed_m
from support.each import each

TEN = [12, 17, 15, 20, 22, 18, 15, 16, 14, 12]
"""A ten-point example that goes round on public pages, there with a gain of 14; it is 13."""
FIFTEEN = [100, 101, 100, 101, 100, 101, 100, 110, 109, 110, 120, 119, 105, 106, 100]


def test_the_plain_sum_of_the_ten_point_example_is_thirteen_not_fourteen() -> None:
    # oracle: 5 + 5 + 2 + 1 up, 2 + 4 + 3 + 2 + 2 down, summed by hand
    assert naive_m(TEN) == (13.0, 13.0)


@each(("threshold", "climb"), [(2.0, 12.0), (3.0, 10.0), (5.0, 10.0)])
def test_turning_points_of_the_ten_point_example(threshold: float, climb: float) -> None:
    # oracle: turning points found by hand; a reversal of exactly the threshold counts
    assert climbed_m(TEN, threshold) == (climb, climb)


def test_small_waves_are_no_climb() -> None:
    # oracle: by hand; 25 up and down as a plain sum, 20 with a threshold of 2 m
    assert naive_m(FIFTEEN) == (25.0, 25.0)
    assert climbed_m(FIFTEEN, 2.0) == (20.0, 20.0)


def noisy_climb() -> list[float]:
    """A true climb of 100 m in 2,000 points under white noise of 2 m, seed 7."""
    dice = random.Random(7)
    return [100.0 * k / 2000 + dice.gauss(0.0, 2.0) for k in range(2000)]


def test_a_threshold_alone_does_not_tame_white_noise() -> None:
    # oracle: the same series counted by a separate program
    heights = noisy_climb()
    assert round(naive_m(heights)[0]) == 2317
    assert round(climbed_m(heights, 5.0)[0]) == 1178
    assert round(climbed_m(heights, 10.0)[0]) == 169


def test_smoothing_first_and_a_threshold_second_finds_the_true_climb() -> None:
    # oracle: the true climb is 100 m; a separate program counts 101
    noisy = np.array(noisy_climb())
    smooth = [noisy[max(0, k - 4) : k + 5].mean() for k in range(len(noisy))]
    assert round(climbed_m(smooth, 3.0)[0]) == 101


def test_extremes_are_exact_and_lie_where_they_lie() -> None:
    assert turning_points([0, 5, 4.5, 9, 1, 2, 0.5, 7], 3.0) == [0, 3, 6, 7]


@each("flat", [[5.0], [5.0, 5.0, 5.0], [5.0, 6.0, 5.0, 6.0]])
def test_ground_that_never_changes_by_the_threshold_has_no_climb(flat: list[float]) -> None:
    assert turning_points(flat, 3.0) == []
    assert climbed_m(flat, 3.0) == (0.0, 0.0)


def test_the_climb_so_far_ends_at_the_whole_and_never_falls() -> None:
    heights = np.array(noisy_climb())
    up, down = running_climb_m(heights, 3.0)
    assert (up[-1], down[-1]) == (
        pytest.approx(climbed_m(heights, 3.0)[0]),
        pytest.approx(climbed_m(heights, 3.0)[1]),
    )
    assert np.all(np.diff(up) >= 0)
    assert np.all(np.diff(down) >= 0)
    assert up[0] == down[0] == 0.0


def test_a_descent_alone_is_all_descent() -> None:
    assert climbed_m([900.0, 850.0, 851.0, 700.0], 3.0) == (0.0, 200.0)
