"""A walker's own pace on the flat, from a recorded track with times.

The slopes are taken out by a rule of the shelf: whoever took longer than the rule, stretch by
stretch where they moved, is slower on the flat by as much. Pauses are left out, not averaged in.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from oatsack.errors import UsageError

if TYPE_CHECKING:
    import numpy.typing as npt

    from oatsack.values.model import Model

    Column = npt.NDArray[np.float64]

STANDING_MS = 0.2
"""Slower than this is a pause (ours)."""
RUNNING_MS = 3.0
"""Faster than this is no walk: a vehicle, or a fault of the record (ours)."""
LEAST_MINUTES = 20.0
"""Least moving time that tells a pace (ours)."""


def moving(distance_m: Column, minutes: Column) -> npt.NDArray[np.bool_]:
    """Which stretches were walked, neither paused nor driven."""
    speed = np.divide(distance_m, 60.0 * minutes, out=np.zeros_like(distance_m), where=minutes > 0)
    return np.asarray((speed > STANDING_MS) & (speed < RUNNING_MS))


def flat_speed_ms(rule: Model, distance_m: Column, *, minutes: Column, grade_pct: Column) -> float:
    """The speed on the flat at which the rule takes as long as the record did while moving [m/s].

    Raises UsageError for a record with less than 20 minutes on the move.
    """
    walked = moving(distance_m, minutes)
    spent = float(minutes[walked].sum())
    if spent < LEAST_MINUTES:
        raise UsageError(f"{spent:.0f} minutes on the move are too few to tell a pace from")
    by_rule = distance_m[walked] / (60.0 * rule.function(grade_pct=grade_pct[walked]))
    return float(rule.function(grade_pct=0.0)) * float(by_rule.sum()) / spent


def rest_share(distance_m: Column, minutes: Column) -> float:
    """Which part of the record was spent standing, for the rests of a plan."""
    whole = float(minutes.sum())
    return 1.0 - float(minutes[moving(distance_m, minutes)].sum()) / whole if whole > 0 else 0.0
