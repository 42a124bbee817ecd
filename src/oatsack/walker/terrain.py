"""How much dearer rough ground makes walking: factors by surface, and snow by its depth."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from oatsack.values.model import Numbers

FACTORS: Mapping[str, float] = MappingProxyType(
    {
        "paved": 1.0,
        "dirt": 1.1,
        "grass": 1.1,
        "gravel": 1.2,
        "light-brush": 1.2,
        "hard-snow": 1.3,
        "ploughed": 1.3,
        "heavy-brush": 1.5,
        "bog": 1.8,
        "loose-sand": 2.1,
    }
)
"""Terrain factors of the walking-cost models. Source: Soule1972 as listed in deGruchy2017; grass,
gravel, hard snow and ploughed ground from later lists, one each. Hard snow is 1.6 in another list:
a setting, not a fact."""

ICE_DENSITY = 1.186
"""The constant of the sinking formula [g/cm3]."""
DEEPEST_SINK_CM = 20.0
"""Sinking is held here: the cubic runs away, and deeper snow asks for snowshoes (our choice)."""


def sinking_cm(depth_cm: Numbers, density_g_cm3: Numbers) -> Numbers:
    """How deep a foot sinks into snow of this depth and density [cm]: ``h (1 - rho / 1.186)``.

    Source: Richmond2019, abstract.
    """
    return depth_cm * (1.0 - density_g_cm3 / ICE_DENSITY)


def snow_factor(depth_cm: Numbers, density_g_cm3: Numbers = 0.3) -> Numbers:
    """Terrain factor of snow [-]: ``0.0005 z^3 + 0.0001 z^2 + 0.1072 z + 1.2604``, z the sinking.

    Sinking is held at `DEEPEST_SINK_CM`; see `needs_snowshoes`. Source: Richmond2019, abstract.
    """
    z = np.minimum(np.maximum(sinking_cm(depth_cm, density_g_cm3), 0.0), DEEPEST_SINK_CM)
    return ((0.0005 * z + 0.0001) * z + 0.1072) * z + 1.2604


HELD_FACTOR = float(snow_factor(1000.0))
"""The factor at which snow is held, however deep it is."""


def needs_snowshoes(depth_cm: float, density_g_cm3: float = 0.3) -> bool:
    """Whether snow is so soft and deep that the factor has been held."""
    return bool(sinking_cm(depth_cm, density_g_cm3) > DEEPEST_SINK_CM)
