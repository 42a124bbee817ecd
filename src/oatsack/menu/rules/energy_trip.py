"""The energy of the whole trip: a closer window than the day's."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, day_terms, fixed_sum, trip_terms
from oatsack.menu.rules.energy_day import day_window


def rows(frame: Frame) -> None:
    """(1 - w) sum T <= energy <= (1 + w) sum T, opened as far as the days' own picks force it."""
    width = frame.request.rules.trip_window
    for walker, days in frame.days.items():
        total = sum(frame.target(walker, day) for day in days)
        terms = trip_terms(frame, walker, lambda f: f.kcal)
        if total <= 0 or (terms and _all_picked(frame, walker)):
            continue
        windows = [_reach(frame, walker, day) for day in days]
        low = min((1.0 - width) * total, sum(high for _, high in windows))
        high = max((1.0 + width) * total, sum(low for low, _ in windows))
        frame.builder.row(f"energy-trip/{walker}", terms, low=low, high=high)


def _all_picked(frame: Frame, walker: str) -> bool:
    columns = [c for c, _ in trip_terms(frame, walker, lambda f: f.kcal)]
    return all(frame.builder.low[c] == frame.builder.high[c] for c in columns)


def _reach(frame: Frame, walker: str, day: int) -> tuple[float, float]:
    """Least and most that a day can bring, picks given; a day of picks alone brings just those."""
    terms = day_terms(frame, walker, day, lambda f: f.kcal)
    picked = fixed_sum(frame, terms)
    if all(frame.builder.low[c] == frame.builder.high[c] for c, _ in terms):
        return picked, picked
    low, high = day_window(frame, walker, day)
    return max(low, picked), high


RULE = Rule(
    name="energy-trip",
    help="The energy of the whole trip stays within a window around the sum of the days.",
    rows=rows,
    gives_in="kcal",
    in_trip=("rules.trip_window",),
)
