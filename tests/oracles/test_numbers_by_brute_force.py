"""Numbers read by us against a slow, obvious reader that knows two ways of writing and no rules.

The oracle: one country writes 1,234.5 and the other 1.234,5. A text has as many readings as it has
values in these two; one value is the reading, none or two are refused. Every text over a few signs
is tried, so that no rule of ours has a hole.
"""

from __future__ import annotations

import itertools
import re

import pytest

from oatsack.errors import UnitError
from oatsack.units import mass_g, number
from oatsack.units.numbers import TwoReadings
from support.amount import some

WAYS = [(".", ","), (",", ".")]
"""Decimal sign and grouping sign of each country."""


def value_in(text: str, decimal: str, group: str) -> float | None:
    """What a text means in one country; None if nobody there would write it."""
    d, g = re.escape(decimal), re.escape(group)
    plain = rf"\d+(?:{d}\d+)?|{d}\d+"
    grouped = rf"[1-9]\d{{0,2}}(?:{g}\d{{3}})+(?:{d}\d+)?"
    if not re.fullmatch(f"{plain}|{grouped}", text):
        return None
    return float(text.replace(group, "").replace(decimal, "."))


def readings(text: str) -> set[float]:
    return {value for d, g in WAYS if (value := value_in(text, d, g)) is not None}


def texts(signs: str, longest: int) -> list[str]:
    return [
        "".join(chosen)
        for length in range(1, longest + 1)
        for chosen in itertools.product(signs, repeat=length)
    ]


def ours(text: str) -> set[float]:
    try:
        return {number(text)}
    except TwoReadings as error:
        return {float(reading) for reading in error.readings}
    except UnitError:
        return set()


@pytest.mark.parametrize("signs", some(["01.", "1.,", "01,", "05.,"], 4))
def test_every_short_text_has_the_readings_of_the_two_countries(signs: str) -> None:
    longest = 8 if len(signs) == 3 else 7
    wrong = [
        (text, ours(text), readings(text))
        for text in texts(signs, longest)
        if ours(text) != readings(text)
    ]
    assert wrong == []


def test_the_texts_hold_all_three_cases() -> None:
    counts = [len(readings(text)) for text in texts("1.,", 7)]
    assert min(counts.count(0), counts.count(1), counts.count(2)) >= 6


@pytest.mark.parametrize(("decimal", "group"), WAYS)
def test_with_the_sign_known_a_text_means_what_it_means_in_that_country(
    decimal: str, group: str
) -> None:
    for text in texts("01.,", 7):
        expected = value_in(text, decimal, group)
        try:
            got: float | None = number(text, decimal=decimal)  # type: ignore[arg-type]
        except UnitError:
            got = None
        assert got == expected, text


def test_a_unit_behind_changes_no_reading() -> None:
    for text in texts("1.,", 6):
        found = readings(text)
        try:
            got = {mass_g(f"{text} g")}
        except UnitError as error:
            got = set()
            if len(found) == 2:
                assert "two readings" in error.wrong, text
        assert got == (found if len(found) == 1 else set()), text
