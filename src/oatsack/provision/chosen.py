"""How a walker's targets came about, for the plan to keep: number, factor, ramp, shares, towns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from oatsack.provision.needs import shares_of
from oatsack.provision.town import fed_kcal
from oatsack.values.menu import Slot
from oatsack.values.plan import Chosen, DayNeed
from oatsack.values.trip import Trip
from oatsack.walker.target import Targets, full_day_kcal


def chosen_of(found: Targets, trip: Trip, slots: Sequence[Slot], walker: str,
              need_days: Mapping[int, DayNeed]) -> Chosen:  # fmt: skip
    """The choice behind targets, over the need of the days on which this walker eats."""
    shares = shares_of(trip, slots, walker)
    full = full_day_kcal(need_days, shares)
    ramp = {
        str(n): kcal / (found.base_kcal * shares[n]) if found.base_kcal * shares[n] > 0 else 1.0
        for n, kcal in fed_kcal(found.kcal, found.town_kcal).items()
    }
    return Chosen(
        how=found.how, base_kcal=found.base_kcal, full_day_kcal=full,
        factor=found.base_kcal / full if full > 0 else 0.0, ramp=ramp,
        share={str(n): share for n, share in shares.items()},
        town={str(n): kcal for n, kcal in found.town_kcal.items()},
    )  # fmt: skip
