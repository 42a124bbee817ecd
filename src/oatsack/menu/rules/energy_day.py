"""The energy of each day: within a window around the walker's number, and close to it."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Rule, Setting, day_terms, fixed_sum


def rows(frame: Frame) -> None:
    """Hard: (1 - w) T <= energy <= (1 + w) T. Soft: a miss beyond the free band costs grams.

    Picks above the window move its upper end to what was picked: the walker's word stands.
    """
    for walker, days in frame.days.items():
        for day in days:
            target = frame.target(walker, day)
            terms = day_terms(frame, walker, day, lambda f: f.kcal)
            settled = terms and not _is_open(frame, [c for c, _ in terms])
            if target <= 0 or settled:
                continue  # without terms nothing suits, and the row says so
            low, high = day_window(frame, walker, day)
            frame.builder.row(f"energy-day/{walker}/{day}", terms, low=low, high=high)
            _close(frame, walker, day, target)


def day_window(frame: Frame, walker: str, day: int) -> tuple[float, float]:
    """Least and most energy of a day [kcal], the walker's picks given."""
    width = frame.request.rules.day_window
    target = frame.target(walker, day)
    picked = fixed_sum(frame, day_terms(frame, walker, day, lambda f: f.kcal))
    return (1.0 - width) * target, max((1.0 + width) * target, picked)


def carried(frame: Frame, walker: str, day: int) -> float:
    """Days that a day's food is carried, at least 1."""
    days = [frame.slots[key].carry_days for key in frame.day_keys[(walker, day)]]
    return max([1.0, *days])


def _is_open(frame: Frame, columns: list[int]) -> bool:
    return any(frame.builder.low[c] < frame.builder.high[c] for c in columns)


def _close(frame: Frame, walker: str, day: int, target: float) -> None:
    band = RULE.value(frame, "free_band")
    carry = carried(frame, walker, day)
    cost = RULE.value(frame, "grams_per_kcal") * carry
    under = frame.slack(f"under/{walker}/{day}", cost)
    over = frame.slack(f"over/{walker}/{day}", 0.3 * cost)
    terms = [*day_terms(frame, walker, day, lambda f: f.kcal), (under, 1.0), (over, -1.0)]
    low, high = (1.0 - band) * target, (1.0 + band) * target
    frame.builder.row(f"energy-day/near/{walker}/{day}", terms, low=low, high=high)


RULE = Rule(
    name="energy-day",
    help="The energy of each day stays within a window around the walker's own number.",
    rows=rows,
    gives_in="kcal",
    in_trip=("rules.day_window", "walkers.target"),
    settings=(
        Setting(name="free_band", unit="share", default=0.01, help="miss that costs nothing"),
        Setting(name="grams_per_kcal", unit="g/kcal", default=0.5, help="cost of missing more"),
    ),
)
