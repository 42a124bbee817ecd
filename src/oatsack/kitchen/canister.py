"""Gas pressure in the cold: what pushes gas out of a can, full and nearly empty.

Vapour pressure of pure substances by Antoine's form, of a mix by Raoult's law; a can that feeds
vapour loses its propane first. Pressures are absolute. Knows nothing of stoves that feed liquid.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from math import exp

from oatsack.kitchen.fuels import substances
from oatsack.kitchen.heat import pressure_hpa

MIX: Mapping[str, float] = {"isobutane": 0.8, "propane": 0.2}
"""The usual mix, by mass. Common practice."""
PUSH_KPA = 50.0
"""A burner starves where the can pushes less than this above the air. Ours, planning prior."""
NEARLY_EMPTY = 0.1


def vapour_kpa(name: str, celsius: float) -> float:
    """Vapour pressure of a pure substance [kPa]: ``ln P = A - B / (T + C)``, T in kelvin.

    Source: ours, fitted to CoolProp 8.0.0. Range: -30 to 50 deg C, within 0.2 %.
    """
    antoine = substances()[name].antoine
    if antoine is None:
        raise ValueError(f"no vapour pressure of {name}")
    a, b, c = antoine
    return exp(a - b / (celsius + 273.15 + c))


def moles(by_mass: Mapping[str, float]) -> dict[str, float]:
    """Amounts of substance of a mix given by mass (not normalised) [mol]."""
    return {name: mass / substances()[name].molar_g for name, mass in by_mass.items()}


def mix_kpa(amounts: Mapping[str, float], celsius: float) -> float:
    """Pressure over a mix given in moles [kPa]: Raoult's law, within 4 % of a full model."""
    whole = sum(amounts.values())
    return sum(n / whole * vapour_kpa(name, celsius) for name, n in amounts.items())


def stripped(
    by_mass: Mapping[str, float], celsius: float, share_left: float
) -> dict[str, float]:
    """What a can still holds [mol] when this share of its mass is left, fed as vapour.

    Each substance falls as ``n = n0 s^(P / Pleast)``, s the share of the least volatile one left:
    Rayleigh's law at constant temperature. s is found by bisection. Source: ours.
    """
    start = moles(by_mass)
    push = {name: vapour_kpa(name, celsius) for name in start}
    least = min(push.values())
    whole = sum(by_mass.values())

    def at(s: float) -> dict[str, float]:
        return {name: n * s ** (push[name] / least) for name, n in start.items()}

    low, high = 0.0, 1.0
    for _ in range(60):
        middle = (low + high) / 2.0
        mass = sum(n * substances()[name].molar_g for name, n in at(middle).items())
        low, high = (middle, high) if mass < share_left * whole else (low, middle)
    return at((low + high) / 2.0)


@lru_cache(maxsize=256)
def end_kpa(celsius: float) -> float:
    """Pressure of the usual mix in a can with a tenth left [kPa]."""
    return mix_kpa(stripped(MIX, celsius, NEARLY_EMPTY), celsius)


def push_kpa(celsius: float, height_m: float, *, sea_level_hpa: float = 1013.25) -> float:
    """What a nearly empty can pushes above the air around it [kPa]."""
    return end_kpa(celsius) - pressure_hpa(height_m, sea_level_hpa=sea_level_hpa) / 10.0
