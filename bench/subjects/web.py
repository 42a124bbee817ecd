"""How soon the first page is there, what a page costs on the server, and what an edit takes."""

from __future__ import annotations

import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.parse
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
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
EDITS, MANY = 20, 200
PAGES, FIRSTS = 21, 5
GROWTH_MB = 20.0
"""So much more memory after many edits is still called flat; ours."""


def run(full: bool = False) -> list[dict[str, Any]]:
    """Two walkers, seven days, on pages served by the command."""
    firsts = [_first_s() for _ in range(7 if full else 3)]
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "walk.toml").write_text(TRIP, encoding="utf-8")
        with served(Path(folder)) as (address, process):
            measured = _measured(Window(address), process.pid, full)
    return [row("first page from the command", min(firsts), 0.5), *measured]


@contextmanager
def served(folder: Path) -> Iterator[tuple[str, subprocess.Popen[str]]]:
    """The address of a server that the command started, and its process."""
    words = [sys.executable, "-m", "oatsack", "serve", str(folder), "--no-browser"]
    process = subprocess.Popen(words, stderr=subprocess.PIPE, text=True)
    try:
        assert process.stderr is not None
        found = re.search(r"http://\S+", process.stderr.readline())
        assert found
        yield found[0], process
    finally:
        process.terminate()
        process.wait()


def _first_s() -> float:
    """From the command to the last byte of the first page, in an empty folder."""
    begin = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder, served(Path(folder)) as (address, _):
        Window(address).get("")
        return time.perf_counter() - begin


class Window:
    """A browser's window as far as the server is concerned."""

    def __init__(self, address: str) -> None:
        self.address = address
        self.open = urllib.request.build_opener(
            urllib.request.HTTPCookieProcessor(CookieJar())
        ).open

    def get(self, path: str) -> str:
        with self.open(self.address + path) as answer:
            return str(answer.read().decode("utf-8"))

    def wish(self, wish: str) -> str:
        page = self.get("trip/walk/text")
        fields = {key: re.search(rf'name="{key}" value="(\w+)"', page)[1]  # type: ignore[index]
                  for key in ("token", "head")}  # fmt: skip
        sent = urllib.parse.urlencode({**fields, "wish": wish}).encode()
        with self.open(self.address + "trip/walk/change", sent) as answer:
            page = str(answer.read().decode("utf-8"))
        while f'name="head" value="{fields["head"]}"' in page:  # a busy machine is still at it
            time.sleep(0.2)
            page = self.planned()
        return page

    def planned(self) -> str:
        """The trip's page once it is planned: a busy machine shows first how far the work is."""
        while "at?p=" not in (page := self.get("trip/walk")):
            time.sleep(0.2)
        return page


def _measured(window: Window, pid: int, full: bool) -> list[dict[str, Any]]:
    window.get("")
    solved, solved_cpu = both(pid, window.planned)
    page = window.planned()
    shows = [both(pid, lambda: window.get("trip/walk")) for _ in range(20)]
    edits = [both(pid, lambda wish=wish: window.wish(wish))  # type: ignore[misc]
             for wish in _edits(window, EDITS if full else 6)]  # fmt: skip
    median, cpu = (statistics.median(one[k] for one in edits) for k in (0, 1))
    rows = [
        row("trip page", statistics.median(wall for wall, _ in shows), 0.03),
        {"what": "trip page", "value": len(page.encode()) / 1000.0, "unit": "kB", "bar": 150.0,
         "holds": len(page.encode()) <= 150_000},
        row("a whole plan from nothing, with its page", solved, None),
        row("a whole plan from nothing, CPU of server and solver", solved_cpu, None),
        row(f"an edit, median of {len(edits)}, with its page", median, 1.0),
        row("an edit, CPU of server and solver, median", cpu, None),
        row(f"the slowest of {len(edits)} edits, with its page", max(edits)[0], None),
        {"what": "an edit over a plan from nothing", "value": median / solved, "unit": "x",
         "bar": None, "holds": True},
        {"what": "an edit over a plan from nothing, CPU", "value": cpu / solved_cpu, "unit": "x",
         "bar": None, "holds": True},
    ]  # fmt: skip
    paths = list(_pages(window.planned()))
    rows += [page_cpu(pid, window, path) for path in paths]
    rows += _first_drawn(pid, window, paths) if full else []
    walker = re.search(r"dial\?w=([\w-]+)", page)
    assert walker
    dial = timed(lambda: window.get(f"trip/walk/dial.json?w={walker[1]}"))
    rows.append(row("the dial, eight places made ahead", dial, None))
    return [*rows, *(_memory(window, pid) if full else [])]


def _pages(page: str) -> Iterator[str]:
    """The address of every page and fragment of a trip, one of each sort."""
    yield from ("", "larder", "larder/stock", "trip/walk", "trip/walk/plan.json")
    yield from (f"trip/walk/{name}" for name in (
        "hours", "ribbon.json", "choices", "walkers", "walkers/0", "form/days", "form/kit",
        "form/rules", "likes", "buy", "pack", "kitchen", "paper", "text", "put?p=2/lunch",
        "see/plan", "see/menu", "see/need",
    ))  # fmt: skip
    for sort in ("lunch", "dinner"):
        found = re.search(rf"at\?p=[\w-]+/2/{sort}/[\w-]+", page)
        assert found
        yield f"trip/walk/{found[0]}"


def page_cpu(pid: int, window: Window, path: str) -> dict[str, Any]:
    """What a page costs the server's processor, the median of so many."""
    window.get(path)
    took = [_cost(pid, window, path) for _ in range(PAGES)]
    return row(f"CPU of /{path.split('?')[0]}", statistics.median(took), 0.03)


def _cost(pid: int, window: Window, path: str) -> float:
    """Processor time of one page [s]."""
    begin = own_cpu_s(pid)
    window.get(path)
    return own_cpu_s(pid) - begin


def _first_drawn(pid: int, window: Window, paths: list[str]) -> list[dict[str, Any]]:
    """What pages cost when a new revision is first asked for each; the trip's own page is made
    with the edit, before anybody is sent to it."""
    took: dict[str, list[float]] = {path: [] for path in paths}
    for wish in _edits(window, FIRSTS):
        window.wish(wish)
        page = window.planned()
        for path in paths:
            if "at?p=" not in path or path.removeprefix("trip/walk/") in page:
                took[path].append(_cost(pid, window, path))
    return [row(f"CPU of /{path.split('?')[0]}, first of a revision", statistics.median(of), 0.03)
            for path, of in took.items() if of]  # fmt: skip


def own_cpu_s(pid: int) -> float:
    """Processor time that a process has had, its ended threads too, to the nanosecond (Linux and
    the clocks of POSIX; from memory: the clock of a process is its number, inverted, and 2) [s]."""
    return time.clock_gettime((~pid << 3) | 2)


def _edits(window: Window, count: int) -> Iterator[str]:
    """Wishes of every kind at ever other places; each is one edit that solves."""
    for n in range(count):
        places = re.findall(r"at\?p=([\w/-]+)", window.planned())
        eaten = [p for p in places if p.split("/")[2] in ("lunch", "dinner", "breakfast")]
        place = eaten[(7 * n) % len(eaten)]
        yield f"{('out', 'keep', 'more')[n % 3]} {place}"


def _memory(window: Window, pid: int) -> list[dict[str, Any]]:
    """How much the server and its solver grow over many edits, each undone."""
    sizes = []
    for n in range(MANY):
        place = re.findall(r"at\?p=([\w/-]+)", window.planned())[n % 30]
        window.wish(f"keep {place}")
        window.wish("undo")
        sizes.append(rss_mb(pid))
    early, late = max(sizes[20:60]), max(sizes[-40:])
    return [{"what": f"memory grown over {MANY} edits", "value": late - early, "unit": "MB",
             "bar": GROWTH_MB, "holds": late - early <= GROWTH_MB}]  # fmt: skip


def rss_mb(pid: int) -> float:
    """Memory of a process and its children [MB]; nothing where the system does not tell."""
    pages = sum(int(Path(f"/proc/{one}/statm").read_text().split()[1]) for one in family(pid))
    return pages * 4096 / 1e6


def cpu_s(pid: int) -> float:
    """CPU that a process and its children have used [s]; nothing where the system does not tell."""
    used = 0
    for one in family(pid):
        fields = Path(f"/proc/{one}/stat").read_text().rpartition(")")[2].split()
        used += sum(int(field) for field in fields[11:15])  # with the children that have ended
    return used / os.sysconf("SC_CLK_TCK")


def family(pid: int) -> list[int]:
    """A process and its children, whichever of its threads began them; none where unknown."""
    lists = list(Path(f"/proc/{pid}/task").glob("*/children"))
    children = [int(word) for one in lists for word in one.read_text().split()]
    return [pid, *children] if lists else []


def both(pid: int, work: Any) -> tuple[float, float]:
    """What some work takes by the wall and in CPU of server and solver [s]."""
    before = cpu_s(pid)
    wall = timed(work)
    return wall, max(0.0, cpu_s(pid) - before)


def timed(work: Any) -> float:
    begin = time.perf_counter()
    work()
    return time.perf_counter() - begin


def row(what: str, seconds: float, bar: float | None) -> dict[str, Any]:
    return {"what": what, "value": seconds, "unit": "s", "bar": bar,
            "holds": bar is None or seconds <= bar}  # fmt: skip
