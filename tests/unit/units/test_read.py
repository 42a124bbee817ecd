"""Spellings people use, each with the value it must have; and those that must be refused."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from oatsack import units
from oatsack.errors import UnitError
from support.each import each

THIN, NARROW, HARD = "\u2009", "\u202f", "\u00a0"

MASS = [
    ("68 kg", 68_000.0),
    ("68kg", 68_000.0),
    ("68 KG", 68_000.0),
    ("250 g", 250.0),
    ("1,5 kg", 1500.0),
    ("1.5 kg", 1500.0),
    ("1,50 kg", 1500.0),
    ("0,500 kg", 500.0),
    ("0.500 kg", 500.0),
    (".5 kg", 500.0),
    ("1.2345 kg", 1234.5),
    ("1.234,5 g", 1234.5),
    ("1,234.5 g", 1234.5),
    ("1,234,567 g", 1_234_567.0),
    ("1.234.567 g", 1_234_567.0),
    ("1 500 g", 1500.0),
    (f"1{THIN}500 g", 1500.0),
    (f"1{NARROW}500{HARD}g", 1500.0),
    ("1'500 g", 1500.0),
    ("12 345,6 g", 12_345.6),
    ("200 mg", 0.2),
    ("3 oz", 85.04856940),
    ("3 oz.", 85.04856940),
    ("1 lb", 453.59237),
    ("3 lb 4 oz", 1474.1752025),
    ("3 lbs, 4 oz", 1474.1752025),
    ("3 lb and 4 oz", 1474.1752025),
    ("150 pounds", 68_038.8555),
    ("½ lb", 226.796185),
    ("1½ lb", 680.388555),
    ("1 ½ lb", 680.388555),
    ("1 1/2 lb", 680.388555),
    ("3/4 lb", 340.1942775),
    ("⅓ oz", 9.44984104),
    ("1 kg 200 g", 1200.0),
    ("-5 kg", -5000.0),
    ("11 st", 154 * 453.59237),
    ("11 st 6 lb", 160 * 453.59237),
    ("11 st 6", 160 * 453.59237),
    ("−5 kg", -5000.0),
    ("+5 kg", 5000.0),
]
LENGTH = [
    ("16 km", 16_000.0),
    ("700 m", 700.0),
    ("178 cm", 1.78),
    ("1 m 78 cm", 1.78),
    ("110 mm", 0.11),
    ("12.4 mi", 19_955.8656),
    ("12,4 miles", 19_955.8656),
    ("2300 ft", 701.04),
    ("2 300 feet", 701.04),
    ("5 ft 10 in", 1.778),
    ("5 ft 10", 1.778),
    ("5'10", 1.778),
    ("5'10\"", 1.778),
    ("5′10″", 1.778),
    ("5’ 10”", 1.778),
    ("5 ft", 1.524),
    ("70 in", 1.778),
    ("100 yd", 91.44),
]
VOLUME = [
    ("475 ml", 475.0),
    ("1.3 l", 1300.0),
    ("1,3 L", 1300.0),
    ("2 litres", 2000.0),
    ("25 cl", 250.0),
    ("½ cup", 118.29411825),
    ("2 cups", 473.176473),
    ("16 fl oz", 473.176473),
    ("16 fl. oz.", 473.176473),
    ("16 floz", 473.176473),
    ("8 fluid ounces", 236.5882365),
    ("1 qt", 946.352946),
    ("1 gal", 3785.411784),
    ("700 in³", 11_470.9448),
    ("700 in3", 11_470.9448),
    ("700 in^3", 11_470.9448),
    ("700 cu in", 11_470.9448),
    ("700 cubic in", 11_470.9448),
    ("2 tbsp", 29.5735295625),
]
ENERGY = [
    ("2200 kcal", 2200.0),
    ("2200kcal", 2200.0),
    ("2 200 kcal", 2200.0),
    ("350 Cal", 350.0),
    ("350 Calories", 350.0),
    ("9200 kJ", 9200 / 4.184),
    ("9,2 MJ", 9200 / 4.184),
]
TEMPERATURE = [
    ("18 C", 18.0),
    ("18 °C", 18.0),
    ("18℃", 18.0),
    ("-5 C", -5.0),
    ("64 F", 160 / 9),
    ("32°F", 0.0),
    ("-4 F", -20.0),
    ("-40 °F", -40.0),
    ("273.15 K", 0.0),
]
SPAN = [
    ("45 min", 45.0),
    ("1 h 20", 80.0),
    ("1 h 20 min", 80.0),
    ("1h20", 80.0),
    ("3 min 40", 220 / 60),
    ("3 min 40 s", 220 / 60),
    ("1:20 h", 80.0),
    ("1.5 h", 90.0),
    ("1½ hours", 90.0),
    ("90 s", 1.5),
    ("2 days", 2880.0),
]
CLOCK = [
    ("7:30", 450.0),
    ("07:30", 450.0),
    ("7.30", 450.0),
    ("7h30", 450.0),
    ("19:05", 1145.0),
    ("7 am", 420.0),
    ("7:30 p.m.", 1170.0),
    ("12 am", 0.0),
    ("12:30 pm", 750.0),
    ("0:00", 0.0),
    ("23:59", 1439.0),
]
SPEED = [
    ("4.5 km/h", 1.25),
    ("4,5 kmh", 1.25),
    ("1.2 m/s", 1.2),
    ("3 mph", 1.34112),
    ("13 min/km", 1000 / 780),
    ("12:30 min/km", 1000 / 750),
    ("12:30 /km", 1000 / 750),
    ("20 min/mi", 1609.344 / 1200),
    ("20 min per mile", 1609.344 / 1200),
]
SHARE = [
    ("75%", 0.75),
    ("75 %", 0.75),
    ("7,5 %", 0.075),
    ("3/4", 0.75),
    ("¾", 0.75),
    ("0.75", 0.75),
    ("120%", 1.2),
    ("1", 1.0),
]
POWER = [("1800 W", 1800.0), ("1.8 kW", 1800.0), ("10 000 BTU/h", 2930.7107)]
DIFFERENCE = [("10 C", 10.0), ("18 F", 10.0), ("10 K", 10.0)]


def rows(reader: Callable[[str], float], table: list[tuple[str, float | None]]) -> list[object]:
    return [
        pytest.param(reader, text, value, id=text) for text, value in table if value is not None
    ]


@each(
    ("reader", "text", "value"),
    [
        *rows(units.mass_g, MASS),
        *rows(units.length_m, LENGTH),
        *rows(units.volume_ml, VOLUME),
        *rows(units.energy_kcal, ENERGY),
        *rows(units.temperature_c, TEMPERATURE),
        *rows(units.difference_k, DIFFERENCE),
        *rows(units.minutes, SPAN),
        *rows(units.clock_min, CLOCK),
        *rows(units.speed_ms, SPEED),
        *rows(units.share, SHARE),
        *rows(units.power_w, POWER),
    ],
)
def test_a_spelling_has_its_value(reader: Callable[[str], float], text: str, value: float) -> None:
    assert reader(text) == pytest.approx(value, rel=1e-8, abs=1e-9)


@each(
    ("text", "minutes"),
    [("0:00", 0.0), ("23:59", 1439.0), ("7 am", 420.0), ("12 am", 0.0), ("12 pm", 720.0),
     ("12:30 am", 30.0), ("1:05 p.m.", 785.0), ("7.30", 450.0), ("7h30", 450.0),
     ("19:05 h", 1145.0), ("7 AM", 420.0)],
)  # fmt: skip
def test_a_time_of_day_has_its_minute(text: str, minutes: float) -> None:
    assert units.clock_min(text) == minutes


@each("text", ["24:00", "7:60", "13 pm", "0 am", "7", "noon", "7:5", "-7:00", "7:30:00", ""])
def test_what_is_no_time_of_day_is_refused(text: str) -> None:
    with pytest.raises(UnitError):
        units.clock_min(text)


@each(
    ("text", "ms", "system"),
    [
        ("4.5 km/h", 1.25, "metric"), ("13 min/km", 1000 / 780, "metric"),
        ("12:30 /km", 1000 / 750, "metric"), ("12:30 min per km", 1000 / 750, "metric"),
        ("20 min/mi", 1609.344 / 1200, "us"), ("20 min per mile", 1609.344 / 1200, "us"),
        ("1.2 m/s", 1.2, "metric"), ("2.5 mph", 1.1176, "us"), ("13 MIN/KM", 1000 / 780, "metric"),
    ],
)  # fmt: skip
def test_a_pace_is_turned_over_into_a_speed(text: str, ms: float, system: str) -> None:
    # 1 mi = 1,609.344 m by definition.
    found = units.speed(text)
    assert (found.value, found.system) == (pytest.approx(ms), system)
    assert units.speed_ms(text) == found.value


@each("text", ["0 min/km", "0:00 /km", "-5 min/km", "12:60 /km", "13 min", "km/h", "5 /h"])
def test_a_pace_that_leads_nowhere_is_refused(text: str) -> None:
    with pytest.raises(UnitError):
        units.speed(text)


@each(
    ("text", "amount", "currency"),
    [("80 EUR", 80.0, "EUR"), ("EUR 80", 80.0, "EUR"), ("€80", 80.0, "EUR"), ("80€", 80.0, "EUR"),
     ("$12.50", 12.5, "USD"), ("US$5", 5.0, "USD"), ("1 234,50 EUR", 1234.5, "EUR"),
     ("1'234.50 CHF", 1234.5, "CHF"), ("£0", 0.0, "GBP"), ("-5 EUR", -5.0, "EUR")],
)  # fmt: skip
def test_money_is_an_amount_and_three_letters(text: str, amount: float, currency: str) -> None:
    assert units.money(text) == (amount, currency)


@each(
    ("text", "wrong"),
    [("80", "needs its currency"), ("80 eur", "not an amount"), ("EUR", "not an amount"),
     ("80 EURO", "not an amount"), ("€€5", "not an amount"), ("1,500 EUR", "two readings")],
)  # fmt: skip
def test_money_says_what_it_lacks(text: str, wrong: str) -> None:
    with pytest.raises(UnitError, match=wrong):
        units.money(text)


@each(
    ("text", "share"),
    [("75%", 0.75), ("75 %", 0.75), ("3/4", 0.75), ("0.75", 0.75), ("1", 1.0), ("0", 0.0),
     ("150%", 1.5), ("5/4", 1.25), ("-0.5", -0.5), ("12,5 %", 0.125), ("½", 0.5)],
)  # fmt: skip
def test_a_share_is_a_part_of_one(text: str, share: float) -> None:
    assert units.share(text) == pytest.approx(share)


@each(
    ("text", "wrong"),
    [("75", "two readings, 75 %"), ("1.01", "two readings"), ("much", "not a share"),
     ("%", "not a share")],
)  # fmt: skip
def test_a_bare_number_above_one_is_no_share(text: str, wrong: str) -> None:
    with pytest.raises(UnitError, match=wrong):
        units.share(text)


@each(
    ("texts", "system"),
    [
        ((), "metric"), (("68 kg", "16 km"), "metric"), (("150 lb", "10 mi"), "us"),
        (("68 kg", "150 lb"), "metric"),  # neither wins
        (("68 kg", "150 lb", "2 fl. oz"), "us"),
        (("2200 kcal", "45 min", "150 lb."), "us"),  # what both write says nothing
        (("16 km, 2300 ft", "5 ft 10 in"), "us"),
        (("four miles",), "metric"),
    ],
)  # fmt: skip
def test_the_units_of_most_texts_are_the_walkers_own(
    texts: tuple[str, ...], system: str
) -> None:
    assert units.written_in(texts) == system


@each(
    ("reader", "text", "value"),
    [
        (units.mass_kg, "150 lb", 68.0388555), (units.mass_kg, "11 st 6", 72.5747792),
        (units.mass_mg, "0.2 g", 200.0), (units.length_cm, "5 ft 10", 177.8),
        (units.length_mm, "4.5 in", 114.3), (units.difference_k, "18 F", 10.0),
        (units.temperature_c, "-40 F", -40.0), (units.temperature_c, "273.15 K", 0.0),
        (units.power_w, "1.8 kW", 1800.0), (units.energy_kcal, "41.84 kJ", 10.0),
        (units.volume_ml, "1 gal", 3785.411784), (units.minutes, "1 h 20", 80.0),
        (units.minutes, "90 s", 1.5), (units.minutes, "2 d", 2880.0),
    ],
)  # fmt: skip
def test_units_are_exact_by_their_definitions(
    reader: Callable[[str], float], text: str, value: float
) -> None:
    # 1 in = 25.4 mm, 1 lb = 453.59237 g, 1 gal = 231 cubic inches, 1 kcal = 4.184 kJ.
    assert reader(text) == pytest.approx(value, rel=1e-8)
