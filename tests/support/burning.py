"""What fuels and burners give, for judging the kitchen's figures: by its own flame, by chemistry.

`grams` and `minutes` ask the flame that every camp cooks on, in mild air. `heating_mj_kg` is the
oracle behind the table of fuels: heat of burning from enthalpies of formation. Source: CODATA, key
values; wood by its moisture as quoted in print (from memory).
"""

from __future__ import annotations

from oatsack.kitchen.fuels import Substance
from oatsack.kitchen.price import flame
from oatsack.values.kit import Stove
from oatsack.values.kitchen import Conditions

CO2_KJ_MOL = -393.51
WATER_GAS_KJ_MOL, WATER_LIQUID_KJ_MOL = -241.826, -285.830
MILD_C = 20.0


def grams(heat_kj: float, stove: Stove, *, windy: bool = False) -> float:
    """Fuel that brings so much heat into a pot where the air takes nothing [g]."""
    return heat_kj * flame(Conditions(air_c=MILD_C, windy=windy), stove).fuel_g_kj


def minutes(heat_kj: float, watts: float, efficiency: float) -> float:
    """How long a burner of this power takes for it [min]."""
    stove = Stove(power_w=watts, efficiency=efficiency)
    return heat_kj * flame(Conditions(air_c=MILD_C), stove).minutes_kj


def heating_mj_kg(substance: Substance, *, gross: bool = False) -> float:
    """Heat of burning at 25 deg C: ``-(x dHf(CO2) + y/2 dHf(H2O) - dHf(fuel)) / M``."""
    water = WATER_LIQUID_KJ_MOL if gross else WATER_GAS_KJ_MOL
    burnt = substance.atoms["carbon"] * CO2_KJ_MOL + substance.atoms["hydrogen"] / 2.0 * water
    return -(burnt - substance.formation_kj_mol) / substance.molar_g


def wood_mj_kg(moisture: float) -> float:
    """Net heat of wood: ``19.0 (1 - M) - 2.443 M``, moisture as a share of the wet mass."""
    return 19.0 * (1.0 - moisture) - 2.443 * moisture
