"""Finding foods by words: parts of names, ids, categories, allergens, with room for typing errors.

A plain word matches the start of a word of the name or id, the category, the role, a meal, or an
allergen that the food contains. ``free:milk`` asks for foods that are free of milk (unknown does
not count, C10), ``contains:milk`` for those that contain or may contain it or do not say, ``vegan``
and ``vegetarian`` for the diet. All words must match, the best match comes first, and only if
nothing matches are words taken as misspelt.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Final

from oatsack.values.food import ALLERGENS, Food

MISS: Final = 99
_DIETS: Final = {
    "vegan": ("vegan",),
    "vegetarian": ("vegan", "vegetarian"),
    "pescetarian": ("vegan", "vegetarian", "fish"),
}


def find(foods: Iterable[Food], words: Sequence[str]) -> tuple[Food, ...]:
    """The foods that all words match, best first; all foods for no words."""
    foods = tuple(foods)
    asked = [word for text in words for word in re.split(r"[\s,]+", text.lower()) if word]
    return _matching(foods, asked, strict=True) or _matching(foods, asked, strict=False)


def _matching(foods: Sequence[Food], asked: Sequence[str], *, strict: bool) -> tuple[Food, ...]:
    scored = [
        (sum(score(food, word, strict=strict) for word in asked), place, food)
        for place, food in enumerate(foods)
    ]
    return tuple(food for total, _, food in sorted(scored, key=lambda s: s[:2]) if total < MISS)


def score(food: Food, word: str, *, strict: bool) -> int:
    """How badly a word matches: 0 exact, 1 start, 2 a class, 3 and up misspelt, MISS not."""
    kind, colon, name = word.partition(":")
    if colon and kind in ("free", "contains", "category", "diet"):
        return _asked(food, kind, name)
    if word in _DIETS:
        return 2 if food.diet in _DIETS[word] else MISS
    names = words_of(food)
    if word in names or word == food.id:
        return 0
    if any(name.startswith(word) for name in names) or food.id.startswith(word):
        return 1
    if not classes_of(food).isdisjoint((word, word.removesuffix("s"))):
        return 2
    return MISS if strict else min((_misspelt(word, name) for name in names), default=MISS)


def _asked(food: Food, kind: str, name: str) -> int:
    """``free:milk`` and the like. Unknown allergens fail closed (C10)."""
    if kind == "category":
        return 0 if food.category == name else MISS
    if kind == "diet":
        return 0 if food.diet in _DIETS.get(name, (name,)) else MISS
    if name not in ALLERGENS:
        return MISS
    free = food.state(name) == "free"
    return 0 if free == (kind == "free") else MISS


def words_of(food: Food) -> frozenset[str]:
    """The words of a food's name and id."""
    return frozenset(re.findall(r"\w+", f"{food.name} {food.id}".lower()))


def classes_of(food: Food) -> frozenset[str]:
    """Category, role, carry, meals and the allergens it contains."""
    held = (name for name in ALLERGENS if food.state(name) == "contains")
    return frozenset({food.category, food.role, food.carry, *food.meals, *held})


def _misspelt(word: str, name: str) -> int:
    """3 for one slip of the finger, 4 for two in a long word, MISS beyond."""
    allowed = 0 if len(word) < 4 else 1 if len(word) < 7 else 2
    if allowed == 0 or not set(word[:2]) & set(name[:2]):
        return MISS
    best = min(distance(word, name[: len(word) + shift]) for shift in (-1, 0, 1))
    return 2 + best if 0 < best <= allowed else MISS


def distance(one: str, other: str) -> int:
    """Letters to add, drop, change or swap with the next, to make one word of the other.

    Damerau and Levenshtein's distance, in the form that moves each letter at most once.
    """
    rows = [list(range(len(other) + 1))]
    for i, left in enumerate(one, 1):
        row = [i]
        for j, right in enumerate(other, 1):
            cost = min(row[j - 1] + 1, rows[-1][j] + 1, rows[-1][j - 1] + (left != right))
            if i > 1 and j > 1 and left == other[j - 2] and one[i - 2] == right:
                cost = min(cost, rows[-2][j - 2] + 1)
            row.append(cost)
        rows.append(row)
    return rows[-1][-1]
