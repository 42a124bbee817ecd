"""A track, the days it is cut into, and the stretches each day is walked, rested and slept in."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from oatsack.values.frozen import dataclass

Kind = Literal["walk", "rest", "camp", "sleep"]
Reliability = Literal["sure", "likely", "doubtful"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Waypoint:
    """A named place with its position along the route."""

    name: str
    lat: float = 0.0
    lon: float = 0.0
    height_m: float | None = None
    kind: Literal["camp", "water", "shop", "other"] = "other"
    distance_m: float | None = None
    reliability: Reliability = "sure"
    """How sure one can be of the water."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """Points as recorded, in order; one gap-free line of several segments. Times in seconds."""

    name: str
    lat: tuple[float, ...]
    lon: tuple[float, ...]
    height_m: tuple[float | None, ...]
    time_s: tuple[float | None, ...] = ()
    starts: tuple[int, ...] = (0,)
    """Index of the first point of each segment."""
    waypoints: tuple[Waypoint, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A piece of a day in which nothing changes. Clock in minutes from the day's midnight; a night
    runs beyond 1440. Distance, slope and speed are 0 where nobody walks."""

    kind: Kind
    start_min: float
    end_min: float
    distance_m: float = 0.0
    grade_pct: float = 0.0
    height_m: float = 0.0
    terrain: float = 1.1
    """Terrain factor of the walking-cost models."""

    @property
    def minutes(self) -> float:
        """How long it lasts [min]."""
        return self.end_min - self.start_min

    @property
    def speed_ms(self) -> float:
        """Walking speed along the ground [m/s]."""
        return self.distance_m / (self.minutes * 60.0) if self.minutes > 0 else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterPlace:
    """A place with water: clock of arrival, how far along the day, how sure one can be of it."""

    name: str
    at_min: float
    distance_m: float
    reliability: Reliability = "sure"


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """From waking to waking, under its waking date (C4). Only stretches inside the walk count."""

    number: int
    date: dt.date
    stretches: tuple[Stretch, ...]
    distance_m: float
    ascent_m: float
    descent_m: float
    highest_m: float
    camp_m: float | None
    """Height of the night's camp; None on the day that ends at home."""
    camp_name: str = ""
    camp_dry: bool = False
    leg: int = 1
    supplied: str = ""
    """The place of this day where food can be taken on, by its name."""
    warm_c: float = 18.0
    """Air at midday at camp height [deg C]."""
    cold_c: float = 6.0
    """Air at the coldest cooking hour [deg C]."""
    snow: bool | None = None
    """Water must be melted from snow; None: told by the temperatures and the water places."""
    windy: bool = False
    """Cooked in the wind: the stove takes its windy efficiency."""
    water: tuple[WaterPlace, ...] = ()
    by_hand: bool = False
    """Typed, not from a track: slopes are assumed and the range is wider."""
    daylight_min: tuple[float, float] | None = None
    """Sunrise and sunset, minutes from midnight, where the place is known."""
    short_min: float = 0.0
    """Walking time that the day's hours do not hold; the paces were raised to fit [min]."""

    @property
    def walking_min(self) -> float:
        """Time on the move [min]."""
        return sum(s.minutes for s in self.stretches if s.kind == "walk")

    @property
    def inside_min(self) -> float:
        """Minutes of the day that lie inside the walk."""
        return sum(s.minutes for s in self.stretches)
