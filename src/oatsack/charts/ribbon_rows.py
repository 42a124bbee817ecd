"""The rows of a ribbon's strip: heights, names, water, what is eaten, and curves.

Each function gives elements and knows only its own row. Second cues beside colour: nights
bear a moon, unsure water is an empty drop, assumed slopes are dashed, drinks are thin bars.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape
from itertools import pairwise

from oatsack.charts.apart import side_by_side
from oatsack.charts.ribbon_axis import Span, Strip
from oatsack.charts.ribbon_data import RibbonCurve, RibbonDay, RibbonWords
from oatsack.charts.svg import FILLS, element, line, rect, text, thinned

TONES = FILLS | {"land": "#d9d3bd", "night": "#e9ebf0", "water": "#2d6a86", "mark": "#8a4b0f"}
BAR = 8.0
"""Width of a meal's bar [px]."""
THIN = 2.5
"""No bar is drawn thinner [px]."""
NUMBER = 70.0
"""Room of a number with its unit [px]."""
WIDE_LETTER = 0.56
"""Width of a letter as a share of its size, to keep labels apart."""
WIDE_DIGIT = 0.65
"""The same of a digit; they are all equally wide."""


def shape(points: Iterable[tuple[float, float]], *, fill: str | None = None,
          stroke: str | None = None, width: float = 1.6, dash: str | None = None,
          closed: bool = False, thin: bool = False) -> str:  # fmt: skip
    """A line through points, or the area inside them; points that nobody could see are left out,
    unless they are `thin` already."""
    drawn = points if thin else thinned(points)
    path = " ".join([f"{x:.1f},{y:.1f}" for x, y in drawn]).replace(".0,", ",").replace(".0 ", " ")
    path = path.removesuffix(".0")
    return element(
        "polygon" if closed else "polyline", points=path,
        fill=TONES[fill] if fill else "none", stroke=TONES[stroke] if stroke else None,
        stroke_width=width if stroke else None, stroke_dasharray=dash,
        stroke_linejoin="round", stroke_linecap="round",
        class_=" ".join([f"f-{fill}"] * bool(fill) + [f"s-{stroke}"] * bool(stroke)),
    )  # fmt: skip


def label(words: str, x: float, y: float, *, size: float = 12.0, anchor: str = "start",
          tone: str = "ink", bold: bool = False) -> str:  # fmt: skip
    """A text on a halo of paper, readable over lines."""
    halo = element(
        "text", escape(words), x=x, y=y, font_size=size, text_anchor=anchor, fill="none",
        stroke=TONES["paper"], stroke_width=3.5, stroke_linejoin="round", class_="s-paper",
        font_weight="bold" if bold else None, aria_hidden="true",
    )  # fmt: skip
    return halo + text(words, x, y, size=size, anchor=anchor, tone=tone, bold=bold)


def nights(days: Sequence[RibbonDay], strip: Strip, top: float, bottom: float) -> list[str]:
    """A dim band for every night, with a moon; the half at a strip's edge is drawn too."""
    parts = []
    for k, span in enumerate(strip.spans):
        place = strip.first + k
        if place > 0:
            parts.append(_band(span.left, span.set_out, top, bottom))
        if days[place].night:
            parts.append(_band(span.arrived, span.right, top, bottom))
            across = span.right if k + 1 < len(strip.spans) else span.right - 8.0
            parts.append(_moon(across - 4.0, top + 10.0))
    return parts


def _band(left: float, right: float, top: float, bottom: float) -> str:
    return element(
        "rect", x=left, y=top, width=max(0.0, right - left), height=bottom - top,
        fill=TONES["night"], class_="f-night",
    )  # fmt: skip


def _moon(x: float, y: float) -> str:
    return element(
        "path", d=f"M{x:.1f} {y - 6:.1f}a6 6 0 1 0 5.2 8.6a5 5 0 0 1 -5.2 -8.6z",
        fill=TONES["soft"], class_="f-soft",
    )  # fmt: skip


def heads(days: Sequence[RibbonDay], strip: Strip, top: float) -> list[str]:
    """Each day's name and its short lines above its walking."""
    parts = []
    for k, span in enumerate(strip.spans):
        day = days[strip.first + k]
        parts.append(text(day.name, span.set_out, top + 12.0, size=13.0, bold=True))
        parts += [
            text(words, span.set_out, top + 27.0 + 14.0 * row, size=11.5, tone="soft")
            for row, words in enumerate(day.lines)
        ]
    return parts


class Scale:
    """A number to a height on the paper."""

    def __init__(self, low: float, high: float, *, top: float, bottom: float) -> None:
        self.low, self.high, self.top, self.bottom = low, max(high, low + 1e-9), top, bottom

    def y(self, value: float) -> float:
        """Where the value lies [px]."""
        share = (value - self.low) / (self.high - self.low)
        return self.bottom - share * (self.bottom - self.top)


def ground(days: Sequence[RibbonDay], strip: Strip, scale: Scale, words: RibbonWords) -> list[str]:
    """The land under the walk, one piece over days and nights, with its highest point."""
    line_: list[tuple[float, float]] = []
    parts: list[str] = []
    outlines: list[str] = []
    for k, span in enumerate(strip.spans):
        day = days[strip.first + k]
        drawn = [(span.at(clock), scale.y(height)) for clock, height in day.heights]
        begun = line_[-1][1] if line_ else drawn[0][1]
        drawn = thinned([(span.left, begun), *drawn, (span.right, drawn[-1][1])])
        line_ += drawn
        dash = "5 3" if day.by_hand else None
        outlines.append(shape(drawn, stroke="ink", dash=dash, thin=True))
    base = [(line_[-1][0], scale.bottom), (line_[0][0], scale.bottom)]
    parts.append(shape([*line_, *base], fill="land", closed=True, thin=True))
    parts += outlines
    return parts + summit(days, strip, scale, words)


def summit(days: Sequence[RibbonDay], strip: Strip, scale: Scale, words: RibbonWords) -> list[str]:
    """The height of the highest ground, but of a camp, whose height stands below it."""
    height, place, clock = max((h, k, c) for k, day in enumerate(days) for c, h in day.heights)
    camps_ = [day.heights[-1][1] for day in days if day.night]
    if not strip.holds((place, clock)) or height in camps_:
        return []
    x = strip.at((place, clock))
    return [label(words.height(height), x, scale.y(height) - 6.0, size=11.5, anchor="middle")]


def camps(days: Sequence[RibbonDay], strip: Strip, scale: Scale, words: RibbonWords) -> list[str]:
    """A tent at each night's height, the camp's name and height below the ground."""
    parts = []
    for k, span in enumerate(strip.spans):
        day = days[strip.first + k]
        if not day.night:
            continue
        x, height = (span.arrived + span.right) / 2.0, day.heights[-1][1]
        y = scale.y(height)
        parts.append(shape([(x - 8, y), (x, y - 13), (x + 8, y)], fill="paper", stroke="ink",
                           width=1.4, closed=True))  # fmt: skip
        parts.append(shape([(x, y - 13), (x + 2.5, y)], stroke="ink", width=1.2))
        said = [day.camp] if day.camp else []
        said += [words.height(height) + (f", {words.dry}" if day.dry else "")]
        at = min(span.right, strip.right) - 2.0
        parts += [
            label(one, at, scale.bottom + 13.0 + 13.0 * row, size=11.5, anchor="end",
                  tone="ink" if row == 0 and day.camp else "soft")
            for row, one in enumerate(said)
        ]  # fmt: skip
    return parts


def water(days: Sequence[RibbonDay], strip: Strip, scale: Scale, top: float) -> list[str]:
    """A drop on the line at each place with water, its name below on the first row with room."""
    parts: list[str] = []
    ends = [-1e9, -1e9]
    for k, span in enumerate(strip.spans):
        day = days[strip.first + k]
        for place in day.water:
            x = span.at(place.clock_min)
            y = _height_at(day, span, x, scale)
            drop = _drop(x, y, sure=place.sure)
            parts.append(element("g", element("title", escape(place.name)) + drop))
            wide = len(place.name) * 11.0 * WIDE_LETTER + 8.0
            left = min(x - 3.0, strip.right - wide)
            row = next((r for r, end in enumerate(ends) if end <= left), None)
            if row is not None:
                ends[row] = left + wide
                level = top + 10.0 + 13.0 * row
                parts.append(line(x, y, x, level - 9.0, stroke="faint", dash="1.5 2.5"))
                parts.append(label(place.name, left, level, size=11.0, tone="soft"))
    return parts


def _height_at(day: RibbonDay, span: Span, x: float, scale: Scale) -> float:
    """The ground at a place of the day, between its two nearest joints."""
    points = [(span.at(clock), height) for clock, height in day.heights]
    for (x0, h0), (x1, h1) in pairwise(points):
        if x0 <= x <= x1:
            share = (x - x0) / (x1 - x0) if x1 > x0 else 0.0
            return scale.y(h0 + share * (h1 - h0))
    return scale.y(points[0][1] if x < points[0][0] else points[-1][1])


def _drop(x: float, y: float, *, sure: bool) -> str:
    return element(
        "path",
        d=f"M{x:.1f} {y - 9:.1f}c2.6 3.6 4.2 5.6 4.2 7.6a4.2 4.2 0 0 1-8.4 0c0-2 1.6-4 4.2-7.6z",
        fill=TONES["water"] if sure else TONES["paper"], stroke=TONES["water"], stroke_width=1.3,
        class_=("f-water" if sure else "f-paper") + " s-water",
    )  # fmt: skip


def eaten(days: Sequence[RibbonDay], strip: Strip, scale: Scale, words: RibbonWords) -> list[str]:
    """A bar for each meal at its clock; what is eaten on the move lies along the walking.

    Equal areas are equal energy, so the long flat bar and the short tall ones compare; a flat bar
    too thin to be seen is drawn thicker.
    """
    parts = [line(0.0, scale.bottom, strip.right, scale.bottom, stroke="faint")]
    told: list[tuple[float, float, str]] = []
    for k, span in enumerate(strip.spans):
        day = days[strip.first + k]
        if day.move_kcal > 0:
            parts += _on_the_move(day, span, scale, words)
        for meal in sorted(day.meals, key=lambda one: one.clock_min):
            beside, wide = (BAR * 0.8, 3.0) if meal.kind == "drinks" else (0.0, BAR)
            x = min(max(span.at(meal.clock_min), BAR / 2) + beside, strip.right - BAR / 2)
            y = scale.y(meal.kcal)
            tip = element("title", escape(f"{meal.name}: {words.kcal(meal.kcal)} kcal"))
            fill = "soft" if meal.kind == "drinks" else "ink"
            bar = rect(x - wide / 2, y, wide, scale.bottom - y, fill=fill)
            parts.append(element("g", tip + bar))
            if meal.kind != "drinks":
                told.append((x, y - 4.0, words.kcal(meal.kcal)))
    return parts + _numbers(told, strip)


def _numbers(told: Sequence[tuple[float, float, str]], strip: Strip) -> list[str]:
    """Numbers over bars, moved apart where two would touch, and over any taller bar they meet."""
    parts: list[str] = []
    widths = [len(words) * 10.5 * WIDE_DIGIT + 4.0 for _, _, words in told]
    for row in side_by_side([x for x, _, _ in told], widths, strip.right):
        mine = told[row.first : row.first + len(row.widths)]
        for left, wide, (_, y, words) in zip(
            row.lefts(strip.right), row.widths, mine, strict=True
        ):
            half = (wide + BAR) / 2.0
            over = min([y, *(top for x, top, _ in told if abs(x - left - wide / 2.0) < half)])
            parts.append(label(words, left + wide / 2.0, over, size=10.5, anchor="middle"))
    return parts


def _on_the_move(day: RibbonDay, span: Span, scale: Scale, words: RibbonWords) -> list[str]:
    left, right = (span.set_out, span.arrived) if day.walks else (span.left, span.right)
    full = scale.bottom - scale.y(day.move_kcal)
    height = max(THIN, full * BAR / max(BAR, right - left))
    tip = element("title", escape(f"{day.move_name}: {words.kcal(day.move_kcal)} kcal"))
    bar = rect(left, scale.bottom - height, right - left, height, fill="soft")
    shown = text(words.kcal(day.move_kcal), left + 3.0, scale.bottom - height - 4.0, size=10.5,
                 tone="soft")  # fmt: skip
    return [element("g", tip + bar), shown]


def curve(one: RibbonCurve, strip: Strip, scale: Scale, words: RibbonWords) -> list[str]:
    """A number over the strip: its range as an area, its likely value as a line."""
    rows = [k for k, moment in enumerate(one.at) if strip.holds(moment)]
    if not rows:
        return []
    xs = [strip.at(one.at[k]) for k in rows]
    xs[0], xs[-1] = (xs[0] if rows[0] == 0 else 0.0), strip.right

    def along(values: Sequence[float]) -> list[tuple[float, float]]:
        return [(x, scale.y(values[k])) for x, k in zip(xs, rows, strict=True)]

    drawn = thinned(along(one.likely))
    parts = (
        _filled_sack(drawn, scale)
        if one.kind == "sack"
        else _filled_range(along(one.low), along(one.high), strip, scale)
    )
    tone = "ink" if one.kind == "sack" else "mark"
    parts.append(shape(drawn, stroke=tone, width=2.0, thin=True))
    if one.kind == "sack":
        parts += _sack_ends(one, rows, drawn, scale, words)
    return parts


def _filled_sack(drawn: Sequence[tuple[float, float]], scale: Scale) -> list[str]:
    base = [(drawn[-1][0], scale.bottom), (drawn[0][0], scale.bottom)]
    return [shape([*drawn, *base], fill="land", closed=True, thin=True)]


def _filled_range(
    low: Sequence[tuple[float, float]], high: Sequence[tuple[float, float]], strip: Strip,
    scale: Scale,
) -> list[str]:  # fmt: skip
    """The range between two thin edges, over a dotted line at nothing."""
    zero = scale.y(0.0)
    return [
        shape([*thinned(high), *reversed(thinned(low))], fill="pale", stroke="faint", width=0.8,
              closed=True, thin=True),
        line(0.0, zero, strip.right, zero, stroke="soft", dash="2 3"),
    ]


def _sack_ends(
    one: RibbonCurve, rows: Sequence[int], drawn: Sequence[tuple[float, float]], scale: Scale,
    words: RibbonWords,
) -> list[str]:  # fmt: skip
    """What is carried at the strip's start and end, written inside the area where it fits."""
    (left, first), (right, last) = drawn[0], drawn[-1]
    parts = [text(words.mass(one.likely[rows[-1]]), right - 3.0, _inside(last, scale), size=11.0,
                  anchor="end", bold=True)]  # fmt: skip
    if right - left > 2.0 * NUMBER:
        said = words.mass(one.likely[rows[0]])
        parts.append(text(said, left + 3.0, _inside(first, scale), size=11.0, bold=True))
    return parts


def _inside(y: float, scale: Scale) -> float:
    """A baseline below a line where there is room, else above it."""
    return y + 14.0 if y + 18.0 < scale.bottom else y - 5.0


def told_at_the_end(one: RibbonCurve, strip: Strip, words: RibbonWords, *, room: float) -> str:
    """Where a balance stands at the strip's end; on the last, where there is room, its range."""
    if one.kind == "sack":
        return ""
    last = max((k for k, moment in enumerate(one.at) if strip.holds(moment)), default=None)
    if last is None:
        return ""
    said = words.signed(one.likely[last])
    if last == len(one.at) - 1 and room > 600.0:
        said += f", {words.between(one.low[last], one.high[last])}"
    return said
