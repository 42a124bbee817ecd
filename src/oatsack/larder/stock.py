"""What is at home: lots of packs with their dates, which are good when they are eaten, home first.

A best-before date is a date of quality, not of safety; a lot past it on the day it is eaten is left
out and flagged, never thrown away. What no lot covers is bought in whole packs (C5). Stock is only
reserved when the walker says that it is packed (C17), which is not done here.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from oatsack.values.flags import Flag
from oatsack.values.food import Food, Stock


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """Packs of one food with one date; an opened pack is a part of one."""

    food: str
    packs: float
    best_before: dt.date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What covers a number of packs: lots from home, the soonest date first, and packs to buy."""

    home: tuple[Lot, ...] = ()
    buy: int = 0
    over: float = 0.0
    """Packs that remain of what is bought."""


def lots_of(foods: Iterable[Food], extra: Iterable[Lot] = ()) -> Mapping[str, tuple[Lot, ...]]:
    """Lots by food: from the stock columns of a larder, and from a stock file."""
    found: dict[str, list[Lot]] = {}
    for food in foods:
        for held in food.at_home:
            lot = Lot(food=food.id, packs=held.packs, best_before=held.best_before)
            found.setdefault(food.id, []).append(lot)
    for lot in extra:
        if lot.packs > 0.0:
            found.setdefault(lot.food, []).append(lot)
    return {food: tuple(lots) for food, lots in found.items()}


def is_good(lot: Lot, eaten: dt.date) -> bool:
    """Whether a lot is not past its date on the day it is eaten; an undated one is good."""
    return lot.best_before is None or eaten <= lot.best_before


def draw(lots: Sequence[Lot], packs: float, eaten: dt.date) -> Drawn:
    """Covers so many packs from home first, those with the soonest date before others, then buys.

    `eaten` is the last day on which some of it is eaten.
    """
    good = sorted((lot for lot in lots if is_good(lot, eaten)), key=_soonest)
    home: list[Lot] = []
    left = packs
    for lot in good:
        taken = min(lot.packs, left)
        if taken > 1e-9:
            home.append(Lot(food=lot.food, packs=taken, best_before=lot.best_before))
            left -= taken
    buy = math.ceil(left - 1e-9)
    return Drawn(home=tuple(home), buy=max(0, buy), over=max(0.0, buy - left) if buy > 0 else 0.0)


def _soonest(lot: Lot) -> tuple[bool, dt.date]:
    return lot.best_before is None, lot.best_before or dt.date.max


def stale(lots: Iterable[Lot], eaten: dt.date) -> tuple[Flag, ...]:
    """A flag for each lot that is past its date when it would be eaten."""
    return tuple(
        Flag(
            key="larder.past-best",
            level="quiet",
            scope=f"larder/{lot.food}",
            values={"food": lot.food, "packs": lot.packs, "best_before": str(lot.best_before)},
        )
        for lot in lots
        if not is_good(lot, eaten)
    )


def stocked(foods: Iterable[Food], lots: Iterable[Lot]) -> tuple[Food, ...]:
    """The foods with their lots of a stock file, each with its own date: which lot is good is
    asked on the day it is eaten, by whoever lays out the meals."""
    found: dict[str, list[Stock]] = {}
    for lot in lots:
        if lot.packs > 0.0:
            made = Stock(packs=lot.packs, best_before=lot.best_before)
            found.setdefault(lot.food, []).append(made)
    return tuple(
        replace(food, lots=(*food.lots, *found[food.id])) if food.id in found else food
        for food in foods
    )


def without(foods: Iterable[Food], packs: Mapping[str, float]) -> tuple[Food, ...]:
    """The foods with so many packs of each taken off what is at home, never below none."""
    return tuple(
        food.less_home(packs[food.id]) if food.id in packs else food for food in foods
    )
