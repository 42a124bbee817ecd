"""A real browser on pages served for a test: the system's Chromium, and what it must never say."""

from __future__ import annotations

import datetime as dt
import importlib.util
import shutil
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from oatsack.desk.elsewhere import Elsewhere
from oatsack.desk.solving import Works
from oatsack.web import live
from oatsack.web.app import create

FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update",
]  # fmt: skip
RULES = ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]
live.PLAIN_S = 300.0  # a busy machine is no reason to answer otherwise
TODAY = dt.date(2027, 6, 1)


@contextmanager
def served(folder: Path, works: Works | None = None) -> Iterator[str]:
    """The address of the pages over a folder, their solving in a process of its own."""
    import uvicorn

    taken = socket.socket()
    taken.bind(("127.0.0.1", 0))
    app = create(folder, today=lambda: TODAY, works=works or Elsewhere())
    config = uvicorn.Config(app, log_level="error", lifespan="off", ws="none")
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [taken]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield f"http://127.0.0.1:{taken.getsockname()[1]}"
    server.should_exit = True
    thread.join(10)
    taken.close()


@contextmanager
def chromium(*more: str) -> Iterator[Any]:
    """The system's browser, with `more` flags."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        path = shutil.which("chromium") or shutil.which("chromium-browser")
        opened = playwright.chromium.launch(executable_path=path, args=[*FLAGS, *more])
        yield opened
        opened.close()


@contextmanager
def page_of(browser: Any, address: str, *, quiet: bool = True, **how: Any) -> Iterator[Any]:
    """A fresh page; afterwards it must have said nothing and asked nobody else."""
    context = browser.new_context(base_url=address, **how)
    page, said, asked = context.new_page(), [], []
    page.on("console", lambda m: said.append(m.text))
    page.on("pageerror", lambda e: said.append(str(e)))
    page.on("request", lambda r: asked.append(r.url))
    page.set_default_timeout(60_000)
    yield page
    context.close()
    assert [url for url in asked if not url.startswith(address)] == []
    assert said == [] or not quiet, said


def axe_source() -> str:
    """The text of the accessibility checker."""
    spec = importlib.util.find_spec("axe_playwright_python")
    assert spec is not None and spec.submodule_search_locations
    return next(Path(spec.submodule_search_locations[0]).rglob("axe.min.js")).read_text("utf-8")


def axe_finds(page: Any) -> list[tuple[str, str]]:
    """What the checker finds wrong on a page: rule and the first place."""
    page.evaluate(axe_source())
    found = page.evaluate("rules => axe.run({runOnly: rules})", RULES)
    return [(v["id"], v["nodes"][0]["html"]) for v in found["violations"]]
