"""What a day's walk is made of before it meets the clock: pieces of even slope, and totals.

Both doors, the track and the typed day, end here, so that the clock need not know which it was.
It knows no times; `clock` lays pieces out over a day.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from oatsack.route import pace
from oatsack.route.underfoot import share_of_speed

if TYPE_CHECKING:
    from oatsack.values.model import Model
    from oatsack.values.route import Reliability
    from oatsack.values.trip import Trip

GRADE_LIMIT_PCT = 45.0
"""Slopes are clamped here: the range of the walking-cost models."""
PIECE_M = 500.0
"""No piece is longer, so that pauses and places fall near their true clock."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A bit of way with one slope. `speed_ms` is set only where the walker stated it."""

    distance_m: float
    grade_pct: float
    height_m: float
    """In its middle."""
    terrain: float
    speed_ms: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Water on the day's way: its name, how far along, how sure; `at_min` where it was typed."""

    name: str
    distance_m: float
    reliability: Reliability = "sure"
    at_min: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """One day's way: the pieces in order and what is known of its end."""

    pieces: tuple[Piece, ...]
    ascent_m: float
    descent_m: float
    highest_m: float
    start_m: float
    end_m: float
    """Height where the day ends, camp or not."""
    camp_name: str = ""
    camp_dry: bool = False
    leg: int = 1
    water: tuple[Source, ...] = ()
    supplied: str = ""
    """The place of the day where food can be taken on, by its name."""
    by_hand: bool = False
    heights_known: bool = True
    camp_h: float | None = None
    sleep_h: float | None = None
    warm_c: float | None = None
    cold_c: float | None = None

    @property
    def distance_m(self) -> float:
        """Length along the ground [m]."""
        return sum(piece.distance_m for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class Gait:
    """How fast the party walks: a walking-time rule, and its own speed on the flat over it."""

    rule: Model
    flat_ms: float | None = None

    def minutes(self, piece: Piece) -> float:
        """Moving time of a piece [min]; a stated speed outranks the rule, and so the ground."""
        if piece.speed_ms is not None:
            return piece.distance_m / (60.0 * piece.speed_ms)
        grade = piece.grade_pct
        on_path = float(
            pace.minutes(self.rule, piece.distance_m, grade_pct=grade, flat_ms=self.flat_ms)
        )
        return on_path if self.flat_ms is not None else on_path / share_of_speed(piece.terrain)


def gait_of(trip: Trip) -> Gait:
    """The party's gait: the slowest of all stated speeds sets it, for a party keeps together.

    Raises UsageError for a rule that no file describes.
    """
    stated = [trip.route.flat_speed_ms, *(walker.pace_ms for walker in trip.walkers)]
    speeds = [speed for speed in stated if speed is not None]
    return Gait(pace.model(trip.route.pace_model), min(speeds, default=None))


def split(piece: Piece, rise_from_m: float, most_m: float = PIECE_M) -> list[Piece]:
    """The piece in equal parts of at most `most_m`, climbing evenly from `rise_from_m`."""
    count = max(1, int(-(-piece.distance_m // most_m)))
    part = piece.distance_m / count
    rise = part * piece.grade_pct / 100.0
    return [
        replace(piece, distance_m=part, height_m=rise_from_m + rise * (k + 0.5))
        for k in range(count)
    ]


def merged(pieces: Sequence[Piece], most: int) -> tuple[Piece, ...]:
    """Neighbours of like slope made one, until at most `most` remain where that can be.

    The tolerance starts at 2 percent of slope and doubles; length and rise are kept.
    """
    alike, longest = 2.0, PIECE_M
    result = tuple(_joined(pieces, alike, longest))
    while len(result) > most and longest < 1e6:
        alike, longest = alike * 2.0, longest * 1.5
        result = tuple(_joined(pieces, alike, longest))
    return result


def _joined(pieces: Iterable[Piece], alike_pct: float, longest_m: float) -> Iterable[Piece]:
    """One pass: a piece joins the run before it when slope, ground and speed agree."""
    run: Piece | None = None
    for piece in pieces:
        if run is None:
            run = piece
        elif _fits(run, piece, alike_pct, longest_m):
            run = _sum(run, piece)
        else:
            yield run
            run = piece
    if run is not None:
        yield run


def _fits(run: Piece, piece: Piece, alike_pct: float, longest_m: float) -> bool:
    return (
        abs(run.grade_pct - piece.grade_pct) <= alike_pct
        and run.distance_m + piece.distance_m <= longest_m
        and (run.terrain, run.speed_ms) == (piece.terrain, piece.speed_ms)
    )


def _sum(run: Piece, piece: Piece) -> Piece:
    """Two pieces as one: length summed, slope and height weighted by length."""
    length = run.distance_m + piece.distance_m
    share = piece.distance_m / length if length else 0.0
    return replace(
        run,
        distance_m=length,
        grade_pct=run.grade_pct + share * (piece.grade_pct - run.grade_pct),
        height_m=run.height_m + share * (piece.height_m - run.height_m),
    )


def heights_along(pieces: Sequence[Piece], start_m: float) -> list[float]:
    """Height at every joint between pieces, from the start on [m]."""
    rises = (piece.distance_m * piece.grade_pct / 100.0 for piece in pieces)
    return list(itertools.accumulate(rises, initial=start_m))
