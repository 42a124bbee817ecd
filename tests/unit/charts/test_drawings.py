"""The drawings: well formed, true to scale, told in words, drawn without inline style."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.charts import meals, need, weight
from oatsack.charts.meals import MealDay
from oatsack.charts.need import NeedDay
from oatsack.charts.svg import element, picture, rect, round_top, steps, text
from oatsack.charts.weight import SackDay
from support.each import each

SVG = "{http://www.w3.org/2000/svg}"
NEED = [
    NeedDay(name="Thu", low=2000, likely=2500, high=3000, eaten=1800, shown="1,800"),
    NeedDay(name="Fri", low=2600, likely=3200, high=4000, eaten=2400, shown="2,400"),
]
MEALS = [
    MealDay(name="Thu", parts=(("lunch", 600.0), ("dinner", 900.0)), total="1,500"),
    MealDay(name="Fri", parts=(("breakfast", 500.0), ("dinner", 500.0)), total="1,000"),
]
SACK = [
    SackDay(name="Thu", grams=3000, wrappers=0, shown="3.0 kg"),
    SackDay(name="Fri", grams=1500, wrappers=150, shown="1.5 kg"),
]


def drawn(kind: str, width: float = 640.0) -> ET.Element:
    made = {
        "need": lambda: need.draw(NEED, words=("T", "D", "eats", "uses", "kcal"), width=width),
        "meals": lambda: meals.draw(
            MEALS, words=("T", "D", "breakfast", "lunch", "dinner"), width=width),
        "weight": lambda: weight.draw(SACK, words=("T", "D", "wrappers"), width=width),
    }[kind]()  # fmt: skip
    return ET.fromstring(made)


KINDS = pytest.mark.parametrize("kind", ["need", "meals", "weight"])


@KINDS
def test_every_drawing_is_well_formed_with_title_and_description(kind: str) -> None:
    root = drawn(kind)
    assert root.find(f"{SVG}title").text == "T"  # type: ignore[union-attr]
    assert root.find(f"{SVG}desc").text == "D"  # type: ignore[union-attr]
    named = root.attrib["aria-labelledby"].split()
    assert {e.attrib.get("id") for e in root.iter()} >= set(named)


@KINDS
@each("width", [320.0, 640.0])
def test_nothing_is_drawn_outside_the_frame(kind: str, width: float) -> None:
    root = drawn(kind, width)
    high = float(root.attrib["height"])
    for e in root.iter(f"{SVG}rect"):
        x, y = float(e.attrib["x"]), float(e.attrib["y"])
        assert x >= 0 and y >= 0
        assert x + float(e.attrib["width"]) <= width + 0.1
        assert y + float(e.attrib["height"]) <= high + 0.1


@KINDS
def test_no_style_and_no_script_stands_in_a_drawing(kind: str) -> None:
    words = ET.tostring(drawn(kind), encoding="unicode")
    assert "style=" not in words and "script" not in words and "href" not in words


@KINDS
def test_every_colour_comes_with_a_class_for_the_page(kind: str) -> None:
    for e in drawn(kind).iter():
        for paint, mark in (("fill", "f-"), ("stroke", "s-")):
            if e.attrib.get(paint, "none").startswith("#"):
                assert mark in e.attrib.get("class", ""), e.attrib


def bars(root: ET.Element, fill: str) -> list[dict[str, float]]:
    return [
        {k: float(e.attrib[k]) for k in ("x", "y", "width", "height")}
        for e in root.iter(f"{SVG}rect") if f"f-{fill}" in e.attrib["class"].split()
    ]  # fmt: skip


def test_bars_of_what_is_eaten_are_true_to_scale() -> None:
    first, second = (b for b in bars(drawn("need"), "ink") if b["width"] > 9)
    assert first["height"] / second["height"] == pytest.approx(1800 / 2400, abs=0.01)


def test_the_range_of_the_need_stands_above_what_is_less() -> None:
    root = drawn("need")
    spines = [e.attrib for e in root.iter(f"{SVG}line")
              if e.attrib["x1"] == e.attrib["x2"] and e.attrib["stroke-width"] == "2"
              and float(e.attrib["y1"]) - float(e.attrib["y2"]) > 0]  # fmt: skip
    assert len(spines) == 2
    spans = [float(s["y1"]) - float(s["y2"]) for s in spines]
    assert spans[0] / spans[1] == pytest.approx(1000 / 1400, abs=0.01)


def test_meals_are_as_long_as_their_energy() -> None:
    long = max(bars(drawn("meals"), "soft"), key=lambda b: b["x"] + b["width"])
    others = sorted(b["width"] for b in bars(drawn("meals"), "soft") if b["height"] == 24)
    assert others[0] / long["width"] == pytest.approx(500 / 900, abs=0.01)


def test_the_sack_gets_lighter_and_wrappers_stay_at_its_foot() -> None:
    root = drawn("weight")
    food = bars(root, "faint")
    wrap = [b for b in bars(root, "ink") if b["width"] > 9]
    whole = [f["height"] + w["height"] for f, w in zip(food, wrap, strict=True)]
    assert whole[1] / whole[0] == pytest.approx(0.5, abs=0.01)
    assert wrap[1]["height"] / whole[1] == pytest.approx(0.1, abs=0.01)
    assert wrap[0]["height"] == 0


def test_names_are_escaped() -> None:
    made = meals.draw(
        [MealDay(name="<b>&", parts=(("<i>", 1.0),), total="1")], words=("<T>", "&", "<i>")
    )
    assert "<b>" not in made and "<i>" not in made and "<T>" not in made
    ET.fromstring(made)


def test_a_drawing_of_nothing_is_still_a_drawing() -> None:
    made_of_nothing = (
        need.draw([], words=("T", "D", "a", "b", "c")), meals.draw([], words=("T", "D")),
        weight.draw([], words=("T", "D", "w")),
    )  # fmt: skip
    for made in made_of_nothing:
        ET.fromstring(made)


@given(st.floats(0.001, 1e7))
def test_the_top_of_a_scale_is_round_and_not_far_above(value: float) -> None:
    top = round_top(value)
    assert value <= top * (1 + 1e-9)
    assert top <= 2.0 * value * (1 + 1e-6)
    digits = re.sub(r"[0.]|e.*", "", f"{top:g}")
    assert digits in ("1", "2", "3", "4", "6", "8")


def test_steps_go_from_nothing_to_the_top() -> None:
    assert list(steps(100.0)) == [0.0, 25.0, 50.0, 75.0, 100.0]
    assert round_top(0.0) == 1.0


def test_pieces_are_written_short() -> None:
    assert element("line", x1=1.0, x2=None) == '<line x1="1"/>'
    assert 'width="0"' in rect(0, 0, -5.0, 1.0)
    assert "font-weight" not in text("x", 0, 0)
    assert picture([], width=10, height=5, title="a", desc="b", name="n").startswith("<svg")
