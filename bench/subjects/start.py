"""How soon a command that only shows something answers, beside a bare Python in the same run.

The bytecode is written once beforehand, into a folder of its own, as an installation does: what is
measured is a second start. `models` works out every published check value anew, and `check` reads
and judges every file: more than showing, and measured beside the others without a bar.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from oatsack.cli.verbs import VERBS

BAR_S = 0.2
SHORT = """
from = 2026-07-03T10:00
to = 2026-07-04T15:00
[[walkers]]
mass = "62 kg"
[route]
usual_day = { distance = "12 km", up = "400 m" }
"""


def run(full: bool = False) -> list[dict[str, Any]]:
    """Wall time of the quickest of several starts."""
    rounds = 15 if full else 7
    with tempfile.TemporaryDirectory() as folder:
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        os.environ["PYTHONPYCACHEPREFIX"] = str(Path(folder) / "bytecode")
        try:
            return rows(Path(folder), rounds)
        finally:
            del os.environ["PYTHONPYCACHEPREFIX"]


def rows(folder: Path, rounds: int) -> list[dict[str, Any]]:
    """A bare Python, then every command over it."""
    bare = best_s([sys.executable, "-c", "pass"], rounds)
    plan, trip = made_plan(folder), str(folder / "trip.toml")
    found = [row("python -c pass", bare, None)]
    for words, bar in (
        (["--help"], BAR_S), (["--version"], BAR_S),
        *(([verb.name, "--help"], BAR_S) for verb in VERBS),
        (["foods", "oats"], BAR_S), (["why", str(plan), "totals/energy_kcal"], BAR_S),
        (["show", str(plan)], BAR_S), (["show", str(plan), "menu"], BAR_S),
        (["kitchen", str(plan)], BAR_S), (["models"], None), (["check", trip], None),
    ):  # fmt: skip
        took = best_s([sys.executable, "-m", "oatsack", *words], rounds)
        shown = " ".join(Path(word).name for word in words)
        found.append(row(f"oatsack {shown}", took, bar))
        found.append({"what": f"oatsack {shown}, over a bare start", "value": took / bare,
                      "unit": "x", "bar": None, "holds": True})  # fmt: skip
    return found


def row(what: str, seconds: float, bar: float | None) -> dict[str, Any]:
    holds = bar is None or seconds <= bar
    return {"what": what, "value": seconds, "unit": "s", "bar": bar, "holds": holds}


def made_plan(folder: Path) -> Path:
    trip = folder / "trip.toml"
    trip.write_text(SHORT, encoding="utf-8")
    words = [sys.executable, "-m", "oatsack", "plan", str(trip), "--out", str(folder)]
    subprocess.run(words, check=True, capture_output=True)
    return folder / "plan.json"


def best_s(words: Sequence[str], rounds: int) -> float:
    times = []
    for _ in range(rounds):
        begin = time.perf_counter()
        subprocess.run(words, check=True, capture_output=True)
        times.append(time.perf_counter() - begin)
    return min(times)
