"""What one dose of a food costs in one camp's kitchen: water, heat, fuel, minutes, room in the pot.

Cheap enough to be asked for every food on every day before the menu is chosen. It prices a dose
alone and knows nothing of what else is cooked; the order of a whole meal is `cooking`'s matter.
"""

from __future__ import annotations

from functools import lru_cache

from oatsack.kitchen.fuels import cold_share, efficiency, fuel_of, power_w
from oatsack.kitchen.heat import (
    boiling_c,
    heat_kj_kg,
    snow_kj_kg,
    soak_factor,
    staple_factor,
)
from oatsack.values.food import Food
from oatsack.values.frozen import dataclass
from oatsack.values.kit import Kit, Stove
from oatsack.values.kitchen import Conditions, DosePrice
from oatsack.values.route import Day

FOOD_FILL = 0.75
WATER_FILL = 0.85
"""How full a pot may be with food, and with clear water. Common practice."""
SOLID_G_ML = 1.3
"""Dry food under water, without the air between. Ours."""
FOOD_KJ_PER_KG_K = 1.8
"""Specific heat of dry food. Ours, planning prior."""
KEEP_BOIL_W = 150.0
"""Heat a simmering pot takes up: 0.36 g of gas a minute on an open burner, where common practice
says 0.3 to 0.5; a litre lidded loses 36 W in still air and 145 W in wind. Ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Flame:
    """Water and a burner in one place: what a kilogram costs there, and how much longer it takes.

    Without a stove `fuel_g_kj` and `minutes_kj` are 0 and nothing boils.
    """

    boiling_c: float
    boil_kj_kg: float
    melt_kj_kg: float
    """To make a kilogram of cold water; 0 where water runs."""
    fuel_g_kj: float
    minutes_kj: float
    simmer_g_min: float
    simmer_factor: float
    soak_factor: float
    rise_k: float
    """How far a pot is warmed."""
    food_kj_g: float
    """Heat that a gram of dry food takes up in the pot."""


@lru_cache(maxsize=4096)
def flame(conditions: Conditions, stove: Stove | None) -> Flame:
    """The burner and the water of one camp, worked out once."""
    at = boiling_c(conditions.height_m, conditions.sea_level_hpa)
    snow_c = min(0.0, conditions.air_c)
    boil = snow_kj_kg(snow_c, at) if conditions.snow else heat_kj_kg(conditions.water_c, at)
    melt = snow_kj_kg(snow_c, 0.0) if conditions.snow else 0.0
    fuel_g_kj = minutes_kj = 0.0
    if stove is not None:
        share = efficiency(stove, windy=conditions.windy) * cold_share(conditions.air_c)
        fuel_g_kj = 1.0 / (fuel_of(stove.fuel).lhv_mj_kg * share)
        minutes_kj = 1000.0 / 60.0 / (power_w(stove) * share)
    return Flame(
        boiling_c=at,
        boil_kj_kg=boil,
        melt_kj_kg=melt,
        fuel_g_kj=fuel_g_kj,
        minutes_kj=minutes_kj,
        simmer_g_min=KEEP_BOIL_W * 0.06 * fuel_g_kj,
        simmer_factor=staple_factor(at),
        soak_factor=soak_factor(at),
        rise_k=at - (snow_c if conditions.snow else conditions.water_c),
        food_kj_g=FOOD_KJ_PER_KG_K / 1000.0 * (at - conditions.air_c),
    )


def conditions_of(day: Day) -> Conditions:
    """Where a day's dinner and drinks are cooked, told by its camp.

    On a day without a camp the kitchen stands where the day begins. Running water is taken 2 K
    under the mean of the day's coldest and warmest air, between 1 and 20 deg C; only snow is there
    when the day says so, or stays below freezing all day and names no sure water. Both ours (C7).
    """
    first = day.stretches[0].height_m if day.stretches else day.highest_m
    sure = any(place.reliability == "sure" for place in day.water)
    frozen = day.warm_c < 0.0 and not sure
    return Conditions(
        height_m=first if day.camp_m is None else day.camp_m,
        air_c=day.cold_c,
        water_c=min(20.0, max(1.0, (day.warm_c + day.cold_c) / 2.0 - 2.0)),
        snow=frozen if day.snow is None else day.snow,
        windy=day.windy,
    )


def dose_price(food: Food, conditions: Conditions, kit: Kit) -> DosePrice:
    """Water, heat, fuel, minutes and room that one dose asks for, cooked alone.

    Without a stove, what can stand in cold water is priced so, and the rest takes only its water.
    """
    prep = food.prep
    if (prep.kind == "none" and prep.water_ml == 0.0) or in_bottle(food):
        return NOTHING
    if prep.kind == "soak" or prep.kind == "none":
        return _cold(food, flame(conditions, kit.stove), prep.cold_soak_min or prep.wait_min)
    if kit.stove is None:
        return _cold(food, flame(conditions, None), prep.cold_soak_min or 0.0)
    return _hot(food, flame(conditions, kit.stove))


NOTHING = DosePrice()


def _cold(food: Food, at: Flame, wait_min: float) -> DosePrice:
    """A dose that takes cold water; melted first where there is only snow."""
    heat = food.prep.water_ml / 1000.0 * at.melt_kj_kg if at.fuel_g_kj else 0.0
    return DosePrice(
        water_ml=food.prep.water_ml,
        heat_kj=heat,
        fuel_g=heat * at.fuel_g_kj,
        flame_min=heat * at.minutes_kj,
        wait_min=0.0 if food.prep.kind == "none" else wait_min,
    )


def _hot(food: Food, at: Flame) -> DosePrice:
    """A dose that takes boiling water, and perhaps simmers."""
    prep = food.prep
    boil = prep.water_ml / 1000.0 * at.boil_kj_kg
    boil += food.dose_g * at.food_kj_g if in_pot(food) else 0.0
    simmer = prep.simmer_min * at.simmer_factor if prep.kind == "simmer" else 0.0
    return DosePrice(
        water_ml=prep.water_ml,
        boiled_ml=prep.water_ml,
        heat_kj=boil + simmer * KEEP_BOIL_W * 0.06,
        fuel_g=boil * at.fuel_g_kj + simmer * at.simmer_g_min,
        flame_min=boil * at.minutes_kj + simmer,
        wait_min=prep.wait_min * at.soak_factor,
        pot_ml=pot_room_ml(food),
    )


def pot_room_ml(food: Food, doses: float = 1.0) -> float:
    """Room that so many doses take in a pot with their water [ml], without head room.

    A pot is filled to 75 % with food in it (`FOOD_FILL`), to 85 % with clear water (`WATER_FILL`).
    """
    solids = food.dose_g / SOLID_G_ML if in_pot(food) else 0.0
    return doses * (food.prep.water_ml + solids)


def in_pot(food: Food) -> bool:
    """Whether the food itself goes into a pot, rather than water into its bag, bowl or mug."""
    return food.prep.kind == "simmer" or (food.prep.needs_pot and not food.prep.from_bag)


def in_bottle(food: Food) -> bool:
    """Whether it is stirred into a bottle: its water is drinking water, counted there once."""
    return food.prep.kind == "soak" and (food.role == "drink" or food.role == "small")


def in_mug(food: Food) -> bool:
    """Whether it is a hot drink: by its role, or counted as a small thing (coffee, tea)."""
    hot = food.prep.kind in ("boil", "simmer")
    return hot and "drink" in (food.role, food.category) and not in_pot(food)
