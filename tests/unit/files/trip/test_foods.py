"""Foods that a trip names and the larder lacks."""

from __future__ import annotations

import dataclasses

from oatsack.errors import Fault
from oatsack.files.trip import check_foods, parse_trip
from oatsack.values.food import Food, Nutrients

TEXT = """\
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"
[[walkers]]
mass = "68 kg"
dislikes = ["nut", "sardines", "olives"]
[walkers.usual]
breakfast = ["2 oats + 1 milk-powder", "granola"]
dinner = "chili"
bags = ["trail-mix"]
counts = ["2 coffee a day"]
[walkers.liking]
chili = 5
[route]
usual_day = { distance = "16 km", up = "700 m" }
[[rules.bans]]
food = "soup"
[[rules.holds]]
food = "rice"
[now]
day = 2
left = { oats = 3 }
"""
IDS = ["oats", "milk-powder", "granola", "chili", "trail-mix", "coffee", "soup", "rice", "sardines"]


def food(name: str) -> Food:
    return Food(
        id=name, name=name.replace("-", " ").title(), category="nut", per_100g=Nutrients(),
        pack_g=100.0, doses_per_pack=1.0, dose_g=100.0,
    )  # fmt: skip


def found(*lacking: str, text: str = TEXT) -> tuple[Fault, ...]:
    larder = [food(name) for name in IDS if name not in lacking]
    return check_foods(parse_trip(TEXT, "trip.toml"), larder, text=text)


def test_a_word_that_is_neither_food_nor_class_is_named() -> None:
    (fault,) = found()
    assert (fault.line, fault.column, fault.path) == (5, 33, "walkers[0].dislikes")
    assert fault.wrong == "neither a food nor a class of foods"


def test_each_lacking_food_is_named_at_its_place() -> None:
    faults = found(*IDS)
    places = [(fault.line, fault.column, fault.read) for fault in faults]
    assert places == [
        (5, 14, '"nut"'),
        (5, 21, '"sardines"'),
        (5, 33, '"olives"'),
        (7, 17, '"oats"'),
        (7, 26, '"milk-powder"'),
        (7, 41, '"granola"'),
        (8, 11, '"chili"'),
        (9, 10, '"trail-mix"'),
        (10, 14, '"coffee"'),
        (12, 1, '"chili"'),
        (16, 9, '"soup"'),
        (18, 9, '"rice"'),
        (21, 10, '"oats"'),
    ]
    assert all(fault.text == TEXT.split("\n")[fault.line - 1] for fault in faults)


def test_the_nearest_food_is_named() -> None:
    larder = [food(name) for name in ("rolled-oats", "granola-bar", "milk-powder", "chili-beans")]
    hints = {
        fault.read: fault.instead
        for fault in check_foods(parse_trip(TEXT, "trip.toml"), larder, text=TEXT)
    }
    assert hints['"granola"'] == 'did you mean "granola-bar"?'
    assert hints['"trail-mix"'] == "look it up with: oatsack foods"


def test_a_food_is_found_by_its_name_too() -> None:
    beans = dataclasses.replace(food("fd-7"), name="Chili")
    faults = check_foods(parse_trip(TEXT, "trip.toml"), [beans], text=TEXT)
    hints = {fault.read: fault.instead for fault in faults}
    assert hints['"chili"'] == 'did you mean "fd-7"?'


def test_without_the_text_the_lines_are_known_from_the_trip() -> None:
    faults = found("granola", "rice", text="")
    assert [(fault.line, fault.path) for fault in faults] == [
        (5, "walkers[0].dislikes"),
        (7, "walkers[0].usual.breakfast[1]"),
        (18, "rules.holds[0].food"),
    ]


def test_a_complete_larder_has_no_faults() -> None:
    larder = [food(name) for name in [*IDS, "olives"]]
    assert check_foods(parse_trip(TEXT, "trip.toml"), larder) == ()
