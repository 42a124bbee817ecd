"""Protein over the trip, by body mass; soft."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, trip_terms
from oatsack.menu.rules.soft import full_days, wish_at_least


def rows(frame: Frame) -> None:
    """Sum of protein (a blank brings nothing, C2) >= g/kg x body mass x full days, soft."""
    per_kg = RULE.value(frame, "g_per_kg")
    for walker in frame.days:
        low = per_kg * frame.walkers[walker].mass_kg * full_days(frame, walker)
        terms = trip_terms(frame, walker, lambda f: f.protein_low_g)
        grams = RULE.value(frame, "grams_per_g")
        wish_at_least(frame, f"protein/{walker}", terms, low=low, grams=grams)


RULE = Rule(
    name="protein",
    help="Enough protein over the trip.",
    rows=rows,
    gives_in="g",
    in_trip=("walkers.mass",),
    hard=False,
    settings=(
        Setting(name="g_per_kg", unit="g/kg a day", default=1.1, help="wish, common practice"),
        Setting(name="grams_per_g", unit="g/g", default=3.0, help="cost of a gram short"),
    ),
)
