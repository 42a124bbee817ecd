"""The days of a walk: from what the trip says and its track, to hours of walking, camp and sleep.

`days_of` is the one function that the flow calls. It asks `calendar` which hours there are, `hand`
or `cuts` which way each day goes, and `clock` when. It knows no walkers' needs and no food.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from oatsack.errors import TripFileError
from oatsack.route.calendar import windows_of
from oatsack.route.clock import Laid, hours_of, lay
from oatsack.route.cuts import walks_on
from oatsack.route.faults import fault, nearest, refuse
from oatsack.route.hand import walk_of
from oatsack.route.pieces import gait_of
from oatsack.route.stops import with_leg_ends
from oatsack.values.route import Day, WaterPlace
from oatsack.values.trip import MEAL_CLOCK, HandDay

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from oatsack.errors import Fault
    from oatsack.route.calendar import Window
    from oatsack.route.pieces import Walk
    from oatsack.values.route import Track
    from oatsack.values.trip import Trip

    Daylight = Mapping[dt.date, tuple[float, float]]

LAPSE_C_PER_M = 0.0065
"""Air cools by 6.5 K per 1000 m. Source: ISO2533, standard atmosphere."""


def days_of(
    trip: Trip, track: Track | None = None, *, daylight: Daylight | None = None
) -> tuple[Day, ...]:
    """Every day of the walk, from waking to waking (C4), with all hours that lie inside it.

    `daylight` gives sunrise and sunset by date, minutes from midnight, where they are known.
    Raises TripFileError for camps, cuts or typed days that do not fit, UsageError for an unknown
    walking-time rule.
    """
    trip, misnamed = with_leg_ends(trip), _misnamed(trip, track)
    windows = windows_of(trip)
    try:
        walks = _with_legs(_walks(trip, track, windows))
    except TripFileError as error:
        raise TripFileError([*error.faults, *misnamed]) from None
    if misnamed:
        raise TripFileError(misnamed)
    days: list[Day] = []
    start_m = walks[0].start_m if walks else trip.route.start_height_m
    for window, walk in zip(windows, walks, strict=True):
        camp_m = walk.end_m if window.night else None
        warm_c, cold_c = _air(trip, walk, start_m, walk.start_m if camp_m is None else camp_m)
        day = _day(window, walk, _laid(trip, window, walk))
        light = (daylight or {}).get(window.date)
        days.append(
            replace(day, warm_c=warm_c, cold_c=cold_c, daylight_min=light, snow=trip.route.snow,
                    windy=trip.route.windy)
        )  # fmt: skip
    return tuple(days)


def _laid(trip: Trip, window: Window, walk: Walk) -> Laid:
    """The walk on the day's clock."""
    clocks = {**MEAL_CLOCK, **trip.rules.meal_clock_min}
    hours = hours_of(walk, window, clocks["lunch"], clocks["dinner"])
    return lay(walk, window, gait_of(trip), hours)


def _walks(trip: Trip, track: Track | None, windows: Sequence[Window]) -> list[Walk]:
    """The way of every day, by track or by hand."""
    if track is not None:
        return walks_on(trip, track, windows)
    typed = _typed(trip, windows)
    walks: list[Walk] = []
    height = trip.route.start_height_m
    for day, share in typed:
        walks.append(walk_of(day, trip.route, height, share=share))
        height = walks[-1].end_m
    return walks


def _typed(trip: Trip, windows: Sequence[Window]) -> list[tuple[HandDay, float]]:
    """A typed day and its share for every window; the usual day stands where none was typed."""
    given, usual = trip.route.hand_days, trip.route.usual_day
    if not given and usual is None:
        raise refuse(
            trip, "route", "no way is given", read="neither a track nor days",
            instead="name a track, type the days, or give a usual day",
        )  # fmt: skip
    if len(given) > len(windows):
        raise _miscounted(trip, len(given), len(windows))
    out = [(day, 1.0) for day in given]
    for window in windows[len(given) :]:
        if usual is not None:
            out.append((usual, window.share))
        elif window.share == 0.0:
            out.append((HandDay(), 1.0))
        else:
            raise _miscounted(trip, len(given), len(windows))
    return out


def _miscounted(trip: Trip, typed: int, there_are: int) -> Exception:
    return refuse(
        trip, "route.days", f"the walk has {there_are} days between its times",
        read=f"{typed} typed days",
        instead="type one for every day (distance 0 is a day of rest), or give a usual day",
    )  # fmt: skip


def _misnamed(trip: Trip, track: Track | None) -> list[Fault]:
    """A fault for every place that the trip names and the route lacks."""
    if track is None:
        known = [day.camp_name for day in trip.route.hand_days if day.camp_name]
    else:
        known = [place.name for place in track.waypoints]
    folded, dry = {name.casefold() for name in known}, trip.route.dry_camps
    return [
        fault(
            trip, key.format(k), "the route has no place of this name",
            read=repr(name), instead=nearest(name, known),
        )
        for key, names in (
            ("route.resupply[{}]", trip.route.leg_ends), ("route.dry_camps", sorted(dry)),
            ("places[{}].name", [place.name for place in trip.places]),
        )
        for k, name in enumerate(names)
        if name.casefold() not in folded
    ]  # fmt: skip


def _with_legs(walks: Sequence[Walk]) -> list[Walk]:
    """Leg numbers: a new one begins on the day after a place where food can be taken on."""
    leg, out = 1, []
    for walk in walks:
        leg = max(leg, walk.leg)
        out.append(replace(walk, leg=leg))
        leg += bool(walk.supplied)
    return out


def _day(window: Window, walk: Walk, laid: Laid) -> Day:
    """The day as everyone else sees it, but for its air and light."""
    return Day(
        number=window.number,
        date=window.date,
        stretches=laid.stretches,
        distance_m=walk.distance_m,
        ascent_m=walk.ascent_m,
        descent_m=walk.descent_m,
        highest_m=walk.highest_m,
        camp_m=walk.end_m if window.night else None,
        camp_name=walk.camp_name if window.night else "",
        camp_dry=walk.camp_dry and window.night,
        leg=walk.leg,
        supplied=walk.supplied,
        water=_water(walk, laid),
        by_hand=walk.by_hand or not walk.heights_known,
        short_min=laid.short_min,
    )


def _air(trip: Trip, walk: Walk, start_m: float, here_m: float) -> tuple[float, float]:
    """Air at midday and at the coldest cooking hour, by the lapse of air with height [deg C].

    `here_m` is the night's camp; on the day that ends at home, where the last night was spent.
    """
    drop = LAPSE_C_PER_M * (here_m - start_m)
    warm = trip.route.warm_c - drop if walk.warm_c is None else walk.warm_c
    cold = trip.route.cold_c - drop if walk.cold_c is None else walk.cold_c
    return warm, cold


def _water(walk: Walk, laid: Laid) -> tuple[WaterPlace, ...]:
    """The day's water with the clock of passing; a typed clock outranks the computed one."""
    places = (
        WaterPlace(
            name=one.name,
            at_min=one.at_min if one.at_min is not None else laid.clock_at(one.distance_m),
            distance_m=one.distance_m,
            reliability=one.reliability,
        )
        for one in walk.water
    )
    return tuple(sorted(places, key=lambda place: place.at_min))
