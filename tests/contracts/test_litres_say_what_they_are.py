"""No litre figure is shown without whether it is a need, a suggestion, a limit or an estimate."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from oatsack.reports import words
from oatsack.reports.contents import CONTENTS, build
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
    Picture,
    Table,
)
from oatsack.reports.measures import Measures
from oatsack.reports.telling import telling
from oatsack.values.plan import Plan
from support.plans import short_plan
from support.sample_plan import sample_plan

MARK = "‡"
KINDS = re.compile(
    r"need|suggest|limit|estimate|at most|never more|boil|pour|heat|wash|left over|holds"
    r"|first bottle|bottles hold|(pot|mugs|bottles) of \W*\d", re.IGNORECASE
)  # fmt: skip
"""Words that say what a litre is: a need (to boil, heat or pour is one by name), a suggestion, a
limit, an estimate; or that it is the size of a thing."""


@pytest.fixture(autouse=True)
def marking(monkeypatch: pytest.MonkeyPatch) -> None:
    """Marks every figure of water, whoever shows it."""
    plain = Measures.volume

    def volume(measures: Measures, millilitres: float) -> str:
        return MARK + plain(measures, millilitres)

    monkeypatch.setattr(Measures, "volume", volume)
    monkeypatch.setitem(words.KINDS, "volume", volume)  # type: ignore[arg-type]


def bare(document: Document) -> Iterator[str]:
    """Texts with a litre figure whose surroundings do not say what it is."""
    for text, around in texts(document.blocks, ""):
        if MARK in text and not KINDS.search(f"{around} {text}"):
            yield text


def texts(blocks, heading: str) -> Iterator[tuple[str, str]]:  # type: ignore[no-untyped-def]
    """Every text with what stands over or beside it."""
    for block in blocks:
        match block:
            case Heading():
                heading = block.text
                yield block.text, ""
            case Para() | Note():
                yield block.text, heading
            case Bullets():
                yield from ((item, heading) for item in block.items)
            case Facts():
                yield from ((text, f"{heading} {name}") for name, text in block.pairs)
            case Table():
                yield from in_table(block, heading)
            case Fold():
                yield from texts(block.blocks, block.title)
            case Cards():
                for card in block.cards:
                    yield from on_card(card)
            case Picture():
                yield block.text, block.title
                yield from in_table(block.table, block.title) if block.table else ()


def in_table(table: Table, heading: str) -> Iterator[tuple[str, str]]:
    for row in table.rows:
        for column, cell in zip(table.columns, row.cells, strict=False):
            yield cell.text, f"{heading} {table.caption} {column.title} {row.cells[0].text}"


def on_card(card: Card) -> Iterator[tuple[str, str]]:
    yield card.foot, ""
    yield from texts(card.blocks, card.title)


def in_units(plan: Plan, units: str) -> Plan:
    return replace(plan, trip=replace(plan.trip, units=units))


def documents(plan: Plan) -> Iterator[tuple[str, Document]]:
    for units in ("metric", "us"):
        for content in CONTENTS:
            yield f"{content.name} ({units})", build(telling(in_units(plan, units)), content.name)


def test_every_litre_on_every_report_says_what_it_is() -> None:
    found = [
        f"{where}: {text}"
        for plan in (short_plan(), sample_plan())
        for where, document in documents(plan) for text in bare(document)
    ]  # fmt: skip
    assert found == []


def test_the_kitchen_names_all_four_kinds() -> None:
    document = build(telling(short_plan()), "kitchen")
    said = " ".join(f"{around} {text}" for text, around in texts(document.blocks, ""))
    kinds = ("need", "suggest", "limit", "estimate")
    assert [word for word in kinds if word not in said.lower()] == []


def test_a_litre_without_a_word_is_found() -> None:
    document = Document(title="x", blocks=(Para(text=f"carry {MARK}2.0 l"),))
    assert list(bare(document)) == [f"carry {MARK}2.0 l"]
