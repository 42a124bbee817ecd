"""The tables of a walker: who they are, what they avoid, and their favourites."""

from __future__ import annotations

from typing import Annotated

from oatsack import units
from oatsack.files.trip import picks
from oatsack.files.trip.kinds import number, quantity, words
from oatsack.files.trip.tables.fields import (
    CHOICES,
    FLAG,
    MANY,
    NAME,
    SPEED,
    Table,
    a_mass_kg,
    key,
    needed,
    short_for,
)
from oatsack.values.walker import Avoid, Count, Pick, Target, Walker

CAFFEINE = quantity(
    units.mass_mg, "a mass of caffeine", "200 mg", low=0.0, high=1000.0, show=units.show_small_mass
)


class AvoidTable(Table):
    """Something a walker must not meet. A bare `"peanut"` stands for the whole table."""

    MAKES = Avoid
    allergen: Annotated[str, picks.ALLERGEN] = needed("allergen", "What it is.")
    scope: Annotated[str, words("a scope", "plate", "pot", "party")] | None = key(
        "scope",
        "How far away it must stay: my plate, the shared pot and tools, or the whole party.",
    )
    traces: FLAG | None = key("traces", "Whether foods that may contain traces are fine.")


class UsualTable(Table):
    """A walker's favourites. Choices of a meal take turns; what is joined by + goes together."""

    breakfast: CHOICES | None = key("breakfast", "Choices for breakfast.", otherwise="proposed")
    lunch: CHOICES | None = key("lunch", "Choices for the midday meal.", otherwise="proposed")
    move: CHOICES | None = key(
        "move", "What is eaten on the move each day, counted.", otherwise="proposed"
    )
    dinner: CHOICES | None = key("dinner", "Choices for dinner.", otherwise="proposed")
    drinks: CHOICES | None = key(
        "drinks", "Hot drinks and mixes, one choice a day.", otherwise="proposed"
    )
    bags: Annotated[list[Annotated[Pick, picks.BAG]], MANY] | None = key(
        "bags", "Open bags to nibble from, whole packs.", otherwise="proposed"
    )
    counts: Annotated[list[Annotated[Count, picks.COUNT]], MANY] | None = key(
        "counts", "Small things counted by habit.", otherwise="proposed"
    )


class WalkerTable(Table):
    """One person who walks and eats. Only the body mass must be given."""

    MAKES = Walker
    name: NAME | None = key("name", "What to call them.", otherwise="Walker 1, Walker 2 and so on")
    mass_kg: Annotated[float, a_mass_kg("68 kg", 10.0, 300.0)] = needed(
        "mass", "Body mass, without pack."
    )
    sex: Annotated[str, words("a sex", "female", "male")] | None = key(
        "sex", "For resting use.", otherwise="between the sexes, with a wider range"
    )
    age_years: Annotated[float, number("years", "40", low=1.0, high=110.0)] | None = key(
        "age", "Age in years.", otherwise="40, with a wider range"
    )
    height_cm: Annotated[
        float, quantity(units.length_cm, "a body height", "172 cm", show=units.show_body_height,
                        low=50.0, high=250.0)
    ] | None = key("height", "Body height.", otherwise="average, with a wider range")  # fmt: skip
    base_weight_kg: Annotated[float, a_mass_kg("8 kg", 0.0, 60.0)] | None = key(
        "base_weight", "Everything carried but food, fuel and water."
    )
    eats: Annotated[str, words("a diet", "anything", "fish", "vegetarian", "vegan")] | None = key(
        "eats", "Diet; fish means no meat."
    )
    avoids: Annotated[list[Annotated[AvoidTable, short_for("allergen")]], MANY] | None = key(
        "avoids",
        "Allergens that must stay away. What is not known to be free counts as containing.",
    )
    dislikes: Annotated[list[NAME], MANY] | None = key(
        "dislikes", "Food ids or food classes that are left out."
    )
    caffeine_mg_day: Annotated[float, CAFFEINE] | None = key(
        "caffeine", "Caffeine they are used to, a day.", otherwise="not looked at"
    )
    hot_drinks_day: Annotated[float, number("cups a day", "2", low=0.0, high=12.0)] | None = key(
        "hot_drinks", "Hot drinks a day."
    )
    target: Annotated[Target, picks.TARGET] | None = key(
        "target", "What they want to eat on a full day.",
        otherwise="85% of the need up to seven days, 100% beyond",
    )  # fmt: skip
    appetite: Annotated[float, number("a factor", "1.0", low=0.3, high=2.0)] | None = key(
        "appetite", "Eats so many times what others of their size eat."
    )
    condition: Annotated[str, words("a condition", "none", "pregnant", "nursing", "ill")] | None = (
        key("condition", "Full food is planned, and a professional's advice comes first.")
    )
    pace_ms: SPEED | None = key("pace", "Own speed on the flat.", otherwise="the party's")
    pace_track: NAME | None = key(
        "pace_track", "A recorded track with times that tells the pace instead.", otherwise="none"
    )
    own_walking: Annotated[float, number("a factor", "1.0", low=0.5, high=2.0)] | None = key(
        "own_walking", "What own walks used over what the model says; it outranks the model."
    )
    capacity: Annotated[float, number("a share", "1.0", low=0.0, high=3.0)] | None = key(
        "capacity", "Share of the common load; 1 is average."
    )
    liking: dict[str, Annotated[float, number("stars", "4", low=1.0, high=5.0)]] | None = key(
        "liking", "How much they like a food, by its id."
    )
    usual: UsualTable | None = key("usual", "Favourites; what stands here is taken as given.")
