"""Every number on the pages of a trip opens its calculation (C8): all pages are read, and each
number that is no link is either nothing that is worked out, or named here with the reason."""

from __future__ import annotations

import re
from html import unescape
from html.parser import HTMLParser
from pathlib import Path
from typing import NamedTuple

import pytest

from oatsack.files.trip.write import Answers, write_trip
from support.desk_pages import Client

WALK = Answers(masses=("68 kg", "80 kg"), begin="2027-06-12 09:00", end="2027-06-14 15:00",
               distance="14 km", up="500 m")  # fmt: skip
LINKS = ("why?at=", "/larder/food/")
"""A number of a plan opens its calculation, one of a food the label that it was read from."""

NOT_WORKED_OUT = {
    "a date": r"\b(Mon|Tue|Wed|Thu|Fri|Sat|Sun)[a-z]* \d+( June)?|\d{4}-\d\d-\d\d"
              r"|\b\d+ June( \d{4})?\b",
    "a time of day": r"\b\d{1,2}:\d\d\b",
    "a name": r"\bWalker \d+|\bcamp \d+|\bday \d+\b|Bag \d+|no\. \d+|\b\d+/\d+\b",
    "how many rows a list has":
        r"\b\d+ (packs? of|things?|walkers?|days?|nights?|bags?|portions?)\b",
    "the size of a pack": r"cans? of [\d.]+ g|bottles? of [\d.]+ ml",
    "a scale": r"of 5\b",
}  # fmt: skip
"""Digits that stand for no sum, wherever they are."""


class Left(NamedTuple):
    """Numbers that are no link: of which pages, where on them, how they read, and why that is."""

    page: str
    place: str
    text: str
    why: str


LEFT = (
    Left("trip|hours", r"text\.", "", "the picture: the table behind it holds these as links"),
    Left("trip", r"a\.eats", "", "a portion's link leads to its card, where all of it opens"),
    Left("trip", r"dl/dd", " × ", "whole things: the list of Buy holds each of them as a link"),
    Left("hours", r"td\.r", r"\(.* to .*\)", "what is eaten less what is used, both linked"),
    Left("put", r"span\.quiet", "", "a food not eaten yet: its label is the link beside it"),
    Left("card", r"h1", " × ", "the portion's name; its count opens below"),
    Left("card", r"td\.r", "", "what another food would change: its label is the link beside it"),
    Left("dial", r"td", "", "another whole plan: once taken all of it opens"),
    Left("choices", r"td", "", "other whole menus, as they are judged: once taken they open"),
    Left("buy", r"dd", r"\d+ servings?", "of what is left: its mass and energy are links"),
    Left("pack", r"td\.r", r"^\d+$", "the number of a bag, as it stands on its label"),
    Left("kitchen", r"h3|caption", r"m$", "how high a camp lies, as the days tell it"),
    Left("kitchen", r"li|main/p", r"within 2 hours|drink to thirst", "a rule, not a sum"),
)


class Numbers(HTMLParser):
    """Every text of a page with digits: where it stands, and whether it is a link to open it."""

    VOID = frozenset({"input", "br", "img", "meta", "link", "hr", "path", "line", "rect", "circle",
                      "polyline", "polygon"})  # fmt: skip
    PASSED = frozenset({"script", "style", "title", "select", "textarea", "nav", "label", "button",
                        "desc", "option"})  # fmt: skip

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[tuple[str, dict[str, str]]] = []
        self.linked: list[str] = []
        self.bare: list[tuple[str, str]] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in self.VOID:
            self.open.append((tag, {key: value or "" for key, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        if self.PASSED & {tag for tag, _ in self.open} or not re.search(r"\d", data):
            return
        hrefs = [given.get("href", "") for tag, given in self.open if tag == "a"]
        if any(part in href for href in hrefs for part in LINKS):
            self.linked.append(data)
            return
        place = "/".join(tag + ("." + given["class"] if given.get("class") else "")
                         for tag, given in self.open[-3:])  # fmt: skip
        self.bare.append((place, " ".join(data.split())))


def worked_out(text: str) -> bool:
    """Whether digits are left once all is taken out that stands for no sum."""
    for pattern in NOT_WORKED_OUT.values():
        text = re.sub(pattern, "", text)
    return re.search(r"\d", text) is not None


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Numbers]:
    client = Client(tmp_path_factory.mktemp("walk"), write_trip(WALK))
    trip = client.get("/trip/walk").text
    place = re.search(r"/at\?p=([^\"]+/dinner/[^\"]+)", trip)
    dial = re.search(r"/dial\?w=([\w-]+)", trip)
    assert place and dial
    paths = {
        "trip": "", "hours": "/hours", "buy": "/buy", "pack": "/pack", "kitchen": "/kitchen",
        "card": f"/at?p={place[1]}", "put": "/put?p=2/lunch", "dial": f"/dial?w={dial[1]}",
        "choices": "/choices",
    }  # fmt: skip
    return {name: Numbers(client.get(f"/trip/walk{path}").text) for name, path in paths.items()}


@pytest.mark.slow
def test_every_number_that_is_worked_out_is_a_link_or_named_with_its_reason(
    pages: dict[str, Numbers],
) -> None:
    used: set[Left] = set()
    wrong = []
    for page, found in pages.items():
        for place, text in found.bare:
            reasons = [one for one in LEFT if re.fullmatch(one.page, page)
                       and re.search(one.place, place) and re.search(one.text, text)]  # fmt: skip
            used |= set(reasons)
            if worked_out(text) and not reasons:
                wrong.append((page, place, text))
    assert wrong == []
    assert [one for one in LEFT if one not in used] == [], "no reason without a number"


@pytest.mark.slow
def test_most_numbers_of_each_page_are_links(pages: dict[str, Numbers]) -> None:
    few = {name: len(found.linked) for name, found in pages.items() if name != "choices"
           and len(found.linked) < {"dial": 5, "put": 0, "card": 10}.get(name, 25)}  # fmt: skip
    assert few == {}


@pytest.mark.slow
def test_every_link_of_every_page_opens(tmp_path: Path) -> None:
    client = Client(tmp_path, write_trip(WALK))
    wrong = set()
    for path in ("", "/buy", "/pack", "/kitchen", "/see/plan", "/see/menu", "/see/need"):
        page = client.get(f"/trip/walk{path}").text
        links = sorted(set(re.findall(r'href="(/trip/walk/why\?[^"]+)"', page)))
        assert links, path
        for link in links[:: max(1, len(links) // 25)]:
            answer = client.get(unescape(link))
            if answer.status_code != 200 or "source:" not in answer.text:
                wrong.add((path, link))
    assert wrong == set()
