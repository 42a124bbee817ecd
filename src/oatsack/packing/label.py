"""What stands on the label of a bag: wrapping, water, wait, allergens, the day to eat it by.

Merging is fail-closed: a bag contains what any of its foods contains, and what one food leaves
unknown the bag leaves unknown, which counts as contains (C10).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from oatsack.packing.volume import volume_ml
from oatsack.values.food import ALLERGENS, Food, State
from oatsack.values.pack import Item

BAG_SIZES: tuple[tuple[float, float], ...] = ((300.0, 2.0), (1000.0, 5.0), (3000.0, 10.0))
"""Plastic bags: room [ml] and own mass [g] (common practice; one to two per cent of contents)."""
LIQUID_CLASSES = frozenset({"fat"})
BOTTLE_SHARE = 0.10
"""A small bottle weighs about a tenth of the oil it holds (common practice)."""
BLANK_POUCH_WRAP_G = 25.0
BLANK_WRAP_SHARE = 0.06
"""Wrapping where nobody stated it: a pouch 18 to 35 g, bars and sachets 4 to 8 per cent (C2;
common practice)."""
WORST_FIRST: tuple[State, ...] = ("contains", "unknown", "may", "free")


def bag_g(content_ml: float) -> float:
    """Mass of the smallest plastic bags that hold so much [g]."""
    room, mass = BAG_SIZES[-1]
    whole = max(0.0, (content_ml - 1e-9) // room)
    rest = content_ml - whole * room
    return whole * mass + next(m for r, m in BAG_SIZES if rest <= r + 1e-6)


def repack_wrap_g(food: Food, net_g: float) -> float:
    """Mass of the bag or bottle that one repacked food is measured into [g]."""
    if food.category in LIQUID_CLASSES:
        return BOTTLE_SHARE * net_g
    return bag_g(volume_ml(food, net_g / food.dose_g))


def ready_made_wrap_g(food: Food, doses: float) -> float:
    """Wrapping of doses carried as bought [g]; an open bag keeps its whole pack."""
    packs = doses / food.doses_per_pack
    if food.carry == "bag":
        packs = float(-(-(packs - 1e-9) // 1))
    if food.wrap_g is not None:
        return packs * food.wrap_g
    if food.prep.from_bag:
        return packs * BLANK_POUCH_WRAP_G
    return packs * food.pack_g * BLANK_WRAP_SHARE


def wrap_is_blank(food: Food) -> bool:
    """Whether the wrapping had to be taken from the class."""
    return food.carry != "repack" and food.wrap_g is None


def allergens_of(foods: Iterable[Food]) -> Mapping[str, State]:
    """The merged states of a bag. One that is missing is unknown, as in a food."""
    rows = list(foods)
    merged = {a: min((f.state(a) for f in rows), key=WORST_FIRST.index) for a in ALLERGENS}
    return {a: state for a, state in merged.items() if state != "unknown"}


def water_of(items: Sequence[Item], foods: Mapping[str, Food]) -> float:
    """Water of the thirstiest occasion that the bag serves [ml]."""
    by_occasion: dict[tuple[int, str], float] = defaultdict(float)
    for item in items:
        by_occasion[item.day, item.meal] += item.doses * foods[item.food].prep.water_ml
    return max(by_occasion.values(), default=0.0)


def wait_of(items: Iterable[Item], foods: Mapping[str, Food]) -> float:
    """Longest time from pouring (or from the boil) until it can be eaten [min]."""
    preps = [foods[item.food].prep for item in items]
    return max((p.wait_min + p.simmer_min for p in preps), default=0.0)


def eat_by_day(foods: Iterable[Food], leg_start: int, open_day: int, *,
               as_bought: bool = True) -> int | None:  # fmt: skip
    """Last day on which everything in the bag is good; None where nothing limits it.

    What was repacked was opened the evening before its leg; a pack carried as bought is opened on
    its day; what is sealed counts its days in the warm only.
    """
    limits = []
    for food in foods:
        if food.keep.warm_days is not None:
            limits.append(leg_start + int(food.keep.warm_days) - 1)
        if food.keep.opened_days is not None and food.carry != "sealed":
            closed = food.carry == "bag" and as_bought
            opened = open_day - 1 if closed else leg_start - 1
            limits.append(opened + max(1, int(food.keep.opened_days)))
    return min(limits, default=None)
