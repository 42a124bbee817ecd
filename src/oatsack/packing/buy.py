"""What to buy, in whole packs, by shop and by when; what comes from home; what remains.

Stock at home is good for a meal if its best-before is not before the day that meal is eaten, not
merely today. Nothing is reserved here: a plan only proposes (C17).
"""

from __future__ import annotations

import datetime as dt
import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from oatsack.values.food import Food
from oatsack.values.pack import Bag, Buy, Place

When = Literal["weeks before", "day before", "on the way"]
FRESH_DAYS = 10.0
"""What keeps no longer than this in the warm is bought the day before (common practice)."""
FRESH_CLASSES = frozenset({"bread", "vegetable"})
ROUND_G = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Grams of one food wanted for one date."""

    food: str
    date: dt.date
    grams: float
    leg: int
    """The leg it is bought for: 1 for everything that leaves home, boxes included."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Remainder:
    """What is left of the packs of one food after the walk's need, and what it is good for."""

    food: str
    grams: float
    doses: float
    energy_kcal: float
    use: Literal["next leg", "spare", "next walk", "eat at home"]


def wanted_of(bags: Iterable[Bag], dates: Mapping[int, dt.date],
              places: Sequence[Place] = ()) -> tuple[Wanted, ...]:  # fmt: skip
    """Everything in the bags, by food and date. Spare food must be good to the end of its bag."""
    shops = {p.leg for p in places if p.kind == "shop"}
    return tuple(
        Wanted(food=i.food, date=dates[i.day if i.day > 0 else bag.empty_day], grams=i.net_g,
               leg=bag.leg if bag.leg in shops else 1)
        for bag in bags
        for i in bag.items
    )  # fmt: skip


def shopping(wanted: Iterable[Wanted], foods: Mapping[str, Food]) -> tuple[Buy, ...]:
    """The shopping list, in the order of leaving: by leg, when, shop, name."""
    heaps: dict[tuple[int, str], list[Wanted]] = defaultdict(list)
    for one in wanted:
        heaps[one.leg, one.food].append(one)
    rows = [_buy(foods[food], heap, leg) for (leg, food), heap in heaps.items()]
    order = {"weeks before": 0, "day before": 1, "on the way": 2}
    return tuple(sorted(rows, key=lambda b: (b.leg, order[b.when], b.shop, foods[b.food].name)))


def _buy(food: Food, heap: Sequence[Wanted], leg: int) -> Buy:
    need = sum(one.grams for one in heap)
    home = from_home_g(food, heap) if leg == 1 else 0.0
    packs = packs_for(need - home, food.pack_g)
    return Buy(
        food=food.id, shop=food.shop, need_g=need, from_home_g=home, packs=packs,
        pack_g=food.pack_g, price=None if food.price is None else packs * food.price,
        left_g=max(0.0, packs * food.pack_g - (need - home)), when=when_of(food, leg), leg=leg,
    )  # fmt: skip


def packs_for(grams: float, pack_g: float) -> float:
    """Whole packs that hold so many grams."""
    return float(max(0, math.ceil((grams - ROUND_G) / pack_g)))


def from_home_g(food: Food, heap: Iterable[Wanted]) -> float:
    """Grams that the stock at home covers: only for dates up to its best-before, and only in the
    whole pieces that the food is carried in."""
    best = food.stock.best_before
    good = sum(one.grams for one in heap if best is None or one.date <= best)
    have = min(good, food.stock.packs * food.pack_g)
    piece = {"bag": food.pack_g, "sealed": food.dose_g, "repack": 0.0}[food.carry]
    return float(math.floor((have + ROUND_G) / piece) * piece if piece else have)


def stock_too_old(food: Food, heap: Iterable[Wanted]) -> bool:
    """Whether there is stock at home that is past its date on some day it would be eaten."""
    best = food.stock.best_before
    return food.stock.packs > 0 and best is not None and any(one.date > best for one in heap)


def when_of(food: Food, leg: int) -> When:
    """When it is bought: on the way for a later leg, the day before what does not keep."""
    if leg > 1:
        return "on the way"
    warm = food.keep.warm_days
    fresh = warm is not None and warm <= FRESH_DAYS
    return "day before" if fresh or (warm is None and food.category in FRESH_CLASSES) else (
        "weeks before")  # fmt: skip


def remainders(rows: Iterable[Buy], foods: Mapping[str, Food]) -> tuple[Remainder, ...]:
    """What is left over of the packs that were opened or bought, and the use of it."""
    lines = list(rows)
    later = {(b.food, b.leg) for b in lines}
    return tuple(
        Remainder(food=b.food, grams=b.left_g, doses=b.left_g / foods[b.food].dose_g,
                  energy_kcal=b.left_g / foods[b.food].dose_g * foods[b.food].dose_kcal,
                  use=_use(b, foods[b.food], later))
        for b in lines
        if b.left_g > ROUND_G
    )  # fmt: skip


def _use(row: Buy, food: Food, later: set[tuple[str, int]]) -> Literal[
    "next leg", "spare", "next walk", "eat at home"
]:
    """A later leg that wants it; a sealed piece that needs no kitchen makes spare food; what keeps
    goes to the next walk; the rest is eaten at home."""
    if any(name == food.id and leg > row.leg for name, leg in later):
        return "next leg"
    if food.carry == "sealed" and food.prep.kind == "none" and row.left_g >= food.dose_g - ROUND_G:
        return "spare"
    keeps = food.keep.warm_days is None and when_of(food, 1) == "weeks before"
    unopened = row.left_g >= row.pack_g - ROUND_G
    good = unopened or food.resealable or food.carry == "sealed"
    return "next walk" if keeps and good and food.keep.opened_days is None else "eat at home"


def price_of(rows: Iterable[Buy]) -> float | None:
    """Price of everything bought; None if any price of a bought line is unknown (C2)."""
    prices = [b.price for b in rows if b.packs > 0]
    known = [p for p in prices if p is not None]
    return sum(known) if len(known) == len(prices) else None


def reserved_g(rows: Iterable[Buy]) -> Mapping[str, float]:
    """Grams of each food that would leave the stock at home if this were packed."""
    out: dict[str, float] = defaultdict(float)
    for row in rows:
        if row.from_home_g > 0:
            out[row.food] += row.from_home_g
    return dict(out)
