"""Walking cost: the shelf against the same polynomial in bare NumPy, and a long track to its need.

Ratios are against something measured in the same run, so that they mean the same on any machine.
Times are processor time, so that other work on the machine counts as little as can be; the wall
clock of the long track stands beside it.
Bars: the default model within 3 times the bare evaluation; a track of 100,000 points from file to
need within 1.5 s; 10,000 draws of a week within 1 s.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from typing import Any

import numpy as np

POINTS = 100_000
ROUNDS = 7


def best_s(work: Callable[[], Any], rounds: int = ROUNDS) -> float:
    """The quickest of several runs [s]."""
    times = []
    for _ in range(rounds):
        begin = time.process_time()
        work()
        times.append(time.process_time() - begin)
    return min(times)


def columns_of(points: int) -> dict[str, Any]:
    """A walk of so many stretches: rolling slopes, a pack that gets lighter."""
    rng = np.random.default_rng(11)
    return {
        "mass_kg": 75.0,
        "load_kg": np.linspace(15.0, 10.0, points),
        "speed_ms": rng.uniform(0.6, 1.5, points),
        "grade_pct": rng.uniform(-25.0, 25.0, points),
        "terrain": np.full(points, 1.1),
        "resting_w": 81.96,
    }


def bare(w: float, load: Any, s: Any, g: Any, eta: Any, rest: float) -> Any:
    """The default model's formula, written straight down."""
    grade = 0.34 * s * g * (1.0 - 1.05 ** (1.0 - 1.1 ** (g + 32.0)))
    slope = np.where(g > 0, eta, 1.0) * grade
    moving = 0.19 + eta * (1.78 * s**0.58 + 0.27 * s**4) + slope
    return rest + w * moving * (1.0 + 1.96 * (load / w) ** 1.36)


def shelf() -> dict[str, float]:
    """Times of every model, and the default's ratio to the bare evaluation."""
    from oatsack.walker.energy import DEFAULT, MODELS

    given = columns_of(POINTS)
    plain = tuple(given.values())
    apart = np.max(np.abs(DEFAULT.function(**given) / bare(*plain) - 1.0))
    if apart > 1e-9:
        raise AssertionError(f"the shelf and the bare formula differ by {apart}")
    reference = best_s(lambda: bare(*plain))
    found = {"bare_ms": 1000 * reference}
    for model in MODELS:
        took = best_s(lambda model=model: model.function(**given))  # type: ignore[misc]
        found[f"{model.name}_ms"] = 1000 * took
        found[f"{model.name}_ratio"] = took / reference
    return found


def long_gpx(points: int) -> bytes:
    """An invented line of so many points, 4 m apart, over rolling ground."""
    head = '<?xml version="1.0"?><gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1">'
    rows = [
        f'<trkpt lat="{47 + i * 3.6e-5:.6f}" lon="13"><ele>'
        f"{900 + 400 * math.sin(i / 9000) + 30 * math.sin(i / 170):.1f}</ele></trkpt>"
        for i in range(points)
    ]
    return (
        head + "<trk><name>long</name><trkseg>" + "".join(rows) + "</trkseg></trk></gpx>"
    ).encode()


def from_file_to_need(points: int = POINTS) -> dict[str, float]:
    """A long track: read, made a profile, every piece walked and priced [s]."""
    from oatsack.files.tracks import read_track
    from oatsack.route import pace
    from oatsack.route.profile import profile_of
    from oatsack.walker.need import need
    from oatsack.walker.person import Body
    from oatsack.walker.stretches import columns

    data = long_gpx(points)
    wall = time.perf_counter()
    begin = time.process_time()
    track = read_track(data, "long.gpx")
    read = time.process_time()
    profile = profile_of(track)
    joints, slopes = profile.slopes(0.0, profile.length_m, profile.length_m / (points - 1))
    laid = time.process_time()
    speed = np.asarray(pace.speed_ms(pace.DEFAULT, slopes))
    s = columns(
        minutes=np.diff(joints) / speed / 60.0, speed_ms=speed, grade_pct=slopes, load_kg=12.0
    )
    found = need(Body(mass_kg=75.0, height_cm=178.0, age_years=35.0, sex="male"), s)
    end = time.process_time()
    return {
        "points": float(points), "stretches": float(len(s)), "read_s": read - begin,
        "profile_s": laid - read, "need_s": end - laid, "whole_s": end - begin,
        "wall_s": time.perf_counter() - wall,
        "kcal": found.days[1].energy_kcal,
    }  # fmt: skip


def draws() -> dict[str, float]:
    """Ten thousand draws of a week's need [s]."""
    from oatsack.walker.need import need
    from oatsack.walker.person import Body
    from oatsack.walker.range import DRAWS, draw
    from oatsack.walker.stretches import CAMP, REST, SLEEP, WALK, columns

    week = columns(
        minutes=np.tile([300.0, 60.0, 180.0, 420.0, 480.0], 7),
        kind=np.tile([WALK, REST, CAMP, REST, SLEEP], 7), speed_ms=1.1, load_kg=12.0,
        day=np.repeat(np.arange(1, 8), 5),
    )  # fmt: skip
    found = need(Body(mass_kg=75.0), week)
    return {"draws": float(DRAWS), "draw_s": best_s(lambda: draw(found, seed=1), 3)}


def run(full: bool = False) -> list[dict[str, Any]]:
    """All figures with the bars they are held to; `full` changes nothing here."""
    models, track, drawn = shelf(), from_file_to_need(), draws()
    default = models["lcda-backpacking-2022_ratio"]
    return [
        *(row(name, value, "x") for name, value in models.items()
          if name.endswith("_ratio") and not name.startswith("lcda-backpacking")),
        row("default model over bare NumPy", default, "x", 3.0),
        row("100,000 points from file to need, processor time", track["whole_s"], "s", 1.5),
        row("100,000 points from file to need, wall", track["wall_s"], "s"),
        row("10,000 draws of a week", drawn["draw_s"], "s", 1.0),
    ]  # fmt: skip


def row(what: str, value: float, unit: str, bar: float | None = None) -> dict[str, Any]:
    """One measured figure against its bar."""
    holds = bar is None or value <= bar
    return {"what": what, "value": value, "unit": unit, "bar": bar, "holds": holds}
