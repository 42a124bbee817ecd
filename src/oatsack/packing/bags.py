"""The bags: what is measured out into which, and what stays sealed.

Knows three ways of bagging: by kind of meal, by day, by cook group. Sealed stays sealed, an open
bag stays the pack it was bought in. The items of all bags are the menu, to the gram (C5, C6):
masses are net in the items, wrapping is counted apart. Does not know who carries (see `share`).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Literal

from oatsack.packing.cuts import cut
from oatsack.packing.groups import cook_groups
from oatsack.packing.heaps import Heap, Party, Way
from oatsack.packing.label import (
    allergens_of,
    bag_g,
    eat_by_day,
    ready_made_wrap_g,
    repack_wrap_g,
    wait_of,
    water_of,
)
from oatsack.packing.volume import volume_ml
from oatsack.values.classes import pack_ml_of
from oatsack.values.food import Food
from oatsack.values.kitchen import KitchenLedger
from oatsack.values.menu import Menu, Pool
from oatsack.values.pack import Bag, Item
from oatsack.values.route import Day
from oatsack.values.trip import Trip

LABELS = ("breakfast", "lunch", "move", "dinner", "drinks", "small", "day", "spare")
HOT = frozenset({"breakfast", "dinner"})
LOOSE_ROLES = frozenset({"main", "side"})
"""Roles that may lie loose together in one bag, to be tipped into one pot or bowl."""
WET_CLASSES = frozenset({"fat", "condiment"})
DRY_BELOW_G_ML = 0.88
"""Toppings denser than this are oils, spreads and honey, which get a bag of their own (ours)."""
HEAVIEST_G = 1500.0
"""A bag above this that serves several days is split, so that it can be handed round (ours)."""


Eaters = Mapping[tuple[str, int, str, str], tuple[str, ...]]


def way_of(trip: Trip) -> Way:
    """The way of bagging: as asked, else by cook group above four walkers, by day beyond a week,
    and by kind of meal for small parties (common practice)."""
    if trip.rules.bags is not None:
        return trip.rules.bags
    if len(trip.walkers) > 4:
        return "group"
    return "meal" if trip.day_count <= 7 else "day"


def party_of(menu: Menu, foods: Mapping[str, Food], days: Sequence[Day], trip: Trip,
             ledger: KitchenLedger) -> Party:  # fmt: skip
    """Everything that bagging looks up, once."""
    walkers = tuple(w.id for w in trip.walkers)
    legs: dict[int, list[int]] = defaultdict(list)
    for day in days:
        legs[day.leg].append(day.number)
    return Party(
        foods=foods, way=way_of(trip), walkers=walkers,
        groups=cook_groups(walkers, ledger, dinners_of(menu, foods)),
        leg_of={day.number: day.leg for day in days},
        leg_days={leg: (min(ns), max(ns)) for leg, ns in legs.items()},
        careful=frozenset(w.id for w in trip.walkers if w.avoids),
        contained=bool(trip.kit.containers),
    )  # fmt: skip


def _sources(menu: Menu, foods: Mapping[str, Food]) -> list[tuple[Item, Pool | None]]:
    """Everything taken along, each item with the open bag that it is nibbled from: portions, open
    bags day by day, spare (day 0, meal ``spare``); what a bag holds beyond the days it is meant for
    stands as an item of day 0, meal ``left``."""
    pooled = {(p.walker, p.food) for p in menu.pools}
    out: list[tuple[Item, Pool | None]] = [
        (_item(foods[p.food], p.doses, p.walker, p.day, p.meal), None)
        for p in menu.portions
        if p.why != "bag" or (p.walker, p.food) not in pooled
    ]
    for pool in menu.pools:
        out += [(item, pool) for item in _nibbled(pool, foods[pool.food])]
    out += [(_item(foods[p.food], p.doses, p.walker, 0, "spare"), None) for p in menu.spare]
    return out


def _nibbled(pool: Pool, food: Food) -> list[Item]:
    """An open bag day by day, and what is left in it."""
    eaten = [(day, grams) for day, grams in sorted(pool.by_day_g.items()) if grams > 0]
    left_g = pool.packs * food.pack_g - sum(grams for _, grams in eaten)
    out = [_item(food, grams / food.dose_g, pool.walker, day, "move") for day, grams in eaten]
    if left_g > 1e-6:
        out.append(_item(food, left_g / food.dose_g, pool.walker, 0, "left"))
    return out


def _item(food: Food, doses: float, walker: str, day: int, meal: str) -> Item:
    return Item(food=food.id, doses=doses, net_g=doses * food.dose_g, walker=walker, day=day,
                meal=meal)  # fmt: skip


def dinners_of(menu: Menu, foods: Mapping[str, Food]) -> Mapping[str, frozenset[tuple[int, str]]]:
    """Walker -> the dishes of their dinners, as pairs of day and food."""
    out: dict[str, set[tuple[int, str]]] = defaultdict(set)
    for p in menu.portions:
        if p.meal == "dinner" and foods[p.food].role == "main":
            out[p.walker].add((p.day, p.food))
    return {walker: frozenset(dishes) for walker, dishes in out.items()}


def label_of(item: Item, food: Food) -> str:
    """The kind of bag that an item belongs to."""
    if item.meal == "spare":
        return "spare"
    if item.meal == "left":
        return "move"
    return {"drink": "drinks", "small": "small"}.get(food.role, item.meal)


def make_bags(menu: Menu, party: Party) -> tuple[Bag, ...]:
    """All bags of the trip in the order of packing, numbered per leg from 1: first those that are
    labelled, and the lots carried as bought in a row of their own."""
    heaps: dict[Heap, list[Item]] = defaultdict(list)
    sources = _sources(menu, party.foods)
    eaters = _eaters((item for item, _ in sources), party)
    for item, pool in sources:
        heaps[_heap(item, pool, eaters, party)].append(item)
    bags = []
    single = _lonely_together(heaps, party)
    for heap, contents in cut(single, party, lambda walker: _spoons(walker, party)).items():
        bags += [_bag(heap, part, tail, party) for tail, part in _handy(heap, contents)]
    return _numbered(bags, party)


def _eaters(items: Iterable[Item], party: Party) -> Eaters:
    """(food, day, meal, walker) -> those of the walker's cook group who eat the same just then."""
    who: dict[tuple[str, int, str], set[str]] = defaultdict(set)
    for item in items:
        who[item.food, item.day, item.meal].add(item.walker)
    return {
        (food, day, meal, walker): tuple(w for w in group if w in them)
        for (food, day, meal), them in who.items()
        for group in party.groups
        for walker in group
        if walker in them
    }


def _heap(item: Item, pool: Pool | None, eaters: Eaters, party: Party) -> Heap:
    food, own = party.foods[item.food], (item.walker,)
    label = label_of(item, food)
    leg = party.leg_of.get(pool.open_day if pool else item.day, min(party.leg_days))
    if label == "spare":
        return Heap(leg, label, own)
    if pool is not None:
        return Heap(leg, label, own, pool.open_day, item.food, as_bought=True)
    if food.carry == "bag":
        return Heap(leg, label, own, food=item.food, as_bought=True)
    shared = eaters[item.food, item.day, item.meal, item.walker]
    if party.way == "day":
        return Heap(leg, "day", shared if label in HOT else own, item.day)
    if food.carry == "sealed":
        return Heap(leg, label, own, food=item.food, as_bought=True)
    return _measured(Heap(leg, label, own, 0, item.food), food, item.day, shared, party.way)


def _measured(alone: Heap, food: Food, day: int, shared: tuple[str, ...], way: Way) -> Heap:
    """Where a food that is measured out goes: a dish of its day, or a bag of its own."""
    if not _is_common(alone, way):
        return alone
    if alone.label != "drinks" and _tips(food):
        return replace(alone, owners=shared, day=day, food="")
    return replace(alone, owners=shared)


def _is_common(heap: Heap, way: Way) -> bool:
    """Whether those of a cook group who eat the same have one bag of it: dinners and breakfasts,
    and in a cook group lunch and drinks; never what is eaten from the hand."""
    return heap.label in HOT or (way == "group" and heap.label in ("lunch", "drinks"))


def _lonely_together(heaps: Mapping[Heap, list[Item]], party: Party) -> Mapping[Heap, list[Item]]:
    """Single foods go into one bag for the leg: oats are oats, and the kitchen has one oil. Those
    of a cook group who eat from it share it, for it holds only what all of them eat. By cook group
    a main stays with its day."""
    alone: dict[Heap, list[Item]] = defaultdict(list)
    out: dict[Heap, list[Item]] = {}
    for heap, items in heaps.items():
        foods = {item.food for item in items}
        bound = party.way == "group" and any(party.foods[f].role == "main" for f in foods)
        if heap.as_bought or len(foods) > 1 or bound or not _is_common(heap, party.way):
            out[heap] = items
        else:
            for item in items:
                owners = _spoons(item.walker, party)
                alone[replace(heap, owners=owners, day=0, food=item.food)].append(item)
    for heap, items in alone.items():
        eat = {item.walker for item in items}
        out[replace(heap, owners=tuple(w for w in heap.owners if w in eat))] = items
    return out


def _spoons(walker: str, party: Party) -> tuple[str, ...]:
    """Whose spoons may meet in one bag that is opened again and again: those of the cook group, but
    whoever must avoid something has a bag of their own (C10)."""
    if walker in party.careful:
        return (walker,)
    group = next(g for g in party.groups if walker in g)
    return tuple(w for w in group if w not in party.careful)


def _handy(heap: Heap, items: list[Item]) -> list[tuple[str, list[Item]]]:
    """Splits what is too heavy for one bag into runs of days; the tail names each part."""
    days = sorted({item.day for item in items})
    net_g = sum(item.net_g for item in items)
    parts = min(len(days), int(-(-net_g // HEAVIEST_G)))
    if heap.as_bought or heap.day or parts <= 1:
        return [("", items)]
    edges = [days[round(i * len(days) / parts)] for i in range(parts)]
    at = [max(e for e in edges if e <= item.day) for item in items]
    return [(f"-from{e}", [i for i, a in zip(items, at, strict=True) if a == e]) for e in edges]


def _bag(heap: Heap, items: Sequence[Item], tail: str, party: Party) -> Bag:
    foods = [party.foods[f] for f in sorted({item.food for item in items})]
    days = [item.day for item in items if item.day > 0]
    first, last = party.leg_days[heap.leg]
    open_day = min(days, default=heap.day or first)
    keeps = heap.label == "spare" or not days
    where = "-".join(x for x in (f"d{heap.day}" if heap.day else "", heap.food) if x)
    group = party.name(heap.owners)
    return Bag(
        id="-".join(x for x in (str(heap.leg), heap.label, group, where) if x) + tail,
        label=heap.label, number=0, of=0, items=tuple(sorted(items, key=_order)),
        net_g=sum(item.net_g for item in items), wrap_g=_wrap_g(heap, items, party.foods),
        volume_ml=sum(volume_ml(party.foods[i.food], i.doses) for i in items),
        sealed=heap.as_bought, group=group, open_day=open_day,
        empty_day=_end(heap, party) if keeps else max(days),
        water_ml=water_of(items, party.foods), wait_min=wait_of(items, party.foods),
        allergens=allergens_of(foods), leg=heap.leg,
        eat_by_day=eat_by_day(foods, first, open_day, as_bought=heap.as_bought),
        shelter=_shelter(max(days, default=last + 1) <= first, party),
    )  # fmt: skip


def _end(heap: Heap, party: Party) -> int:
    """Spare food rides along to the end of the walk; what is left of a bag, to the end of a leg."""
    return max(b for _, b in party.leg_days.values()) if heap.label == "spare" else (
        party.leg_days[heap.leg][1])  # fmt: skip


def _shelter(eaten_first_day: bool, party: Party) -> Literal["container", "first-day", "none"]:
    if not party.contained:
        return "none"
    return "first-day" if eaten_first_day else "container"


def _order(item: Item) -> tuple[int, str, str, str]:
    return item.day, item.meal, item.food, item.walker


def _wrap_g(heap: Heap, items: Iterable[Item], foods: Mapping[str, Food]) -> float:
    """Wrapping of a bag: own wraps of what is sealed, an inner bag for each dish whose foods may
    lie loose together and for each food that may not, an outer bag around more than one piece."""
    ready: dict[str, float] = defaultdict(float)
    apart: dict[str, float] = defaultdict(float)
    dishes: dict[tuple[int, str], float] = defaultdict(float)
    for item in items:
        food = foods[item.food]
        if food.carry == "sealed" or (food.carry == "bag" and heap.as_bought):
            ready[item.food] += item.doses
        elif item.meal in HOT and heap.label in {*HOT, "day"} and _tips(food):
            dish = (item.day, item.meal) if heap.day else (0, item.meal)
            dishes[dish] += volume_ml(food, item.doses)
        else:
            apart[item.food] += item.doses
    mass = sum(ready_made_wrap_g(foods[f], n) for f, n in ready.items())
    mass += sum(repack_wrap_g(foods[f], n * foods[f].dose_g) for f, n in apart.items())
    mass += sum(bag_g(ml) for ml in dishes.values())
    if heap.as_bought or len(ready) + len(apart) + len(dishes) <= 1:
        return mass
    rest = {**ready, **apart}
    return mass + bag_g(sum(dishes.values()) + sum(volume_ml(foods[f], n) for f, n in rest.items()))


def _tips(food: Food) -> bool:
    """Whether it may lie loose with others, to be tipped into one pot or bowl with them: mains,
    sides and dry toppings that keep; no oil, spread or cheese."""
    if food.role != "topping":
        return food.role in LOOSE_ROLES
    keeps = food.keep.opened_days is None and food.keep.warm_days is None
    dry = food.pack_g / pack_ml_of(food)[0] < DRY_BELOW_G_ML
    return keeps and dry and food.category not in WET_CLASSES


def _numbered(bags: Iterable[Bag], party: Party) -> tuple[Bag, ...]:
    """In the order of packing: bags of those who must avoid something first, on clean tools."""
    careful = {party.name((w,)) for w in party.careful}

    def order(bag: Bag) -> tuple[int, bool, bool, int, int, str]:
        safe_first = not (careful & set(bag.group.split("+")))
        return bag.leg, bag.sealed, safe_first, LABELS.index(bag.label), bag.open_day, bag.id

    ordered = sorted(bags, key=order)
    count: dict[tuple[int, bool], int] = defaultdict(int)
    for bag in ordered:
        count[bag.leg, bag.sealed] += 1
    at: dict[tuple[int, bool], int] = defaultdict(int)
    out = []
    for bag in ordered:
        at[bag.leg, bag.sealed] += 1
        key = bag.leg, bag.sealed
        out.append(replace(bag, number=at[key], of=count[key]))
    return tuple(out)
