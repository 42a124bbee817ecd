"""The tables of the kit: pots, stove, cans, containers."""

from __future__ import annotations

import typing
from typing import Annotated

from oatsack import units
from oatsack.files.trip.kinds import number, quantity, word, words
from oatsack.files.trip.tables.fields import (
    FLAG,
    MANY,
    NAME,
    Table,
    a_few_mm,
    a_mass,
    a_share,
    a_volume,
    key,
    needed,
    short_for,
)
from oatsack.values.kit import Container, FuelKind, Kit, Pot, Stove, Treatment


def stoves_known() -> tuple[str, ...]:
    from oatsack.kitchen.fuels import stoves

    return ("none", *stoves())


class PotTable(Table):
    """A pot. A bare volume stands for the whole table."""

    MAKES = Pot
    name: NAME | None = key("name", "What to call it.")
    volume_ml: Annotated[float, a_volume("900 ml", 100.0, 30_000.0)] | None = key(
        "volume", "Full to the brim."
    )
    mass_g: Annotated[float, a_mass("120 g", 10.0, 10_000.0)] | None = key("mass", "Without lid.")
    material: Annotated[str, words("a material", "titanium", "aluminium", "steel")] | None = key(
        "material", "What it is made of."
    )
    diameter_mm: Annotated[float, a_few_mm("110 mm")] | None = key(
        "diameter", "Inside.", otherwise="not known"
    )
    depth_mm: Annotated[float, a_few_mm("95 mm")] | None = key(
        "depth", "Inside.", otherwise="not known"
    )
    walkers: Annotated[list[NAME], MANY] | None = key(
        "for", "The walkers who alone eat from it, by name.", otherwise="whoever has no own pot"
    )


class StoveTable(Table):
    """A stove. A bare kind stands for the whole table; `"none"` is no stove."""

    MAKES = Stove
    kind: Annotated[str, word("a kind of stove", stoves_known, example="gas-open")] | None = key(
        "kind", "What sort of burner."
    )
    fuel: Annotated[str, words("a fuel", *typing.get_args(FuelKind))] | None = key(
        "fuel", "What it burns.", otherwise="the fuel of its kind"
    )
    efficiency: Annotated[float, a_share(0.02, 0.95, "55%")] | None = key(
        "efficiency", "From your own boil test, net.", otherwise="the prior of its kind"
    )
    power_w: Annotated[
        float, quantity(units.power_w, "a power", "1800 W", show=units.show_power, low=50.0,
                        high=20_000.0)
    ] | None = key("power", "At full flame.", otherwise="of its kind")  # fmt: skip
    burners: Annotated[int, number("a count", "1", low=1, high=20, whole=True)] | None = key(
        "burners", "How many."
    )
    diameter_mm: Annotated[float, a_few_mm("45 mm")] | None = key(
        "diameter", "Folded, for what goes into the pot.", otherwise="not known"
    )
    length_mm: Annotated[float, a_few_mm("85 mm")] | None = key(
        "length", "Folded.", otherwise="not known"
    )


class CanTable(Table):
    """A fuel container. A bare fuel mass stands for the whole table, if it is a common size."""

    net_g: Annotated[float, a_mass("230 g", 10.0, 20_000.0)] = needed("net", "Fuel when full.")
    empty_g: Annotated[float, a_mass("150 g", 1.0, 10_000.0)] | None = key(
        "empty", "The empty container.", otherwise="of the common size"
    )
    gross_now_g: Annotated[float, a_mass("310 g", 1.0, 30_000.0)] | None = key(
        "now", "What an opened one weighs on the scale.", otherwise="full"
    )
    diameter_mm: Annotated[float, a_few_mm("90 mm")] | None = key(
        "diameter", "Outside.", otherwise="of the common size"
    )
    height_mm: Annotated[float, a_few_mm("65 mm")] | None = key(
        "height", "Outside.", otherwise="of the common size"
    )


class ContainerTable(Table):
    """A store that must close at night. A bare volume stands for the whole table."""

    MAKES = Container
    name: NAME | None = key("name", "What to call it.")
    volume_ml: Annotated[float, a_volume("10 l", 500.0, 200_000.0)] | None = key(
        "volume", "Room inside."
    )
    mass_g: Annotated[float, a_mass("1 kg", 0.0, 20_000.0)] | None = key("mass", "Empty.")
    shape: Annotated[str, words("a shape", "hard", "soft", "bag")] | None = key(
        "shape", "How stiff it is."
    )
    carrier: NAME | None = key(
        "carrier", "The walker who carries it.", otherwise="whoever has room"
    )


class KitTable(Table):
    """What the party cooks, drinks and stores with."""

    MAKES = Kit
    pots: Annotated[list[Annotated[PotTable, short_for("volume")]], MANY] | None = key(
        "pots", "Pots; an empty list is none.", otherwise="one pot of 900 ml"
    )
    stove: Annotated[StoveTable, short_for("kind")] | None = key(
        "stove", "The stove.", otherwise="gas-open"
    )
    cans: Annotated[list[Annotated[CanTable, short_for("net")]], MANY] | None = key(
        "cans", "Fuel containers that can be taken.", otherwise="the common sizes"
    )
    mug_ml: Annotated[float, a_volume("300 ml", 50.0, 2000.0)] | None = key(
        "mug", "Volume of a mug."
    )
    bottles_ml: Annotated[list[Annotated[float, a_volume("1 l", 100.0, 20_000.0)]], MANY] | None = (
        key("bottles", "Bottles of each walker.", otherwise='["1 l", "1 l"]')
    )
    containers: Annotated[list[Annotated[ContainerTable, short_for("volume")]], MANY] | None = key(
        "containers",
        "Stores in which all that smells must close at night.",
        otherwise="none needed",
    )
    other_smellables_ml: Annotated[float, a_volume("1 l", 0.0, 20_000.0)] | None = key(
        "smellables", "Toothpaste, soap and the like, for each walker."
    )
    cosy: FLAG | None = key("cosy", "Whether food is kept warm while it soaks.")
    treatment: Annotated[str, words("a treatment", *typing.get_args(Treatment))] | None = key(
        "treatment", "How drinking water from the way is made safe; boiling burns fuel."
    )
