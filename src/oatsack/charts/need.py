"""What each day uses, as a range with its likely value, beside what is eaten, as a bar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oatsack.charts.svg import line, picture, rect, round_top, steps, text

LEFT, RIGHT, TOP, BOTTOM, HEIGHT = 46.0, 8.0, 30.0, 40.0, 250.0
SIGN_WIDTH = 6.4
"""Mean width of a sign at 12 px."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedDay:
    """One day [kcal], its name and the number to write on its bar."""

    name: str
    low: float
    likely: float
    high: float
    eaten: float
    shown: str


def draw(days: Sequence[NeedDay], *, words: Sequence[str], width: float = 640.0,
         name: str = "need") -> str:  # fmt: skip
    """The picture. `words`: title, description, name of the bar, name of the range, unit."""
    title, desc, eats, uses, unit = words
    top = round_top(max((d.high for d in days), default=1.0))
    floor = HEIGHT - BOTTOM
    scale = (floor - TOP) / top
    step = (width - LEFT - RIGHT) / max(1, len(days))
    parts = _grid(top, scale, floor, width)
    parts += [*_legend(eats, uses), text(unit, 2, 16, tone="soft")]
    for i, day in enumerate(days):
        parts += _day(day, LEFT + i * step, step, floor, scale)
    return picture(parts, width=width, height=HEIGHT, title=title, desc=desc, name=name)


def _legend(eats: str, uses: str) -> list[str]:
    """The two signs with their names: a bar, and a range with its likely value."""
    second = LEFT + 34 + SIGN_WIDTH * len(eats)
    return [
        rect(LEFT, 7, 9, 10, fill="ink"), text(eats, LEFT + 14, 16, tone="soft"),
        line(second, 6, second, 18, stroke="soft", width=2),
        line(second - 5, 12, second + 5, 12, stroke="ink", width=4),
        text(uses, second + 10, 16, tone="soft"),
    ]  # fmt: skip


def _grid(top: float, scale: float, floor: float, width: float) -> list[str]:
    parts = []
    for value in steps(top):
        y = floor - value * scale
        parts.append(line(LEFT, y, width - RIGHT, y, stroke="pale" if value else "ink"))
        parts.append(text(f"{value:,.0f}", LEFT - 6, y + 4, size=11, anchor="end", tone="soft"))
    return parts


def _day(day: NeedDay, x: float, step: float, floor: float, scale: float) -> list[str]:
    bar = min(46.0, step * 0.42)
    left = x + step / 2 - bar * 0.8
    spine = x + step / 2 + bar * 0.55
    y = floor - day.eaten * scale
    low, likely, high = (floor - v * scale for v in (day.low, day.likely, day.high))
    cap = min(7.0, bar / 3)
    parts = [
        rect(left, y, bar, floor - y, fill="ink"),
        line(spine, low, spine, high, stroke="soft", width=2),
        line(spine - cap, low, spine + cap, low, stroke="soft", width=2),
        line(spine - cap, high, spine + cap, high, stroke="soft", width=2),
        line(spine - cap - 2, likely, spine + cap + 2, likely, stroke="ink", width=4),
        text(day.name, x + step / 2, floor + 16, size=12, anchor="middle"),
    ]
    if step >= 38:
        shown = text(day.shown, left + bar / 2, y - 5, size=11, anchor="middle")
        parts.append(shown)
    return parts
