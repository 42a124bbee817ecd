"""Assumptions: only what was not stated, the most telling first."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from oatsack.provision.assume import SHOWN, assumptions
from oatsack.provision.loads import Backs
from oatsack.values.plan import Assumption
from oatsack.values.route import Day, Stretch
from oatsack.values.trip import Trip
from support.each import each
from support.packs import days_of, people, trip_for

ALL = ("base_weight", "age", "height", "sex", "target")
UNSAID = frozenset(
    {f"walkers[{n}].{name}" for n in (0, 1) for name in ALL} | {"route.terrain", "route.speed"}
)


def days(count: int = 3) -> tuple[Day, ...]:
    """Days with a camp after the walk, so that a faster pace leaves longer rest."""
    camp = Stretch(kind="camp", start_min=900.0, end_min=1320.0)
    return tuple(replace(d, stretches=(*d.stretches, camp)) for d in days_of(count))


@cache
def found(defaults: frozenset[str], count: int = 3, walkers: int = 2) -> tuple[Assumption, ...]:
    """The assumptions of a trip with these defaults."""
    trip: Trip = replace(trip_for(people(walkers), count), defaults=defaults)
    load = {w.id: {d.number: np.full(len(d.stretches), 12.0) for d in days(count)}
            for w in trip.walkers}  # fmt: skip
    return assumptions(trip, days(count), Backs(load, {}))


def test_where_everything_was_stated_only_what_nobody_can_state_remains() -> None:
    assert {a.key for a in found(frozenset())} == {"chores", "field"}


def test_a_default_of_no_account_is_no_assumption() -> None:
    assert found(frozenset({"rules.budget", "kit.mug"})) == found(frozenset())


def test_at_most_five_are_shown() -> None:
    assert SHOWN == 5
    assert len(found(UNSAID)) == SHOWN


def test_the_most_telling_stands_first() -> None:
    effects = [a.effect_kcal for a in found(UNSAID)]
    assert effects == sorted(effects, reverse=True)
    assert effects[-1] > 0.0


def test_only_what_was_not_stated_is_assumed() -> None:
    some = frozenset({"walkers[0].age", "route.terrain"})
    assert {a.path for a in found(some)} == some


@each("path", sorted(p for p in UNSAID if p.startswith(("walkers[0]", "route"))))
def test_each_default_alone_is_told_with_its_effect(path: str) -> None:
    (one,) = found(frozenset({path}))
    assert one.path == path
    assert one.effect_kcal > 0.0


def test_each_kind_is_told_once_by_the_first_walker_it_concerns() -> None:
    both = found(frozenset({"walkers[0].age", "walkers[1].age"}))
    assert [(a.key, a.path) for a in both] == [("age", "walkers[0].age")]


def test_the_second_walker_speaks_where_the_first_stated_it() -> None:
    (one,) = found(frozenset({"walkers[1].height"}))
    assert (one.key, one.path) == ("height", "walkers[1].height")


def test_an_assumption_shows_the_value_that_stands() -> None:
    (one,) = found(frozenset({"walkers[0].base_weight"}))
    assert one.value == people(1)[0].base_weight_kg


def test_an_unsaid_sex_is_told_as_unknown() -> None:
    (one,) = found(frozenset({"walkers[0].sex"}))
    assert one.value == "unknown"


@each(("count", "share"), [(3, 0.85), (7, 0.85), (8, 1.0)])
def test_an_unsaid_target_shows_the_usual_share(count: int, share: float) -> None:
    (one,) = found(frozenset({"walkers[0].target"}), count)
    assert one.value == share


def test_effects_are_per_day_and_do_not_grow_with_the_length_of_equal_days() -> None:
    short, long = (found(frozenset({"walkers[0].base_weight"}), n)[0] for n in (2, 6))
    assert long.effect_kcal == pytest.approx(short.effect_kcal)


def test_turning_an_assumption_leaves_the_trip_as_it_was() -> None:
    trip = replace(trip_for(people(1), 2), defaults=UNSAID)
    before = days(2)
    load = {"a": {d.number: np.full(2, 10.0) for d in before}}
    kept = {n: kg.copy() for n, kg in load["a"].items()}
    first = assumptions(trip, before, Backs(load, {}))
    assert before == days(2)
    assert all(np.array_equal(load["a"][n], kg) for n, kg in kept.items())
    assert assumptions(trip, before, Backs(load, {})) == first
