"""Takes the pictures of docs/pictures: pages of the bundled trip in the system's Chromium.

Needs the extra `browser`. Each picture is one line of a list; a picture above 150 kB is refused, so
that the repository stays light. The day is fixed, so the same code takes the same pictures.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any, NamedTuple

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests"))

from support.browser import chromium, served  # noqa: E402 (found beside the tests)

PICTURES = ROOT / "docs" / "pictures"
MOST_BYTES = 150_000


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
    large = 0
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        with as_file(files("oatsack") / "data" / "demo") as demo:
            for file in demo.iterdir():
                shutil.copy(file, folder)
        with served(folder) as address, chromium("--hide-scrollbars") as browser:
            taken(browser, address, SHOTS[0])  # plans the trip; the pictures need not say so
            for shot in (s for s in SHOTS if not wanted or s.file in wanted):
                png = taken(browser, address, shot)
                too = len(png) > MOST_BYTES
                large += too
                print(f"{shot.file}: {len(png) // 1000} kB" + (", too large" if too else ""))
                if not too:
                    (PICTURES / shot.file).write_bytes(png)
    return large


if __name__ == "__main__":
    sys.exit(main(set(sys.argv[1:])))
