"""What the walker chooses to eat of the need: a number, a share, an appetite that changes by day.

``target = base x ramp[day] x share of that day's meals inside the walk`` (C15). Choosing is the
walker's; for who is under 18, pregnant, nursing or ill it is the whole need (C11).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from oatsack.values.flags import Flag
from oatsack.values.plan import DayNeed
from oatsack.values.walker import Target, Walker
from oatsack.walker.person import body_of

SHORT_WALK_DAYS = 7
SHORT_WALK_SHARE = 0.85
"""Share of the need where nobody asked, up to a week; the whole need beyond (ours, C15)."""
FIRST_DAYS = (0.85, 0.95)
GROWS_FROM_DAY = 7
GROWS_BY = 0.03
GROWS_TO = 1.20
"""Appetite: small at first, growing from day 7 by so much a day up to so much (ours)."""


def appetite(day: int) -> float:
    """Appetite on a day of the walk, counted from 1, before it is brought to mean 1."""
    if day <= len(FIRST_DAYS):
        return FIRST_DAYS[day - 1]
    return min(GROWS_TO, 1.0 + GROWS_BY * max(0, day - GROWS_FROM_DAY + 1))


def ramp(shares: Sequence[float]) -> tuple[float, ...]:
    """Appetite of each day with mean 1 over the walk, weighed by each day's share of meals (C15).

    `shares` holds per day the part of its meals inside the walk; part days count for as much less.
    """
    raw = [appetite(day) for day in range(1, len(shares) + 1)]
    weight = sum(shares)
    if weight <= 0:
        return tuple(1.0 for _ in raw)
    mean = sum(a * share for a, share in zip(raw, shares, strict=True)) / weight
    return tuple(a / mean for a in raw)


@dataclass(frozen=True, slots=True, kw_only=True)
class Targets:
    """What one walker eats by day [kcal], the base per full day, and how it came about."""

    kcal: Mapping[int, float]
    base_kcal: float
    how: str
    """``typed``, ``share``, ``nobody-asked`` or ``full``."""
    flags: tuple[Flag, ...] = ()
    town_kcal: Mapping[int, float] = field(default_factory=dict)
    """Taken off for meals eaten in a town on the way."""


def full_day_kcal(need: Mapping[int, DayNeed], shares: Mapping[int, float]) -> float:
    """The likely need of a full day, over the walk [kcal]: all energy by all days' meal shares."""
    return sum(day.energy_kcal for day in need.values()) / max(sum(shares.values()), 1e-9)


def targets(walker: Walker, need: Mapping[int, DayNeed], shares: Mapping[int, float]) -> Targets:
    """What the walker eats each day.

    `need` and `shares` (of the day's meals inside the walk) are keyed by day number. A typed number
    or a full-fed walker has no ramp; a share, or nobody's word, has.
    """
    full = full_day_kcal(need, shares)
    base, how = _base(walker.target, full, days=len(shares), appetite_factor=walker.appetite)
    flags: tuple[Flag, ...] = ()
    if body_of(walker).fully_fed:
        flags = (Flag(key="body.professional", level="caution", scope=f"target/{walker.id}"),)
        base, how = max(base, full), "full"
    numbers = sorted(shares)
    inside = [shares[number] for number in numbers]
    flat = how in ("typed", "full")
    factors = tuple(1.0 for _ in inside) if flat else ramp(inside)
    return Targets(
        kcal={n: base * f * s for n, f, s in zip(numbers, factors, inside, strict=True)},
        base_kcal=base,
        how=how,
        flags=flags,
    )


def _base(target: Target, full: float, *, days: int, appetite_factor: float) -> tuple[float, str]:
    """The walker's number per full day, and where it comes from."""
    if target.kcal is not None:
        return target.kcal, "typed"
    if target.share is not None:
        return target.share * full, "share"
    share = SHORT_WALK_SHARE if days <= SHORT_WALK_DAYS else 1.0
    return share * full * appetite_factor, "nobody-asked"
