"""The same bags without a flame: which meals can be eaten cold, which not, what to swap them for.

For a fire ban, or a stove that died. Whether a walker may eat a swap is the caller's to say
(`allowed`): allergies and diets are never bent here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from oatsack.kitchen.keeping import SoakClock, soak_clock
from oatsack.kitchen.price import in_bottle
from oatsack.values.food import Food, Meal
from oatsack.values.menu import Menu, Portion

Verdict = Literal["as-it-is", "soak", "no"]
Allowed = Callable[[str, Food], bool]


@dataclass(frozen=True, slots=True, kw_only=True)
class Swap:
    """What to take instead: so many doses, and how far its energy is off."""

    food: str
    doses: float
    energy_kcal: float
    off_kcal: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Twin:
    """One portion without a flame."""

    walker: str
    day: int
    meal: Meal
    food: str
    doses: float
    verdict: Verdict
    clock: SoakClock | None = None
    swap: Swap | None = None


def verdict_of(food: Food) -> Verdict:
    """Whether a food can be eaten without a flame: as it is, after a cold soak, or not."""
    if food.prep.kind == "none" or in_bottle(food):
        return "as-it-is"
    soaks = food.prep.kind == "soak" or food.prep.cold_soak_min is not None
    return "soak" if soaks else "no"


def flame_free(
    menu: Menu, foods: Mapping[str, Food], *, larder: Sequence[Food], allowed: Allowed,
    heat_c: Mapping[int, float],
) -> tuple[Twin, ...]:  # fmt: skip
    """Every portion of a menu without a flame, in its order.

    `larder` holds what may be swapped in, `allowed(walker, food)` says whether that walker can eat
    it, `heat_c` the midday air by day for the clocks of what is soaked.
    """
    cold = [food for food in larder if verdict_of(food) != "no"]
    return tuple(
        _twin(p, foods[p.food], [f for f in cold if allowed(p.walker, f)], heat_c)
        for p in menu.portions
    )


def _twin(
    portion: Portion, food: Food, cold: Sequence[Food], heat_c: Mapping[int, float]
) -> Twin:
    verdict = verdict_of(food)
    clock = soak_clock(food, heat_c.get(portion.day, 20.0)) if verdict == "soak" else None
    return Twin(
        walker=portion.walker,
        day=portion.day,
        meal=portion.meal,
        food=portion.food,
        doses=portion.doses,
        verdict=verdict,
        clock=clock,
        swap=best_swap(portion, food, cold) if verdict == "no" else None,
    )


def best_swap(portion: Portion, food: Food, cold: Sequence[Food]) -> Swap | None:
    """The food of the same meal that comes nearest in energy, then is liked best, then lightest."""
    wanted = portion.doses * food.dose_kcal
    found = [
        (swap, f)
        for f in cold
        if portion.meal in f.meals and f.id != food.id and _stands_in(f, food)
        for swap in [_swap(f, wanted)]
        if swap is not None
    ]
    if not found:
        return None
    return min(
        found,
        key=lambda sf: (
            round(abs(sf[0].off_kcal), -1),
            sf[1].role != food.role,
            -sf[1].liked_by(portion.walker),
            sf[0].doses * sf[1].dose_g,
            sf[1].id,
        ),
    )[0]


def _stands_in(swap: Food, food: Food) -> bool:
    """Toppings go with something, small things are no meal; a drink only stands in for a drink."""
    if swap.role in ("topping", "small"):
        return False
    return (swap.role == "drink") == (food.role == "drink")


def _swap(food: Food, wanted_kcal: float) -> Swap | None:
    if food.dose_kcal <= 0:
        return None
    doses = float(max(1, round(wanted_kcal / food.dose_kcal)))
    energy = doses * food.dose_kcal
    return Swap(food=food.id, doses=doses, energy_kcal=energy, off_kcal=energy - wanted_kcal)
