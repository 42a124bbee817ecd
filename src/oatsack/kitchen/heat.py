"""How hot water boils and what it takes to get there: pressure, boiling point, heat, snow, pots.

Knows the physics of water at a height and in a weather. Knows nothing of stoves or fuel (`fuels`)
nor of meals. One millilitre is counted as one gram: at 20 deg C that is 0.2 % too much.
"""

from __future__ import annotations

from functools import lru_cache
from math import sqrt

SEA_LEVEL_HPA = 1013.25
LAPSE_K_PER_M = 0.0065
EXPONENT = 9.80665 / (LAPSE_K_PER_M * 287.05287)
EARTH_RADIUS_M = 6_356_766.0

WATER_KJ_PER_KG_K = 4.19
MELT_KJ_PER_KG = 333.43
ICE_KJ_PER_KG_K = 2.05
POT_KJ_PER_KG_K = {"aluminium": 0.897, "steel": 0.50, "titanium": 0.52}

_N = (
    0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5,
    -0.32325550322333e7, 0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6,
    -0.23855557567849, 0.65017534844798e3,
)  # fmt: skip
_H = (0.088639, 4.209875, -8.87529e-4, 9.90318e-6, -2.95381e-8)


def pressure_hpa(
    height_m: float, *, sea_level_hpa: float = SEA_LEVEL_HPA, sea_level_c: float = 15.0
) -> float:
    """Air pressure at a height [hPa], in the standard atmosphere unless the weather is told.

    ``p = p0 (1 - L H / T0)^(g0 / (L R))`` with the geopotential height ``H = R z / (R + z)``.
    `sea_level_hpa` is the barometer reduced to sea level, `sea_level_c` the air there; a warm
    season lifts the pressure aloft. Source: ISO2533, standard atmosphere.
    Range: -5,000 to 11,000 m; the season alone moves the boiling point by about 1 K at 4,000 m.
    """
    geopotential = EARTH_RADIUS_M * height_m / (EARTH_RADIUS_M + height_m)
    ratio = 1.0 - LAPSE_K_PER_M * geopotential / (sea_level_c + 273.15)
    return float(sea_level_hpa * ratio**EXPONENT)


def saturation_k(pressure_mpa: float) -> float:
    """Temperature at which water boils under a pressure [K].

    The closed form of region 4 in ten coefficients. Source: IapwsIF97, eq. 31.
    Range: 0.000611 to 22.064 MPa.
    """
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = _N
    beta = sqrt(sqrt(pressure_mpa))
    e = beta * beta + n3 * beta + n6
    f = n1 * beta * beta + n4 * beta + n7
    g = n2 * beta * beta + n5 * beta + n8
    d = 2.0 * g / (-f - sqrt(f * f - 4.0 * e * g))
    return (n10 + d - sqrt((n10 + d) ** 2 - 4.0 * (n9 + n10 * d))) / 2.0


@lru_cache(maxsize=4096)
def boiling_c(
    height_m: float, sea_level_hpa: float = SEA_LEVEL_HPA, sea_level_c: float = 15.0
) -> float:
    """Boiling point of water at a height [deg C]. Source: ISO2533 and IapwsIF97, eq. 31."""
    hpa = pressure_hpa(height_m, sea_level_hpa=sea_level_hpa, sea_level_c=sea_level_c)
    return saturation_k(hpa / 10_000.0) - 273.15


def enthalpy_kj_kg(celsius: float) -> float:
    """Enthalpy of liquid water near one atmosphere [kJ/kg], a quartic fitted by us to IAPWS-95.

    Range: 0 to 100 deg C, within 0.03 kJ/kg. Source: ours, fit; checked against CoolProp.
    """
    a, b, c, d, e = _H
    return a + celsius * (b + celsius * (c + celsius * (d + celsius * e)))


def heat_kj_kg(water_c: float, to_c: float) -> float:
    """Heat that warms a kilogram of liquid water [kJ/kg]; 4.19 kJ/(kg K) within 0.15 %."""
    return enthalpy_kj_kg(to_c) - enthalpy_kj_kg(water_c)


def snow_kj_kg(snow_c: float, to_c: float, *, liquid_share: float = 0.0) -> float:
    """Heat that melts a kilogram of snow and warms the water [kJ/kg].

    ``Q = (1 - w) (2.05 (0 - Ts) + 333.43) + h(to) - h(0)``, w the liquid share of wet snow.
    Source: IAPWS06, melting enthalpy at one atmosphere. Range: snow of -30 to 0 deg C.
    """
    solid = ICE_KJ_PER_KG_K * max(0.0, -snow_c) + MELT_KJ_PER_KG
    return (1.0 - liquid_share) * solid + heat_kj_kg(0.0, to_c)


def pot_kj(mass_g: float, material: str, rise_k: float) -> float:
    """Heat that warms an empty pot [kJ]. Source: from memory, handbook specific heats."""
    return mass_g / 1000.0 * POT_KJ_PER_KG_K[material] * rise_k


def staple_factor(boiling_point_c: float) -> float:
    """How much longer staples simmer where water boils cooler: ``2^((99.97 - Tb) / 10)``.

    Ours (C7), between the two outdoor rules "+10 % per 1,000 ft" and a chemist's Q10 of 2; the
    sources disagree and "double per 5,000 ft" is too steep above 2,500 m.
    """
    return float(2.0 ** (max(0.0, 99.97 - boiling_point_c) / 10.0))


def soak_factor(boiling_point_c: float) -> float:
    """How much longer instant and freeze-dried food stands: half the excess of staples. Ours."""
    return 1.0 + (staple_factor(boiling_point_c) - 1.0) / 2.0
