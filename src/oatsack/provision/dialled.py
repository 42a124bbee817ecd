"""The plan at another place of a walker's energy dial: whole things added or taken (pure).

Nothing is searched. The dial changes the walker's own number, so a ramp that nobody typed is off
there (C15). Dinners stay. What others eat, and every need, stays frozen as it was.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from oatsack.menu.dial import dial
from oatsack.provision.needs import eating, shares_of, targets_of
from oatsack.provision.replanned import drafted, replanned
from oatsack.provision.town import fed_kcal
from oatsack.route.stops import with_stops
from oatsack.values.menu import Slot
from oatsack.values.plan import Chosen, DayNeed, Plan
from oatsack.values.trip import Trip
from oatsack.walker.target import Targets, full_day_kcal


def dialled(plan: Plan, trip: Trip, walker: str, *,
            hashes: Mapping[str, str] | None = None) -> Plan:  # fmt: skip
    """The plan of `trip`, which differs from the plan's only in what one walker wants to eat.

    `hashes` names what was read for it. Days that leave their window are flagged by it.
    """
    trip = with_stops(trip, plan.days)
    found = _targets(plan, trip, walker)
    by_day = {n: kcal - plan.target[walker].get(str(n), 0.0) for n, kcal in found.kcal.items()}
    asked = drafted(plan, plan.menu, dict(plan.foods)).asked
    menu = dial(asked, plan.menu, walker, 0.0, by_day=by_day)
    told = replace(
        plan, trip=trip,
        target={**plan.target, walker: {str(n): kcal for n, kcal in found.kcal.items()}},
        chosen={**plan.chosen, walker: _chosen(plan, found, trip, walker)},
    )  # fmt: skip
    return replanned(told, menu, hashes=hashes)


def _targets(plan: Plan, trip: Trip, walker: str) -> Targets:
    """What this walker's new number means for each day, over the need as the plan froze it."""
    one = next(w for w in trip.walkers if w.id == walker)
    return targets_of(trip, one, plan.slots, _need(plan, plan.slots, walker))


def _need(plan: Plan, slots: tuple[Slot, ...], walker: str) -> Mapping[int, DayNeed]:
    days = {int(n): day for n, day in plan.need[walker].items()}
    return eating(days, slots, walker)


def _chosen(plan: Plan, found: Targets, trip: Trip, walker: str) -> Chosen:
    """How the new targets came about."""
    shares = shares_of(trip, plan.slots, walker)
    full = full_day_kcal(_need(plan, plan.slots, walker), shares)
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
