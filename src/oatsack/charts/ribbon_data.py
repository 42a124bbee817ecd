"""What a ribbon is drawn from: days with their heights, meals and water, and curves over them.

Clocks are minutes from a day's own midnight, so that a night in which the clocks change needs no
care here. All words are finished; numbers are shown by the functions in `RibbonWords`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

Moment = tuple[int, float]
"""(place of the day in the ribbon from 0, minutes from its midnight)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RibbonMeal:
    """One meal at its clock: kcal, and what to say of it."""

    clock_min: float
    kcal: float
    kind: str
    """breakfast, lunch, dinner, drinks."""
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RibbonWater:
    """One place with water at the clock of passing it."""

    name: str
    clock_min: float
    sure: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class RibbonDay:
    """One day, from its first minute inside the walk to its last."""

    name: str
    lines: tuple[str, ...]
    """Short lines below the name: how far, how much up and down."""
    tip: str
    start_min: float
    end_min: float
    walks: tuple[tuple[float, float], ...]
    """Clocks of each stretch of walking, in order."""
    heights: tuple[tuple[float, float], ...]
    """(clock, height [m]) along the walking; two or more."""
    night: bool
    camp: str = ""
    dry: bool = False
    by_hand: bool = False
    meals: tuple[RibbonMeal, ...] = ()
    move_kcal: float = 0.0
    move_name: str = ""
    water: tuple[RibbonWater, ...] = ()

    @property
    def walking_min(self) -> float:
        """Minutes on the move."""
        return sum(end - start for start, end in self.walks)


@dataclass(frozen=True, slots=True, kw_only=True)
class RibbonCurve:
    """A number over the whole walk with its range; `low` and `high` may be the number itself."""

    name: str
    at: tuple[Moment, ...]
    low: tuple[float, ...]
    likely: tuple[float, ...]
    high: tuple[float, ...]
    kind: Literal["sack", "balance"]
    brief: str = ""
    """A shorter name for a narrow drawing; without one `name` stands there too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RibbonWords:
    """Every word of the picture, and how its numbers are written."""

    title: str
    sub: str
    desc: str
    eaten: str
    dry: str
    height: Callable[[float], str]
    kcal: Callable[[float], str]
    signed: Callable[[float], str]
    """Energy over or under, with its sign."""
    between: Callable[[float, float], str]
    """A range of energy over or under."""
    mass: Callable[[float], str]
    """From kilograms."""
    eaten_day: str = ""
    """What is eaten, where a bar stands for a day."""
    eaten_brief: str = ""
    """The same as `eaten` for a narrow drawing."""
