"""The forms of one report judged against each other: what stands in the document stands in the
text, on the page, on paper and in the sheets, each read back by a reader that is not ours."""

from __future__ import annotations

import csv
import io
import json
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from functools import cache
from html.parser import HTMLParser
from typing import Any

import openpyxl
import pypdf
import pytest

from oatsack.reports import document_of, render
from oatsack.reports.contents import CONTENTS
from oatsack.reports.document import (
    Block,
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
from oatsack.values.plan import Plan
from support.sample_plan import sample_plan

pytestmark = pytest.mark.slow
NAMES = [c.name for c in CONTENTS]
FITTED = "first"
"""It says the same in fewer words where there is less room (tests/unit/reports)."""
ON_PAPER = [c.name for c in CONTENTS if c.paper]
PLANS: dict[str, dict[str, Any]] = {
    "two": {"walkers": 2, "days": 3},
    "us": {"walkers": 1, "days": 5, "units": "us"},
    "group": {"walkers": 5, "days": 6, "legs": 2, "long_names": True},
}


@cache
def plan_of(name: str) -> Plan:
    return sample_plan(**PLANS[name])


def plain(text: str) -> str:
    """Words with single spaces; joins and marks that only help a line to break are gone."""
    text = text.replace("\xa0", " ").replace("\u00ad", "").replace("\u202f", " ")
    return re.sub(r"\s+", " ", text).strip()


def squeezed(text: str) -> str:
    """Without any space or hyphen: how words are parted at the end of a line does not matter."""
    return re.sub(r"[\s\-‐]+", "", plain(text))


def words_of(blocks: Iterable[Block]) -> Iterator[str]:
    """Every text of a document, as the reader should meet it."""
    for block in blocks:
        match block:
            case Heading(text=text) | Para(text=text) | Note(text=text):
                yield text
            case Bullets(items=items):
                yield from items
            case Facts(pairs=pairs):
                yield from (text for pair in pairs for text in pair)
            case Table():
                yield from cells(block)
            case Picture(table=table):
                yield from cells(table) if table else ()
            case Fold(title=title, blocks=inner):
                yield title
                yield from words_of(inner)
            case Cards(cards=cards):
                for card in cards:
                    yield from card_words(card)


def card_words(card: Card) -> Iterator[str]:
    yield from (card.title, card.mark, card.allergens, card.foot)
    yield from words_of(card.blocks)


def cells(table: Table) -> Iterator[str]:
    yield from (column.title for column in table.columns)
    for text in (c.text for r in table.rows for c in r.cells if c.text.strip("☐ ")):
        yield from text.split("\n")


class Page(HTMLParser):
    """The text of a page and the cells of its tables, read by the standard library."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.words: list[str] = []
        self.tables: list[list[list[str]]] = []
        self.inside = ""
        self.cell: list[str] | None = None
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in ("style", "script"):
            self.inside = tag
        elif tag == "table":
            self.tables.append([])
        elif tag == "tr":
            self.tables[-1].append([])
        elif tag in ("td", "th"):
            self.cell = []

    def handle_endtag(self, tag: str) -> None:
        if tag == self.inside:
            self.inside = ""
        elif tag in ("td", "th") and self.cell is not None:
            self.tables[-1][-1].append(plain("".join(self.cell)))
            self.cell = None

    def handle_data(self, data: str) -> None:
        if self.inside:
            return
        self.words.append(data)
        if self.cell is not None:
            self.cell.append(data)


@cache
def page(plan: str, content: str) -> Page:
    return Page(render(plan_of(plan), content, "html").decode())


@cache
def document(plan: str, content: str) -> Document:
    return document_of(plan_of(plan), content)


def missing(texts: Iterable[str], found: str) -> list[str]:
    whole = squeezed(found)
    return [t for t in texts if squeezed(t) and squeezed(t) not in whole]


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("content", NAMES)
def test_every_text_of_a_document_is_on_its_page(plan: str, content: str) -> None:
    assert (
        missing(words_of(document(plan, content).blocks), "".join(page(plan, content).words)) == []
    )


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("content", NAMES)
def test_every_table_of_a_page_holds_the_cells_of_the_document(plan: str, content: str) -> None:
    from oatsack.reports.document import tables_of

    tables = tables_of(document(plan, content).blocks)
    told = Counter(
        tuple(plain(c.text) for c in r.cells) for t in tables for r in t.rows
    )  # fmt: skip
    shown = Counter(tuple(r) for t in page(plan, content).tables for r in t)
    assert told - shown == Counter()


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("content", NAMES)
def test_every_text_is_in_a_wide_terminal(plan: str, content: str) -> None:
    text = render(plan_of(plan), content, "text", width=3000).decode()
    told = document(plan, content)
    if content == FITTED:
        told = document_of(plan_of(plan), content, width=3000)
    assert missing(words_of(told.blocks), text) == []


@pytest.mark.parametrize("width", [40, 60, 80])
@pytest.mark.parametrize("plan", ["two", "us"])
@pytest.mark.parametrize("content", [name for name in NAMES if name != FITTED])
def test_a_narrow_terminal_loses_no_sign(plan: str, content: str, width: int) -> None:
    wide = render(plan_of(plan), content, "text", width=400).decode()
    narrow = render(plan_of(plan), content, "text", width=width).decode()
    lost = Counter(re.sub(r"\W", "", wide)) - Counter(re.sub(r"\W", "", narrow))
    assert lost == Counter()


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("content", ON_PAPER)
def test_every_text_of_a_document_is_on_paper(plan: str, content: str) -> None:
    reader = pypdf.PdfReader(io.BytesIO(render(plan_of(plan), content, "pdf")))
    text = " ".join(p.extract_text() for p in reader.pages)
    letters = Counter(squeezed(text))
    told = [t for t in words_of(document(plan, content).blocks) if t.strip("☐_ \n")]
    for words in told:
        short = [w for w in plain(words).split() if len(w) > 3 and "-" not in w and len(w) < 15]
        assert all(squeezed(w) in squeezed(text) for w in short), words
    assert sum(letters.values()) > 0


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("content", NAMES)
def test_the_data_holds_the_document_whole(plan: str, content: str) -> None:
    told = json.loads(render(plan_of(plan), content, "json"))
    assert told["title"] == document(plan, content).title
    assert len(told["blocks"]) == len(document(plan, content).blocks)
    kinds = [type(b).__name__.lower() for b in document(plan, content).blocks]
    assert [b["kind"] for b in told["blocks"]] == kinds


def table_rows(plan: str, content: str) -> list[dict[str, str]]:
    text = render(plan_of(plan), content, "csv").decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text)))


def sheet_rows(plan: str, name: str) -> list[dict[str, Any]]:
    data = render(plan_of(plan), "workbook", "xlsx")
    sheet = openpyxl.load_workbook(io.BytesIO(data), data_only=True)[name]
    heads = [c.value for c in sheet[1]]
    return [dict(zip(heads, (c.value for c in r), strict=True)) for r in sheet.iter_rows(min_row=2)]


@pytest.mark.parametrize("plan", PLANS)
def test_the_menu_is_the_same_in_csv_and_workbook(plan: str) -> None:
    names = {w.id: w.name for w in plan_of(plan).trip.walkers}
    ours = [
        (int(r["day"]), names[r["walker"]], r["name"], round(float(r["net_g"]), 2))
        for r in table_rows(plan, "menu") if r["meal"] != "spare"
    ]  # fmt: skip
    theirs = [
        (r["day"], r["for"], r["what"], round(r["food, g"], 2))
        for r in sheet_rows(plan, "Menu")[:-1]
    ]
    assert ours == theirs


@pytest.mark.parametrize("plan", PLANS)
def test_the_shopping_list_is_the_same_in_csv_and_workbook(plan: str) -> None:
    ours = [
        (r["name"], float(r["packs"]), float(r["pack_g"]), float(r["price"] or 0.0))
        for r in table_rows(plan, "shopping")
    ]
    theirs = [
        (r["what"], r["packs"], r["pack, g"], r["cost"] or 0.0)
        for r in sheet_rows(plan, "Shopping")[:-1]
    ]
    assert [o[:3] for o in ours] == [t[:3] for t in theirs]
    assert [o[3] for o in ours] == pytest.approx([t[3] for t in theirs], abs=0.01)


@pytest.mark.parametrize("plan", PLANS)
def test_the_days_are_the_same_in_csv_and_workbook(plan: str) -> None:
    ours = [(float(r["need_kcal"]), float(r["eaten_kcal"])) for r in table_rows(plan, "need")]
    theirs = [(r["uses, kcal"], r["eats, kcal"]) for r in sheet_rows(plan, "Days")]
    for (need, eaten), (uses, eats) in zip(ours, theirs, strict=True):
        assert need == pytest.approx(uses, abs=0.01)
        assert eaten == pytest.approx(eats, abs=0.01)


@pytest.mark.parametrize("plan", PLANS)
def test_bags_on_the_list_weigh_what_the_table_says(plan: str) -> None:
    from oatsack.reports.document import tables_of

    shown = {
        round(r.cells[4].value or 0.0, 2)
        for t in tables_of(document(plan, "bags").blocks) for r in t.rows if r.kind == "row"
    }  # fmt: skip
    told = {round(float(r["bag_net_g"]), 2) for r in table_rows(plan, "bags")}
    assert {round(s, 2) for s in shown} == told


@pytest.mark.parametrize("decimal", [".", ","])
@pytest.mark.parametrize("content", ["shopping", "bags", "menu", "need"])
def test_either_decimal_sign_reads_back_the_same_numbers(content: str, decimal: str) -> None:
    text = render(plan_of("two"), content, "csv", decimal=decimal).decode("utf-8-sig")
    rows = list(csv.reader(io.StringIO(text), delimiter=";" if decimal == "," else ","))
    plain_rows = list(csv.reader(
        io.StringIO(render(plan_of("two"), content, "csv").decode("utf-8-sig"))))  # fmt: skip
    back = [[c.replace(",", ".") if re.fullmatch(r"-?\d+,\d+", c) else c for c in r] for r in rows]
    assert back == plain_rows
