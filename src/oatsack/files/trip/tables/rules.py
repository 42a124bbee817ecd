"""The tables of what may be set about the food, the larder, and a walk under way."""

from __future__ import annotations

import datetime as dt
from typing import Annotated

from oatsack.files.trip import picks
from oatsack.files.trip.kinds import DATE, number, words
from oatsack.files.trip.tables.fields import (
    FLAG,
    FOOD,
    MANY,
    MEAL,
    MINUTES,
    NAME,
    TIME,
    Table,
    a_mass,
    a_share,
    a_volume,
    key,
    needed,
    short_for,
)
from oatsack.values.trip import Now, Rules

AIM_WORD = words("an aim", "load", "mass", "price", "liking", "minutes", "rubbish", "left-over",
                 "steps")  # fmt: skip
AIM = Annotated[str, AIM_WORD]


class TimesTable(Table):
    """When meals are taken."""

    breakfast: TIME | None = key("breakfast", "Breakfast.", otherwise='"07:00"')
    lunch: TIME | None = key("lunch", "The midday meal.", otherwise='"12:30"')
    dinner: TIME | None = key("dinner", "Dinner.", otherwise='"18:30"')


class MinutesTable(Table):
    """Most minutes from lighting the stove to the last mug."""

    breakfast: MINUTES | None = key("breakfast", "Breakfast.", otherwise="no limit")
    lunch: MINUTES | None = key("lunch", "The midday meal.", otherwise="no limit")
    dinner: MINUTES | None = key("dinner", "Dinner.", otherwise="no limit")


class WeightsTable(Table):
    """What matters how much when the plan chooses; 1 is the everyday amount, 0 is not at all."""

    MAKES = Rules
    weight_kgdays: Annotated[float, number("a weight", "1", low=0.0, high=100.0)] | None = key(
        "load", "Mass carried, times days."
    )
    weight_liking: Annotated[float, number("a weight", "1", low=0.0, high=100.0)] | None = key(
        "liking", "How much it is liked."
    )
    weight_price: Annotated[float, number("a weight", "1", low=0.0, high=100.0)] | None = key(
        "price", "What it costs."
    )


class BanTable(Table):
    """A food that is not to be chosen: at all, or by one walker, on one date, at one meal."""

    food: FOOD = needed("food", "The food's id.")
    walker: NAME | None = key("walker", "For whom.", otherwise="everyone")
    date: Annotated[dt.date, DATE] | None = key("date", "On which date.", otherwise="every day")
    meal: MEAL | None = key("meal", "At which meal.", otherwise="every meal")


class HoldTable(BanTable):
    """A choice that is kept."""

    count: Annotated[float, number("doses", "1", low=0.01, high=99.0)] | None = key(
        "count", "How many doses.", otherwise="1"
    )


class RulesTable(Table):
    """What you may set about the food."""

    MAKES = Rules
    hot_breakfast: FLAG | None = key("hot_breakfast", "Whether breakfast is hot.")
    cook_midday: FLAG | None = key("cook_midday", "Whether the stove comes out at midday.")
    no_flame: FLAG | None = key("no_flame", "A fire ban, or no stove wanted: nothing is heated.")
    first_day_meals: list[MEAL] | None = key(
        "first_day", "Meals of ours on the first day.", otherwise="by the clock"
    )
    last_lunch: FLAG | None = key(
        "last_lunch", "Whether lunch on the day you finish is packed.", otherwise="by the clock"
    )
    times: TimesTable | None = key("times", "When meals are taken.")
    minutes: MinutesTable | None = key("minutes", "Most minutes a meal may take.")
    dinner_apart_days: Annotated[int, number("days", "2", low=0, high=30, whole=True)] | None = key(
        "dinner_apart", "A dinner comes again after so many days, where it can."
    )
    day_window: Annotated[float, a_share(0.01, 0.5, "12%")] | None = key(
        "day_window", "How far a day's energy may be from its target."
    )
    trip_window: Annotated[float, a_share(0.005, 0.5, "5%")] | None = key(
        "trip_window", "How far the trip's energy may be from its target."
    )
    budget: Annotated[tuple[float, str], picks.MONEY] | None = key(
        "budget", "Most that may be spent.", otherwise="none"
    )
    volume_ml: Annotated[float, a_volume("10 l", 500.0, 1e6)] | None = key(
        "volume", "Most room that all food may take.", otherwise="no limit"
    )
    spare: Annotated[str | float, picks.SPARE] | None = key(
        "spare", "Food beyond the plan, shown apart.",
        otherwise="a cold meal up to seven days, a day beyond",
    )  # fmt: skip
    fat_ceiling: Annotated[float, a_share(0.2, 0.9, "45%")] | None = key(
        "fat_ceiling", "Most of the trip's energy from fat."
    )
    mains_shared: FLAG | None = key(
        "one_pot", "One pot, one dish, where diets and allergies agree."
    )
    weights: WeightsTable | None = key("weights", "What matters how much.")
    aims: list[AIM] | None = key(
        "order", "What is made least, one after the other, as load, then price.",
        otherwise="all at once, by their weights",
    )  # fmt: skip
    aims_within: Annotated[float, a_share(0.0, 0.5, "2%")] | None = key(
        "order_within", "How much of an aim may be given up for those after it."
    )
    settings: dict[str, Annotated[float, number("a setting", "1.4", low=0.0, high=1e5)]] | None = (
        key("settings", 'Settings of rules and aims by name, as "protein.g_per_kg".',
            otherwise="as the page of rules says")
    )  # fmt: skip
    holds: list[HoldTable] | None = key("holds", "Choices to keep.")
    bans: Annotated[list[Annotated[BanTable, short_for("food")]], MANY] | None = key(
        "bans", "Foods not to choose."
    )
    bags: Annotated[str, words("a way to bag", "meal", "day", "group")] | None = key(
        "bags", "Bags by kind of meal, by day, or by cook group.", otherwise="by the party's size"
    )
    water_ml_h: Annotated[float, a_volume("0.5 l", 0.0, 2000.0)] | None = key(
        "water", "Drinking water at hand for an hour of walking; a suggestion."
    )


class LarderTable(Table):
    """The foods to draw on."""

    files: Annotated[list[NAME], MANY] | None = key(
        "files", "Your larder files, beside the trip file.", otherwise="the bundled larder"
    )
    stock: NAME | None = key(
        "stock", "A file of what is at home: food, packs, best before.",
        otherwise="the stock columns of the larder",
    )  # fmt: skip


class NowTable(Table):
    """Where a walk under way stands, to plan the rest again from here."""

    MAKES = Now
    day: Annotated[int, number("a count", "3", low=1, high=400, whole=True)] = needed(
        "day", "The number of today."
    )
    left: dict[str, Annotated[float, number("doses", "2", low=0.0, high=9999.0)]] | None = key(
        "left", "Doses left, by food id."
    )
    fuel_g: Annotated[float, a_mass("120 g", 0.0, 30_000.0)] | None = key(
        "fuel", "Fuel left.", otherwise="as planned"
    )
    days_late: Annotated[int, number("days", "1", low=0, high=30, whole=True)] | None = key(
        "days_late", "How many days late you are."
    )
