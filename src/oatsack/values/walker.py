"""One person who walks and eats, and what they told about themselves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from oatsack.values.food import Meal
from oatsack.values.frozen import dataclass

Sex = Literal["female", "male"]
Eats = Literal["anything", "fish", "vegetarian", "vegan"]
Scope = Literal["plate", "pot", "party"]
"""How far an allergen must stay away: my plate; the shared pot and tools; the whole party (C10)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Avoid:
    """Something a walker must not meet. `traces` allows foods that may contain it."""

    allergen: str
    scope: Scope = "plate"
    traces: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """So many doses of one food, as the walker wrote it."""

    food: str
    count: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What is taken together at one meal: ``2 maple-oatmeal + 1 milk-powder``."""

    picks: tuple[Pick, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Count:
    """A thing counted by habit: so many per day, per mug or per bottle."""

    food: str
    count: float
    per: Literal["day", "mug", "bottle", "trip"] = "day"


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """A walker's favourites. Meals hold choices that rotate; bags are nibbled over days (pools);
    counts are counted. What stands here is taken as given; the chooser only fills the gaps."""

    meals: Mapping[Meal, tuple[Choice, ...]] = field(default_factory=dict)
    bags: tuple[Pick, ...] = ()
    """Open bags, `count` in packs over the trip; 0 lets the plan say how many."""
    counts: tuple[Count, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """What a walker chooses to eat on a full day: a number, or a share of the likely need.

    Both None: nobody asked (85 % up to seven days, 100 % beyond, C15).
    """

    kcal: float | None = None
    share: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPace:
    """What a recording says about a walker's pace."""

    flat_ms: float
    """Speed on the flat over this rule [m/s]."""
    rule: str
    distance_m: float
    """Way that it rests on."""
    moving_min: float
    paused_min: float
    spread: float
    """Middle half of the parts' own flat speeds, as a share of `flat_ms`: how even it was."""
    track: str = ""
    """The file it was read from, as written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Walker:
    """One walker. Only the body mass has no default."""

    id: str
    name: str
    mass_kg: float
    sex: Sex | None = None
    age_years: float | None = None
    height_cm: float | None = None
    base_weight_kg: float = 8.0
    """Everything carried but food, fuel and water [kg]."""
    eats: Eats = "anything"
    avoids: tuple[Avoid, ...] = ()
    dislikes: frozenset[str] = frozenset()
    """Food ids or categories that the chooser leaves out."""
    caffeine_mg_day: float | None = None
    hot_drinks_day: float = 2.0
    target: Target = Target()
    appetite: float = 1.0
    condition: Literal["none", "pregnant", "nursing", "ill"] = "none"
    pace_ms: float | None = None
    """The walker's own speed on the flat [m/s]; None: the party's."""
    pace_track: str | None = None
    """A recorded track, as written, that tells the pace in place of a number."""
    own_pace: OwnPace | None = None
    """What that track says; `pace_ms` is then its speed."""
    own_walking: float = 1.0
    """What own walks used over what the model says of them: the place where a walker's own record
    outranks any model."""
    capacity: float = 1.0
    """Share of the common load that suits this walker; 1 is average."""
    liking: Mapping[str, float] = field(default_factory=dict)
    usual: Usual = Usual()
