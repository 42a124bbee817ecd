"""What the tables of a trip file are made of: keys, lists, and the kinds with their bounds.

A bound is what a walk can hold, wide enough never to be in the way; it catches a slip of unit.
"""

from __future__ import annotations

from typing import Annotated, Any, ClassVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from oatsack import units
from oatsack.files.trip import picks
from oatsack.files.trip.kinds import CLOCK, TEXT, YES_NO, Kind, quantity, words
from oatsack.units.show import digits
from oatsack.values.food import MEALS
from oatsack.values.walker import Choice


class Table(BaseModel):
    """A table of the file. `MAKES` is the value it fills."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)
    MAKES: ClassVar[type | None] = None


def key(alias: str, says: str, *, otherwise: str = "") -> Any:
    """A key that may be left out."""
    return Field(
        default=None, alias=alias, description=says, json_schema_extra={"otherwise": otherwise}
    )


def needed(alias: str, says: str) -> Any:
    """A key that must be there."""
    return Field(alias=alias, description=says)


def short_for(name: str) -> BeforeValidator:
    """Lets a text stand for a table in which only one key is given."""
    return BeforeValidator(lambda value: {name: value} if isinstance(value, str) else value)


def one_or_many(value: object) -> object:
    """Lets a text stand for a list of one."""
    return [value] if isinstance(value, str) else value


MANY = BeforeValidator(one_or_many)


def a_mass(example: str, low_g: float, high_g: float) -> Kind:
    """A mass [g]."""
    return quantity(units.mass_g, "a mass", example, show=units.show_mass, low=low_g, high=high_g)


def a_mass_kg(example: str, low_kg: float, high_kg: float) -> Kind:
    """A mass [kg]."""
    return quantity(
        units.mass_kg, "a mass", example, low=low_kg, high=high_kg,
        show=lambda value: units.show_mass(1000.0 * value),
    )  # fmt: skip


def a_volume(example: str, low_ml: float, high_ml: float) -> Kind:
    """A volume [ml]."""
    return quantity(
        units.volume_ml, "a volume", example, show=units.show_volume, low=low_ml, high=high_ml
    )


def a_span_h(example: str) -> Kind:
    """A time span [h]."""
    return quantity(
        lambda text: units.minutes(text) / 60.0, "a time span", example, low=0.0, high=24.0,
        show=lambda value: units.show_minutes(60.0 * value),
    )  # fmt: skip


def a_few_mm(example: str) -> Kind:
    """A small length [mm]."""
    return quantity(
        units.length_mm, "a length", example, low=10.0, high=1000.0,
        show=lambda value: f"{digits(value)} mm",
    )  # fmt: skip


def a_share(low: float, high: float, example: str) -> Kind:
    """A share of one."""
    return quantity(units.share, "a share", example, show=units.show_share, low=low, high=high)


NAME = Annotated[str, TEXT]
FLAG = Annotated[bool, YES_NO]
DISTANCE = Annotated[
    float, quantity(units.length_m, "a distance", "16 km", show=units.show_distance, low=0.0,
                    high=300_000.0)
]  # fmt: skip
CLIMB = Annotated[
    float, quantity(units.length_m, "a climb", "700 m", show=units.show_height, low=0.0,
                    high=9000.0)
]  # fmt: skip
HEIGHT = Annotated[
    float, quantity(units.length_m, "a height", "1850 m", show=units.show_height, low=-430.0,
                    high=9000.0)
]  # fmt: skip
SPEED = Annotated[
    float, quantity(units.speed_ms, "a speed", "4.5 km/h", show=units.show_speed, low=0.2,
                    high=3.0)
]  # fmt: skip
AIR = Annotated[
    float, quantity(units.temperature_c, "a temperature", "18 C", show=units.show_temperature,
                    low=-50.0, high=55.0)
]  # fmt: skip
MEAL = Annotated[str, words("a meal", *MEALS)]
FOOD = Annotated[str, picks.FOOD]
TERRAIN = Annotated[float, picks.TERRAIN]
CHOICES = Annotated[list[Annotated[Choice, picks.CHOICE]], MANY]
TIME = Annotated[float, CLOCK]
MINUTES = Annotated[
    float, quantity(units.minutes, "a time span", "20 min", show=units.show_minutes, low=0.0,
                    high=600.0)
]  # fmt: skip
