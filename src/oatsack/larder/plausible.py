"""Can this label be true? Doubts about a food, each with the slip that would explain it.

Asked are: the energy against what the class of food can hold and against the macronutrients; the
parts against the whole; doses against the pack; sodium, caffeine and volume against the possible.
A food with a doubt enters no menu until its owner has confirmed it (C2). Nothing is mended here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from oatsack.larder.energy import with_energy
from oatsack.larder.labels import grams_slack
from oatsack.larder.slips import SMALL_PACK_G, class_range, energy_range, grams_over, likely_slip
from oatsack.values.classes import high_of
from oatsack.values.flags import Flag
from oatsack.values.food import Food

PURE_SALT_SODIUM_MG: Final = 39_400.0
"""Sodium in 100 g of salt (22.99 / 58.44), rounded up."""
SALT_PER_SODIUM: Final = 2.5
BULK: Final = frozenset({"meal", "grain", "bread", "breakfast", "nut", "snack", "fruit", "dairy"})
SALTED: Final = frozenset({"snack", "meal", "soup"})
"""What tastes salty in these is salted, so 1 or 2 mg of sodium were grams. Ours."""
DENSEST_G_ML, LOOSEST_G_ML = 1.7, 0.015
"""Sugar syrups reach 1.4 g/ml, packed salt less; puffed crisps and dried pepper fall to 0.03."""


def doubts(food: Food) -> tuple[Flag, ...]:
    """Everything about a food that cannot well be true; empty for a plausible one.

    The flag's key names the slip where one explains it (``larder.kj-as-kcal``), else what is odd.
    """
    return (*_energy(food), *_parts(food), *_doses(food), *_salt(food), *_rest(food))


def admitted(foods: Iterable[Food]) -> tuple[tuple[Food, ...], tuple[Flag, ...]]:
    """The foods that may enter a menu, and flags: why others may not (C2), whose energy is summed.

    An energy that is not stated is worked out from the macronutrients first (C3). Small things that
    are counted may do without one.
    """
    inside: list[Food] = []
    flags: list[Flag] = []
    for stated in foods:
        food, about_energy = with_energy(stated)
        counted = food.role == "small" and food.per_100g.energy_kcal is None
        found = () if food.confirmed else doubts(food)
        flags += (*found, *(() if counted else about_energy))
        if not found and (counted or food.per_100g.energy_kcal is not None):
            inside.append(food)
    return tuple(inside), tuple(flags)


def _flag(food: Food, key: str, **values: float | int | str) -> Flag:
    return Flag(
        key=f"larder.{key}",
        level="caution",
        scope=f"larder/{food.id}",
        values={"food": food.id, **values},
        source="ours, after Usda2015",
    )


def _energy(food: Food) -> Iterator[Flag]:
    """Energy against the class, the macronutrients and the sum of the parts."""
    energy = food.per_100g.energy_kcal
    over = grams_over(food.per_100g, grams_slack(food.dose_g))
    if energy is None:
        if over:
            yield _flag(food, "over-100", over_g=over)
        return
    low, high = class_range(food)
    allowed = energy_range(food)
    odd = _what_is_odd(energy, (low, high), allowed)
    if not odd and not over:
        return
    slip = likely_slip(food)
    span = allowed if odd == "not-its-macros" and allowed else (low, high)
    said = {"energy_kcal": energy, "low_kcal": max(0.0, span[0]), "high_kcal": span[1]}
    if slip or odd:
        yield _flag(food, slip or odd, **said, fits_g=_fitting_g(food, low, high))
    else:
        yield _flag(food, "over-100", over_g=over)


def _what_is_odd(
    energy: float, bounds: tuple[float, float], allowed: tuple[float, float] | None
) -> str:
    if energy > bounds[1]:
        return "energy-high"
    if energy < bounds[0]:
        return "energy-low"
    if allowed and not allowed[0] <= energy <= allowed[1]:
        return "not-its-macros"
    return ""


def _fitting_g(food: Food, low: float, high: float) -> float:
    """The mass of a dose at which its energy would be usual [g]."""
    middle = max(1.0, (max(0.0, low) + high) / 2.0)
    return food.dose_kcal * 100.0 / middle


def _parts(food: Food) -> Iterator[Flag]:
    """Sugars, fibre and polyols are parts of carbohydrate."""
    per = food.per_100g
    if per.carb_g is None:
        return
    slack = 2.0 * grams_slack(food.dose_g) + 0.5
    if per.fibre_g is not None and per.fibre_g > per.carb_g + slack:
        yield _flag(food, "available-as-total", part_g=per.fibre_g, whole_g=per.carb_g)
    for part, value in (("sugars", per.sugars_g), ("polyols", per.polyols_g)):
        if value is not None and value > per.carb_g + slack:
            yield _flag(food, f"{part}-over-carb", part_g=value, whole_g=per.carb_g)


def _doses(food: Food) -> Iterator[Flag]:
    """Doses times dose against the pack, and packs that are ounces."""
    total = food.doses_per_pack * food.dose_g
    said = {"pack_g": food.pack_g, "dose_g": food.dose_g, "doses": food.doses_per_pack}
    if total > 1.05 * food.pack_g + 1.0:
        yield _flag(food, "doses-over-pack", **said)
    elif food.pack_g - total > max(food.dose_g, 0.1 * food.pack_g):
        yield _flag(food, "doses-under-pack", **said)
    small = food.category in BULK and food.role in ("main", "snack")
    if small and food.pack_g < SMALL_PACK_G:
        yield _flag(food, "pack-in-ounces", **said)


def _salt(food: Food) -> Iterator[Flag]:
    """Sodium against the class: salt for sodium, grams for milligrams."""
    sodium = food.per_100g.sodium_mg
    if sodium is None:
        return
    high = high_of(food, "sodium_mg")
    most = min(PURE_SALT_SODIUM_MG, 1.25 * high + 100.0) + 5.0 * 100.0 / food.dose_g
    said = {"sodium_mg": sodium, "high_mg": high}
    if sodium > most:
        slip = "salt-as-sodium" if sodium / SALT_PER_SODIUM <= most else "sodium-high"
        yield _flag(food, slip, **said)
    elif 0.0 < sodium < 3.0 and food.taste == "salty" and food.category in SALTED:
        yield _flag(food, "sodium-in-grams", **said)


def _rest(food: Food) -> Iterator[Flag]:
    """Caffeine against the class, and mass against volume."""
    caffeine, high = food.per_100g.caffeine_mg, high_of(food, "caffeine_mg")
    if caffeine is not None and caffeine > 1.5 * high + 100.0:
        yield _flag(food, "caffeine-high", caffeine_mg=caffeine, high_mg=high)
    if food.pack_ml is not None and not (
        LOOSEST_G_ML <= food.pack_g / max(food.pack_ml, 1e-6) <= DENSEST_G_ML
    ):
        yield _flag(food, "volume-odd", pack_g=food.pack_g, pack_ml=food.pack_ml)
