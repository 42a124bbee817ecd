"""The axis of the ribbon: walking time from left to right, with a fixed width for each night.

A pause has no width; a day without walking gets the width of a night. A long walk is folded into
strips that share one scale, so that a strip with little walking is a short one.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from oatsack.charts.ribbon_data import Moment, RibbonDay

EVENING = 0.58
"""Share of a night's width before bed's end; the rest is the morning of the next day."""
EDGE = 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """One day on the axis: where it starts, sets out, arrives and ends [px]."""

    left: float
    set_out: float
    arrived: float
    right: float
    knots: tuple[tuple[float, float], ...]
    """(clock, place) in order; straight lines between."""

    def at(self, clock_min: float) -> float:
        """The place of a clock, held inside the day."""
        place = bisect_right(self.knots, (clock_min, float("inf")))
        if place == 0:
            return self.knots[0][1]
        if place == len(self.knots):
            return self.knots[-1][1]
        (c0, x0), (c1, x1) = self.knots[place - 1], self.knots[place]
        return x1 if c1 <= c0 else x0 + (clock_min - c0) / (c1 - c0) * (x1 - x0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """Some days side by side, numbered by their place in the ribbon."""

    first: int
    spans: tuple[Span, ...]

    @property
    def right(self) -> float:
        """Where the strip ends [px]."""
        return self.spans[-1].right

    def holds(self, moment: Moment) -> bool:
        """Whether a moment lies on this strip."""
        return self.first <= moment[0] < self.first + len(self.spans)

    def at(self, moment: Moment) -> float:
        """The place of a moment on this strip."""
        return self.spans[moment[0] - self.first].at(moment[1])


def strips(
    days: Sequence[RibbonDay], width: float, *, only: range | None = None, least: float = 150.0,
    night: float | None = None,
) -> tuple[Strip, ...]:  # fmt: skip
    """The days (or `only` those) in as many strips as the width asks for, on one scale.

    `least` is the width of a day, `night` that of a night [px].
    """
    shown = range(len(days)) if only is None else only
    most = max(1, int(width // least))
    count = max(1, -(-len(shown) // most))
    each = -(-len(shown) // count)
    groups = [shown[k : k + each] for k in range(0, len(shown), each)]
    night = min(58.0, max(36.0, width * 0.06)) if night is None else night
    scale = min(
        (width - _gaps(days, group, night)) / max(1.0, sum(days[k].walking_min for k in group))
        for group in groups
    )
    return tuple(_strip(days, group, night, max(0.0, scale)) for group in groups)


def _gaps(days: Sequence[RibbonDay], group: range, night: float) -> float:
    """Width of a strip that is not walking."""
    return sum(
        before + after + (night if not days[k].walks else 0.0)
        for k in group
        for before, after in [_sides(days, k, night)]
    )


def _sides(days: Sequence[RibbonDay], k: int, night: float) -> tuple[float, float]:
    """Width of a day's morning and of its evening."""
    slept = k > 0
    morning = night * (1.0 - EVENING) if slept else EDGE
    evening = night * EVENING if days[k].night else EDGE * 2.0
    return morning, evening


def _strip(days: Sequence[RibbonDay], group: range, night: float, scale: float) -> Strip:
    spans: list[Span] = []
    left = 0.0
    for k in group:
        spans.append(_span(days[k], left, _sides(days, k, night), scale, night))
        left = spans[-1].right
    return Strip(first=group.start, spans=tuple(spans))


def _span(
    day: RibbonDay, left: float, sides: tuple[float, float], scale: float, night: float
) -> Span:
    morning, evening = sides
    set_out = left + morning
    knots = [(day.start_min, left)]
    place = set_out
    for start, end in day.walks:
        knots.append((start, place))
        place += (end - start) * scale
        knots.append((end, place))
    arrived = place if day.walks else place + night
    right = arrived + evening
    knots.append((day.end_min, right))
    return Span(left=left, set_out=set_out, arrived=arrived, right=right, knots=tuple(knots))
