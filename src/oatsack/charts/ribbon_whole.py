"""A long walk as one picture: the ribbon with a few pixels for each day, in parts by week or leg.

It says what the ribbon says (`ribbon`), as far as so little width allows: heights, what is eaten
on each day, the sack, the balance. Its parts are drawn by `ribbon` at full width elsewhere.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from oatsack.charts import ribbon_rows as rows
from oatsack.charts.ribbon import MARGIN, NARROW, Spot, captioned, curve_scales, moved, reach
from oatsack.charts.ribbon_axis import Strip, strips
from oatsack.charts.ribbon_data import Moment, RibbonCurve, RibbonDay, RibbonWords
from oatsack.charts.ribbon_rows import WIDE_LETTER, Scale, label, shape
from oatsack.charts.svg import element, line, picture, text, thinned

LEAST, NIGHT = 16.0, 3.0
"""Width of a day and of a night that are still drawn [px]."""
NEAR = 1.2
"""The ground leaves its course by so much at most [px]."""
HEAD, GROUND, CAPTION, EATEN, CURVE, BETWEEN = 22.0, 84.0, 17.0, 44.0, 46.0, 14.0


def draw_whole(
    days: Sequence[RibbonDay], curves: Sequence[RibbonCurve], *, parts: Sequence[int],
    words: RibbonWords, width: float = 960.0, name: str = "whole",
) -> str:  # fmt: skip
    """The picture as SVG text; `parts` are the places (from 0) of the days on which parts begin."""
    found = _strips(days, width)
    each = _tall(len(curves)) + BETWEEN
    few = [by_day(one) for one in curves]
    drawn = [
        moved(_strip(days, few, strip, parts, words, narrow=width < NARROW), MARGIN, k * each)
        for k, strip in enumerate(found)
    ]
    return picture(drawn, width=width, height=each * len(found) + MARGIN, title=words.title,
                   desc=words.desc, name=name)  # fmt: skip


def spots_whole(days: Sequence[RibbonDay], moments: Sequence[Moment], *, curves: int,
                width: float = 960.0) -> tuple[Spot, ...]:  # fmt: skip
    """The place of each moment in the drawing that `draw_whole` makes."""
    high = _tall(curves)
    step = high + BETWEEN
    return tuple(
        Spot(strip.at(moment) + MARGIN, k * step + HEAD - 6.0, k * step + high)
        for moment in moments for k, strip in enumerate(_strips(days, width))
        if strip.holds(moment)
    )  # fmt: skip


def _strips(days: Sequence[RibbonDay], width: float) -> tuple[Strip, ...]:
    return strips(days, width - 2.0 * MARGIN, least=LEAST, night=NIGHT)


def _tall(curves: int) -> float:
    return HEAD + GROUND + CAPTION + EATEN + curves * (CAPTION + CURVE)


def by_day(one: RibbonCurve) -> RibbonCurve:
    """A curve with only the first and the last moment of each day."""
    last = len(one.at) - 1
    kept = [k for k, (day, _) in enumerate(one.at)
            if k in (0, last) or one.at[k - 1][0] != day or one.at[k + 1][0] != day]  # fmt: skip

    def of(values: Sequence[float]) -> tuple[float, ...]:
        return tuple(values[k] for k in kept)

    return replace(one, at=tuple(one.at[k] for k in kept), low=of(one.low),
                   likely=of(one.likely), high=of(one.high))  # fmt: skip


def _strip(
    days: Sequence[RibbonDay], curves: Sequence[RibbonCurve], strip: Strip, parts: Sequence[int],
    words: RibbonWords, *, narrow: bool,
) -> list[str]:  # fmt: skip
    """All rows of one strip, from top to bottom."""
    base = HEAD + GROUND
    land = Scale(*reach(days), top=HEAD + 18.0, bottom=base)
    out = _heads(days, strip, parts, _tall(len(curves)))
    out += _ground(days, strip, land) + rows.summit(days, strip, land, words)
    y = base + CAPTION
    out += captioned(words.eaten_day, base)
    out += _eaten(days, strip, Scale(0.0, _most(days), top=y + 12.0, bottom=y + EATEN), words)
    y += EATEN
    for one, scale in zip(curves, curve_scales(curves, y, CAPTION, CURVE), strict=True):
        name = one.brief if narrow and one.brief else one.name
        out += captioned(name, scale.top - CAPTION)
        out += rows.curve(one, strip, scale, words)
        said = rows.told_at_the_end(one, strip, words, room=0.0)
        at = scale.top - CAPTION + 12.0
        out += [text(said, strip.right, at, size=11.5, anchor="end", bold=True)] * bool(said)
    return out


def _heads(
    days: Sequence[RibbonDay], strip: Strip, parts: Sequence[int], bottom: float
) -> list[str]:
    """A line where a part begins, and its first day's name where there is room."""
    out, end = [], -1e9
    for k, span in enumerate(strip.spans):
        if strip.first + k not in parts and k > 0:
            continue
        name = days[strip.first + k].name
        wide = len(name) * 12.0 * WIDE_LETTER + 8.0
        if strip.first + k in parts:
            out.append(line(span.left, HEAD - 6.0, span.left, bottom, stroke="faint", dash="2 3"))
        if end <= span.left and span.left + wide <= max(strip.right, wide):
            out.append(text(name, span.left, 12.0, size=12.0, bold=True))
            end = span.left + wide
    return out


def _ground(days: Sequence[RibbonDay], strip: Strip, scale: Scale) -> list[str]:
    """The land as one piece; a finer line where any of it was given as a distance and a climb."""
    points: list[tuple[float, float]] = []
    for k, span in enumerate(strip.spans):
        day = days[strip.first + k]
        points += [(span.at(clock), scale.y(height)) for clock, height in day.heights]
    points = [(0.0, points[0][1]), *thinned(points, NEAR), (strip.right, points[-1][1])]
    base = [(strip.right, scale.bottom), (0.0, scale.bottom)]
    guessed = any(days[strip.first + k].by_hand for k in range(len(strip.spans)))
    tone, width = ("soft", 0.9) if guessed else ("ink", 1.4)
    return [shape([*points, *base], fill="land", closed=True),
            shape(points, stroke=tone, width=width)]  # fmt: skip


def _eaten(days: Sequence[RibbonDay], strip: Strip, scale: Scale, words: RibbonWords) -> list[str]:
    """A bar for each day; the most and the least of the walk are told in numbers."""
    bars, told, sums = [], [], [_kcal(day) for day in days]
    for k, span in enumerate(strip.spans):
        kcal = sums[strip.first + k]
        left, right = span.left + 1.5, max(span.right - 1.5, span.left + 2.5)
        y = scale.y(kcal)
        bars.append(f"M{left:.1f} {scale.bottom:.0f}V{y:.1f}H{right:.1f}V{scale.bottom:.0f}z")
        if strip.first + k in (sums.index(max(sums)), sums.index(min(sums))):
            told.append((left, y, words.kcal(kcal)))
    path = element("path", d="".join(bars), fill=rows.TONES["soft"], class_="f-soft")
    return [path] + [
        label(said, min(max(x, 14.0), strip.right - 14.0), y - 3.0, size=10.5, anchor="middle")
        for x, y, said in told
    ]


def _kcal(day: RibbonDay) -> float:
    return day.move_kcal + sum(meal.kcal for meal in day.meals)


def _most(days: Sequence[RibbonDay]) -> float:
    return max(1.0, *(_kcal(day) for day in days))
