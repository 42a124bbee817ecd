"""Stock files: lots of packs with dates, and every fault at its place."""

from __future__ import annotations

import datetime as dt

import pytest

from oatsack.errors import LarderError
from oatsack.files.stock import read_stock, write_stock
from oatsack.larder.stock import Lot
from support.each import each

KNOWN = ("rolled-oats", "raisins")
LOTS = (
    Lot(food="rolled-oats", packs=1.5, best_before=dt.date(2027, 3, 31)),
    Lot(food="rolled-oats", packs=2.0, best_before=dt.date(2027, 9, 30)),
    Lot(food="raisins", packs=0.25),
)


@pytest.mark.parametrize("decimal", [".", ","])
def test_what_is_written_is_read_again(decimal: str) -> None:
    data = write_stock(LOTS, decimal=decimal)  # type: ignore[arg-type]
    assert read_stock(data, "home.csv", KNOWN) == LOTS


def test_headers_may_be_written_as_people_write_them() -> None:
    text = "Food;Packs;Best before\nraisins;0,25;\n"
    assert read_stock(text.encode(), "home.csv", KNOWN) == (LOTS[2],)


def test_every_fault_is_reported_at_once_with_its_place() -> None:
    text = (
        "food,packs,best_before\n"
        "raisin,1,\n"
        "rolled-oats,,2027-02-30\n"
        ",two,01/02/2027\n"
        "raisins,-1,31.1.2027\n"
    )
    with pytest.raises(LarderError) as caught:
        read_stock(text.encode(), "home.csv", KNOWN)
    places = [(f.line, f.column, f.path) for f in caught.value.faults]
    assert places == [
        (2, 1, "food"),
        (3, 13, "packs"),
        (3, 14, "best_before"),
        (4, 1, "food"),
        (4, 2, "packs"),
        (4, 6, "best_before"),
        (5, 9, "packs"),
    ]
    assert caught.value.faults[0].instead == "did you mean 'raisins'?"


def test_a_missing_and_an_unknown_column_are_both_named() -> None:
    with pytest.raises(LarderError) as caught:
        read_stock(b"food,pack\nraisins,1\n", "home.csv", KNOWN)
    first, second = caught.value.faults
    assert (first.line, first.column, first.wrong) == (1, 6, "no column is called so")
    assert "packs" in first.instead
    assert (second.path, second.wrong) == ("packs", "this column is missing")


def test_a_file_that_is_no_table_says_so() -> None:
    with pytest.raises(LarderError) as caught:
        read_stock(b'food,packs\n"raisins,1\n', "home.csv", KNOWN)
    assert caught.value.faults[0].line == 2


@each(
    ("head", "column", "wrong"),
    [
        ("food,packs,Packs", 12, "the column packs comes twice"),
        ("food,packs,best before,food", 24, "the column food comes twice"),
        ("food,packs,dates", 12, "no column is called so"),
    ],
)
def test_a_column_twice_or_unknown_is_refused_where_it_stands(
    head: str, column: int, wrong: str
) -> None:
    # Of two columns of one name nobody can tell which holds.
    with pytest.raises(LarderError) as caught:
        read_stock(f"{head}\nraisins,1,2,3\n".encode(), "home.csv", KNOWN)
    (one,) = caught.value.faults
    assert (one.line, one.column, one.wrong) == (1, column, wrong)  # type: ignore[union-attr]


def test_a_row_may_end_early_where_nothing_is_needed_behind() -> None:
    assert read_stock(b"food,packs,best_before\nraisins,0.25\n", "h.csv", KNOWN) == (LOTS[2],)
    with pytest.raises(LarderError) as caught:
        read_stock(b"best_before,food,packs\n,raisins\n", "h.csv", KNOWN)
    (one,) = caught.value.faults
    assert (one.path, one.wrong, one.read) == ("packs", "is blank", "nothing")  # type: ignore[union-attr]


def test_a_header_cell_without_a_name_is_passed_over() -> None:
    assert read_stock(b"food,,packs\nraisins,note,0.25\n", "h.csv", KNOWN) == (LOTS[2],)


def test_all_missing_columns_are_told_with_those_there_are() -> None:
    with pytest.raises(LarderError) as caught:
        read_stock(b"best_before\n2027-01-01\n", "home.csv", KNOWN)
    said = [(f.path, f.wrong, f.line) for f in caught.value.faults]  # type: ignore[union-attr]
    assert said == [("food", "this column is missing", 1), ("packs", "this column is missing", 1)]
