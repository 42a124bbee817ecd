"""Laws of the trip file: saved and loaded trips are the same, edits do only what they mean."""

from __future__ import annotations

import json
import tomllib
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.errors import TripFileError
from oatsack.files.codec import decode, encode
from oatsack.files.trip import Answers, edit_trip, parse_trip, write_trip
from oatsack.files.trip.edit import source_of
from oatsack.files.trip.toml import read_toml
from oatsack.values.trip import Trip
from support.amount import examples

FOODS = st.sampled_from(["oats", "trail-mix", "7-grain-bread", "fd-chili", "rice_mix"])
COUNTED = st.builds(lambda n, food: f"{n} {food}", st.integers(1, 9), FOODS)
CHOICES = st.lists(COUNTED | FOODS, min_size=1, max_size=3).map(" + ".join)
NAMES = st.text("abcäßж '\"\\", min_size=1, max_size=8).filter(lambda name: name.strip())
MASS = st.integers(40, 120).map("{} kg".format) | st.integers(90, 250).map("{} lb".format)
DISTANCE = st.integers(1, 40).map("{} km".format) | st.floats(1, 25).map("{:.1f} mi".format)
TARGET = st.sampled_from(["", "light", "usual", "hungry", "85%", "2200 kcal", "9000 kJ"])


@st.composite
def answers(draw: Any) -> Answers:
    masses = draw(st.lists(MASS, min_size=1, max_size=4))
    names = [f"{draw(NAMES)} {number}" for number in range(draw(st.integers(0, len(masses))))]
    return Answers(
        masses=tuple(masses),
        begin="2026-07-02 09:00",
        end=f"2026-07-{draw(st.integers(3, 28)):02d} 15:00",
        distance=draw(DISTANCE),
        up=draw(st.integers(0, 2000).map("{} m".format)),
        target=draw(TARGET),
        names=tuple(names),
        title=draw(st.just("") | NAMES),
        zone=draw(st.sampled_from(["", "Europe/Vienna", "America/Denver"])),
        meals={"breakfast": tuple(draw(st.lists(CHOICES, max_size=3)))},
        bags=tuple(draw(st.lists(COUNTED | FOODS, max_size=2))),
        counts=tuple(draw(st.lists(COUNTED.map("{} a day".format), max_size=2))),
    )


@settings(max_examples=examples(40))
@given(answers())
def test_a_trip_is_the_same_after_saving_and_loading(given_answers: Answers) -> None:
    trip = parse_trip(write_trip(given_answers), "trip.toml")
    assert decode(json.loads(json.dumps(encode(trip, Trip))), Trip) == trip


@settings(max_examples=examples(40))
@given(answers())
def test_what_start_writes_is_read_without_faults_and_says_the_same(given_answers: Answers) -> None:
    trip = parse_trip(write_trip(given_answers), "trip.toml")
    assert len(trip.walkers) == len(given_answers.masses)
    for name, walker in zip(given_answers.names, trip.walkers, strict=False):
        assert walker.name == name.strip()
    for walker in trip.walkers:
        assert len(walker.usual.bags) == len(given_answers.bags)
        assert len(walker.usual.meals.get("breakfast", ())) == len(given_answers.meals["breakfast"])


PLAIN = (
    st.booleans()
    | st.integers(-1000, 1000)
    | st.text(max_size=8).filter(lambda text: "\x00" not in text)
    | st.floats(-100, 100).map(lambda number: round(number, 3))
)
VALUES = PLAIN | st.lists(PLAIN, max_size=3)
KEYS = st.sampled_from(["a", "b", "c.d", "c.e", "t.a", "t.b.c", "l[0]", "l[1]", "w[0].a", "w[1].b"])
BASE = """\
# head
a = 1  # one
c.d = "x"
l = [1,  # first
  2]

# the table
[t]
a = true
b = { c = 1 }  # inline

[[w]]
a = 1
# between
[[w]]
b = 07:30
# end
"""


@given(st.lists(st.tuples(KEYS, VALUES), max_size=5))
def test_edits_set_what_they_mean_and_keep_every_note(edits: list[tuple[str, Any]]) -> None:
    text = BASE
    for path, value in edits:
        text = edit_trip(text, {path: value})
    data = read_toml(text, "t.toml").data
    for path, value in dict(edits).items():
        found: Any = data
        for step in path.replace("[", ".").replace("]", "").split("."):
            found = found[int(step)] if step.isdigit() else found[step]
        assert found == value
        assert type(found) is type(value)
    for note in ("# head", "# one", "# first", "# the table", "# between", "# end"):
        if note != "# first" or not any(path.startswith("l") for path, _ in edits):
            assert note in text


@given(st.lists(KEYS, unique=True, min_size=1, max_size=3))
def test_an_edit_that_sets_what_stands_there_changes_at_most_the_spelling(paths: list[str]) -> None:
    data: Any = read_toml(BASE, "t.toml").data
    for path in paths:
        found = data
        try:
            for step in path.replace("[", ".").replace("]", "").split("."):
                found = found[int(step)] if step.isdigit() else found[step]
        except KeyError:
            continue
        assert read_toml(edit_trip(BASE, {path: found}), "t.toml").data == data


@given(VALUES)
def test_a_written_value_is_read_back(value: Any) -> None:
    assert tomllib.loads(f"x = {source_of(value)}")["x"] == value


@given(st.text(max_size=60) | st.text('[]{}="\\\n#abc.,7: ', max_size=60))
def test_any_text_is_read_or_refused_with_faults_in_their_places(text: str) -> None:
    try:
        parse_trip(text, "t.toml")
    except TripFileError as error:
        lines = text.replace("\r\n", "\n").split("\n")
        for fault in error.faults:
            assert 1 <= fault.line <= len(lines)
            assert 1 <= fault.column <= len(lines[fault.line - 1]) + 1
            assert fault.wrong
