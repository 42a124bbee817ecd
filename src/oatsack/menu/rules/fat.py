"""Not too much of the trip's energy from fat; soft, but dear: it keeps from oil and couscous."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, trip_terms
from oatsack.menu.rules.soft import wish_at_most

KCAL_PER_G = 9.0


def rows(frame: Frame) -> None:
    """Sum of (9 fat - ceiling x energy) <= 0, soft; a blank counts as the class's high value."""
    share = frame.request.rules.fat_ceiling
    for walker in frame.days:
        terms = trip_terms(frame, walker, lambda f: KCAL_PER_G * f.fat_high_g - share * f.kcal)
        grams = RULE.value(frame, "grams_per_kcal")
        wish_at_most(frame, f"fat/{walker}", terms, high=0.0, grams=grams)


RULE = Rule(
    name="fat",
    help="At most so much of the trip's energy from fat.",
    rows=rows,
    hard=False,
    settings=(
        Setting(name="grams_per_kcal", unit="g/kcal", default=0.6, help="cost of a kcal over"),
    ),
)
