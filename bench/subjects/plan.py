"""The whole job: the bundled trip and the acceptance trips, from files to a valid plan."""

from __future__ import annotations

import datetime as dt
import time
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

BUNDLED_BAR_S = 5.0
TRIPS = Path(__file__).resolve().parents[2] / "tests" / "journeys" / "trips"


def run(full: bool = False) -> list[dict[str, Any]]:
    """Wall time of one plan each, and how near the best possible it is known to be."""
    with as_file(files("oatsack") / "data" / "demo") as folder:
        rows = timed("bundled trip", folder / "trip.toml", BUNDLED_BAR_S)
    names = sorted(TRIPS.glob("*.toml")) if full else [TRIPS / "bramble_bowl.toml"]
    for path in names:
        rows += timed(path.stem, path, None)
    return rows


def timed(what: str, path: Path, bar: float | None) -> list[dict[str, Any]]:
    from oatsack.desk.opening import open_trip
    from oatsack.desk.planning import make_plan

    begin = time.perf_counter()
    plan = make_plan(open_trip(path), today=dt.date(2026, 1, 5))
    took = time.perf_counter() - begin
    holds = bar is None or (took <= bar and plan.valid)
    return [
        {"what": f"{what}: valid plan", "value": took, "unit": "s", "bar": bar, "holds": holds},
        {"what": f"{what}: above the best possible by at most", "value": plan.menu.gap,
         "unit": "", "bar": None, "holds": True},
    ]  # fmt: skip
