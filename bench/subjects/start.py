"""How soon a command that only shows something answers, beside a bare Python in the same run."""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

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
    bare = best_s([sys.executable, "-c", "pass"], rounds)
    rows = [row("python -c pass", bare, None)]
    with tempfile.TemporaryDirectory() as folder:
        plan = made_plan(Path(folder))
        for words in (["--help"], ["--version"], ["foods", "oats"], ["models"],
                      ["why", str(plan), "totals/energy_kcal"]):  # fmt: skip
            took = best_s([sys.executable, "-m", "oatsack", *words], rounds)
            rows.append(row(f"oatsack {' '.join(words[:1])}", took, BAR_S))
            rows.append({"what": f"oatsack {words[0]}, over a bare start", "value": took / bare,
                         "unit": "x", "bar": None, "holds": True})  # fmt: skip
    return rows


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
