"""The plan at another place of a walker's energy dial: whole things added or taken (pure).

Nothing is searched. The dial changes the walker's own number, so a ramp that nobody typed is off
there (C15). Dinners stay. What others eat, and every need, stays frozen as it was.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from oatsack.menu.dial import dial
from oatsack.provision.chosen import chosen_of
from oatsack.provision.needs import eating, targets_of
from oatsack.provision.replanned import drafted, replanned
from oatsack.route.stops import with_stops
from oatsack.values.plan import Plan
from oatsack.values.trip import Trip


def dialled(plan: Plan, trip: Trip, walker: str, *,
            hashes: Mapping[str, str] | None = None) -> Plan:  # fmt: skip
    """The plan of `trip`, which differs from the plan's only in what one walker wants to eat.

    `hashes` names what was read for it. Days that leave their window are flagged by it.
    """
    trip = with_stops(trip, plan.days)
    one = next(w for w in trip.walkers if w.id == walker)
    frozen = {int(n): day for n, day in plan.need[walker].items()}
    need_days = eating(frozen, plan.slots, walker)
    found = targets_of(trip, one, plan.slots, need_days)
    by_day = {n: kcal - plan.target[walker].get(str(n), 0.0) for n, kcal in found.kcal.items()}
    asked = drafted(plan, plan.menu, dict(plan.foods)).asked
    menu = dial(asked, plan.menu, walker, 0.0, by_day=by_day)
    told = replace(
        plan, trip=trip,
        target={**plan.target, walker: {str(n): kcal for n, kcal in found.kcal.items()}},
        chosen={**plan.chosen, walker: chosen_of(found, trip, plan.slots, walker, need_days)},
    )  # fmt: skip
    return replanned(told, menu, hashes=hashes)
