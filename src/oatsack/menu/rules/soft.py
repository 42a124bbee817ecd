"""Shared by the soft nutrient rules: day-equivalents, and a wish that may be missed at a price."""

from __future__ import annotations

from oatsack.menu.frame import Frame
from oatsack.menu.rules.base import Term


def full_days(frame: Frame, walker: str) -> float:
    """The trip in full days of eating: part days count by their share of the largest day."""
    targets = [frame.target(walker, day) for day in frame.days.get(walker, ())]
    largest = max(targets, default=0.0)
    return sum(targets) / largest if largest > 0 else 0.0


def wish_at_least(
    frame: Frame, name: str, terms: list[Term], *, low: float, grams: float
) -> None:  # fmt: skip
    """A soft floor: every unit short costs so many grams, carried for the mean time."""
    if low <= 0 or not terms:
        return
    short = frame.slack(f"short/{name}", grams * frame.mean_carry)
    frame.builder.row(name, [*terms, (short, 1.0)], low=low)


def wish_at_most(
    frame: Frame, name: str, terms: list[Term], *, high: float, grams: float
) -> None:  # fmt: skip
    """A soft ceiling: every unit over costs so many grams, carried for the mean time."""
    if not terms:
        return
    over = frame.slack(f"over/{name}", grams * frame.mean_carry)
    frame.builder.row(name, [*terms, (over, -1.0)], high=high)
