"""Numbers without unit as people write them, and the definitions that units rest on."""

from __future__ import annotations

import pytest

from oatsack import units
from oatsack.errors import UnitError
from oatsack.units import tables
from oatsack.units.numbers import TwoReadings, tidy
from oatsack.units.tables import Dimension
from support.each import each


@each(
    ("text", "value"),
    [
        ("0", 0.0),
        ("7", 7.0),
        ("007", 7.0),
        ("1.5", 1.5),
        ("1,5", 1.5),
        ("1,50", 1.5),
        ("1.2345", 1.2345),
        ("0.125", 0.125),
        ("0,125", 0.125),
        (".5", 0.5),
        (",5", 0.5),
        ("1234,567", 1234.567),
        ("1234.567", 1234.567),
        ("1 234", 1234.0),
        ("1 234 567", 1_234_567.0),
        ("1 234,5", 1234.5),
        ("1 234.567", 1234.567),
        ("1'234", 1234.0),
        ("1’234’567", 1_234_567.0),
        ("1,234.5", 1234.5),
        ("1.234,5", 1234.5),
        ("1,234,567", 1_234_567.0),
        ("1.234.567", 1_234_567.0),
        ("1,234,567.8", 1_234_567.8),
        ("-3", -3.0),
        ("−3,5", -3.5),
        ("+3", 3.0),
        ("½", 0.5),
        ("1½", 1.5),
        ("1 ½", 1.5),
        ("⅞", 0.875),
        ("2⅔", 8 / 3),
        ("3/4", 0.75),
        ("3 / 4", 0.75),
        ("1 3/4", 1.75),
        ("10 1/2", 10.5),
        ("1⁄2", 0.5),
        ("１２", 12.0),
        (" 12 ", 12.0),
    ],
)
def test_a_number_has_its_value(text: str, value: float) -> None:
    assert units.number(text) == pytest.approx(value, rel=1e-12)


@each(
    "text",
    ["", " ", "-", "+", "a", "1a", "a1", "1e3", "0x10", "1_000", "1 2", "1 23 456", "1.2.3",
     "1,2,3", "1.,5", "1,.5", "1.", "1,", "1/", "/2", "1/0", "1/2/3", "1.5/2", "½½", "∞", "nan",
     "1 234 56", "12 34", "1'23", "1'2345", "1,234,56", "1.234.56", "٣", "²", "--1", "1-2", "(1)",
     "01 234", "1 234'567"],
)  # fmt: skip
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(UnitError) as caught:
        units.number(text)
    assert not isinstance(caught.value, TwoReadings)
    assert caught.value.instead


@each(
    ("text", "large", "small"),
    [
        ("1,500", "1500", "1.5"),
        ("1.500", "1500", "1.5"),
        ("1,000", "1000", "1"),
        ("12.345", "12345", "12.3450"),
        ("999,999", "999999", "999.9990"),
        ("100,010", "100010", "100.01"),
    ],
)
def test_three_digits_behind_one_sign_have_two_readings(text: str, large: str, small: str) -> None:
    with pytest.raises(TwoReadings) as caught:
        units.number(text)
    assert caught.value.readings == (large, small)
    assert units.number(large) == 1000 * units.number(small)


@each(
    ("text", "decimal", "value"),
    [
        ("1,500", ".", 1500.0),
        ("1,500", ",", 1.5),
        ("1.500", ".", 1.5),
        ("1.500", ",", 1500.0),
        ("1.5", ".", 1.5),
        ("1,5", ",", 1.5),
        ("12,345,678", ".", 12_345_678.0),
        ("1 500,25", ",", 1500.25),
        ("1 500.250", ".", 1500.25),
        ("-1.500", ".", -1.5),
        ("1 1/2", ",", 1.5),
    ],
)
def test_a_known_decimal_sign_decides(text: str, decimal: str, value: float) -> None:
    assert units.number(text, decimal=decimal) == value  # type: ignore[arg-type]


@each(
    ("text", "clean"),
    [
        ("  a  b ", "a b"),
        ("1\u2009500\u202fg", "1 500 g"),
        ("½", "1/2"),
        ("1½", "1 1/2"),
        ("−5 ℃", "-5 °C"),
        ("64 ℉", "64 °F"),
        ("700 in³", "700 cuin"),
        ("700 in^3", "700 cuin"),
        ("700 cu. in.", "700 cuin"),
        ("700 cubic inches", "700 cuin"),
        ("12 in", "12 in"),
        ("㎏", "kg"),
        ("500 cm³", "500 cc"),
        ("m²", "m^2"),
    ],
)
def test_a_text_is_tidied(text: str, clean: str) -> None:
    assert tidy(text) == clean


# ---------------------------------------------------------------------------- definitions


@each(
    ("dimension", "larger", "count", "smaller"),
    [
        (tables.MASS, "kg", 1000, "g"),
        (tables.MASS, "g", 1000, "mg"),
        (tables.MASS, "lb", 16, "oz"),
        (tables.LENGTH, "km", 1000, "m"),
        (tables.LENGTH, "m", 100, "cm"),
        (tables.LENGTH, "cm", 10, "mm"),
        (tables.LENGTH, "mi", 1760, "yd"),
        (tables.LENGTH, "mi", 5280, "ft"),
        (tables.LENGTH, "yd", 3, "ft"),
        (tables.LENGTH, "ft", 12, "in"),
        (tables.VOLUME, "l", 1000, "ml"),
        (tables.VOLUME, "l", 10, "dl"),
        (tables.VOLUME, "dl", 10, "cl"),
        (tables.VOLUME, "gal", 4, "qt"),
        (tables.VOLUME, "qt", 2, "pt"),
        (tables.VOLUME, "pt", 2, "cup"),
        (tables.VOLUME, "cup", 8, "fl oz"),
        (tables.VOLUME, "cup", 16, "tbsp"),
        (tables.VOLUME, "tbsp", 3, "tsp"),
        (tables.VOLUME, "gal", 231, "cuin"),
        (tables.ENERGY, "MJ", 1000, "kJ"),
        (tables.POWER, "kW", 1000, "W"),
        (tables.SPAN, "d", 24, "h"),
        (tables.SPAN, "h", 60, "min"),
        (tables.SPAN, "min", 60, "s"),
    ],
)
def test_units_are_whole_multiples_of_each_other(
    dimension: Dimension, larger: str, count: int, smaller: str
) -> None:
    """Definitions, from memory."""
    ratio = dimension.exact[larger].factor / dimension.exact[smaller].factor
    assert ratio == pytest.approx(count, rel=1e-12)


@each(
    ("got", "exact"),
    [
        (tables.INCH_M, 0.0254),
        (tables.FOOT_M, 0.3048),
        (tables.MILE_M, 1609.344),
        (tables.POUND_G, 453.59237),
        (tables.OUNCE_G, 28.349523125),
        (tables.INCH3_ML, 16.387064),
        (tables.GALLON_ML, 3785.411784),
        (tables.FLUID_OUNCE_ML, 29.5735295625),
        (tables.CUP_ML, 236.5882365),
        (1 / tables.ENERGY.exact["kJ"].factor, 4.184),
    ],
)
def test_us_units_are_the_exact_ones(got: float, exact: float) -> None:
    """Exact by definition, from memory; 4.184 kJ as in Usda2015."""
    assert got == pytest.approx(exact, rel=1e-12)


DIMENSIONS = [
    tables.MASS, tables.LENGTH, tables.VOLUME, tables.ENERGY, tables.POWER, tables.TEMPERATURE,
    tables.DIFFERENCE, tables.SPAN, tables.SPEED,
]  # fmt: skip


@each("dimension", DIMENSIONS, ids=lambda one: one.word)
def test_no_spelling_means_two_units_or_is_a_trap_as_well(dimension: Dimension) -> None:
    names = [name for unit in dimension.units for name in unit.names]
    assert len(names) == len(set(names))
    assert set(names).isdisjoint(dimension.caught)


@each("dimension", DIMENSIONS, ids=lambda one: one.word)
def test_every_spelling_is_read(dimension: Dimension) -> None:
    from oatsack.units.read import measure

    for unit in dimension.units:
        for name in unit.names:
            found = measure(f"2 {name}", dimension)
            assert found.value == pytest.approx(2 * unit.factor + unit.zero)
            assert found.system == unit.system


@each("dimension", DIMENSIONS, ids=lambda one: one.word)
def test_every_trap_is_refused_with_what_to_write(dimension: Dimension) -> None:
    from oatsack.units.read import measure

    for name, trap in dimension.caught.items():
        with pytest.raises(UnitError) as caught:
            measure(f"2 {name}", dimension)
        assert (caught.value.wrong, caught.value.instead) == (trap.wrong, trap.instead)


@each("dimension", DIMENSIONS, ids=lambda one: one.word)
def test_the_examples_of_a_dimension_are_read(dimension: Dimension) -> None:
    from oatsack.units import speed
    from oatsack.units.read import measure

    examples = dimension.example.split('"')[1::2]
    assert examples
    for example in examples:
        if "min/km" in example:
            assert speed(example).value > 0
        else:
            assert measure(example, dimension).value > 0
