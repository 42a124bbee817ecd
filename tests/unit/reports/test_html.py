"""HTML pages: alone in one file, escaped, readable without a script, and small on a phone."""

from __future__ import annotations

import base64
import hashlib
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from oatsack.reports import render
from oatsack.reports.contents import CONTENTS
from oatsack.reports.document import Bullets, Document, Fold, Heading, Para, cell, row, table
from oatsack.reports.formats.html import page, sha
from oatsack.reports.formats.html_blocks import blocks_html, slug
from oatsack.values.flags import Flag
from oatsack.values.plan import Plan
from support.each import each
from support.sample_plan import sample_plan

VOID = {"meta", "link", "input", "br", "img", "line", "rect", "path", "polyline", "circle"}


class Reader(HTMLParser):
    """Collects tags, headings, text and what is left open."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.words: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            assert self.open.pop() == tag, tag

    def handle_data(self, data: str) -> None:
        if not self.open or self.open[-1] not in ("style", "script"):
            self.words.append(data)

    @property
    def text(self) -> str:
        return re.sub(r"\s+", " ", " ".join(self.words).replace("\xa0", " "))

    @property
    def levels(self) -> list[int]:
        return [int(tag[1]) for tag, _ in self.tags if re.fullmatch(r"h[1-6]", tag)]


def made(content: str = "report", plan: Plan | None = None) -> str:
    return render(plan or sample_plan(), content, "html").decode()


@each("content", [c.name for c in CONTENTS])
def test_every_page_is_closed_where_it_was_opened_and_steps_its_headings(content: str) -> None:
    reader = Reader(made(content))
    assert reader.open == []
    assert reader.levels[0] == 1
    assert reader.levels.count(1) == 1
    assert all(b - a <= 1 for a, b in zip(reader.levels, reader.levels[1:], strict=False))


@each("content", [c.name for c in CONTENTS])
def test_no_page_fetches_anything(content: str) -> None:
    html = made(content)
    outside = re.findall(r"(?:src|href|url)\s*[=(]\s*[\"']?(?!data:|#)([^\"')\s>]+)", html)
    assert outside == []
    assert "http://" not in html.replace("http://www.w3.org/2000/svg", "")
    assert "https://" not in re.sub(r"https://doi\.org\S*", "", html)


@each("content", ["report", "phone", "shopping"])
def test_the_policy_allows_only_the_parts_that_the_page_holds(content: str) -> None:
    html = made(content)
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', html)
    assert policy is not None and policy[1].startswith("default-src 'none'")
    for tag in ("style", "script"):
        for part in re.findall(rf"<{tag}[^>]*>(.*?)</{tag}>", html, re.S):
            digest = base64.b64encode(hashlib.sha256(part.encode()).digest()).decode()
            assert f"'sha256-{digest}'" in policy[1]
    assert "unsafe" not in policy[1]
    assert re.search(r'<[^>]+\sstyle="', html) is None
    assert re.search(r"<[^>]+\son\w+=", html) is None


def test_a_page_without_a_script_allows_none() -> None:
    assert "script-src" not in made("report")
    assert "script-src" in made("phone")


@each("nasty", ["<b>x</b>", "a & b", '"><script>alert(1)</script>'])
def test_names_are_text_and_never_markup(nasty: str) -> None:
    plan = sample_plan()
    foods = dict(plan.foods) | {"bar": replace(plan.foods["bar"], name=nasty)}
    trip = replace(plan.trip, title=nasty)
    html = made("report", replace(plan, foods=foods, trip=trip))
    assert nasty in Reader(html).text
    assert "<b>x" not in html and "<script>alert" not in html


def test_the_report_holds_totals_shopping_flags_and_the_neutral_line() -> None:
    plan = sample_plan()
    flags = (*plan.flags, Flag(key="made.up", level="caution", values={"n": 3}))
    text = Reader(made("report", replace(plan, flags=flags))).text
    assert "Take care: Made.up" in text
    assert "90.30 EUR" in text
    assert "a full day uses about" in text
    for line in plan.packed.buy:
        assert plan.foods[line.food].name in text


def test_every_picture_has_a_title_a_description_and_its_numbers() -> None:
    html = made("report")
    figures = re.findall(r"<figure>.*?</figure>", html, re.S)
    assert len(figures) >= 6
    for figure in figures:
        assert "<title" in figure and "<desc" in figure and "<table" in figure


def test_names_of_places_in_a_page_are_never_given_twice() -> None:
    for content in ("report", "phone"):
        ids = re.findall(r'\sid="([^"]+)"', made(content))
        assert len(ids) == len(set(ids))


@each("days", [3, 7, 14])
def test_the_phone_page_is_below_150_kb(days: int) -> None:
    assert len(render(sample_plan(days=days), "phone", "html")) < 150_000


def test_the_phone_page_for_twelve_with_long_names_is_below_150_kb() -> None:
    plan = sample_plan(walkers=12, days=14, long_names=True)
    assert len(render(plan, "phone", "html")) < 150_000


def test_the_phone_page_can_be_read_without_its_script() -> None:
    plan = sample_plan(days=4)
    html = re.sub(r"<script.*?</script>", "", made("phone", plan), flags=re.S)
    text = Reader(html).text
    for day in plan.days:
        assert str(day.date.day) in text
    assert "Fruit and seed bar × 2 + 3" in text
    assert "If you are late" in text
    assert "fuel left after it" in text
    assert html.count("<details") >= 4 and '<details class="fold" open' in html


def test_every_tick_of_the_phone_page_has_a_key_of_its_own() -> None:
    keys = re.findall(r'data-key="([^"]+)"', made("phone", sample_plan(days=5)))
    assert len(keys) > 20
    assert len(keys) == len(set(keys))
    assert all(re.fullmatch(r"\d+ \w+ [\w-]+", key) for key in keys)


def test_fuel_left_on_the_last_day_is_what_is_left_over() -> None:
    from oatsack.reports.contents.phone import fuel_left
    from oatsack.reports.telling import telling

    plan = sample_plan(days=5)
    left = [fuel_left(telling(plan), day) for day in plan.days]
    assert plan.kitchen.fuel is not None
    assert left[-1] == pytest.approx(plan.kitchen.fuel.left_g)
    assert left == sorted(left, key=lambda g: -(g or 0))


def test_the_same_plan_gives_the_same_page() -> None:
    assert made("phone") == made("phone")


def test_numbers_that_can_be_opened_bear_their_address() -> None:
    assert 'data-why="need/anna/2/energy_kcal"' in made("need")


def test_blocks_become_the_elements_that_mean_them() -> None:
    html = blocks_html([
        Heading(text="Über uns"), Para(text="quiet", tone="quiet"),
        Bullets(items=("a", "b")), Bullets(items=("c",), ticks=True, keys=("k",)),
        Fold(title="more", blocks=(Para(text="inside"),)),
        table(("x", ">n"), [row("a", cell("1", 1.0, address="need/a/1"))], caption="cap"),
    ])  # fmt: skip
    assert '<h2 id="ber-uns">Über uns</h2>' in html
    assert '<p class="quiet">quiet</p>' in html
    assert "<ul><li>a</li><li>b</li></ul>" in html
    assert '<input type="checkbox" data-key="k">' in html
    assert '<th scope="col" class="r">n</th>' in html
    assert "<caption" in html and 'data-why="need/a/1"' in html
    assert "<summary><h2>more</h2></summary>" in html


def test_a_place_name_is_made_of_plain_signs() -> None:
    assert slug("What to buy!") == "what-to-buy"
    assert slug("!!!") == "part"


def test_the_hash_of_a_part_is_written_as_policies_write_it() -> None:
    """The SHA-256 of the empty text, in base64 (FIPS 180-4 gives e3b0c442...)."""
    assert sha("") == "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='"


def test_a_short_page_has_no_list_of_contents() -> None:
    short = Document(title="t", blocks=(Heading(text="one"), Para(text="x")))
    assert "<nav" not in page(short, style="")
    heads = tuple(Heading(text=f"part {n}") for n in range(5))
    assert "<nav" in page(Document(title="t", blocks=heads), style="")
