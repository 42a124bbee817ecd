"""The pages in a real browser: axe in both lights, a phone's width, the keyboard, no scripts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from oatsack.files.trip.write import write_trip
from support.browser import axe_finds, page_of, served
from support.desk_pages import WEEKEND

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    folder = tmp_path_factory.mktemp("trips")
    (folder / "walk.toml").write_text(write_trip(WEEKEND), "utf-8")
    with served(folder) as found:
        yield found


@pytest.mark.parametrize(("scheme", "width"), [("light", 1000), ("dark", 360)])
def test_axe_finds_nothing_and_nothing_is_fetched_from_elsewhere(
    browser: Any, address: str, scheme: str, width: int
) -> None:
    how = {"color_scheme": scheme, "viewport": {"width": width, "height": 900}}
    with page_of(browser, address, **how) as page:
        for path in ("/", "/trip/walk", "/trip/walk/text", "/trip/walk/why", "/larder"):
            page.goto(path)
            assert axe_finds(page) == []
            assert page.evaluate("document.documentElement.scrollWidth") <= width
