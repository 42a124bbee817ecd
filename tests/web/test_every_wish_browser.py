"""Every wish of the trip page in a real browser: by touch at a phone's width, by keyboard, and
without scripts. Each is told, stands in the trip's own file, and all are undone and redone."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from oatsack.files.trip.write import write_trip
from support.browser import page_of, served
from support.desk_pages import WEEKEND

pytestmark = [pytest.mark.browser, pytest.mark.slow]
PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True}
NOTE = "# packed by hand\n"
MODES: dict[str, dict[str, Any]] = {
    "touch": PHONE, "keyboard": {}, "no scripts": {**PHONE, "java_script_enabled": False},
}  # fmt: skip
Press = Callable[[Any], None]


class Hand:
    """Somebody at a page, by one way of using it."""

    def __init__(self, page: Any, mode: str, file: Path) -> None:
        self.page, self.mode, self.file = page, mode, file
        self.texts = [self.text()]

    def text(self) -> str:
        return self.file.read_text("utf-8")

    def press(self, what: Any) -> None:
        if self.mode == "touch":
            what.tap()
        elif self.mode == "keyboard":
            what.press("Enter")
        else:
            what.click()

    def card(self, meal: str, food: str = "") -> Any:
        """The card of a portion, in its row or as a page of its own."""
        self.page.goto("/trip/walk")
        rows = self.page.locator(f'.meal:has(h4:text-is("{meal}")) a.eats')
        self.press(rows.filter(has_text=food).first if food else rows.first)
        self.page.locator("#card").wait_for()
        return self.page.locator("#card")

    def told(self) -> str:
        """What is read out once a change is there; the file has changed with it."""
        if self.mode != "no scripts":
            self.page.locator("#working").wait_for(state="detached")
        line = self.page.locator("#changed", has_text=re.compile(r"hanged|anew|step"))
        line.first.wait_for()
        return str(line.first.inner_text())

    def wish(self, button: Any) -> str:
        """One wish, which changes the trip's text and is told."""
        before = self.text()
        self.press(button)
        said = self.told()
        assert self.text() != before and NOTE.strip() in self.text()
        self.texts.append(self.text())
        return said


def by_name(where: Any, name: str) -> Any:
    return where.get_by_role("button", name=re.compile(name)).first


@pytest.mark.parametrize("mode", sorted(MODES))
def test_every_wish_is_made_told_written_undone_and_done_again(
    browser: Any, tmp_path: Path, mode: str
) -> None:
    file = tmp_path / "walk.toml"
    file.write_text(NOTE + write_trip(WEEKEND), "utf-8")
    with served(tmp_path) as address, page_of(browser, address, **MODES[mode]) as page:
        page.goto("/trip/walk")
        hand = Hand(page, mode, file)
        on_the_menu(hand)
        around_it(hand)
        back_and_forth(hand)
        wide = page.evaluate("document.documentElement.scrollWidth")
        assert wide <= MODES[mode].get("viewport", {"width": 1280})["width"]


def on_the_menu(hand: Hand) -> None:
    """Keep, let go, one more, one less, take out, forbid, swap, put in."""
    hand.wish(by_name(hand.card("dinner"), "^Keep this"))
    assert "[[rules.holds]]" in hand.text() or "holds" in hand.text()
    hand.wish(by_name(hand.card("dinner"), "^Let go"))
    hand.wish(by_name(hand.card("lunch"), "^One more"))
    hand.wish(by_name(hand.card("lunch"), "^One less"))
    assert "marked" in hand.wish(by_name(hand.card("lunch"), "^Take out"))
    assert hand.page.locator("a.eats.new").count() >= 1, "what changed is marked"
    hand.wish(by_name(hand.card("lunch"), "^Never for"))
    assert hand.page.get_by_text(re.compile("^.*never ")).count() >= 1, "it stands in Your word"
    assert "marked" in hand.wish(by_name(hand.card("lunch"), "^Swap: "))
    hand.page.goto("/trip/walk")
    hand.press(hand.page.locator("a.put").first)
    hand.page.locator("#card").wait_for()
    hand.wish(by_name(hand.page, "^Put in: "))
    hand.page.goto("/trip/walk")
    hand.wish(by_name(hand.page, "^Take back: "))


def around_it(hand: Hand) -> None:
    """The dial, a number, the walker, the days, the kit, the rules."""
    page = hand.page
    page.goto("/trip/walk")
    hand.wish(by_name(page, "^more: "))
    page.get_by_label("or a number for everyone").fill("2300 kcal")
    hand.wish(page.get_by_role("button", name="Set", exact=True))
    for path, field, value in (
        ("walkers/0", "f-walkers-0-mass", "71 kg"),
        ("form/days", "f-route-usual-day-distance", "15 km"),
        ("form/kit", "f-kit-pots-0-volume", "1.2 l"), ("form/rules", "f-rules-budget", "60 EUR"),
    ):  # fmt: skip
        page.goto(f"/trip/walk/{path}")
        page.locator(f"#{field}").fill(value)
        hand.wish(page.get_by_role("button", name="Save and plan").first)
        assert value in hand.text()


def back_and_forth(hand: Hand) -> None:
    """Undo to the very first text, and redo to the last, each step told."""
    hand.page.goto("/trip/walk")
    for name, said, order in (
        ("Undo", "One step back", list(reversed(hand.texts[:-1]))),
        ("Redo", "One step forward", hand.texts[1:]),
    ):
        for text in order:
            hand.press(hand.page.get_by_role("button", name=name))
            hand.page.wait_for_timeout(50)
            assert said in hand.told()
            assert hand.text() == text
    assert hand.page.get_by_role("button", name="Redo").count() == 0
