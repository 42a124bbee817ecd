"""Even portions held against the appetite that grows: where they would be too much or fall short.

Long walks planned as so much a day every day begin too heavy and end hungry. Where a plan's
targets follow the appetite (C15) and the walk has more than one leg, this says by how much each
leg's food would differ. It knows no bags: masses come in by leg.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from oatsack.menu.slots import in_town
from oatsack.provision.needs import shares_of
from oatsack.values.flags import Flag
from oatsack.values.menu import Slot
from oatsack.values.route import Day
from oatsack.values.trip import Trip

LEAST = 0.025
"""A leg that differs by less than this share is not worth a word (ours)."""


def even_signs(trip: Trip, slots: Sequence[Slot], days: Sequence[Day],
               target: Mapping[str, Mapping[int, float]],
               leg_g: Mapping[int, float]) -> tuple[Flag, ...]:  # fmt: skip
    """A note for every leg on which even portions would weigh clearly more or less.

    `target`: walker -> day -> kcal; `leg_g`: food of each leg with its wrapping [g].
    """
    if len(leg_g) < 2:
        return ()
    return tuple(
        Flag(key=f"packing.even.{'over' if even > 1.0 else 'short'}", level="note",
             scope=f"packed/legs/{leg}",
             values={"leg": leg, "leg_g": leg_g[leg], "even_g": even * leg_g[leg],
                     "off_g": abs(even - 1.0) * leg_g[leg]})
        for leg, even in sorted(even_by_leg(trip, slots, days, target).items())
        if abs(even - 1.0) > LEAST and leg_g.get(leg, 0.0) > 0.0
    )  # fmt: skip


def even_by_leg(trip: Trip, slots: Sequence[Slot], days: Sequence[Day],
                target: Mapping[str, Mapping[int, float]]) -> dict[int, float]:  # fmt: skip
    """Leg -> energy of even portions over that of the plan [-].

    Even portions bring a walker the same whole, shared out by each day's part of meals alone. Days
    with a meal in town stand outside.
    """
    town = {day for day, _ in in_town(trip)}
    leg_of = {day.number: day.leg for day in days if day.number not in town}
    planned: dict[int, float] = defaultdict(float)
    even: dict[int, float] = defaultdict(float)
    for walker, of in target.items():
        share = shares_of(trip, slots, walker)
        inside = [day for day in of if day in leg_of and share.get(day, 0.0) > 0.0]
        whole, parts = sum(of[day] for day in inside), sum(share[day] for day in inside)
        for day in inside:
            planned[leg_of[day]] += of[day]
            even[leg_of[day]] += whole * share[day] / parts
    return {leg: even[leg] / kcal for leg, kcal in planned.items() if kcal > 0.0}
