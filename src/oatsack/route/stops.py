"""Where food is taken on: which leg begins behind each place that the trip names, and the day.

Knows names and days only; what waits in a place, and whether it is open, is asked in `packing`.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from oatsack.errors import TripFileError
from oatsack.route.faults import fault

if TYPE_CHECKING:
    from collections.abc import Sequence

    from oatsack.values.pack import Place
    from oatsack.values.route import Day
    from oatsack.values.trip import Trip


def with_leg_ends(trip: Trip) -> Trip:
    """The same trip whose route knows that legs end at its places, in the route's own spelling."""
    spelt = {d.camp_name.casefold(): d.camp_name for d in trip.route.hand_days if d.camp_name}
    known = {name.casefold() for name in trip.route.leg_ends}
    new = [p.name for p in trip.places if p.name.casefold() not in known]
    ends = tuple(spelt.get(name.casefold(), name) for name in (*trip.route.leg_ends, *new))
    return replace(trip, route=replace(trip.route, leg_ends=ends))


def with_stops(trip: Trip, days: Sequence[Day]) -> Trip:
    """The same trip, its places with the leg that begins behind them and the day one comes.

    Raises TripFileError for places that the walk does not pass, or passes on its last day.
    """
    legs = sorted({day.leg for day in days})
    found, faults = [], []
    for k, place in enumerate(trip.places):
        day = _day_of(place, days)
        later = [leg for leg in legs if day is not None and leg > day.leg]
        if day is None or not later:
            faults.append(fault(
                trip, f"places[{k}].name", "the walk takes no food on there", read=repr(place.name),
                instead="name a place that is passed before the last day, and not a second one "
                        "on the same day",
            ))  # fmt: skip
        else:
            found.append(replace(place, name=day.supplied, leg=later[0], day=day.number))
    if faults:
        raise TripFileError(faults)
    return replace(trip, places=tuple(found))


def _day_of(place: Place, days: Sequence[Day]) -> Day | None:
    """The day on which one comes to a place."""
    name = place.name.casefold()
    return next((day for day in days if day.supplied.casefold() == name), None)
