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
