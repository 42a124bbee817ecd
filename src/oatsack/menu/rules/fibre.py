"""Fibre over the trip; soft."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, trip_terms
from oatsack.menu.rules.soft import full_days, wish_at_least


def rows(frame: Frame) -> None:
    """Sum of fibre (a blank brings nothing, C2) >= g a day x full days, soft."""
    for walker in frame.days:
        low = RULE.value(frame, "g_per_day") * full_days(frame, walker)
        terms = trip_terms(frame, walker, lambda f: f.fibre_low_g)
        grams = RULE.value(frame, "grams_per_g")
        wish_at_least(frame, f"fibre/{walker}", terms, low=low, grams=grams)


RULE = Rule(
    name="fibre",
    help="Enough fibre over the trip.",
    rows=rows,
    gives_in="g",
    hard=False,
    settings=(
        Setting(name="g_per_day", unit="g", default=20.0, help="wish, common practice"),
        Setting(name="grams_per_g", unit="g/g", default=3.0, help="cost of a gram short"),
    ),
)
