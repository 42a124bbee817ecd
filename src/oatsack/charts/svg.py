"""Small pieces of SVG: elements, texts, scales. No picture knows where its numbers come from.

Colours stand as attributes in black and grey, so that paper needs no style sheet; every element
also bears a class, by which a page sets its own colours in light and dark. No ``style=`` is
written, so that a strict content policy holds.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import cache
from html import escape

FONT = "Atkinson Hyperlegible, sans-serif"
INK, SOFT, FAINT, PALE = "#111111", "#5a5a5a", "#b8b8b8", "#e4e4e4"
ROUND = (1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0)
FILLS = {"ink": INK, "soft": SOFT, "faint": FAINT, "pale": PALE, "paper": "#ffffff"}


def element(name: str, inner: Iterable[str] | str = "", **attributes: object) -> str:
    """An element; underscores in names become hyphens, ``class_`` the class, None is left out."""
    words = "".join([
        f' {_attribute(key)}="{_value(value)}"'
        for key, value in attributes.items() if value is not None
    ])  # fmt: skip
    body = inner if isinstance(inner, str) else "".join(inner)
    return f"<{name}{words}>{body}</{name}>" if body else f"<{name}{words}/>"


@cache
def _attribute(key: str) -> str:
    return key.rstrip("_").replace("_", "-")


def _value(value: object) -> str:
    if isinstance(value, float):
        return f"{value:.1f}".removesuffix(".0")
    said = str(value)
    return said if said.isalnum() else escape(said, quote=True)


def text(words: str, x: float, y: float, *, size: float = 12.0, anchor: str = "start",
         tone: str = "ink", bold: bool = False) -> str:  # fmt: skip
    """A line of text at its baseline."""
    return element(
        "text", escape(words), x=x, y=y, font_size=size, text_anchor=anchor, fill=FILLS[tone],
        class_=f"f-{tone}", font_weight="bold" if bold else None,
    )  # fmt: skip


def rect(x: float, y: float, width: float, height: float, *, fill: str | None = "ink",
         stroke: str | None = None) -> str:  # fmt: skip
    """A box, filled or outlined."""
    return element(
        "rect", x=x, y=y, width=max(0.0, width), height=max(0.0, height),
        fill=FILLS[fill] if fill else "none", stroke=FILLS[stroke] if stroke else None,
        class_=classes(fill, stroke),
    )  # fmt: skip


def line(x1: float, y1: float, x2: float, y2: float, *, stroke: str = "ink", width: float = 1.0,
         dash: str | None = None) -> str:  # fmt: skip
    """A straight line."""
    return element("line", x1=x1, y1=y1, x2=x2, y2=y2, stroke=FILLS[stroke], stroke_width=width,
                   stroke_dasharray=dash, class_=f"s-{stroke}")  # fmt: skip


def thinned(points: Iterable[tuple[float, float]], near: float = 0.35) -> list[tuple[float, float]]:
    """The points without which a line would leave its course by more than `near` [px].

    The farthest point from the straight line is kept, then the two halves are looked at alike
    (from memory: the line simplification of Ramer, Douglas and Peucker).
    """
    drawn = list(points)
    if len(drawn) < 3:
        return drawn
    kept = {0, len(drawn) - 1}
    open_ = [(0, len(drawn) - 1)]
    while open_:
        first, last = open_.pop()
        off, at = _farthest(drawn, first, last)
        if off > near:
            kept.add(at)
            open_ += [(first, at), (at, last)]
    return [drawn[k] for k in sorted(kept)]


def _farthest(
    drawn: Sequence[tuple[float, float]], first: int, last: int
) -> tuple[float, int]:
    """How far the farthest point between two lies from the stretch between them, and which."""
    (x0, y0), (x1, y1) = drawn[first], drawn[last]
    wide, tall = x1 - x0, y1 - y0
    long = wide * wide + tall * tall or 1.0
    most, at = 0.0, first
    for k in range(first + 1, last):
        x, y = drawn[k]
        x -= x0
        y -= y0
        along = x * wide + y * tall
        if 0.0 < along < long:  # beside the stretch, else beyond one of its ends
            across = x * tall - y * wide
            off = across * across / long
        elif along <= 0.0:
            off = x * x + y * y
        else:
            off = (x - wide) ** 2 + (y - tall) ** 2
        if off > most:
            most, at = off, k
    return math.sqrt(most), at


def classes(fill: str | None, stroke: str | None) -> str:
    """The classes by which a page recolours an element."""
    return " ".join([f"f-{fill}"] * bool(fill) + [f"s-{stroke}"] * bool(stroke))


def picture(inner: Iterable[str], *, width: float, height: float, title: str, desc: str,
            name: str) -> str:  # fmt: skip
    """A whole drawing with its title and description for those who cannot see it."""
    head = element("title", escape(title), id=f"{name}-t") + element(
        "desc", escape(desc), id=f"{name}-d"
    )
    return element(
        "svg", head + "".join(inner), xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {width:g} {height:g}", width=width, height=height, role="img",
        aria_labelledby=f"{name}-t {name}-d", font_family=FONT, class_="chart",
    )  # fmt: skip


def round_top(value: float) -> float:
    """The next round number at or above a value, one whose quarters are round too."""
    if value <= 0:
        return 1.0
    power = 10.0 ** math.floor(math.log10(value))
    return next(s * power for s in ROUND if s * power >= value * (1 - 1e-9))


def steps(top: float, count: int = 4) -> Sequence[float]:
    """Evenly spaced values from 0 to a round top."""
    return [top * i / count for i in range(count + 1)]
