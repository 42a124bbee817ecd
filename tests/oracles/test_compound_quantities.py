"""Quantities of several parts against exact sums in whole numbers and fractions.

The oracle counts in the smallest unit with integers and fractions, and knows no floats until the
end; spellings are written by it, not by us.
"""

from __future__ import annotations

import itertools
from fractions import Fraction

import pytest

from oatsack import units
from oatsack.errors import UnitError
from support.each import each

OUNCE_G = Fraction(45359237, 100000 * 16)
INCH_M = Fraction(254, 10000)
VULGAR = {"": Fraction(0), "¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4),
          "⅓": Fraction(1, 3), "⅔": Fraction(2, 3), "⅛": Fraction(1, 8)}  # fmt: skip


def near(got: float, exact: Fraction) -> bool:
    return abs(Fraction(got) - exact) <= abs(exact) * Fraction(1, 10**13)


@each("pounds", range(0, 12, 3))
def test_pounds_and_ounces_with_fractions(pounds: int) -> None:
    for ounces, (sign, part) in itertools.product(range(16), VULGAR.items()):
        exact = (16 * pounds + ounces + part) * OUNCE_G
        for text in (f"{pounds} lb {ounces}{sign} oz", f"{pounds}lb {ounces}{sign}oz",
                     f"{pounds} lbs, {ounces}{sign} ounces"):  # fmt: skip
            assert near(units.mass_g(text), exact), text


@each("feet", [1, 4, 5, 6])
def test_feet_and_inches(feet: int) -> None:
    for inches, (sign, part) in itertools.product(range(12), VULGAR.items()):
        exact = (12 * feet + inches + part) * INCH_M
        for text in (f"{feet} ft {inches}{sign} in", f"{feet}'{inches}{sign}\"",
                     f"{feet}′ {inches}{sign}″"):  # fmt: skip
            assert near(units.length_m(text), exact), text


@each("hours", [0, 1, 2, 11])
def test_hours_and_minutes(hours: int) -> None:
    for minutes in range(60):
        exact = 60 * hours + minutes
        for text in (f"{hours} h {minutes} min", f"{hours} h {minutes}", f"{hours}h{minutes:02d}",
                     f"{hours}:{minutes:02d} h"):  # fmt: skip
            assert units.minutes(text) == exact, text


@each("hour", range(24))
def test_times_of_day_on_both_clocks(hour: int) -> None:
    for minute in (0, 5, 30, 59):
        exact = 60 * hour + minute
        half = "am" if hour < 12 else "pm"
        twelve = hour % 12 or 12
        for text in (
            f"{hour}:{minute:02d}",
            f"{hour:02d}:{minute:02d}",
            f"{hour}.{minute:02d}",
            f"{twelve}:{minute:02d} {half}",
            f"{twelve}:{minute:02d}{half.upper()}",
        ):
            assert units.clock_min(text) == exact, text


@each("fahrenheit", range(-60, 140, 7))
def test_fahrenheit(fahrenheit: int) -> None:
    exact = Fraction(5 * (fahrenheit - 32), 9)
    got = units.temperature_c(f"{fahrenheit} F")
    assert abs(Fraction(got) - exact) < Fraction(1, 10**12)
    assert abs(Fraction(units.difference_k(f"{fahrenheit} F")) - Fraction(5 * fahrenheit, 9)) < (
        Fraction(1, 10**12)
    )


@each("seconds", range(300, 1500, 61))
def test_a_pace_is_a_speed_turned_over(seconds: int) -> None:
    minutes, rest = divmod(seconds, 60)
    exact = Fraction(1000, seconds)
    assert near(units.speed_ms(f"{minutes}:{rest:02d} min/km"), exact)
    assert near(units.speed_ms(f"{minutes}:{rest:02d} /km"), exact)
    assert near(units.speed_ms(f"{minutes}:{rest:02d} min/mi"), exact * Fraction(1609344, 1000000))


@each("cups", range(4))
def test_cups_with_fractions(cups: int) -> None:
    cup_ml = Fraction(231 * 16387064, 16 * 1000000)
    for sign, part in VULGAR.items():
        if cups or part:
            text = f"{cups or ''}{sign} cups"
            assert near(units.volume_ml(text), (cups + part) * cup_ml), text


@each("whole", [0, 1, 12, 999])
def test_shares_as_percent_fraction_and_decimal(whole: int) -> None:
    exact = Fraction(whole, 1000)
    assert near(units.share(f"{whole}/1000"), exact)
    assert near(units.share(f"{whole / 10:.1f} %"), exact)
    assert near(units.share(f"{whole / 10:.1f}%".replace(".", ",")), exact)


def test_every_pair_of_units_in_the_wrong_order_is_refused() -> None:
    for (small, large), number in itertools.product(
        [("oz", "lb"), ("in", "ft"), ("ft", "mi"), ("g", "kg"), ("cm", "m")], (1, 3)
    ):
        reader = units.mass_g if large in ("lb", "kg") else units.length_m
        with pytest.raises(UnitError):
            reader(f"{number} {small} {number} {large}")


def test_a_part_as_large_as_the_unit_above_it_is_refused() -> None:
    for text, reader in (("1 lb 16 oz", units.mass_g), ("5 ft 12 in", units.length_m),
                         ("1 kg 1000 g", units.mass_g), ("1 h 60 min", units.minutes)):  # fmt: skip
        with pytest.raises(UnitError):
            reader(text)
