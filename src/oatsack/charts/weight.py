"""What is in the sack at each waking: bars that get shorter, wrappers at their feet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oatsack.charts.svg import line, picture, rect, text

LEFT, RIGHT, TOP, BOTTOM, HEIGHT = 8.0, 8.0, 26.0, 26.0, 190.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SackDay:
    """One day: its name, grams in the sack, of which wrappers, and the mass as text."""

    name: str
    grams: float
    wrappers: float
    shown: str


def draw(days: Sequence[SackDay], *, words: Sequence[str], width: float = 640.0,
         name: str = "weight") -> str:  # fmt: skip
    """The picture. `words`: title, description, name of the wrappers."""
    most = max((d.grams for d in days), default=1.0) or 1.0
    floor = HEIGHT - BOTTOM
    scale = (floor - TOP) / most
    step = (width - LEFT - RIGHT) / max(1, len(days))
    parts = [line(LEFT, floor, width - RIGHT, floor)]
    for i, day in enumerate(days):
        parts += _day(day, LEFT + i * step, step, floor, scale)
    parts.append(rect(width - RIGHT - 9, 4, 9, 9, fill="ink"))
    parts.append(text(words[2], width - RIGHT - 14, 12, size=11, anchor="end", tone="soft"))
    return picture(parts, width=width, height=HEIGHT, title=words[0], desc=words[1], name=name)


def _day(day: SackDay, x: float, step: float, floor: float, scale: float) -> list[str]:
    bar = min(64.0, step * 0.62)
    left = x + (step - bar) / 2
    high, wrap = day.grams * scale, day.wrappers * scale
    return [
        rect(left, floor - high, bar, high - wrap, fill="faint"),
        rect(left, floor - wrap, bar, wrap, fill="ink"),
        text(day.shown, x + step / 2, floor - high - 5, size=12, anchor="middle"),
        text(day.name, x + step / 2, floor + 17, size=12, anchor="middle"),
    ]
