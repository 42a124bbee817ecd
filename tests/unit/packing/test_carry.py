"""Who carries what: parts, stoves, cans, fuel along the legs, and the question that is asked."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from oatsack.packing.carry import (
    How,
    cans_in,
    common_loads,
    give_out,
    heat_of,
    losses_of,
    parts_of,
    question,
)
from oatsack.packing.loss import Heat
from oatsack.packing.share import NOBODY
from support.packs import LARDER, bag, gas, people

NO_HEAT = Heat()
LEGS = {1: (1, 3)}


def test_parts_follow_stated_capacity_alone() -> None:
    a, b = people(2)
    stated = parts_of((replace(a, mass_kg=80.0, capacity=1.2), replace(b, capacity=0.8)))
    assert stated == {"a": pytest.approx(0.6), "b": pytest.approx(0.4)}


def test_where_nobody_stated_a_capacity_body_mass_stands_in() -> None:
    a, b = people(2)
    silent = parts_of((replace(a, mass_kg=84.0), replace(b, mass_kg=57.0)))
    assert silent["a"] == pytest.approx(84.0 / 141.0)
    assert sum(silent.values()) == pytest.approx(1.0)


def test_the_strongest_has_the_stove_and_the_first_can() -> None:
    party = people(3)
    heat = heat_of(party, [("a", "b", "c")], 1, 1)
    assert heat.stoves == heat.fuel == {"c"}


def test_further_cans_ride_on_other_backs() -> None:
    heat = heat_of(people(3), [("a", "b", "c")], 1, 2)
    assert (heat.stoves, heat.fuel) == ({"c"}, {"b", "c"})
    assert heat_of(people(3), [("a", "b", "c")], 1, 9).fuel == {"a", "b", "c"}


def test_each_cook_group_has_its_stove_where_there_are_pots_enough() -> None:
    groups = [("a", "b"), ("c", "d")]
    assert heat_of(people(4), groups, 2, 2).stoves == {"b", "d"}
    assert heat_of(people(4), groups, 1, 2).stoves == {"d"}


def test_fuel_gets_less_from_leg_to_leg_and_cans_stay() -> None:
    heat = Heat(stoves=frozenset({"a"}), fuel=frozenset({"a", "b"}))
    common = common_loads(gas(2), heat, {1: (1, 3), 2: (4, 5)})
    assert common[1]["a"] == {"fuel": pytest.approx(230.0), "cans": pytest.approx(150.0)}
    assert common[2]["a"] == {"fuel": pytest.approx(200.0), "cans": pytest.approx(150.0)}
    assert common[1]["a"] == common[1]["b"]


def test_no_fuel_no_common_load() -> None:
    assert common_loads(None, Heat(fuel=frozenset({"a"})), LEGS) == {}
    assert common_loads(gas(), NO_HEAT, LEGS) == {}
    assert cans_in(None) == 0
    assert cans_in(replace(gas(), need_g=0.0)) == 0
    assert cans_in(gas(3)) == 3
    assert cans_in(replace(gas(), cans=())) == 1


def test_the_question_knows_what_is_on_each_back_already() -> None:
    ask = question([bag()], people(2), LARDER, (1, 3), NO_HEAT,
                   common={"b": {"fuel": 200.0, "cans": 100.0}})  # fmt: skip
    assert list(ask.already) == pytest.approx([0.0, 0.9])
    assert ask.kg_days == pytest.approx([(105.0 + 5.0 + 5.0) / 1000.0])
    assert ask.names == ("1-dinner-a",)


def test_only_what_is_wanted_at_hand_is_bound_to_its_eater() -> None:
    bags = [bag("m", label="move"), bag("s", label="small"), bag("d"), bag("l", label="lunch"),
            bag("x", label="move", group="a+b")]  # fmt: skip
    ask = question(bags, people(2), LARDER, (1, 3), NO_HEAT, common={})
    assert list(ask.own) == [0, 0, NOBODY, NOBODY, NOBODY]


def test_a_bag_begins_on_its_eaters_back_and_a_shared_one_on_the_lighter() -> None:
    a, b = (replace(w, mass_kg=70.0) for w in people(2))
    bags = [bag("1", group="a"), bag("2", group="b"), bag("3", {"oats": 60.0}, group="a+b"),
            bag("4", {"oats": 60.0}, group="a+b")]  # fmt: skip
    done = give_out(bags, (a, b), LARDER, LEGS, NO_HEAT, common={})
    carrier = {x.id: x.carrier for x in done.bags}
    assert (carrier["1"], carrier["2"]) == ("a", "b")
    assert carrier["3"] != carrier["4"]


def test_an_earlier_carrier_who_left_the_party_is_replaced() -> None:
    how = How(near={"1": "gone", "2": "b"})
    done = give_out([bag("1"), bag("2")], people(2), LARDER, LEGS, NO_HEAT, common={}, how=how)
    assert {x.carrier for x in done.bags} <= {"a", "b"}
    assert next(x for x in done.bags if x.id == "2").carrier == "b"


def test_legs_are_shared_one_by_one() -> None:
    legs = {1: (1, 3), 2: (4, 5)}
    bags = [bag("1"), bag("2", leg=2, day=4), bag("3", leg=2, day=5)]
    done = give_out(bags, people(2), LARDER, legs, NO_HEAT, common={})
    assert set(done.shared) == {1, 2}
    assert len(done.shared[2].carrier) == 2
    assert np.isfinite([s.excess for s in done.shared.values()]).all()


def test_losses_are_reported_for_every_leg_with_food() -> None:
    legs = {1: (1, 3), 2: (4, 5)}
    bags = [bag("1"), bag("2", leg=2, day=4)]
    done = give_out(bags, people(2), LARDER, legs, NO_HEAT, common={})
    lost = losses_of(done, people(2), LARDER, legs)
    assert [(x.leg, x.walker) for x in lost] == [(1, "a"), (1, "b"), (2, "a"), (2, "b")]
    assert [x.leg for x in lost if x.worst] == [1, 2]
