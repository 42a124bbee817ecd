"""The rules of a menu, one file each, in the order in which their rows are written.

To add one, write a file with a `RULE` like its neighbours and name it here. Gates (diet, allergens,
flame, keeping) stand in `menu/allowed`: they forbid a food at a meal and need no row.
"""

from __future__ import annotations

from oatsack.menu.rules import (
    caffeine,
    carbs,
    container,
    doses,
    drinks,
    energy_day,
    energy_meal,
    energy_trip,
    fat,
    fibre,
    items,
    mains,
    minutes,
    packs,
    plants,
    pot,
    protein,
    sodium,
    taste,
    toppings,
    variety,
    warm,
)
from oatsack.menu.rules.base import Rule, Setting

RULES: tuple[Rule, ...] = (
    doses.RULE, mains.RULE, toppings.RULE, items.RULE, energy_day.RULE, energy_trip.RULE,
    energy_meal.RULE, protein.RULE, fibre.RULE, fat.RULE, carbs.RULE, plants.RULE,
    sodium.RULE, caffeine.RULE, taste.RULE, variety.RULE, warm.RULE, drinks.RULE,
    minutes.RULE, pot.RULE, container.RULE, packs.RULE,
)  # fmt: skip

__all__ = ["RULES", "Rule", "Setting"]
