"""Classes of food: what energy they can hold, how bulky they are, and how high a blank may be.

A larder gives each food a category; a few kinds inside a category are told by words of the name,
because "breakfast" holds oats and whole egg powder alike. The tables are data: bounds of energy
per 100 g, loose bulk density, and the high value that stands for a blank against a ceiling (C2).

The bounds are ours: the span of the Usda2015 rows of the class, widened for foods that the table
lacks (fresh fruit, ready meals, light spreads). The high values lie at or near the top of the rows
of the class; single extreme foods (salt, bouillon, tea powder) have a kind of their own. Loose
densities are medians of Usda2015 household measures where there are some, else ours.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import field
from functools import lru_cache
from typing import Final

from oatsack.values.food import Food
from oatsack.values.frozen import dataclass

NUTRIENTS: Final = (
    "protein_g", "fat_g", "carb_g", "sugars_g", "fibre_g", "polyols_g",
    "sodium_mg", "potassium_mg", "caffeine_mg",
)  # fmt: skip
ALL_FAT_KCAL: Final = 902.0
"""No food holds more per 100 g: pure fat at the highest specific factor (MerrillWatt1973)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodClass:
    """One category. Energies and high values stand per 100 g as sold."""

    category: str
    low_kcal: float
    high_kcal: float
    loose_g_ml: float
    high: Mapping[str, float]
    source: str = "ours, after Usda2015"


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodKind:
    """A narrower kind, told by a word of the name (or several) within some categories."""

    kind: str
    words: tuple[frozenset[str], ...]
    """Any of these sets, of which all words must stand in the name."""
    categories: frozenset[str]
    low_kcal: float
    high_kcal: float
    high: Mapping[str, float] = field(default_factory=dict)
    source: str = "ours, after Usda2015"


def _class(category: str, kcal: tuple[float, float], loose: float, *high: float) -> FoodClass:
    return FoodClass(
        category=category,
        low_kcal=kcal[0],
        high_kcal=kcal[1],
        loose_g_ml=loose,
        high=dict(zip(NUTRIENTS, high, strict=True)),
    )


CLASSES: Final[Mapping[str, FoodClass]] = {
    row.category: row
    for row in (
        #                  kcal per 100 g g/ml  prot fat carb sug fibre poly  sodium potass  caff
        _class("breakfast", (290, 615), 0.45, 50, 45, 80, 66, 12, 5, 1100, 950, 25),
        _class("grain", (300, 490), 0.50, 25, 18, 85, 12, 15, 1, 1860, 1100, 0),
        _class("bread", (200, 545), 0.28, 15, 28, 83, 25, 17, 5, 1200, 450, 0),
        _class("snack", (280, 620), 0.60, 35, 40, 85, 55, 25, 30, 1600, 1200, 20),
        _class("nut", (290, 765), 0.58, 53, 77, 66, 55, 35, 5, 800, 1300, 15),
        _class("fruit", (20, 565), 0.65, 15, 35, 90, 85, 22, 1, 320, 1700, 0),
        _class("protein", (55, 660), 0.75, 90, 60, 65, 30, 26, 5, 3000, 1950, 0),
        _class("dairy", (30, 560), 0.95, 40, 45, 62, 55, 2, 1, 1900, 1750, 0),
        _class("fat", (250, ALL_FAT_KCAL), 0.92, 2, 100, 10, 5, 1, 1, 900, 50, 0),
        _class("sweet", (150, 625), 0.80, 15, 45, 100, 100, 12, 90, 500, 800, 90),
        _class("drink", (0, 545), 0.55, 40, 35, 99, 96, 37, 10, 1700, 1600, 240),
        _class("soup", (15, 480), 0.50, 25, 25, 80, 25, 12, 2, 8100, 1300, 0),
        _class("vegetable", (10, 480), 0.23, 30, 20, 84, 45, 30, 1, 600, 3450, 0),
        _class("condiment", (0, 720), 1.00, 30, 80, 75, 60, 35, 2, 5500, 2000, 0),
        _class("meal", (60, 650), 0.30, 45, 46, 80, 20, 15, 2, 2400, 1100, 0),
        _class("small", (0, 420), 0.50, 15, 10, 100, 100, 10, 90, 1300, 600, 60),
        _class("other", (0, ALL_FAT_KCAL), 0.50, 60, 60, 90, 70, 30, 30, 2500, 1500, 100),
    )
}  # fmt: skip
CATEGORIES: Final = tuple(CLASSES)


def _kind(
    kind: str, words: str, categories: str, kcal: tuple[float, float], **high: float
) -> FoodKind:
    sets = tuple(frozenset(part.split()) for part in words.split(","))
    return FoodKind(
        kind=kind,
        words=sets,
        categories=frozenset(categories.split()),
        low_kcal=kcal[0],
        high_kcal=kcal[1],
        high=high,
    )


KINDS: Final[tuple[FoodKind, ...]] = (
    _kind("oats", "oat, oats, oatmeal, porridge", "breakfast grain other", (330, 445), fat_g=15.0,
          protein_g=18.0),
    _kind("dried meat", "jerky, biltong", "protein snack other", (200, 460), sodium_mg=2800.0),
    _kind("fried fruit", "banana chips, fried", "fruit snack other", (420, 565)),
    _kind("dried fruit", "dried, raisins, prunes, dates, sultanas, leather", "fruit", (195, 400),
          fat_g=4.0),
    _kind("oil", "oil, ghee", "fat", (810, ALL_FAT_KCAL), sodium_mg=5.0),
    _kind("butter", "butter", "fat dairy", (500, 780)),
    _kind("milk powder", "milk powder", "dairy drink other", (320, 525), sodium_mg=600.0),
    _kind("dry meal", "freeze, dehydrated, dried, dry", "meal", (320, 650)),
    _kind("pasta and rice", "pasta, rice, couscous, bulgur, polenta, spaghetti, macaroni",
          "grain other", (310, 450)),
    _kind("bouillon", "bouillon, stock", "soup condiment small other", (50, 450),
          sodium_mg=24500.0),
    _kind("salt", "salt", "condiment small", (0, 10), sodium_mg=39400.0),
    _kind("salts", "electrolyte, rehydration", "drink small other", (0, 420), sodium_mg=9000.0,
          potassium_mg=4500.0, caffeine_mg=0.0),
    _kind("decaffeinated", "decaf, decaffeinated", "drink small other", (0, 420),
          caffeine_mg=200.0, potassium_mg=3700.0),
    _kind("mixed coffee", "coffee milk, coffee sugar, cappuccino, mocha", "drink small other",
          (100, 545), caffeine_mg=320.0),
    _kind("coffee", "coffee, espresso", "drink small other", (0, 420), caffeine_mg=3300.0,
          potassium_mg=3700.0),
    _kind("sweet tea", "sweet tea", "drink small other", (0, 420), caffeine_mg=60.0),
    _kind("tea", "tea", "drink small other", (0, 420), caffeine_mg=5800.0, potassium_mg=6100.0),
    _kind("pudding", "pudding", "sweet", (300, 470), sodium_mg=1800.0),
    _kind("chocolate", "chocolate", "sweet", (430, 625)),
    _kind("granola", "granola, muesli", "breakfast other", (340, 560)),
    _kind("cheese", "cheese, cheddar, gouda, swiss, parmesan", "dairy", (150, 460)),
    _kind("dry sausage", "salami, pepperoni, sausage, chorizo, beef sticks", "protein", (250, 600)),
    _kind("protein powder", "protein powder, whey", "protein drink", (300, 430)),
    _kind("dry pulses", "lentils, split peas, instant beans, instant hummus, textured",
          "protein", (280, 500)),
    _kind("freeze-dried meat", "freeze, dried tofu", "protein", (330, 640)),
    _kind("dried vegetables", "dried, freeze, powder, flakes", "vegetable", (220, 420)),
    _kind("dry soup", "mix, sachets, instant, dry, dried", "soup", (250, 430)),
    _kind("drink powder", "powder, mix, cocoa, sticks, sachets", "drink", (200, 545)),
)  # fmt: skip
"""In order: the first that fits counts."""


def class_of(food: Food) -> FoodClass:
    """The class of a food; an unknown category counts as other."""
    return CLASSES.get(food.category, CLASSES["other"])


def kind_of(food: Food) -> FoodKind | None:
    """The narrower kind that the words of a food's name and id tell, if any."""
    return _kind_named(food.category, f"{food.id} {food.name}".lower())


@lru_cache(maxsize=4096)
def _kind_named(category: str, text: str) -> FoodKind | None:
    words = frozenset(re.findall(r"[a-z]+", text))
    for kind in KINDS:
        if category in kind.categories and any(some <= words for some in kind.words):
            return kind
    return None


def energy_bounds(food: Food) -> tuple[float, float]:
    """Least and most energy that such a food holds [kcal per 100 g]."""
    found = kind_of(food) or class_of(food)
    return found.low_kcal, found.high_kcal


def high_of(food: Food, nutrient: str) -> float:
    """What a blank counts as against a ceiling (C2), per 100 g, unit as in the name."""
    kind = kind_of(food)
    if nutrient == "energy_kcal":
        return energy_bounds(food)[1]
    if kind and nutrient in kind.high:
        return kind.high[nutrient]
    return class_of(food).high[nutrient]


def pack_ml_of(food: Food) -> tuple[float, bool]:
    """Volume of one pack [ml], and whether it is a guess from the class's loose bulk density."""
    if food.pack_ml is not None:
        return food.pack_ml, False
    return food.pack_g / class_of(food).loose_g_ml, True
