"""Pots, stove, fuel, mugs, bottles and the containers that must close at night."""

from __future__ import annotations

from typing import Literal

from oatsack.values.frozen import dataclass

FuelKind = Literal["gas", "white-gas", "ethanol", "methanol", "hexamine", "wood"]

Treatment = Literal["filter", "chemical", "uv", "boil", "none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pot:
    """One pot. `material` keys its specific heat; a size left out hides only what needs it."""

    name: str = "pot"
    volume_ml: float = 900.0
    mass_g: float = 120.0
    material: Literal["aluminium", "titanium", "steel"] = "titanium"
    diameter_mm: float | None = None
    depth_mm: float | None = None
    walkers: tuple[str, ...] = ()
    """Who eats from it, by id; empty: everyone who has no pot of their own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stove:
    """One burner: its kind keys a row of `data/stoves.csv`; own figures outrank the row."""

    kind: str = "gas-open"
    fuel: FuelKind = "gas"
    efficiency: float | None = None
    """Net basis, of the walker's own boil test; None: the row's prior."""
    power_w: float | None = None
    burners: int = 1
    diameter_mm: float | None = None
    length_mm: float | None = None
    """Folded, as a cylinder: asked for only where someone wants to know what goes in the pot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FuelCan:
    """A fuel container one can take: full net mass, empty mass, and what an opened one weighs."""

    net_g: float
    empty_g: float
    gross_now_g: float | None = None
    """Weighed mass of an opened can; None: full."""
    diameter_mm: float | None = None
    height_mm: float | None = None

    @property
    def fuel_g(self) -> float:
        """What it still holds [g]."""
        return self.net_g if self.gross_now_g is None else max(0.0, self.gross_now_g - self.empty_g)


@dataclass(frozen=True, slots=True, kw_only=True)
class Container:
    """A store that must close at night."""

    name: str = "container"
    volume_ml: float = 10_000.0
    mass_g: float = 1_000.0
    shape: Literal["hard", "soft", "bag"] = "hard"
    carrier: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kit:
    """What the party cooks, drinks and stores with. No stove: nothing is cooked."""

    pots: tuple[Pot, ...] = (Pot(),)
    stove: Stove | None = Stove()
    cans: tuple[FuelCan, ...] = ()
    """Sizes that can be taken; empty: the common sizes of `data/fuels.csv`."""
    mug_ml: float = 300.0
    bottles_ml: tuple[float, ...] = (1000.0, 1000.0)
    """Bottles of each walker."""
    containers: tuple[Container, ...] = ()
    other_smellables_ml: float = 1000.0
    """Toothpaste, soap and the like that must close in too, per walker when a container is set."""
    cosy: bool = False
    treatment: Treatment = "filter"
    """How drinking water from the way is made safe; `boil` burns fuel for every litre."""
