"""The table of a place where food is taken on: read, defaulted, and refused where it cannot be."""

from __future__ import annotations

import datetime as dt

import pytest

from oatsack.errors import TripFileError
from oatsack.files.trip import parse_trip
from oatsack.values.pack import Place

TRIP = """\
from = "2026-07-02 09:00"
to = "2026-07-05 15:00"
[[walkers]]
mass = "68 kg"
[route]
track = "way.gpx"
[[places]]
name = "Mill Town"
"""


def place(more: str) -> Place:
    (found,) = parse_trip(TRIP + more, "trip.toml").places
    return found


def faults(more: str) -> list[tuple[str, str]]:
    with pytest.raises(TripFileError) as caught:
        parse_trip(TRIP + more, "trip.toml")
    assert all(f.instead and f.line > 0 for f in caught.value.faults)
    return [(f.path, f.wrong) for f in caught.value.faults]


def test_a_name_is_enough_and_the_rest_is_common_practice() -> None:
    assert place("") == Place(name="Mill Town")
    assert parse_trip(TRIP.split("[[places]]")[0], "trip.toml").places == ()


def test_everything_that_can_be_said_of_a_place_is_read() -> None:
    found = place(
        'kind = "shop"\nsells = ["village", "kiosk"]\nfastest = 2\nslowest = 4\nhold = 30\n'
        'open = ["mon", "sat"]\nearly = 0\nlate = 5\ntown = "dinner"\n'
        'town_energy = "1500 kcal"\nchecked = "2026-05-04"\n'
    )
    assert found == Place(
        name="Mill Town", kind="shop", sells=frozenset({"village", "kiosk"}), transit_fast_days=2,
        transit_slow_days=4, hold_days=30, open_weekdays=frozenset({0, 5}), early_days=0,
        late_days=5, town_meals=frozenset({"dinner"}), town_kcal=1500.0,
        checked=dt.date(2026, 5, 4).isoformat(),
    )  # fmt: skip


def test_what_cannot_be_is_refused_where_it_stands() -> None:
    cases = {
        "fastest = 9": ("places[0].fastest", "the fastest is slower than the slowest"),
        "slowest = 1": ("places[0].slowest", "the fastest is slower than the slowest"),
        "open = []": ("places[0].open", "never open"),
        '[[places]]\nname = "mill town"': ("places[1].name", "a place named twice"),
        'town = "move"': ("places[0].town", "no meal we know"),
        'open = "sunday"': ("places[0].open", "no weekday we know"),
        "hold = -1": ("places[0].hold", "negative"),
    }
    wrong = {text: faults(text + "\n") for text in cases}
    assert wrong == {text: [told] for text, told in cases.items()}
