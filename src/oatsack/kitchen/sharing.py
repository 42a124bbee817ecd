"""Two hungers, one pot: an equal base for all who share it, and a booster for the bigger eater."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import floor

from oatsack.kitchen.flamefree import Allowed
from oatsack.values.food import Food


@dataclass(frozen=True, slots=True, kw_only=True)
class Helped:
    """What one eater has: doses of the base, of a booster beside it, and the energy of both."""

    base_doses: float
    booster: str | None
    booster_doses: float
    energy_kcal: float


def share_pot(
    hunger_kcal: Mapping[str, float], base: Food, boosters: Sequence[Food], *, allowed: Allowed
) -> dict[str, Helped]:
    """Splits a pot: each has as many whole doses of the base as the smallest hunger holds.

    At least one. Who wants more gets so many whole doses of the one booster that comes nearest to
    it, of those `allowed(walker, food)` lets through; none where nothing would come nearer.
    """
    each = float(max(1, floor(min(hunger_kcal.values()) / max(1.0, base.dose_kcal))))
    out = {}
    for walker, hunger in hunger_kcal.items():
        mine = [food for food in boosters if allowed(walker, food) and food.dose_kcal > 0]
        best, doses = _booster(hunger - each * base.dose_kcal, mine)
        extra = doses * best.dose_kcal if best else 0.0
        out[walker] = Helped(
            base_doses=each,
            booster=best.id if best and doses else None,
            booster_doses=doses,
            energy_kcal=each * base.dose_kcal + extra,
        )
    return out


def _booster(gap_kcal: float, boosters: Sequence[Food]) -> tuple[Food | None, float]:
    """The booster and its doses that leave the smallest gap; of equals the lightest."""
    best: Food | None = None
    most, nearest = 0.0, (abs(gap_kcal), 0.0, "")
    for food in boosters:
        doses = float(max(0, round(gap_kcal / food.dose_kcal)))
        how = (abs(gap_kcal - doses * food.dose_kcal), doses * food.dose_g, food.id)
        if how < nearest:
            best, most, nearest = food, doses, how
    return best, most
