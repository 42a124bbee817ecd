"""Edits of a trip file: what is meant changes, every other byte stays (C12)."""

from __future__ import annotations

import datetime as dt

import pytest

from oatsack.errors import TripFileError, UsageError
from oatsack.files.trip import edit_trip, parse_trip
from oatsack.files.trip.edit import parse_path, source_of
from support.each import each

TEXT = """\
# Our walk over the ridge
title = "Ridge"   # short
from = 2026-07-02 09:00   # early!
to = "2026-07-05 15:00"

# people
[[walkers]]
name = "Anna"
mass = "68 kg"  # in May
avoids = ["peanut"]

  [walkers.usual]
  breakfast = [
    "2 maple-oatmeal",  # loves it
    "granola"   # second
  ]
  bags = ["trail-mix"]

# Ben comes too
[[walkers]]
name = "Ben"
mass = "80 kg"
usual.lunch = ["bread"]

# the way
[route]
usual_day = { distance = "16 km", up = "700 m" }

# what we cook on
[kit]
mug = "300 ml"

[[rules.holds]]
food = "chili"

# not again
[[rules.holds]]
food = "soup"
count = 2
"""


def differing(old: str, new: str) -> tuple[list[str], list[str]]:
    """Lines that are only in the old text, and only in the new one."""
    a, b = old.split("\n"), new.split("\n")
    return [line for line in a if line not in b], [line for line in b if line not in a]


def test_the_file_is_fine() -> None:
    assert parse_trip(TEXT, "t.toml").title == "Ridge"


@each(
    ("path", "value", "old", "new"),
    [
        ("title", "Long \"ridge\" ä", 'title = "Ridge"   # short',
         'title = "Long \\"ridge\\" ä"   # short'),
        ("from", dt.datetime(2026, 7, 3, 8, 30), "from = 2026-07-02 09:00   # early!",
         "from = 2026-07-03T08:30:00   # early!"),
        ("walkers[0].mass", "70 kg", 'mass = "68 kg"  # in May', 'mass = "70 kg"  # in May'),
        ("walkers[0].usual.breakfast[0]", "oats", '    "2 maple-oatmeal",  # loves it',
         '    "oats",  # loves it'),
        ("walkers[1].usual.lunch", ["bread", "cheese"], 'usual.lunch = ["bread"]',
         'usual.lunch = ["bread", "cheese"]'),
        ("route.usual_day.up", "900 m",
         'usual_day = { distance = "16 km", up = "700 m" }',
         'usual_day = { distance = "16 km", up = "900 m" }'),
        ("rules.holds[1].count", 3, "count = 2", "count = 3"),
    ],
)  # fmt: skip
def test_a_value_is_replaced_where_it_stands(path: str, value: object, old: str, new: str) -> None:
    assert differing(TEXT, edit_trip(TEXT, {path: value})) == ([old], [new])


@each(
    ("path", "value", "line", "above"),
    [
        ("zone", "Europe/Vienna", 'zone = "Europe/Vienna"', 'to = "2026-07-05 15:00"'),
        ("walkers[0].target", "2200 kcal", 'target = "2200 kcal"', 'avoids = ["peanut"]'),
        ("walkers[0].usual.dinner", ["chili"], '  dinner = ["chili"]', '  bags = ["trail-mix"]'),
        ("walkers[1].usual.dinner", ["chili"], 'usual.dinner = ["chili"]',
         'usual.lunch = ["bread"]'),
        ("walkers[1].age", 40, "age = 40", 'usual.lunch = ["bread"]'),
        ("kit.cosy", True, "cosy = true", 'mug = "300 ml"'),
        ("kit.pots[0]", "1.3 l", 'pots = ["1.3 l"]', 'mug = "300 ml"'),
        ("rules.holds[0].meal", "dinner", 'meal = "dinner"', 'food = "chili"'),
    ],
)  # fmt: skip
def test_a_new_key_comes_behind_the_last_of_its_table(
    path: str, value: object, line: str, above: str
) -> None:
    new = edit_trip(TEXT, {path: value}).split("\n")
    at = new.index(line)
    assert new[at - 1] == above
    del new[at]
    assert new == TEXT.split("\n")


def test_a_new_key_goes_into_the_inline_table_that_is_there() -> None:
    new = edit_trip(TEXT, {"route.usual_day.down": "650 m"})
    line = 'usual_day = { distance = "16 km", up = "700 m", down = "650 m" }'
    assert differing(TEXT, new)[1] == [line]


def test_a_new_table_gets_its_heading_at_the_end() -> None:
    new = edit_trip(TEXT, {"larder.files": ["mine.csv"], "rules.weights.price": 2})
    assert new.startswith(TEXT)
    assert new[len(TEXT) :] == '\n[larder]\nfiles = ["mine.csv"]\n\n[rules.weights]\nprice = 2\n'


def test_an_item_is_added_to_a_list_in_its_style() -> None:
    new = edit_trip(TEXT, {"walkers[0].avoids[1]": "egg", "walkers[0].usual.breakfast[2]": "rice"})
    assert differing(TEXT, new) == (
        ['avoids = ["peanut"]', '    "granola"   # second'],
        ['avoids = ["peanut", "egg"]', '    "granola",   # second', '  "rice",'],
    )


def test_one_more_table_of_a_kind_comes_behind_the_last_of_them() -> None:
    new = edit_trip(TEXT, {"rules.holds[2]": {"food": "rice", "count": 1}})
    assert new.endswith('food = "soup"\ncount = 2\n\n[[rules.holds]]\nfood = "rice"\ncount = 1\n')
    new = edit_trip(TEXT, {"walkers[2]": {"mass": "60 kg"}})
    before, after = new.split('\n[[walkers]]\nmass = "60 kg"\n')
    assert before.endswith('usual.lunch = ["bread"]\n')
    assert after.startswith("\n# the way\n")


@each(
    ("path", "gone"),
    [
        ("title", ['title = "Ridge"   # short']),
        ("walkers[0].avoids", ['avoids = ["peanut"]']),
        ("walkers[1].usual", ['usual.lunch = ["bread"]']),
        ("kit.mug", ['mug = "300 ml"']),
    ],
)
def test_a_removed_key_goes_with_its_line(path: str, gone: list[str]) -> None:
    assert differing(TEXT, edit_trip(TEXT, {path: None})) == (gone, [])


def test_a_removed_item_goes_with_its_comma() -> None:
    new = edit_trip(TEXT, {"walkers[0].usual.breakfast[0]": None, "walkers[0].avoids[0]": None})
    assert "avoids = []\n" in new
    assert parse_trip(new, "t.toml").walkers[0].usual.meals["breakfast"][0].picks[0].food == (
        "granola"
    )
    new = edit_trip(TEXT, {"walkers[0].usual.breakfast[1]": None})
    assert [c.picks[0].food for c in parse_trip(new, "t").walkers[0].usual.meals["breakfast"]] == [
        "maple-oatmeal"
    ]
    new = edit_trip(TEXT, {"route.usual_day.up": None})
    assert 'usual_day = { distance = "16 km" }\n' in new


def test_a_removed_table_goes_with_its_keys_and_leaves_the_notes() -> None:
    new = edit_trip(TEXT, {"rules.holds[0]": None})
    assert "chili" not in new
    assert [hold.food for hold in parse_trip(new, "t").rules.holds] == ["soup"]
    new = edit_trip(TEXT, {"walkers[0]": None})
    assert [walker.name for walker in parse_trip(new, "t").walkers] == ["Ben"]
    assert "# people\n" in new
    assert "# Ben comes too\n" in new
    new = edit_trip(TEXT, {"kit": None})
    assert "[kit]" not in new
    assert "# what we cook on\n" in new


def test_edits_are_made_in_order() -> None:
    new = edit_trip(TEXT, {"rules.holds[0]": None, "rules.holds[0].count": 5})
    assert [(h.food, h.count) for h in parse_trip(new, "t").rules.holds] == [("soup", 5.0)]


def test_setting_and_removing_again_gives_the_same_text() -> None:
    for path, value in {"walkers[0].age": 40, "kit.cosy": True, "zone": "UTC"}.items():
        assert edit_trip(edit_trip(TEXT, {path: value}), {path: None}) == TEXT


def test_windows_line_ends_and_the_mark_stay() -> None:
    text = "\ufeff" + TEXT.replace("\n", "\r\n")
    new = edit_trip(text, {"kit.cosy": True})
    assert new.startswith("\ufeff#")
    assert new.count("\r\n") == new.count("\n") == text.count("\n") + 1


def test_a_file_that_does_not_end_with_a_line_end_is_fine() -> None:
    assert edit_trip("a = 1", {"b": 2}) == "a = 1\nb = 2"
    assert edit_trip("a = 1", {"kit.mug": "1 l"}) == 'a = 1\n\n[kit]\nmug = "1 l"\n'
    assert edit_trip("", {"a": 1}).strip() == "a = 1"


@each(
    "path",
    ["", "[0]", "a..b", "walkers[x]", "walkers[5].mass", "title.x", "walkers.mass",
     "walkers[0].avoids[7]", "walkers[0].nothing[3]", "kit[0]"],
)  # fmt: skip
def test_a_path_that_leads_nowhere_is_refused(path: str) -> None:
    with pytest.raises(UsageError):
        edit_trip(TEXT, {path: "x"})


@each("path", ["walkers[5]", "kit.pots", "nothing", "title.x"])
def test_what_is_not_there_cannot_be_removed(path: str) -> None:
    with pytest.raises(UsageError):
        edit_trip(TEXT, {path: None})


def test_a_whole_table_is_not_replaced() -> None:
    with pytest.raises(UsageError, match="whole table"):
        edit_trip(TEXT, {"kit": {"mug": "1 l"}})


def test_a_text_that_is_no_toml_is_not_edited() -> None:
    with pytest.raises(TripFileError):
        edit_trip("a = 1 kg\n", {"b": 2})


def test_a_path_is_read_into_steps() -> None:
    assert parse_path("walkers[0].usual.breakfast[1]") == ("walkers", 0, "usual", "breakfast", 1)


@each(
    ("value", "source"),
    [
        ("a\tb\\\x7f", '"a\\tb\\\\\\u007F"'),
        (True, "true"),
        (40, "40"),
        (0.5, "0.5"),
        (dt.date(2026, 7, 4), "2026-07-04"),
        (dt.time(7, 30), "07:30:00"),
        (["a", 1], '["a", 1]'),
        ({"trail-mix": 4, "two words": 1}, '{ trail-mix = 4, "two words" = 1 }'),
    ],
)
def test_a_value_is_written_as_toml(value: object, source: str) -> None:
    assert source_of(value) == source


def test_what_toml_cannot_hold_is_refused() -> None:
    with pytest.raises(UsageError):
        source_of(object())
