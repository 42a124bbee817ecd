"""What is bought, bagged, carried, shut away at night and brought back out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from oatsack.values.flags import Flag
from oatsack.values.food import Meal, Shop
from oatsack.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Buy:
    """One line of the shopping list: whole packs, and what remains of them."""

    food: str
    shop: str
    need_g: float
    from_home_g: float
    packs: float
    pack_g: float
    price: float | None
    """For all packs bought; None where no price is known."""
    left_g: float
    when: Literal["weeks before", "day before", "on the way"] = "weeks before"
    leg: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """Part of a bag's contents."""

    food: str
    doses: float
    net_g: float
    walker: str = ""
    day: int = 0
    meal: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """A labelled bag, or something carried sealed as bought. Gross = net + wrapping (C6)."""

    id: str
    label: str
    """Key of the kind of bag: breakfast, lunch, move, dinner, drinks, small, spare."""
    number: int
    of: int
    items: tuple[Item, ...]
    net_g: float
    wrap_g: float
    volume_ml: float
    sealed: bool = False
    group: str = ""
    """Walker or cook group it is for."""
    carrier: str = ""
    open_day: int = 1
    empty_day: int = 1
    """The day on which the last of it is eaten; spare food: the last day of its leg."""
    water_ml: float = 0.0
    """Water that one occasion takes (the thirstiest one, where the bag serves several)."""
    wait_min: float = 0.0
    allergens: Mapping[str, str] = field(default_factory=dict)
    """As of a food: one that is missing is unknown, and unknown counts as contains (C10)."""
    eat_by_day: int | None = None
    leg: int = 1
    shelter: Literal["container", "first-day", "none"] = "container"

    @property
    def gross_g(self) -> float:
        """Mass on the scale when packed [g]."""
        return self.net_g + self.wrap_g


@dataclass(frozen=True, slots=True, kw_only=True)
class Sack:
    """All the food one walker carries on one leg, by day [g]: at waking, wrappers included."""

    walker: str
    leg: int
    bags: tuple[str, ...]
    start_g: float
    by_day_g: Mapping[str, float]
    wrappers_by_day_g: Mapping[str, float]
    common_g: Mapping[str, float] = field(default_factory=dict)
    """Fuel, stove and container carried for all."""
    kg_days: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class DogBag:
    """A dog's own food on one leg, apart from all sums of the walkers' food."""

    dog: str
    leg: int
    carrier: str
    """The walker who carries it; empty: the dog."""
    feeds: float
    """How often it is fed on the leg, half a ration each time."""
    ration_g: float
    """What it eats on a full day."""
    net_g: float
    wrap_g: float
    volume_ml: float
    by_day_g: Mapping[str, float]
    """At waking, its bag included."""

    @property
    def gross_g(self) -> float:
        """Mass on the scale when packed [g]."""
        return self.net_g + self.wrap_g


@dataclass(frozen=True, slots=True, kw_only=True)
class Night:
    """Whether everything that smells closes in the containers on one night."""

    day: int
    needed_low_ml: float
    needed_ml: float
    needed_high_ml: float
    room_ml: float
    verdict: Literal["closes", "likely", "unlikely", "no"]
    outside: tuple[str, ...] = ()
    """Bags that ride outside on the day before this night, because they are eaten that day."""
    chance: float | None = None
    """Chance that it closes, 0 to 1, from the range of the volume (ours)."""
    containers_used: int = 0
    """How many of the containers are needed, the largest first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rubbish:
    """Wrappers and scraps at the end of one day, since the start of the leg."""

    day: int
    mass_g: float
    volume_ml: float
    in_pouches_ml: float = 0.0
    """Of the volume, what goes into emptied pouches that close."""
    bags: int = 0
    """Rubbish bags of ours that the rest fills."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """What waits at a resupply, or is bought there."""

    leg: int
    place: str
    arrive_day: int
    bags: tuple[str, ...]
    gross_g: float
    kind: Literal["box", "shop"] = "box"
    post_from: dt.date | None = None
    """Earliest day to post it, so that it is still held when the walker comes late."""
    post_until: dt.date | None = None
    """Latest day to post it, so that it is there when the walker comes early."""
    shut: tuple[dt.date, ...] = ()
    """Possible days of arrival on which the place hands nothing out."""
    open_chance: float | None = None
    """Chance that it is open on the day one comes, 0 to 1 (ours, from the days stated)."""
    wait_days: int = 0
    """Days to wait if one comes at the worst time."""
    box_chance: float | None = None
    """Chance that the box is there and still held when one comes, posted on the best day."""
    post_on: dt.date | None = None
    """The best day to post it."""
    early: dt.date | None = None
    late: dt.date | None = None
    """Earliest and latest day of arrival."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place where food can be taken on at the start of a leg: what it sells, how post comes.

    Transit and hold are in days; weekdays count from 0, Monday. Facts of a place change: `checked`
    says when somebody asked. `leg` and `day` are 0 until the route is known.
    """

    name: str
    leg: int = 0
    """The leg that begins behind it."""
    day: int = 0
    """The day on which one comes there."""
    kind: Literal["box", "shop"] = "box"
    sells: frozenset[Shop] = frozenset()
    """Kinds of shop; empty: nobody said, so all."""
    transit_fast_days: int = 3
    transit_slow_days: int = 6
    hold_days: int = 15
    open_weekdays: frozenset[int] = frozenset(range(5))
    early_days: int = 1
    """How many days before the plan the walker may come at the earliest."""
    late_days: int = 3
    town_meals: frozenset[Meal] = frozenset()
    """Meals eaten there: lunch and dinner of the day of arrival, breakfast of the next."""
    town_kcal: float | None = None
    """Energy of what each walker eats there; None: what these meals would have brought."""
    checked: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """What is left on one leg, as packed, if one walker's pack is lost."""

    leg: int
    walker: str
    energy_share: float
    """Energy left over all that was carried."""
    flameless_share: float
    """Energy left that can be eaten without a flame, over all that was carried."""
    heat: bool
    """Whether a stove, a pot and fuel are left."""
    safe_share: Mapping[str, float] = field(default_factory=dict)
    """Walker with something to avoid -> energy left that is safe, over their own planned."""
    worst: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """The whole of packing."""

    buy: tuple[Buy, ...] = ()
    bags: tuple[Bag, ...] = ()
    sacks: tuple[Sack, ...] = ()
    nights: tuple[Night, ...] = ()
    rubbish: tuple[Rubbish, ...] = ()
    boxes: tuple[Box, ...] = ()
    losses: tuple[Loss, ...] = ()
    """The loss of each pack on each leg; the worst single one of a leg is marked."""
    dogs: tuple[DogBag, ...] = ()
    flags: tuple[Flag, ...] = ()
