"""The plan: the resolved trip, the rows used, every number shown, and where each came from.

Mappings are keyed by strings so that a number has an address, as ``need/anna/2/energy_kcal``; days
are keyed by their number. `files/planfile` writes it, and `why` opens its numbers.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.frozen import dataclass
from oatsack.values.kitchen import DosePrice, KitchenLedger
from oatsack.values.menu import Menu, Slot
from oatsack.values.pack import Packed
from oatsack.values.route import Day
from oatsack.values.trip import Trip

FORMAT = 3
"""Number of what plan.json holds. Whoever changes a field here or below raises it and writes the
step from the number before in files/upgrades (C18)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DayNeed:
    """What one day uses, inside the walk: likely, low and high, and its parts [kcal]."""

    energy_kcal: float
    low_kcal: float
    high_kcal: float
    walking_kcal: float
    camp_kcal: float
    rest_kcal: float
    sleep_kcal: float
    thermic_kcal: float
    terms_kcal: float = 0.0
    """Cold, heat, height and field factor together."""
    walking_h: float = 0.0
    pack_start_kg: float = 0.0
    pack_end_kg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """How a walker's targets came about (C15): target = base x ramp x share of the day, less what
    is eaten in a town on the way."""

    how: str
    """``typed``, ``share``, ``nobody-asked`` or ``full``."""
    base_kcal: float
    full_day_kcal: float
    """The likely need of a full day in the round that was frozen."""
    factor: float
    """base / full day."""
    ramp: Mapping[str, float]
    share: Mapping[str, float]
    """Of a full day's meals, those inside the walk, in town too."""
    town: Mapping[str, float] = field(default_factory=dict)
    """Eaten in a town on the way, by day [kcal]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hour:
    """One hour of one walker's timeline (C4: `day` is the waking day)."""

    day: int
    start_min: float
    """From the day's midnight; a night runs beyond 1440."""
    minutes: float
    walk_min: float
    distance_m: float
    height_m: float
    pack_kg: float
    need_low_kcal: float
    need_kcal: float
    need_high_kcal: float
    eaten_kcal: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DayTotal:
    """What one walker eats on one day, sums over portions."""

    target_kcal: float
    energy_kcal: float
    mass_g: float
    protein_g: float
    fat_g: float
    carb_g: float
    fibre_g: float
    sodium_mg: float
    caffeine_mg: float
    minutes: float = 0.0
    sodium_high_mg: float = 0.0
    """With blanks read as the high value of their class (C2)."""
    fat_high_g: float = 0.0
    caffeine_high_mg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """The trip in one row."""

    person_days: float
    energy_kcal: float
    net_g: float
    gross_g: float
    start_kg: float
    """Food with its wrapping on all backs at the start of the first leg [kg]."""
    kcal_per_100g: float
    g_per_person_day: float
    protein_g_per_kg_day: float
    sodium_mg_day: float
    fibre_g_day: float
    caffeine_mg_day: float
    fat_share: float
    cook_minutes_day: float
    boiled_ml_day: float
    fuel_g: float
    rubbish_g: float
    volume_ml: float
    kg_days: float
    price: float | None
    """What is bought costs, as far as prices are known; None where none is."""
    spare_g: float
    spare_kcal: float
    unpriced: int = 0
    """Things bought whose price is not known: with any, `price` is the least it comes to (C2)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Yardsticks:
    """Four ways to size food, side by side, and how far they disagree."""

    by_mass_kg: float
    by_energy_kg: float
    by_meals_kg: float
    by_volume_kg: float
    plan_kg: float
    spread: float
    """(largest - smallest) / mean of the four."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Availability:
    """What is left of a day's food for all but walking [kcal per kg fat-free mass], with its range;
    a mean over the walk. Opened by `why` only, never shown of itself."""

    likely_kcal_kg: float
    low_kcal_kg: float
    high_kcal_kg: float
    full_days: float
    """Hours inside the walk over 24."""
    eaten_kcal_day: float
    walking_kcal_day: float
    """Walking beyond what resting would have used in the same hours; its low and high below."""
    walking_low_kcal_day: float
    walking_high_kcal_day: float
    lean_kg: float
    """Fat-free mass, by the usual share of fat; its low and high below."""
    lean_low_kg: float
    lean_high_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Consequence:
    """What eating less than the need may do over the trip: tissue and water apart, ranges [kg]."""

    deficit_kcal: float
    tissue_low_kg: float
    tissue_kg: float
    tissue_high_kg: float
    water_low_kg: float
    water_high_kg: float
    share_of_mass: float
    scales_hall_kg: float = 0.0
    """The same shortfall on the scales by another model (Hall2011), as a comparison for `why`."""
    availability: Availability | None = None
    """None for who is no healthy adult, and on walks of more than seven days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Late:
    """The prepared answer to being so many days late: shares of the walker's own number."""

    days: int
    left_kcal: Mapping[str, float]
    share: Mapping[str, float]
    kcal_day: Mapping[str, float]
    fuel_left_g: float
    fuel_needed_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """One of the assumptions that move the answer most, with what a change would do."""

    key: str
    path: str
    value: float | str
    effect_kcal: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """How the plan was made: versions, seed, hashes, rounds, residual."""

    oatsack: str
    seed: int
    rounds: int
    residual_kcal: float
    ended: str
    gap: float
    trip_hash: str
    larder_hash: str
    near_hash: str = ""
    today: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything. plan.json is this value (C18)."""

    format: int
    trip: Trip
    foods: Mapping[str, Food]
    days: tuple[Day, ...]
    slots: tuple[Slot, ...]
    need: Mapping[str, Mapping[str, DayNeed]]
    target: Mapping[str, Mapping[str, float]]
    chosen: Mapping[str, Chosen]
    menu: Menu
    prices: Mapping[str, Mapping[str, DosePrice]]
    """Food -> day -> cost of a dose in that day's kitchen."""
    eaten: Mapping[str, Mapping[str, DayTotal]]
    kitchen: KitchenLedger
    packed: Packed
    backs: Mapping[str, Mapping[str, tuple[float, ...]]]
    """Walker -> day -> kilograms on the back at the middle of each of the day's stretches."""
    timeline: Mapping[str, tuple[Hour, ...]]
    totals: Totals
    yardsticks: Yardsticks
    consequence: Mapping[str, Consequence]
    late: tuple[Late, ...]
    assumptions: tuple[Assumption, ...]
    made: Made
    sources: tuple[str, ...] = ()
    flags: tuple[Flag, ...] = field(default=())
    names: Mapping[str, str] = field(default_factory=dict)
    """Food -> its name, of those that are spoken of and in no bag: picks that were refused, bans,
    labels that cannot be right."""

    @property
    def valid(self) -> bool:
        """Whether nothing hard is broken."""
        return not any(flag.level == "block" for flag in self.flags)
