"""A recorded line as a height profile: spikes out, smoothed by distance, climbs counted.

The steps, in order: heights that are absent or absurd or stand out from their neighbours are left
out and bridged; the height is averaged over a window of distance (not of points: that would flatten
sparse lines and leave dense ones noisy); turning points count the climb (`climb`). Slopes are taken
over 100 m, clamped to 45 percent.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

from oatsack.route.climb import MAP_THRESHOLD_M, SATELLITE_THRESHOLD_M, running_climb_m
from oatsack.route.line import along_m

if TYPE_CHECKING:
    import numpy.typing as npt

    from oatsack.values.route import Track

    Array = npt.NDArray[np.float64]
    Mask = npt.NDArray[np.bool_]

STEP_M = 15.0
WINDOW_M = 30.0
WIDE_M = 50.0
HEIGHTS: Mapping[str, tuple[float, float]] = MappingProxyType({
    "map": (WINDOW_M, MAP_THRESHOLD_M),
    "barometer": (WINDOW_M, MAP_THRESHOLD_M),
    "satellite": (WIDE_M, SATELLITE_THRESHOLD_M),
})  # fmt: skip
"""Where heights come from: window of the mean and least reversal that counts [m]. Maps and
barometers waver by a metre or less, bare satellite heights by 5 to 15. Source: common practice."""
LOWEST_M, HIGHEST_M = -450.0, 8900.0
"""Heights of land lie between (the Dead Sea's shore, the highest summit; from memory)."""
SPIKE_M = 30.0
"""A height this far from the middle of its neighbours is a spike, unless the ground between them
is long enough to climb it at 45 degrees (ours)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Profile:
    """Heights on an even grid along the way, and the climb so far at each place."""

    along_m: Array
    height_m: Array
    up_m: Array
    down_m: Array
    points_m: Array
    """How far along each recorded point lies."""
    known: bool = True
    """Whether the line carried heights at all."""
    dropped: int = 0
    """Points whose height was left out."""

    @property
    def length_m(self) -> float:
        """Length along the map [m]."""
        return float(self.along_m[-1])

    def height_at(self, along: float) -> float:
        """Height so far along the way [m]."""
        return float(np.interp(along, self.along_m, self.height_m))

    def climb_m(self, start: float, end: float) -> tuple[float, float]:
        """Ascent and descent between two places; parts add up to the whole [m]."""
        up = np.interp((start, end), self.along_m, self.up_m)
        down = np.interp((start, end), self.along_m, self.down_m)
        return float(up[1] - up[0]), float(down[1] - down[0])

    def highest_m(self, start: float, end: float) -> float:
        """The highest ground between two places [m]."""
        inside = self.height_m[(self.along_m >= start) & (self.along_m <= end)]
        ends = (self.height_at(start), self.height_at(end))
        return max(*ends, float(inside.max()) if len(inside) else ends[0])

    def slopes(self, start: float, end: float, step_m: float) -> tuple[Array, Array]:
        """Joints every `step_m` or less, and the slope between them [m, percent]; not clamped."""
        count = max(1, int(np.ceil((end - start) / step_m)))
        joints = np.linspace(start, end, count + 1)
        heights = np.interp(joints, self.along_m, self.height_m)
        return joints, 100.0 * np.diff(heights) / np.diff(joints)


def profile_of(
    track: Track,
    *,
    window_m: float = WINDOW_M,
    threshold_m: float = MAP_THRESHOLD_M,
    base_m: float = 0.0,
) -> Profile:
    """The profile of a track of two points or more.

    `window_m` is the smoothing distance (20 to 50 m), `threshold_m` the least reversal that counts
    (3 m for maps and barometers, 10 m for bare satellite heights), `base_m` the height of a line
    that carries none.
    """
    points = along_m(track)
    raw = np.array([np.nan if h is None else h for h in track.height_m], dtype=float)
    keep = kept(points, raw)
    grid = np.linspace(0.0, points[-1], max(1, int(np.ceil(points[-1] / STEP_M))) + 1)
    if keep.any():
        knots, heights = _one_height_a_place(points[keep], raw[keep])
        height = smoothed(knots, heights, grid, window_m)
    else:
        height = np.full_like(grid, base_m)
    up, down = running_climb_m(height, threshold_m)
    return Profile(
        along_m=grid,
        height_m=height,
        up_m=up,
        down_m=down,
        points_m=points,
        known=bool(keep.any()),
        dropped=int((~keep).sum()),
    )


def kept(points: Array, heights: Array) -> Mask:
    """Which points carry a height worth believing; none where all are zero, as if unknown."""
    keep = np.isfinite(heights)
    known = np.where(keep, heights, np.inf)
    keep &= (known > LOWEST_M) & (known < HIGHEST_M)
    if not np.any(heights[keep]):
        return np.zeros_like(keep)
    places = np.flatnonzero(keep)
    if len(places) >= 5:
        keep[places[_spikes(points[places], heights[places])]] = False
    return keep


def _spikes(points: Array, heights: Array) -> Mask:
    """Heights that stand out from the median of the five around them."""
    padded = np.pad(heights, 2, mode="edge")
    middle = np.median(np.lib.stride_tricks.sliding_window_view(padded, 5), axis=1)
    reach = np.pad(points, 2, mode="edge")
    span = (reach[4:] - reach[:-4]) / 2.0
    return np.abs(heights - middle) > SPIKE_M + span


def _one_height_a_place(points: Array, heights: Array) -> tuple[Array, Array]:
    """The mean height of each place, where the walker stood still."""
    places, where = np.unique(points, return_inverse=True)
    return places, np.bincount(where, weights=heights) / np.bincount(where)


def smoothed(knots: Array, heights: Array, at: Array, window_m: float) -> Array:
    """Mean of the line through the knots over a window around each place.

    The window narrows towards both ends, so that the ends keep their height.
    """
    if len(knots) == 1:
        return np.full_like(at, heights[0])
    half = np.minimum(window_m / 2.0, np.minimum(at - at[0], at[-1] - at))
    low, high = _integral(knots, heights, at - half), _integral(knots, heights, at + half)
    plain = np.interp(at, knots, heights)
    with np.errstate(invalid="ignore", divide="ignore"):
        mean = (high - low) / (2.0 * half)
    result: Array = np.where(half > 1e-6, mean, plain)
    return result


def _integral(knots: Array, heights: Array, at: Array) -> Array:
    """Area under the line through the knots, from the first one on; level beyond the ends."""
    widths = np.diff(knots)
    area = np.concatenate(([0.0], np.cumsum(widths * (heights[1:] + heights[:-1]) / 2.0)))
    cell = np.clip(np.searchsorted(knots, at, side="right") - 1, 0, len(widths) - 1)
    into = np.clip(at - knots[cell], 0.0, widths[cell])
    slope = np.diff(heights)[cell] / widths[cell]
    inside = area[cell] + into * (heights[cell] + slope * into / 2.0)
    before = np.minimum(at - knots[0], 0.0) * heights[0]
    after = np.maximum(at - knots[-1], 0.0) * heights[-1]
    total: Array = inside + before + after
    return total
