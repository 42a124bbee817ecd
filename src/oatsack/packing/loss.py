"""What the loss of any one pack would leave: energy, a warm meal or cold food, allergy-safe food.

Gives the limits that sharing keeps, and the report that is always made (the worst single loss).
From three walkers on, every loss leaves six tenths of the energy; whoever must avoid something
keeps six tenths of their own plan in food that is safe for them, wherever it rides; and who carries
the only stove leaves cold food with the others. Allergens fail closed (C10, C11).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from oatsack.values.food import Food
from oatsack.values.pack import Bag, Loss
from oatsack.values.problem import Floats
from oatsack.values.walker import Walker

KEEP_ENERGY = 0.60
"""Share of the energy that any single loss must leave, from three walkers on."""
KEEP_SAFE = 0.60
KEEP_COLD = 0.35
"""Share of the energy that is left to eat cold when the only stove is lost (ours)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Heat:
    """Who carries a stove with its pot, and who carries fuel."""

    stoves: frozenset[str] = frozenset()
    fuel: frozenset[str] = frozenset()

    def without(self, walker: str) -> bool:
        """Whether something can be heated when a walker's pack is lost."""
        return bool(self.stoves - {walker}) and bool(self.fuel - {walker})


def energy_kcal(bag: Bag, foods: Mapping[str, Food]) -> float:
    """Energy in a bag [kcal]."""
    return sum(i.doses * foods[i.food].dose_kcal for i in bag.items)


def flameless_kcal(bag: Bag, foods: Mapping[str, Food]) -> float:
    """Energy in a bag that can be eaten without a flame [kcal]."""
    return sum(i.doses * foods[i.food].dose_kcal for i in bag.items if eats_cold(foods[i.food]))


def eats_cold(food: Food) -> bool:
    """Whether a food can be eaten without a flame, dry or after a soak in cold water."""
    return food.prep.kind in ("none", "soak") or food.prep.cold_soak_min is not None


def is_safe(food: Food, walker: Walker) -> bool:
    """Whether a walker may eat a food as far as allergens go; unknown counts as contains."""
    return all(
        food.state(a.allergen) == "free" or (a.traces and food.state(a.allergen) == "may")
        for a in walker.avoids
    )


def safe_kcal(bag: Bag, walker: Walker, foods: Mapping[str, Food]) -> float:
    """Energy in a bag that a walker may eat [kcal]: nothing, if anything loose in it is unsafe."""
    if not bag.sealed and not all(is_safe(foods[i.food], walker) for i in bag.items):
        return 0.0
    return sum(i.doses * foods[i.food].dose_kcal for i in bag.items
               if is_safe(foods[i.food], walker))  # fmt: skip


def planned_kcal(bags: Iterable[Bag], walker: str, foods: Mapping[str, Food]) -> float:
    """Energy of everything that bags hold for a walker, spare included [kcal]."""
    return sum(
        i.doses * foods[i.food].dose_kcal for bag in bags for i in bag.items if i.walker == walker
    )


def limits(bags: Sequence[Bag], walkers: Sequence[Walker], foods: Mapping[str, Food],
           heat: Heat) -> tuple[tuple[Floats, Floats], ...]:  # fmt: skip
    """What one walker may carry at most, as pairs (amount by bag, cap by walker)."""
    if len(walkers) < 2:
        return ()
    energy = np.array([energy_kcal(b, foods) for b in bags])
    out = []
    if len(walkers) >= 3:
        cap = (1.0 - KEEP_ENERGY) * float(energy.sum())
        out.append((energy, np.full(len(walkers), cap)))
    out += _safe_limits(bags, walkers, foods)
    cold = np.array([flameless_kcal(b, foods) for b in bags])
    most = _cap(float(cold.sum()), KEEP_COLD * float(energy.sum()), len(walkers))
    only = [not heat.without(w.id) and bool(heat.stoves) for w in walkers]
    if any(only):
        out.append((cold, np.where(only, most, np.inf)))
    return tuple(out)


def _safe_limits(bags: Sequence[Bag], walkers: Sequence[Walker],
                 foods: Mapping[str, Food]) -> list[tuple[Floats, Floats]]:  # fmt: skip
    out = []
    for walker in walkers:
        if walker.avoids:
            safe = np.array([safe_kcal(b, walker, foods) for b in bags])
            keep = KEEP_SAFE * planned_kcal(bags, walker.id, foods)
            out.append((safe, np.full(len(walkers), _cap(float(safe.sum()), keep, len(walkers)))))
    return out


def _cap(whole: float, keep: float, walkers: int) -> float:
    """The most of an amount on one back so that the rest keeps enough; never below an even part
    and a tenth, for less cannot be asked of everyone at once."""
    return max(whole - keep, 1.1 * whole / walkers)


def losses(leg: int, bags: Sequence[Bag], walkers: Sequence[Walker], foods: Mapping[str, Food],
           heat: Heat) -> tuple[Loss, ...]:  # fmt: skip
    """What is left of one leg's food, as packed, when each walker's pack is lost; the worst first
    by its lowest share is marked."""
    if len(walkers) < 2 or not bags:
        return ()
    found = [_loss(leg, bags, w, walkers, foods, heat) for w in walkers]
    worst = min(range(len(found)), key=lambda i: (_badness(found[i]), i))
    return tuple(replace(loss, worst=i == worst) for i, loss in enumerate(found))


def _badness(loss: Loss) -> float:
    """The lowest of the shares left; without heat only cold food counts."""
    usable = loss.energy_share if loss.heat else loss.flameless_share
    return min([usable, *loss.safe_share.values()])


def _loss(leg: int, bags: Sequence[Bag], lost: Walker, walkers: Sequence[Walker],
          foods: Mapping[str, Food], heat: Heat) -> Loss:  # fmt: skip
    left = [b for b in bags if b.carrier != lost.id]
    whole = sum(energy_kcal(b, foods) for b in bags) or 1.0
    return Loss(
        leg=leg, walker=lost.id, heat=heat.without(lost.id),
        energy_share=sum(energy_kcal(b, foods) for b in left) / whole,
        flameless_share=sum(flameless_kcal(b, foods) for b in left) / whole,
        safe_share={
            w.id: sum(safe_kcal(b, w, foods) for b in left)
            / (planned_kcal(bags, w.id, foods) or 1.0)
            for w in walkers if w.avoids
        },
    )  # fmt: skip
