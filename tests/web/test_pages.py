"""The pages in a real browser: no fault found by axe, no console message, ticks that are kept."""

from __future__ import annotations

import importlib.util
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from oatsack.reports import render
from support.sample_plan import sample_plan

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture
def shown(browser: Any, tmp_path: Path) -> Iterator[Any]:
    """Opens a report from the file system with the network off."""
    contexts: list[Any] = []

    def show(content: str, *, size: dict[str, Any] | None = None, **how: Any) -> Any:
        file = tmp_path / f"{content}.html"
        file.write_bytes(render(sample_plan(**(size or {})), content, "html"))
        context = browser.new_context(offline=True, **how)
        contexts.append(context)
        page = context.new_page()
        page.said = []
        page.on("console", lambda m: page.said.append(m.text))
        page.on("pageerror", lambda e: page.said.append(str(e)))
        page.goto(file.as_uri())
        return page

    yield show
    for context in contexts:
        context.close()


def axe_source() -> str:
    spec = importlib.util.find_spec("axe_playwright_python")
    assert spec is not None and spec.submodule_search_locations
    return next(Path(spec.submodule_search_locations[0]).rglob("axe.min.js")).read_text("utf-8")


def faults(page: Any) -> list[str]:
    page.evaluate(axe_source())
    found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    return [f"{v['id']}: {v['nodes'][0]['html'][:120]}" for v in found["violations"]]


@pytest.mark.parametrize("content", ["report", "phone", "plan", "labels", "sheet", "allergy"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_page_has_a_fault_that_axe_finds(shown: Any, content: str, scheme: str) -> None:
    page = shown(content, size={"walkers": 3}, color_scheme=scheme)
    assert faults(page) == []
    assert page.said == []


@pytest.mark.parametrize("content", ["report", "phone", "menu", "bags", "carriers", "sheet"])
@pytest.mark.parametrize("width", [320, 375, 900])
def test_nothing_overflows_sideways(shown: Any, content: str, width: int) -> None:
    size = {"walkers": 12, "days": 5, "long_names": True, "units": "us"}
    page = shown(content, size=size, viewport={"width": width, "height": 800})
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_ticks_are_kept_and_told_as_a_short_text(shown: Any) -> None:
    page = shown("phone", size={"days": 4})
    page.locator("input[data-key]").first.check()
    page.fill("#fuel", "120")
    page.fill("#note", "loved  the\nstew")
    told = page.input_value("#told").splitlines()
    key = page.locator("input[data-key]").first.get_attribute("data-key")
    assert told[0].startswith("tally ")
    assert told[1:] == [key, "fuel 120", "note loved the stew"]
    page.reload()
    assert page.locator("input[data-key]").first.is_checked()
    assert page.input_value("#fuel") == "120"
    assert page.said == []


def test_today_is_open_on_its_day_and_the_first_day_else(shown: Any) -> None:
    page = shown("phone", size={"days": 4})
    opened = (
        "Array.from(document.querySelectorAll('details[data-day][open]')).map(d => d.dataset.day)"
    )
    assert page.evaluate(opened) == ["2027-06-10"]
    page.clock.set_fixed_time("2027-06-12T08:00:00")
    page.reload()
    assert page.evaluate(opened) == ["2027-06-12"]


def test_without_scripts_everything_is_there_but_the_export(shown: Any) -> None:
    page = shown("phone", size={"days": 4}, java_script_enabled=False)
    text = page.inner_text("main")
    assert "Lunch" in text and "For all days" in text and "If you are late" in text
    assert not page.locator("#tally").is_visible()
    page.locator("summary").nth(1).click()
    assert page.locator("details").nth(1).get_attribute("open") is not None


def test_boxes_to_tick_are_big_enough_for_a_cold_thumb(shown: Any) -> None:
    page = shown("phone", viewport={"width": 375, "height": 800})
    box = page.locator("ul.ticks label").first.bounding_box()
    assert box["height"] >= 44


@pytest.mark.parametrize("content", ["report", "plan"])
def test_the_printed_page_is_black_on_white(shown: Any, content: str) -> None:
    page = shown(content, color_scheme="dark")
    page.emulate_media(media="print")
    colours = page.evaluate(
        "[getComputedStyle(document.body).backgroundColor, getComputedStyle(document.body).color]"
    )
    assert colours == ["rgb(255, 255, 255)", "rgb(0, 0, 0)"]
