"""Days typed by hand: distance, ascent and descent, or explicit stretches, turned into pieces.

Where only totals are typed the slope is an assumption (ours, C7): climbs and descents at 10
percent, steeper where the distance is too short for that, the rest level; two climbs a day. The
finer shape of the ground is not known, so these days are marked `by_hand`; their range is wider.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from oatsack.route.pieces import GRADE_LIMIT_PCT, Piece, Source, Walk, heights_along, split

if TYPE_CHECKING:
    from collections.abc import Sequence

    from oatsack.values.trip import HandDay, RouteSpec

ASSUMED_GRADE_PCT = 10.0
"""Slope of a typed climb or descent (ours; checked against recorded tracks in the tests)."""
CLIMBS = 2
"""How many climbs a typed day is thought to have (ours). Bears on heights, not on energy."""


def walk_of(day: HandDay, route: RouteSpec, start_m: float, *, share: float = 1.0) -> Walk:
    """A typed day as a walk that begins at `start_m`; `share` scales its length and its climbs."""
    plain = _stated(day) if day.stretches else _assumed(day, route, share)
    joints = heights_along(plain, start_m)
    pieces = [part for one, low in zip(plain, joints, strict=False) for part in split(one, low)]
    natural_end = joints[-1]
    end_m = natural_end if day.camp_m is None or share < 1.0 else day.camp_m
    pieces = _levelled(pieces, end_m - natural_end)
    off_m = (end_m - natural_end) / max(1, len(plain))
    peak = max(height + off_m * k for k, height in enumerate(joints))
    ascent, descent = _climbs(plain)
    return Walk(
        pieces=tuple(pieces),
        ascent_m=ascent,
        descent_m=descent,
        highest_m=peak if day.highest_m is None else max(day.highest_m, start_m, end_m),
        start_m=start_m,
        end_m=end_m,
        camp_name=day.camp_name,
        camp_dry=day.camp_dry or route.is_dry(day.camp_name),
        leg=day.leg,
        water=tuple(
            Source(name=w.name, distance_m=w.distance_m, reliability=w.reliability, at_min=w.at_min)
            for w in day.water
        ),
        supplied=day.camp_name if day.camp_name in route.leg_ends else "",
        by_hand=True,
        camp_h=day.camp_h,
        sleep_h=day.sleep_h,
        warm_c=day.warm_c,
        cold_c=day.cold_c,
    )


def _stated(day: HandDay) -> list[Piece]:
    """The stretches as they were typed."""
    return [
        Piece(
            distance_m=one.distance_m,
            grade_pct=one.grade_pct,
            height_m=0.0,
            terrain=one.terrain,
            speed_ms=one.speed_ms,
        )
        for one in day.stretches
    ]


def _assumed(day: HandDay, route: RouteSpec, share: float) -> list[Piece]:
    """Totals as two rounds of level, up, level, down at the assumed slope."""
    length, up, down = day.distance_m * share, day.ascent_m * share, day.descent_m * share
    if length <= 0.0:
        return []
    grade = min(GRADE_LIMIT_PCT, max(ASSUMED_GRADE_PCT, 100.0 * (up + down) / length))
    up_m, down_m = 100.0 * up / grade, 100.0 * down / grade
    level = max(0.0, length - up_m - down_m)
    round_ = ((level / 2, 0.0), (up_m, grade), (level / 2, 0.0), (down_m, -grade))
    return [
        Piece(distance_m=run / CLIMBS, grade_pct=slope, height_m=0.0, terrain=route.terrain)
        for _ in range(CLIMBS)
        for run, slope in round_
        if run > 0.0
    ]


def _climbs(pieces: Sequence[Piece]) -> tuple[float, float]:
    """Ascent and descent of the pieces [m]."""
    rises = [piece.distance_m * piece.grade_pct / 100.0 for piece in pieces]
    return sum(r for r in rises if r > 0), -sum(r for r in rises if r < 0)


def _levelled(pieces: list[Piece], off_m: float) -> list[Piece]:
    """Heights bent evenly so that the day ends at the typed camp height; slopes stay."""
    if not off_m or not pieces:
        return pieces
    last = len(pieces)
    return [
        replace(piece, height_m=piece.height_m + off_m * (k + 0.5) / last)
        for k, piece in enumerate(pieces)
    ]
