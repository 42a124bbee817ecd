"""Foods that a trip names and the larder lacks."""

from __future__ import annotations

import dataclasses

from oatsack.errors import Fault
from oatsack.files.trip import check_foods, gone, parse_trip
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
    ]


def test_a_hold_or_ban_of_a_food_that_is_gone_is_told_and_is_no_fault() -> None:
    """DESIGN, section 5. Holds stand before bans in the trip, each in its own list of the file."""
    trip = parse_trip(TEXT, "trip.toml")
    lacking = [food(name) for name in IDS if name not in ("soup", "rice")]
    told = [(path, hold.food, why) for path, hold, why in gone(trip, lacking)]
    assert told == [
        ("rules.holds[0]", "rice", "unknown"), ("rules.bans[0]", "soup", "unknown"),
    ]  # fmt: skip
    assert [f.read for f in found("soup", "rice")] == ['"olives"']


def test_a_misspelt_food_of_a_ban_is_a_fault_and_a_neighbour_is_no_spelling_of_one_that_went() -> (
    None
):
    """`granole` is granola misspelt; chilli with beef is not chilli with beans."""
    wrong = {}
    for word in ("granole", "trail-mx", "chili-beef", "sausage", "milk-powder"):
        text = TEXT.replace('food = "soup"', f'food = "{word}"')
        larder = [food(name) for name in (*IDS, "chili-beans", "olives")]
        faults = check_foods(parse_trip(text, "trip.toml"), larder, text=text)
        wrong[word] = [(fault.path, fault.instead) for fault in faults]
    assert wrong == {
        "granole": [("rules.bans[0].food", 'did you mean "granola"?')],
        "trail-mx": [("rules.bans[0].food", 'did you mean "trail-mix"?')],
        "chili-beef": [], "sausage": [], "milk-powder": [],
    }  # fmt: skip


def test_a_pick_of_a_food_that_is_gone_stays_a_fault() -> None:
    assert [f.path for f in found("granola")] == [
        "walkers[0].dislikes", "walkers[0].usual.breakfast[1]",
    ]  # fmt: skip


def test_a_complete_larder_has_no_faults() -> None:
    larder = [food(name) for name in [*IDS, "olives"]]
    assert check_foods(parse_trip(TEXT, "trip.toml"), larder) == ()
