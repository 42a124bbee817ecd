"""Sodium over the trip between a low and a high wish; soft."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, trip_terms
from oatsack.menu.rules.soft import full_days, wish_at_least, wish_at_most


def rows(frame: Frame) -> None:
    """low x days <= sum of sodium <= high x days, soft at both ends; blanks the safe way (C2)."""
    grams = RULE.value(frame, "grams_per_mg")
    for walker in frame.days:
        days = full_days(frame, walker)
        least = trip_terms(frame, walker, lambda f: f.sodium_low_mg)
        most = trip_terms(frame, walker, lambda f: f.sodium_high_mg)
        low = RULE.value(frame, "low_mg_day") * days
        high = RULE.value(frame, "high_mg_day") * days
        wish_at_least(frame, f"sodium/low/{walker}", least, low=low, grams=grams)
        wish_at_most(frame, f"sodium/high/{walker}", most, high=high, grams=grams)


RULE = Rule(
    name="sodium",
    help="Salt enough for a day of sweat, and not far more.",
    rows=rows,
    gives_in="mg",
    hard=False,
    settings=(
        Setting(name="low_mg_day", unit="mg", default=1500.0, help="wish at least"),
        Setting(name="high_mg_day", unit="mg", default=6000.0, help="wish at most"),
        Setting(name="grams_per_mg", unit="g/mg", default=0.01, help="cost of a mg off"),
    ),
)
