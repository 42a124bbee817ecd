"""The need on the clock: stretches cut at full hours and gathered per hour of each waking day."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from oatsack.values.plan import Hour
from oatsack.walker.stretches import WALK

if TYPE_CHECKING:
    from oatsack.walker.need import Need
    from oatsack.walker.stretches import Column, Whole

# Pieces shorter than this are dust from cutting at full hours [min].
DUST_MIN = 1e-9


def hourly(need: Need) -> tuple[Hour, ...]:
    """One row per hour in which the walk runs, in order; nothing is eaten yet. An hour in which the
    walk begins starts with it.

    Energy, minutes and distance are sums over the hour; height and pack are means over its time.
    """
    rows, share, clock = _cut(need)
    s = need.stretches
    walked = np.where(s.kind == WALK, s.minutes, 0.0)
    keys = s.day[rows] * 100_000 + clock
    hours, place = np.unique(keys, return_inverse=True)

    def gathered(column: Column) -> Column:
        return np.bincount(place, column[rows] * share, hours.size).astype(np.float64)

    minutes, begun = gathered(s.minutes), np.full(hours.size, np.inf)
    np.minimum.at(begun, place, np.maximum(s.start_min[rows], clock * 60.0))
    table = np.stack([
        begun, minutes, gathered(walked), gathered(walked * 60.0 * s.speed_ms),
        gathered(s.height_m * s.minutes) / minutes, gathered(s.load_kg * s.minutes) / minutes,
        gathered(need.low_kcal), gathered(need.likely_kcal), gathered(need.high_kcal),
    ])  # fmt: skip
    return tuple(
        _hour(int(key), [float(v) for v in row]) for key, row in zip(hours, table.T, strict=True)
    )


def _hour(key: int, row: list[float]) -> Hour:
    begun, minutes, walked, distance, height, pack, low, likely, high = row
    return Hour(
        day=key // 100_000, start_min=begun, minutes=minutes,
        walk_min=walked, distance_m=distance, height_m=height, pack_kg=pack, need_low_kcal=low,
        need_kcal=likely, need_high_kcal=high, eaten_kcal=0.0,
    )  # fmt: skip


def _cut(need: Need) -> tuple[Whole, Column, Whole]:
    """Every stretch cut at full hours: its row, the share of it, the hour of the day."""
    start = need.stretches.start_min
    end = start + need.stretches.minutes
    first = np.floor(start / 60.0 + DUST_MIN).astype(np.int64)
    last = np.maximum(first + 1, np.ceil(end / 60.0 - DUST_MIN).astype(np.int64))
    count = last - first
    rows = np.repeat(np.arange(start.size), count)
    offset = np.arange(rows.size) - np.repeat(np.cumsum(count) - count, count)
    clock = first[rows] + offset
    inside = np.minimum(end[rows], (clock + 1) * 60.0) - np.maximum(start[rows], clock * 60.0)
    whole = np.maximum(need.stretches.minutes[rows], DUST_MIN)
    return rows, np.maximum(inside, 0.0) / whole, clock


def with_eaten(hours: tuple[Hour, ...], eaten_kcal: Column) -> tuple[Hour, ...]:
    """The same hours with what is eaten in each [kcal]."""
    return tuple(
        replace(hour, eaten_kcal=float(kcal)) for hour, kcal in zip(hours, eaten_kcal, strict=True)
    )
