"""Night by night: does everything that smells close in the containers, and how sure is that.

Volume of the food left over the fraction of the store that its form fills, plus crushed wrappers,
plus the other smellables. What is eaten on the first day of a leg rides outside on that day. The
rules of a place are its own: nothing here says how food must be stored, only whether it fits.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from oatsack.packing.dogs import room_ml
from oatsack.packing.rubbish import (
    CRUSHED_G_ML,
    CRUSHED_LOOSE_G_ML,
    CRUSHED_TIGHT_G_ML,
    at_end_of,
)
from oatsack.packing.sacks import Legs, bags_on_leg, emptied_wrap_g
from oatsack.packing.volume import BULK_SPREAD, SOFT, STIFF, is_soft, volume_ml
from oatsack.values.food import Food
from oatsack.values.kit import Kit
from oatsack.values.pack import Bag, DogBag, Item, Night

ML_PER_PERSON_DAY = 1640.0
"""Common rule of 100 cubic inches per person and day for ordinary repacked food; the published
spread is 1.6 to 3.4 l (NpsContainer).

Source: NpsContainer, page on packing."""
ML_PER_PERSON_DAY_PUFFED = 2200.0
"""The same with pouches that were not pressed flat (common practice)."""
STATED_SPREAD = 0.10
"""Relative spread of a stated volume, ours: no label prints one, somebody measured or guessed."""
SURE = 0.975
"""Chance from which it is said to close (ours)."""
Verdict = Literal["closes", "likely", "unlikely", "no"]
RANGE_Z = 1.2816
"""The range is read as holding eight cases in ten: its ends lie so many deviations out (ours)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Needed:
    """Room that is needed [ml]: low, likely, high."""

    low: float
    likely: float
    high: float

    @property
    def deviation(self) -> float:
        """Standard deviation that the range stands for [ml]."""
        return (self.high - self.low) / (2.0 * RANGE_Z)


def nights(bags: Sequence[Bag], foods: Mapping[str, Food], legs: Legs, kit: Kit, walkers: int, *,
           puffed: bool = False, dogs: Sequence[DogBag] = ()) -> tuple[Night, ...]:  # fmt: skip
    """Every night of the walk but that after its last day. `puffed`: pouches not pressed flat;
    what the dogs still eat closes in too."""
    last = max(end for _, end in legs.values())
    return tuple(
        _night(day, bags_on_leg(bags, leg, legs), foods, span[0], kit,
               other_ml=other_ml(kit, walkers, dogs, day), puffed=puffed)
        for leg, span in sorted(legs.items())
        for day in range(span[0], span[1] + 1)
        if day < last
    )  # fmt: skip


def other_ml(kit: Kit, walkers: int, dogs: Iterable[DogBag], day: int) -> float:
    """What smells and is no food of the walkers, on the night after a day [ml]."""
    return kit.other_smellables_ml * walkers + room_ml(dogs, day)


def _night(day: int, bags: Sequence[Bag], foods: Mapping[str, Food], first: int, kit: Kit, *,
           other_ml: float, puffed: bool) -> Night:  # fmt: skip
    need = needed(day, bags, foods, other_ml=other_ml, first=first, puffed=puffed)
    room = sum(c.volume_ml for c in kit.containers)
    today = tuple(b.id for b in bags if b.open_day == b.empty_day == day == first)
    return Night(
        day=day, needed_low_ml=need.low, needed_ml=need.likely, needed_high_ml=need.high,
        room_ml=room, verdict=verdict(need, room), outside=today, chance=chance(need, room),
        containers_used=how_many(need.likely, [c.volume_ml for c in kit.containers]),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """What a night's room is made of [ml], before packing factors; wrappers in grams."""

    soft_stated: float
    soft_assumed: float
    stiff: float
    wrap_g: float
    rubbish: float
    other: float

    @property
    def likely(self) -> float:
        """Room needed: soft and stiff over what they fill, rubbish, the other smellables."""
        return self.soft / SOFT.likely + self.stiff / STIFF.likely + self.rubbish + self.other

    @property
    def soft(self) -> float:
        """All that gives way."""
        return self.soft_stated + self.soft_assumed

    @property
    def spread(self) -> tuple[float, float]:
        """What stated and assumed volumes may be off by."""
        stated = self.soft_stated / SOFT.likely + self.stiff / STIFF.likely
        return STATED_SPREAD * stated, BULK_SPREAD * self.soft_assumed / SOFT.likely

    @property
    def down(self) -> tuple[float, ...]:
        """How much less each may come to, if all packs tightly."""
        return (
            self.soft / SOFT.likely - self.soft / SOFT.high,
            self.stiff / STIFF.likely - self.stiff / STIFF.high,
            self.wrap_g / CRUSHED_G_ML - self.wrap_g / CRUSHED_TIGHT_G_ML, *self.spread,
        )  # fmt: skip

    @property
    def up(self) -> tuple[float, ...]:
        """How much more each may come to, if all packs loosely."""
        return (
            self.soft / SOFT.low - self.soft / SOFT.likely,
            self.stiff / STIFF.low - self.stiff / STIFF.likely,
            self.wrap_g / CRUSHED_LOOSE_G_ML - self.wrap_g / CRUSHED_G_ML, *self.spread,
        )  # fmt: skip


def needed(day: int, bags: Iterable[Bag], foods: Mapping[str, Food], *, other_ml: float,
           first: int, puffed: bool = False) -> Needed:  # fmt: skip
    """Room needed on the night after a day, from the items still to be eaten."""
    made = parts(day, bags, foods, other_ml=other_ml, first=first, puffed=puffed)
    low, high = math.hypot(*made.down), math.hypot(*made.up)
    return Needed(low=max(0.0, made.likely - low), likely=made.likely, high=made.likely + high)


def parts(day: int, bags: Iterable[Bag], foods: Mapping[str, Food], *, other_ml: float,
          first: int, puffed: bool = False) -> Parts:  # fmt: skip
    """What the room of a night is made of; `first` is the leg's first day."""
    held = list(bags)
    left = [i for b in held for i in b.items if i.day <= 0 or i.day > day]
    return Parts(
        soft_stated=_volume(left, foods, soft=True, stated=True, puffed=puffed),
        soft_assumed=_volume(left, foods, soft=True, stated=False, puffed=puffed),
        stiff=_volume(left, foods, soft=False, stated=None, puffed=puffed),
        wrap_g=sum(emptied_wrap_g(b, day) for b in held),
        rubbish=at_end_of(day, held, foods, first).volume_ml, other=other_ml,
    )  # fmt: skip


def _volume(items: Iterable[Item], foods: Mapping[str, Food], *, soft: bool, stated: bool | None,
            puffed: bool) -> float:  # fmt: skip
    return sum(
        volume_ml(foods[i.food], i.doses, puffed=puffed)
        for i in items
        if is_soft(foods[i.food]) == soft
        and stated in (None, foods[i.food].pack_ml is not None)
    )


def verdict(need: Needed, room_ml: float) -> Verdict:
    """Whether it closes: almost surely, likely, unlikely, or not at all.

    A store that stays open at night is worse than a spare litre, so ``closes`` asks for more than
    the end of the range, while ``no`` is said as soon as even its lower end is too much.
    """
    if chance(need, room_ml) >= SURE:
        return "closes"
    if need.likely <= room_ml:
        return "likely"
    return "unlikely" if need.low <= room_ml else "no"


def chance(need: Needed, room_ml: float) -> float:
    """Chance that it closes, 0 to 1: a normal spread over the range of the volume (ours)."""
    if need.deviation <= 0:
        return 1.0 if need.likely <= room_ml else 0.0
    return 0.5 * (1.0 + math.erf((room_ml - need.likely) / (need.deviation * math.sqrt(2.0))))


def how_many(need_ml: float, rooms_ml: Iterable[float]) -> int:
    """How many containers are needed, the largest first; all of them if even that is too little."""
    count, room = 0, 0.0
    for volume in sorted(rooms_ml, reverse=True):
        if room >= need_ml:
            break
        count, room = count + 1, room + volume
    return count


def by_rule_ml(person_days: float, *, other_ml: float = 0.0, puffed: bool = False) -> float:
    """Room by the common rule of so much per person-day still to be eaten [ml]: a cross-check."""
    return person_days * (ML_PER_PERSON_DAY_PUFFED if puffed else ML_PER_PERSON_DAY) + other_ml
