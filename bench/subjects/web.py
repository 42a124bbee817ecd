"""How soon the first page is there, what a page costs on the server, and what an edit takes."""

from __future__ import annotations

import re
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.parse
import urllib.request
from http.cookiejar import CookieJar
from pathlib import Path
from typing import Any

TRIP = """
from = 2027-06-12T09:00
to = 2027-06-18T15:00
[[walkers]]
mass = "62 kg"
[[walkers]]
mass = "80 kg"
[route]
usual_day = { distance = "15 km", up = "600 m" }
"""


def run(full: bool = False) -> list[dict[str, Any]]:
    """Two walkers, seven days, on pages served by the command."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "walk.toml").write_text(TRIP, encoding="utf-8")
        begin = time.perf_counter()
        words = [sys.executable, "-m", "oatsack", "serve", folder, "--no-browser"]
        served = subprocess.Popen(words, stderr=subprocess.PIPE, text=True)
        try:
            assert served.stderr is not None
            found = re.search(r"http://\S+", served.stderr.readline())
            assert found
            return _measured(found[0], begin, 20 if full else 5)
        finally:
            served.terminate()
            served.wait()


def _measured(address: str, begin: float, rounds: int) -> list[dict[str, Any]]:
    browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))

    def get(path: str) -> str:
        with browser.open(address + path) as answer:
            return str(answer.read().decode("utf-8"))

    get("")
    rows = [row("first page from the command", time.perf_counter() - begin, 0.5)]
    solved = timed(lambda: get("trip/walk"))
    page = get("trip/walk")
    rows.append(row("trip page", statistics.median(timed(lambda: get("trip/walk"))
                                                   for _ in range(rounds)), 0.03))  # fmt: skip
    rows.append({"what": "trip page", "value": len(page) / 1000.0, "unit": "kB", "bar": 150.0,
                 "holds": len(page) <= 150_000})  # fmt: skip
    edits = []
    for n in range(rounds):
        edits.append(timed(lambda n=n: _turn(browser, address, get, n)))  # type: ignore[misc]
    median = statistics.median(edits)
    ratio = {"what": "an edit over a plan from nothing", "value": median / solved, "unit": "x",
             "bar": None, "holds": True}  # fmt: skip
    return [*rows, row("an edit, median, with its page", median, 1.0), ratio]


def _turn(browser: Any, address: str, get: Any, n: int) -> None:
    page = get("trip/walk/text")
    fields = {key: re.search(rf'name="{key}" value="(\w+)"', page)[1]  # type: ignore[index]
              for key in ("token", "head")}  # fmt: skip
    fields["wish"] = ("more", "less")[n % 2]
    sent = urllib.parse.urlencode(fields).encode()
    browser.open(address + "trip/walk/change", sent).read()


def timed(work: Any) -> float:
    begin = time.perf_counter()
    work()
    return time.perf_counter() - begin


def row(what: str, seconds: float, bar: float) -> dict[str, Any]:
    return {"what": what, "value": seconds, "unit": "s", "bar": bar, "holds": seconds <= bar}
