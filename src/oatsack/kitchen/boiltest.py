"""The walker's own stove, weighed: efficiency and power from a few boils, with their error.

Weigh the fuel before and after heating so much water by so many degrees, three times. Stop short of
the boil (at 90 deg C, say): the moment water "boils" is a matter of opinion. Source of the form:
EN484.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from oatsack.errors import UsageError
from oatsack.kitchen.fuels import fuel_of
from oatsack.kitchen.heat import heat_kj_kg, pot_kj, snow_kj_kg
from oatsack.values.kit import FuelKind

SCATTER = 0.07
"""Relative scatter between boils that is taken where fewer than two were made. Ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Boil:
    """One measured boil. `before_g` and `after_g`: stove, can and fuel on the scale."""

    water_ml: float
    from_c: float
    to_c: float
    before_g: float
    after_g: float
    minutes: float | None = None
    pot_mass_g: float = 0.0
    pot_material: str = "titanium"
    snow_c: float | None = None
    """Started from snow of this temperature instead of water."""

    @property
    def fuel_g(self) -> float:
        """Fuel burnt [g]."""
        return self.before_g - self.after_g

    @property
    def heat_kj(self) -> float:
        """Heat that water and pot took up [kJ]."""
        start = self.from_c if self.snow_c is None else self.snow_c
        per_kg = (
            heat_kj_kg(self.from_c, self.to_c)
            if self.snow_c is None
            else snow_kj_kg(self.snow_c, self.to_c)
        )
        warm = pot_kj(self.pot_mass_g, self.pot_material, self.to_c - start)
        return self.water_ml / 1000.0 * per_kg + warm


@dataclass(frozen=True, slots=True, kw_only=True)
class Tested:
    """What the boils say: net efficiency with its standard error, and the power where timed."""

    efficiency: float
    error: float
    """One standard error, from the scatter of the boils and the steps of the scale."""
    power_w: float | None
    boils: int
    each: tuple[float, ...]

    @property
    def enough(self) -> bool:
        """Whether there are three boils or more."""
        return self.boils >= 3

    @property
    def low(self) -> float:
        """Two standard errors below."""
        return max(0.0, self.efficiency - 2.0 * self.error)

    @property
    def high(self) -> float:
        """Two standard errors above, at most 1."""
        return min(1.0, self.efficiency + 2.0 * self.error)


def boil_test(boils: Sequence[Boil], fuel: FuelKind, *, scale_g: float = 1.0) -> Tested:
    """Efficiency of a stove from measured boils: heat taken up over heat of the fuel burnt.

    ``eta = sum Q / (sum m LHV)``; the error adds the scatter ``s / sqrt(n)`` and the scale, each
    weighing rounded to `scale_g`, so the total is uncertain by ``scale sqrt(n / 6)``.
    Raises UsageError where a boil burnt nothing or gave more heat than its fuel holds.
    """
    lhv = fuel_of(fuel).lhv_mj_kg
    each = tuple(_one(boil, lhv, number) for number, boil in enumerate(boils, 1))
    if not each:
        raise UsageError("no boil was measured")
    burnt = sum(boil.fuel_g for boil in boils)
    eta = sum(boil.heat_kj for boil in boils) / (burnt * lhv)
    scale = eta * scale_g * sqrt(len(boils) / 6.0) / burnt
    return Tested(
        efficiency=eta,
        error=sqrt(_scatter(each) ** 2 + scale**2),
        power_w=_power(boils, lhv),
        boils=len(each),
        each=each,
    )


def _one(boil: Boil, lhv: float, number: int) -> float:
    if boil.fuel_g <= 0:
        raise UsageError(f"boil {number} burnt no fuel: before must be more than after")
    eta = boil.heat_kj / (boil.fuel_g * lhv)
    if not 0.0 < eta < 1.0:
        raise UsageError(
            f"boil {number} would be {eta:.0%} efficient: check its masses and temperatures"
        )
    return eta


def _scatter(each: Sequence[float]) -> float:
    """Standard error of the mean of some figures; of a single one by the usual scatter."""
    n = len(each)
    mean = sum(each) / n
    if n < 2:
        return SCATTER * mean
    return sqrt(sum((x - mean) ** 2 for x in each) / (n - 1) / n)


def _power(boils: Sequence[Boil], lhv: float) -> float | None:
    """Heat of the fuel burnt per second [W], over the boils that were timed."""
    timed = [boil for boil in boils if boil.minutes]
    minutes = sum(boil.minutes or 0.0 for boil in timed)
    if not minutes:
        return None
    return sum(boil.fuel_g for boil in timed) * lhv * 1000.0 / (minutes * 60.0)
