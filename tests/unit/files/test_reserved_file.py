"""The file of what packed plans take from home: read back as written, refused as a whole."""

from __future__ import annotations

import pytest

from oatsack.errors import Fault, LarderError
from oatsack.files.reserved import RESERVED_COLUMNS, Reserved, read_reserved, write_reserved
from support.each import each

HEAD = ",".join(RESERVED_COLUMNS)
ROWS = (
    Reserved(trip="walks/june.toml", plan="3f2a", food="rolled-oats", packs=1.25),
    Reserved(trip="walks/june.toml", plan="3f2a", food="raisins", packs=0.0),
    Reserved(trip="=evil.toml", plan="1", food="nuts", packs=12.0),
)


def faults(text: str) -> list[Fault]:
    with pytest.raises(LarderError) as caught:
        read_reserved(text.encode(), "reserved.csv")
    return list(caught.value.faults)  # type: ignore[arg-type]


def test_what_is_written_is_read_again_and_runs_as_no_formula() -> None:
    data = write_reserved(ROWS)
    assert read_reserved(data, "reserved.csv") == ROWS
    assert b"\n'=evil.toml" in data
    assert write_reserved(()) == f"{HEAD}\n".encode()
    assert read_reserved(write_reserved(()), "reserved.csv") == ()


@each(
    ("packs", "read"),
    [("1", 1.0), ("0", 0.0), ("1.5", 1.5), ("999999", 999_999.0), ("2e1", 20.0)],
)
def test_a_number_of_packs_from_none_to_under_a_million(packs: str, read: float) -> None:
    (row,) = read_reserved(f"{HEAD}\na,b,c,{packs}\n".encode(), "r.csv")
    assert row.packs == read


def test_a_decimal_comma_is_read_as_sheets_in_such_places_write_it() -> None:
    (row,) = read_reserved(f"{HEAD.replace(',', ';')}\na;b;c;0,5\n".encode(), "r.csv")
    assert row.packs == 0.5


@each(
    "row",
    ["a,b,c,", "a,b,,1", "a,,c,1", ",b,c,1", "a,b,c", "a,b,c,1,x", "a,b,c,two", "a,b,c,-1",
     "a,b,c,1000000", "a,b,c,nan", "a,b,c,inf"],
)  # fmt: skip
def test_a_row_that_is_no_reservation_is_told_by_its_line(row: str) -> None:
    found = faults(f"{HEAD}\na,b,c,1\n{row}\n")
    assert [(one.line, one.column, one.read) for one in found] == [(3, 1, "this line")]


def test_every_row_at_fault_is_told_at_once() -> None:
    assert [one.line for one in faults(f"{HEAD}\nx\na,b,c,1\n\ny\n")] == [2, 5]


@each(
    ("text", "line", "read"),
    [
        ("trip,plan,food\na,b,c\n", 1, "this file"),
        ("plan,trip,food,packs\na,b,c,1\n", 1, "this file"),
        ("", 1, "this file"),
        (f'{HEAD}\n"a,b,c,1\n', 2, "this line"),
    ],
)
def test_a_file_that_is_not_ours_says_which_columns_it_has(
    text: str, line: int, read: str
) -> None:
    (one,) = faults(text)
    assert (one.line, one.column, one.read) == (line, 1, read)
    assert HEAD.replace(",", ", ") in one.instead
    assert one.file == "reserved.csv"


def test_bytes_that_are_no_text_are_refused_without_a_line() -> None:
    with pytest.raises(LarderError) as caught:
        read_reserved(b"\xff\xfe\x00", "r.csv")
    (one,) = caught.value.faults
    assert (one.line, one.column) == (0, 0)  # type: ignore[union-attr]
