"""What to buy, in whole packs, by shop and by when; what comes from home; what remains.

Stock at home is good for a meal if its best-before is not before the day that meal is eaten, not
merely today. Of several lots the one with the soonest date is used first where it is still good.
Nothing is reserved here: a plan only proposes (C17).
"""

from __future__ import annotations

import datetime as dt
import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from oatsack.values.food import Food, Stock
from oatsack.values.pack import Bag, Buy, Place

When = Literal["weeks before", "day before", "on the way"]
FRESH_DAYS = 10.0
"""What keeps no longer than this in the warm is bought the day before (common practice)."""
FRESH_CLASSES = frozenset({"bread", "vegetable"})
ROUND_G = 1e-6
Lots = Mapping[str, Sequence[Stock]]
"""Food -> lots at home, beside what its row states (a stock file of its own)."""


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


def wanted_of(bags: Iterable[Bag], dates: Mapping[int, dt.date], foods: Mapping[str, Food],
              places: Sequence[Place] = ()) -> tuple[Wanted, ...]:  # fmt: skip
    """Everything in the bags, by food and date. Spare food must be good to the end of its bag.

    What a shop on the way does not sell leaves home with the rest.
    """
    shops = {p.leg: p for p in places if p.kind == "shop"}
    return tuple(
        Wanted(food=i.food, date=dates[i.day if i.day > 0 else bag.empty_day], grams=i.net_g,
               leg=bag.leg if bag.leg in shops and sold(foods[i.food], shops[bag.leg]) else 1)
        for bag in bags
        for i in bag.items
    )  # fmt: skip


def sold(food: Food, place: Place) -> bool:
    """Whether a place sells a food, by the kinds of shop it has; nobody said: it does."""
    return not place.sells or food.shop in place.sells


def shopping(wanted: Iterable[Wanted], foods: Mapping[str, Food],
             lots: Lots | None = None) -> tuple[Buy, ...]:  # fmt: skip
    """The shopping list, in the order of leaving: by leg, when, shop, name."""
    heaps: dict[tuple[int, str], list[Wanted]] = defaultdict(list)
    for one in wanted:
        heaps[one.leg, one.food].append(one)
    rows = [
        _buy(foods[food], heap, leg, lots_of(foods[food], lots))
        for (leg, food), heap in heaps.items()
    ]
    order = {"weeks before": 0, "day before": 1, "on the way": 2}
    return tuple(sorted(rows, key=lambda b: (b.leg, order[b.when], b.shop, foods[b.food].name)))


def lots_of(food: Food, lots: Lots | None = None) -> tuple[Stock, ...]:
    """What is at home of a food: the lots of its row, and others beside them."""
    return (*food.at_home, *(lots or {}).get(food.id, ()))


def _buy(food: Food, heap: Sequence[Wanted], leg: int, lots: Sequence[Stock]) -> Buy:
    need = sum(one.grams for one in heap)
    home = from_home_g(food, heap, lots) if leg == 1 else 0.0
    packs = packs_for(need - home, food.pack_g)
    return Buy(
        food=food.id, shop=food.shop, need_g=need, from_home_g=home, packs=packs,
        pack_g=food.pack_g, price=None if food.price is None else packs * food.price,
        left_g=max(0.0, packs * food.pack_g - (need - home)), when=when_of(food, leg), leg=leg,
    )  # fmt: skip


def packs_for(grams: float, pack_g: float) -> float:
    """Whole packs that hold so many grams."""
    return float(max(0, math.ceil((grams - ROUND_G) / pack_g)))


def from_home_g(food: Food, heap: Iterable[Wanted], lots: Sequence[Stock]) -> float:
    """Grams that the stock at home covers: each date only from lots that are still good then, and
    only in the whole pieces that the food is carried in.

    Dates in order, each from the lot that ends first: no other order covers more.
    """
    piece = {"bag": food.pack_g, "sealed": food.dose_g, "repack": 0.0}[food.carry]
    ordered = sorted(lots, key=_ends)
    left = [_whole(lot.packs * food.pack_g, piece) for lot in ordered]
    covered = 0.0
    for one in sorted(heap, key=lambda one: one.date):
        wants = one.grams
        for i, lot in enumerate(ordered):
            if _ends(lot) >= one.date:
                taken = min(wants, left[i])
                left[i] -= taken
                wants -= taken
                covered += taken
    return _whole(covered, piece)


def _ends(lot: Stock) -> dt.date:
    return lot.best_before or dt.date.max


def _whole(grams: float, piece: float) -> float:
    """So many grams in whole pieces; any amount where there are none."""
    return float(math.floor((grams + ROUND_G) / piece) * piece) if piece else grams


def stock_too_old(heap: Iterable[Wanted], lots: Sequence[Stock]) -> bool:
    """Whether some lot at home is past its date on a day on which the food is eaten."""
    last = max((one.date for one in heap), default=dt.date.min)
    return any(lot.packs > 0 and _ends(lot) < last for lot in lots)


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


def reserved_g(rows: Iterable[Buy]) -> Mapping[str, float]:
    """Grams of each food that would leave the stock at home if this were packed."""
    out: dict[str, float] = defaultdict(float)
    for row in rows:
        if row.from_home_g > 0:
            out[row.food] += row.from_home_g
    return dict(out)
