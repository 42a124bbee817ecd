"""A food as one buys it, the doses it is handed out in, and what is known of both.

Absent is not zero (C2): every nutrient, price and measure that nobody stated is None.
Nutrients stand per 100 g as sold; a pack holds grams (C5); masses are net of wrapping (C6).
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import field, replace
from typing import Literal

from oatsack.values.frozen import dataclass

Meal = Literal["breakfast", "lunch", "move", "dinner", "drinks"]
MEALS: tuple[Meal, ...] = ("breakfast", "lunch", "move", "dinner", "drinks")

Role = Literal["main", "side", "topping", "snack", "drink", "small"]
"""main: carries a meal; side: goes with a main; topping: sauce, oil, spread, cheese, tied to what
carries it; snack: eaten from the hand; drink: made in a mug or bottle; small: counted, outside the
energy sums unless it carries energy (sweetener, tablets, salt, paper)."""

Carry = Literal["sealed", "bag", "repack"]
"""sealed: each dose in its own wrapping, as bought; bag: the whole pack, opened once and nibbled
over days (a pool); repack: measured out of its pack into a bag of ours."""

State = Literal["contains", "may", "free", "unknown"]
ALLERGENS: tuple[str, ...] = (
    "milk", "egg", "fish", "crustacean", "tree_nut", "peanut", "wheat", "soy", "sesame",
    "gluten", "celery", "mustard", "sulphites", "lupin", "mollusc",
)  # fmt: skip
Diet = Literal["vegan", "vegetarian", "fish", "meat", "check"]
"""What a food is: vegan < vegetarian < fish < meat; `check` depends on the recipe, suits none."""

Shop = Literal["home", "kiosk", "village", "supermarket", "outdoor", "chemist", "mail"]
PrepKind = Literal["none", "soak", "boil", "simmer"]
"""none: eaten as it is; soak: cold water and a wait; boil: boiling water and a wait; simmer: kept
on the flame for minutes, in a pot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Nutrients:
    """Per 100 g as sold. `carb_g` is by difference: fibre included (convert labels at the edge)."""

    energy_kcal: float | None = None
    protein_g: float | None = None
    fat_g: float | None = None
    carb_g: float | None = None
    sugars_g: float | None = None
    fibre_g: float | None = None
    polyols_g: float | None = None
    sodium_mg: float | None = None
    potassium_mg: float | None = None
    caffeine_mg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Prep:
    """What one dose needs before it is eaten."""

    kind: PrepKind = "none"
    water_ml: float = 0.0
    wait_min: float = 0.0
    simmer_min: float = 0.0
    needs_pot: bool = False
    from_bag: bool = False
    cold_soak_min: float | None = None
    """Minutes in cold water after which it can be eaten without a flame; None: it cannot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Keep:
    """How long it keeps: days once opened, days in the warm, and what harms it. None: the trip."""

    opened_days: float | None = None
    warm_days: float | None = None
    melts: bool = False
    crushes: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Pouch:
    """A pouch that can be eaten from: whether it stands and closes, what it holds and fills."""

    stands: bool = False
    closes: bool = False
    holds_ml: float | None = None
    flat_ml: float | None = None
    puffed_ml: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """What is at home of a food."""

    packs: float = 0.0
    best_before: dt.date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Origin:
    """Where a row was read: file and line; what was invented or derived, and its source key."""

    file: str = ""
    line: int = 0
    source: str = ""
    source_id: str = ""
    invented: frozenset[str] = frozenset()
    """Names of fields that are invented or estimated, for the bundled larder says so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Food:
    """One product or ingredient. `dose_g` is the least amount handed out (net)."""

    id: str
    name: str
    category: str
    """nut grain snack fruit sweet protein dairy breakfast bread drink meal vegetable condiment fat
    soup small other: the class that bounds its energy density and fills blanks (C2)."""
    per_100g: Nutrients
    pack_g: float
    doses_per_pack: float
    dose_g: float
    dose_name: str = "serving"
    role: Role = "side"
    carry: Carry = "repack"
    taste: Literal["sweet", "salty", "neutral"] = "neutral"
    meals: frozenset[Meal] = frozenset()
    prep: Prep = Prep()
    keep: Keep = Keep()
    pouch: Pouch | None = None
    wrap_g: float | None = None
    """Wrapping of one pack as bought."""
    pack_ml: float | None = None
    """Volume of one pack as packed (flat for a pouch)."""
    resealable: bool = False
    price: float | None = None
    shop: Shop = "supermarket"
    stock: Stock = Stock()
    lots: tuple[Stock, ...] = ()
    """Further lots at home, with dates of their own (a stock file)."""
    allergens: Mapping[str, State] = field(default_factory=dict)
    """By allergen; one that is missing is unknown, and unknown counts as contains (C10)."""
    diet: Diet = "check"
    liking: float | None = None
    """1 to 5 for everyone; None: nobody said (counts as 3)."""
    liking_by: Mapping[str, float] = field(default_factory=dict)
    every_day_fine: bool = False
    """May be eaten every day without anyone minding (bars, coffee)."""
    confirmed: bool = False
    """Its owner has confirmed a label that looks implausible."""
    origin: Origin = Origin()

    def state(self, allergen: str) -> State:
        """The state of one allergen; blank is unknown."""
        return self.allergens.get(allergen, "unknown")

    def per_dose(self, nutrient: str) -> float | None:
        """A nutrient of one dose (``energy_kcal`` ...), or None where it is not stated."""
        value: float | None = getattr(self.per_100g, nutrient)
        return None if value is None else value * self.dose_g / 100.0

    @property
    def dose_kcal(self) -> float:
        """Energy of one dose [kcal]; 0 for a food without stated energy (it may enter no menu)."""
        return (self.per_100g.energy_kcal or 0.0) * self.dose_g / 100.0

    @property
    def dose_wrap_g(self) -> float:
        """Wrapping that travels with one dose carried sealed or in its own bag [g]."""
        if self.carry == "repack" or self.wrap_g is None:
            return 0.0
        return self.wrap_g / self.doses_per_pack

    @property
    def dose_ml(self) -> float | None:
        """Packed volume of one dose [ml]."""
        return None if self.pack_ml is None else self.pack_ml / self.doses_per_pack

    @property
    def at_home(self) -> tuple[Stock, ...]:
        """Every lot at home that holds anything, the one whose date comes first before others."""
        held = [lot for lot in (self.stock, *self.lots) if lot.packs > 0]
        return tuple(sorted(held, key=lambda lot: lot.best_before or dt.date.max))

    @property
    def home_packs(self) -> float:
        """Packs at home, whatever their dates."""
        return sum(lot.packs for lot in self.at_home)

    def less_home(self, packs: float) -> Food:
        """The same food with so many packs gone from home, soonest date first, never below none."""
        left = []
        for lot in self.at_home:
            taken = min(lot.packs, packs)
            packs -= taken
            left.append(replace(lot, packs=lot.packs - taken))
        return replace(self, stock=left[0], lots=tuple(left[1:])) if left else self

    def liked_by(self, walker: str) -> float:
        """How much a walker likes it, 1 to 5; 3 where nobody said."""
        fallback = 3.0 if self.liking is None else self.liking
        return self.liking_by.get(walker, fallback)
