"""The picture of a long walk: few pixels for a day, and still everything in its order."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from oatsack.charts.ribbon import draw, spots
from oatsack.charts.ribbon_axis import strips
from oatsack.charts.ribbon_data import RibbonCurve
from oatsack.charts.ribbon_whole import LEAST, by_day, draw_whole, spots_whole
from unit.charts.test_ribbon import SVG, WORDS, curves, walk

FORTY = range(0, 40, 7)


def drawn(days: int, width: float = 832.0) -> str:
    return draw_whole(walk(days), curves(days), parts=list(range(0, days, 7)), words=WORDS,
                      width=width)  # fmt: skip


def test_forty_days_are_one_strip_on_a_broad_page_and_a_few_on_a_phone() -> None:
    tall = {width: float(ElementTree.fromstring(drawn(40, width)).attrib["height"])
            for width in (832.0, 350.0)}  # fmt: skip
    assert tall[832.0] < 320.0
    assert tall[350.0] < 320.0 * 3
    assert tall[350.0] < 8000.0 / 8, "the hourly ribbon of forty days is 8,000 px high on a phone"


def test_a_day_costs_few_bytes() -> None:
    per_day = (len(drawn(150)) - len(drawn(50))) / 100.0
    assert per_day < 400.0
    assert per_day < len(draw(walk(40), curves(40), words=WORDS)) / 40.0 / 4.0


def test_every_part_begins_at_a_line_and_the_first_day_of_each_is_named() -> None:
    root = ElementTree.fromstring(drawn(40))
    named = [e.text for e in root.iter(f"{SVG}text") if (e.text or "").startswith("Day ")]
    assert named == [f"Day {k + 1}" for k in FORTY]
    lines = [e for e in root.iter(f"{SVG}line") if e.attrib.get("stroke-dasharray") == "2 3"]
    assert len([e for e in lines if e.attrib["x1"] == e.attrib["x2"]]) == len(FORTY)


def test_names_of_parts_never_overlap() -> None:
    days = walk(40)
    made = draw_whole(days, curves(40), parts=list(range(40)), words=WORDS, width=350.0)
    for strip in made.split("<g ")[1:]:
        found = re.findall(r'<text x="([\d.]+)"[^>]*>(Day \d+)<', strip)
        ends = [(float(x), float(x) + len(name) * 5.0) for x, name in found]
        assert all(a[1] <= b[0] for a, b in pairwise(ends)), ends
        assert found


def test_a_bar_stands_for_each_day_and_the_least_and_the_most_are_told() -> None:
    made = drawn(40)
    path = re.search(r'<path d="([^"]+)"', made)
    assert path and path[1].count("M") == 40
    assert ">2050<" in made, "450 and 700 at table and 900 on the move"


def test_a_curve_keeps_the_first_and_last_moment_of_each_day() -> None:
    at = tuple((day, clock) for day in range(3) for clock in (360.0, 420.0, 480.0, 540.0))
    values = tuple(float(k) for k in range(12))
    few = by_day(RibbonCurve(name="x", at=at, low=values, likely=values, high=values, kind="sack"))
    assert few.at == tuple((day, clock) for day in range(3) for clock in (360.0, 540.0))
    assert few.likely == few.low == few.high == (0.0, 3.0, 4.0, 7.0, 8.0, 11.0)


@pytest.mark.parametrize("width", [832.0, 350.0])
def test_the_end_of_each_day_lies_to_the_right_of_the_day_before_on_its_strip(width: float) -> None:
    found = spots_whole(walk(40), [(k, 1300.0) for k in range(40)], curves=2, width=width)
    assert len(found) == 40
    for one, other in pairwise(found):
        assert other.x > one.x + LEAST / 3.0 or other.top > one.top
        assert one.top < one.bottom
    height = float(ElementTree.fromstring(drawn(40, width)).attrib["height"])
    assert max(s.bottom for s in found) <= height


def test_a_part_of_the_ribbon_is_drawn_and_read_without_the_other_days() -> None:
    days, only = walk(20), range(7, 14)
    made = draw(days, curves(20), words=WORDS, width=832.0, only=only)
    named = re.findall(r">(Day \d+)<", made)
    assert named == [f"Day {k + 1}" for k in only]
    inside = spots(days, [(k, 700.0) for k in range(20)], curves=2, width=832.0, only=only)
    assert len(inside) == len(only)
    groups = strips(days, 808.0, only=only)
    assert [strip.first for strip in groups] == [7, 11]


def test_the_land_of_a_part_keeps_the_scale_of_the_whole() -> None:
    days = walk(20)
    whole = draw(days, curves(20), words=WORDS, width=832.0)
    part = draw(days, curves(20), words=WORDS, width=832.0, only=range(7, 14))

    def heights(svg: str) -> set[str]:
        land = re.findall(r'<polygon points="([^"]+)"[^>]*f-land', svg)
        return {point.split(",")[1] for one in land for point in one.split()}

    assert heights(part) <= heights(whole)
