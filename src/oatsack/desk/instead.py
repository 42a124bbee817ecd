"""What could stand in place of a portion, or be put into a meal: the foods that suit, and what each
would change. Nothing is planned: whether it fits is the chooser's to say."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from oatsack.desk.edits import like_for_like
from oatsack.larder.search import find
from oatsack.menu.facts import facts_of
from oatsack.values.food import Food
from oatsack.values.menu import Portion
from oatsack.values.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """So many doses of a food, and what they bring; as changes where something goes for them."""

    food: Food
    doses: float
    energy_kcal: float
    mass_g: float
    price: float | None
    liked: float


def portion(plan: Plan, p: Portion) -> Offer:
    """What one portion brings."""
    return _offer(plan.foods[p.food], p.doses, p.walker)


def _offer(food: Food, doses: float, walker: str) -> Offer:
    found = facts_of(food)
    return Offer(
        food=food, doses=doses, energy_kcal=doses * found.kcal, mass_g=doses * found.mass_g,
        price=None if food.price is None else doses * found.price, liked=food.liked_by(walker),
    )  # fmt: skip


def instead(plan: Plan, p: Portion, foods: Iterable[Food]) -> list[Offer]:
    """Foods of the same part in a meal, the best liked first, with what each changes."""
    old = plan.foods[p.food]
    there = _eaten(plan, p.walker, p.day, p.meal)
    suits = (f for f in foods if p.meal in f.meals and f.role == old.role
             and f.carry == old.carry and f.id not in there)  # fmt: skip
    order = sorted(suits, key=lambda f: (-f.liked_by(p.walker),
                                         abs(f.dose_kcal - old.dose_kcal), f.name))  # fmt: skip
    return [_change(portion(plan, p), _offer(f, like_for_like(old, p.doses, f), p.walker))
            for f in order]  # fmt: skip


def _change(old: Offer, new: Offer) -> Offer:
    known = old.price is not None and new.price is not None
    price = (new.price or 0.0) - (old.price or 0.0) if known else None
    return Offer(food=new.food, doses=new.doses, energy_kcal=new.energy_kcal - old.energy_kcal,
                 mass_g=new.mass_g - old.mass_g, price=price, liked=new.liked)  # fmt: skip


def suiting(plan: Plan, place: tuple[str, int, str], foods: Iterable[Food],
            asked: str) -> list[Offer]:  # fmt: skip
    """One dose of each food that suits a walker's meal and is not there yet, the best liked
    first; `asked` narrows them by words."""
    walker, day, meal = place
    there = _eaten(plan, walker, day, meal)
    found = find(foods, asked.split()) if asked else foods
    suits = [f for f in found if meal in f.meals and f.id not in there]
    if not asked:
        suits.sort(key=lambda f: (-f.liked_by(walker), f.name))
    return [_offer(f, 1.0, walker) for f in suits]


def _eaten(plan: Plan, walker: str, day: int, meal: str) -> set[str]:
    return {p.food for p in plan.menu.portions if (p.walker, p.day, p.meal) == (walker, day, meal)}
