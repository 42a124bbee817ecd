"""The ribbon: a whole walk from left to right in walking time, day after day, nights between.

Under one axis: the height of the ground, water, what is eaten, what is in the sack, and the running
balance of energy with its range. On a narrow page the ribbon is folded into strips, drawn for that
width and not made small. It is drawn here once for screen, paper and phone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from oatsack.charts import ribbon_rows as rows
from oatsack.charts.ribbon_axis import Strip, strips
from oatsack.charts.ribbon_data import Moment, RibbonCurve, RibbonDay, RibbonWords
from oatsack.charts.ribbon_rows import Scale
from oatsack.charts.svg import picture, rect, text

Theme = Literal["page", "paper"]
"""page: what lies behind shows through, and the page has the heading; paper: a white ground and a
heading of its own, for a file."""
NARROW = 480.0
MARGIN = 12.0
TITLE = 46.0


@dataclass(frozen=True, slots=True)
class Heights:
    """How tall each row is [px]."""

    head: float = 56.0
    ground: float = 124.0
    names: float = 58.0
    caption: float = 17.0
    eaten: float = 60.0
    curve: float = 56.0
    between: float = 14.0

    def strip(self, curves: int) -> float:
        """One strip with so many curves."""
        below = self.caption + self.eaten + curves * (self.caption + self.curve)
        return self.head + self.ground + self.names + below


WIDE, PHONE = Heights(), Heights(ground=100.0, eaten=52.0, curve=46.0)


def draw(days: Sequence[RibbonDay], curves: Sequence[RibbonCurve], *, words: RibbonWords,
         width: float = 960.0, theme: Theme = "page", name: str = "ribbon",
         only: range | None = None) -> str:  # fmt: skip
    """The picture as SVG text, for so wide a place; `only` some days, by their places from 0.

    Raises ValueError where there is no day.
    """
    if not days:
        raise ValueError("a ribbon needs at least one day")
    tall = PHONE if width < NARROW else WIDE
    begin = TITLE if theme == "paper" else 0.0
    found = strips(days, width - 2.0 * MARGIN, only=only)
    each = tall.strip(len(curves)) + tall.between
    height = begin + each * len(found) + MARGIN
    parts = _headed(words, width, height) if theme == "paper" else []
    for k, strip in enumerate(found):
        inner = _strip(days, curves, strip, tall, words, width - 2.0 * MARGIN)
        parts.append(moved(inner, MARGIN, begin + k * each))
    return picture(parts, width=width, height=height, title=words.title, desc=words.desc, name=name)


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a moment lies in a page's drawing: across, and from where to where down [px]."""

    x: float
    top: float
    bottom: float


def spots(days: Sequence[RibbonDay], moments: Sequence[Moment], *, curves: int,
          width: float = 960.0, only: range | None = None) -> tuple[Spot, ...]:  # fmt: skip
    """The place of each moment in the drawing that `draw` makes for a page of this width."""
    tall = PHONE if width < NARROW else WIDE
    found = strips(days, width - 2.0 * MARGIN, only=only)
    step, high = tall.strip(curves) + tall.between, tall.strip(curves)
    return tuple(
        Spot(strip.at(moment) + MARGIN, k * step + tall.head - 10.0, k * step + high)
        for moment in moments for k, strip in enumerate(found) if strip.holds(moment)
    )  # fmt: skip


def _headed(words: RibbonWords, width: float, height: float) -> list[str]:
    """A white ground, and the walk's name and dates above the drawing."""
    return [
        rect(0.0, 0.0, width, height, fill="paper"),
        text(words.title, MARGIN, 22.0, size=18.0, bold=True),
        text(words.sub, MARGIN, 39.0, size=12.0, tone="soft"),
    ]


def moved(parts: Sequence[str], x: float, y: float) -> str:
    """Elements moved to a place [px]."""
    return f'<g transform="translate({x:g} {y:g})">{"".join(parts)}</g>'


def _strip(
    days: Sequence[RibbonDay], curves: Sequence[RibbonCurve], strip: Strip, tall: Heights,
    words: RibbonWords, room: float,
) -> list[str]:  # fmt: skip
    """All rows of one strip, from top to bottom."""
    top = tall.head
    base = top + tall.ground
    land = Scale(*reach(days), top=top + 24.0, bottom=base)
    parts = rows.nights(days, strip, top - 10.0, tall.strip(len(curves)))
    parts += rows.heads(days, strip, 0.0)
    parts += rows.ground(days, strip, land, words)
    parts += rows.water(days, strip, land, base + 28.0)
    parts += rows.camps(days, strip, land, words)
    y = base + tall.names
    parts += captioned((words.eaten_brief if room < NARROW else "") or words.eaten, y)
    y += tall.caption
    food = Scale(0.0, _most_eaten(days), top=y + 12.0, bottom=y + tall.eaten)
    parts += rows.eaten(days, strip, food, words)
    y += tall.eaten
    for one, scale in zip(curves, curve_scales(curves, y, tall.caption, tall.curve), strict=True):
        line = scale.top - tall.caption
        name = (one.brief if room < NARROW else "") or one.name
        told = rows.told_at_the_end(one, strip, words, room=room)
        wide = (len(name) + len(told)) * 11.5 * rows.WIDE_LETTER
        end = min(room, max(strip.right, wide))
        parts += captioned(name, line)
        parts += [text(told, end, line + 12.0, size=11.5, anchor="end", bold=True)] * bool(told)
        parts += rows.curve(one, strip, scale, words)
    return parts


def captioned(words: str, y: float) -> list[str]:
    """What a row is, above it."""
    return [text(words, 0.0, y + 12.0, size=11.5, tone="soft")]


def curve_scales(
    curves: Sequence[RibbonCurve], y: float, caption: float, tall: float
) -> list[Scale]:
    """A place for each curve; curves of one kind share their scale, so that they compare."""
    out = []
    for k, one in enumerate(curves):
        alike = [c for c in curves if c.kind == one.kind]
        low = min(0.0, *(min(c.low) for c in alike))
        high = max(0.0, *(max(c.high) for c in alike))
        top = y + k * (caption + tall) + caption
        out.append(Scale(low, high, top=top, bottom=top + tall))
    return out


def reach(days: Sequence[RibbonDay]) -> tuple[float, float]:
    """Lowest and highest ground shown; at least 300 m, so that flat land looks flat."""
    heights = [height for day in days for _, height in day.heights]
    low, high = min(heights), max(heights)
    span = max(300.0, high - low)
    return low - 0.12 * span, max(high, low + span)


def _most_eaten(days: Sequence[RibbonDay]) -> float:
    return max([1.0, *(meal.kcal for day in days for meal in day.meals)])
