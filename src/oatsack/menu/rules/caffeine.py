"""Caffeine by habit: enough against the second day's headache, not far more; soft."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, day_terms
from oatsack.menu.rules.soft import wish_at_least, wish_at_most

ADULT_FROM = 18.0


def rows(frame: Frame) -> None:
    """Per day: low share x habit <= caffeine <= a daily ceiling or the habit; who named no habit
    has a ceiling only where pregnant, nursing or young (Source: EfsaCaffeine2015), and where there
    is none, coffee or tea in the hot drinks."""
    grams = RULE.value(frame, "grams_per_mg")
    for walker, days in frame.days.items():
        ceiling = ceiling_mg(frame, walker)
        for day in days:
            if ceiling is not None:
                most = day_terms(frame, walker, day, lambda f: f.caffeine_high_mg)
                wish_at_most(
                    frame, f"caffeine/high/{walker}/{day}", most, high=ceiling, grams=grams
                )
            if _has_drinks(frame, walker, day):
                least = day_terms(frame, walker, day, lambda f: f.caffeine_low_mg)
                low = floor_mg(frame, walker, day)
                wish_at_least(frame, f"caffeine/low/{walker}/{day}", least, low=low, grams=grams)


def floor_mg(frame: Frame, walker: str, day: int) -> float:
    """Least caffeine wished for a day [mg]: a share of the habit; where nobody named one, that of a
    cup of tea for every hot drink, for half the walkers of the world would miss it on the second
    day and do not think of saying so. Nothing where a ceiling was set for the walker's sake."""
    habit = frame.walkers[walker].caffeine_mg_day
    if habit is not None:
        return RULE.value(frame, "low_share") * habit
    if ceiling_mg(frame, walker) is not None:
        return 0.0
    cups = frame.request.hot_drinks.get(walker, {}).get(day, 0.0)
    return RULE.value(frame, "unsaid_mg_per_cup") * cups


def ceiling_mg(frame: Frame, walker: str) -> float | None:
    """Most caffeine wished for a day [mg]; None where nothing is known that asks for a ceiling."""
    one = frame.walkers[walker]
    if one.caffeine_mg_day == 0:
        return RULE.value(frame, "none_mg_day")
    if one.age_years is not None and one.age_years < ADULT_FROM:
        return RULE.value(frame, "young_mg_per_kg") * one.mass_kg
    if one.condition in ("pregnant", "nursing"):
        return RULE.value(frame, "pregnant_mg_day")
    if one.caffeine_mg_day is None:
        return None
    return max(RULE.value(frame, "high_mg_day"), one.caffeine_mg_day)


def _has_drinks(frame: Frame, walker: str, day: int) -> bool:
    return (walker, day, "drinks") in frame.slots


RULE = Rule(
    name="caffeine",
    help="Caffeine close to the habit, every day.",
    rows=rows,
    gives_in="mg",
    in_trip=("walkers.caffeine",),
    hard=False,
    settings=(
        Setting(name="low_share", unit="share", default=0.7, help="of the habit, at least"),
        Setting(name="unsaid_mg_per_cup", unit="mg", default=40.0, help="where no habit is named"),
        Setting(name="high_mg_day", unit="mg", default=400.0, help="wish at most"),
        Setting(name="none_mg_day", unit="mg", default=30.0, help="for who wants none"),
        Setting(name="pregnant_mg_day", unit="mg", default=200.0, help="pregnant or nursing"),
        Setting(name="young_mg_per_kg", unit="mg/kg", default=3.0, help="under 18, a day"),
        Setting(name="grams_per_mg", unit="g/mg", default=0.4, help="cost of a mg off"),
    ),
)
