"""The units that a walker may write, with their factors; data only.

US units are the customary ones: a cup is 236.588 ml, a quart 946.353 ml (from memory, exact by
definition: 1 in = 25.4 mm, 1 lb = 453.59237 g, 1 gal = 231 in³, 1 kcal = 4.184 kJ).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from oatsack.values.frozen import dataclass

System = Literal["metric", "us"]

INCH_M = 0.0254
FOOT_M = 12 * INCH_M
MILE_M = 5280 * FOOT_M
OUNCE_G = 453.59237 / 16
POUND_G = 453.59237
INCH3_ML = 2.54**3
GALLON_ML = 231 * INCH3_ML
QUART_ML = GALLON_ML / 4
CUP_ML = GALLON_ML / 16
FLUID_OUNCE_ML = GALLON_ML / 128
KJ_PER_KCAL = 4.184


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its spellings, its size in the dimension's fixed unit, whose it is."""

    names: tuple[str, ...]
    factor: float
    system: System | None = "metric"
    """None: both write it."""
    zero: float = 0.0
    """What is added after multiplying (temperatures)."""


@dataclass(frozen=True, slots=True)
class Trap:
    """A spelling with two readings, or one that means something else here."""

    names: tuple[str, ...]
    wrong: str
    instead: str


@dataclass(frozen=True, slots=True)
class Dimension:
    """What can be asked for: its name in a sentence, its units, its traps, two examples."""

    word: str
    units: tuple[Unit, ...]
    example: str
    traps: tuple[Trap, ...] = ()
    bare: str = ""
    """Why a bare number is refused, when there is more to say than that the unit is missing."""
    exact: Mapping[str, Unit] = field(init=False)
    folded: Mapping[str, Unit] = field(init=False)
    caught: Mapping[str, Trap] = field(init=False)

    def __post_init__(self) -> None:
        exact = {name: unit for unit in self.units for name in unit.names}
        caught = {name: trap for trap in self.traps for name in trap.names}
        object.__setattr__(self, "exact", exact)
        object.__setattr__(self, "folded", {name.casefold(): unit for name, unit in exact.items()})
        object.__setattr__(self, "caught", caught)


GRAM = Unit(("g", "gr", "gram", "grams", "gramme", "grammes"), 1.0)
MASS = Dimension(
    "a mass",
    (
        GRAM,
        Unit(("kg", "kilo", "kilos", "kilogram", "kilograms"), 1000.0),
        Unit(("mg",), 0.001),
        Unit(("oz", "ounce", "ounces"), OUNCE_G, "us"),
        Unit(("lb", "lbs", "pound", "pounds"), POUND_G, "us"),
        Unit(("st", "stone", "stones"), 14 * POUND_G, "us"),
    ),
    'a mass such as "68 kg", "250 g", "3 lb 4 oz"',
    (
        Trap(("fl oz", "floz"), "a volume where a mass is needed", 'write "8 oz" for a mass'),
        Trap(("G",), "a unit with two readings, gram or giga", 'write "g"'),
        Trap(("t",), "a unit with two readings, tonne or teaspoon", 'write "kg" or "g"'),
    ),
)
METRE = Unit(("m", "metre", "metres", "meter", "meters"), 1.0)
LENGTH = Dimension(
    "a length",
    (
        METRE,
        Unit(("km", "kilometre", "kilometres", "kilometer", "kilometers"), 1000.0),
        Unit(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), 0.01),
        Unit(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), 0.001),
        Unit(("mi", "mile", "miles"), MILE_M, "us"),
        Unit(("yd", "yard", "yards"), 3 * FOOT_M, "us"),
        Unit(("ft", "foot", "feet", "'", "′", "’"), FOOT_M, "us"),
        Unit(("in", "inch", "inches", '"', "″", "′′", "”", "''"), INCH_M, "us"),
    ),
    'a distance or height such as "16 km", "700 m", "9.9 mi", "2300 ft"',
    (Trap(("M",), "a unit with two readings, metre or mile", 'write "m" or "mi"'),),
)
VOLUME = Dimension(
    "a volume",
    (
        Unit(("ml", "millilitre", "millilitres", "milliliter", "milliliters", "cc"), 1.0),
        Unit(("cl", "centilitre", "centilitres"), 10.0),
        Unit(("dl", "decilitre", "decilitres"), 100.0),
        Unit(("l", "L", "litre", "litres", "liter", "liters"), 1000.0),
        Unit(("cup", "cups"), CUP_ML, "us"),
        Unit(("fl oz", "floz", "fl.oz", "fl. oz"), FLUID_OUNCE_ML, "us"),
        Unit(("fluid ounce", "fluid ounces"), FLUID_OUNCE_ML, "us"),
        Unit(("tbsp", "tablespoon", "tablespoons"), CUP_ML / 16, "us"),
        Unit(("tsp", "teaspoon", "teaspoons"), CUP_ML / 48, "us"),
        Unit(("pt", "pint", "pints"), GALLON_ML / 8, "us"),
        Unit(("qt", "quart", "quarts"), QUART_ML, "us"),
        Unit(("gal", "gallon", "gallons"), GALLON_ML, "us"),
        Unit(("cuin",), INCH3_ML, "us"),
    ),
    'a volume such as "1.3 l", "475 ml", "2 cups", "16 fl oz", "700 in³"',
    (
        Trap(
            ("oz", "ounce", "ounces"),
            "a unit with two readings, fluid ounce (29.6 ml) or ounce of mass (28.3 g)",
            'write "fl oz" for a volume',
        ),
        Trap(
            ("c", "C"),
            "a unit with two readings, cup (237 ml) or centilitre (10 ml)",
            'write "cup" or "cl"',
        ),
        Trap(
            ("t", "T"),
            "a unit with two readings, teaspoon (5 ml) or tablespoon (15 ml)",
            'write "tsp" or "tbsp"',
        ),
    ),
)  # fmt: skip
ENERGY = Dimension(
    "an energy",
    (
        Unit(("kcal", "kilocalorie", "kilocalories"), 1.0, None),
        Unit(("Cal", "Cals", "Calorie", "Calories"), 1.0, None),
        Unit(("kJ", "kilojoule", "kilojoules"), 1 / KJ_PER_KCAL, None),
        Unit(("MJ", "megajoule", "megajoules"), 1000 / KJ_PER_KCAL, None),
    ),
    'an energy such as "2200 kcal" or "9200 kJ"',
    (
        Trap(
            ("cal", "cals", "calorie", "calories"),
            "a unit with two readings, food calorie (1 kcal) or gram calorie (0.001 kcal)",
            'write "kcal"',
        ),
    ),
)  # fmt: skip
POWER = Dimension(
    "a power",
    (
        Unit(("W", "watt", "watts"), 1.0, None),
        Unit(("kW",), 1000.0, None),
        Unit(("BTU/h", "btu/hr", "BTU per hour"), 1055.05585262 / 3600, "us"),
    ),
    'a power such as "1800 W" or "1.8 kW"',
)
TEMPERATURE = Dimension(
    "a temperature",
    (
        Unit(("C", "°C", "° C", "degC", "deg C", "c", "°c", "Celsius"), 1.0),
        Unit(("F", "°F", "° F", "degF", "deg F", "f", "°f", "Fahrenheit"), 5 / 9, "us", -160 / 9),
        Unit(("K", "kelvin"), 1.0, None, -273.15),
    ),
    'a temperature such as "18 C" or "64 F"',
    (Trap(("°", "deg", "degrees"), "a unit with two readings, C or F", 'write "18 C" or "64 F"'),),
)
DIFFERENCE = Dimension(
    "a temperature difference",
    tuple(Unit(unit.names, unit.factor, unit.system) for unit in TEMPERATURE.units),
    'a difference such as "10 C" or "18 F"',
    TEMPERATURE.traps,
)
SPAN = Dimension(
    "a time span",
    (
        Unit(("s", "sec", "second", "seconds"), 1 / 60, None),
        Unit(("min", "mins", "minute", "minutes", "′"), 1.0, None),
        Unit(("h", "hr", "hrs", "hour", "hours"), 60.0, None),
        Unit(("d", "day", "days"), 1440.0, None),
    ),
    'a time span such as "45 min" or "1 h 20"',
    (Trap(("m", "M"), "a unit with two readings, minute or month", 'write "min"'),),
)
SPEED = Dimension(
    "a speed",
    (
        Unit(("km/h", "kmh", "km/hr", "kph", "km per hour", "km an hour"), 1000 / 3600),
        Unit(("m/s", "metres per second"), 1.0),
        Unit(("mph", "mi/h", "mi/hr", "miles per hour", "miles an hour"), MILE_M / 3600, "us"),
    ),
    'a speed such as "4.5 km/h", "2.8 mph" or "13 min/km"',
)
PACE: Mapping[str, tuple[float, System]] = {
    "min/km": (1000.0, "metric"),
    "min per km": (1000.0, "metric"),
    "/km": (1000.0, "metric"),
    "min/mi": (MILE_M, "us"),
    "min/mile": (MILE_M, "us"),
    "min per mile": (MILE_M, "us"),
    "/mi": (MILE_M, "us"),
}
"""Spelling of a pace -> (metres, system)."""

CURRENCY: Mapping[str, str] = {"€": "EUR", "£": "GBP", "$": "USD", "US$": "USD", "¥": "JPY"}

FOLLOWING = {"h": "min", "min": "s", "ft": "in", "st": "lb"}
"""The unit that goes without saying after another one: ``1 h 20``, ``5 ft 10``, ``11 st 6``."""
