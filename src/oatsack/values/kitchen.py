"""What food costs in a camp's kitchen, and the ledger of water, heat, fuel and minutes by camp."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from oatsack.values.flags import Flag
from oatsack.values.food import Meal
from oatsack.values.frozen import dataclass

StepKind = Literal["boil", "melt", "simmer", "wait", "soak", "pour", "drink", "wash"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """Where something is cooked."""

    height_m: float = 500.0
    air_c: float = 10.0
    water_c: float = 10.0
    snow: bool = False
    """Water must be melted from snow at `air_c`."""
    windy: bool = False
    sea_level_hpa: float = 1013.25
    """Barometer reduced to sea level: the weather."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DosePrice:
    """The marginal cost of one dose of one food in one camp's kitchen."""

    water_ml: float = 0.0
    """All water it takes, cold or boiled."""
    boiled_ml: float = 0.0
    heat_kj: float = 0.0
    fuel_g: float = 0.0
    flame_min: float = 0.0
    """Burner minutes: to the boil, and simmering."""
    wait_min: float = 0.0
    pot_ml: float = 0.0
    """Room it takes in a pot with its water, without head room: compare a sum of it with 75 % of a
    pot's volume (with food; 85 % for clear water)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CookStep:
    """One step at one meal, on the camp's clock from lighting the stove."""

    kind: StepKind
    start_min: float
    end_min: float
    pot: str = ""
    food: str = ""
    water_ml: float = 0.0
    fuel_g: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class MealLedger:
    """One cooked occasion of one day for one pot group: what goes in and what it takes."""

    day: int
    meal: Meal
    walkers: tuple[str, ...]
    boiled_ml: float
    cold_ml: float
    wash_ml: float
    heat_kj: float
    fuel_g: float
    minutes: float
    """From lighting the stove to the last portion or mug."""
    batches: int = 1
    boiling_c: float = 100.0
    steps: tuple[CookStep, ...] = ()
    left_ml: float = 0.0
    """Boiled to the next mark of the pot and not poured."""
    dirty_pots: int = 0
    bowls: tuple[str, ...] = ()
    """Walkers who eat from a pouch they emptied earlier."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FuelPlan:
    """Fuel over the trip or a leg: by day, in all, reserve apart, containers to take."""

    kind: str
    by_day_g: Mapping[str, float]
    burnt_g: float
    reserve_g: float
    need_g: float
    """Burnt plus reserve."""
    cans: tuple[tuple[float, int], ...] = ()
    """Pairs of a can's fuel [g] and how many to take."""
    carried_g: float = 0.0
    gross_g: float = 0.0
    left_g: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterDay:
    """Water of one walker on one day [ml]: a need, a suggestion or a limit, said by name."""

    walking_suggested_ml: float
    sweat_low_ml: float
    sweat_high_ml: float
    cooking_ml: float
    washing_ml: float
    camp_drinks_ml: float
    """Evening, night and morning, hot drinks included."""
    hot_drinks_ml: float = 0.0
    hour_cap_ml: float = 1420.0
    day_cap_ml: float = 11_360.0
    sodium_low_mg: float = 0.0
    sodium_high_mg: float = 0.0
    """Sweated out: an estimate, beside what is eaten."""
    sweat_models: tuple[str, ...] = ()
    """Which sweat models spoke, and what lay outside their range (C7)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterCarry:
    """Water on the back from one place to the next [ml] per walker."""

    day: int
    start: str
    end: str
    distance_m: float
    minutes: float
    carry_ml: float
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CountLine:
    """One small thing a walker takes by habit, as the menu packs it."""

    per: str
    """``day``, ``mug``, ``bottle`` or ``trip``."""
    each: float
    """So many per what."""
    by_day: Mapping[str, float]
    take: float
    """Whole ones to pack."""
    bottle_ml: float = 0.0
    """What goes into a bottle goes into this one, the walker's first; 0: into none."""
    made_for_ml: float = 0.0
    """Water that one of it is made for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CaffeineLine:
    """A walker's caffeine [mg]: the strongest day and thing beside what is held harmless."""

    most_mg: float
    most_day: int
    day_cap_mg: float
    single_mg: float
    single_cap_mg: float
    usual_mg: float | None = None
    """What the body is used to in a day; None: nobody said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepLine:
    """Until which day a food of the menu keeps, and when it is last eaten."""

    last_day: int
    until_day: int | None = None
    """Sealed, in this heat; None: beyond the walk."""
    opened_day: int | None = None
    opened_until_day: int | None = None
    """An open bag: when it is opened, and until when it keeps then."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KitchenLedger:
    """Everything the kitchen does on the trip."""

    meals: tuple[MealLedger, ...] = ()
    fuel: FuelPlan | None = None
    water: Mapping[str, Mapping[str, WaterDay]] = field(default_factory=dict)
    """Walker -> day -> water."""
    carries: tuple[WaterCarry, ...] = ()
    flags: tuple[Flag, ...] = ()
    groups: tuple[tuple[str, ...], ...] = ()
    """The cook groups of the menu."""
    counts: Mapping[str, Mapping[str, CountLine]] = field(default_factory=dict)
    """Walker -> food -> how many."""
    caffeine: Mapping[str, CaffeineLine] = field(default_factory=dict)
    keeping: Mapping[str, KeepLine] = field(default_factory=dict)
    """Food -> until when; only what does not keep for the walk, the most pressing first."""
    wet_min: Mapping[str, float] = field(default_factory=dict)
    """Day -> minutes that moist food may stand; a day as cold as a fridge is missing."""
