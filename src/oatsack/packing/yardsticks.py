"""Four ways people size their food, side by side: by mass, by energy, by meals, by volume.

They disagree, and by how much says how far a plan can be trusted at a glance. All figures are
common practice, meant to be outranked by one's own record; none of them feeds the plan.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from oatsack.packing.container import ML_PER_PERSON_DAY
from oatsack.values.food import Meal
from oatsack.values.menu import Slot
from oatsack.values.plan import Yardsticks
from oatsack.values.route import Day

LEVEL_KG = 0.75
"""Food per person on a full day with a full pack in summer [kg] (common practice: 0.65 to 1.15)."""
EARLY: tuple[float, ...] = (0.75, 0.85)
LAST = 0.70
RAMP: tuple[tuple[int, float], ...] = ((6, 1.0), (14, 1.1), (28, 1.2))
RAMP_LATER = 1.3
"""Day factors: the first two days, the last, and the growth of appetite (common practice)."""
KCAL_PER_G = 4.0
"""Energy density that the usual ration levels imply (common practice: 3.5 to 4.7)."""
MEAL_G: Mapping[Meal, float] = {"breakfast": 130.0, "lunch": 150.0, "dinner": 180.0}
DRINKS_G_DAY = 40.0
SNACKS_G_H = 55.0
"""Dry grams of a meal, of a day's drinks, and of snacks per walking hour (common practice)."""
BULK_KG_L = 0.5
"""Bulk density of a packed bag of food (common practice: 0.42 loose to 0.65 tight)."""


def day_factors(days: int) -> tuple[float, ...]:
    """How much of a full ration each day of a walk takes, by its number."""
    if days <= 0:
        return ()
    middle = [*EARLY, *(_ramp(n) for n in range(len(EARLY) + 1, days))]
    return (*middle[: days - 1], LAST)


def _ramp(day: int) -> float:
    return next((factor for end, factor in RAMP if day <= end), RAMP_LATER)


def by_mass_kg(person_days: float, level_kg: float = LEVEL_KG) -> float:
    """Ration level times person-days (already weighted by day) [kg]."""
    return person_days * level_kg


def by_energy_kg(energy_kcal: float, kcal_per_g: float = KCAL_PER_G) -> float:
    """Energy to be eaten over a usual density [kg]."""
    return energy_kcal / kcal_per_g / 1000.0


def by_meals_kg(meals: Mapping[Meal, int], drink_days: float, walking_h: float) -> float:
    """Counted meals times their usual grams, drinks by day, snacks by walking hour [kg]."""
    grams = sum(count * MEAL_G.get(meal, 0.0) for meal, count in meals.items())
    return (grams + drink_days * DRINKS_G_DAY + walking_h * SNACKS_G_H) / 1000.0


def by_volume_l(person_days: float) -> float:
    """Litres by the common rule of 100 cubic inches per person-day."""
    return person_days * ML_PER_PERSON_DAY / 1000.0


def by_volume_kg(person_days: float) -> float:
    """The mass that fills the litres of the common rule [kg]."""
    return by_volume_l(person_days) * BULK_KG_L


def yardsticks(slots: Sequence[Slot], days: Sequence[Day],
               target: Mapping[str, Mapping[int, float]], plan_g: float) -> Yardsticks:  # fmt: skip
    """All four for a trip, beside the plan's own packed mass without spare food [g]."""
    walkers = {slot.walker for slot in slots}
    person_days = len(walkers) * sum(day_factors(len(days)))
    meals: dict[Meal, int] = {m: sum(s.meal == m for s in slots) for m in MEAL_G}
    hours = len(walkers) * sum(d.walking_min for d in days) / 60.0
    four = (
        by_mass_kg(person_days),
        by_energy_kg(sum(kcal for of in target.values() for kcal in of.values())),
        by_meals_kg(meals, len({(s.walker, s.day) for s in slots}), hours),
        by_volume_kg(person_days),
    )
    mean = sum(four) / len(four)
    return Yardsticks(
        by_mass_kg=four[0], by_energy_kg=four[1], by_meals_kg=four[2], by_volume_kg=four[3],
        plan_kg=plan_g / 1000.0, spread=(max(four) - min(four)) / mean if mean > 0 else 0.0,
    )  # fmt: skip
