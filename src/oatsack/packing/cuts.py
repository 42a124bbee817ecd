"""Packs that are opened once and eaten from at meals: a block of cheese, a loaf, crackers.

What is eaten while it keeps from the evening before the leg is measured out at home. What is eaten
later comes from whole packs of its own, carried closed and opened on their day, so that no food is
older than it keeps once it was opened; what remains in such a pack is said. Nibbled bags are pools
of the menu and not handled here.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace

from oatsack.packing.heaps import Heap, Party
from oatsack.values.food import Food
from oatsack.values.pack import Item

WHOLE_G = 1.0
"""Within so much of whole packs nothing is measured out."""


def cut(heaps: Mapping[Heap, list[Item]], party: Party,
        spoons: Callable[[str], tuple[str, ...]]) -> dict[Heap, list[Item]]:  # fmt: skip
    """Heaps in which everything eaten from one pack stands together, at whichever meal, and packs
    follow one another where one does not keep. `spoons`: who may eat from one pack with a walker.
    """
    out: dict[Heap, list[Item]] = {}
    together: dict[tuple[int, str, tuple[str, ...]], list[tuple[Heap, Item]]] = defaultdict(list)
    for heap, items in heaps.items():
        if heap.as_bought and heap.day == 0 and party.foods[heap.food].carry == "bag":
            key = heap.leg, heap.food, spoons(heap.owners[0])
            together[key] += [(heap, item) for item in items]
        else:
            out[heap] = items
    for (leg, name, owners), held in together.items():
        eaters = {item.walker for _, item in held}
        first = min((heap for heap, _ in held), key=lambda heap: heap.label)
        whole = replace(first, owners=tuple(w for w in owners if w in eaters))
        items = [item for _, item in held]
        out.update(_packs(whole, items, party.foods[name], party.leg_days[leg][0]))
    return out


def _packs(heap: Heap, items: Sequence[Item], food: Food,
           leg_start: int) -> Iterator[tuple[Heap, list[Item]]]:  # fmt: skip
    """The part measured out at home, then one heap for each later opening."""
    for open_day, run in runs(items, food, leg_start):
        grams = sum(item.net_g for item in run)
        packs = math.ceil((grams - WHOLE_G) / food.pack_g)
        if open_day:
            left_g = max(0.0, packs * food.pack_g - grams)
            rest = [_left(food, left_g, run[0].walker)] if left_g > WHOLE_G else []
            yield replace(heap, day=open_day), [*run, *rest]
        else:
            yield replace(heap, as_bought=abs(packs * food.pack_g - grams) <= WHOLE_G), run


def runs(items: Sequence[Item], food: Food,
         leg_start: int) -> Iterator[tuple[int, list[Item]]]:  # fmt: skip
    """What is eaten from one opening, with its day; 0: opened at home, the evening before."""
    keeps = food.keep.opened_days
    lasts = None if keeps is None else max(1, int(keeps))
    open_day, run = 0, list[Item]()
    until = None if lasts is None else leg_start - 1 + lasts
    for item in sorted(items, key=lambda item: item.day):
        if until is not None and lasts is not None and item.day > until:
            if run:
                yield open_day, run
            open_day, until, run = item.day, item.day + lasts - 1, []
        run.append(item)
    yield open_day, run


def _left(food: Food, grams: float, walker: str) -> Item:
    return Item(food=food.id, doses=grams / food.dose_g, net_g=grams, walker=walker, day=0,
                meal="left")  # fmt: skip
