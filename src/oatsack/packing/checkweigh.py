"""From the scale's reading to what explains it: what is missing from a bag, or in it twice.

Knows the pieces of a bag and how exact the scale is. Every single fault and every pair is weighed
against the difference; what no scale could tell apart (equal mass) is one answer. Works for small
bags weighed when packed: weigh bags first, a whole sack tells too little.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations_with_replacement
from typing import Literal

from oatsack.packing.label import ready_made_wrap_g
from oatsack.values.food import Food
from oatsack.values.pack import Bag

SCALE_G = 2.0
"""A kitchen scale's error either way (common practice)."""
EQUAL_G = 0.5
"""Masses closer than this are one answer: no scale in the kitchen tells them apart."""
PAIR_PENALTY = 3.0
"""How much less likely two faults are than one, as a score (natural logarithm; ours)."""
STRANGE_PENALTY = 2.0
"""The same for a piece that belongs into another bag (ours)."""
KINDS: tuple[Literal["missing", "twice"], ...] = ("missing", "twice")
MOST_PIECES = 8
"""Above this many kinds of pieces a reading tells too little: weigh smaller bags."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """What can be forgotten or put in twice: grams of a food. Day 0: any of several days."""

    food: str
    grams: float
    day: int = 0
    meal: str = ""
    walker: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong with a bag."""

    kind: Literal["missing", "twice", "strange"]
    piece: Piece

    @property
    def grams(self) -> float:
        """What it adds to the scale [g]."""
        return -self.piece.grams if self.kind == "missing" else self.piece.grams


@dataclass(frozen=True, slots=True, kw_only=True)
class Guess:
    """One answer: the sets of faults that would all weigh the same, and how well they fit."""

    ways: tuple[tuple[Fault, ...], ...]
    grams: float
    """The difference that they would make [g]."""
    miss_g: float
    """How far that is from the difference seen [g]."""
    score: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What a scale says of a bag: the difference, whether it is right, and the first answers."""

    expected_g: float
    read_g: float
    right: bool
    guesses: tuple[Guess, ...]
    too_many: bool = False
    """More pieces than a reading can tell apart."""
    explained: bool = True
    """False: no few slips make this difference, and the guess is only the nearest one."""

    @property
    def difference_g(self) -> float:
        """Seen less expected [g]."""
        return self.read_g - self.expected_g


def pieces_of(bag: Bag, foods: Mapping[str, Food]) -> tuple[Piece, ...]:
    """The pieces of a bag: doses one by one where they are sealed, packs of an open bag, and of
    what is measured out each occasion's amount. Sealed doses weigh their wrapping too."""
    out: list[Piece] = []
    for item in bag.items:
        food = foods[item.food]
        where = {"food": food.id, "walker": item.walker}
        if food.carry == "sealed":
            each = food.dose_g + ready_made_wrap_g(food, 1.0)
            count = max(1, round(item.doses))
            out += [Piece(grams=each, day=item.day, meal=item.meal, **where)] * count
        elif food.carry == "repack" or not bag.sealed:
            out.append(Piece(grams=item.net_g, day=item.day, meal=item.meal, **where))
    opened: dict[str, float] = {}
    for item in bag.items:
        if foods[item.food].carry == "bag" and bag.sealed:
            opened[item.food] = opened.get(item.food, 0.0) + item.net_g
    for name, grams in opened.items():
        food = foods[name]
        packs = max(1, math.ceil(grams / food.pack_g - 1e-9))
        each = grams / packs + ready_made_wrap_g(food, food.doses_per_pack)
        out += [Piece(food=name, grams=each)] * packs
    return tuple(out)


def weigh(bag: Bag, foods: Mapping[str, Food], read_g: float, *, others: Sequence[Piece] = (),
          scale_g: float = SCALE_G, spread: float = 0.0) -> Reading:  # fmt: skip
    """What explains the scale's reading of a bag [g], the first three answers."""
    pieces = pieces_of(bag, foods)
    guesses = explain(pieces, read_g - bag.gross_g, others=others, scale_g=scale_g, spread=spread)
    tolerance = tolerance_g(pieces, scale_g, spread)
    return Reading(
        expected_g=bag.gross_g, read_g=read_g, guesses=guesses[:3],
        right=abs(read_g - bag.gross_g) <= tolerance,
        too_many=len({(p.food, round(p.grams)) for p in pieces}) > MOST_PIECES,
        explained=any(abs(guess.miss_g) <= tolerance + 1e-9 for guess in guesses),
    )  # fmt: skip


def tolerance_g(pieces: Iterable[Piece], scale_g: float, spread: float) -> float:
    """How far a right bag may be off [g]: the scale's error, and twice the natural spread of its
    pieces (`spread`, relative standard deviation of each)."""
    natural = math.sqrt(sum((spread * p.grams) ** 2 for p in pieces))
    return math.hypot(scale_g, 2.0 * natural)


def explain(pieces: Sequence[Piece], difference_g: float, *, others: Sequence[Piece] = (),
            scale_g: float = SCALE_G, spread: float = 0.0) -> tuple[Guess, ...]:  # fmt: skip
    """All answers within reach of a difference [g], the likeliest first: one slip or two, else
    several pieces alike; the nearest single fault where none is within reach."""
    faults = _faults(pieces, others)
    reach = tolerance_g(pieces, scale_g, spread) + 1e-9
    sets = [(f,) for f in faults] + [s for s in _pairs(faults) if _possible(s, pieces)]
    near = [s for s in sets if abs(_grams(s) - difference_g) <= reach]
    near = near or [s for s in _many(faults, pieces) if abs(_grams(s) - difference_g) <= reach]
    if not near and faults:
        near = [min(((f,) for f in faults), key=lambda s: abs(_grams(s) - difference_g))]
    return _grouped(near, difference_g, reach)


def _faults(pieces: Sequence[Piece], others: Sequence[Piece]) -> list[Fault]:
    """One fault of each kind per distinct piece; pieces alike are one."""
    own = _distinct(pieces)
    strange = {key: piece for key, piece in _distinct(others).items() if key not in own}
    return [
        *(Fault(kind=kind, piece=p) for p in own.values() for kind in KINDS),
        *(Fault(kind="strange", piece=p) for p in strange.values()),
    ]


def _distinct(pieces: Iterable[Piece]) -> dict[tuple[str, float], Piece]:
    """Pieces by food and mass; of several alike no scale says which, so the day is left open."""
    out: dict[tuple[str, float], Piece] = {}
    for piece in pieces:
        key = (piece.food, round(piece.grams, 3))
        seen = out.setdefault(key, piece)
        if (seen.day, seen.meal) != (piece.day, piece.meal):
            out[key] = replace(seen, day=0, meal="")
    return out


def _pairs(faults: Sequence[Fault]) -> list[tuple[Fault, ...]]:
    return list(combinations_with_replacement(faults, 2))


def _many(faults: Sequence[Fault], pieces: Sequence[Piece]) -> list[tuple[Fault, ...]]:
    """Three and more pieces alike that are missing, as when a whole day was not filled in."""
    missing = [f for f in faults if f.kind == "missing"]
    return [(f,) * n for f in missing for n in range(3, _alike(f.piece, pieces) + 1)]


def _alike(piece: Piece, pieces: Sequence[Piece]) -> int:
    """How many pieces of a bag are this one, by food and mass."""
    return sum(p.food == piece.food and abs(p.grams - piece.grams) < 1e-3 for p in pieces)


def _possible(pair: tuple[Fault, ...], pieces: Sequence[Piece]) -> bool:
    """Whether two faults can stand together: no piece both missing and twice, and not two missing
    where there is only one."""
    one, two = pair
    same = one.piece.food == two.piece.food and abs(one.piece.grams - two.piece.grams) < 1e-3
    if not same:
        return True
    if one.kind != two.kind:
        return False
    return one.kind != "missing" or _alike(one.piece, pieces) >= 2


def _grams(faults: Iterable[Fault]) -> float:
    return sum(f.grams for f in faults)


def _penalty(faults: Sequence[Fault]) -> float:
    strange = sum(f.kind == "strange" for f in faults)
    return PAIR_PENALTY * (len(faults) - 1) + STRANGE_PENALTY * strange


def _grouped(sets: Iterable[tuple[Fault, ...]], difference_g: float,
             reach_g: float) -> tuple[Guess, ...]:  # fmt: skip
    """Answers: sets of one mass together, scored by fit (in parts of the reach) and by how many
    faults the simplest of them needs."""
    heaps: list[list[tuple[Fault, ...]]] = []
    for one in sorted(sets, key=lambda s: (_grams(s), len(s))):
        if heaps and _grams(one) - _grams(heaps[-1][0]) <= EQUAL_G:
            heaps[-1].append(one)
        else:
            heaps.append([one])
    out = []
    for heap in heaps:
        ways = sorted(heap, key=_penalty)
        miss = _grams(ways[0]) - difference_g
        score = 0.5 * (miss / reach_g) ** 2 + _penalty(ways[0])
        out.append(Guess(ways=tuple(ways), grams=_grams(ways[0]), miss_g=miss, score=score))
    return tuple(sorted(out, key=lambda g: (g.score, abs(g.miss_g), g.grams)))
