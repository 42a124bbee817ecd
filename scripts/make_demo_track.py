"""Invents the ground and the way of the bundled walk, and writes `data/demo/track.gpx`.

Nothing here is real: the hills are seeded noise set in an empty stretch of sea, the names are made
up. The way between two places is the quickest one over that ground by a walking-time rule, so that
it keeps to valleys and saddles as paths do. The same seed gives the same bytes.

    python scripts/make_demo_track.py
"""

from __future__ import annotations

import heapq
import itertools
import math
from pathlib import Path
from xml.sax.saxutils import escape

import numpy as np
import numpy.typing as npt

from oatsack.route import pace

Array = npt.NDArray[np.float64]
Node = tuple[int, int]

SEED = 23
CELL_M = 115.0
SIZE = (300, 380)
"""Cells to the north and to the east: 34 km by 44 km."""
SOUTH, WEST = 45.1, -22.4
"""An empty stretch of the Atlantic; no such land exists."""
TARGET = Path(__file__).resolve().parents[1] / "src" / "oatsack" / "data" / "demo" / "track.gpx"

STOPS = (
    ("Wick Gate", (28, 40), ""),
    ("Alderfold", (110, 70), "camp"),
    ("Sorrel Tarn", (205, 95), "camp"),
    ("Great Sorrel", (225, 150), "top"),
    ("Long Sill", (235, 215), "camp"),
    ("Crookback", (200, 265), "top"),
    ("Hob Meadow", (150, 300), "camp"),
    ("Netherby Quay", (40, 335), ""),
)
"""Name, rough place in cells, kind. Camps move to the flattest cell near, tops to the highest."""
STREAMS = ("Trickle Beck", "Two Stones Brook", "Marl Spring", "Grey Spout", "Lamb Rill",
           "Hazel Burn", "Lower Ford", "Cress Spring", "Tinker's Well", "Last Brook")  # fmt: skip
DOUBTFUL = {"Grey Spout": "often dry after a week without rain", "Lamb Rill": "usually runs"}
STEPS = [(a, b) for a in (-2, -1, 0, 1, 2) for b in (-2, -1, 0, 1, 2) if math.gcd(a, b) == 1]


def noise(rng: np.random.Generator, spacing: int) -> Array:
    """Smooth noise between -1 and 1: random values every `spacing` cells, eased in between."""
    rows, columns = (side // spacing + 3 for side in SIZE)
    lattice = rng.uniform(-1.0, 1.0, (rows, columns))
    y, x = np.arange(SIZE[0]) / spacing, np.arange(SIZE[1]) / spacing
    yi, xi = y.astype(int), x.astype(int)
    fy, fx = ((t * t * (3.0 - 2.0 * t))[:, None] for t in (y - yi, x - xi))
    fx = fx.T
    low = lattice[np.ix_(yi, xi)] * (1 - fx) + lattice[np.ix_(yi, xi + 1)] * fx
    high = lattice[np.ix_(yi + 1, xi)] * (1 - fx) + lattice[np.ix_(yi + 1, xi + 1)] * fx
    result: Array = low * (1 - fy) + high * fy
    return result


def terrain(seed: int = SEED) -> Array:
    """Heights of the grid [m]: ridges of several sizes, highest in the middle of the land."""
    rng = np.random.default_rng(seed)
    ridges = 1.0 - np.abs(noise(rng, 70))
    broad = noise(rng, 110)
    fine = 0.5 * noise(rng, 30) + 0.25 * noise(rng, 14) + 0.1 * noise(rng, 6)
    north, east = np.meshgrid(
        np.linspace(-1, 1, SIZE[0]), np.linspace(-1, 1, SIZE[1]), indexing="ij"
    )
    dome = np.exp(-1.3 * (north**2 + 0.8 * east**2))
    return 240.0 + dome * (900.0 * ridges**2 + 420.0 * (1 + broad)) + 620.0 * dome * fine


def settle(height: Array, node: Node, kind: str, reach: int = 9) -> Node:
    """The flattest cell near a rough place, where one would pitch a tent; or the highest."""
    slope = np.hypot(*np.gradient(height))
    rows = range(max(2, node[0] - reach), min(SIZE[0] - 2, node[0] + reach))
    columns = range(max(2, node[1] - reach), min(SIZE[1] - 2, node[1] + reach))
    worth = -height if kind == "top" else slope
    return min(((r, c) for r in rows for c in columns), key=lambda place: worth[place])


def quickest(height: Array, start: Node, goal: Node) -> list[Node]:
    """The way from one cell to another that takes least time both ways together (Dijkstra)."""
    best: dict[Node, float] = {start: 0.0}
    came: dict[Node, Node] = {}
    queue: list[tuple[float, Node]] = [(0.0, start)]
    seconds = {grade: _seconds(grade) for grade in range(-100, 101)}
    while queue:
        cost, node = heapq.heappop(queue)
        if node == goal:
            break
        if cost > best[node]:
            continue
        for step in STEPS:
            there = (node[0] + step[0], node[1] + step[1])
            if not (0 <= there[0] < SIZE[0] and 0 <= there[1] < SIZE[1]):
                continue
            length = CELL_M * math.hypot(*step)
            grade = round(100.0 * float(height[there] - height[node]) / length)
            if abs(grade) > 60:
                continue
            total = cost + length * seconds[grade]
            if total < best.get(there, math.inf):
                best[there], came[there] = total, node
                heapq.heappush(queue, (total, there))
    way = [goal]
    while way[-1] != start:
        way.append(came[way[-1]])
    return way[::-1]


def _seconds(grade_pct: int) -> float:
    """Seconds per metre, steep ground shunned, so that the way keeps to what a path would."""
    both = 1.0 / float(pace.speed_ms(pace.DEFAULT, float(grade_pct)))
    return both * (1.0 + (abs(grade_pct) / 30.0) ** 2)


def eased(way: list[Node]) -> Array:
    """The cells as a smooth line with a point about every 45 m, in cells."""
    line = np.array(way, dtype=float)
    for _ in range(6):
        line[1:-1] = 0.25 * line[:-2] + 0.5 * line[1:-1] + 0.25 * line[2:]
    along = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T)))) * CELL_M
    at = np.linspace(0.0, along[-1], max(2, int(along[-1] / 45.0)))
    return np.column_stack([np.interp(at, along, line[:, k]) for k in (0, 1)])


def heights_on(height: Array, line: Array) -> Array:
    """Heights along a line between cells, eased in both directions [m]."""
    r, c = line[:, 0], line[:, 1]
    r0 = np.clip(r.astype(int), 0, SIZE[0] - 2)
    c0 = np.clip(c.astype(int), 0, SIZE[1] - 2)
    fr, fc = r - r0, c - c0
    low = height[r0, c0] * (1 - fc) + height[r0, c0 + 1] * fc
    high = height[r0 + 1, c0] * (1 - fc) + height[r0 + 1, c0 + 1] * fc
    result: Array = low * (1 - fr) + high * fr
    return result


def place(line: Array) -> tuple[Array, Array]:
    """Latitude and longitude of places in cells."""
    metre = 1.0 / 111_195.0
    lat = SOUTH + line[:, 0] * CELL_M * metre
    lon = WEST + line[:, 1] * CELL_M * metre / math.cos(math.radians(SOUTH + 0.08))
    return lat, lon


def streams(height: Array, apart: int = 75) -> list[int]:
    """Points where the way crosses a hollow: the lowest of all points near."""
    found: list[int] = []
    for k in range(apart // 2, len(height) - apart // 2):
        near = height[max(0, k - apart // 2) : k + apart // 2 + 1]
        if height[k] == near.min() and (not found or k - found[-1] >= apart):
            found.append(k)
    return found


def gpx(line: Array, height: Array, camps: list[tuple[str, int]]) -> str:
    """The whole file."""
    lat, lon = place(line)
    rows = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<gpx version="1.1" creator="oatsack" xmlns="http://www.topografix.com/GPX/1/1">',
        "<metadata><name>Five days over Sorrel</name>",
        "<desc>Invented: no such land, paths or names exist. Drawn by a script.</desc></metadata>",
    ]
    marks = [(name, k, "camp", "") for name, k in camps]
    marks += [
        (name, k, "water", DOUBTFUL.get(name, ""))
        for name, k in zip(STREAMS, streams(height), strict=False)
    ]
    for name, k, kind, said in sorted(marks, key=lambda mark: mark[1]):
        desc = f"<desc>{escape(said)}</desc>" if said else ""
        rows.append(
            f'<wpt lat="{lat[k]:.6f}" lon="{lon[k]:.6f}"><ele>{height[k]:.1f}</ele>'
            f"<name>{escape(name)}</name>{desc}<type>{kind}</type></wpt>"
        )
    rows.append("<trk><name>Five days over Sorrel</name><trkseg>")
    rows += [
        f'<trkpt lat="{a:.6f}" lon="{o:.6f}"><ele>{h:.1f}</ele></trkpt>'
        for a, o, h in zip(lat, lon, height, strict=True)
    ]
    return "\n".join([*rows, "</trkseg></trk>", "</gpx>", ""])


def main() -> None:
    """Writes the track, and says how long and how high it is."""
    ground = terrain()
    stops = [settle(ground, node, kind) for _, node, kind in STOPS]
    parts, camps, count = [], [], 0
    for number, (start, goal) in enumerate(itertools.pairwise(stops)):
        part = eased(quickest(ground, start, goal))
        parts.append(part if number == 0 else part[1:])
        count += len(parts[-1])
        if STOPS[number + 1][2] == "camp":
            camps.append((STOPS[number + 1][0], count - 1))
    line = np.concatenate(parts)
    height = heights_on(ground, line)
    TARGET.write_text(gpx(line, height, camps), encoding="utf-8")
    rises = np.diff(height)
    print(f"{len(line)} points, {rises[rises > 0].sum():.0f} m up, {height.max():.0f} m at most")


if __name__ == "__main__":
    main()
