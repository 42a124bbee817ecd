"""How hot a bag of food still is when its wait is over, with and without a cosy around it.

A lumped body that cools towards the air. Rough on purpose: bags and sleeves differ, and its numbers
are planning priors. Knows nothing of which food needs how much heat.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp

from oatsack.kitchen.heat import WATER_KJ_PER_KG_K
from oatsack.kitchen.price import FOOD_KJ_PER_KG_K

BAG_AREA_M2 = 0.06
BARE_W_M2_K = 10.0
COSY_W_M2_K = 3.0
"""Heat lost through a bare bag and through a sleeve. Ours, planning priors."""
LUKEWARM_C = 55.0
"""Below this, freeze-dried food hardly takes up more water. Ours, planning prior."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bagged:
    """Boiling water poured on dry food in a bag."""

    water_g: float
    water_c: float
    food_g: float
    food_c: float

    @property
    def capacity_kj_k(self) -> float:
        """Heat per kelvin of the whole [kJ/K]."""
        water = self.water_g / 1000.0 * WATER_KJ_PER_KG_K
        return water + self.food_g / 1000.0 * FOOD_KJ_PER_KG_K

    @property
    def mixed_c(self) -> float:
        """Temperature just after stirring [deg C]: ``(mw cw Tw + mf cf Tf) / (mw cw + mf cf)``."""
        water = self.water_g / 1000.0 * WATER_KJ_PER_KG_K * self.water_c
        food = self.food_g / 1000.0 * FOOD_KJ_PER_KG_K * self.food_c
        return (water + food) / self.capacity_kj_k

    def after_c(self, minutes: float, air_c: float, *, cosy: bool) -> float:
        """Temperature after a wait [deg C]: ``Ta + (T0 - Ta) exp(-U A t / C)``."""
        loss = (COSY_W_M2_K if cosy else BARE_W_M2_K) * BAG_AREA_M2
        share = exp(-loss * minutes * 60.0 / (self.capacity_kj_k * 1000.0))
        return air_c + (self.mixed_c - air_c) * share
