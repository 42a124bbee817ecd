"""What comes back out: grams and litres of wrappers and scraps at the end of each day of a leg.

All of it is carried out; burning is not offered, for laminate does not burn away. Wrappers count in
the sack until the leg's end (C13); wet scraps are counted here only. Emptied pouches that close are
the first rubbish bags.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from oatsack.packing.sacks import Legs, bags_on_leg, emptied_wrap_g
from oatsack.values.food import Food
from oatsack.values.pack import Bag, Item, Rubbish

CRUSHED_G_ML = 0.10
CRUSHED_LOOSE_G_ML = 0.05
CRUSHED_TIGHT_G_ML = 0.15
"""Crushed wrappers, likely and its range (common practice)."""
POUCH_SCRAPS_G = 10.0
"""Wet rest in a pouch that was eaten from: 5 to 20 g (common practice)."""
POT_SCRAPS = 0.03
"""Scraps of a cooked dish, of its mass with water: 2 to 5 per cent (common practice)."""
RUBBISH_BAG_ML = 2000.0
"""What one rubbish bag holds with its neck tied (ours)."""


def rubbish_of(bags: Sequence[Bag], foods: Mapping[str, Food], legs: Legs) -> tuple[Rubbish, ...]:
    """Rubbish at the end of every day, since the start of its leg, of the whole party."""
    return tuple(
        at_end_of(day, bags_on_leg(bags, leg, legs), foods, span[0])
        for leg, span in sorted(legs.items())
        for day in range(span[0], span[1] + 1)
    )


def at_end_of(day: int, bags: Iterable[Bag], foods: Mapping[str, Food], since: int) -> Rubbish:
    """Rubbish at the end of one day, counted from the day `since`."""
    held = list(bags)
    eaten = [i for b in held for i in b.items if since <= i.day <= day]
    wrap_g = sum(emptied_wrap_g(b, day) for b in held)
    wet_g = sum(scraps_g(i, foods[i.food]) for i in eaten)
    volume = wrap_g / CRUSHED_G_ML + wet_g
    room = sum(_pouch_room_ml(i, foods[i.food]) for i in eaten)
    inside = min(volume, room)
    return Rubbish(day=day, mass_g=wrap_g + wet_g, volume_ml=volume, in_pouches_ml=inside,
                   bags=int(-(-(volume - inside) // RUBBISH_BAG_ML)))  # fmt: skip


def scraps_g(item: Item, food: Food) -> float:
    """Wet scraps that eating an item leaves [g]."""
    if food.prep.from_bag and food.prep.kind != "none":
        return POUCH_SCRAPS_G * item.doses / food.doses_per_pack
    if food.prep.kind in ("boil", "simmer") and food.role in ("main", "side"):
        return POT_SCRAPS * (item.net_g + food.prep.water_ml * item.doses)
    return 0.0


def _pouch_room_ml(item: Item, food: Food) -> float:
    """What an emptied pouch takes in; none unless it closes."""
    if food.pouch is None or not food.pouch.closes or food.pouch.holds_ml is None:
        return 0.0
    return food.pouch.holds_ml * item.doses / food.doses_per_pack
