"""A day's walk laid over its clock: walking with pauses, chores in camp, rest and sleep.

Chores take three hours of a day with a night, one on the day that ends at home; sleep is eight
hours until waking; what remains is spent sitting. A pause of ten minutes comes after every hour of
walking and half an hour about lunch (all common practice). Nothing here knows slopes or energy.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from oatsack.values.route import Stretch

if TYPE_CHECKING:
    from oatsack.route.calendar import Window
    from oatsack.route.pieces import Gait, Piece, Walk

CAMP_H = 3.0
"""Chores on a day with a night: pitching, water, cooking, packing [h]."""
MORNING_CAMP_H = 1.0
"""Of these before walking; all there is on the day that ends at home."""
SLEEP_H = 8.0
PAUSE_EVERY_MIN = 60.0
PAUSE_MIN = 10.0
LUNCH_MIN = 30.0
NO_LUNCH = float("inf")
"""Taken already, or before setting out."""
LEAST_AFTER_PAUSE_MIN = 20.0
"""No pause this shortly before the end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """The frame of one day: chores before and after walking, when to bed, when lunch and dinner."""

    morning_min: float
    evening_min: float
    bed_min: float
    lunch_min: float
    dinner_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A day on the clock. `short_min` is walking time that had to be squeezed out."""

    stretches: tuple[Stretch, ...]
    short_min: float
    marks: tuple[tuple[float, float], ...]
    """(metres along the day, minutes) at every joint of the walking."""

    def clock_at(self, distance_m: float) -> float:
        """When a place so far along the day is passed [min from midnight]."""
        previous = self.marks[0]
        for mark in self.marks:
            if mark[0] >= distance_m:
                span = mark[0] - previous[0]
                share = (distance_m - previous[0]) / span if span > 0 else 1.0
                return previous[1] + share * (mark[1] - previous[1])
            previous = mark
        return previous[1]


def hours_of(walk: Walk, window: Window, lunch_min: float, dinner_min: float) -> Hours:
    """Chores and bedtime of a day; a typed number of hours is kept whole."""
    usual = CAMP_H if window.night else MORNING_CAMP_H
    camp = 60.0 * (usual if walk.camp_h is None else walk.camp_h)
    before = camp * MORNING_CAMP_H / CAMP_H if window.night else camp
    morning = min(before, window.walk_from_min - window.start_min)
    kept = window.night or walk.camp_h is not None
    sleep = 60.0 * (SLEEP_H if walk.sleep_h is None else walk.sleep_h)
    return Hours(
        morning_min=morning,
        evening_min=camp - morning if kept else 0.0,
        bed_min=window.wake_min + 1440.0 - sleep,
        lunch_min=lunch_min,
        dinner_min=dinner_min if window.night else 0.0,
    )


def lay(walk: Walk, window: Window, gait: Gait, hours: Hours) -> Laid:
    """The day's stretches from its first minute inside the walk to its last, without a gap."""
    times = [gait.minutes(piece) for piece in walk.pieces]
    set_out, room, paused = _set_out(sum(times), window, hours)
    squeeze = min(1.0, room / sum(times)) if sum(times) > 0 else 1.0
    shown = [minutes * squeeze for minutes in times]
    lunch = hours.lunch_min if set_out < hours.lunch_min else NO_LUNCH
    walking = _walking(walk.pieces, shown, set_out, lunch if paused else None)
    arrived = walking[-1].end_min if walking else set_out
    rest_height = walk.pieces[0].height_m if walk.pieces else walk.end_m
    before = _before(window.start_min, set_out, hours.morning_min, rest_height)
    after = _after(arrived, window.end_min, hours, walk.end_m)
    return Laid(
        stretches=(*before, *walking, *after),
        short_min=sum(times) - sum(shown),
        marks=_marks(walking, set_out),
    )


def _set_out(walking_min: float, window: Window, hours: Hours) -> tuple[float, float, bool]:
    """When to set out, the minutes there are for walking, and whether pauses still fit.

    A day that must end by the clock starts earlier rather than late, then goes without pauses;
    a day with a night runs on into the evening.
    """
    planned = window.walk_from_min
    pauses = pauses_min(walking_min, planned, hours.lunch_min)
    late = planned + walking_min + pauses - window.end_min
    if late <= 0 or walking_min <= 0:
        return planned, window.end_min - planned, True
    earliest = window.start_min + (0.0 if window.number == 1 else min(60.0, hours.morning_min))
    set_out = planned if window.night else max(min(planned, earliest), planned - late)
    room = window.end_min - set_out
    return set_out, room, room >= walking_min + pauses


def pauses_min(walking_min: float, set_out: float, lunch_min: float) -> float:
    """Most that the pauses of so much walking can take [min]."""
    each = PAUSE_MIN * (walking_min // PAUSE_EVERY_MIN)
    spans_lunch = set_out < lunch_min < set_out + walking_min + each + LUNCH_MIN
    return each + (LUNCH_MIN if spans_lunch else 0.0)


def _walking(
    pieces: Sequence[Piece], times: Sequence[float], set_out: float, lunch: float | None
) -> list[Stretch]:
    """Walking with its pauses; `lunch` None leaves every pause out."""
    out: list[Stretch] = []
    now, since, left = set_out, 0.0, sum(times)
    for piece, minutes in zip(pieces, times, strict=True):
        pause = 0.0 if lunch is None else _pause(now, since, left, lunch)
        if pause and out:
            out.append(_still("rest", now, now + pause, piece.height_m))
            since = 0.0
            now += pause
            lunch = lunch if pause < LUNCH_MIN else NO_LUNCH
        out.append(
            Stretch(
                kind="walk",
                start_min=now,
                end_min=now + minutes,
                distance_m=piece.distance_m,
                grade_pct=piece.grade_pct,
                height_m=piece.height_m,
                terrain=piece.terrain,
            )
        )
        now, since, left = now + minutes, since + minutes, left - minutes
    return out


def _pause(now: float, since: float, left: float, lunch: float | None) -> float:
    """Minutes to stop before the next piece: half an hour at lunch, ten after an hour's walk."""
    if left < LEAST_AFTER_PAUSE_MIN or lunch is None:
        return 0.0
    if lunch <= now < lunch + 120.0 and since > 0.0:
        return LUNCH_MIN
    return PAUSE_MIN if since >= PAUSE_EVERY_MIN else 0.0


def _before(start: float, set_out: float, chores: float, height_m: float) -> list[Stretch]:
    """Waking until setting out: sitting, then chores."""
    at = max(start, set_out - chores)
    return _kept([_still("rest", start, at, height_m), _still("camp", at, set_out, height_m)])


def _after(arrived: float, end: float, hours: Hours, height_m: float) -> list[Stretch]:
    """Arriving until the day's end: half of the chores at once, half about dinner, then bed."""
    half = hours.evening_min / 2.0
    cook = max(arrived + half, min(hours.dinner_min, hours.bed_min - half))
    bed = max(hours.bed_min, cook + half)
    spans: list[tuple[Literal["camp", "rest", "sleep"], float, float]] = [
        ("camp", arrived, arrived + half),
        ("rest", arrived + half, cook),
        ("camp", cook, cook + half),
        ("rest", cook + half, bed),
        ("sleep", bed, end),
    ]
    return _kept([_still(kind, min(a, end), min(b, end), height_m) for kind, a, b in spans])


def _still(
    kind: Literal["camp", "rest", "sleep"], start: float, end: float, height_m: float
) -> Stretch:
    return Stretch(kind=kind, start_min=start, end_min=end, height_m=height_m)


def _kept(stretches: Sequence[Stretch]) -> list[Stretch]:
    """Those that last."""
    return [one for one in stretches if one.minutes > 1e-9]


def _marks(walking: Sequence[Stretch], set_out: float) -> tuple[tuple[float, float], ...]:
    """Metres and minutes at every joint of the walking, pauses before the piece they precede."""
    marks, along = [(0.0, set_out)], 0.0
    for one in walking:
        if one.kind == "walk":
            along += one.distance_m
            marks.append((along, one.end_min))
    return tuple(marks)
