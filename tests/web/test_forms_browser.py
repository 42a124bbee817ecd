"""Forms, larder, packing and paper in a real browser: no scripts, keyboard, two windows, print."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

import pytest

from oatsack.files.trip.write import write_trip
from support.browser import axe_finds, served
from support.desk_pages import WEEKEND

pytestmark = [pytest.mark.browser, pytest.mark.slow]
PAGES = ("/larder", "/larder?q=oats&units=us", "/larder/food/couscous", "/larder/label",
         "/larder/stock", "/trip/walk/walkers", "/trip/walk/walkers/0", "/trip/walk/form/days",
         "/trip/walk/form/kit", "/trip/walk/form/rules", "/trip/walk/likes", "/trip/walk/buy",
         "/trip/walk/pack", "/trip/walk/kitchen", "/trip/walk/paper",
         "/trip/walk/see/menu")  # fmt: skip


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("trips")
    (made / "walk.toml").write_text(write_trip(WEEKEND), "utf-8")
    return made


@pytest.fixture(scope="module")
def address(folder: Path) -> Iterator[str]:
    with served(folder) as at:
        yield at


@pytest.fixture
def opened(browser: Any) -> Iterator[Any]:
    """Opens a window of its own; all are closed behind the test, and must have said nothing."""
    contexts: list[Any] = []
    said: list[str] = []

    def window(**how: Any) -> Any:
        contexts.append(browser.new_context(**how))
        page = contexts[-1].new_page()
        page.on("console", lambda m: said.append(f"{page.url}: {m.text}"))
        page.on("pageerror", lambda e: said.append(f"{page.url}: {e}"))
        page.asked = []
        page.on("request", lambda r: page.asked.append(r.url))
        return page

    yield window
    for context in contexts:
        context.close()
    # a page of faults answers 422 on purpose, and the browser notes every such answer
    assert [text for text in said if "status of 4" not in text] == []


def trip(folder: Path) -> dict[str, Any]:
    return tomllib.loads((folder / "walk.toml").read_text("utf-8"))


@pytest.mark.parametrize(("scheme", "width"), [("light", 1000), ("dark", 360)])
def test_axe_finds_nothing_on_any_page_and_nothing_overflows(
    opened: Any, address: str, scheme: str, width: int
) -> None:
    page = opened(color_scheme=scheme, viewport={"width": width, "height": 900})
    wrong: dict[str, Any] = {}
    for path in PAGES:
        page.goto(address + path)
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
        found = axe_finds(page)
        wide = page.evaluate("document.documentElement.scrollWidth")
        if found or wide > width:
            wrong[path] = (found, wide)
    assert wrong == {}
    assert [url for url in page.asked if not url.startswith(address)] == []


def test_a_page_of_faults_is_clean_too_and_leads_to_its_fields(opened: Any, address: str) -> None:
    page = opened(java_script_enabled=False)
    page.goto(address + "/trip/walk/walkers/0")
    page.fill('[name="walkers[0].mass"]', "heavy")
    page.fill('[name="walkers[0].target"]', "lots")
    page.get_by_role("button", name="Save and plan").click()
    assert page.get_by_role("alert").locator("li").count() == 2
    page.get_by_role("alert").get_by_role("link").first.click()
    field = page.locator('[name="walkers[0].mass"]')
    assert page.url.endswith("#f-walkers-0-mass") and field.input_value() == "heavy"
    assert "heavy" in page.locator("#f-walkers-0-mass-f").inner_text()
    scripted = opened()
    scripted.goto(address + "/trip/walk/walkers/0")
    scripted.fill('[name="walkers[0].mass"]', "heavy")
    scripted.get_by_role("button", name="Save and plan").click()
    scripted.locator("#wrong").wait_for()
    assert axe_finds(scripted) == []


def test_a_walker_is_changed_without_scripts(opened: Any, address: str, folder: Path) -> None:
    page = opened(java_script_enabled=False)
    page.goto(address + "/trip/walk/walkers/0")
    page.fill('[name="walkers[0].name"]', "Ida")
    page.select_option('[name="walkers[0].avoids[0].allergen"]', "peanut")
    page.select_option('[name="add:walkers[0].usual.dinner"]', label="Couscous")
    page.get_by_role("button", name="Save and plan").click()
    page.wait_for_load_state()
    assert page.url.split("?")[0] == f"{address}/trip/walk"
    walker = trip(folder)["walkers"][0]
    assert walker["name"] == "Ida" and walker["avoids"] == ["peanut"]
    assert walker["usual"]["dinner"] == ["couscous"]


def test_rules_are_set_by_keyboard_alone_and_undone(
    opened: Any, address: str, folder: Path
) -> None:
    page = opened()
    page.goto(address + "/trip/walk/form/rules")
    field = page.locator('[name="rules.minutes.dinner"]')
    for _ in range(40):
        page.keyboard.press("Tab")
        if field.evaluate("e => e === document.activeElement"):
            break
    page.keyboard.type("40 min")
    page.keyboard.press("Enter")
    page.wait_for_url(f"{address}/trip/walk")
    assert trip(folder)["rules"]["minutes"]["dinner"] == "40 min"
    page.get_by_role("button", name="Undo").first.press("Enter")
    page.get_by_role("button", name="Redo").first.wait_for()
    assert "minutes" not in trip(folder).get("rules", {})


def test_the_second_of_two_windows_is_told_and_shown_both(
    opened: Any, address: str, folder: Path
) -> None:
    first, second = opened(), opened(java_script_enabled=False)
    for page, mug in ((first, "310 ml"), (second, "320 ml")):
        page.goto(address + "/trip/walk/form/kit")
        page.fill('[name="kit.mug"]', mug)
    first.get_by_role("button", name="Save and plan").click()
    first.wait_for_url(f"{address}/trip/walk")
    second.get_by_role("button", name="Save and plan").click()
    second.wait_for_load_state()
    text = second.inner_text("main")
    assert "310 ml" in text and "320 ml" in text
    assert trip(folder)["kit"]["mug"] == "310 ml"


def test_a_track_of_five_days_is_sent_and_cut_at_its_camps(
    opened: Any, address: str, folder: Path
) -> None:
    page = opened(java_script_enabled=False)
    page.goto(address + "/trip/walk/form/days")
    with as_file(files("oatsack") / "data" / "demo" / "track.gpx") as track:
        page.set_input_files("#file", track)
    page.get_by_role("button", name="Take it").click()
    page.wait_for_load_state()
    assert "Alderfold" in page.inner_text("main")
    assert trip(folder)["route"]["track"].startswith("walk-")
    page.fill('[name="to"]', "2027-06-16T15:00")
    page.fill('[name="route.camps"]', "Alderfold\nSorrel Tarn\nLong Sill\nHob Meadow")
    page.get_by_role("button", name="Save and plan").click()
    page.wait_for_load_state()
    assert trip(folder)["route"]["camps"][1] == "Sorrel Tarn"
    assert "Sorrel Tarn" in page.inner_text("main")


def test_a_doubtful_label_is_confirmed_and_its_stock_dated(
    opened: Any, address: str, folder: Path
) -> None:
    page = opened(java_script_enabled=False)
    page.goto(address + "/larder/label")
    for name, value in (("name", "Hill biscuits"), ("pack_g", "8 oz"), ("per", "100 g"),
                        ("kcal", "1900")):  # fmt: skip
        page.fill(f'[name="{name}"]', value)
    page.select_option('[name="category"]', "bread")
    page.get_by_role("button", name="Add it").click()
    assert "kilojoules" in page.get_by_role("alert").inner_text()
    page.get_by_label("I looked again").check()
    page.get_by_role("button", name="Add it").click()
    page.wait_for_load_state()
    assert page.url == f"{address}/larder/food/hill-biscuits"
    page.goto(address + "/larder/stock")
    page.fill('[name="food.0"]', "Hill biscuits")
    page.fill('[name="packs.0"]', "2")
    page.fill('[name="best_before.0"]', "2028-02-29")
    page.get_by_role("button", name="Save").click()
    page.wait_for_load_state()
    assert "hill-biscuits,2,2028-02-29" in (folder / "stock.csv").read_text("utf-8-sig")


def test_what_is_bought_and_packed_prints_black_on_white_without_the_buttons(
    opened: Any, address: str
) -> None:
    page = opened(color_scheme="dark")
    for path in ("/trip/walk/buy", "/trip/walk/pack", "/trip/walk/kitchen"):
        page.goto(address + path)
        page.emulate_media(media="print")
        colours = page.evaluate(
            "[getComputedStyle(document.body).backgroundColor,"
            " getComputedStyle(document.body).color]"
        )
        assert colours == ["rgb(255, 255, 255)", "rgb(0, 0, 0)"], path
        assert page.locator("button:visible, nav:visible, form:visible").count() == 0, path
        assert page.locator("table:visible").count() >= 1, path
        assert page.pdf().startswith(b"%PDF"), path


def test_a_thing_is_big_enough_to_be_touched(opened: Any, address: str) -> None:
    page = opened(viewport={"width": 360, "height": 800})
    page.goto(address + "/trip/walk/walkers/0")
    small = page.evaluate(
        "[...document.querySelectorAll('main input, main select, main button, main textarea')]"
        ".filter(e => e.type !== 'hidden' && e.offsetParent && e.getBoundingClientRect().height"
        " < 24).map(e => e.name)"
    )
    assert small == []
