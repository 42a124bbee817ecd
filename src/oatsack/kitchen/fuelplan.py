"""Fuel over the trip: by day, the reserve stated apart, the cans to take and what comes home.

Knows how much was burnt from the cooked meals. Knows no pots; see `cooking`.
"""

from __future__ import annotations

from collections.abc import Sequence

from oatsack.kitchen.cans import choose, gross_g, grouped
from oatsack.kitchen.fuels import fuel_of
from oatsack.kitchen.price import Flame
from oatsack.values.kit import FuelCan, Kit
from oatsack.values.kitchen import FuelPlan, MealLedger

WIND_RESERVE = 0.10
RESERVE_ML = 500.0
"""A tenth for wind, and half a litre boiled in each kitchen once more. Common practice."""


def half_litre_g(flames: Sequence[Flame]) -> float:
    """Fuel for half a litre where it costs most on this trip [g]."""
    return max((f.boil_kj_kg * f.fuel_g_kj for f in flames), default=0.0) * RESERVE_ML / 1000.0


def fuel_plan(
    meals: Sequence[MealLedger], kit: Kit, *, days: Sequence[int], windy: frozenset[int],
    reserve_boil_g: float,
) -> FuelPlan | None:  # fmt: skip
    """Fuel by day and the cans for it; None where nothing is lit.

    Days already cooked at the stove's windy efficiency take no tenth for wind a second time.
    """
    by_day: dict[int, float] = dict.fromkeys(days, 0.0)
    for meal in meals:
        by_day[meal.day] = by_day.get(meal.day, 0.0) + meal.fuel_g
    burnt = sum(by_day.values())
    if kit.stove is None or burnt <= 0:
        return None
    calm = sum(g for day, g in by_day.items() if day not in windy)
    reserve = WIND_RESERVE * calm + reserve_boil_g
    take = choose(burnt + reserve, kit.cans or fuel_of(kit.stove.fuel).cans)
    carried = _carried(take, kit.stove.fuel, burnt + reserve)
    return FuelPlan(
        kind=kit.stove.fuel,
        by_day_g={str(day): grams for day, grams in sorted(by_day.items())},
        burnt_g=burnt,
        reserve_g=reserve,
        need_g=burnt + reserve,
        cans=grouped(take),
        carried_g=carried,
        gross_g=sum(gross_g(can) for can in take),
        left_g=carried - burnt,
    )


def _carried(take: Sequence[FuelCan], kind: str, need_g: float) -> float:
    """Fuel carried [g]; wood is gathered, so as much as is burnt and kept dry lies by."""
    return need_g if kind == "wood" else sum(can.fuel_g for can in take)
