"""The table of a place where food is taken on: what it sells, how post comes, when it is open."""

from __future__ import annotations

import datetime as dt
from typing import Annotated

from oatsack import units
from oatsack.files.trip.kinds import DATE, number, quantity, words
from oatsack.files.trip.tables.fields import MANY, NAME, Table, key, needed
from oatsack.values.pack import Place

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def a_few_days(example: str, high: int) -> object:
    """A small number of days."""
    return number("days", example, low=0, high=high, whole=True)


class PlaceTable(Table):
    """A place where food is taken on; the next leg begins behind it."""

    MAKES = Place
    name: NAME = needed("name", "A camp or waypoint of the route.")
    kind: Annotated[str, words("a way to get food", "box", "shop")] | None = key(
        "kind", "Whether a box waits there, or the leg is bought there."
    )
    sells: Annotated[
        list[Annotated[str, words("a kind of shop", "kiosk", "village", "supermarket", "outdoor",
                                  "chemist")]], MANY
    ] | None = key("sells", "Which kinds of shop there are.", otherwise="all kinds")  # fmt: skip
    transit_fast_days: Annotated[int, a_few_days("3", 60)] | None = key(
        "fastest", "Days on the way of a box, at the fastest."
    )
    transit_slow_days: Annotated[int, a_few_days("6", 90)] | None = key(
        "slowest", "Days on the way of a box, at the slowest."
    )
    hold_days: Annotated[int, a_few_days("15", 400)] | None = key(
        "hold", "Days for which a box is kept."
    )
    open_weekdays: Annotated[list[Annotated[str, words("a weekday", *WEEKDAYS)]], MANY] | None = (
        key("open", "Weekdays on which it is open.")
    )
    early_days: Annotated[int, a_few_days("1", 30)] | None = key(
        "early", "How many days before the plan you may come, at the earliest."
    )
    late_days: Annotated[int, a_few_days("3", 60)] | None = key(
        "late", "How many days after the plan you may come, at the latest."
    )
    town_meals: Annotated[
        list[Annotated[str, words("a meal", "breakfast", "lunch", "dinner")]], MANY
    ] | None = key(
        "town", "Meals eaten there: lunch and dinner of the day you come, breakfast of the next."
    )  # fmt: skip
    town_kcal: Annotated[
        float, quantity(units.energy_kcal, "an energy", "1200 kcal", show=units.show_energy,
                        low=0.0, high=10_000.0)
    ] | None = key(
        "town_energy", "Energy of what one eats there.",
        otherwise="as much as these meals would have brought",
    )  # fmt: skip
    checked: Annotated[dt.date, DATE] | None = key(
        "checked", "When somebody asked there.", otherwise="never"
    )
