"""The ribbon: one axis of walking time, and everything in its place on it."""

from __future__ import annotations

import dataclasses
import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.charts.ribbon import draw
from oatsack.charts.ribbon_axis import strips
from oatsack.charts.ribbon_data import (
    RibbonCurve,
    RibbonDay,
    RibbonMeal,
    RibbonWater,
    RibbonWords,
)
from support.each import each

SVG = "{http://www.w3.org/2000/svg}"


def a_day(hours: float = 5.0, *, name: str = "Thu 10", night: bool = True) -> RibbonDay:
    """Walking from 08:30 in two halves with a pause of half an hour between."""
    half = hours * 30.0
    first, second = (510.0, 510.0 + half), (540.0 + half, 540.0 + 2.0 * half)
    return RibbonDay(
        name=name, lines=("15.0 km", "+700 m −650 m"), tip=name,
        start_min=360.0, end_min=1800.0 if night else 1000.0,
        walks=(first, second) if hours else (),
        heights=((510.0, 600.0), (510.0 + half, 1300.0), (540.0 + 2 * half, 700.0)),
        night=night, camp="Fold" if night else "",
        meals=(RibbonMeal(clock_min=420.0, kcal=450.0, kind="breakfast", name="breakfast"),
               RibbonMeal(clock_min=1110.0, kcal=700.0, kind="dinner", name="dinner")),
        move_kcal=900.0, move_name="on the move",
        water=(RibbonWater(name="Brook & Co", clock_min=560.0, sure=True),
               RibbonWater(name="Dry Gill", clock_min=700.0, sure=False)),
    )  # fmt: skip


def curves(days: int) -> list[RibbonCurve]:
    at = tuple((day, clock) for day in range(days) for clock in (400.0, 700.0, 1700.0))
    down = tuple(6.0 - 0.3 * k for k in range(len(at)))
    over = tuple(-200.0 * k for k in range(len(at)))
    wide = tuple(value - 500.0 for value in over), tuple(value + 500.0 for value in over)
    return [
        RibbonCurve(name="Ida: carried", at=at, low=down, likely=down, high=down, kind="sack"),
        RibbonCurve(
            name="Ida: balance", at=at, low=wide[0], likely=over, high=wide[1], kind="balance"
        ),
    ]


WORDS = RibbonWords(
    title="Heron <round>", sub="five days", desc="what it shows", eaten="eaten", dry="no water",
    height=lambda m: f"{m:.0f} m", kcal=lambda k: f"{k:.0f}", signed=lambda k: f"{k:+.0f} kcal",
    between=lambda low, high: f"between {low:.0f} and {high:.0f}", mass=lambda kg: f"{kg:.1f} kg",
)  # fmt: skip


def walk(count: int) -> list[RibbonDay]:
    return [
        a_day(4.0 + k % 3, name=f"Day {k + 1}", night=k < count - 1)
        for k in range(count)
    ]  # fmt: skip


def drawn(count: int = 5, **more: object) -> str:
    return draw(walk(count), curves(count), words=WORDS, **more)  # type: ignore[arg-type]


def test_walking_takes_the_axis_and_a_pause_takes_nothing() -> None:
    (strip,) = strips(walk(5), 900.0)
    span = strip.spans[0]
    assert span.at(630.0) == span.at(660.0)  # the half hour of the pause
    assert span.at(630.0) - span.at(510.0) == pytest.approx(span.at(780.0) - span.at(660.0))


def test_equal_walking_is_equally_wide_on_every_day() -> None:
    (strip,) = strips(walk(5), 900.0)
    widths = [span.arrived - span.set_out for span in strip.spans]
    assert [width / widths[0] for width in widths] == pytest.approx([1, 5 / 4, 6 / 4, 1, 5 / 4])
    assert strip.right == pytest.approx(900.0)


def test_days_follow_each_other_without_a_gap() -> None:
    (strip,) = strips(walk(5), 900.0)
    for before, after in zip(strip.spans, strip.spans[1:], strict=False):
        assert before.right == after.left


def test_a_narrow_page_folds_the_walk_into_strips_of_one_scale() -> None:
    found = strips(walk(5), 326.0)
    assert [len(strip.spans) for strip in found] == [2, 2, 1]
    assert all(strip.right <= 326.0 + 1e-6 for strip in found)
    scales = {
        round((span.arrived - span.set_out) / day.walking_min, 6)
        for strip in found
        for span, day in zip(strip.spans, walk(5)[strip.first :], strict=False)
    }
    assert len(scales) == 1


def test_a_day_of_rest_has_a_nights_width() -> None:
    days = [a_day(), a_day(0.0, name="Fri 11"), a_day(night=False)]
    (strip,) = strips(days, 900.0)
    assert strip.spans[1].arrived - strip.spans[1].set_out == pytest.approx(54.0, abs=5.0)


@given(
    st.lists(st.floats(0.0, 14.0), min_size=1, max_size=16),
    st.floats(300.0, 1400.0),
)
def test_the_axis_only_goes_forward_and_stays_on_the_page(hours: list[float], width: float) -> None:
    days = [a_day(h, night=k < len(hours) - 1) for k, h in enumerate(hours)]
    for strip in strips(days, width):
        for span in strip.spans:
            places = [span.at(clock) for clock in range(300, 1900, 20)]
            assert places == sorted(places)
            assert span.left <= places[0]
            assert places[-1] <= span.right + 1e-9
        assert strip.right <= width + 1e-6


@each("width", [340.0, 640.0, 960.0])
@each("count", [1, 2, 5, 14])
def test_the_picture_is_well_formed_and_says_what_it_is(count: int, width: float) -> None:
    root = ElementTree.fromstring(drawn(count, width=width))
    assert root.tag == f"{SVG}svg"
    assert root.get("role") == "img"
    assert root.findtext(f"{SVG}title") == "Heron <round>"
    assert root.findtext(f"{SVG}desc") == "what it shows"
    told = [node.text for node in root.iter(f"{SVG}text")]
    for k in range(count):
        assert f"Day {k + 1}" in told


def test_no_style_no_script_and_no_address() -> None:
    svg = drawn()
    assert "style=" not in svg
    assert "<script" not in svg
    assert set(re.findall(r"https?://[^\"]+", svg)) == {"http://www.w3.org/2000/svg"}


def test_every_painted_element_bears_a_class_for_dark_and_print() -> None:
    for node in ElementTree.fromstring(drawn()).iter():
        if node.get("fill", "none") != "none" or node.get("stroke"):
            assert node.get("class"), ElementTree.tostring(node)


def test_unsure_water_is_an_empty_drop() -> None:
    root = ElementTree.fromstring(drawn(1))
    drops = {
        group.findtext(f"{SVG}title"): group.find(f"{SVG}path").get("class")  # type: ignore[union-attr]
        for group in root.iter(f"{SVG}g")
        if group.find(f"{SVG}path") is not None
    }
    assert drops == {"Brook & Co": "f-water s-water", "Dry Gill": "f-paper s-water"}


def test_typed_days_have_a_dashed_ground() -> None:
    day = dataclasses.replace(a_day(), by_hand=True)
    assert 'stroke-dasharray="5 3"' in draw([day], [], words=WORDS)
    assert 'stroke-dasharray="5 3"' not in draw([a_day()], [], words=WORDS)


def test_equal_areas_are_equal_energy() -> None:
    """The long flat bar on the move and the short tall ones of meals can be compared."""
    root = ElementTree.fromstring(drawn(6))
    areas = {}
    for group in root.iter(f"{SVG}g"):
        box, name = group.find(f"{SVG}rect"), group.findtext(f"{SVG}title") or ""
        if box is not None and "kcal" in name:
            kcal = float(name.split(": ")[1].removesuffix(" kcal"))
            areas[name, box.get("x")] = (
                float(box.get("width", 0)) * float(box.get("height", 0)) / kcal
            )
    assert len({name for name, _ in areas}) == 3
    assert max(areas.values()) / min(areas.values()) < 1.05


def test_the_end_tells_the_balance_with_its_range_where_there_is_room() -> None:
    assert "-2800 kcal, between -3300 and -2300" in drawn(5)
    assert "between" not in drawn(5, width=340.0)
    assert "-2800 kcal" in drawn(5, width=340.0)


def test_a_file_has_a_ground_and_a_heading_of_its_own_and_a_page_has_not() -> None:
    assert "five days" in drawn(theme="paper")
    assert "five days" not in drawn(theme="page")


def test_a_ribbon_without_days_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one day"):
        draw([], [], words=WORDS)


def boxes_of_labels(svg: str) -> list[tuple[str, float, float, float, float]]:
    """Every label over a bar: its words, left, right, baseline and strip; a digit is 0.65 wide."""
    found = []
    root = ElementTree.fromstring(svg)
    for strip, group in enumerate(root.findall(f"{SVG}g")):
        for node in group.findall(f"{SVG}text"):
            if node.get("font-size") == "10.5" and node.get("text-anchor") == "middle":
                words, x = node.text or "", float(node.get("x", 0))
                half = len(words) * 10.5 * 0.65 / 2.0
                found.append((words, x - half, x + half, float(node.get("y", 0)), float(strip)))
    return sorted(set(found), key=lambda one: (one[4], one[1]))


@each("width", [320.0, 340.0, 366.0, 480.0, 640.0, 850.0, 960.0])
@each("count", [1, 2, 5, 7])
def test_no_two_numbers_over_bars_touch_at_any_width(count: int, width: float) -> None:
    found = boxes_of_labels(drawn(count, width=width))
    assert len(found) == 2 * count, "a number for every meal"
    for one, other in pairwise(found):
        if one[4] == other[4]:
            apart = other[1] - one[2]
            assert apart >= 2.0 or abs(one[3] - other[3]) >= 11.0, (one, other)
    assert min(left for _, left, _, _, _ in found) >= 0.0
    assert max(right for _, _, right, _, _ in found) <= width - 24.0


def test_numbers_that_would_touch_keep_their_order_and_lie_on_no_bar() -> None:
    meals = tuple(
        RibbonMeal(clock_min=clock, kcal=kcal, kind="lunch", name=f"{kcal:.0f}")
        for clock, kcal in ((700.0, 550.0), (702.0, 450.0), (704.0, 650.0))
    )
    day = dataclasses.replace(a_day(night=False), meals=meals)
    found = boxes_of_labels(draw([day], [], words=WORDS))
    assert [words for words, *_ in found] == ["550", "450", "650"]
    assert found[1][3] == found[2][3] < found[0][3], "the middle one would lie on the tall bar"


def test_a_number_beside_a_taller_bar_stays_on_its_own() -> None:
    """They are moved aside, not up, while neither lies on the other's bar."""
    meals = tuple(
        RibbonMeal(clock_min=clock, kcal=kcal, kind="lunch", name=f"{kcal:.0f}")
        for clock, kcal in ((700.0, 200.0), (707.0, 650.0))
    )
    day = dataclasses.replace(a_day(night=False), meals=meals)
    low, high = boxes_of_labels(draw([day], [], words=WORDS))
    assert (low[0], high[0]) == ("200", "650")
    assert low[3] > high[3] + 20.0
    assert low[2] <= high[1]


def test_where_the_balance_stands_is_told_at_the_end_of_a_short_strip() -> None:
    """Of three days in two strips the second is half as wide; its number stands on it."""
    days = [a_day(name=f"Day {k}", night=k < 2) for k in range(3)]
    (_, short) = strips(days, 340.0 - 24.0)
    root = ElementTree.fromstring(draw(days, curves(3), words=WORDS, width=340.0))
    last = root.findall(f"{SVG}g")[-1]
    ends = {node.text: float(node.get("x", 0)) for node in last.findall(f"{SVG}text")}
    said = "-1600 kcal"
    room = (len("Ida: balance") + len(said)) * 11.5 * 0.56
    assert ends[said] == pytest.approx(max(short.right, room), abs=0.06)
