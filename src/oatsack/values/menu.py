"""What is asked of the menu chooser, and what it answers: everything eaten, by whom and when."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from oatsack.values.flags import Flag
from oatsack.values.food import Food, Meal, Shop
from oatsack.values.frozen import dataclass
from oatsack.values.kit import Kit
from oatsack.values.kitchen import DosePrice
from oatsack.values.trip import Rules
from oatsack.values.walker import Walker

Why = Literal["usual", "held", "chosen", "count", "bag"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One occasion of one walker inside the walk. `move` stands for the whole day's nibbling."""

    walker: str
    day: int
    date: dt.date
    meal: Meal
    clock_min: float
    hot: bool
    """Whether something may be heated."""
    minutes_limit: float | None = None
    carry_days: float = 0.0
    """Days from the start of the leg until it is eaten: what kg-days count."""
    leg: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class MenuRequest:
    """The whole question. All energies are frozen; nothing here depends on the answer."""

    slots: tuple[Slot, ...]
    target_kcal: Mapping[str, Mapping[int, float]]
    """Walker -> day -> energy to eat that day, spare apart."""
    walkers: tuple[Walker, ...]
    foods: tuple[Food, ...]
    prices: Mapping[tuple[str, int], DosePrice]
    """(food, day) -> cost in that day's kitchen; a pair that is missing costs nothing."""
    rules: Rules
    kit: Kit
    temperatures_c: Mapping[int, float] = field(default_factory=dict)
    """Day -> air at midday, for what melts or spoils."""
    hot_drinks: Mapping[str, Mapping[int, float]] = field(default_factory=dict)
    """Walker -> day -> hot drinks wanted."""
    bottle_fills: Mapping[str, Mapping[int, float]] = field(default_factory=dict)
    """Walker -> day -> how often the first bottle is filled; a day that is missing: once each."""
    walking_h: Mapping[str, Mapping[int, float]] = field(default_factory=dict)
    """Walker -> day -> hours walked, for what is eaten on the way; a day that is missing: none."""
    container_ml: float | None = None
    """Room for food in the party's containers on the first night of a leg, smellables taken off."""
    spare_kcal: Mapping[str, float] = field(default_factory=dict)
    aims: tuple[str, ...] = ()
    """Aims in order, by name: each as good as may be, within `aims_within` of those before. None:
    all aims at once, each with its weight."""
    aims_within: float = 0.02
    """How much of an aim, as a share, may be given up for those after it."""
    near: Menu | None = None
    """An earlier menu to stay close to."""
    seed: int = 0
    settings: Mapping[str, float] = field(default_factory=dict)
    """Overrides of the rules' own settings, as ``protein.g_per_kg``."""
    budget_work: int = 1
    """How much work the chooser may do; 1 is the everyday amount."""
    first_day: int = 1
    shops: Mapping[int, frozenset[Shop]] = field(default_factory=dict)
    """Leg -> kinds of shop where it is bought on the way, none named: all. What they have not, and
    every leg that is missing, leaves home."""
    eaten_before: Mapping[str, Mapping[Meal, int]] = field(default_factory=dict)
    """Walker -> meal -> how many of these meals lie on the legs before these slots, so that a usual
    goes on where it stood."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Portion:
    """So many doses of one food at one meal by one walker."""

    walker: str
    day: int
    meal: Meal
    food: str
    doses: float
    why: Why = "chosen"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pool:
    """An open bag: whole packs of one food, opened on one day and nibbled until another.

    Its energy counts evenly over the days it lasts; `by_day_g` says how the sums were made.
    """

    walker: str
    food: str
    packs: float
    open_day: int
    last_day: int
    by_day_g: Mapping[int, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Menu:
    """Everything eaten, and how good the choice is known to be.

    `portions` include the shares of open bags (why ``bag``), so that sums over portions are sums
    over everything. `aim_g_days` is what was made least; `bound` is proven: no menu is better.
    """

    portions: tuple[Portion, ...]
    pools: tuple[Pool, ...] = ()
    spare: tuple[Portion, ...] = ()
    """Spare food, day 0, apart from everything (C16)."""
    aim: float = 0.0
    bound: float = 0.0
    ended: Literal["proved", "work", "stopped", "clock"] = "proved"
    binds: tuple[str, ...] = ()
    """Names of rows that hold the choice back."""
    flags: tuple[Flag, ...] = ()
    moved: int | None = None
    """Portions that differ from `near`."""

    @property
    def gap(self) -> float:
        """Proven relative distance from the best possible."""
        return 0.0 if self.aim <= 0 else max(0.0, (self.aim - self.bound) / self.aim)
