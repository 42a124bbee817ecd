"""Every fault of a larder file is reported in one run, with its line and column."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from oatsack.files.larder import bundled, write_larder
from oatsack.files.larder_columns import BY_NAME, COLUMNS, Column
from support.each import each
from support.foods import faults, places, read, table

BROKEN: dict[str, tuple[str, ...]] = {
    "id": ("No Good", "-x", "x_y", "ä"),
    "mass": ("heavy", "-5", "0", "5 ml", "5 kcal", "1e3"),
    "nutrient": ("some", "-1", "3 ml", "1/0"),
    "milli": ("some", "-1", "3 kJ"),
    "energy": ("lots", "-1", "30 g", "12 cal"),
    "volume": ("much", "-1", "3 oz", "30 g"),
    "minutes": ("soon", "-1", "3 m", "5 g"),
    "days": ("long", "-1", "3 h"),
    "count": ("many", "-1", "0x"),
    "money": ("cheap", "-1", "5 EUR"),
    "score": ("good", "0", "6", "-1"),
    "yes": ("maybe", "ja", "2"),
    "date": ("soon", "2027-02-30", "03/04/2027", "31.31.2027", "1.2.27"),
    "choice": ("nonsense", "mains"),
    "words": ("nonsense", "milk nonsense", "breakfast brunch"),
    "basis": ("apples", "0 g", "5 apples", "100 ml"),
}
NOUGHT_IS_RIGHT = {"wrap_g"}
"""Columns of a kind whose 0 is wrong elsewhere."""


def mutations() -> Iterator[tuple[Column, str]]:
    for column in COLUMNS:
        for text in BROKEN.get(column.kind, ()):
            if not (text == "0" and column.name in NOUGHT_IS_RIGHT):
                yield column, text


def full_table() -> tuple[list[str], list[list[str]]]:
    """Two rows with every column of the format filled in."""
    header = [column.name for column in COLUMNS if column.name not in TWINS]
    rows = list(csv.reader(io.StringIO(write_larder(bundled()[:2]).decode())))
    at = {name: i for i, name in enumerate(rows[0])}
    return header, [
        [row[at[name]] if name in at else "" for name in header] for row in rows[1:]
    ]


TWINS = ("kj", "salt_g", "carb_available_g")


@each(("column", "text"), list(mutations()), ids=lambda v: getattr(v, "name", v))
def test_a_broken_cell_of_any_column_is_found_at_its_place(column: Column, text: str) -> None:
    header, rows = full_table()
    if column.name not in header:
        header.append(column.name)
        rows = [[*row, ""] for row in rows]
    index = header.index(column.name)
    rows[1][index] = text
    found = faults(table(header, rows))
    assert len(found) == 1, [str(fault) for fault in found]
    (fault,) = found
    assert fault.line == 3
    assert fault.column == column_of(table(header, rows).splitlines()[2], index)
    assert column.name in fault.path
    assert repr(text) == fault.read
    assert fault.wrong
    assert fault.instead


def column_of(line: str, index: int) -> int:
    """Where a cell starts in a line, worked out apart from the program: cells are re-quoted."""
    cells = next(csv.reader([line]))
    written = [f'"{c}"' if "," in c or '"' in c else c for c in cells]
    assert ",".join(written) == line
    return len(",".join(written[:index])) + (2 if index else 1)


def test_all_broken_cells_of_a_file_are_found_in_one_run() -> None:
    header, rows = full_table()
    planted = []
    for place, (column, text) in enumerate(mutations(), 2):
        row = list(rows[0])
        row[header.index("id")] = f"food-{place}"
        if column.name in header:
            row[header.index(column.name)] = text
            planted.append((place, row))
    lines = [row for _, row in planted]
    found = faults(table(header, lines))
    assert {fault.line for fault in found} == set(range(2, 2 + len(lines)))


def test_the_full_table_itself_has_no_fault() -> None:
    assert faults(table(*full_table())) == ()


@each("name", [c.name for c in COLUMNS if c.required])
def test_a_required_cell_may_not_be_blank(name: str) -> None:
    header, rows = full_table()
    rows[0][header.index(name)] = ""
    (fault,) = faults(table(header, rows))
    assert (fault.line, fault.wrong, fault.read) == (2, "is blank", "nothing")
    about = BY_NAME[name].about
    assert fault.instead == f"fill it in: {about[0].lower()}{about[1:]}"


@each(
    ("header", "missing"),
    [
        ("pack_g,kcal per 100 g", {"name"}),
        ("name,kcal per 100 g", {"pack_g"}),
        ("name,pack_g", {"kcal"}),
        ("name,pack_g,kcal", {"per"}),
        ("name,pack_g,kcal per 100 g,fat_g", {"per"}),
        ("kcal,fat_g", {"name", "pack_g", "per"}),
    ],
)
def test_missing_columns_are_all_named(header: str, missing: set[str]) -> None:
    found = faults(header + "\n")
    assert {fault.path for fault in found} == missing
    assert {(fault.line, fault.column) for fault in found} == {(1, 1)}


def test_a_missing_column_is_told_once_and_not_again_in_every_row() -> None:
    found = faults("name,pack_g,kcal,fat_g\nX,9,1,1\nY,9,2,2\n")
    assert [(fault.line, fault.path) for fault in found] == [(1, "per")]


def test_a_blank_cell_is_told_once_however_many_cells_need_it() -> None:
    (fault,) = faults("name,pack_g,per,kcal,fat_g,carb_g\nX,9,,1,1,1\nY,9,100 g,2,2,2\n")
    assert (fault.line, fault.path, fault.wrong) == (2, "X: per", "is blank")


def test_an_allergen_as_a_column_is_shown_where_it_belongs() -> None:
    (fault,) = faults("name,pack_g,kcal per 100 g,milk\nX,9,1,yes\n")
    assert fault.instead == "write milk into a cell of the column contains, may_contain or free_of"


def test_an_unknown_column_suggests_the_nearest() -> None:
    (fault,) = faults("name,pack_g,kcal per 100 g,resealible\nX,1,1,yes\n")
    assert (fault.line, fault.column, fault.read) == (1, 28, "'resealible'")
    assert fault.instead == "did you mean 'resealable'?"


@each("name", [column.name for column in COLUMNS])
def test_a_column_spelt_wrongly_is_found_in_its_place_and_the_right_one_named(name: str) -> None:
    wrong = name + name[-1] if len(name) < 4 else name[:-2] + name[-1] + name[-2]
    header, rows = full_table()
    if name not in header:
        header.append(name)
    index = header.index(name)
    header[index] = wrong
    found = faults(table(header, [[*row, ""][: len(header)] for row in rows]))
    (fault,) = [fault for fault in found if fault.read == repr(wrong)]
    assert (fault.line, fault.column) == (1, len(",".join(header[:index])) + (2 if index else 1))
    assert fault.instead == f"did you mean {name!r}?"


def test_bare_carbohydrate_is_refused_with_both_readings() -> None:
    (fault,) = faults("name,pack_g,kcal per 100 g,carbohydrate per 100 g\nX,1,1,5\n")
    assert "carb_g" in fault.instead
    assert "carb_available_g" in fault.instead


def test_a_column_that_comes_twice_is_refused_under_any_name() -> None:
    (fault,) = faults("name,pack_g,kcal per 100 g,servings,doses\nX,9,1,1,1\n")
    assert (fault.column, fault.wrong) == (37, "the column doses comes twice")
    assert fault.instead == "leave out this one or column 4"


def test_two_foods_of_one_id_are_refused_though_both_are_faulty_otherwise() -> None:
    found = faults("id,name,pack_g,kcal per 100 g\nx,A,9,1\nx,B,z,1\ny,C,9,1\nx,D,9,1\n")
    assert [(f.line, f.column) for f in found] == [(3, 1), (3, 5), (5, 1)]
    assert found[0].wrong == "stands in line 2 already"


def test_two_foods_of_one_name_without_ids_are_refused_at_the_name() -> None:
    assert places("pack_g,name,kcal per 100 g\n9,Oats,1\n9,oats!,1\n") == [(3, 3)]


def with_more(header: str, cells: str) -> str:
    """A larder of one food X of 90 g per 100 g with more columns, apart by bars."""
    first = ["name", "pack_g", "per", *header.split("|")]
    return table(first, [["X", "90", "100 g", *cells.split("|")]])


@each(
    ("header", "cells", "column", "wrong"),
    [
        ("kcal|kj", "400|400", 16, "contradicts kcal"),
        ("kcal|sodium_mg|salt_g", "400|480|0.48", 20, "contradicts sodium_mg"),
        ("kcal|carb_g|carb_available_g|fibre_g", "400|60|60|10", 19, "contradicts carb_g"),
        ("kcal|contains|may_contain", "400|milk|milk soy", 21, "names milk"),
        ("kcal|contains|free_of", "400|milk|soy milk", 21, "names milk"),
        ("kcal|dose_g", "400|500", 16, "is more than the whole pack"),
        ("kcal|doses", "400|0.5", 16, "is more than the whole pack"),
        ("kcal|doses", "400|0", 16, "is nothing"),
    ],
)
def test_cells_that_contradict_each_other_are_refused(
    header: str, cells: str, column: int, wrong: str
) -> None:
    text = with_more(header, cells)
    (fault,) = faults(text)
    assert (fault.line, fault.column) == (2, column)
    assert fault.wrong.startswith(wrong)


@each(
    ("header", "cells"),
    [
        ("kcal|kj", "400|1674"),
        ("kcal|kj", "401|1674"),
        ("kcal|sodium_mg|salt_g", "400|480|1.2"),
        ("kcal|carb_g|carb_available_g|fibre_g", "400|60|50|10"),
    ],
)
def test_twins_that_agree_but_for_rounding_are_fine(header: str, cells: str) -> None:
    text = with_more(header, cells)
    assert faults(text) == ()


def test_a_blank_basis_is_a_fault_where_it_is_needed_only() -> None:
    text = "name,pack_g,per,kcal per 100 g,fat_g\nX,9,,1,\nY,9,,1,3\nZ,9,pack,1,3\n"
    (fault,) = faults(text)
    assert (fault.line, fault.column, fault.wrong) == (3, 5, "is blank")


def test_the_other_decimal_mark_is_named_and_mended() -> None:
    (fault,) = faults("name;pack_g;kcal per 100 g;price\nX;9,5;1;2,5\nY;9;1;2.5\n")
    assert (fault.line, fault.column, fault.instead) == (3, 7, "write 2,5")


def test_thousands_or_decimals_with_nothing_to_tell_are_refused() -> None:
    (fault,) = faults("name;pack_g;kcal per 100 g\nX;1.500;1\n")
    assert (fault.line, fault.column) == (2, 3)
    assert "two readings" in fault.wrong


def test_cells_beyond_the_header_are_refused_and_short_rows_are_not() -> None:
    assert places("name,pack_g,kcal per 100 g,price\nX,9,1\nY,9,1,2,3,4\n") == [(3, 9), (3, 11)]


@each(
    ("data", "line", "wrong"),
    [
        (b"", 0, "the file is empty"),
        (b"\n\n", 0, "the file is empty"),
        (b"\x81\x8d", 0, "no windows-1252 text"),
        (b'name,pack_g\n"X,5\n', 2, "a quotation mark is not closed"),
        (b'name,pack_g\nX,5\n"Y"Z,5\n', 3, "text follows one"),
    ],
)
def test_a_file_that_is_no_table_says_so(data: bytes, line: int, wrong: str) -> None:
    (fault,) = faults(data)
    assert fault.line == line
    assert wrong in fault.wrong


def test_a_fault_shows_its_line_with_a_caret_under_the_cell() -> None:
    (fault,) = faults("name,pack_g,kcal per 100 g\nX,heavy,1\n", "mine.csv")
    assert str(fault).splitlines() == [
        f"mine.csv:2:3: X: pack_g: {fault.wrong}, got 'heavy'",
        "    X,heavy,1",
        "      ^",
        f"    {fault.instead}",
    ]


def test_places_are_right_after_quoted_cells_and_lines() -> None:
    text = 'name,pack_g,kcal per 100 g,price\n"A, ""b""\nc",9,1,x\nZ,y,1,2\n'
    assert places(text) == [(3, 8), (4, 3)]


def test_reading_goes_on_to_the_end_of_a_long_file() -> None:
    rows = [[f"food {n}", "x" if n % 2 else "9", "1"] for n in range(2000)]
    found = places(table(["name", "pack_g", "kcal per 100 g"], rows))
    assert len(found) == 1000
    assert found[-1] == (2001, len("food 1999,") + 1)


@each("name", ["饼", "!!"])
def test_a_name_that_makes_no_id_needs_one(name: str) -> None:
    (fault,) = faults(f"name,pack_g,kcal per 100 g\n{name},9,1\n")
    assert fault.wrong == "makes no id"
    assert read("id,name,pack_g,kcal per 100 g\ncake,饼,9,1\n")[0].name == "饼"
