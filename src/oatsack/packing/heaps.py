"""What bagging looks up, and the heaps that food is laid into before it is bagged."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from oatsack.packing.groups import group_name
from oatsack.values.food import Food

Way = Literal["meal", "day", "group"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Party:
    """What bagging looks up: rows, legs, walkers, cook groups, and who must avoid something."""

    foods: Mapping[str, Food]
    way: Way
    walkers: tuple[str, ...]
    groups: tuple[tuple[str, ...], ...]
    leg_of: Mapping[int, int]
    leg_days: Mapping[int, tuple[int, int]]
    careful: frozenset[str] = frozenset()
    contained: bool = False

    def name(self, eaters: Iterable[str]) -> str:
        """The short name of those who eat from a bag."""
        return group_name(eaters, self.groups, self.walkers)


@dataclass(frozen=True, slots=True)
class Heap:
    """What belongs together: everything of one key goes into one bag."""

    leg: int
    label: str
    owners: tuple[str, ...]
    day: int = 0
    """0: for all days of the leg."""
    food: str = ""
    """Empty: several foods."""
    as_bought: bool = False
