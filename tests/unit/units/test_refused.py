"""Texts that must be refused, with what is said about them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from oatsack import units
from oatsack.errors import UnitError
from support.each import each

Reader = Callable[[str], object]


def complaint(reader: Reader, text: str) -> UnitError:
    with pytest.raises(UnitError) as caught:
        reader(text)
    assert caught.value.read == f'"{text}"'
    assert caught.value.instead
    return caught.value


TWO_READINGS: list[tuple[Reader, str, tuple[str, str]]] = [
    (units.length_m, "1,500 m", ("1500 m", "1.5 m")),
    (units.length_m, "1.500 m", ("1500 m", "1.5 m")),
    (units.mass_g, "12,345 kg", ("12345 kg", "12.3450 kg")),
    (units.mass_g, "1.125 lb", ("1125 lb", "1.1250 lb")),
    (units.energy_kcal, "2,200 kcal", ("2200 kcal", "2.2 kcal")),
    (units.volume_ml, "1,000 ml", ("1000 ml", "1 ml")),
    (units.mass_g, "3 lb 1,500 oz", ("3 lb 1500 oz", "3 lb 1.5 oz")),
    (units.share, "1,500 %", ("1500 %", "1.5 %")),
    (units.money, "1,500 EUR", ("1500 EUR", "1.5 EUR")),
]


@each(
    ("reader", "text", "readings"),
    TWO_READINGS,
    ids=lambda one: one if isinstance(one, str) else None,
)
def test_a_number_with_two_readings_is_refused_with_both(
    reader: Reader, text: str, readings: tuple[str, str]
) -> None:
    error = complaint(reader, text)
    assert error.wrong.startswith("a number with two readings")
    assert error.instead == f'write "{readings[0]}" or "{readings[1]}"'


@each(
    ("reader", "text", "readings"),
    TWO_READINGS,
    ids=lambda one: one if isinstance(one, str) else None,
)
def test_each_of_the_two_readings_is_read(
    reader: Reader, text: str, readings: tuple[str, str]
) -> None:
    if text != "3 lb 1,500 oz":  # there one reading is more ounces than a pound has
        values = [reader(reading) for reading in readings]
        assert values[0] != values[1]


@each(("decimal", "value"), [(".", 1500.0), (",", 1.5)], ids=["point", "comma"])
def test_a_known_decimal_sign_leaves_one_reading(decimal: str, value: float) -> None:
    assert units.mass_g("1,500 g", decimal=decimal) == value  # type: ignore[arg-type]
    assert units.number("1,500", decimal=decimal) == value  # type: ignore[arg-type]


@each(("text", "decimal"), [("1,50", "."), ("1.50", ","), ("1,5.0", ".")])
def test_a_number_against_the_files_decimal_sign_is_refused(text: str, decimal: str) -> None:
    with pytest.raises(UnitError):
        units.number(text, decimal=decimal)  # type: ignore[arg-type]


@each(
    ("reader", "text", "said"),
    [
        (units.volume_ml, "8 oz", "fluid ounce (29.6 ml) or ounce of mass (28.3 g)"),
        (units.volume_ml, "2 c", "cup (237 ml) or centilitre (10 ml)"),
        (units.volume_ml, "2 C", "cup (237 ml) or centilitre (10 ml)"),
        (units.volume_ml, "2 T", "teaspoon (5 ml) or tablespoon (15 ml)"),
        (units.mass_g, "8 fl oz", "a volume where a mass is needed"),
        (units.mass_g, "2 t", "tonne or teaspoon"),
        (units.length_m, "3 M", "metre or mile"),
        (units.energy_kcal, "500 cal", "food calorie (1 kcal) or gram calorie (0.001 kcal)"),
        (units.energy_kcal, "500 calories", "food calorie"),
        (units.temperature_c, "18°", "C or F"),
        (units.temperature_c, "18 deg", "C or F"),
        (units.minutes, "5 m", "minute or month"),
        (units.minutes, "1:20", "1 h 20 min or 1 min 20 s"),
        (units.share, "75", "75 % or 75 times"),
    ],
)
def test_a_unit_with_two_readings_is_refused_with_both(
    reader: Reader, text: str, said: str
) -> None:
    assert said in complaint(reader, text).wrong


@each(
    "reader",
    [units.mass_g, units.length_m, units.volume_ml, units.energy_kcal, units.power_w,
     units.temperature_c, units.difference_k, units.minutes, units.speed_ms],
)  # fmt: skip
@each("text", ["68", "1,5", "1/2", "½"])
def test_a_number_without_its_unit_is_refused_with_an_example(reader: Reader, text: str) -> None:
    error = complaint(reader, text)
    assert error.wrong.endswith("without its unit")
    assert " such as " in error.instead


@each(
    "reader",
    [units.mass_g, units.length_m, units.volume_ml, units.energy_kcal, units.power_w,
     units.temperature_c, units.minutes, units.clock_min, units.speed_ms, units.money,
     units.share],
)  # fmt: skip
@each(
    "text",
    ["", " ", "abc", "kg", "~3 kg", "2-3 kg", "3 kg!", "1/0 kg", "1e3 kg", "٣٫ kg", "11 st 15",
     "1,2,3 kg", "1..5 kg", "1,,5 kg", "--3 kg", "3 kg 4", "NaN kg", "inf kg", "3 4 kg", "+ kg"],
)  # fmt: skip
def test_what_is_no_quantity_is_refused(reader: Reader, text: str) -> None:
    complaint(reader, text)


@each("text", ["3 lb 20 oz", "3 oz 1 lb", "3 lb 3 lb", "5 ft 12 in"])
def test_parts_that_do_not_go_together_are_refused(text: str) -> None:
    reader = units.length_m if "ft" in text else units.mass_g
    assert "do not go with" in complaint(reader, text).wrong


def test_metric_and_us_units_in_one_quantity_are_refused() -> None:
    assert "metric and US" in complaint(units.mass_g, "1 kg 3 oz").wrong


@each("text", ["7", "24:00", "7:60", "13 pm", "0:30 am", "7:3", "noon", "730"])
def test_what_is_no_time_of_day_is_refused(text: str) -> None:
    assert "time of day" in complaint(units.clock_min, text).wrong


@each("text", ["80", "80 kr", "EUR", "80 EUR 5", "€80$", "eighty EUR"])
def test_what_is_no_amount_of_money_is_refused(text: str) -> None:
    assert "money" in complaint(units.money, text).wrong


@each(
    ("text", "amount", "currency"),
    [
        ("80 EUR", 80.0, "EUR"), ("€80", 80.0, "EUR"), ("12,50 €", 12.5, "EUR"),
        ("$ 1.234,56", 1234.56, "USD"), ("CHF 1'500", 1500.0, "CHF"), ("£5", 5.0, "GBP"),
    ],
)  # fmt: skip
def test_money_has_an_amount_and_a_currency(text: str, amount: float, currency: str) -> None:
    assert units.money(text) == (amount, currency)


def test_the_message_says_what_is_wrong_what_was_read_and_what_to_write() -> None:
    assert str(complaint(units.mass_g, "68")) == (
        'a mass without its unit, got "68"; write a mass such as "68 kg", "250 g", "3 lb 4 oz"'
    )
