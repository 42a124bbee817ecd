"""Paper: its text equals the plan, equal input gives equal bytes, nothing leaves the page."""

from __future__ import annotations

import io
import re
from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any

import pypdf
import pytest

from oatsack.desk.papers import papers_for
from oatsack.reports import render
from oatsack.reports.contents import CONTENTS
from oatsack.reports.document import Heading, Para, cell, columns, row, table
from oatsack.reports.formats.pdf import greyed, together, widths
from oatsack.reports.telling import version
from oatsack.values.plan import Plan
from support.each import each
from support.sample_plan import sample_plan

PAPERS = [c.name for c in CONTENTS if c.paper]


def read(data: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(data))


@cache
def words(content: str, size: tuple[tuple[str, Any], ...] = ()) -> str:
    """The text of a PDF with single spaces and soft hyphens gone."""
    return text_of(render(sample_plan(**dict(size)), content, "pdf"))


def text_of(data: bytes) -> str:
    text = " ".join(page.extract_text() for page in read(data).pages)
    text = text.replace("\xa0", " ").replace("\u00ad", "")
    return re.sub(r"\s+", " ", text)


def spot(page: Sequence[float], line: Sequence[float]) -> tuple[float, float]:
    """Where a run of text begins: its own matrix within the page's (PDF 32000, 9.4.4)."""
    x, y = line[4], line[5]
    return page[0] * x + page[2] * y + page[4], page[1] * x + page[3] * y + page[5]


def size(**kw: Any) -> tuple[tuple[str, Any], ...]:
    return tuple(kw.items())


@pytest.mark.slow
@each("content", PAPERS)
def test_every_paper_is_tagged_titled_and_of_one_language(content: str) -> None:
    reader = read(render(sample_plan(), content, "pdf"))
    root: Mapping[str, Any] = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert str(root["/Lang"]).startswith("en")
    assert reader.metadata is not None and "Heron Tarns" in str(reader.metadata.title)


@pytest.mark.slow
@each("content", PAPERS)
def test_equal_input_gives_equal_bytes(content: str) -> None:
    assert render(sample_plan(), content, "pdf") == render(sample_plan(), content, "pdf")


@pytest.mark.slow
@each("content", PAPERS)
def test_every_page_bears_the_version_of_the_plan(content: str) -> None:
    plan = sample_plan()
    for page in read(render(plan, content, "pdf")).pages:
        assert version(plan) in page.extract_text()


@each(("paper", "points"), [("a4", (595, 842)), ("letter", (612, 792))])
def test_paper_comes_in_a4_and_letter(paper: str, points: tuple[int, int]) -> None:
    box = read(render(sample_plan(), "menu", "pdf", paper=paper)).pages[0].mediabox
    assert (round(float(box.width)), round(float(box.height))) == points


def test_the_shopping_list_on_paper_holds_every_thing_with_its_packs() -> None:
    plan = sample_plan(days=7)
    text = words("shopping", size(days=7))
    for line in plan.packed.buy:
        name = plan.foods[line.food].name
        if line.packs > 0:
            assert f"{line.packs:.0f} {name}" in text
        assert name in text
    assert f"{plan.totals.price:,.2f} EUR" in text


def test_the_bags_on_paper_hold_every_bag_with_its_mass() -> None:
    plan = sample_plan()
    text = words("bags")
    for bag in plan.packed.bags:
        assert f"{bag.net_g:,.0f} g {bag.gross_g:,.0f} g" in text
    assert f"{len(plan.packed.bags)} bags" in text


def test_there_is_a_label_for_every_bag_with_its_number_and_allergens() -> None:
    plan = sample_plan()
    text = words("labels")
    for bag in plan.packed.bags:
        assert f"{bag.number} of {bag.of}" in text
    assert "Contains gluten, milk, tree nuts. May contain wheat." in text
    assert "400 ml boiling (1¼ mugs) to each, wait 10 min" in text


def test_the_menu_on_paper_holds_every_day_and_what_it_sums_to() -> None:
    plan = sample_plan()
    text = words("menu")
    for walker, of in plan.eaten.items():
        for day, total in of.items():
            assert f"{round(total.energy_kcal, -1):,.0f} kcal" in text, (walker, day)
    assert "night at Heron Tarn 2, 1,140 m, no water there" in text


@pytest.mark.slow
def test_the_sheet_is_two_sides_with_the_late_plan_and_the_tally_behind() -> None:
    for days in (2, 3, 7, 10):
        reader = read(render(sample_plan(days=days), "sheet", "pdf"))
        assert len(reader.pages) == 2, days
        back = reader.pages[1].extract_text()
        assert "If you are late" in back and "Tally" in back


def test_the_sheet_says_in_which_order_amounts_stand() -> None:
    text = words("sheet")
    assert "amounts: Anna + Ben" in text
    assert "Fruit and seed bar × 2 + 3" in text
    assert "Ben: 75 g Rye crackers, Tuna pouch × 1" in text


def test_day_cards_hold_every_day() -> None:
    text = words("cards", size(days=7))
    for n in range(1, 8):
        assert f"{n} of 7" in text


def test_cook_cards_hold_every_cooked_meal_and_no_water_that_is_not_boiled() -> None:
    plan = sample_plan()
    text = words("cook-cards")
    assert len(re.findall(r"(?:Thu|Fri|Sat) \d+, (?:breakfast|dinner)", text)) == len(
        plan.kitchen.meals
    )
    assert re.search(r"(?<!\d)0 ml", text) is None


def test_a_cook_card_says_who_must_not_eat_what() -> None:
    plan = sample_plan(walkers=3)
    text = text_of(render(plan, "allergy", "pdf"))
    assert "Clara must avoid peanut (not on the plate)." in text
    assert "Nut and fruit mix; carried for Anna, Ben" in text


def test_boxes_hold_every_bag_of_their_leg() -> None:
    plan = sample_plan(days=6, legs=2)
    text = text_of(render(plan, "boxes", "pdf"))
    held = [b for b in plan.packed.bags if b.leg == 2]
    assert held
    for bag in held:
        assert re.search(rf"\b{bag.number} \w", text)


LONG = size(walkers=12, days=5, units="us", long_names=True)


@pytest.mark.slow
@each("content", PAPERS)
def test_long_names_us_units_and_twelve_walkers_stay_inside_the_page(content: str) -> None:
    for page in read(render(sample_plan(**dict(LONG)), content, "pdf")).pages:
        found: list[tuple[float, float]] = []

        def place(text: str, *at: Any, found: list[tuple[float, float]] = found) -> None:
            if text.strip():
                found.append(spot(at[0], at[1]))

        page.extract_text(visitor_text=place)
        width, height = float(page.mediabox.width), float(page.mediabox.height)
        assert all(0 <= x <= width and 0 <= y <= height for x, y in found)


def text_places(data: bytes) -> list[tuple[str, float, float]]:
    """Every run of text on the first page with its place, from the lower left [points]."""
    found: list[tuple[str, float, float]] = []

    def place(text: str, *at: Any) -> None:
        if text.strip():
            found.append((text, *spot(at[0], at[1])))

    read(data).pages[0].extract_text(visitor_text=place)
    return found


@pytest.mark.slow
@each("filling", [1, 8, 25])
def test_a_card_however_full_ends_inside_its_frame(filling: int) -> None:
    """Ten labels to a page: the third row ends where the fourth begins."""
    from oatsack.reports.document import Card, Cards, Document
    from oatsack.reports.formats import pdf

    blocks = tuple(Para(text=f"line {n} of the contents of a bag") for n in range(filling))
    card = Card(title="Bag", mark="1 of 1", blocks=blocks, foot="END-OF-CARD")
    data = pdf.render(Document(title="t", blocks=(Cards(cards=(card,) * 10, size="label"),)))
    places = text_places(data)
    tops = sorted({round(y) for text, _, y in places if text.startswith("Bag")}, reverse=True)
    ends = sorted({round(y) for text, _, y in places if "END" in text}, reverse=True)
    assert len(tops) == len(ends) == 5
    pitch = (tops[0] - tops[-1]) / 4
    assert all(0 < top - end < pitch - 14 for top, end in zip(tops, ends, strict=True))


def test_columns_are_as_wide_as_what_stands_in_them() -> None:
    small = table(("a", ">b"), [row("x", cell("1", 1.0))])
    assert widths(small) == [0.0, 0.0]
    wide = table(("a", ">b"), [row("x" * 70, cell("1", 1.0))])
    assert widths(wide)[0] >= 1.0 and widths(wide)[1] == 0.0
    assert [c.width for c in columns("a*3", ">b")] == [3.0, 0.0]


@each(
    ("colour", "grey"),
    [
        ("#ffffff", "#ffffff"),
        ("#000000", "#000000"),
        ("#ff0000", "#4c4c4c"),
        ("#7fb6cf", "#a8a8a8"),
    ],
)
def test_colours_become_the_grey_that_looks_as_bright(colour: str, grey: str) -> None:
    """Luma of ITU-R BT.601: 0.299 R + 0.587 G + 0.114 B (pure red is 76)."""
    assert greyed(f'fill="{colour}"') == f'fill="{grey}"'


@pytest.mark.slow
def test_a_grey_report_holds_the_same_words() -> None:
    plan = sample_plan()
    assert text_of(render(plan, "report", "pdf", grey=True)) == text_of(
        render(plan, "report", "pdf")
    )


def test_a_heading_is_kept_with_its_short_table() -> None:
    from oatsack.reports.formats.json import plain

    blocks = [plain(b) for b in (Heading(text="h"), Para(text="p"), table(("a",), [row("x")]),
                                 Para(text="q"), Heading(text="i"))]  # fmt: skip
    kinds = [b["kind"] for b in together(blocks)]
    assert kinds == ["together", "para", "heading"]


@pytest.mark.slow
def test_the_papers_of_two_for_a_week_take_less_than_a_second_of_work() -> None:
    import time

    def papers(plan: Plan) -> None:
        for name in papers_for(plan):
            render(plan, name, "pdf")

    papers(sample_plan())
    start = time.process_time()
    papers(sample_plan(days=7))
    assert time.process_time() - start < 1.0


def test_every_code_on_a_label_decodes_back_to_its_bag() -> None:
    """Read from the PDF's own text, for two legs, so that numbers come twice."""
    from oatsack.desk.weighing import found_bag
    from oatsack.packing.code import decode

    plan = sample_plan(days=6, legs=2)
    text = text_of(render(plan, "labels", "pdf"))
    codes = re.findall(r"\b\d+-\d{2,}-[0-9A-F]{6}-[0-9A-Z]\b", text)
    labelled = [b for b in plan.packed.bags if not b.sealed]
    assert [found_bag(plan, code).id for code in codes] == [b.id for b in labelled]
    assert {decode(code).version for code in codes} == {version(plan)}
