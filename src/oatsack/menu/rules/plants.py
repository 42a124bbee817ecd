"""Something from a plant: dried fruit on the way, dried vegetables in the pot; soft.

Source: common practice (25 to 50 g of dried fruit a day, and some vegetables). A mix of nuts and
fruit counts in part.
"""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, Term
from oatsack.menu.rules.soft import full_days, wish_at_least
from oatsack.values.food import Food

VEGETABLE_COUNTS = 1.0
"""A gram of dried vegetables counts as a gram of dried fruit; ours."""
MIX_COUNTS = 0.4
"""Share of fruit in a sweet mix of nuts and fruit (common practice)."""


def rows(frame: Frame) -> None:
    """Sum of grams of dried fruit, and vegetables, of mixes in part >= g a day x days."""
    for walker, days in frame.days.items():
        options = [o for day in days for o in frame.day_options(walker, day)]
        terms: list[Term] = [(o.eat, counts_g(o.food)) for o in options]
        terms += [
            (b.column, counts_g(b.bag.food) * b.bag.food.doses_per_pack)
            for b in frame.bags.get(walker, ())
        ]
        low = RULE.value(frame, "g_per_day") * full_days(frame, walker)
        terms = [term for term in terms if term[1] > 0.0]
        wish_at_least(frame, f"plants/{walker}", terms, low=low,
                      grams=RULE.value(frame, "grams_per_g"))  # fmt: skip


def counts_g(food: Food) -> float:
    """What one dose counts as dried fruit [g]."""
    share = {"fruit": 1.0, "vegetable": VEGETABLE_COUNTS}.get(food.category, 0.0)
    if food.category == "nut" and food.taste == "sweet" and food.role == "snack":
        share = MIX_COUNTS
    return share * food.dose_g


RULE = Rule(
    name="plants",
    help="Some dried fruit or vegetables on most days.",
    rows=rows,
    gives_in="g",
    hard=False,
    settings=(
        Setting(name="g_per_day", unit="g", default=40.0, help="wish, as dried fruit"),
        Setting(name="grams_per_g", unit="g/g", default=0.6, help="cost of a gram short"),
    ),
)
