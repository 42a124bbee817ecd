"""How much of a food makes a sensible portion: least and most grams at one meal, by food class.

Source: common practice (dinner starch 60-115 g, oats 50-75 g, muesli 100-130 g, cheese and dry
sausage 40-50 g, nut butter 35-45 g, bread and crackers 60-100 g, dried fruit and chocolate 25-50 g,
oil 10-15 ml and up to 30 ml a day). The walker's own picks are never cut to these.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from oatsack.values.food import Food, Meal

GRAMS: Mapping[str, tuple[float, float]] = {
    "nut": (20.0, 60.0),
    "grain": (60.0, 120.0),
    "snack": (20.0, 90.0),
    "fruit": (20.0, 60.0),
    "sweet": (15.0, 60.0),
    "protein": (25.0, 80.0),
    "dairy": (10.0, 50.0),
    "breakfast": (40.0, 120.0),
    "bread": (40.0, 100.0),
    "drink": (1.0, 60.0),
    "meal": (60.0, 260.0),
    "vegetable": (5.0, 30.0),
    "condiment": (3.0, 30.0),
    "fat": (5.0, 15.0),
    "soup": (15.0, 50.0),
    "small": (0.0, 30.0),
}
"""Food class -> least and most grams of one portion."""

BAG_MOST_G: Mapping[str, float] = {"sweet": 50.0, "fruit": 60.0, "protein": 60.0, "nut": 100.0}
"""Food class -> most grams a day from one open bag: chocolate 25-50 g, dried fruit 25-50 g (common
practice); of nuts a good bag (550 kcal a day)."""
BAG_ELSE_G = 100.0
FLAVOURING_G = (5.0, 30.0)
"""A drink mixed on the way."""
TOPPING_MOST_G = 45.0
"""Most of a spread, sauce or cheese on one meal."""
DRIED_PROTEIN_MOST_G = 40.0
"""Most of dried meat or soy in one pot portion: it was three times as much."""
POWDER_MOST_G = 20.0
"""Most of dried vegetables that are a sauce: two heaped spoons of tomato powder are a cup; ours."""
MOST_SLICES = 6
"""Most slices, tortillas or handfuls of bread at one meal (our choice): eleven crispbreads weigh no
more than two tortillas, but nobody chews them."""
ELSEWHERE = (15.0, 100.0)


def sensible_g(food: Food, meal: Meal) -> tuple[float, float]:
    """Least and most grams of this food at this meal."""
    least, most = GRAMS.get(food.category, ELSEWHERE)
    if food.role == "drink" and meal == "move":
        return FLAVOURING_G
    if food.role == "side" and food.category == "protein":
        return least, min(most, DRIED_PROTEIN_MOST_G)
    if food.role == "topping":
        powder = food.category == "vegetable"
        return min(least, 10.0), min(most, POWDER_MOST_G if powder else TOPPING_MOST_G)
    if food.role == "main" and meal in ("dinner", "breakfast"):
        return max(least, 40.0), max(most, 120.0)
    return least, most


def bag_most_g(food: Food) -> float:
    """Most grams a day that one nibbles from an open bag of this food."""
    return BAG_MOST_G.get(food.category, BAG_ELSE_G)


def doses_between(food: Food, meal: Meal, most_kcal: float) -> tuple[int, int]:
    """Least and most whole doses at one meal that is to bring at most `most_kcal`.

    One dose is always possible: a pouch is as large as it is.
    """
    least_g, most_g = sensible_g(food, meal)
    most = math.floor(most_g / food.dose_g + 1e-9)
    if food.dose_kcal > 0:
        most = min(most, math.floor(most_kcal / food.dose_kcal))
    if food.category == "bread":
        most = min(most, MOST_SLICES)
    most = max(1, most)
    least = min(most, max(1, math.ceil(least_g / food.dose_g - 1e-9)))
    return least, most
