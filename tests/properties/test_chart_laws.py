"""Laws of the drawings: nothing leaves the paper, and what is read off a line is the number."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import accumulate, pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.charts import meals, need, weight
from oatsack.charts.meals import MealDay
from oatsack.charts.need import NeedDay
from oatsack.charts.ribbon import MARGIN, curve_scales, draw, spots
from oatsack.charts.ribbon_axis import strips
from oatsack.charts.ribbon_data import (
    Moment,
    RibbonCurve,
    RibbonDay,
    RibbonMeal,
    RibbonWater,
    RibbonWords,
)
from oatsack.charts.ribbon_rows import Scale
from oatsack.charts.ribbon_whole import by_day, draw_whole, spots_whole
from oatsack.charts.svg import thinned
from oatsack.charts.tradeoff import Dot, TradeoffWords, tradeoff
from oatsack.charts.weight import SackDay
from oatsack.reports.pictures import meals_picture, need_picture, weight_picture
from oatsack.reports.ribbon import places, ribbon_picture, ribbon_svg
from oatsack.reports.ribbon_reading import readings
from oatsack.reports.telling import telling
from support.amount import examples
from support.drawn import Mark, heights_at, marks, outside, reaches, size_of
from support.sample_plan import sample_plan

FEW = settings(max_examples=examples(24, 5))
DEAR = settings(max_examples=examples(12, 3))
KCAL = st.floats(0.0, 2500.0)
WIDTHS = st.sampled_from([320.0, 350.0, 480.0, 832.0, 960.0])
WORDS = RibbonWords(
    title="Walk", sub="some days", desc="what it shows", eaten="eaten", dry="no water",
    height=lambda m: f"{m:.0f} m", kcal=lambda k: f"{k:.0f}", signed=lambda k: f"{k:+.0f} kcal",
    between=lambda low, high: f"{low:.0f} to {high:.0f}", mass=lambda kg: f"{kg:.1f} kg",
)  # fmt: skip


@st.composite
def ribbon_days(draw: st.DrawFn, most: int = 9) -> list[RibbonDay]:
    """Days of none to four stretches with pauses between, over land high and low."""
    out = []
    for k in range(count := draw(st.integers(1, most))):
        clock, walks = 400.0 + draw(st.floats(0.0, 200.0)), []
        for _ in range(draw(st.integers(0, 4))):
            long = draw(st.floats(5.0, 180.0))
            walks.append((clock, clock + long))
            clock += long + draw(st.floats(0.0, 60.0))
        joints = sorted({c for walk in walks for c in walk}) or [400.0, 900.0]
        heights = tuple((c, draw(st.floats(-50.0, 4500.0))) for c in joints)
        last = k == count - 1
        dishes = tuple(
            RibbonMeal(clock_min=at, kcal=draw(KCAL), kind=kind, name=kind)
            for at, kind in ((420.0, "breakfast"), (1110.0, "dinner"), (1140.0, "drinks"))
            if draw(st.booleans())
        )
        out.append(RibbonDay(
            name=f"Day {k + 1}", lines=("12 km",), tip="", start_min=390.0,
            end_min=max(clock, 1000.0) if last else 1830.0, walks=tuple(walks), heights=heights,
            night=not last, camp="" if last else "Fold", meals=dishes, move_kcal=draw(KCAL),
            move_name="on the move", dry=draw(st.booleans()), by_hand=draw(st.booleans()),
            water=tuple(RibbonWater(name="Brook", clock_min=draw(st.floats(400.0, 1400.0)),
                                    sure=draw(st.booleans()))
                        for _ in range(draw(st.integers(0, 3)))),
        ))  # fmt: skip
    return out


@st.composite
def walks(draw: st.DrawFn, most: int = 9) -> tuple[list[RibbonDay], list[RibbonCurve]]:
    """Days with a sack that gets lighter and a balance that wanders, hour by hour."""
    days = draw(ribbon_days(most))
    at: list[Moment] = [
        (k, clock)
        for k, day in enumerate(days)
        for clock in (day.start_min, *(m for m in (600.0, 900.0, 1300.0) if m < day.end_min),
                      day.end_min)
    ]  # fmt: skip
    steps = draw(st.lists(st.floats(0.0, 0.5), min_size=len(at), max_size=len(at)))
    falling = tuple(x - min(accumulate([0.0, *steps], lambda a, b: a - b)) for x in
                    accumulate(steps, lambda a, b: a - b))  # fmt: skip
    moves = draw(st.lists(st.floats(-400.0, 400.0), min_size=len(at), max_size=len(at)))
    likely = tuple(accumulate(moves))
    width = tuple(10.0 * k for k in range(len(at)))
    return days, [
        RibbonCurve(name="carried", at=tuple(at), low=falling, likely=falling, high=falling,
                    kind="sack"),
        RibbonCurve(name="balance", at=tuple(at), likely=likely, kind="balance",
                    low=tuple(v - w for v, w in zip(likely, width, strict=True)),
                    high=tuple(v + w for v, w in zip(likely, width, strict=True))),
    ]  # fmt: skip


def lines_of(svg: str, mark: str) -> list[Mark]:
    """The lines that bear a class, strip by strip."""
    return [m for m in marks(svg) if m.kind == "polyline" and mark in m.classes]


# ── nothing leaves the paper ───────────────────────────────────────────────────────────────────


@DEAR
@given(walks(), WIDTHS, st.sampled_from(["page", "paper"]))
def test_no_mark_of_a_ribbon_lies_beyond_its_paper(walk, width: float, theme: Any) -> None:
    days, curves = walk
    svg = draw(days, curves, words=WORDS, width=width, theme=theme)
    assert size_of(svg)[0] == width
    assert outside(svg) == []


@DEAR
@given(walks(most=20), WIDTHS)
def test_no_mark_of_a_whole_walk_lies_beyond_its_paper(walk, width: float) -> None:
    days, curves = walk
    svg = draw_whole(days, curves, parts=range(0, len(days), 7), words=WORDS, width=width)
    assert size_of(svg)[0] == width
    assert outside(svg) == []


@FEW
@given(st.lists(st.tuples(KCAL, KCAL, KCAL, KCAL), max_size=16), st.sampled_from([340.0, 640.0]))
def test_bars_and_ranges_stay_on_their_paper_and_on_their_scale(rows, width: float) -> None:
    """A value twice as large is drawn twice as tall, in each of the three bar drawings."""
    ranges = [sorted(row[:3]) for row in rows]
    days = [
        NeedDay(name="Thu", low=low, likely=likely, high=high, eaten=min(row[3], high), shown="1")
        for (low, likely, high), row in zip(ranges, rows, strict=True)
    ]
    dishes = [
        MealDay(name="Thu", parts=tuple(zip("abcd", row, strict=True)), total="1") for row in rows
    ]
    sacks = [
        SackDay(name="Thu", grams=high, wrappers=low, shown="1 kg") for low, _, high in ranges
    ]
    drawn = {
        "need": need.draw(days, words=("T", "D", "eats", "uses", "kcal"), width=width),
        "meals": meals.draw(dishes, words=("T", "D", *"abcd"), width=width),
        "weight": weight.draw(sacks, words=("T", "D", "wrappers"), width=width),
    }
    assert {name: outside(svg) for name, svg in drawn.items()} == {key: [] for key in drawn}
    food = [m for m in marks(drawn["weight"]) if m.kind == "rect"][:-1]
    tall = [sum(b[1][1] - b[0][1] for b in (m.points for m in pair))
            for pair in zip(food[::2], food[1::2], strict=True)]  # fmt: skip
    most = max((s.grams for s in sacks), default=0.0)
    for height, sack in zip(tall, sacks, strict=True):
        assert height == pytest.approx(138.0 * sack.grams / (most or 1.0), abs=0.21)


@FEW
@given(st.lists(st.tuples(st.floats(500, 2e4), st.floats(1, 400), st.floats(1, 5)), min_size=1,
                max_size=12), st.sampled_from([350.0, 832.0]))  # fmt: skip
def test_menus_stay_on_their_paper_and_no_two_names_touch(rows, width: float) -> None:
    words = TradeoffWords(title="M", desc="D", across="mass", up="price",
                          mass=lambda g: f"{g:.0f} g", money=lambda v: f"{v:.2f}")  # fmt: skip
    dots = [
        Dot(name=f"menu {k}", mass_g=m, price=p, liking=li, own=k == 0)
        for k, (m, p, li) in enumerate(rows)
    ]
    svg = tradeoff(dots, words=words, width=width)
    assert outside(svg) == []
    names = [m for m in marks(svg) if m.kind == "text" and m.words.startswith("menu ")]
    seen = {m.words: m for m in names}
    for one, two in pairwise(sorted(seen.values(), key=lambda m: m.points[0])):
        apart = abs(one.points[0][1] - two.points[0][1]) >= 11.0
        assert apart or reaches(one)[1] <= reaches(two)[0] + 0.5
    circles = sorted((m for m in marks(svg) if m.kind == "circle"), key=lambda m: m.points[0][0])
    assert len(circles) == len(dots)


# ── what is read off a line is the number ──────────────────────────────────────────────────────


@DEAR
@given(walks(), st.sampled_from([350.0, 960.0]))
def test_a_curve_read_off_at_any_of_its_moments_is_the_number_of_that_moment(
    walk, width: float
) -> None:
    """Within the half pixel that thinning and rounding may take."""
    days, curves = walk
    svg = draw(days, curves, words=WORDS, width=width)
    found = strips(days, width - 2.0 * MARGIN)
    lines = lines_of(svg, "s-mark")
    assert len(lines) == len(found), "a balance on every strip"
    balance = curves[1]
    low, high = min(0.0, *balance.low), max(0.0, *balance.high)
    unit = 56.0 if width >= 480 else 46.0
    for strip, line in zip(found, lines, strict=True):
        rows = [k for k, moment in enumerate(balance.at) if strip.holds(moment)]
        zero = None
        for k in rows[:-1]:
            x = strip.at(balance.at[k]) + MARGIN
            if k == rows[0] and k > 0:
                continue  # the strip begins where the last one ended
            above = (balance.likely[k] - low) / max(high - low, 1e-9) * unit
            top, foot = heights_at(line.points, x)
            zero = top + above if zero is None else zero
            assert top - 0.6 <= zero - above <= foot + 0.6


@DEAR
@given(walks(), WIDTHS)
def test_moments_lie_on_the_paper_in_the_order_of_time(walk, width: float) -> None:
    days, curves = walk
    moments = sorted(curves[0].at)
    wide, tall = size_of(draw(days, curves, words=WORDS, width=width))
    found = spots(days, moments, curves=len(curves), width=width)
    assert len(found) == len(moments)
    assert [(s.top, s.x) for s in found] == sorted((s.top, s.x) for s in found)
    assert all(0.0 <= s.x <= wide and 0.0 <= s.top < s.bottom <= tall for s in found)


@DEAR
@given(walks(most=20), WIDTHS)
def test_moments_of_a_whole_walk_lie_on_it_in_the_order_of_time(walk, width: float) -> None:
    days, curves = walk
    moments = sorted(curves[1].at)
    svg = draw_whole(days, curves, parts=[0], words=WORDS, width=width)
    wide, tall = size_of(svg)
    found = spots_whole(days, moments, curves=len(curves), width=width)
    assert len(found) == len(moments)
    assert [(s.top, s.x) for s in found] == sorted((s.top, s.x) for s in found)
    assert all(0.0 <= s.x <= wide and s.top < s.bottom <= tall for s in found)


@FEW
@given(walks(most=4))
def test_a_curve_by_the_day_keeps_its_ends_and_adds_nothing(walk) -> None:
    _, curves = walk
    for one in curves:
        few = by_day(one)
        points = list(zip(one.at, one.low, one.likely, one.high, strict=True))
        kept = list(zip(few.at, few.low, few.likely, few.high, strict=True))
        assert kept == [p for p in points if p in kept]
        assert (kept[0], kept[-1]) == (points[0], points[-1])
        by = {day: [p for p in points if p[0][0] == day] for day, _ in one.at}
        assert len(kept) <= 2 * len(by)
        assert all(rows[0] in kept and rows[-1] in kept for rows in by.values())


@given(st.lists(st.floats(-1e4, 1e4), min_size=2, max_size=9), st.floats(0, 300),
       st.floats(1, 200))  # fmt: skip
def test_a_scale_keeps_the_order_and_the_distances_of_its_values(values, top, tall) -> None:
    scale = Scale(min(values), max(values), top=top, bottom=top + tall)
    ys = [scale.y(v) for v in values]
    assert all(top - 1e-6 <= y <= top + tall + 1e-6 for y in ys)
    assert scale.y(min(values)) == pytest.approx(top + tall)
    span = max(values) - min(values)
    if span > 1e-3:
        assert scale.y(max(values)) == pytest.approx(top)
        for (v0, y0), (v1, y1) in pairwise(zip(values, ys, strict=True)):
            assert y0 - y1 == pytest.approx((v1 - v0) / span * tall, abs=1e-6)


@FEW
@given(walks(most=4))
def test_curves_of_one_kind_share_a_scale_that_holds_nothing_and_all_of_them(walk) -> None:
    _, curves = walk
    double = replace(curves[1], name="other", low=tuple(2 * v for v in curves[1].low),
                     high=tuple(2 * v for v in curves[1].high))  # fmt: skip
    sack, one, two = curve_scales([*curves, double], 100.0, 17.0, 50.0)
    assert (one.low, one.high) == (two.low, two.high)
    assert one.low <= min(0.0, *double.low) and one.high >= max(0.0, *double.high)
    assert sack.low <= 0.0
    assert [s.top for s in (sack, one, two)] == [117.0, 184.0, 251.0]
    assert all(s.bottom - s.top == 50.0 for s in (sack, one, two))


@given(st.lists(st.tuples(st.floats(0, 900), st.floats(0, 300)), min_size=1, max_size=40),
       st.floats(0.05, 5.0))  # fmt: skip
def test_thinning_keeps_both_ends_and_only_points_of_the_line(points, near: float) -> None:
    kept = thinned(points, near)
    assert (kept[0], kept[-1]) == (points[0], points[-1])
    at = iter(points)
    assert all(one in at for one in kept), "in their order, none invented"
    assert len(thinned(points, near * 2.0)) <= len(points)
    assert thinned([*points, *reversed(points)], 0.0)[:1] == points[:1]


# ── a plan's own pictures ──────────────────────────────────────────────────────────────────────

PLANS = [(1, 1, "metric"), (2, 4, "us"), (2, 9, "metric"), (5, 3, "metric")]


@pytest.mark.parametrize(("walkers", "days", "units"), PLANS)
def test_every_picture_of_a_plan_stays_on_its_paper(walkers: int, days: int, units: Any) -> None:
    told = telling(sample_plan(walkers=walkers, days=days, units=units))
    walker = told.plan.trip.walkers[0]
    drawn = [ribbon_svg(told.plan)]
    for made in (ribbon_picture(told), need_picture(told, walker), meals_picture(told, walker),
                 weight_picture(told, walker)):  # fmt: skip
        drawn += [made.svg, made.narrow]
    assert [outside(svg) for svg in drawn if svg] == [[]] * len(drawn)


@pytest.mark.parametrize(("walkers", "days", "units"), PLANS)
def test_a_balance_read_off_the_picture_is_what_the_reading_says(
    walkers: int, days: int, units: Any
) -> None:
    """The drawn line, the sentence under the pointer and the timeline are one number."""
    told = telling(sample_plan(walkers=walkers, days=days, units=units))
    read = readings(told)
    svg = ribbon_picture(told).svg
    width, _ = size_of(svg)
    spots_ = places(told, [one.moment for one in read], width)
    lines = lines_of(svg, "s-mark")
    people = len(read[0].people)
    bounds = [(p.low_kcal, p.high_kcal) for one in read for p in one.people]
    low, high = min(0.0, *(b[0] for b in bounds)), max(0.0, *(b[1] for b in bounds))
    tops = sorted({spot.top for spot in spots_})
    for who in range(people):
        drawn = [lines[k * people + who] for k in range(len(tops))]
        zero: dict[float, float] = {}
        for one, spot in list(zip(read, spots_, strict=True))[:-1]:
            person = one.people[who]
            above = (person.eaten_kcal - person.used_kcal - low) / (high - low) * 56.0
            top, foot = heights_at(drawn[tops.index(spot.top)].points, spot.x)
            if math.isnan(top):
                continue
            base = zero.setdefault(spot.top, foot + above)
            assert top - 0.6 <= base - above <= foot + 0.6, (one.moment, person)
        assert len(zero) == len(tops)
