"""Caffeine by habit: enough against the second day's headache, not far more; soft."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, day_terms
from oatsack.menu.rules.soft import wish_at_least, wish_at_most


def rows(frame: Frame) -> None:
    """Per day: low share x habit <= caffeine <= a daily ceiling or the habit; no habit, no row."""
    grams = RULE.value(frame, "grams_per_mg")
    for walker, days in frame.days.items():
        habit = frame.walkers[walker].caffeine_mg_day
        for day in days if habit is not None else ():
            assert habit is not None
            ceiling = max(RULE.value(frame, "high_mg_day"), habit)
            if habit == 0:
                ceiling = RULE.value(frame, "none_mg_day")
            least = day_terms(frame, walker, day, lambda f: f.caffeine_low_mg)
            most = day_terms(frame, walker, day, lambda f: f.caffeine_high_mg)
            low = RULE.value(frame, "low_share") * habit if _has_drinks(frame, walker, day) else 0
            wish_at_least(frame, f"caffeine/low/{walker}/{day}", least, low=low, grams=grams)
            wish_at_most(frame, f"caffeine/high/{walker}/{day}", most, high=ceiling, grams=grams)


def _has_drinks(frame: Frame, walker: str, day: int) -> bool:
    return (walker, day, "drinks") in frame.slots


RULE = Rule(
    name="caffeine",
    help="Caffeine close to the habit, every day.",
    rows=rows,
    hard=False,
    settings=(
        Setting(name="low_share", unit="share", default=0.7, help="of the habit, at least"),
        Setting(name="high_mg_day", unit="mg", default=400.0, help="wish at most"),
        Setting(name="none_mg_day", unit="mg", default=30.0, help="for who wants none"),
        Setting(name="grams_per_mg", unit="g/mg", default=0.2, help="cost of a mg off"),
    ),
)
