"""Seeded parties for the panel: who goes, what they eat and avoid, how long, how hungry, how warm.

Nothing is asked that a walker would have to know of menus: every plan made of these is a default
plan from the bundled larder, with the kitchen's real prices. Everything is invented.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache

from oatsack.files.larder import bundled
from oatsack.larder.plausible import admitted
from oatsack.provision.asking import kitchen_prices
from oatsack.values.food import Food
from oatsack.values.menu import MenuRequest
from oatsack.values.trip import Rules
from oatsack.values.walker import Avoid, Walker
from support.menus import days, request, walker

AVOIDED = {
    "anything": (), "vegetarian": (), "vegan": (),
    "gluten-free": ("gluten", "wheat"), "nut-free": ("tree_nut", "peanut"),
    "lactose-free": ("milk",),
}  # fmt: skip
"""What a kind of eater keeps from; the first three are diets."""
KINDS = tuple(AVOIDED)
HUNGERS = {"light": 32.0, "usual": 39.0, "hungry": 46.0}
"""Energy of a full day for each kilogram of the eater [kcal/kg]."""
SIZES = (1, 2, 4)


@dataclass(frozen=True, slots=True)
class Party:
    """One question, and in a few words what it is."""

    title: str
    request: MenuRequest


@cache
def larder() -> tuple[Food, ...]:
    """The bundled larder, as plans draw on it."""
    return tuple(admitted(bundled())[0])


def party(seed: int, *, kinds: Sequence[str] = KINDS) -> Party:
    """The party of this number: kinds of eaters, sizes and hungers in turn, the rest by dice."""
    dice = random.Random(f"party {seed}")
    kind, hunger = kinds[seed % len(kinds)], dice.choice(tuple(HUNGERS))
    size, count = SIZES[seed // len(kinds) % len(SIZES)], dice.randint(2, 9)
    if size == 4:
        count = min(count, 3)
    eaters = [_walker(n, kind if n == 0 else dice.choice(("anything", kind)), dice)
              for n in range(size)]  # fmt: skip
    warm = float(dice.choice((4, 12, 18, 24, 30)))
    hours = dice.choice((4.0, 6.0, 8.0))
    asked = request(
        larder(), eaters, count=count, need=1.0, begin=dice.choice((7, 10, 15)),
        end=dice.choice((11, 15, 20)), rules=Rules(cook_midday=dice.random() < 0.15),
        temperatures_c={d + 1: warm for d in range(count)},
        walking_h={w.id: {d + 1: hours for d in range(count)} for w in eaters},
    )  # fmt: skip
    target = {w.id: {d: share * HUNGERS[hunger] * w.mass_kg / 0.85
                     for d, share in asked.target_kcal[w.id].items()} for w in eaters}  # fmt: skip
    prices = kitchen_prices(asked.foods, days(count), asked.kit)
    title = f"{seed}: {size} x {count} days, {kind}, {hunger}, {warm:.0f} degrees"
    return Party(title, replace(asked, target_kcal=target, prices=prices))


def _walker(n: int, kind: str, dice: random.Random) -> Walker:
    avoids = tuple(Avoid(allergen=name) for name in AVOIDED[kind])
    diet = kind if kind in ("vegan", "vegetarian") else "anything"
    return walker(("anna", "ben", "cleo", "dov")[n], float(dice.randint(52, 92)), eats=diet,
                  avoids=avoids)  # fmt: skip
