"""Not too much of the trip's energy from fat: a quiet wish, and a dear ceiling above it; soft.

Pure mass gives oily, odd menus: the wish keeps a trip near what people eat at home, the ceiling
keeps it from oil and couscous. Source of the wish: Iom2005, 20 to 35 % of the energy; of the
ceiling: common practice, 45 % is what most stomachs bear.
"""

from __future__ import annotations

from collections.abc import Callable

from oatsack.menu.facts import Facts
from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, trip_terms
from oatsack.menu.rules.soft import wish_at_most

KCAL_PER_G = 9.0


def rows(frame: Frame) -> None:
    """Twice: sum of (9 fat - share x energy) <= 0, soft; a blank counts as the class's high value.

    Above the wished share a kcal costs little, above the ceiling as much again as the dear price.
    """
    ceiling = frame.request.rules.fat_ceiling
    wish = min(ceiling, RULE.value(frame, "wish_share"))
    quiet, dear = RULE.value(frame, "wish_grams_per_kcal"), RULE.value(frame, "grams_per_kcal")
    for walker in frame.days:
        for name, share, grams in (("fat/wish", wish, quiet), ("fat", ceiling, dear)):
            terms = trip_terms(frame, walker, _above(share))
            wish_at_most(frame, f"{name}/{walker}", terms, high=0.0, grams=grams)


def _above(share: float) -> Callable[[Facts], float]:
    """Energy from fat above a share of all energy [kcal a dose]."""
    return lambda facts: KCAL_PER_G * facts.fat_high_g - share * facts.kcal


RULE = Rule(
    name="fat",
    help="At most so much of the trip's energy from fat, and rather less.",
    rows=rows,
    gives_in="kcal",
    in_trip=("rules.fat_ceiling",),
    hard=False,
    settings=(
        Setting(name="wish_share", unit="share", default=0.35, help="of the energy, wished"),
        Setting(name="wish_grams_per_kcal", unit="g/kcal", default=0.3, help="cost over the wish"),
        Setting(name="grams_per_kcal", unit="g/kcal", default=0.6, help="cost over the ceiling"),
    ),
)
