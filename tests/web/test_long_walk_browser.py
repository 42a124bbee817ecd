"""A long walk and a label being typed, in a real browser: what our script adds to both pages."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from oatsack.files.trip.write import write_trip
from support.browser import axe_finds, page_of, served
from support.desk_pages import WEEKEND, Given
from support.sample_plan import sample_plan

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    folder: Path = tmp_path_factory.mktemp("trips")
    (folder / "walk.toml").write_text(write_trip(WEEKEND), "utf-8")
    with served(folder, works=Given(sample_plan(walkers=4, days=21, legs=3))) as found:
        yield found


@pytest.mark.parametrize(("scheme", "width"), [("light", 1000), ("dark", 360)])
def test_a_part_opens_in_its_place_and_axe_finds_nothing(
    browser: Any, address: str, scheme: str, width: int
) -> None:
    how = {"color_scheme": scheme, "viewport": {"width": width, "height": 900}}
    with page_of(browser, address, **how) as page:
        page.goto("/trip/walk")
        assert page.locator("details.stretch").count() == 3
        for number in (1, 3):
            page.locator(f"#part-{number} summary").press("Enter")
            page.locator(f"#part-{number} section.day").nth(6).wait_for()
        assert page.locator("section.day").count() == 14
        assert axe_finds(page) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        page.locator("#part-3 figure.ribbon input[type=range]").focus()
        page.keyboard.press("ArrowRight")
        page.locator("#part-3 figure.ribbon output", has_text="carries").wait_for()
        page.goto("/trip/walk/days/2")
        assert page.locator("section.day").count() == 7 and axe_finds(page) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_after_a_change_the_part_is_open_still_and_the_place_is_kept(
    browser: Any, address: str
) -> None:
    with page_of(browser, address, viewport={"width": 900, "height": 700}) as page:
        page.goto("/trip/walk")
        page.locator("#part-2 summary").click()
        day = page.locator("#part-2 section.day").nth(5)
        day.scroll_into_view_if_needed()
        day.locator("a.eats").first.click()
        page.locator("#card.inrow button[value^=keep]").click()
        page.locator("#card").wait_for(state="detached")
        page.locator("#part-2 section.day").nth(6).wait_for()
        top = page.locator("#part-2 section.day").nth(5).bounding_box()["y"]
        assert -100 < top < 700, "the day that was changed is still in sight"


def test_the_days_of_a_party_open_by_keyboard_stay_so_over_a_change_and_print_whole(
    browser: Any, tmp_path: Path
) -> None:
    (tmp_path / "walk.toml").write_text(write_trip(WEEKEND), "utf-8")
    is_open = "[...document.querySelectorAll('details.stretch')].map(day => day.open)"
    seen = "[...document.querySelectorAll('section.day')].map(day => day.offsetHeight > 40)"
    with (
        served(tmp_path, works=Given(sample_plan(walkers=6, days=4))) as address,
        page_of(browser, address, viewport={"width": 360, "height": 740}) as page,
    ):
        page.goto("/trip/walk")
        assert page.evaluate(is_open) == [True, False, False, False]
        for number in (1, 3):
            page.locator(f"#day-{number} summary").press("Enter")
        assert page.evaluate(is_open) == [False, False, True, False]
        assert axe_finds(page) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= 360
        page.locator("#day-3 a.eats").first.click()
        page.locator("#card.inrow button[value^=keep]").click()
        page.locator("#card").wait_for(state="detached")
        assert page.evaluate(is_open) == [False, False, True, False]
        page.emulate_media(media="print")
        assert page.evaluate(seen) == [True] * 4, "paper shows every day"


def test_without_scripts_a_part_is_a_page_and_a_change_leads_back_to_it(
    browser: Any, address: str
) -> None:
    with page_of(browser, address, java_script_enabled=False) as page:
        page.goto("/trip/walk")
        page.locator("#part-2 summary").click()
        page.locator("#part-2 .open a").click()
        assert page.url.endswith("/days/2") and page.locator("section.day").count() == 7
        page.locator("nav a[rel=next]").click()
        assert page.url.endswith("/days/3")


def test_a_label_is_doubted_and_faulted_while_it_is_typed(browser: Any, address: str) -> None:
    with page_of(browser, address) as page:
        page.goto("/larder/label")
        note, tick = page.locator(".judged .note"), page.locator(".sure")
        page.select_option("#f-category", "bread")
        page.locator("#f-per").press_sequentially("100 g")
        page.locator("#f-kcal").press_sequentially("1590")
        note.wait_for()
        assert "kilojoules" in note.inner_text() and tick.is_visible()
        assert axe_finds(page) == []
        page.locator("#f-fat-g").fill("a lot")
        page.locator("#f-fat-g-f").wait_for()
        described = page.locator("#f-fat-g").get_attribute("aria-describedby")
        assert described and "f-fat-g-f" in described.split()
        page.locator("#f-fat-g").fill("2")
        page.locator("#f-fat-g-f").wait_for(state="detached")
        page.locator("#f-kcal").fill("380")
        note.wait_for(state="hidden")
        assert not tick.is_visible()
        assert page.locator(".fault").count() == 0, "nothing is said about what is still blank"


def test_a_tick_that_the_label_was_looked_at_is_for_these_doubts_only(
    browser: Any, address: str
) -> None:
    with page_of(browser, address) as page:
        page.goto("/larder/label")
        page.select_option("#f-category", "bread")
        page.locator("#f-per").fill("100 g")
        page.locator("#f-kcal").fill("1590")
        page.locator(".sure").wait_for()
        page.locator(".sure input").check()
        page.locator("#f-kcal").fill("38")
        page.locator(".sure input:not(:checked)").wait_for()
        assert page.locator(".sure").is_visible()
