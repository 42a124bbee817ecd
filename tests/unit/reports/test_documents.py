"""Documents and their plain forms: cells, steps of headings, text that folds to any width."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.errors import UsageError
from oatsack.reports import document_of, render
from oatsack.reports.contents import CONTENTS, content_of
from oatsack.reports.document import (
    Bullets,
    Card,
    Cards,
    Document,
    Facts,
    Fold,
    Heading,
    Note,
    Para,
    Table,
    bound,
    cell,
    columns,
    row,
    stepped,
    table,
    tables_of,
)
from oatsack.reports.formats import FORMATS, format_of, terminal
from support.each import each
from support.sample_plan import sample_plan

NAMES = [c.name for c in CONTENTS]


@each("name", NAMES)
def test_every_content_builds_a_document_whose_tables_are_full(name: str) -> None:
    for plan in (sample_plan(), sample_plan(walkers=4, days=6, legs=2, units="us")):
        made = document_of(plan, name)
        assert made.title and made.blocks
        for found in tables_of(made.blocks):
            assert all(len(line.cells) == len(found.columns) for line in found.rows)


@pytest.mark.slow
@each("name", NAMES)
@each("width", [40, 60, 80, 120])
def test_every_content_folds_to_the_width_of_a_terminal(name: str, width: int) -> None:
    plan = sample_plan(walkers=2, days=3, long_names=True)
    lines = render(plan, name, "text", width=width).decode().splitlines()
    assert lines and max(map(len, lines)) <= width


@each("name", NAMES)
def test_every_content_is_data_too(name: str) -> None:
    told = json.loads(render(sample_plan(), name, "json"))
    assert told["kind"] == "document" and told["blocks"]
    assert {"kind"} <= set(told["blocks"][0])


@each("name", NAMES)
def test_no_report_mixes_systems_of_units(name: str) -> None:
    us = render(sample_plan(units="us"), name, "text").decode()
    assert not {"kg", "km", "ml", "l", "°C"} & set(us.replace("(", " ").replace(",", " ").split())
    metric = render(sample_plan(), name, "text").decode()
    assert not {"oz", "lb", "mi", "ft", "°F"} & set(metric.replace(",", " ").split())


def test_plain_text_holds_no_escape_signs_and_colour_does() -> None:
    plan = sample_plan()
    assert "\x1b" not in render(plan, "first", "text").decode()
    assert "\x1b" not in render(plan, "first", "terminal").decode()
    assert "\x1b" in render(plan, "first", "terminal", colour=True).decode()


def test_colour_changes_no_word() -> None:
    import re

    plan = sample_plan()
    plain = render(plan, "plan", "terminal", width=90).decode()
    coloured = render(plan, "plan", "terminal", width=90, colour=True).decode()
    assert re.sub(r"\x1b\[[\d;]*m", "", coloured).split() == plain.split()


def shown(*blocks: object, width: int = 60) -> str:
    return terminal.render(Document(title="T", blocks=blocks), width=width).decode()  # type: ignore[arg-type]


def test_loud_notes_carry_a_word_and_not_only_a_colour() -> None:
    assert "Take care: hot" in shown(Note(text="hot", level="caution"))
    assert "Not as it should be: bad" in shown(Note(text="bad", level="block"))
    assert "Take care" not in shown(Note(text="calm", level="quiet"))


def test_lists_boxes_facts_cards_and_folds_are_shown() -> None:
    text = shown(
        Bullets(items=("one",)), Bullets(items=("two",), ticks=True),
        Facts(pairs=(("name", "what"), ("name", "more"))),
        Cards(cards=(Card(title="Bag", mark="1 of 2", blocks=(Para(text="inside"),),
                          allergens="Contains milk.", foot="foot"),)),
        Fold(title="Behind", blocks=(Para(text="hidden"),)),
    )  # fmt: skip
    for words in ("- one", "[ ] two", "name what", "Bag  1 of 2", "Contains milk.", "hidden"):
        assert words in text
    assert text.count("name") == 1


def test_markup_in_a_name_is_shown_as_it_is() -> None:
    assert "[bold]x[/bold] :smile:" in shown(Para(text="[bold]x[/bold] :smile:"))


def test_columns_are_written_in_short() -> None:
    left, right, tick, wide = columns("a", ">b", "[]c", "d*2.5")
    assert (left.align, right.align, tick.align) == ("left", "right", "tick")
    assert (right.title, tick.title, wide.title, wide.width) == ("b", "c", "d", 2.5)


@given(st.lists(st.integers(1, 3), max_size=12))
def test_headings_never_skip_a_level(levels: list[int]) -> None:
    out = [b.level for b in stepped(Heading(text="h", level=n) for n in levels)
           if isinstance(b, Heading)]  # fmt: skip
    assert len(out) == len(levels)
    assert all(b <= a + 1 for a, b in zip([0, *out], out, strict=False))
    assert all(got <= asked for got, asked in zip(out, levels, strict=True))


@each(
    ("text", "tied"),
    [("25 g of it", "25~g of it"), ("2 × bar", "2~× bar"), ("in 3 goes", "in 3 goes"),
     ("1½ cups", "1½~cups"), ("85 % of", "85~% of"), ("30 gates", "30 gates")],
)  # fmt: skip
def test_a_number_is_tied_to_its_unit(text: str, tied: str) -> None:
    assert bound(text) == tied.replace("~", "\N{NO-BREAK SPACE}")


def test_tables_are_found_inside_folds_and_cards() -> None:
    inner: Table = table(("a",), [row(cell("x"))])
    blocks = (Fold(title="f", blocks=(inner,)), Cards(cards=(Card(title="c", blocks=(inner,)),)))
    assert tables_of(blocks) == [inner, inner]


def test_unknown_names_are_refused_with_the_known_ones() -> None:
    with pytest.raises(UsageError, match="first"):
        content_of("poster")
    with pytest.raises(UsageError, match="pdf"):
        format_of("docx")
    assert len({f.name for f in FORMATS}) == len(FORMATS)
