"""Carbohydrate per walking hour: what is eaten between breakfast and dinner feeds the legs; soft.

Source: Thomas2016 (30 to 60 g an hour from about one hour of endurance exercise on); walking with a
pack is at the low end of it. A light eater is never asked for a bag of sugar: the wish stops at a
share of what these meals bring.
"""

from __future__ import annotations

from oatsack.menu.facts import Facts
from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, Term, day_terms
from oatsack.menu.rules.soft import wish_at_least
from oatsack.values.food import Meal

ON_THE_WAY: tuple[Meal, ...] = ("lunch", "move")
KCAL_PER_G = 4.0


def rows(frame: Frame) -> None:
    """Per day: carbohydrate of lunch and nibbles >= g an hour x hours walked, at most a share of
    those meals' usual energy; fibre feeds nobody and a blank brings nothing (C2)."""
    grams = RULE.value(frame, "grams_per_g")
    for walker, days in frame.days.items():
        for day in days:
            terms = [t for meal in ON_THE_WAY for t in _terms(frame, walker, day, meal)]
            low = wished_g(frame, walker, day)
            wish_at_least(frame, f"carbs/{walker}/{day}", terms, low=low, grams=grams)


def wished_g(frame: Frame, walker: str, day: int) -> float:
    """Carbohydrate wished for on the way on a day [g]."""
    hours = frame.request.walking_h.get(walker, {}).get(day, 0.0)
    slots = [frame.slots[key] for key in frame.day_keys[(walker, day)] if key[2] in ON_THE_WAY]
    usual = sum(frame.meal_kcal(slot) for slot in slots)
    most = RULE.value(frame, "most_share") * usual / KCAL_PER_G
    return min(RULE.value(frame, "g_per_hour") * hours, most)


def _terms(frame: Frame, walker: str, day: int, meal: Meal) -> list[Term]:
    def carb(facts: Facts) -> float:
        return facts.carb_low_g

    return day_terms(frame, walker, day, carb, meal)


RULE = Rule(
    name="carbs",
    help="Enough carbohydrate for every hour walked.",
    rows=rows,
    gives_in="g",
    hard=False,
    settings=(
        Setting(name="g_per_hour", unit="g/h", default=30.0, help="wish while walking"),
        Setting(
            name="most_share", unit="share", default=0.55, help="of lunch and nibbles, at most"
        ),
        Setting(name="grams_per_g", unit="g/g", default=0.5, help="cost of a gram short"),
    ),
)
