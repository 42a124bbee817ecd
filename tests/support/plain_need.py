"""A day's need once more, as a plain loop over stretches with single numbers.

Written from the conventions and the sources, apart from the package: the default walking model of
`plain_energy`, multiples of rest for the other hours, the labelled terms, digesting once.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from support.plain_energy import backpacking

KCAL_PER_W_MIN = 60.0 / 4184.0
METS = {"rest": 1.3, "camp": 2.5, "sleep": 0.95}


@dataclass(frozen=True)
class Piece:
    """One stretch, in the plainest terms."""

    kind: str
    minutes: float
    speed_ms: float = 0.0
    grade_pct: float = 0.0
    terrain: float = 1.1
    load_kg: float = 0.0
    height_m: float = 0.0
    air_c: float = 15.0


def mifflin_kcal(mass: float, height: float, age: float, sex: str) -> float:
    """Mifflin1990."""
    return 10 * mass + 6.25 * height - 5 * age + (5 if sex == "male" else -161)


def height_share(height_m: float) -> float:
    """Ours: nothing to 2500 m, 10 % from 3000 to 4000 m, 17 % from 4300 m, straight between."""
    corners = [(2500.0, 0.0), (3000.0, 0.10), (4000.0, 0.10), (4300.0, 0.17)]
    if height_m <= corners[0][0]:
        return 0.0
    for (low, a), (high, b) in itertools.pairwise(corners):
        if height_m <= high:
            return a + (b - a) * (height_m - low) / (high - low)
    return corners[-1][1]


def cold_share(air_c: float) -> float:
    """Ours, in steps."""
    if air_c >= 5.0:
        return 0.0
    if air_c >= 0.0:
        return 0.05
    return 0.10 if air_c >= -10.0 else 0.175


def heat_share(air_c: float) -> float:
    """Ours: 2.5 % at 30 degrees to 10 % at 40."""
    if air_c < 30.0:
        return 0.0
    return min(0.10, 0.025 + 0.0075 * (air_c - 30.0))


def plain_kcal(piece: Piece, mass: float, rest_w: float) -> float:
    """One stretch before terms and digesting."""
    if piece.kind == "walk":
        per_kg = backpacking(
            mass, piece.load_kg, piece.speed_ms, piece.grade_pct, piece.terrain, rest_w / mass
        )
        return mass * per_kg * piece.minutes * KCAL_PER_W_MIN
    return METS[piece.kind] * rest_w * piece.minutes * KCAL_PER_W_MIN


def terms_kcal(piece: Piece, mass: float, rest_w: float) -> float:
    """What height, cold and heat lay over it."""
    outdoors = piece.kind in ("walk", "camp")
    share = cold_share(piece.air_c) + heat_share(piece.air_c) if outdoors else 0.0
    steady = rest_w * piece.minutes * KCAL_PER_W_MIN * height_share(piece.height_m)
    return share * plain_kcal(piece, mass, rest_w) + steady


def day_kcal(pieces: list[Piece], mass: float, rest_kcal_day: float) -> float:
    """The whole day, digesting included."""
    rest_w = rest_kcal_day * 4184.0 / 86400.0
    parts = sum(plain_kcal(p, mass, rest_w) + terms_kcal(p, mass, rest_w) for p in pieces)
    return parts / 0.9
