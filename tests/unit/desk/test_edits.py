"""What a wish writes into a trip's text: holds and bans by place, never two that contradict."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.desk import edits
from oatsack.errors import UsageError
from oatsack.files.trip import edit_trip, parse_trip
from support.menus import food
from support.sample_plan import sample_plan

TRIP = """# our walk
from = 2027-06-12T09:00
to = 2027-06-14T15:00
[[walkers]]
name = "Anna"
mass = "62 kg"  # weighed
[[walkers]]
name = "Ben"
mass = "80 kg"
[route]
usual_day = { distance = "15 km", up = "600 m" }
"""
DATE = dt.date(2027, 6, 13)
HERE = {"food": "rolled-oats", "walker": "Anna", "date": DATE, "meal": "breakfast"}


def words(text: str) -> list[tuple[str, str, float]]:
    return [(w.kind, w.where["food"], w.count) for w in edits.words_of(text)]


def test_a_trip_without_rules_has_no_words() -> None:
    assert edits.words_of(TRIP) == ()


def test_keeping_twice_is_keeping_the_last_count() -> None:
    once = edit_trip(TRIP, edits.kept(TRIP, HERE, 2.0))
    twice = edit_trip(once, edits.kept(once, HERE, 3.0))
    assert words(once) == [("holds", "rolled-oats", 2.0)]
    assert words(twice) == [("holds", "rolled-oats", 3.0)]
    assert twice.startswith("# our walk") and "# weighed" in twice


def test_a_food_alone_may_stand_for_a_ban_and_other_words_beside_it() -> None:
    for bans in ('"sardines-oil"  # never', '["sardines-oil"]'):
        text = f"{TRIP}[rules]\nbans = {bans}\n"
        assert words(text) == [("bans", "sardines-oil", 0.0)], bans
        both = edit_trip(text, edits.banned(text, HERE))
        assert words(both) == [("bans", "sardines-oil", 0.0), ("bans", "rolled-oats", 0.0)], bans
        assert ("# never" in both) == ("# never" in bans)
        assert len(parse_trip(both, "walk.toml").rules.holds) == 2
        assert words(edit_trip(text, edits.taken_back(text, "bans", 0))) == [], bans
        held = edit_trip(text, edits.kept(text, {**HERE, "food": "sardines-oil"}, 1.0))
        assert words(held) == [("holds", "sardines-oil", 1.0)], bans


def test_letting_go_leaves_other_words_where_they_are() -> None:
    other = {**HERE, "walker": "Ben"}
    text = edit_trip(TRIP, edits.kept(TRIP, HERE, 1.0))
    text = edit_trip(text, edits.kept(text, other, 2.0))
    text = edit_trip(text, edits.let_go(text, HERE))
    assert [(w.where["walker"], w.count) for w in edits.words_of(text)] == [("Ben", 2.0)]
    with pytest.raises(UsageError, match="nothing is kept"):
        edits.let_go(text, HERE)


def test_keeping_takes_back_what_forbade_it_and_forbidding_what_kept_it() -> None:
    for wide in (HERE, {"food": "rolled-oats", "walker": "Anna"}, {"food": "rolled-oats"}):
        text = edit_trip(TRIP, edits.banned(TRIP, wide))
        assert words(text) == [("bans", "rolled-oats", 0.0)]
        text = edit_trip(text, edits.kept(text, HERE, 1.0))
        assert words(text) == [("holds", "rolled-oats", 1.0)], wide
        text = edit_trip(text, edits.banned(text, wide))
        assert words(text) == [("bans", "rolled-oats", 0.0)], wide


def test_a_ban_of_another_walker_stands_beside_a_hold() -> None:
    text = edit_trip(TRIP, edits.banned(TRIP, {"food": "rolled-oats", "walker": "Ben"}))
    text = edit_trip(text, edits.kept(text, HERE, 1.0))
    assert sorted(words(text)) == [("bans", "rolled-oats", 0.0), ("holds", "rolled-oats", 1.0)]


def test_the_same_ban_is_written_once() -> None:
    text = edit_trip(TRIP, edits.banned(TRIP, HERE))
    assert edit_trip(text, edits.banned(text, HERE)) == text


def test_a_swap_forbids_one_and_keeps_the_other_there() -> None:
    text = edit_trip(TRIP, edits.kept(TRIP, HERE, 2.0))
    text = edit_trip(text, edits.swapped(text, HERE, "muesli", 3.0))
    assert sorted(words(text)) == [("bans", "rolled-oats", 0.0), ("holds", "muesli", 3.0)]
    with pytest.raises(UsageError, match="never"):
        edits.swapped(text, {**HERE, "food": "muesli"}, "rolled-oats", 1.0)


def test_a_word_is_taken_back_by_its_place_and_a_wrong_place_is_said() -> None:
    text = edit_trip(TRIP, edits.banned(TRIP, HERE))
    assert words(edit_trip(text, edits.taken_back(text, "bans", 0))) == []
    for kind, place in (("bans", 1), ("bans", -1), ("holds", 0), ("other", 0)):
        with pytest.raises(UsageError, match="gone"):
            edits.taken_back(text, kind, place)


FOODS = st.sampled_from(["rolled-oats", "muesli", "rice"])
WISHES = st.lists(
    st.tuples(st.sampled_from(["keep", "ban", "free"]), FOODS,
              st.sampled_from(["Anna", "Ben"]), st.integers(1, 4)),
    max_size=8,
)  # fmt: skip


@given(WISHES)
def test_no_order_of_wishes_leaves_a_hold_that_a_ban_forbids(wishes: list[Any]) -> None:
    text = TRIP
    for wish, name, walker, count in wishes:
        where = {**HERE, "food": name, "walker": walker}
        try:
            text = edit_trip(text, {
                "keep": lambda t, w=where, n=count: edits.kept(t, w, float(n)),
                "ban": edits.banned, "free": edits.let_go,
            }[wish](*((text, where) if wish != "keep" else (text,))))  # fmt: skip
        except UsageError:
            continue
    found = edits.words_of(text)
    held = [w.where for w in found if w.kind == "holds"]
    forbidden = [w.where for w in found if w.kind == "bans"]
    assert not [w for w in held if w in forbidden]
    assert len({tuple(sorted(map(str, w.items()))) for w in held}) == len(held)
    trip = parse_trip(text, "trip.toml")
    assert len(trip.rules.holds) == len(found), "the trip file understands every word"


def test_the_dial_writes_the_walkers_own_number_and_never_too_little() -> None:
    plan = sample_plan()
    first = plan.trip.walkers[0]
    base = plan.chosen[first.id].base_kcal
    assert edits.turned(plan, {first.id: 300.0}) == {
        "walkers[0].target": f"{round((base + 300.0) / 10.0) * 10} kcal"
    }
    assert edits.turned(plan, {first.id: -99_999.0}) == {"walkers[0].target": "500 kcal"}
    assert edits.turned(plan, {first.id: 0.0}) == {}
    assert len(edits.numbered(plan, "2500 kcal")) == len(plan.trip.walkers)


def test_like_for_like_brings_no_more_energy_than_what_goes() -> None:
    heavy, light = food("rice", kcal=400, dose_g=100), food("soup", kcal=300, dose_g=30)
    assert edits.like_for_like(heavy, 1.0, light) == 4.0
    assert edits.like_for_like(light, 1.0, heavy) == 1.0, "at least one"
    for doses in (1.0, 2.0, 3.0):
        n = edits.like_for_like(heavy, doses, light)
        assert n * light.dose_kcal <= doses * heavy.dose_kcal + 0.15 * light.dose_kcal
