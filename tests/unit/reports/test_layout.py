"""Text in columns: folded between words, numbers tied to units, nothing lost at any width."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from oatsack.reports.document import Facts, cell, row, table
from oatsack.reports.formats.layout import Piece, fold, joined, side_by_side, wide, widths
from oatsack.reports.formats.terminal import BLANK, blocks_lines, least_width, table_lines
from support.each import each

WORDS = st.text(st.sampled_from("abc de-fäß ½"), max_size=60)


@each(
    ("text", "width", "lines"),
    [
        ("one two three", 7, ["one two", "three"]),
        ("one two three", 80, ["one two three"]),
        ("abcdefgh", 3, ["abc", "def", "gh"]),
        ("a\nb", 9, ["a", "b"]),
        ("", 5, [""]),
        ("ab abcdef", 4, ["ab", "abcd", "ef"]),
        ("x 25\xa0g", 4, ["x", "25\xa0g"]),
    ],
)
def test_text_is_parted_between_words_where_it_can_be(
    text: str, width: int, lines: list[str]
) -> None:
    assert fold(text, width) == lines


@given(WORDS, st.integers(1, 30))
def test_no_line_is_too_long_and_no_letter_is_lost(text: str, width: int) -> None:
    lines = fold(text, width)
    assert all(wide(line) <= width for line in lines)
    assert re.sub(r"\s", "", "".join(lines)) == re.sub(r"\s", "", text)


@each(
    ("text", "columns"), [("abc", 3), ("äß½", 3), ("食料", 4), ("e\u0301", 1), ("", 0)]
)
def test_wide_signs_take_two_columns_and_marks_none(text: str, columns: int) -> None:
    """East Asian Width, Unicode Standard Annex 11: W and F are two columns wide."""
    assert wide(text) == columns


def test_columns_are_as_wide_as_they_need_where_there_is_room() -> None:
    assert widths([["abc", "a"], ["12"]], [False, True], 80) == [3, 2]


def test_the_widest_column_gives_way_first_and_figures_never() -> None:
    texts = [["one two three four"], ["short it"], ["1,234 kcal"]]
    got = widths(texts, [False, False, True], 28)
    assert sum(got) == 28
    assert got[2] == 10
    assert got[0] < 18 and got[1] == 8


def test_a_column_gives_way_no_further_than_its_longest_word_while_others_can() -> None:
    assert widths([["a longword b"], ["x y z"]], [False, False], 12)[0] >= 8


@given(st.lists(st.lists(WORDS, min_size=1, max_size=3), min_size=1, max_size=5),
       st.integers(20, 80))  # fmt: skip
def test_widths_never_exceed_the_room_while_a_column_may_fold(
    texts: list[list[str]], room: int
) -> None:
    got = widths(texts, [False] * len(texts), room)
    assert sum(got) <= room


def test_cells_stand_side_by_side_and_numbers_to_the_right() -> None:
    lines = side_by_side([Piece("one two"), Piece("7")], [3, 4], [False, True], 2)
    assert ["".join(p.text for p in line).rstrip() for line in lines] == ["one     7", "two"]


def test_lines_are_joined_without_double_blanks_or_trailing_space() -> None:
    lines = [(Piece("a  "),), BLANK, BLANK, (Piece("b"),), BLANK]
    assert joined(lines, colour=False) == "a\n\nb\n"


def test_styles_are_written_only_where_colour_is_wanted() -> None:
    line = (Piece("x", "bold"), Piece(" "), Piece("y"))
    assert joined([line], colour=False) == "x y\n"
    assert joined([line], colour=True) == "\x1b[1mx\x1b[0m y\n"


def text_of(lines: object) -> str:
    return joined(lines, colour=False)  # type: ignore[arg-type]


def test_a_table_that_fits_has_columns() -> None:
    made = table(("a", ">n"), [row("x", cell("1", 1.0)), row("y", cell("22", 2.0))])
    assert text_of(table_lines(made, 40)) == "a   n\nx   1\ny  22\n"


def test_a_table_too_wide_is_told_row_by_row_and_loses_no_figure() -> None:
    heads = ("name", *(f">n{i}" for i in range(6)))
    made = table(heads, [row("food", *(cell(f"{i}234 kcal", i) for i in range(6)))])
    assert least_width(made) > 40
    said = text_of(table_lines(made, 40))
    for i in range(6):
        assert f"n{i}" in said and f"{i}234 kcal" in said
    assert max(map(len, said.splitlines())) <= 40


def test_facts_align_their_texts_and_say_a_name_once() -> None:
    facts = Facts(pairs=(("a", "one two three"), ("a", "four"), ("long name", "five")))
    assert text_of(blocks_lines([facts], 20)) == (
        "a         one two\n          three\n          four\nlong name five\n"
    )


def test_a_total_row_is_bold_and_a_quiet_cell_dim() -> None:
    made = table(("a",), [row(cell("x", tone="quiet")), row("sum", kind="total")])
    said = joined(table_lines(made, 20), colour=True)
    assert "\x1b[2mx" in said and "\x1b[1msum" in said
