"""Laws of reports that hold for any party, length, legs and units."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.reports import document_of, render
from oatsack.reports.document import Bullets, Document, Fold, Heading, Para, Table, tables_of
from oatsack.reports.formats import terminal
from oatsack.reports.formats.csv import shown
from oatsack.reports.formats.html_blocks import blocks_html, slim
from oatsack.reports.measures import Measures
from oatsack.reports.telling import telling
from oatsack.values.flags import Flag, Level
from oatsack.values.plan import Plan
from support.amount import examples
from support.sample_plan import sample_plan

SIZES = st.fixed_dictionaries({
    "walkers": st.integers(1, 6), "days": st.integers(2, 10), "legs": st.integers(1, 2),
    "units": st.sampled_from(["metric", "us"]), "long_names": st.booleans(),
})  # fmt: skip
TEXT = st.text(st.characters(exclude_categories=("Cs", "Cc", "Co", "Cn")), max_size=40)
FEW = settings(max_examples=examples(10))


def made(size: dict[str, Any]) -> Plan:
    return sample_plan(**size)


@FEW
@given(SIZES, st.integers(60, 130))
def test_the_first_screen_never_has_more_than_30_lines(size: dict[str, Any], width: int) -> None:
    lines = render(made(size), "first", "text", width=width).decode().splitlines()
    assert len(lines) <= 30
    assert max(map(len, lines)) <= width


@FEW
@given(SIZES, st.lists(st.sampled_from(get_args(Level)), max_size=8), TEXT)
def test_no_number_of_flags_breaks_the_first_screen(
    size: dict[str, Any], levels: list[Level], words: str
) -> None:
    flags = tuple(
        Flag(key=f"made.{n}", level=level, values={"words": words})
        for n, level in enumerate(levels)
    )
    lines = render(replace(made(size), flags=flags), "first", "text").decode().splitlines()
    assert len(lines) <= 30
    assert max(map(len, lines)) <= 80


@FEW
@given(SIZES)
def test_bag_lists_add_up_to_what_is_packed(size: dict[str, Any]) -> None:
    plan = made(size)
    tables = tables_of(document_of(plan, "bags").blocks)
    rows = [r for t in tables for r in t.rows]
    for column, whole in ((4, sum(b.net_g for b in plan.packed.bags)),
                          (5, sum(b.gross_g for b in plan.packed.bags))):  # fmt: skip
        for kind in ("row", "total"):
            mine = sum(r.cells[column].value or 0.0 for r in rows if r.kind == kind)
            assert mine == pytest.approx(whole)


@FEW
@given(SIZES)
def test_every_pack_bought_is_on_one_list_and_on_no_other(size: dict[str, Any]) -> None:
    plan = made(size)
    tables = [t for t in tables_of(document_of(plan, "shopping").blocks) if len(t.columns) == 6]
    names = [r.cells[2].text for t in tables for r in t.rows]
    assert sorted(names) == sorted(plan.foods[b.food].name for b in plan.packed.buy if b.packs > 0)


@FEW
@given(SIZES)
def test_every_portion_is_on_the_phone_or_at_its_foot(size: dict[str, Any]) -> None:
    plan = made(size)
    document = document_of(plan, "phone")
    keys = {
        key for block in document.blocks if isinstance(block, Fold)
        for b in block.blocks if isinstance(b, Bullets) for key in b.keys
    }  # fmt: skip
    for p in plan.menu.portions:
        small = plan.foods[p.food].role == "small" and p.meal != "drinks"
        if p.why != "bag" and not small:
            assert f"{p.day} {p.meal} {p.food}" in keys


@FEW
@given(SIZES)
def test_there_is_a_label_for_each_bag_and_its_mark_counts_them(size: dict[str, Any]) -> None:
    plan = made(size)
    (block,) = document_of(plan, "labels").blocks
    marks = [card.mark for card in block.cards]  # type: ignore[union-attr]
    assert marks == [f"{b.number} of {b.of}" for b in plan.packed.bags]


@pytest.mark.slow
@FEW
@given(SIZES)
def test_one_artefact_never_mixes_units(size: dict[str, Any]) -> None:
    words = set(re.sub(r"[(),;:+]", " ", render(made(size), "plan", "text").decode()).split())
    if size["units"] == "us":
        assert not words & {"kg", "km", "ml", "°C"}
    else:
        assert not words & {"oz", "lb", "mi", "ft", "°F"}


@pytest.mark.slow
@FEW
@given(SIZES)
def test_equal_plans_give_equal_bytes(size: dict[str, Any]) -> None:
    for form in ("text", "html", "json"):
        assert render(made(size), "menu", form) == render(made(size), "menu", form)


@given(TEXT, st.integers(20, 120))
def test_any_text_folds_to_any_width_and_keeps_its_letters(words: str, width: int) -> None:
    document = Document(title="t", blocks=(Para(text=words), Heading(text=words)))
    lines = terminal.render(document, width=width).decode().split("\n")
    joined = re.sub(r"\s", "", "".join(lines))
    assert re.sub(r"\s", "", words) * 2 in joined.removeprefix("t")


@given(TEXT)
def test_any_text_is_escaped_in_a_page(words: str) -> None:
    html = blocks_html([Para(text=words)])
    inner = html.removeprefix("<p>").removesuffix("</p>")
    assert "<" not in inner and ">" not in inner
    assert re.search(r"&(?!amp;|lt;|gt;|quot;|#x27;)", inner) is None


@given(st.floats(-1e7, 1e7))
def test_a_number_in_a_table_reads_back_to_its_third_decimal(value: float) -> None:
    assert float(shown(value)) == pytest.approx(value, abs=5.1e-4)
    assert shown(value, ",").replace(",", ".") == shown(value)


@given(TEXT)
def test_no_text_of_a_table_begins_a_formula(words: str) -> None:
    assert not shown(words).startswith(("=", "+", "-", "@"))
    assert shown(words).removeprefix("'") == words.removeprefix("'") or words.startswith("'")


@given(st.floats(0, 1e5), st.sampled_from(["metric", "us"]))
def test_what_is_heavier_is_never_shown_lighter(grams: float, units: Any) -> None:
    def back(text: str) -> float:
        scale = {"g": 1.0, "kg": 1000.0, "oz": 28.349523125, "lb": 453.59237}
        parts = text.replace(",", "").split()
        return sum(float(n) * scale[u] for n, u in zip(parts[::2], parts[1::2], strict=True))

    measures = Measures(units=units)
    less, more = back(measures.mass(grams)), back(measures.mass(grams * 1.02 + 1.0))
    assert more >= less - 1e-6
    assert less == pytest.approx(grams, rel=0.06, abs=30.0)


@given(st.floats(0, 9000))
def test_energy_said_as_about_is_within_the_step_it_is_said_in(kcal: float) -> None:
    said = float(Measures().about(kcal).replace(",", ""))
    assert abs(said - kcal) <= (50.0 if kcal >= 1000 else 25.0) + 1e-6


@FEW
@given(SIZES)
def test_slimming_a_drawing_changes_no_word_of_it(size: dict[str, Any]) -> None:
    from oatsack.reports.pictures import need_picture

    told = telling(made(size))
    svg = need_picture(told, told.plan.trip.walkers[0]).svg
    slimmed = slim(svg)
    texts = re.findall(r">([^<]+)<", svg)
    assert re.findall(r">([^<]+)<", slimmed) == texts
    assert len(slimmed) <= len(svg)
    assert slim(slimmed) == slimmed


@FEW
@given(SIZES)
def test_every_table_has_as_many_cells_as_columns(size: dict[str, Any]) -> None:
    plan = made(size)
    for name in ("plan", "carriers", "kitchen", "pack-out", "tally", "boxes", "sheet", "container"):
        for table in tables_of(document_of(plan, name).blocks):
            assert isinstance(table, Table)
            assert all(len(r.cells) == len(table.columns) for r in table.rows)
