"""The walking-cost and walking-time formulas once more, as plain arithmetic on single numbers.

Written from the printed equations and not from the package, with `math` in place of arrays, so
that a slip in one of the two shows.
"""

from __future__ import annotations

import math

KCAL_J = 4184.0


def kcal_per_hour(watt: float) -> float:
    return watt * 3600.0 / KCAL_J


def pandolf(w: float, load: float, v: float, g: float, eta: float) -> float:
    """Pandolf1977, raw, also where it must not be used."""
    return (
        1.5 * w
        + 2.0 * (w + load) * (load / w) ** 2
        + eta * (w + load) * (1.5 * v**2 + 0.35 * v * g)
    )


def santee_correction(w: float, load: float, v: float, g: float, eta: float) -> float:
    """Santee2003: the slope enters with its sign."""
    return eta * (
        g * (w + load) * v / 3.5 - (w + load) * (g + 6.0) ** 2 / w + (25.0 - v**2)
    )


def grade_term(s: float, g: float, base: float = 1.1) -> float:
    """Looney2019b; `base` 1.11 is the known miscopy."""
    return 0.34 * s * g * (1.0 - 1.05 ** (1.0 - base ** (g + 32.0)))


def graded(s: float, g: float, base: float = 1.1) -> float:
    """Looney2019b, watts per kilogram of total mass."""
    return 1.44 + 1.94 * s**0.43 + 0.24 * s**4 + grade_term(s, g, base)


def backpacking(  # six numbers of one formula
    w: float, load: float, s: float, g: float, eta: float, rest_per_kg: float
) -> float:
    """Looney2022 with slope and terrain combined our way: watts per kilogram of body mass."""
    slope = grade_term(s, g) * (eta if g > 0 else 1.0)
    moving = 0.19 + eta * (1.78 * s**0.58 + 0.27 * s**4) + slope
    return rest_per_kg + moving * (1.0 + 1.96 * (load / w) ** 1.36)


def minetti(i: float) -> float:
    """Minetti2002, joules per kilogram and metre."""
    return 280.5 * i**5 - 58.7 * i**4 - 76.8 * i**3 + 51.9 * i**2 + 19.6 * i + 2.5


def ludlow_weyand(w: float, load: float, v: float, g: float) -> float:
    """LudlowWeyand2017, ml of oxygen per kilogram of body mass and minute."""
    share = (w + load) / w
    if g < 0:
        return 3.05 + share * 0.73 * (3.28 + 2.66 * v * v)
    return 3.05 + share * (0.32 * g + 3.28 + (1.0 + 0.19 * g) * 2.66 * v * v)


def acsm(v: float, g: float) -> float:
    """ACSM, ml of oxygen per kilogram and minute."""
    s = v * 60.0
    return 0.1 * s + 1.8 * s * g / 100.0 + 3.5


def tobler_kmh(i: float) -> float:
    return 6.0 * math.exp(-3.5 * abs(i + 0.05))


def campbell_ms(degrees: float) -> float:
    a, b, c, d, e = -1.4579, 22.0787, 76.3271, 0.0525, -3.2002e-4
    return c / (math.pi * b * (1.0 + ((degrees - a) / b) ** 2)) + d + e * degrees
