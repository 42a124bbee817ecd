"""Energy by meal: one bar per day from left to right, its meals told apart by grey and by name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from oatsack.charts.svg import picture, rect, text

LEFT, RIGHT, TOP, ROW, BAR = 62.0, 66.0, 34.0, 34.0, 24.0
TONES = ("pale", "faint", "soft", "ink", "paper")
ON = {"pale": "ink", "faint": "ink", "soft": "paper", "ink": "paper", "paper": "ink"}
SIGN_WIDTH = 6.2
"""Mean width of a sign at 11 px, by which a name is left out where it does not fit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MealDay:
    """One day: its name, energy by meal [kcal] in order, and the sum as text."""

    name: str
    parts: tuple[tuple[str, float], ...]
    total: str


def draw(days: Sequence[MealDay], *, words: Sequence[str], width: float = 640.0,
         name: str = "meals") -> str:  # fmt: skip
    """The picture. `words`: title, description, then the names of the meals in order."""
    names = words[2:]
    tone = {meal: TONES[i % len(TONES)] for i, meal in enumerate(names)}
    most = max((sum(k for _, k in d.parts) for d in days), default=1.0) or 1.0
    scale = (width - LEFT - RIGHT) / most
    parts = _legend(names, tone, width)
    lines = 1 if width >= 480 else 2
    top = TOP + (lines - 1) * 18
    for i, day in enumerate(days):
        parts += _bar(day, top + i * ROW, scale, tone)
    height = top + ROW * len(days) + 4
    return picture(parts, width=width, height=height, title=words[0], desc=words[1], name=name)


def _legend(names: Sequence[str], tone: dict[str, str], width: float) -> list[str]:
    parts, x, y = [], 2.0, 14.0
    for meal in names:
        room = 22 + SIGN_WIDTH * 1.15 * len(meal) + 12
        if x + room > width and x > 2:
            x, y = 2.0, y + 18
        parts.append(rect(x, y - 10, 14, 12, fill=tone[meal], stroke="ink"))
        parts.append(text(meal, x + 19, y, size=12))
        x += room
    return parts


def _bar(day: MealDay, y: float, scale: float, tone: dict[str, str]) -> list[str]:
    parts, x = [text(day.name, 2, y + 17, size=12)], LEFT
    for meal, kcal in day.parts:
        wide = kcal * scale
        parts.append(rect(x, y, wide, BAR, fill=tone[meal], stroke="ink"))
        if wide > SIGN_WIDTH * len(meal) + 8:
            label = text(meal, x + wide / 2, y + 16, size=11, anchor="middle", tone=ON[tone[meal]])
            parts.append(label)
        x += wide
    parts.append(text(day.total, x + 6, y + 17, size=12))
    return parts
