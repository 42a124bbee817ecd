"""What the flow is given from outside, and what a round of it hands to the next."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from oatsack.provision.loads import Backs
from oatsack.provision.needs import Needs, Wanted
from oatsack.values.kitchen import KitchenLedger
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.pack import Packed, Place
from oatsack.values.route import Track

Progress = Callable[[Menu], bool]


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What the flow is given from outside: the date, the seed, the track, the light, the hashes."""

    today: dt.date
    seed: int = 0
    work: int = 1
    track: Track | None = None
    daylight: Mapping[dt.date, tuple[float, float]] | None = None
    places: tuple[Place, ...] = ()
    hashes: Mapping[str, str] = field(default_factory=dict)
    """``trip``, ``larder`` and ``near``: what was read, for the plan to name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """One round's answer: what was asked, the menu, its kitchen, its bags and what they weigh."""

    asked: MenuRequest
    menu: Menu
    kitchen: KitchenLedger
    packed: Packed
    backs: Backs


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounds:
    """The last round: its draft, the need it was made for, the need it leads to, and how many."""

    draft: Draft
    want: Wanted
    after: Needs
    rounds: int
    moved: float
    """The largest change of a day's need in the last round [kcal]: the residual."""
