"""Lines with fewer points that look the same, moments found on the ribbon, menus as dots."""

from __future__ import annotations

import math
import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.charts.ribbon import spots
from oatsack.charts.ribbon_data import RibbonDay
from oatsack.charts.svg import thinned
from oatsack.charts.tradeoff import LARGE, SMALL, TALL, Dot, TradeoffWords, tradeoff

SVG = "{http://www.w3.org/2000/svg}"
PLACES = st.floats(0.0, 900.0, allow_nan=False)
WORDS = TradeoffWords(
    title="Menus", desc="Four menus.", across="mass", up="price", mass=lambda g: f"{g:.0f} g",
    money=lambda value: f"{value:.2f} EUR",
)  # fmt: skip


def off(p: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    """How far a point lies from a stretch, by trying many points of the stretch."""
    return min(
        math.dist(p, (a[0] + k / 400 * (b[0] - a[0]), a[1] + k / 400 * (b[1] - a[1])))
        for k in range(401)
    )


@given(st.lists(st.tuples(PLACES, PLACES), min_size=2, max_size=25))
def test_no_point_left_out_lies_off_the_kept_line(points: list[tuple[float, float]]) -> None:
    kept = thinned(points, near=0.5)
    assert kept[0] == points[0] and kept[-1] == points[-1] and set(kept) <= set(points)
    lines = list(pairwise(kept))
    for p in points:
        step = max(math.dist(a, b) for a, b in lines) / 400.0
        assert min(off(p, a, b) for a, b in lines) <= 0.5 + step


def test_a_straight_line_keeps_its_ends_only_and_a_corner_stays() -> None:
    straight = [(float(k), 2.0 * k) for k in range(50)]
    assert thinned(straight) == [straight[0], straight[-1]]
    corner = [*straight, (60.0, 0.0)]
    assert thinned(corner) == [straight[0], straight[-1], (60.0, 0.0)]
    assert thinned([]) == [] and thinned([(1.0, 1.0)]) == [(1.0, 1.0)]


def test_a_line_that_goes_out_and_back_is_not_taken_for_a_point() -> None:
    assert thinned([(0.0, 0.0), (80.0, 0.0), (0.0, 0.0)]) == [(0.0, 0.0), (80.0, 0.0), (0.0, 0.0)]


def a_day(name: str) -> RibbonDay:
    return RibbonDay(
        name=name, lines=("12 km",), tip=name, start_min=420.0, end_min=1800.0,
        walks=((510.0, 720.0), (750.0, 900.0)), heights=((510.0, 500.0), (900.0, 700.0)),
        night=True,
    )  # fmt: skip


def test_every_moment_lies_on_the_drawing_and_in_the_order_of_time() -> None:
    days = [a_day("Thu"), a_day("Fri"), a_day("Sat")]
    moments = [(day, 420.0 + 60.0 * hour) for day in range(3) for hour in range(24)]
    for width in (960.0, 832.0, 350.0):
        found = spots(days, moments, curves=2, width=width)
        assert len(found) == len(moments)
        assert all(0.0 <= spot.x <= width and spot.top < spot.bottom for spot in found)
        order = [(spot.top, spot.x) for spot in found]
        assert order == sorted(order), "strips below each other, each from left to right"
    assert len({spot.top for spot in spots(days, moments, curves=2, width=350.0)}) > 1


def dots() -> list[Dot]:
    return [
        Dot(name="yours", mass_g=5000.0, price=60.0, liking=3.0, own=True),
        Dot(name="light", mass_g=4000.0, price=80.0, liking=2.0),
        Dot(name="cheap", mass_g=6000.0, price=40.0, liking=2.5),
        Dot(name="loved", mass_g=5500.0, price=90.0, liking=4.5),
    ]


def test_lighter_is_left_cheaper_is_low_liked_is_large_and_ones_own_is_filled() -> None:
    tree = ElementTree.fromstring(tradeoff(dots(), words=WORDS))
    circles = tree.findall(f"{SVG}circle")
    own, *rest = circles
    assert "f-ink" in (own.get("class") or "")
    assert all("f-paper" in (c.get("class") or "") for c in rest)
    light, cheap, loved = rest

    def at(circle: ElementTree.Element, name: str) -> float:
        return float(circle.get(name) or "nan")

    assert at(light, "cx") < at(own, "cx") < at(loved, "cx") < at(cheap, "cx")
    assert at(loved, "cy") < at(light, "cy") < at(own, "cy") < at(cheap, "cy")
    assert at(light, "r") == SMALL and at(loved, "r") == LARGE


def test_names_touch_neither_each_other_nor_the_edge_and_all_ends_are_written() -> None:
    for width in (832.0, 350.0):
        svg = tradeoff(dots(), words=WORDS, width=width)
        tree = ElementTree.fromstring(svg)
        texts = {t.text: float(t.get("x") or 0) for t in tree.iter(f"{SVG}text")}
        assert {"4000 g", "6000 g", "40.00 EUR", "price: 90.00 EUR"} <= texts.keys()
        assert all(0.0 <= x <= width for x in texts.values())
        assert "style=" not in svg and re.search(r"<title[^>]*>Menus<", svg)


def test_one_menu_alone_stands_in_the_middle_and_none_is_refused() -> None:
    tree = ElementTree.fromstring(tradeoff(dots()[:1], words=WORDS, width=640.0))
    circle = tree.find(f"{SVG}circle")
    assert circle is not None
    assert float(circle.get("cx") or 0) == 320.0 and 0 < float(circle.get("cy") or 0) < TALL
    with pytest.raises(ValueError, match="at least one"):
        tradeoff([], words=WORDS)
