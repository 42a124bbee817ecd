"""A drawing read back: every mark with its place on the paper, whatever group it was moved with."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
Point = tuple[float, float]
LETTER = 0.56
"""Width of a letter as a share of its size, about."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One element: its kind, the points that it reaches, its classes and its words."""

    kind: str
    points: tuple[Point, ...]
    classes: frozenset[str]
    words: str
    size: float = 0.0
    anchor: str = "start"


def marks(svg: str) -> list[Mark]:
    """Every mark of a drawing, in order."""
    return list(_marks(ElementTree.fromstring(svg), 0.0, 0.0))


def size_of(svg: str) -> Point:
    """Width and height of the paper."""
    root = ElementTree.fromstring(svg)
    return float(root.attrib["width"]), float(root.attrib["height"])


def _marks(node: ElementTree.Element, x: float, y: float) -> Iterator[Mark]:
    moved = re.fullmatch(r"translate\(([-\d.e]+) ([-\d.e]+)\)", node.get("transform", ""))
    if moved:
        x, y = x + float(moved[1]), y + float(moved[2])
    kind = node.tag.removeprefix(SVG)
    points = _points(kind, node)
    if points:
        yield Mark(
            kind, tuple((x + px, y + py) for px, py in points),
            frozenset(node.get("class", "").split()), node.text or "",
            float(node.get("font-size", 0)), node.get("text-anchor", "start"),
        )  # fmt: skip
    for inner in node:
        yield from _marks(inner, x, y)


def _points(kind: str, node: ElementTree.Element) -> list[Point]:
    def of(*names: str) -> list[float]:
        return [float(node.attrib[name]) for name in names]

    if kind == "rect":
        x, y, wide, tall = of("x", "y", "width", "height")
        return [(x, y), (x + wide, y + tall)]
    if kind == "line":
        x1, y1, x2, y2 = of("x1", "y1", "x2", "y2")
        return [(x1, y1), (x2, y2)]
    if kind == "circle":
        x, y, r = of("cx", "cy", "r")
        return [(x - r, y - r), (x + r, y + r)]
    if kind == "text":
        x, y = of("x", "y")
        return [(x, y)]
    if kind in ("polyline", "polygon"):
        return [(float(a), float(b)) for a, b in
                (pair.split(",") for pair in node.attrib["points"].split())]  # fmt: skip
    return []


def outside(svg: str, slack: float = 0.6) -> list[Mark]:
    """Marks that reach beyond the paper by more than a rounding."""
    wide, tall = size_of(svg)
    return [
        mark for mark in marks(svg)
        if not all(-slack <= x <= wide + slack and -slack <= y <= tall + slack
                   for x, y in mark.points)
    ]  # fmt: skip


def reaches(mark: Mark) -> tuple[float, float]:
    """From where to where a text lies, about."""
    (x, _), wide = mark.points[0], len(mark.words) * mark.size * LETTER
    left = x - {"start": 0.0, "middle": wide / 2.0, "end": wide}[mark.anchor]
    return left, left + wide


def heights_at(line: Sequence[Point], x: float, near: float = 0.11) -> tuple[float, float]:
    """Lowest and highest place of a line at a place across, for it may fall straight down."""
    xs = [px for px, _ in line]
    here = [py for px, py in line if abs(px - x) <= near]
    at = bisect_left(xs, x)
    if 0 < at < len(line):
        (x0, y0), (x1, y1) = line[at - 1], line[at]
        here.append(y0 + (x - x0) / (x1 - x0) * (y1 - y0) if x1 > x0 else y1)
    return (min(here), max(here)) if here else (float("nan"), float("nan"))
