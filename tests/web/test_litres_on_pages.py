"""No litre figure on a page of a plan without what it is: a need, a suggestion, a limit, a size."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from oatsack.reports import words
from oatsack.reports.measures import Measures
from support.desk_pages import Client

MARK = "‡"
PAGES = ("", "/hours", "/kitchen", "/buy", "/pack")
KINDS = re.compile(
    r"need|suggest|limit|estimate|at most|never more|boil|pour|heat|wash|left over|holds|bottle"
    r"|packed|room|container|rubbish|dial", re.IGNORECASE
)  # fmt: skip
"""Words that say what a litre is; volumes of food, rubbish and bottles are sizes of things."""
AROUND = 220
"""Signs before a figure in which its word must stand: its sentence, or the head of its table."""


class Texts(HTMLParser):
    """The texts of a page, each with the headings and column heads that it stands under."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, str]] = []
        self.heading = ""
        self.heads: list[str] = []
        self.before = ""
        self._tags: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._tags.append(tag)
        if tag == "thead":
            self.heads = []

    def handle_endtag(self, tag: str) -> None:
        while self._tags and self._tags.pop() != tag:
            continue
        if tag == "table":
            self.heads = []

    def handle_data(self, data: str) -> None:
        if "style" in self._tags or "script" in self._tags or not data.strip():
            return
        if any(tag in self._tags for tag in ("h1", "h2", "h3", "caption", "summary")):
            self.heading = data
        if "th" in self._tags:
            self.heads.append(data)
        self.found.append((data, f"{self.heading} {' '.join(self.heads)} {self.before[-AROUND:]}"))
        self.before += f" {data}"


@pytest.fixture
def client(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Client:
    """A planned trip whose figures of water all bear a mark."""
    plain = Measures.volume

    def volume(measures: Measures, millilitres: float) -> str:
        return MARK + plain(measures, millilitres)

    monkeypatch.setattr(Measures, "volume", volume)
    monkeypatch.setitem(words.KINDS, "volume", volume)  # type: ignore[arg-type]
    found = Client(tmp_path)
    assert found.get("/trip/walk").status_code == 200
    return found


def bare(page: str) -> list[str]:
    return [text for text, around in Texts(page).found
            if MARK in text and not KINDS.search(f"{around} {text}")]  # fmt: skip


@pytest.mark.slow
def test_every_litre_on_a_page_says_what_it_is(client: Client) -> None:
    pages = {path: client.get(f"/trip/walk{path}").text for path in PAGES}
    assert MARK in pages["/kitchen"] and MARK in pages[""]
    assert {path: found for path, page in pages.items() if (found := bare(page))} == {}


def test_a_litre_without_a_word_is_found() -> None:
    assert bare(f"<h2>Day 1</h2><p>carry {MARK}2.0 l</p>") == [f"carry {MARK}2.0 l"]
    assert bare(f"<h2>Day 1</h2><p>suggested: {MARK}2.0 l</p>") == []
