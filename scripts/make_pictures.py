"""Takes the pictures of docs/pictures: pages of the bundled trip in the system's Chromium.

Needs the extra `browser`. Each picture is one line of a list; a picture above 150 kB is refused, so
that the repository stays light. The day is fixed, so the same code takes the same pictures.
"""

from __future__ import annotations

import datetime as dt
import shutil
import socket
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any, NamedTuple

ROOT = Path(__file__).resolve().parents[1]
PICTURES = ROOT / "docs" / "pictures"
TODAY = dt.date(2027, 6, 1)
MOST_BYTES = 150_000
FLAGS = ("--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-sync", "--hide-scrollbars",
         "--disable-background-networking", "--disable-component-update")  # fmt: skip


class Shot(NamedTuple):
    """One picture: its file, the page, how wide and high, in which light, from what down."""

    file: str
    path: str
    width: int = 900
    height: int = 800
    scheme: str = "light"
    at: str = ""
    """An element that is scrolled to the top."""


SHOTS = (
    Shot("trip.png", "/trip/trip", height=900),
    Shot("trip-phone.png", "/trip/trip", width=375, height=760),
    Shot("trip-dark.png", "/trip/trip", height=760, scheme="dark"),
    Shot("walker.png", "/trip/trip/walkers/0", height=700),
    Shot("rules.png", "/trip/trip/form/rules", height=700),
    Shot("larder.png", "/larder?q=breakfast", height=700),
    Shot("label.png", "/larder/label?food=couscous", height=760),
    Shot("buy.png", "/trip/trip/buy", height=760),
    Shot("pack.png", "/trip/trip/pack", height=760),
    Shot("kitchen.png", "/trip/trip/kitchen", height=700),
    Shot("paper.png", "/trip/trip/paper", height=640),
)


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address of the pages over a folder."""
    import uvicorn

    from oatsack.web.app import create

    taken = socket.socket()
    taken.bind(("127.0.0.1", 0))
    config = uvicorn.Config(create(folder, today=lambda: TODAY), log_level="error",
                            lifespan="off", ws="none")  # fmt: skip
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [taken]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    try:
        yield f"http://127.0.0.1:{taken.getsockname()[1]}"
    finally:
        server.should_exit = True
        thread.join(10)
        taken.close()


def taken(browser: Any, address: str, shot: Shot) -> bytes:
    """One picture as PNG."""
    context = browser.new_context(
        viewport={"width": shot.width, "height": shot.height}, color_scheme=shot.scheme
    )
    page = context.new_page()
    page.set_default_timeout(300_000)  # the first page makes the plan and its dials
    page.goto(address + shot.path, wait_until="networkidle")
    page.evaluate("document.fonts.ready")
    if shot.at:
        page.locator(shot.at).evaluate("e => e.scrollIntoView()")
    png = page.screenshot(animations="disabled", caret="hide")
    context.close()
    return bytes(png)


def main(wanted: set[str]) -> int:
    """Takes all pictures, or those named; how many were too large."""
    from playwright.sync_api import sync_playwright

    large = 0
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        with as_file(files("oatsack") / "data" / "demo") as demo:
            for file in demo.iterdir():
                shutil.copy(file, folder)
        with served(folder) as address, sync_playwright() as playwright:
            path = shutil.which("chromium") or shutil.which("chromium-browser")
            browser = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
            for shot in (s for s in SHOTS if not wanted or s.file in wanted):
                png = taken(browser, address, shot)
                too = len(png) > MOST_BYTES
                large += too
                print(f"{shot.file}: {len(png) // 1000} kB" + (", too large" if too else ""))
                if not too:
                    (PICTURES / shot.file).write_bytes(png)
            browser.close()
    return large


if __name__ == "__main__":
    sys.exit(main(set(sys.argv[1:])))
