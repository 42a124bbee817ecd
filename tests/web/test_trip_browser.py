"""The trip page in a real browser: the first plan, edits, the dial, clashes; by pointer, by
keyboard, without scripts, on a phone, in the dark. Each page is silent and asks nobody else."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from oatsack.files.trip.write import write_trip
from support.browser import axe_finds, page_of, served
from support.desk_pages import WEEKEND

pytestmark = [pytest.mark.browser, pytest.mark.slow]
PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("trips")
    (made / "walk.toml").write_text(write_trip(WEEKEND), "utf-8")
    return made


@pytest.fixture(scope="module")
def address(folder: Path) -> Iterator[str]:
    with served(folder) as found:
        yield found


def after_work(page: Any) -> str:
    """What the page says once the work is over."""
    page.locator("#working").wait_for(state="attached")
    page.locator("#working").wait_for(state="detached")
    page.locator("#changed", has_text=re.compile(r"\w")).first.wait_for()
    return str(page.locator("#changed").inner_text())


def open_card(page: Any, meal: str = "dinner") -> Any:
    rows = page.locator(f'.meal:has(h4:text-is("{meal}"))')
    rows.locator("a.eats").first.click()
    page.locator("#card.inrow").wait_for()
    return page.locator("#card.inrow")


def test_a_first_plan_from_an_empty_folder(browser: Any, tmp_path: Path) -> None:
    with served(tmp_path) as address, page_of(browser, address) as page:
        page.goto("/")
        page.get_by_label("1 Who walks?").fill("68 kg")
        page.get_by_label("2 From when").fill("2027-06-12T09:00")
        page.get_by_label("to when?").fill("2027-06-13T15:00")
        page.locator("fieldset label").first.click()
        page.get_by_role("button", name="Make the plan").click()
        page.locator("#ribbon svg").first.wait_for()
        assert page.url.endswith("/trip/trip")
        assert page.locator(".day").count() == 2
        assert (tmp_path / "trip.toml").is_file()


def test_what_is_ticked_looks_chosen_and_not_struck_out(browser: Any, tmp_path: Path) -> None:
    looks = """() => [...document.querySelectorAll('fieldset input:checked')].map(e => {
        const words = getComputedStyle(e.nextElementSibling), mark = getComputedStyle(e, '::after')
        return [words.textDecorationLine, words.fontWeight, mark.borderBottomStyle]})"""
    with served(tmp_path) as address:
        for colours in ("none", "active"):
            with page_of(browser, address, forced_colors=colours) as page:
                page.goto("/")
                for meal in page.locator("fieldset").all():
                    meal.locator("label").first.click()
                found = page.evaluate(looks)
                assert found == [["none", "700", "solid"]] * len(found), colours
                assert len(found) == page.locator("fieldset").count() > 3


def test_answers_that_cannot_be_read_come_back_with_what_is_wrong(
    browser: Any, tmp_path: Path
) -> None:
    with served(tmp_path) as address, page_of(browser, address) as page:
        page.goto("/")
        page.get_by_label("1 Who walks?").fill("heavy")
        page.get_by_label("2 From when").fill("2027-06-12T09:00")
        page.get_by_label("to when?").fill("2027-06-13T15:00")
        page.get_by_role("button", name="Make the plan").click()
        page.get_by_role("alert").first.wait_for()
        assert "heavy" in page.get_by_role("alert").first.inner_text()
        assert page.get_by_label("1 Who walks?").input_value() == "heavy"


def test_keep_swap_undo_and_redo_are_told_and_marked(
    browser: Any, address: str, folder: Path
) -> None:
    with page_of(browser, address) as page:
        page.goto("/trip/walk")
        before = (folder / "walk.toml").read_text("utf-8")
        card = open_card(page)
        card.get_by_role("button", name="Keep this").click()
        assert "nothing on the menu had to change" in after_work(page)
        assert page.locator("em", has_text="kept").count() >= 1
        card = open_card(page, "lunch")
        card.get_by_role("button", name=re.compile("^Swap")).first.click()
        assert "marked" in after_work(page)
        assert page.locator("a.eats.new").count() >= 1
        assert page.evaluate("document.activeElement.id") == "changed", "it is read out"
        for name, said in (("Undo", "One step back"), ("Redo", "forward"), ("Undo", "back")):
            page.get_by_role("button", name=name).click()
            assert said in after_work(page)
        page.get_by_role("button", name="Undo").click()
        after_work(page)
        assert (folder / "walk.toml").read_text("utf-8") == before


def test_something_is_found_and_put_in(browser: Any, address: str) -> None:
    with page_of(browser, address) as page:
        page.goto("/trip/walk")
        page.locator("a.put").first.click()
        page.locator("#card.inrow").wait_for()
        page.get_by_role("button", name=re.compile("^Put in: ")).first.click()
        after_work(page)
        assert page.locator("em", has_text="kept").count() >= 1
        page.get_by_role("button", name="Undo").click()
        after_work(page)


def test_the_dial_shows_at_once_and_takes_what_it_showed(browser: Any, address: str) -> None:
    with page_of(browser, address) as page:
        page.goto("/trip/walk")
        slider = page.locator(".dial input[type=range]").first
        slider.wait_for()
        mass = page.locator("[data-figure=mass]")
        still = mass.inner_text()
        slider.focus()
        slider.press("ArrowRight")
        slider.press("ArrowRight")
        more = mass.inner_text()
        assert more != still and "off" in (mass.get_attribute("class") or "")
        assert "+300 kcal" in (slider.get_attribute("aria-valuetext") or "")
        page.get_by_role("button", name="Take this").click()
        after_work(page)
        assert page.locator("[data-figure=mass]").inner_text() == more
        page.get_by_role("button", name="Undo").click()
        after_work(page)
        assert page.locator("[data-figure=mass]").inner_text() == still


def test_the_ribbon_is_read_by_keyboard_and_by_pointer(browser: Any, address: str) -> None:
    with page_of(browser, address) as page:
        page.goto("/trip/walk")
        slider = page.locator(".reading input")
        slider.focus()
        page.locator(".reading output", has_text="carries").wait_for()
        said = {page.locator(".reading output").inner_text()}
        for _ in range(5):
            slider.press("ArrowRight")
            said.add(str(slider.get_attribute("aria-valuetext")))
        assert len(said) == 6
        slider.press("End")
        last = slider.get_attribute("aria-valuetext")
        page.locator(".broad svg").hover(position={"x": 40, "y": 90})
        page.locator(".reading output").filter(has_not_text=str(last)).wait_for()
        assert page.locator(".broad svg .cursor").count() == 1


def test_work_that_has_found_nothing_yet_is_stopped_and_nothing_is_changed(
    browser: Any, address: str, folder: Path
) -> None:
    with page_of(browser, address) as page:
        page.goto("/trip/walk/choices")
        page.get_by_role("button", name="Work them out").click()
        page.locator("#working").wait_for()
        page.get_by_role("button", name="Stop").click()
        page.locator("#changed", has_text="Stopped").wait_for()
        assert page.get_by_role("button", name="Work them out").is_visible()


def test_the_choices_are_drawn_and_one_is_taken(browser: Any, address: str) -> None:
    with page_of(browser, address) as page:
        page.goto("/trip/walk/choices")
        page.get_by_role("button", name="Work them out").click()
        after_work(page)
        page.locator("figure.ribbon svg").first.wait_for(timeout=120_000)
        assert axe_finds(page) == []
        assert page.locator(".broad circle").count() == page.locator("tbody tr").count()
        page.get_by_role("button", name=re.compile("^Take this")).first.click()
        after_work(page)
        page.get_by_role("button", name="Undo").click()
        after_work(page)


def test_a_wish_that_cannot_be_met_is_explained_with_ways_out(
    browser: Any, address: str, folder: Path
) -> None:
    with page_of(browser, address) as page:
        page.goto("/trip/walk/text")
        box = page.get_by_label("Your file walk.toml")
        text = box.input_value()
        rules = '[rules]\nbudget = "3 EUR"\n'
        box.fill(text.replace("[rules]\n", rules) if "[rules]" in text else f"{text}\n{rules}")
        page.get_by_role("button", name="Save and plan").click()
        page.get_by_role("heading", name="These wishes clash").wait_for()
        assert axe_finds(page) == []
        assert page.get_by_role("button", name=re.compile("^Do this: With .* EUR")).count() >= 1
        page.get_by_role("button", name="Undo").click()
        page.locator("#ribbon").wait_for()


@pytest.mark.parametrize(
    ("scheme", "size"), [("light", {"viewport": {"width": 1100, "height": 900}}), ("dark", PHONE)]
)
def test_axe_finds_nothing_on_the_pages_of_a_trip(
    browser: Any, address: str, scheme: str, size: dict[str, Any]
) -> None:
    with page_of(browser, address, color_scheme=scheme, **size) as page:
        page.goto("/trip/walk")
        page.locator(".dial input[type=range]").first.wait_for()
        open_card(page)
        found = {"/trip/walk": axe_finds(page)}
        at = page.locator("a.eats").first.get_attribute("href")
        walker = re.search(r"p=([^/]+)/", str(at))
        assert walker
        for path in (str(at), "/trip/walk/put?p=1/lunch", f"/trip/walk/dial?w={walker[1]}",
                     "/trip/walk/hours", "/trip/walk/choices", "/trip/walk/why"):  # fmt: skip
            page.goto(path)
            found[path] = axe_finds(page)
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= size["viewport"]["width"], (path, wide)
        assert {path: what for path, what in found.items() if what} == {}


def test_a_phone_gets_its_own_drawing_and_things_large_enough_to_touch(
    browser: Any, address: str
) -> None:
    with page_of(browser, address, **PHONE) as page:
        page.goto("/trip/walk")
        assert page.locator(".narrow svg").is_visible()
        assert not page.locator(".broad svg").is_visible()
        size = page.locator(".narrow svg text").first.evaluate(
            "text => parseFloat(getComputedStyle(text).fontSize) * text.getScreenCTM().a"
        )
        assert size >= 10.0, "drawn for this width, not made small"
        low = page.evaluate(
            "() => [...document.querySelectorAll('main button, main a.eats, main a.put')]"
            ".filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 24)"
            ".map(e => e.outerHTML)"
        )
        assert low == []


def test_a_whole_edit_by_keyboard_alone(browser: Any, address: str) -> None:
    with page_of(browser, address) as page:
        page.goto("/trip/walk")
        for _ in range(200):
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.classList.contains('eats')"):
                break
        opener = page.evaluate("document.activeElement.getAttribute('href')")
        page.keyboard.press("Enter")
        page.locator("#card.inrow").wait_for()
        page.keyboard.press("Escape")
        assert page.locator("#card").count() == 0
        assert page.evaluate("document.activeElement.getAttribute('href')") == opener
        page.keyboard.press("Enter")
        page.locator("#card.inrow").wait_for()
        for _ in range(12):
            page.keyboard.press("Tab")
            if page.evaluate("document.activeElement.textContent") in ("Keep this", "Take out"):
                break
        page.keyboard.press("Enter")
        after_work(page)
        page.get_by_role("button", name="Undo").press("Enter")
        after_work(page)


def test_everything_works_without_scripts(browser: Any, address: str) -> None:
    with page_of(browser, address, java_script_enabled=False) as page:
        page.goto("/trip/walk")
        place = page.locator("a.eats").first
        place.click()
        page.get_by_role("button", name=re.compile("^(Keep this|Never for)")).first.click()
        page.locator("#changed").wait_for()
        assert page.url.startswith(f"{address}/trip/walk?was=")
        page.get_by_role("button", name="Undo").click()
        assert "One step back" in page.locator("#changed").inner_text()
        page.get_by_role("link", name=re.compile("^every place")).first.click()
        page.get_by_role("button", name=re.compile("^Take this")).last.click()
        assert page.locator("#ribbon").count() == 1
        page.get_by_role("button", name="Undo").click()
        page.get_by_role("link", name="Every hour as a table").click()
        assert page.locator("tbody tr").count() > 10
        page.goto("/trip/walk")
        page.get_by_label("or a number for everyone").fill("2200 kcal")
        page.keyboard.press("Enter")
        page.get_by_text("about 2,200").first.wait_for()
        page.get_by_role("button", name="Undo").click()


def test_two_windows_on_one_trip_lose_nothing(
    browser: Any, address: str, folder: Path
) -> None:
    with page_of(browser, address) as one, page_of(browser, address) as two:
        one.goto("/trip/walk")
        two.goto("/trip/walk")
        open_card(one).get_by_role("button", name="Keep this").click()
        after_work(one)
        first = (folder / "walk.toml").read_text("utf-8")
        open_card(two, "lunch").get_by_role("button", name="Take out").click()
        two.get_by_role("heading", name="Changed in another window").wait_for()
        assert two.locator("pre").count() == 2, "both versions are shown"
        assert (folder / "walk.toml").read_text("utf-8") == first
        one.get_by_role("button", name="Undo").click()
        after_work(one)


def test_on_paper_no_button_is_left(browser: Any, address: str) -> None:
    with page_of(browser, address) as page:
        page.goto("/trip/walk")
        page.locator(".dial input[type=range]").first.wait_for()
        page.emulate_media(media="print")
        shown = page.evaluate(
            "() => [...document.querySelectorAll('main button, main input, nav')]"
            ".filter(e => e.checkVisibility()).length"
        )
        assert shown == 0
        assert page.locator(".broad svg").is_visible() and page.locator(".day").first.is_visible()
