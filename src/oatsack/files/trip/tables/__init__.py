"""Every table and key of a trip file: what may stand there, and what stands if it is left out.

A field is named as in the frozen value it fills (`MAKES`), its alias is the key in the file. The
default shown in the reference is the value's own; where that is None, `otherwise` says in words
what happens. `build` makes the values, `reference` the documentation, the tests mutate every field.
"""

from __future__ import annotations

import datetime as dt
from typing import Annotated

from oatsack.files.trip.kinds import MOMENT, ZONE, words
from oatsack.files.trip.tables.dog import DogTable
from oatsack.files.trip.tables.fields import NAME, Table, key, needed
from oatsack.files.trip.tables.kit import CanTable, ContainerTable, KitTable, PotTable, StoveTable
from oatsack.files.trip.tables.need import NeedTable
from oatsack.files.trip.tables.places import PlaceTable
from oatsack.files.trip.tables.route import DayTable, RouteTable, StretchTable, WaterTable
from oatsack.files.trip.tables.rules import (
    BanTable,
    HoldTable,
    LarderTable,
    MinutesTable,
    NowTable,
    RulesTable,
    TimesTable,
    WeightsTable,
)
from oatsack.files.trip.tables.walker import AvoidTable, UsualTable, WalkerTable
from oatsack.values.trip import Trip


class TripTable(Table):
    """A walk. Four answers are enough: walkers with their mass, from, to, and a usual day."""

    MAKES = Trip
    title: NAME | None = key("title", "What to call the walk.", otherwise="from its dates")
    begin: Annotated[dt.datetime, MOMENT] = needed("from", "When the walk begins, local time.")
    end: Annotated[dt.datetime, MOMENT] = needed("to", "When it ends, local time.")
    zone: Annotated[str, ZONE] | None = key("zone", "The time zone of the walk.", otherwise="UTC")
    units: Annotated[str, words("a system", "metric", "us")] | None = key(
        "units", "Units to show.", otherwise="those that the file is written in"
    )
    walkers: list[WalkerTable] = needed("walkers", "Who walks.")
    route: RouteTable = needed("route", "The way.")
    places: list[PlaceTable] | None = key(
        "places", "Where food is taken on.", otherwise="a box at every end of a leg"
    )
    dogs: list[DogTable] | None = key("dogs", "Dogs that come along, with food of their own.")
    need: NeedTable | None = key("need", "How the need is worked out.")
    kit: KitTable | None = key("kit", "Pots, stove, fuel, mugs, bottles, containers.")
    rules: RulesTable | None = key("rules", "What you may set about the food.")
    larder: LarderTable | None = key("larder", "The foods to draw on.")
    now: NowTable | None = key("now", "Where a walk under way stands.", otherwise="not begun")


__all__ = [
    "AvoidTable", "BanTable", "CanTable", "ContainerTable", "DayTable", "DogTable", "HoldTable",
    "KitTable", "LarderTable", "MinutesTable", "NeedTable", "NowTable", "PlaceTable", "PotTable",
    "RouteTable", "RulesTable", "StoveTable", "StretchTable", "Table", "TimesTable", "TripTable",
    "UsualTable", "WalkerTable", "WaterTable", "WeightsTable",
]  # fmt: skip
