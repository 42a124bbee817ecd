"""The small languages inside a trip file's texts."""

from __future__ import annotations

from typing import Any

import pytest

from oatsack.errors import UnitError
from oatsack.files.trip import picks
from oatsack.files.trip.kinds import Kind
from oatsack.values.walker import Choice, Count, Pick, Target
from support.each import each


def choice(*parts: tuple[float, str]) -> Choice:
    return Choice(picks=tuple(Pick(food=food, count=count) for count, food in parts))


@each(
    ("kind", "value", "expected"),
    [
        (picks.CHOICE, "granola", choice((1, "granola"))),
        (picks.CHOICE, "2 maple-oatmeal", choice((2, "maple-oatmeal"))),
        (picks.CHOICE, "2 maple-oatmeal + 1 milk-powder",
         choice((2, "maple-oatmeal"), (1, "milk-powder"))),
        (picks.CHOICE, "½ granola+1 1/2 oats", choice((0.5, "granola"), (1.5, "oats"))),
        (picks.CHOICE, "1,5 oats", choice((1.5, "oats"))),
        (picks.CHOICE, "2x oats", choice((2, "oats"))),
        (picks.CHOICE, "2 × oats", choice((2, "oats"))),
        (picks.CHOICE, "7-grain-bread", choice((1, "7-grain-bread"))),
        (picks.CHOICE, "2 7-grain-bread", choice((2, "7-grain-bread"))),
        (picks.BAG, "trail-mix", Pick(food="trail-mix", count=0)),
        (picks.BAG, "2 beef-jerky", Pick(food="beef-jerky", count=2)),
        (picks.BAG, "1 beef-jerky", Pick(food="beef-jerky", count=1)),
        (picks.BAG, "7-seed-mix", Pick(food="7-seed-mix", count=0)),
        (picks.COUNT, "2 instant-coffee a day", Count(food="instant-coffee", count=2, per="day")),
        (picks.COUNT, "2 coffee per day", Count(food="coffee", count=2, per="day")),
        (picks.COUNT, "2 coffee/day", Count(food="coffee", count=2, per="day")),
        (picks.COUNT, "coffee every day", Count(food="coffee", count=1, per="day")),
        (picks.COUNT, "1 tablet a bottle", Count(food="tablet", count=1, per="bottle")),
        (picks.COUNT, "2 sweetener a mug", Count(food="sweetener", count=2, per="mug")),
        (picks.COUNT, "1 paper for the trip", Count(food="paper", count=1, per="trip")),
        (picks.COUNT, "½ salt a day", Count(food="salt", count=0.5, per="day")),
        (picks.TARGET, "2200 kcal", Target(kcal=2200.0)),
        (picks.TARGET, "9200 kJ", Target(kcal=pytest.approx(2198.85277))),
        (picks.TARGET, "85%", Target(share=0.85)),
        (picks.TARGET, "3/4", Target(share=0.75)),
        (picks.TARGET, "0.9", Target(share=0.9)),
        (picks.TARGET, "120 %", Target(share=1.2)),
        (picks.TARGET, "light", Target(share=0.7)),
        (picks.TARGET, "usual", Target()),
        (picks.TARGET, "hungry", Target(share=1.0)),
        (picks.SPARE, "none", "none"),
        (picks.SPARE, "day", "day"),
        (picks.SPARE, "500 kcal", 500.0),
        (picks.TERRAIN, 1.3, 1.3),
        (picks.TERRAIN, 1, 1.0),
        (picks.TERRAIN, "bog", 1.8),
        (picks.MONEY, "80 EUR", (80.0, "EUR")),
        (picks.ALLERGEN, "Peanut", "peanut"),
        (picks.FOOD, " trail-mix ", "trail-mix"),
    ],
)  # fmt: skip
def test_a_text_means(kind: Kind, value: Any, expected: object) -> None:
    assert kind.read(value) == expected


@each(
    ("kind", "value", "wrong", "instead"),
    [
        (picks.CHOICE, "2 Maple Oatmeal", "no food id", 'write "maple-oatmeal"'),
        (picks.CHOICE, "1,500 oats", "two readings", 'write "1500" or "1.5"'),
        (picks.CHOICE, "oats +", "no food", "2 maple-oatmeal"),
        (picks.COUNT, "2 coffee", "two readings, a day or for the trip", '"2 coffee a day"'),
        (picks.TARGET, "2200", "without its unit", "2200 kcal"),
        (picks.TARGET, "2,200 kcal", "two readings", '"2200 kcal" or "2.2 kcal"'),
        (picks.TARGET, "5%", "out of range", "20% to 200%"),
        (picks.ALLERGEN, "nuts", "no allergen we know", '"tree_nut", "peanut", or both'),
        (picks.ALLERGEN, "coeliac", "no allergen we know", '"gluten"'),
        (picks.TERRAIN, "mud", "no terrain we know", '"bog"'),
        (picks.MONEY, "80", "needs its currency", '"80 EUR"'),
    ],
)
def test_what_is_unclear_is_refused_with_what_to_write(
    kind: Kind, value: object, wrong: str, instead: str
) -> None:
    with pytest.raises(UnitError) as caught:
        kind.read(value)
    assert wrong in caught.value.wrong
    assert instead in caught.value.instead


@each(
    ("kind", "source"),
    [
        (picks.CHOICE, '"2 maple-oatmeal + 0.5 milk-powder"'),
        (picks.BAG, '"trail-mix"'),
        (picks.BAG, '"2 beef-jerky"'),
        (picks.COUNT, '"2 instant-coffee a day"'),
        (picks.TARGET, '"2200 kcal"'),
        (picks.TARGET, '"85 %"'),
        (picks.TARGET, '"usual"'),
        (picks.SPARE, '"meal"'),
        (picks.SPARE, '"500 kcal"'),
        (picks.MONEY, '"80.00 EUR"'),
        (picks.TERRAIN, "1.1"),
    ],
)
def test_what_is_shown_is_read_back(kind: Kind, source: str) -> None:
    import tomllib

    value = kind.read(tomllib.loads(f"x = {source}")["x"])
    assert kind.show(value) == source


def test_light_usual_and_hungry_are_in_order() -> None:
    assert picks.EAT_WORDS == {"light": 0.70, "usual": None, "hungry": 1.00}
