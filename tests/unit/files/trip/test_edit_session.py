"""An evening of edits on one trip file: every note stays, and each step means what it says."""

from __future__ import annotations

from oatsack.files.trip import Answers, edit_trip, parse_trip, write_trip
from oatsack.values.trip import Hold, Trip
from oatsack.values.walker import Avoid

START = write_trip(
    Answers(
        masses=("68 kg", "80 kg"), names=("Anna", "Ben"), begin="2026-07-02 09:00",
        end="2026-07-05 15:00", distance="16 km", up="700 m", target="usual",
        meals={"dinner": ("chili", "2 rice + 1 oil")}, bags=("trail-mix",),
        counts=("2 coffee a day",),
    )
)  # fmt: skip
NOTES = [line for line in START.split("\n") if line.startswith("#")]


def step(text: str, **changes: object) -> tuple[str, Trip]:
    """One edit by the names of `PATHS`: the new text, and the trip it holds."""
    new = edit_trip(text, {PATHS[name]: value for name, value in changes.items()})
    for note in NOTES:
        assert note in new.split("\n"), note
    return new, parse_trip(new, "trip.toml")


PATHS = {
    "target": "walkers[0].target",
    "avoids": "walkers[1].avoids",
    "second_allergy": "walkers[1].avoids[1]",
    "third_dinner": "walkers[0].usual.dinner[2]",
    "first_dinner": "walkers[0].usual.dinner[0]",
    "liking": "walkers[0].liking.chili",
    "more_liking": "walkers[0].liking.rice",
    "down": "route.usual_day.down",
    "pot": "kit.pots",
    "mug": "kit.mug",
    "lunch_time": "rules.times.lunch",
    "first_hold": "rules.holds[0]",
    "second_hold": "rules.holds[1]",
    "ban": "rules.bans[0]",
    "third_walker": "walkers[2]",
    "today": "now.day",
}


def test_an_evening_of_edits() -> None:
    text, trip = step(START, target="2200 kcal")
    assert trip.walkers[0].target.kcal == 2200.0
    assert trip.walkers[1].target.kcal is None

    text, trip = step(text, avoids=["peanut"])
    text, trip = step(text, second_allergy={"allergen": "egg", "scope": "pot"})
    assert trip.walkers[1].avoids == (
        Avoid(allergen="peanut"),
        Avoid(allergen="egg", scope="pot"),
    )

    text, trip = step(text, third_dinner="lasagna")
    text, trip = step(text, first_dinner=None)
    dinners = trip.walkers[0].usual.meals["dinner"]
    assert [choice.picks[0].food for choice in dinners] == ["rice", "lasagna"]
    assert [c.picks[0].food for c in trip.walkers[1].usual.meals["dinner"]] == ["chili", "rice"]

    text, trip = step(text, liking=5)
    text, trip = step(text, more_liking=2)
    assert trip.walkers[0].liking == {"chili": 5.0, "rice": 2.0}
    assert trip.walkers[1].liking == {}

    text, trip = step(text, down="650 m")
    assert trip.route.usual_day is not None
    assert trip.route.usual_day.descent_m == 650.0

    text, trip = step(text, pot=["1.3 l"], mug="12 fl oz")
    assert trip.kit.pots[0].volume_ml == 1300.0

    text, trip = step(text, lunch_time="13:00")
    assert trip.rules.meal_clock_min["lunch"] == 780.0


def test_holds_and_bans_come_and_go() -> None:
    text, trip = step(START, first_hold={"food": "chili", "walker": "Anna", "count": 1})
    text, trip = step(text, second_hold={"food": "rice", "meal": "dinner"})
    text, trip = step(text, ban={"food": "soup"})
    assert trip.rules.holds == (
        Hold(food="chili", walker="anna", count=1.0),
        Hold(food="rice", meal="dinner", count=1.0),
        Hold(food="soup"),
    )
    text, trip = step(text, first_hold=None)
    assert [hold.food for hold in trip.rules.holds] == ["rice", "soup"]
    text, trip = step(text, first_hold=None, ban=None)
    assert trip.rules.holds == ()


def test_a_third_walker_joins_and_leaves() -> None:
    text, trip = step(START, third_walker={"name": "Carla", "mass": "55 kg"})
    assert [walker.id for walker in trip.walkers] == ["anna", "ben", "carla"]
    assert trip.route.usual_day is not None
    text, trip = step(text, third_walker=None)
    assert [walker.id for walker in trip.walkers] == ["anna", "ben"]


def test_the_walk_begins() -> None:
    text, trip = step(START, today=2)
    assert trip.now is not None
    assert trip.now.day == 2
    _, trip = step(text, today=3)
    assert trip.now is not None
    assert trip.now.day == 3


def test_undoing_each_edit_gives_the_file_of_before() -> None:
    for name, value in (("down", "600 m"), ("mug", "250 ml"), ("third_dinner", "soup")):
        text, _ = step(START, **{name: value})
        assert text != START
        assert step(text, **{name: None})[0] == START
