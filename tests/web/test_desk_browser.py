"""The pages in a real browser: axe in both lights, a phone's width, the keyboard, no scripts."""

from __future__ import annotations

import datetime as dt
import importlib.util
import shutil
import socket
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from oatsack.files.trip.write import Answers, write_trip
from oatsack.web.app import create

pytestmark = [pytest.mark.browser, pytest.mark.slow]
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update",
]  # fmt: skip
RULES = ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    import uvicorn

    folder = tmp_path_factory.mktemp("trips")
    answers = Answers(masses=("68 kg",), begin="2027-06-12 09:00", end="2027-06-13 15:00",
                      distance="14 km", up="500 m")  # fmt: skip
    (folder / "walk.toml").write_text(write_trip(answers), "utf-8")
    taken = socket.socket()
    taken.bind(("127.0.0.1", 0))
    app = create(folder, today=lambda: dt.date(2027, 6, 1))
    server = uvicorn.Server(uvicorn.Config(app, log_level="error", lifespan="off", ws="none"))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [taken]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield f"http://127.0.0.1:{taken.getsockname()[1]}"
    server.should_exit = True
    thread.join(10)
    taken.close()


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        yield opened
        opened.close()


def axe_source() -> str:
    spec = importlib.util.find_spec("axe_playwright_python")
    assert spec is not None and spec.submodule_search_locations
    return next(Path(spec.submodule_search_locations[0]).rglob("axe.min.js")).read_text("utf-8")


@pytest.mark.parametrize(("scheme", "width"), [("light", 1000), ("dark", 360)])
def test_axe_finds_nothing_and_nothing_is_fetched_from_elsewhere(
    browser: Any, address: str, scheme: str, width: int
) -> None:
    context = browser.new_context(color_scheme=scheme, viewport={"width": width, "height": 900})
    page, said, asked = context.new_page(), [], []
    page.on("console", lambda m: said.append(m.text))
    page.on("pageerror", lambda e: said.append(str(e)))
    page.on("request", lambda r: asked.append(r.url))
    for path in ("/", "/trip/walk", "/trip/walk/text", "/trip/walk/why", "/larder"):
        page.goto(address + path)
        page.evaluate(axe_source())
        found = page.evaluate("rules => axe.run({runOnly: rules})", RULES)
        assert [(v["id"], v["nodes"][0]["html"]) for v in found["violations"]] == []
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert said == []
    assert [url for url in asked if not url.startswith(address)] == []
    context.close()
