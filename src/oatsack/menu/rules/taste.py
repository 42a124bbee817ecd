"""Sweet against salty: two in five of what is nibbled are salty, no lunch is only sweet; soft."""

from __future__ import annotations

from collections.abc import Mapping

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, Term
from oatsack.menu.rules.soft import wish_at_least
from oatsack.values.food import Food

COUNTS_AS_SALTY: Mapping[str, float] = {"salty": 1.0, "neutral": 0.4, "sweet": 0.0}
"""Neutral food takes no side: it counts as the wished share itself."""


def rows(frame: Frame) -> None:
    """Per walker: sum of (salty - share) x energy on the move >= 0, soft, in kcal."""
    share = RULE.value(frame, "salty_share")
    for walker, days in frame.days.items():
        terms: list[Term] = []
        for day in days:
            moving = frame.options.get((walker, day, "move"), [])
            terms += [(o.eat, _weight(o.food, share) * o.facts.kcal) for o in moving]
        terms += [
            (b.column, _weight(b.bag.food, share) * b.facts.kcal * b.bag.food.doses_per_pack)
            for b in frame.bags.get(walker, ())
        ]
        grams = RULE.value(frame, "grams_per_kcal")
        wish_at_least(frame, f"taste/{walker}", terms, low=1e-6, grams=grams)
    _lunches(frame)


def _lunches(frame: Frame) -> None:
    """Per lunch: something that is not sweet, soft."""
    grams = RULE.value(frame, "sweet_lunch_grams")
    for key, options in frame.options.items():
        if key[2] != "lunch" or key in frame.given.whole:
            continue
        other = [(o.use, 1.0) for o in options if o.use >= 0 and o.food.taste != "sweet"]
        if other:
            name = f"taste/lunch/{key[0]}/{key[1]}"
            wish_at_least(frame, name, other, low=1.0, grams=grams)


def _weight(food: Food, share: float) -> float:
    return (share if food.taste == "neutral" else COUNTS_AS_SALTY[food.taste]) - share


RULE = Rule(
    name="taste",
    help="Two in five of the things nibbled are salty.",
    rows=rows,
    hard=False,
    settings=(
        Setting(name="salty_share", unit="share", default=0.4, help="of the energy nibbled"),
        Setting(name="grams_per_kcal", unit="g/kcal", default=0.1, help="cost of a kcal short"),
        Setting(name="sweet_lunch_grams", unit="g", default=15.0, help="cost of a sweet lunch"),
    ),
)
