"""Sweet against salty: two in five of what is nibbled are salty, in the heat half of it, and no
lunch is only sweet; soft.

Source: common practice (a bag of sweets alone is refused; salt is sweated).
"""

from __future__ import annotations

from collections.abc import Mapping

from oatsack.menu.allowed import HOT_DAY_C
from oatsack.menu.frame import Frame, Option
from oatsack.menu.rules.base import Rule, Setting, Term
from oatsack.menu.rules.soft import wish_at_least
from oatsack.menu.usual import Key
from oatsack.values.food import Food

COUNTS_AS_SALTY: Mapping[str, float] = {"salty": 1.0, "neutral": 0.4, "sweet": 0.0}
"""Neutral food takes no side: it counts as the wished share itself."""


def rows(frame: Frame) -> None:
    """Per walker: sum of (salty - share) x energy on the move >= 0, soft, in kcal."""
    share = salty_share(frame)
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


def salty_share(frame: Frame) -> float:
    """Wished share of salty things: more where the days are hot on the whole."""
    warm = list(frame.request.temperatures_c.values())
    hot = bool(warm) and sum(warm) / len(warm) >= HOT_DAY_C
    return RULE.value(frame, "salty_share_hot" if hot else "salty_share")


def _lunches(frame: Frame) -> None:
    """Per lunch: something that is not sweet, soft. Bread itself takes no side: honey on crispbread
    is a sweet lunch."""
    grams = RULE.value(frame, "sweet_lunch_grams")
    for key in frame.options:
        other = [(o.use, 1.0) for o in hearty(frame, key)]
        if other:
            name = f"taste/lunch/{key[0]}/{key[1]}"
            wish_at_least(frame, name, other, low=1.0, grams=grams)


def hearty(frame: Frame, key: Key) -> list[Option]:
    """What keeps a lunch from being sweet; nothing where that is not asked."""
    if key[2] != "lunch" or key in frame.given.whole:
        return []
    return [o for o in frame.options.get(key, ()) if o.use >= 0 and is_hearty(o.food)]


def is_hearty(food: Food) -> bool:
    """Not sweet, and not the bread under something else."""
    under = food.category == "bread" and food.role == "side"
    return food.taste != "sweet" and not under


def _weight(food: Food, share: float) -> float:
    return (share if food.taste == "neutral" else COUNTS_AS_SALTY[food.taste]) - share


RULE = Rule(
    name="taste",
    help="Two in five of the things nibbled are salty.",
    rows=rows,
    gives_in="kcal",
    hard=False,
    settings=(
        Setting(name="salty_share", unit="share", default=0.4, help="of the energy nibbled"),
        Setting(name="salty_share_hot", unit="share", default=0.5, help="the same on hot walks"),
        Setting(name="grams_per_kcal", unit="g/kcal", default=0.6, help="cost of a kcal short"),
        Setting(name="sweet_lunch_grams", unit="g", default=80.0, help="cost of a sweet lunch"),
    ),
)
