"""Pages that tell of faults, in a real browser: the list is a list, and axe finds nothing."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from oatsack.files.trip.write import write_trip
from support.browser import axe_finds, page_of, served
from support.desk_pages import WEEKEND

pytestmark = [pytest.mark.browser, pytest.mark.slow]
BAD = b"name;pack_g;per;kcal\nNut thing;200 g;100 g;612,5\n;x;100 g;\n"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_all_faults_of_a_larder_file_and_of_a_trips_text_are_listed_cleanly(
    browser: Any, tmp_path: Path, scheme: str
) -> None:
    (tmp_path / "walk.toml").write_text(write_trip(WEEKEND), "utf-8")
    how = {"color_scheme": scheme, "viewport": {"width": 390, "height": 800}}
    with served(tmp_path) as address, page_of(browser, address, quiet=False, **how) as page:
        page.goto("/larder")
        page.locator("#file").set_input_files(
            {"name": "larder.csv", "mimeType": "text/csv", "buffer": BAD}
        )
        page.locator("form[enctype] button").click()
        alert = page.locator(".faults[role=alert]")
        assert alert.get_by_role("listitem").count() == 2
        assert "Fill it in" in alert.inner_text()
        assert axe_finds(page) == []
        page.goto("/trip/walk/text")
        page.locator("textarea").fill("from = 3\nwalkers = 1\n")
        page.get_by_role("button", name="Save and plan").click()
        alert.wait_for()
        assert alert.get_by_role("listitem").count() >= 2
        assert axe_finds(page) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= 390


def test_a_file_that_is_too_large_is_refused_in_words_and_what_was_typed_stays(
    browser: Any, tmp_path: Path
) -> None:
    (tmp_path / "walk.toml").write_text(write_trip(WEEKEND), "utf-8")
    point = b'<trkpt lat="47.1" lon="11.1"><ele>600</ele></trkpt>'
    track = b'<gpx version="1.1"><trk><trkseg>' + point * 400_000 + b"</trkseg></trk></gpx>"
    sent = {"name": "way.gpx", "mimeType": "application/gpx+xml", "buffer": track}
    with served(tmp_path) as address, page_of(browser, address, quiet=False) as page:
        page.goto("/trip/walk/form/days")
        page.locator('[name="title"]').fill("Over the hills")
        page.locator("input[type=file]").set_input_files(sent)
        page.get_by_role("button", name="Take it").click()
        said = page.locator("#changed", has_text="too large for a track")
        said.wait_for()
        assert said.get_attribute("role") == "status"
        assert page.evaluate("document.activeElement.id") == "changed", "it is read out"
        assert page.locator('[name="title"]').input_value() == "Over the hills"
        assert axe_finds(page) == []


def test_on_a_phone_what_takes_a_swap_or_a_place_of_the_dial_is_in_sight(
    browser: Any, tmp_path: Path
) -> None:
    (tmp_path / "walk.toml").write_text(write_trip(WEEKEND), "utf-8")
    how = {"viewport": {"width": 360, "height": 740}, "has_touch": True}
    seen = """() => [...document.querySelectorAll('td button')]
        .map(e => e.getBoundingClientRect()).filter(r => r.width)
        .map(r => r.left >= 0 && r.right <= innerWidth)"""
    with served(tmp_path) as address, page_of(browser, address, **how) as page:
        page.goto("/trip/walk")
        card = page.locator('.meal:has(h4:text-is("dinner")) a.eats').first
        dial = page.locator(".dials a", has_text="every place").first.get_attribute("href")
        for path in (card.get_attribute("href"), dial):
            page.goto(str(path))
            found = page.evaluate(seen)
            assert len(found) > 2 and all(found), path
            assert axe_finds(page) == []
