"""Water to have at hand: what the walker drinks by day and in camp, and where it must be carried.

Four kinds of figure, never mixed and always named (`KINDS`): a *need* is spent whatever one does, a
*suggestion* is water to have, never an order to drink, a *limit* is a hard line above which
drinking is dangerous, an *estimate* describes the body. One drinks to thirst.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

from oatsack.kitchen.salt import SWEAT_MMOL_L, sodium_mg
from oatsack.kitchen.sweat import Sweat, area_of, sweat, walking_w_m2
from oatsack.values.kitchen import WaterDay
from oatsack.values.route import Day, Stretch
from oatsack.values.trip import Rules
from oatsack.values.walker import Walker

Kind = Literal["need", "suggestion", "limit", "estimate"]
KINDS: Mapping[str, Kind] = {
    "walking_suggested_ml": "suggestion",
    "sweat_low_ml": "estimate",
    "sweat_high_ml": "estimate",
    "cooking_ml": "need",
    "washing_ml": "suggestion",
    "camp_drinks_ml": "suggestion",
    "hot_drinks_ml": "need",
    "hour_cap_ml": "limit",
    "day_cap_ml": "limit",
    "carry_ml": "suggestion",
    "boiled_ml": "need",
    "cold_ml": "need",
    "wash_ml": "suggestion",
    "left_ml": "need",
    "water_ml": "need",
}
"""What each litre figure of the kitchen is, by the name of its field."""

HOUR_CAP_ML = 1420.0
DAY_CAP_ML = 11_360.0
"""At most so much, ever: 1.5 and 12 US quarts. Source: TBMED507, work in the heat."""
HOT_C = 27.0
"""From here on midday counts as hot, and half as much again is at hand. Common practice."""
HOT_FACTOR = 1.5
CAMP_ML = 1000.0
"""Evening, night and morning, hot drinks included. Common practice."""
STRICT_BOIL_M = 1981.0
"""6,500 ft; the stricter reading of "above 2,000 m / 6,500 ft". Source: CDCBoil."""


def boil_minutes(height_m: float) -> float:
    """Minutes of rolling boil that make clear water safe from germs. Source: CDCBoil."""
    return 3.0 if height_m >= STRICT_BOIL_M else 1.0


def rate_ml_h(day: Day, rules: Rules) -> float:
    """Water to have at hand per hour of walking [ml/h], a suggestion; never above the cap."""
    hot = HOT_FACTOR if day.warm_c >= HOT_C else 1.0
    return min(HOUR_CAP_ML, rules.water_ml_h * hot)


def at_hand_ml(day: Day, rules: Rules) -> float:
    """Water to have at hand over the day's walking [ml], a suggestion."""
    return rate_ml_h(day, rules) * day.walking_min / 60.0


def sweat_of(stretch: Stretch, day: Day, walker: Walker, work_w_m2: float | None = None) -> Sweat:
    """Sweat of a whole stretch of walking [ml], at midday's air."""
    work = walking_w_m2(stretch, walker) if work_w_m2 is None else work_w_m2
    hour = sweat(day.warm_c, work, area_m2=area_of(walker))
    share = stretch.minutes / 60.0
    return Sweat(
        low_ml=hour.low_ml * share,
        likely_ml=hour.likely_ml * share,
        high_ml=hour.high_ml * share,
        model=hour.model,
        outside=hour.outside,
        too_hot=hour.too_hot,
    )


def water_day(
    day: Day, walker: Walker, rules: Rules, *, cooking_ml: float, washing_ml: float,
    hot_drinks_ml: float,
) -> WaterDay:  # fmt: skip
    """One walker's water on one day; `KINDS` says what each figure is."""
    at_hand = at_hand_ml(day, rules)
    nights = CAMP_ML if day.camp_m is not None else 0.0
    camp = max(nights, hot_drinks_ml)
    plain = WaterDay(
        walking_suggested_ml=min(at_hand, max(0.0, DAY_CAP_ML - camp)),
        sweat_low_ml=0.0,
        sweat_high_ml=0.0,
        cooking_ml=cooking_ml,
        washing_ml=washing_ml,
        camp_drinks_ml=camp,
        hot_drinks_ml=hot_drinks_ml,
        hour_cap_ml=HOUR_CAP_ML,
        day_cap_ml=DAY_CAP_ML,
    )
    return with_sweat(plain, day, walker)


def with_sweat(
    water: WaterDay, day: Day, walker: Walker, work_w_m2: float | None = None
) -> WaterDay:
    """The same day with its sweat: at this work of walking [W/m2], or a stand-in for it."""
    walks = [s for s in day.stretches if s.kind == "walk" and s.minutes > 0]
    sweats = [sweat_of(s, day, walker, work_w_m2) for s in walks]
    return replace(
        water,
        sweat_low_ml=sum(s.low_ml for s in sweats),
        sweat_high_ml=sum(s.high_ml for s in sweats),
        sodium_low_mg=sodium_mg(sum(s.low_ml for s in sweats) / 1000.0, SWEAT_MMOL_L[0]),
        sodium_high_mg=sodium_mg(sum(s.high_ml for s in sweats) / 1000.0, SWEAT_MMOL_L[2]),
        sweat_models=tuple(sorted({name for s in sweats for name in said_of(s)})),
    )


def said_of(one: Sweat) -> tuple[str, ...]:
    """The model of a sweat figure, and what was stretched: ``table``, ``outside air_c`` ..."""
    hot = ("too-hot",) if one.too_hot else ()
    return (one.model, *(f"outside {name}" for name in one.outside), *hot)
