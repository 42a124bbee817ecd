"""The ribbon: one axis of walking time, and everything in its place on it."""

from __future__ import annotations

import dataclasses
import re
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
