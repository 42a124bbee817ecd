"""A walker's own pace from a recorded track with times: speed on the flat, and what it rests on.

The recorded moving time is compared with what a walking-time rule gives for the same slopes; their
ratio scales the rule's speed on the flat (ours). Pauses are left out: parts slower than a creep.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from oatsack.errors import UsageError
from oatsack.route import pace
from oatsack.route.pieces import GRADE_LIMIT_PCT
from oatsack.route.profile import profile_of
from oatsack.values.walker import OwnPace

if TYPE_CHECKING:
    import numpy.typing as npt

    from oatsack.values.model import Model
    from oatsack.values.route import Track

    Array = npt.NDArray[np.float64]

PART_M = 100.0
STILL_MS = 0.3
"""Slower over a part than this is a pause with a little walking, and is left out (ours)."""
FASTEST_MS = 3.5
"""Faster over a part than this was not walked (ours)."""
LEAST_PARTS = 10
MOST_PAUSE_S = 60.0
"""A gap between two points longer than this, over hardly any ground, is a pause (ours)."""
HARDLY_M = 15.0


def own_pace(track: Track, rule: Model | None = None) -> OwnPace:
    """The walker's flat speed by a walking-time rule (the default one where none is given).

    Raises UsageError for a track without times, or with too little walking in it.
    """
    rule = rule or pace.DEFAULT
    profile = profile_of(track)
    points, moving, paused = _moving_clock(track, profile.points_m)
    joints, slopes = profile.slopes(0.0, profile.length_m, PART_M)
    seconds = np.diff(np.interp(joints, points, moving))
    lengths = np.diff(joints)
    speeds = np.divide(lengths, seconds, out=np.zeros_like(lengths), where=seconds > 0)
    walked = (speeds >= STILL_MS) & (speeds <= FASTEST_MS)
    if int(walked.sum()) < LEAST_PARTS:
        raise UsageError("the track holds less than a kilometre of timed walking")
    grades = np.clip(slopes[walked], -GRADE_LIMIT_PCT, GRADE_LIMIT_PCT)
    by_rule = 60.0 * np.asarray(pace.minutes(rule, lengths[walked], grade_pct=grades))
    flat = float(rule.function(grade_pct=0.0))
    each = flat * by_rule / seconds[walked]
    own = flat * float(by_rule.sum() / seconds[walked].sum())
    low, high = np.percentile(each, (25, 75))
    return OwnPace(
        flat_ms=own,
        rule=rule.name,
        distance_m=float(lengths[walked].sum()),
        moving_min=float(seconds[walked].sum()) / 60.0,
        paused_min=paused / 60.0 + float(seconds[~walked].sum()) / 60.0,
        spread=float(high - low) / own,
    )


def _moving_clock(track: Track, points: Array) -> tuple[Array, Array, float]:
    """Places with a time, the seconds moved until each, and the seconds paused in all."""
    raw = track.time_s or (None,) * len(points)
    times = np.array([np.nan if one is None else one for one in raw], dtype=float)
    timed = np.isfinite(times)
    if int(timed.sum()) < 2:
        raise UsageError("the track bears no times, so it says nothing about pace")
    places, clock = points[timed], np.maximum.accumulate(times[timed])
    steps, gaps = np.diff(places), np.diff(clock)
    still = (gaps > MOST_PAUSE_S) & (steps < HARDLY_M)
    moving = np.concatenate(([0.0], np.cumsum(np.where(still, 0.0, gaps))))
    return places, moving, float(gaps[still].sum())
