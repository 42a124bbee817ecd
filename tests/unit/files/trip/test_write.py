"""The file that `start` leaves: what was answered, in the walker's own words, and hints."""

from __future__ import annotations

import re

import pytest

from oatsack.files.trip import Answers, parse_trip, write_trip
from oatsack.files.trip.reference import default_text
from oatsack.files.trip.write import HINTS, ROUTE_HINTS, WALKER_HINTS
from oatsack.values.kit import Kit
from oatsack.values.trip import Rules
from oatsack.values.walker import Choice, Count, Pick, Target

FOUR = Answers(
    masses=("68 kg",), begin="2026-07-02 09:00", end="2026-07-05 15:00", distance="16 km",
    up="700 m",
)  # fmt: skip
ALL = Answers(
    masses=("150 lb", "68 kg"), begin="2026-07-02 09:00", end="2026-07-05 15:00",
    distance="9.9 mi", up="2300 ft", target="hungry", names=("Anna", 'Ben "the boots"'),
    title="Ridge", zone="Europe/Vienna", larders=("mine.csv",),
    meals={"breakfast": ("2 maple-oatmeal + 1 milk-powder", "granola"), "dinner": ("chili",)},
    bags=("trail-mix", "2 beef-jerky"), counts=("2 instant-coffee a day",),
)  # fmt: skip


def test_four_answers_are_read_back() -> None:
    trip = parse_trip(write_trip(FOUR), "trip.toml")
    assert [walker.mass_kg for walker in trip.walkers] == [68.0]
    assert trip.route.usual_day is not None
    assert (trip.route.usual_day.distance_m, trip.route.usual_day.ascent_m) == (16_000.0, 700.0)
    assert (trip.kit, trip.rules, trip.walkers[0].target) == (Kit(), Rules(), Target())
    assert "walkers[0].target" in trip.defaults


def test_all_answers_are_read_back() -> None:
    trip = parse_trip(write_trip(ALL), "trip.toml")
    assert (trip.title, trip.zone, trip.units) == ("Ridge", "Europe/Vienna", "us")
    assert [walker.name for walker in trip.walkers] == ["Anna", 'Ben "the boots"']
    assert trip.walkers[0].mass_kg == pytest.approx(68.0388555)
    assert trip.larders == ("mine.csv",)
    for walker in trip.walkers:
        assert walker.target == Target(share=1.0)
        assert walker.usual.meals["dinner"] == (Choice(picks=(Pick(food="chili"),)),)
        assert walker.usual.bags == (
            Pick(food="trail-mix", count=0),
            Pick(food="beef-jerky", count=2),
        )
        assert walker.usual.counts == (Count(food="instant-coffee", count=2, per="day"),)


def test_the_file_says_what_was_said_in_the_same_words() -> None:
    text = write_trip(ALL)
    for words in ('mass = "150 lb"', 'distance = "9.9 mi"', 'target = "hungry"', 'title = "Ridge"'):
        assert words in text


def test_every_hint_is_a_key_that_may_be_used() -> None:
    """Taking the # away from any one hint leaves a file without faults."""
    lines = write_trip(FOUR).split("\n")
    hinted = [n for n, line in enumerate(lines) if re.match(r"# [a-z_]+ = ", line)]
    assert len(hinted) > 20
    for number in hinted:
        used = [*lines]
        used[number] = lines[number][2:]
        if used[number].startswith("track"):
            used = [line for line in used if not line.startswith("usual_day")]
        trip = parse_trip("\n".join(used), "trip.toml")
        key = lines[number][2:].split(" ")[0]
        assert any(path.endswith(f".{key}") or path == key for path in trip.origins), key


def test_a_hint_shows_the_default_that_stands() -> None:
    """Taking the # away from hints whose default is a single value changes nothing."""
    plain = parse_trip(write_trip(FOUR), "trip.toml")
    text = write_trip(FOUR)
    for key in (
        "base_weight",
        "eats",
        "hot_drinks",
        "pace",
        "start_height",
        "warm",
        "cold",
        "walk_from",
        "mug",
        "hot_breakfast",
        "cook_midday",
        "no_flame",
        "pots",
        "stove",
    ):
        assert f"# {key} = " in text
        text = text.replace(f"# {key} = ", f"{key} = ", 1)
    trip = parse_trip(text, "trip.toml")
    assert (trip.walkers, trip.route, trip.kit, trip.rules) == (
        plain.walkers, plain.route, plain.kit, plain.rules,
    )  # fmt: skip


def test_every_hinted_key_says_what_it_is() -> None:
    from oatsack.files.trip.tables import RouteTable, WalkerTable

    tables = [("walkers", WalkerTable, WALKER_HINTS), ("route", RouteTable, ROUTE_HINTS), *HINTS]
    for _, table, keys in tables:
        for key in keys:
            sample, says = default_text(table, key)
            assert sample, key
            assert says.endswith("."), key
