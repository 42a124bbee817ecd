"""Energy availability: what a walk's food leaves for everything but walking, for `why` alone.

The usual lines, about 45 healthy and under 30 low, come from short laboratory studies of young
women; for men, and for walks of a few days, they are weak. So the figure is computed only for
adults and up to seven days, always with its range, and is no diagnosis.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from oatsack.values.plan import Availability
from oatsack.walker.activity import CAMP_MET, REST_MET, SLEEP_MET
from oatsack.walker.person import resting_kcal_day
from oatsack.walker.tissue import FAT_SPREAD, energy_availability, fat_kg

if TYPE_CHECKING:
    from collections.abc import Mapping

    from oatsack.values.plan import DayNeed
    from oatsack.walker.person import Body

MOST_DAYS = 7
LEAST_LEAN = 0.4
"""No adult has less fat-free mass than this share of their mass (ours)."""


def availability(
    body: Body, need: Mapping[int, DayNeed], eaten_kcal: Mapping[int, float]
) -> Availability | None:
    """The mean over the walk, with its range [kcal per kg fat-free mass and day].

    None under 18, pregnant, nursing or ill, and beyond seven days. Exercise is walking less what
    resting uses in the same hours; its range is that of the day, fat lies within `FAT_SPREAD` of
    the usual (ours). Source: Burke2018.
    """
    if body.fully_fed or not need or len(need) > MOST_DAYS:
        return None
    days = full_days(body, need)
    if days <= 0.0:
        return None
    eaten = sum(eaten_kcal.values()) / days
    low, likely, high = (_walking(body, need, side) / days for side in ("low", "energy", "high"))
    fat = fat_kg(body)
    lean, lean_low, lean_high = (
        max(LEAST_LEAN * body.mass_kg, body.mass_kg - fat * share)
        for share in (1.0, 1.0 + FAT_SPREAD, 1.0 - FAT_SPREAD)
    )
    ends = [
        energy_availability(eaten, walking, fat_free_kg=kg)
        for walking in (low, high) for kg in (lean_low, lean_high)
    ]  # fmt: skip
    return Availability(
        likely_kcal_kg=energy_availability(eaten, likely, fat_free_kg=lean),
        low_kcal_kg=min(ends),
        high_kcal_kg=max(ends),
        full_days=days,
        eaten_kcal_day=eaten,
        walking_kcal_day=likely,
        walking_low_kcal_day=low,
        walking_high_kcal_day=high,
        lean_kg=lean,
        lean_low_kg=lean_low,
        lean_high_kg=lean_high,
    )


def _walking(body: Body, need: Mapping[int, DayNeed], side: str) -> float:
    """Walking beyond resting, in all [kcal]; its low and high end as the day's own."""
    resting = resting_kcal_day(body) / 24.0
    found: float = sum(
        day.walking_kcal * getattr(day, f"{side}_kcal") / day.energy_kcal
        - resting * day.walking_h
        for day in need.values() if day.energy_kcal > 0
    )  # fmt: skip
    return max(0.0, found)


def full_days(body: Body, need: Mapping[int, DayNeed]) -> float:
    """The hours inside the walk over 24, from the parts of each day and their multiples of rest."""
    resting = resting_kcal_day(body) / 24.0
    hours = sum(
        day.walking_h
        + (day.camp_kcal / CAMP_MET + day.rest_kcal / REST_MET + day.sleep_kcal / SLEEP_MET)
        / resting
        for day in need.values()
    )
    return hours / 24.0
