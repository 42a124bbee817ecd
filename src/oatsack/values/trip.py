"""Everything the walker states about a walk, checked and in fixed units. `files/trip` reads it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from oatsack.values.dog import Dog
from oatsack.values.food import Meal
from oatsack.values.frozen import dataclass
from oatsack.values.kit import Kit
from oatsack.values.pack import Place
from oatsack.values.route import Day
from oatsack.values.walker import Walker

MEAL_CLOCK: Mapping[Meal, float] = {"breakfast": 420.0, "lunch": 750.0, "dinner": 1110.0}
"""When meals are taken, minutes from midnight: 07:00, 12:30, 18:30. `move` and `drinks` follow
the hours inside the walk."""


Heights = Literal["map", "barometer", "satellite"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HandStretch:
    """A piece of a typed day: so far, at this slope, at this speed."""

    distance_m: float
    grade_pct: float = 0.0
    speed_ms: float | None = None
    terrain: float = 1.1


@dataclass(frozen=True, slots=True, kw_only=True)
class HandWater:
    """A place with water on a typed day; the clock is None where only its distance was typed."""

    name: str = "water"
    distance_m: float = 0.0
    at_min: float | None = None
    reliability: Literal["sure", "likely", "doubtful"] = "sure"


@dataclass(frozen=True, slots=True, kw_only=True)
class HandDay:
    """A day typed by hand."""

    distance_m: float = 0.0
    ascent_m: float = 0.0
    descent_m: float = 0.0
    highest_m: float | None = None
    camp_m: float | None = None
    camp_name: str = ""
    camp_dry: bool = False
    stretches: tuple[HandStretch, ...] = ()
    camp_h: float | None = None
    """Hours of camp chores; None: the default."""
    sleep_h: float | None = None
    warm_c: float | None = None
    cold_c: float | None = None
    water: tuple[HandWater, ...] = ()
    leg: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteSpec:
    """How the route is given: a track and how to cut it, or days by hand."""

    track: str | None = None
    camps: tuple[str, ...] = ()
    """Names of waypoints where nights are spent."""
    cuts_m: tuple[float, ...] = ()
    """Distances along the track at which days end."""
    equal_days: bool = False
    """Cut into the trip's days of equal effort."""
    hand_days: tuple[HandDay, ...] = ()
    usual_day: HandDay | None = None
    """One typed day that is walked every full day."""
    heights: Heights = "map"
    """Where the track's heights come from, which says how much of their wavering is climb."""
    pace_model: str = "campbell-2022"
    flat_speed_ms: float | None = None
    terrain: float = 1.1
    start_height_m: float = 500.0
    warm_c: float = 18.0
    """Midday air at the start's height [deg C]."""
    cold_c: float = 6.0
    snow: bool | None = None
    """Water must be melted from snow; None: told by the temperatures and the water places."""
    windy: bool = False
    """Cooked in the wind: the stove takes its windy efficiency."""
    start_clock_min: float = 510.0
    """When walking begins on a full day: 08:30."""
    dry_camps: frozenset[str] = frozenset()
    leg_ends: tuple[str, ...] = ()
    """Names of camps or shops where food can be taken on."""

    def is_dry(self, camp: str) -> bool:
        """Whether a camp of this name is among the dry ones, upper and lower case alike."""
        return camp.casefold() in {name.casefold() for name in self.dry_camps}


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedSpec:
    """How the need is worked out: the walking-cost model, and the labelled terms laid over it."""

    model: str = "lcda-backpacking-2022"
    cold: bool = True
    heat: bool = True
    height: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """The walker's word on one choice: eat this there (`count` > 0), or never (`count` = 0)."""

    food: str
    walker: str | None = None
    date: dt.date | None = None
    meal: Meal | None = None
    count: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """What the walker may set about the food. Defaults are those of common practice."""

    hot_breakfast: bool = True
    cook_midday: bool = False
    no_flame: bool = False
    """A fire ban, or no stove wanted: nothing is heated."""
    first_day_meals: frozenset[Meal] | None = None
    """Meals of ours on the first day; None: by clock."""
    last_lunch: bool | None = None
    """Whether the lunch of the finish day is ours; None: by clock."""
    meal_clock_min: Mapping[Meal, float] = field(default_factory=lambda: dict(MEAL_CLOCK))
    minutes: Mapping[Meal, float] = field(default_factory=dict)
    """Most minutes from lighting the stove to the last mug, per meal."""
    dinner_apart_days: int = 2
    """A dinner comes again after this many days at the earliest, where it can (soft)."""
    day_window: float = 0.12
    trip_window: float = 0.05
    budget: float | None = None
    currency: str = "EUR"
    volume_ml: float | None = None
    spare: Literal["none", "meal", "day"] | float | None = None
    """Spare food: none, a cold meal, a day, or kcal per walker; None: by the trip's length."""
    fat_ceiling: float = 0.45
    """Most of a trip's energy from fat."""
    mains_shared: bool = True
    """One pot, one dish where the hard limits agree."""
    weight_kgdays: float = 1.0
    weight_liking: float = 1.0
    weight_price: float = 1.0
    aims: tuple[str, ...] = ()
    """Aims in order, as ``load`` then ``price``; none: all at once, by their weights."""
    aims_within: float = 0.02
    """How much of an aim, as a share, may be given up for those after it."""
    settings: Mapping[str, float] = field(default_factory=dict)
    """Settings of single rules and aims by full name, as ``protein.g_per_kg``; else their own."""
    holds: tuple[Hold, ...] = ()
    bags: Literal["meal", "day", "group"] | None = None
    water_ml_h: float = 500.0
    """Drinking water at hand while walking [ml/h]; a suggestion, never an order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Now:
    """Where a walk under way stands, so that it can be planned again from here."""

    day: int
    left: Mapping[str, float] = field(default_factory=dict)
    """Doses left by food."""
    fuel_g: float | None = None
    days_late: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Trip:
    """One walk as asked for."""

    title: str
    begin: dt.datetime
    """Aware, in the trip's zone: when the walk begins."""
    end: dt.datetime
    zone: str
    walkers: tuple[Walker, ...]
    route: RouteSpec
    places: tuple[Place, ...] = ()
    """Where food is taken on; the flow fills in leg and day from the route."""
    dogs: tuple[Dog, ...] = ()
    need: NeedSpec = NeedSpec()
    kit: Kit = Kit()
    rules: Rules = Rules()
    larders: tuple[str, ...] = ()
    """Files, as written; empty: the bundled larder."""
    stock: str | None = None
    """The file of what is at home, as written."""
    now: Now | None = None
    units: Literal["metric", "us"] = "metric"
    defaults: frozenset[str] = frozenset()
    """Paths the walker did not state and for which a default stands."""
    origins: Mapping[str, tuple[str, int]] = field(default_factory=dict)
    """Path -> (file, line) of every stated value."""

    @property
    def day_count(self) -> int:
        """Days by date, first and last included."""
        return (self.end.date() - self.begin.date()).days + 1


__all__ = [
    "MEAL_CLOCK", "Day", "HandDay", "HandStretch", "HandWater", "Hold", "NeedSpec", "Now",
    "RouteSpec", "Rules", "Trip",
]  # fmt: skip
