"""What of the packing a person should hear, as flags: keys and values, no sentences."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from oatsack.packing.buy import Lots, Wanted, lots_of, stock_too_old
from oatsack.packing.label import eat_by_day, wrap_is_blank
from oatsack.packing.loss import KEEP_COLD, KEEP_ENERGY, KEEP_SAFE
from oatsack.packing.sacks import Legs
from oatsack.packing.share import Shared
from oatsack.values.flags import Flag, Level
from oatsack.values.food import Food
from oatsack.values.pack import Bag, Buy, Loss, Night, Sack
from oatsack.values.walker import Walker

HEAVY, VERY_HEAVY = 0.40, 0.50
"""Pack over body mass from which a word is said, and from which it is a caution (ours; common
practice asks for a quarter to a third)."""
UNFAIR = 0.05
"""Above a fair part by more than this share of the mean part is worth a note (ours)."""


def container_signs(nights: Iterable[Night]) -> list[Flag]:
    """The first night that may not close; certain failure blocks (C11)."""
    for night in nights:
        if night.room_ml > 0 and night.verdict in ("no", "unlikely"):
            level: Level = "block" if night.verdict == "no" else "caution"
            key = f"packing.container.{night.verdict}"
            scope = f"packed/nights/{night.day}"
            values = {"day": night.day, "needed_ml": night.needed_ml, "room_ml": night.room_ml}
            return [Flag(key=key, level=level, scope=scope, values=values)]
    return []


def puffed_signs(flat: Sequence[Night], puffed: Sequence[Night]) -> list[Flag]:
    """A night that closes only if pouches are pressed flat first."""
    for a, b in zip(flat, puffed, strict=True):
        if a.room_ml > 0 and a.verdict in ("closes", "likely") and b.verdict in ("unlikely", "no"):
            values = {"day": a.day, "flat_ml": a.needed_ml, "puffed_ml": b.needed_ml}
            scope = f"packed/nights/{a.day}"
            return [
                Flag(key="packing.container.flatten", level="quiet", scope=scope, values=values)
            ]
    return []


def keeping_signs(bags: Iterable[Bag], foods: Mapping[str, Food], legs: Legs) -> list[Flag]:
    """Bags that would be eaten after they are good, and the food that does not last: quietly for
    one day, for limits are no sharper than that."""
    return [
        Flag(key="packing.keeps", level=_over(bag.empty_day - bag.eat_by_day),
             scope=f"packed/bags/{bag.id}",
             values={"bag": bag.id, "food": _first_to_spoil(bag, foods, legs),
                     "eat_by_day": bag.eat_by_day, "empty_day": bag.empty_day})
        for bag in bags
        if bag.eat_by_day is not None and bag.empty_day > bag.eat_by_day and bag.label != "spare"
    ]  # fmt: skip


def _over(days: int) -> Level:
    return "quiet" if days <= 1 else "caution"


def _first_to_spoil(bag: Bag, foods: Mapping[str, Food], legs: Legs) -> str:
    start = legs[bag.leg][0]
    names = sorted({i.food for i in bag.items})
    good = {name: eat_by_day([foods[name]], start, bag.open_day, as_bought=bag.sealed)
            for name in names}
    return min((name for name in names if good[name] == bag.eat_by_day), default=names[0])


def loss_signs(losses: Iterable[Loss], walkers: int) -> list[Flag]:
    """What a single lost pack would take away that should be left, for each leg and pack.

    A caution only for the allergy; what a couple cannot help is one quiet line.
    """
    return [flag for loss in losses for flag in _loss_signs(loss, walkers)]


def _loss_signs(loss: Loss, walkers: int) -> list[Flag]:
    scope = f"packed/losses/{loss.leg}/{loss.walker}"

    def sign(key: str, level: Level, share: float, who: str = "") -> Flag:
        values: dict[str, float | int | str] = {
            "walker": loss.walker, "who": who or loss.walker, "share": share,
        }  # fmt: skip
        return Flag(key=f"packing.loss.{key}", level=level, scope=scope, values=values)

    out = []
    if walkers >= 3 and loss.energy_share < KEEP_ENERGY - 1e-9:
        out.append(sign("energy", "quiet", loss.energy_share))
    if not loss.heat and loss.flameless_share < KEEP_COLD - 1e-9:
        out.append(sign("heat", "quiet", loss.flameless_share))
    short = {w: s for w, s in loss.safe_share.items() if s < KEEP_SAFE - 1e-9}
    return out + [sign("safe", "caution", share, who) for who, share in short.items()]


def share_signs(shared: Mapping[int, Shared]) -> list[Flag]:
    """Legs on which someone carries clearly more than a fair part, beyond what cannot be helped."""
    return [
        Flag(key="packing.share.excess", level="note", scope=f"packed/sacks/{leg}",
             values={"leg": leg, "excess_kg_days": one.excess, "bound_kg_days": one.bound})
        for leg, one in sorted(shared.items())
        if one.excess - one.bound > UNFAIR * one.part
    ]  # fmt: skip


def heavy_signs(sacks: Iterable[Sack], walkers: Iterable[Walker]) -> list[Flag]:
    """The heaviest start of each walker whose pack is more than most people walk well under, with
    how much of it is food. Water is not in it."""
    who = {walker.id: walker for walker in walkers}
    worst: dict[str, Sack] = {}
    for sack in sacks:
        if sack.walker not in worst or _start_g(sack) > _start_g(worst[sack.walker]):
            worst[sack.walker] = sack
    found = []
    for walker, sack in worst.items():
        pack_g = 1000.0 * who[walker].base_weight_kg + _start_g(sack)
        share = pack_g / (1000.0 * who[walker].mass_kg)
        if share > HEAVY:
            values: dict[str, float | int | str] = {
                "walker": walker, "pack_g": pack_g, "share": share, "food_g": sack.start_g,
                "leg": sack.leg,
            }  # fmt: skip
            level: Level = "caution" if share > VERY_HEAVY else "quiet"
            found.append(Flag(key="packing.heavy", level=level, values=values,
                              scope=f"packed/sacks/{sack.leg}-{walker}"))  # fmt: skip
    return found


def _start_g(sack: Sack) -> float:
    return sack.start_g + sum(sack.common_g.values())


def stock_signs(wanted: Sequence[Wanted], rows: Iterable[Buy],
                foods: Mapping[str, Food], lots: Lots | None = None) -> list[Flag]:  # fmt: skip
    """Stock past its date on the day it is eaten; things that no shop sells and home lacks."""
    by_food: dict[str, list[Wanted]] = {}
    for one in wanted:
        by_food.setdefault(one.food, []).append(one)
    old = [f for f, heap in sorted(by_food.items()) if stock_too_old(heap, lots_of(foods[f], lots))]
    out = [Flag(key="packing.stock.old", level="quiet", scope=f"packed/buy/{f}",
                values={"food": f}) for f in old]  # fmt: skip
    out += [
        Flag(key="packing.stock.short", level="quiet", scope=f"packed/buy/{b.food}",
             values={"food": b.food, "packs": b.packs})
        for b in rows
        if b.packs > 0 and b.shop == "home"
    ]  # fmt: skip
    return out


def wrap_signs(bags: Iterable[Bag], foods: Mapping[str, Food]) -> list[Flag]:
    """How many foods have a wrapping or volume that had to be taken from their class (C2)."""
    used = {i.food for b in bags for i in b.items}
    blank = sorted(f for f in used if wrap_is_blank(foods[f]))
    bulk = sorted(f for f in used if foods[f].pack_ml is None)
    out = []
    if blank:
        out.append(Flag(key="packing.wrap.assumed", level="note", values={"count": len(blank)}))
    if bulk:
        out.append(Flag(key="packing.volume.assumed", level="note", values={"count": len(bulk)}))
    return out
