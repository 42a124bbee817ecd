"""When things happen, on one axis: minutes from midnight of the first day.

Meals are eaten at their clock; what is nibbled on the move is spread over the day's walking, or
over the waking hours of a day without any. Both the load on the back and the running balance of
energy are read from these moments.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from oatsack.values.food import Meal
from oatsack.values.problem import Floats
from oatsack.values.route import Day, Stretch

DAY_MIN = 1440.0


def day_start(day: int) -> float:
    """Minute at which a day number begins (day 1 is 0)."""
    return (day - 1) * DAY_MIN


def nibbling(day: Day) -> tuple[Stretch, ...]:
    """The stretches over which one nibbles: the walking, else whatever is not sleep."""
    walking = tuple(s for s in day.stretches if s.kind == "walk" and s.minutes > 0)
    return walking or tuple(s for s in day.stretches if s.kind != "sleep")


def moments(day: Day, meal: Meal, clock_min: float) -> list[tuple[float, float]]:
    """Pairs of minute and share (summing to 1) at which a meal of a day is eaten."""
    if meal != "move":
        return [(day_start(day.number) + clock_min, 1.0)]
    pieces = nibbling(day)
    whole = sum(s.minutes for s in pieces)
    if whole <= 0:
        return [(day_start(day.number) + clock_min, 1.0)]
    return [
        (day_start(day.number) + (s.start_min + s.end_min) / 2, s.minutes / whole) for s in pieces
    ]


class Falling:
    """A quantity that falls in steps: `left(t)` is what remains after all steps up to t."""

    def __init__(self, steps: Iterable[tuple[float, float]], floor: float = 0.0) -> None:
        ordered = sorted(steps)
        self._when: Floats = np.array([t for t, _ in ordered], float)
        lost = np.array([m for _, m in ordered], float)
        self._gone: Floats = np.concatenate([[0.0], np.cumsum(lost)])
        self.start = float(self._gone[-1]) + floor

    def left(self, minute: Floats) -> Floats:
        """What remains at each minute."""
        at = np.searchsorted(self._when, minute, side="right")
        return np.asarray(self.start - self._gone[at], float)

    def between(self, start: Floats, end: Floats) -> Floats:
        """What falls within each span (start, end]."""
        return np.asarray(self.left(start) - self.left(end), float)


def middles(day: Day) -> Floats:
    """Minute of the middle of each stretch of a day."""
    return np.array(
        [day_start(day.number) + (s.start_min + s.end_min) / 2 for s in day.stretches], float
    )
