"""The table of a dog that comes along, with food of its own."""

from __future__ import annotations

from typing import Annotated

from oatsack.files.trip.tables.fields import NAME, Table, a_mass, a_mass_kg, key, needed
from oatsack.values.dog import Dog


class DogTable(Table):
    """A dog. Its food lies in a bag of its own and in no sum of yours."""

    MAKES = Dog
    name: NAME | None = key("name", "What to call it.", otherwise="Dog 1, Dog 2 and so on")
    mass_kg: Annotated[float, a_mass_kg("22 kg", 1.0, 120.0)] = needed("mass", "Body mass.")
    food_g_day: Annotated[float, a_mass("550 g", 20.0, 5000.0)] | None = key(
        "food", "What it eats on a full day of walking.",
        otherwise="dry food by its mass, half as much again as at home",
    )  # fmt: skip
    carrier: NAME | None = key(
        "carrier", "The walker who carries its food.", otherwise="the dog itself"
    )
