"""Stop, reload and leave in a real browser, with and without scripts: the best so far is kept and
said, the work is found again, and one press of Undo goes back."""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from typing import Any

import pytest

from oatsack.desk.elsewhere import Elsewhere
from oatsack.desk.solving import ENOUGH, Asked, Hear, Planned, Seen, planned
from oatsack.files.trip.write import Answers, write_trip
from oatsack.web import live
from support import browser as support
from support.browser import axe_finds, page_of, served

pytestmark = [pytest.mark.browser, pytest.mark.slow]
WEEK = Answers(masses=("68 kg",), begin="2027-06-12 09:00", end="2027-06-16 15:00",
               distance="14 km", up="500 m")  # fmt: skip
PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True}


class Endless(Elsewhere):
    """Betters a menu until somebody has seen enough, then really plans and stops at the first."""

    def plan(self, asked: Asked, hear: Hear) -> Planned:
        """A plan whose search was stopped."""
        if "# quick" in asked.text or asked.near is None:
            return planned(asked)
        for count in range(1, 3000):
            seen = Seen(count=count // 20 + 1, mass_g=3000.0 - count // 20, price=40.0, gap=0.1)
            if hear(seen) == ENOUGH:
                break
            time.sleep(0.02)
        return planned(asked, lambda one: ENOUGH if one.count else True)


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    folder = tmp_path_factory.mktemp("trips")
    (folder / "walk.toml").write_text(write_trip(WEEK), "utf-8")
    patch = pytest.MonkeyPatch()
    patch.setattr(support, "Elsewhere", Endless)
    with served(folder) as found:
        yield found
    patch.undo()


def take_out(page: Any) -> None:
    """One food taken out, on its own page."""
    page.goto("/trip/walk")
    page.goto(page.locator('.meal:has(h4:text-is("lunch")) a.eats').first.get_attribute("href"))
    page.get_by_role("button", name="Take out").click()


def test_stop_keeps_the_best_so_far_and_says_so(browser: Any, address: str) -> None:
    with page_of(browser, address, **PHONE) as page:
        take_out(page)
        bar = page.locator("#working")
        bar.locator("span", has_text=re.compile(r"Best so far: .*; within 10")).wait_for()
        page.reload()
        bar.locator("span", has_text="Best so far").wait_for()
        assert axe_finds(page) == []
        page.goto("/trip/walk/buy")
        bar.locator("button.stop").tap()
        page.locator("#changed", has_text="The search was stopped").wait_for()
        note = page.locator("p.note", has_text="The search was stopped")
        assert re.search(r"at most \d+ ?% above the best possible", note.inner_text())
        assert page.evaluate("document.activeElement.id") == "changed", "it is read out"
        assert bar.count() == 0 and page.url.endswith("/trip/walk")
        assert axe_finds(page) == []
        page.get_by_role("button", name="Undo").click()
        page.locator("#changed", has_text="One step back").wait_for()
        assert page.locator("p.note", has_text="The search was stopped").count() == 0


def test_leaving_the_page_keeps_the_edit_and_the_best_so_far(
    browser: Any, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("oatsack.web.underway.GRACE_S", 0.3)
    with page_of(browser, address) as page:
        take_out(page)
        page.locator("#working span", has_text="Best so far").wait_for()
        page.goto("about:blank")
        page.wait_for_timeout(1000)  # nobody waits any more
        for _ in range(50):
            page.goto(f"{address}/trip/walk/text")
            if "rules.bans" in page.get_by_role("textbox").input_value():
                break
        page.goto(f"{address}/trip/walk")
        assert page.locator("p.note", has_text="The search was stopped").count() == 1
        page.get_by_role("button", name="Undo").click()
        page.locator("#changed", has_text="One step back").wait_for()


def test_without_scripts_work_is_shown_and_stopped_by_plain_pages(
    browser: Any, address: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(live, "PLAIN_S", 0.3)
    with page_of(browser, address, java_script_enabled=False) as page:
        take_out(page)
        bar = page.locator("#working")
        bar.wait_for()
        for _ in range(50):
            bar.get_by_role("link", name="How far is it?").click()
            if "Best so far" in bar.inner_text():
                break
        assert "Best so far" in bar.inner_text()
        monkeypatch.setattr(live, "PLAIN_S", 60.0)
        bar.get_by_role("button", name="Stop").click()
        page.locator("p.note", has_text="The search was stopped").wait_for()
        assert "The search was stopped" in page.locator("#changed").inner_text()
        page.get_by_role("button", name="Undo").click()
        assert "One step back" in page.locator("#changed").inner_text()


class Slow(Elsewhere):
    """Takes a while before it finds anything."""

    def plan(self, asked: Asked, hear: Hear) -> Planned:
        for _ in range(60):
            hear(Seen(count=0, mass_g=0.0, price=0.0, gap=1.0))
            time.sleep(0.05)
        return planned(asked)


def test_the_very_first_page_of_a_browser_and_another_beside_it_come_to_the_plan(
    browser: Any, tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The file was written elsewhere, and neither browser has a cookie yet."""
    monkeypatch.setattr(live, "PLAIN_S", 0.3)
    monkeypatch.setattr(support, "Elsewhere", Slow)
    folder = tmp_path_factory.mktemp("written")
    (folder / "walk.toml").write_text(write_trip(WEEK), "utf-8")
    with served(folder) as at, page_of(browser, at) as one, page_of(browser, at) as two:
        one.goto("/trip/walk")
        assert one.locator("[data-waits]").count() == 1
        two.goto("/trip/walk")
        assert two.locator("[data-waits]").count() == 1
        for page in (one, two):
            page.locator("#ribbon").wait_for()
            assert page.locator("section.day").count() == 5
