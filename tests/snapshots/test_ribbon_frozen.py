"""The ribbon of a small walk, frozen: it guards against change and proves nothing.

`OATSACK_FREEZE=1` writes the files again; look at them before they are committed.
"""

from __future__ import annotations

import os
from pathlib import Path
from xml.etree import ElementTree

import pytest

from oatsack.charts.ribbon import draw
from oatsack.charts.ribbon_data import (
    RibbonCurve,
    RibbonDay,
    RibbonMeal,
    RibbonWater,
    RibbonWords,
)

HERE = Path(__file__).parent / "ribbon"
WORDS = RibbonWords(
    title="Two days round Wick", sub="10 to 11 June", desc="Two days over one hill.",
    eaten="eaten, kcal", dry="no water", height=lambda m: f"{m:.0f} m", kcal=lambda k: f"{k:.0f}",
    signed=lambda k: f"{k:+.0f} kcal", mass=lambda kg: f"{kg:.1f} kg",
    between=lambda low, high: f"{low:.0f} to {high:.0f}",
)  # fmt: skip
DAYS = (
    RibbonDay(
        name="Wed 10", lines=("12.0 km", "+600 m −100 m"), tip="Wed 10", start_min=540.0,
        end_min=1800.0, walks=((540.0, 660.0), (690.0, 780.0)),
        heights=((540.0, 500.0), (660.0, 900.0), (690.0, 900.0), (780.0, 1000.0)), night=True,
        camp="Wick Fold", dry=True, move_kcal=700.0, move_name="on the move",
        meals=(RibbonMeal(clock_min=750.0, kcal=450.0, kind="lunch", name="lunch"),
               RibbonMeal(clock_min=1110.0, kcal=650.0, kind="dinner", name="dinner"),
               RibbonMeal(clock_min=1110.0, kcal=90.0, kind="drinks", name="hot drinks")),
        water=(RibbonWater(name="Wick Beck", clock_min=600.0, sure=True),),
    ),
    RibbonDay(
        name="Thu 11", lines=("9.0 km", "+50 m −550 m"), tip="Thu 11", start_min=360.0,
        end_min=780.0, walks=((510.0, 690.0),), heights=((510.0, 1000.0), (690.0, 500.0)),
        night=False, by_hand=True, move_kcal=400.0, move_name="on the move",
        meals=(RibbonMeal(clock_min=420.0, kcal=380.0, kind="breakfast", name="breakfast"),),
        water=(RibbonWater(name="Dry Gill", clock_min=560.0, sure=False),),
    ),
)  # fmt: skip
AT = ((0, 540.0), (0, 780.0), (0, 1800.0), (1, 360.0), (1, 780.0))
SACK = (3.1, 2.7, 2.0, 2.0, 1.2)
OVER = (0.0, -600.0, -900.0, -900.0, -1400.0)
CURVES = (
    RibbonCurve(name="Ida: carried", at=AT, low=SACK, likely=SACK, high=SACK, kind="sack"),
    RibbonCurve(
        name="Ida: eaten less used", at=AT, low=tuple(v * 1.4 - 50 for v in OVER), likely=OVER,
        high=tuple(v * 0.6 for v in OVER), kind="balance",
    ),
)  # fmt: skip


@pytest.mark.parametrize(("name", "width"), [("broad", 720.0), ("phone", 340.0)])
def test_the_ribbon_is_drawn_as_it_was(name: str, width: float) -> None:
    path = HERE / f"{name}.svg"
    drawn = draw(DAYS, CURVES, words=WORDS, width=width, theme="paper").replace("><", ">\n<") + "\n"
    if os.environ.get("OATSACK_FREEZE"):
        path.parent.mkdir(exist_ok=True)
        path.write_text(drawn, encoding="utf-8")
    assert drawn == path.read_text(encoding="utf-8")


def test_the_frozen_pictures_are_well_formed() -> None:
    for path in sorted(HERE.glob("*.svg")):
        ElementTree.fromstring(path.read_text(encoding="utf-8"))
    assert len(list(HERE.glob("*.svg"))) == 2
