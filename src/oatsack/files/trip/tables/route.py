"""The tables of the way: a track and its cuts, or days typed by hand."""

from __future__ import annotations

from typing import Annotated

from oatsack import units
from oatsack.files.trip.kinds import number, quantity, word, words
from oatsack.files.trip.tables.fields import (
    AIR,
    CLIMB,
    DISTANCE,
    FLAG,
    HEIGHT,
    NAME,
    SPEED,
    TERRAIN,
    TIME,
    Table,
    a_span_h,
    key,
    needed,
    short_for,
)
from oatsack.values.trip import HandDay, HandStretch, HandWater, RouteSpec


def paces() -> tuple[str, ...]:
    from oatsack.route.pace import MODELS

    return tuple(model.name for model in MODELS)


class StretchTable(Table):
    """A piece of a typed day."""

    MAKES = HandStretch
    distance_m: DISTANCE = needed("distance", "How far.")
    grade_pct: Annotated[
        float, quantity(lambda text: 100.0 * units.share(text), "a slope", "10%", low=-60.0,
                        high=60.0, show=lambda value: units.show_share(value / 100.0))
    ] | None = key("grade", "Slope; downhill is negative.")  # fmt: skip
    speed_ms: SPEED | None = key("speed", "Speed along the ground.", otherwise="by the pace rule")
    terrain: TERRAIN | None = key("terrain", "What is underfoot.")


class WaterTable(Table):
    """A place with water on a typed day. A bare distance stands for the whole table."""

    MAKES = HandWater
    name: NAME | None = key("name", "What it is called.")
    distance_m: DISTANCE = needed("distance", "How far along the day.")
    at_min: TIME | None = key("at", "When one gets there.", otherwise="by distance and pace")
    reliability: Annotated[str, words("a word", "sure", "likely", "doubtful")] | None = key(
        "reliability", "How sure it is to run."
    )


class DayTable(Table):
    """A day typed by hand."""

    MAKES = HandDay
    distance_m: DISTANCE | None = key("distance", "How far.", otherwise="the stretches together")
    ascent_m: CLIMB | None = key("up", "How much up.")
    descent_m: CLIMB | None = key("down", "How much down.", otherwise="as much as up")
    highest_m: HEIGHT | None = key("highest", "Highest point.", otherwise="from the climbs")
    camp_m: HEIGHT | None = key(
        "camp_height", "Height of the night's camp.", otherwise="from the climbs"
    )
    camp_name: NAME | None = key("camp", "Name of the night's camp.")
    camp_dry: FLAG | None = key("dry", "Whether the camp has no water.")
    stretches: list[StretchTable] | None = key(
        "stretches", "The day piece by piece, instead of up and down."
    )
    camp_h: Annotated[float, a_span_h("3 h")] | None = key(
        "chores", "Hours of camp chores.", otherwise="what is left of the day"
    )
    sleep_h: Annotated[float, a_span_h("8 h")] | None = key(
        "sleep", "Hours of sleep.", otherwise="8 h"
    )
    warm_c: AIR | None = key("warm", "Air at midday.", otherwise="from the route's, by height")
    cold_c: AIR | None = key(
        "cold", "Air at the coldest cooking hour.", otherwise="from the route's, by height"
    )
    water: list[Annotated[WaterTable, short_for("distance")]] | None = key(
        "water", "Places with water."
    )
    leg: Annotated[int, number("a count", "1", low=1, high=60, whole=True)] | None = key(
        "leg", "Number of the leg it belongs to."
    )


class RouteTable(Table):
    """The way: a track and how to cut it, or a usual day, or days typed by hand."""

    MAKES = RouteSpec
    track: NAME | None = key("track", "A GPX file, beside the trip file.", otherwise="none")
    camps: list[NAME] | None = key(
        "camps", "Waypoints of the track where nights are spent, in order."
    )
    cuts_m: list[DISTANCE] | None = key("cuts", "Distances along the track at which the days end.")
    equal_days: FLAG | None = key(
        "equal_days", "Cut the track into days of equal effort.",
        otherwise="true, where a track has neither camps nor cuts",
    )  # fmt: skip
    usual_day: DayTable | None = key(
        "usual_day", "One day that is walked every full day.", otherwise="none"
    )
    hand_days: list[DayTable] | None = key("days", "Each day by hand; distance 0 is a day of rest.")
    heights: Annotated[str, words("a word", "map", "barometer", "satellite")] | None = key(
        "heights", "Where the track's heights come from; satellite heights waver most."
    )
    pace_model: Annotated[str, word("a pace rule", paces, example="campbell-2022")] | None = key(
        "pace", "The published rule for walking times."
    )
    flat_speed_ms: SPEED | None = key(
        "speed", "The party's speed on the flat.", otherwise="the rule's"
    )
    terrain: TERRAIN | None = key("terrain", "What is underfoot: a factor or a surface.")
    start_height_m: HEIGHT | None = key("start_height", "Height where the walk begins.")
    warm_c: AIR | None = key("warm", "Air at midday, at the start's height.")
    cold_c: AIR | None = key("cold", "Air at the coldest cooking hour, at the start's height.")
    snow: FLAG | None = key(
        "snow", "Whether all water is melted from snow.",
        otherwise="true, where it freezes all day and no sure water is named",
    )  # fmt: skip
    windy: FLAG | None = key("windy", "Whether one cooks in the wind.")
    start_clock_min: TIME | None = key("walk_from", "When walking begins on a full day.")
    dry_camps: list[NAME] | None = key("dry_camps", "Camps without water, by name.")
    leg_ends: list[NAME] | None = key(
        "resupply", "Camps or shops where food can be taken on, by name."
    )
