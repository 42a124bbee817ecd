"""How tables are found to be written, and where their cells stand."""

from __future__ import annotations

from typing import Any

import pytest

from oatsack.files.sheet import (
    Decimal,
    NotATable,
    decimal_of,
    decode,
    guarded,
    number,
    read_sheet,
    unguarded,
    write_sheet,
)  # fmt: skip
from support.each import each


@each(
    ("codec", "found"),
    [
        ("utf-8", "utf-8"),
        ("utf-8-sig", "utf-8 with mark"),
        ("utf-16", "utf-16"),
        ("utf-16-le", "utf-16"),
        ("utf-16-be", "utf-16"),
        ("cp1252", "windows-1252"),
    ],
)
def test_the_encoding_is_found_out_and_reported(codec: str, found: str) -> None:
    text, name = decode("name;pack\nMüsli;500\n".encode(codec))
    assert (text, name) == ("name;pack\nMüsli;500\n", found)


def test_bytes_that_are_no_text_are_refused_with_their_place() -> None:
    with pytest.raises(NotATable, match="byte 3 is no windows-1252 text"):
        decode(b"ab\x81cd\xff")


def test_a_cut_utf16_file_is_refused() -> None:
    with pytest.raises(NotATable, match="utf-16"):
        decode("name".encode("utf-16") + b"\x00")


@each("mark", [",", ";", "\t"])
def test_the_separator_is_found_in_the_first_line(mark: str) -> None:
    sheet = read_sheet(mark.join(["name", "pack"]).encode() + b"\nx" + mark.encode() + b"5\n", "t")
    assert sheet.delimiter == mark
    assert sheet.rows[0].cells == ("x", "5")


def test_a_separator_inside_quotes_is_not_counted() -> None:
    sheet = read_sheet(b'"name, long, as, said";pack\nx;5\n', "t")
    assert sheet.delimiter == ";"


def test_a_first_line_that_tells_the_separator_is_believed_and_skipped() -> None:
    sheet = read_sheet(b"sep=;\nname;pack\nx,y;5\n", "t")
    assert sheet.header.cells == ("name", "pack")
    assert sheet.header.line == 2
    assert sheet.rows[0].cells == ("x,y", "5")


def test_blank_lines_and_rows_of_separators_are_left_out_and_lines_still_count() -> None:
    sheet = read_sheet(b"name,pack\n\n,,\nx,5\n", "t")
    assert [(row.line, row.cells) for row in sheet.rows] == [(4, ("x", "5"))]


@each("end", ["\n", "\r\n", "\r"])
def test_every_line_ending_counts_lines_alike(end: str) -> None:
    text = f'name,pack{end}"two{end}lines",5{end}x,6{end}'
    sheet = read_sheet(text.encode(), "t")
    assert [row.line for row in sheet.rows] == [2, 4]


def test_an_empty_file_has_an_empty_header() -> None:
    assert read_sheet(b"", "t").header.cells == ()


def test_an_open_quotation_mark_is_refused_where_its_record_starts() -> None:
    with pytest.raises(NotATable) as caught:
        read_sheet(b'name,pack\nx,5\n"y,6\nz,7\n', "t")
    assert caught.value.line == 3


@each(
    ("line", "index", "place"),
    [
        ("a,b,c", 0, (2, 1)),
        ("a,b,c", 2, (2, 5)),
        ('"a,b",c', 1, (2, 7)),
        ('"a ""q"", b",c', 1, (2, 14)),
        ('5" bar,c', 1, (2, 8)),
        ('"two\nlines",c', 1, (3, 8)),
        (",,c", 2, (2, 3)),
        ("a", 3, (2, 2)),
    ],
)
def test_the_place_of_a_cell_is_its_first_character(
    line: str, index: int, place: tuple[int, int]
) -> None:
    sheet = read_sheet(f"h,i,j\n{line}\n".encode(), "t")
    assert sheet.place(sheet.rows[0], index) == place


def test_the_mark_at_the_start_of_a_file_shifts_no_column() -> None:
    sheet = read_sheet("name,pack\nx,5\n".encode("utf-8-sig"), "t")
    assert sheet.place(sheet.header, 0) == (1, 1)
    assert sheet.header.cells[0] == "name"


@each(
    ("cells", "delimiter", "found"),
    [
        (["1.5", "2", "3.25"], ",", "."),
        (["1,5", "2", "3,25"], ";", ","),
        (["1.5", "1,5", "2,5"], ";", ","),
        (["1.500"], ",", "."),
        (["1.500"], ";", None),
        (["1.500", "2,5"], ";", ","),
        (["0.125"], ";", "."),
        ([], ";", "."),
        (["five"], ";", "."),
    ],
)
def test_the_decimal_mark_is_what_most_numbers_have(
    cells: list[str], delimiter: str, found: Decimal | None
) -> None:
    assert decimal_of(cells, delimiter) == found


@each(
    ("text", "decimal", "value"),
    [
        ("85", ".", 85.0),
        ("1.5", ".", 1.5),
        (".5", ".", 0.5),
        ("1,5", ",", 1.5),
        ("1.234,5", ",", 1234.5),
        ("1,234.5", ".", 1234.5),
        ("12", None, 12.0),
        ("1,5", ".", None),
        ("1.5", ",", None),
        ("1.500", None, None),
        ("1e3", ".", None),
        ("nan", ".", None),
        ("1_000", ".", None),
        ("-3", ".", None),
        ("٣", ".", None),
        ("", ".", None),
    ],
)
def test_only_plain_numbers_of_the_files_own_mark_are_read(
    text: str, decimal: Decimal | None, value: float | None
) -> None:
    assert number(text, decimal) == value


@each("text", ["=1+1", "+49", "-x", "@cmd", "'quoted", "\tx", "'=1", "''"])
def test_no_text_starts_like_a_formula_and_comes_back_as_it_was(text: str) -> None:
    assert guarded(text)[0] == "'"
    assert unguarded(guarded(text)) == text


@each("text", ["", "plain", "5", "'", "'s Gravenhage"])
def test_other_texts_are_read_as_they_are(text: str) -> None:
    assert unguarded(text) == text


def test_a_written_table_has_the_separator_that_its_decimal_mark_needs() -> None:
    assert write_sheet(["a", "b"], [["1,5", "=x"]], ",") == b"a;b\n1,5;'=x\n"
    assert write_sheet(["a", "b"], [["1.5", "x,y"]], ".") == b'a,b\n1.5,"x,y"\n'


@each(
    ("cells", "delimiter", "decimal"),
    [
        (["1.5", "2,5"], ";", "."),  # as many of both: a point
        (["1.5", "2,5", "3,5"], ";", ","),
        (["1.500"], ";", None),
        (["1.500", "2.25"], ";", "."),
        (["1,500", "2.25"], ";", "."),
        (["1.500"], ",", "."),  # the comma parts the cells, so it parts no digits
        (["12", "-", "about"], ";", "."),
        ([], ";", "."),
        ([".5"], ";", "."),
        ([",5"], ";", ","),
        (["0.125"], ";", "."),  # no thousands begin with nought
        (["-1,25"], ";", ","),
    ],
)
def test_each_kind_of_cell_speaks_for_a_decimal_mark(
    cells: list[str], delimiter: str, decimal: str | None
) -> None:
    assert decimal_of(cells, delimiter) == decimal


@each(
    ("text", "decimal", "value"),
    [
        ("1.5", ".", 1.5), ("1.5", ",", None), ("1.5", None, None), ("15", None, 15.0),
        ("15", ",", 15.0), ("1,5", ",", 1.5), ("1,5", ".", None), ("1,234.5", ".", 1234.5),
        ("1.234,5", ",", 1234.5), ("1.234.567,8", ",", 1_234_567.8), ("0,234.5", ".", None),
        ("1,23.4", ".", None), (".5", ".", 0.5), (",5", ",", 0.5), ("1.", ".", None),
        ("-1", ".", None), ("", ".", None), ("1e5", ".", None), ("٣", ".", None),
        ("1 5", ".", None),
    ],
)  # fmt: skip
def test_a_number_has_one_reading_in_a_file_of_one_mark(
    text: str, decimal: Any, value: float | None
) -> None:
    assert number(text, decimal) == value


@each(
    ("first", "delimiter"),
    [("a,b;c", ","), ("a;b;c,d", ";"), ("a\tb", "\t"), ("abc", ","), ('"a;b;c",d', ","),
     ("\n\na;b", ";"), ("sep=|", "|"), ("sep=;\na,b", ";")],
)  # fmt: skip
def test_the_first_line_with_anything_tells_what_parts_the_cells(
    first: str, delimiter: str
) -> None:
    assert read_sheet(f"{first}\nx\n".encode(), "t.csv").delimiter == delimiter


def test_a_fault_shows_its_own_line_however_the_lines_end() -> None:
    for end in ("\n", "\r\n", "\r"):
        sheet = read_sheet(end.join(["a,b", '"x', 'y",2', ""]).encode(), "t.csv")
        fault = sheet.fault(sheet.rows[0], 1, path="b", wrong="w", read="r", instead="i")
        assert (fault.line, fault.column, fault.text) == (3, 4, 'y",2'), repr(end)


def test_a_place_beyond_the_cells_of_a_row_is_its_end() -> None:
    sheet = read_sheet(b'a,b,c\n1,"2"\n', "t.csv")
    assert sheet.place(sheet.rows[0], 2) == (2, 6)
    assert sheet.place(sheet.rows[0], 9) == (2, 6)
    doubled = read_sheet(b'a,b\n"x ""y"", z",2\n', "t.csv")
    assert doubled.place(doubled.rows[0], 1) == (2, 14)
