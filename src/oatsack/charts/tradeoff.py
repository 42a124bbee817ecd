"""Menus by mass and price: a dot each, liked ones large, one's own filled; names beside them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from oatsack.charts.ribbon_rows import WIDE_LETTER, label
from oatsack.charts.svg import FILLS, element, line, picture, text

TALL, LEFT, RIGHT, TOP, FOOT = 300.0, 12.0, 12.0, 26.0, 40.0
SMALL, LARGE = 4.0, 11.0
"""Radius of a dot that is liked least and best of those shown [px]."""
SIZE = 11.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Dot:
    """One menu."""

    name: str
    mass_g: float
    price: float
    liking: float
    own: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class TradeoffWords:
    """Every word of the picture, and how its numbers are written."""

    title: str
    desc: str
    across: str
    up: str
    mass: Callable[[float], str]
    money: Callable[[float], str]


def tradeoff(dots: Sequence[Dot], *, words: TradeoffWords, width: float = 640.0,
             name: str = "tradeoff") -> str:  # fmt: skip
    """The picture as SVG text. Raises ValueError where there is no dot."""
    if not dots:
        raise ValueError("a picture of menus needs at least one")
    masses, prices = [d.mass_g for d in dots], [d.price for d in dots]
    across = _scale(masses, LEFT + LARGE, width - RIGHT - LARGE)
    up = _scale(prices, TALL - FOOT - LARGE, TOP + LARGE)
    parts = _frame(words, width, (min(masses), max(masses)), (min(prices), max(prices)))
    liked = _scale([d.liking for d in dots], SMALL, LARGE)
    taken = [_box(across(d.mass_g), up(d.price), liked(d.liking)) for d in dots]
    for dot in sorted(dots, key=lambda d: not d.own):
        x, y, r = across(dot.mass_g), up(dot.price), liked(dot.liking)
        parts.append(_dot(x, y, r, own=dot.own))
        parts += _named(dot, x, y, r, width=width, taken=taken)
    return picture(parts, width=width, height=TALL, title=words.title, desc=words.desc, name=name)


def _scale(values: Sequence[float], first: float, last: float) -> Callable[[float], float]:
    """Least to `first`, most to `last`; the middle where all are alike."""
    low, span = min(values), max(values) - min(values)

    def place(value: float) -> float:
        share = (value - low) / span if span > 1e-9 else 0.5
        return first + share * (last - first)

    return place


def _frame(
    words: TradeoffWords, width: float, masses: tuple[float, float], prices: tuple[float, float]
) -> list[str]:
    """Two axes with their ends written at them."""
    base = TALL - FOOT
    return [
        line(LEFT, base, width - RIGHT, base, stroke="faint"),
        line(LEFT, TOP, LEFT, base, stroke="faint"),
        text(f"{words.up}: {words.money(prices[1])}", LEFT + 6.0, TOP - 8.0, size=SIZE,
             tone="soft"),
        text(words.money(prices[0]), LEFT + 6.0, base - 6.0, size=SIZE, tone="soft"),
        text(words.mass(masses[0]), LEFT, base + 16.0, size=SIZE, tone="soft"),
        text(words.mass(masses[1]), width - RIGHT, base + 16.0, size=SIZE, anchor="end",
             tone="soft"),
        text(words.across, (width + LEFT - RIGHT) / 2.0, base + 32.0, size=SIZE, anchor="middle",
             tone="soft"),
    ]  # fmt: skip


def _dot(x: float, y: float, r: float, *, own: bool) -> str:
    fill = "ink" if own else "paper"
    return element("circle", cx=x, cy=y, r=r, fill=FILLS[fill], stroke=FILLS["ink"],
                   stroke_width=1.6, class_=f"f-{fill} s-ink")  # fmt: skip


def _named(
    dot: Dot, x: float, y: float, r: float, *, width: float,
    taken: list[tuple[float, float, float, float]],
) -> list[str]:  # fmt: skip
    """The name on the first side where it touches neither edge nor another name; else none, for
    the table names all."""
    wide, tall = len(dot.name) * SIZE * WIDE_LETTER + 4.0, SIZE
    sides = ((x + r + 4.0, y + 4.0), (x - r - 4.0 - wide, y + 4.0), (x - wide / 2, y - r - 5.0),
             (x - wide / 2, y + r + 13.0), (x - r, y + r + 13.0), (x - r, y - r - 5.0))  # fmt: skip
    for left, foot in sides:
        box = (left, foot - tall, left + wide, foot)
        inside = box[0] >= LEFT and box[2] <= width and box[1] >= 0 and box[3] <= TALL - FOOT
        if inside and not any(_touch(box, other) for other in taken):
            taken.append(box)
            return [label(dot.name, left, foot, size=SIZE, bold=dot.own)]
    return []


def _box(x: float, y: float, r: float) -> tuple[float, float, float, float]:
    return x - r, y - r, x + r, y + r


def _touch(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
