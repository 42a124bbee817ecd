"""Ascent and descent of a row of heights: plain sums, and sums between turning points.

A recorded height wavers, so adding up every rise counts noise as climb. Here a reversal counts only
when it reaches a threshold; the heights of the turning points themselves are exact. Common
practice: 3 m for a barometer or heights from a map, 10 m for bare satellite heights.
"""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

MAP_THRESHOLD_M = 3.0
SATELLITE_THRESHOLD_M = 10.0


def naive_m(heights: Sequence[float] | Array) -> tuple[float, float]:
    """Every rise and every fall, added up [m]."""
    rises = np.diff(np.asarray(heights, dtype=float))
    return float(rises[rises > 0].sum()), float(-rises[rises < 0].sum())


def turning_points(heights: Sequence[float] | Array, threshold_m: float) -> list[int]:
    """Places of the extremes between which the height changes by at least the threshold.

    Fewer than two are given where nothing changes that much.
    """
    turns: list[int] = []
    rows = np.asarray(heights, dtype=float).tolist()
    low = high = 0
    rising: bool | None = None
    for i, height in enumerate(rows):
        if height > rows[high]:
            high = i
        if height < rows[low]:
            low = i
        if rising is not False and rows[high] - height >= threshold_m:
            turns.append(high)
            rising, low = False, i
        elif rising is not True and height - rows[low] >= threshold_m:
            turns.append(low)
            rising, high = True, i
    if rising is not None:
        turns.append(high if rising else low)
    return turns


def running_climb_m(heights: Array, threshold_m: float) -> tuple[Array, Array]:
    """Ascent and descent so far at every place [m]; both only grow.

    Between two turning points the climb so far is the highest reached so far, so that the climbs of
    any pieces a way is cut into add up to that of the whole.
    """
    up, down = np.zeros_like(heights), np.zeros_like(heights)
    for first, last in itertools.pairwise(turning_points(heights, threshold_m)):
        leg = heights[first : last + 1]
        rising = bool(leg[-1] > leg[0])
        reached = np.maximum.accumulate(leg if rising else -leg)
        (up if rising else down)[first + 1 : last + 1] = np.diff(reached)
    return np.cumsum(up), np.cumsum(down)
