"""One cell at a time: what is read, what is refused, and what to write instead."""

from __future__ import annotations

import datetime as dt

import pytest

from oatsack.files import cells
from oatsack.files.cells import BadCell, Measure
from oatsack.files.sheet import Decimal
from support.each import each


@each(
    ("text", "decimal", "measure", "value"),
    [
        ("85", ".", "mass_g", 85.0),
        ("1,5", ",", "mass_g", 1.5),
        ("3 oz", ".", "mass_g", 85.0486),
        ("1,5 kg", ",", "mass_g", 1500.0),
        ("1 lb 4 oz", ".", "mass_g", 566.99),
        ("½", ".", "number", 0.5),
        ("1 1/2", ".", "number", 1.5),
        ("16 fl oz", ".", "volume_ml", 473.18),
        ("2 cups", ".", "volume_ml", 473.18),
        ("0.5 l", ".", "volume_ml", 500.0),
        ("1046 kJ", ".", "energy_kcal", 250.0),
        ("250 kcal", ".", "energy_kcal", 250.0),
        ("0.3 g", ".", "mass_mg", 300.0),
        ("1 h 30", ".", "minutes", 90.0),
        ("1.234,5 g", ",", "mass_g", 1234.5),
    ],
)
def test_quantities_are_read_with_and_without_units(
    text: str, decimal: Decimal, measure: Measure, value: float
) -> None:
    assert cells.quantity(text, decimal, measure) == pytest.approx(value, abs=0.01)


@each(
    ("text", "measure", "wrong"),
    [
        ("-5", "mass_g", "is below zero"),
        ("-5 g", "mass_g", "is below zero"),
        ("−5", "mass_g", "is below zero"),
        ("5 miles", "mass_g", "no unit of a mass"),
        ("5 oz", "volume_ml", "two readings"),
        ("5 cal", "energy_kcal", "two readings"),
        ("5 t", "mass_g", "two readings"),
        ("five", "mass_g", "not a mass"),
        ("", "number", "no number"),
        ("inf", "number", "no number"),
        ("nan g", "mass_g", "not a mass"),
        ("5 g 3", "mass_g", "without its unit"),
    ],
)
def test_what_is_no_quantity_says_why(text: str, measure: Measure, wrong: str) -> None:
    with pytest.raises(BadCell) as caught:
        cells.quantity(text, ".", measure)
    assert wrong in caught.value.wrong
    assert caught.value.instead


@each(
    ("text", "decimal", "instead"),
    [("2.5", ",", "write 2,5"), ("2,5", ".", "write 2.5"), (",5", ".", "write .5")],
)
def test_a_foreign_decimal_mark_is_put_right(text: str, decimal: Decimal, instead: str) -> None:
    with pytest.raises(BadCell) as caught:
        cells.quantity(text, decimal, "number")
    assert caught.value.instead == instead


@each("text", ["yes", "Y", "TRUE", "1", "x", "X"])
def test_yes_in_the_ways_that_sheets_say_it(text: str) -> None:
    assert cells.yes_no(text) is True


@each("text", ["no", "N", "False", "0", "-"])
def test_no_in_the_ways_that_sheets_say_it(text: str) -> None:
    assert cells.yes_no(text) is False


@each("text", ["maybe", "ja", "2", "yes please"])
def test_neither_yes_nor_no_is_refused(text: str) -> None:
    with pytest.raises(BadCell, match="neither yes nor no"):
        cells.yes_no(text)


@each(
    ("text", "day"),
    [
        ("2027-03-31", dt.date(2027, 3, 31)),
        ("31.3.2027", dt.date(2027, 3, 31)),
        ("01.02.2027", dt.date(2027, 2, 1)),
        ("2028-02-29", dt.date(2028, 2, 29)),
    ],
)
def test_days_are_read(text: str, day: dt.date) -> None:
    assert cells.date(text) == day


@each(
    ("text", "wrong"),
    [
        ("03/04/2027", "has two readings"),
        ("2027-02-29", "is no date"),
        ("31.11.2027", "is no date"),
        ("2027-3-1", "is no date"),
        ("March", "is no date"),
        ("1.2.27", "is no date"),
    ],
)
def test_days_with_two_readings_or_none_are_refused(text: str, wrong: str) -> None:
    with pytest.raises(BadCell) as caught:
        cells.date(text)
    assert caught.value.wrong == wrong
    assert "2027-03-31" in caught.value.instead


def test_a_choice_forgives_capitals_and_suggests_the_nearest() -> None:
    read = cells.choice(("main", "side", "snack"))
    assert read("Main") == "main"
    with pytest.raises(BadCell) as caught:
        read("snak")
    assert caught.value.instead == "did you mean 'snack'? write one of: main, side, snack"
    with pytest.raises(BadCell) as caught:
        read("zebra")
    assert caught.value.instead == "write one of: main, side, snack"


@each("text", ["milk egg", "milk, egg", "milk;egg", "Milk | EGG", "egg/milk"])
def test_several_words_may_be_kept_apart_in_any_way(text: str) -> None:
    assert cells.words(("milk", "egg"))(text) == {"milk", "egg"}


def test_a_wrong_word_among_right_ones_is_named() -> None:
    with pytest.raises(BadCell) as caught:
        cells.words(("milk", "egg"))("milk eg")
    assert caught.value.wrong == "holds 'eg', which is not known here"
    assert "did you mean 'egg'" in caught.value.instead


@each(
    ("text", "found"), [("sodum_mg", "sodium_mg"), ("KCAL", "kcal"), ("zzz", None), ("", None)]
)
def test_the_nearest_word_is_near_or_none(text: str, found: str | None) -> None:
    assert cells.nearest(text, ("sodium_mg", "kcal", "salt_g")) == found
