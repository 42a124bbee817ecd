"""Takes pictures of what is printed and saved of the bundled trip, into docs/pictures.

Sheets come from the PDFs in black and white (poppler's `pdftoppm`); the report and the phone page
from the system's Chromium (extra `browser`), opened from a file with the network off. Each picture
is one line of a list; one above 150 kB is refused. `scripts/make_pictures.py` takes the pages of
the server.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any, NamedTuple

from make_docs import bundled_plan
from make_pictures import MOST_BYTES, PICTURES, chromium

from oatsack.reports import render
from oatsack.values.plan import Plan


class Sheet(NamedTuple):
    """A page of a PDF: its file, the report, which page, at so many dots an inch."""

    file: str
    content: str
    page: int = 1
    dpi: int = 72
    paper: str = "a4"


class Page(NamedTuple):
    """A saved page: its file, the report, how wide and high, in which light."""

    file: str
    content: str
    width: int = 900
    height: int = 900
    scheme: str = "light"


SHEETS = (
    Sheet("print-sheet.png", "sheet"),
    Sheet("print-sheet-back.png", "sheet", page=2),
    Sheet("print-shopping.png", "shopping"),
    Sheet("print-labels.png", "labels"),
    Sheet("print-cards.png", "cards", dpi=56),
    Sheet("print-carriers.png", "carriers", paper="letter"),
)
PAGES = (
    Page("report.png", "report", width=780, height=720),
    Page("report-dark.png", "report", width=780, height=720, scheme="dark"),
    Page("phone.png", "phone", width=375, height=800),
    Page("phone-dark.png", "phone", width=375, height=800, scheme="dark"),
)


def sheet_png(plan: Plan, shot: Sheet, folder: Path) -> bytes:
    """One page of a PDF in grey."""
    pdf = folder / f"{shot.file}.pdf"
    pdf.write_bytes(render(plan, shot.content, "pdf", paper=shot.paper))
    command = ["pdftoppm", "-png", "-gray", "-singlefile", "-r", str(shot.dpi), "-f",
               str(shot.page), str(pdf), str(pdf.with_suffix(""))]  # fmt: skip
    subprocess.run(command, check=True)
    return pdf.with_suffix(".png").read_bytes()


def page_png(browser: Any, plan: Plan, shot: Page, folder: Path) -> bytes:
    """A saved page as a reader without a network sees it."""
    html = folder / f"{shot.file}.html"
    html.write_bytes(render(plan, shot.content, "html"))
    context = browser.new_context(
        viewport={"width": shot.width, "height": shot.height}, color_scheme=shot.scheme,
        offline=True,
    )  # fmt: skip
    page = context.new_page()
    page.goto(html.as_uri())
    page.evaluate("document.fonts.ready")
    png = page.screenshot(animations="disabled", caret="hide")
    context.close()
    return bytes(png)


def keep(file: str, png: bytes) -> bool:
    """Writes a picture; whether it was too large, and was not."""
    large = len(png) > MOST_BYTES
    print(f"{file}: {len(png) // 1000} kB" + (", too large" if large else ""))
    if not large:
        (PICTURES / file).write_bytes(png)
    return large


def main(wanted: set[str]) -> int:
    """Takes all pictures, or those named; how many were too large."""
    plan = bundled_plan()
    large = 0
    pages = [p for p in PAGES if not wanted or p.file in wanted]
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        for sheet in (s for s in SHEETS if not wanted or s.file in wanted):
            large += keep(sheet.file, sheet_png(plan, sheet, folder))
        if pages:
            with chromium("--hide-scrollbars") as browser:
                for page in pages:
                    large += keep(page.file, page_png(browser, plan, page, folder))
    return large


if __name__ == "__main__":
    sys.exit(main(set(sys.argv[1:])))
