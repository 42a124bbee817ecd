"""What everyone needs and chooses to eat, under the load on the back."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.menu.slots import slots_of
from oatsack.provision.loads import Backs
from oatsack.provision.needs import (
    cautions_of,
    eating,
    moved_kcal,
    needs_of,
    shares_of,
    wanted,
    window_kcal,
)
from oatsack.values.route import Stretch
from oatsack.values.trip import Rules, Trip
from oatsack.values.walker import Target, Walker
from support.amount import examples
from support.packs import days_of, people, trip_for

DAYS = days_of(3)


def party(*targets: Target, **more: object) -> Trip:
    """A three-day trip of one walker per target."""
    who = people(len(targets), **more)
    return trip_for((replace(w, target=t) for w, t in zip(who, targets, strict=True)), 3)


def backs(trip: Trip, kg: float = 12.0) -> Backs:
    """The same load all the way."""
    load = {w.id: {d.number: np.full(len(d.stretches), kg) for d in DAYS} for w in trip.walkers}
    return Backs(load, {})


def test_everyone_has_a_need_for_every_day() -> None:
    trip = party(Target(), Target())
    found = needs_of(trip, DAYS, backs(trip))
    assert {w: set(n.days) for w, n in found.items()} == {"a": {1, 2, 3}, "b": {1, 2, 3}}


@settings(max_examples=examples(15))
@given(st.floats(0.0, 20.0), st.floats(0.0, 20.0))
def test_a_heavier_back_never_lessens_the_need(one: float, two: float) -> None:
    trip = party(Target())
    light, heavy = (needs_of(trip, DAYS, backs(trip, kg))["a"] for kg in sorted((one, two)))
    for n, day in light.days.items():
        assert heavy.days[n].energy_kcal >= day.energy_kcal - 1e-9


def test_the_scope_of_a_need_names_its_walker() -> None:
    trip = party(Target(), Target())
    assert [n.scope for n in needs_of(trip, DAYS, backs(trip)).values()] == ["need/a", "need/b"]


def test_a_typed_number_is_eaten_in_full_days_whatever_the_load() -> None:
    trip = party(Target(kcal=2345.0))
    slots = slots_of(trip, DAYS)
    light, heavy = (wanted(trip, DAYS, slots, backs(trip, kg)) for kg in (5.0, 25.0))
    assert light.kcal == heavy.kcal
    shares = shares_of(trip, slots, "a")
    assert light.kcal["a"] == pytest.approx({n: 2345.0 * s for n, s in shares.items()})


def test_a_share_follows_the_need() -> None:
    half, full = party(Target(share=0.5)), party(Target(share=1.0))
    slots = slots_of(half, DAYS)
    low = wanted(half, DAYS, slots, backs(half)).kcal["a"]
    high = wanted(full, DAYS, slots, backs(full)).kcal["a"]
    assert high == pytest.approx({n: 2 * kcal for n, kcal in low.items()})


def test_all_of_the_need_is_eaten_at_a_share_of_one_over_the_walk() -> None:
    trip = party(Target(share=1.0))
    found = wanted(trip, DAYS, slots_of(trip, DAYS), backs(trip))
    need = sum(d.energy_kcal for d in found.needs["a"].days.values())
    assert sum(found.kcal["a"].values()) == pytest.approx(need)


def test_two_walkers_choose_each_for_themselves() -> None:
    trip = party(Target(kcal=2000.0), Target(share=0.9))
    found = wanted(trip, DAYS, slots_of(trip, DAYS), backs(trip))
    assert {w: t.how for w, t in found.targets.items()} == {"a": "typed", "b": "share"}


def test_whoever_says_nothing_is_told_so() -> None:
    trip = party(Target())
    found = wanted(trip, DAYS, slots_of(trip, DAYS), backs(trip))
    assert found.targets["a"].how == "nobody-asked"


def test_whoever_is_nursing_eats_the_whole_need_even_where_less_was_typed() -> None:
    trip = party(Target(kcal=500.0), condition="nursing")
    found = wanted(trip, DAYS, slots_of(trip, DAYS), backs(trip))
    assert found.targets["a"].how == "full"
    assert sum(found.kcal["a"].values()) >= sum(
        d.energy_kcal for d in found.needs["a"].days.values()
    ) - 1e-6


def test_a_day_without_a_meal_of_ones_own_is_no_day_of_eating() -> None:
    trip = party(Target(), Target())
    slots = tuple(s for s in slots_of(trip, DAYS) if s.walker == "a" or s.day != 2)
    need = needs_of(trip, DAYS, backs(trip))
    assert set(eating(need["a"].days, slots, "a")) == {1, 2, 3}
    assert set(eating(need["b"].days, slots, "b")) == {1, 3}
    assert eating(need["b"].days, (), "b") == {}


def test_a_day_inside_the_walk_from_breakfast_to_dinner_counts_in_full() -> None:
    trip = party(Target())
    shares = shares_of(trip, slots_of(trip, DAYS), "a")
    assert shares[2] == pytest.approx(1.0)
    assert 0.0 < shares[1] < 1.0
    assert 0.0 < shares[3] < 1.0


def test_a_need_that_did_not_change_has_moved_by_nothing() -> None:
    trip = party(Target(), Target())
    need = needs_of(trip, DAYS, backs(trip))
    assert moved_kcal(need, need) == 0.0


def test_what_moved_is_the_largest_change_of_any_day() -> None:
    trip = party(Target(), Target())
    before, after = (needs_of(trip, DAYS, backs(trip, kg)) for kg in (10.0, 14.0))
    slow = [abs(after[w].days[n].energy_kcal - before[w].days[n].energy_kcal)
            for w in before for n in before[w].days]  # fmt: skip
    assert moved_kcal(before, after) == max(slow) > 0.0
    assert moved_kcal(after, before) == max(slow)


def test_nobody_moves_by_nothing() -> None:
    assert moved_kcal({}, {}) == 0.0


@given(st.dictionaries(st.sampled_from("abc"), st.dictionaries(
    st.integers(1, 5), st.floats(0.0, 5000.0), max_size=5), max_size=3))  # fmt: skip
def test_the_window_is_that_of_the_leanest_day_with_food(target: dict[str, dict[int, float]]) -> None:  # noqa: E501
    trip = trip_for(people(1), 3, rules=Rules(day_window=0.1))
    eaten = [k for of in target.values() for k in of.values() if k > 0.0]
    assert window_kcal(trip, target) == (0.1 * min(eaten) if eaten else 0.0)


def test_eating_far_too_little_is_heard() -> None:
    trip = party(Target())
    slots = slots_of(trip, DAYS)
    need = needs_of(trip, DAYS, backs(trip))
    hungry = {"a": {1: 100.0, 2: 100.0, 3: 100.0}}
    heard = list(cautions_of(trip, slots, need, hungry))
    assert any(f.level == "caution" and f.scope.startswith("need/a") for f in heard)


def test_eating_all_of_the_need_of_whole_days_brings_no_caution_of_its_own() -> None:
    trip = party(Target())
    camp = (Stretch(kind="camp", start_min=900.0, end_min=1320.0),
            Stretch(kind="sleep", start_min=1320.0, end_min=1980.0))  # fmt: skip
    whole = tuple(replace(d, stretches=(*d.stretches, *camp)) for d in DAYS)
    need = needs_of(trip, whole, Backs({"a": {n: np.full(3, 12.0) for n in (1, 2, 3)}}, {}))
    full = {"a": {n: d.energy_kcal for n, d in need["a"].days.items()}}
    own = {flag.key for flag in need["a"].flags}
    heard = cautions_of(trip, slots_of(trip, whole), need, full)
    assert [flag.key for flag in heard if flag.key not in own] == []


def test_walkers_are_known_by_their_id() -> None:
    trip = trip_for((Walker(id="zoe", name="Anyone", mass_kg=60.0),), 3)
    assert set(needs_of(trip, DAYS, backs(trip))) == {"zoe"}
