"""What is on each back: the guess of round 0, and the sacks as they were packed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.provision import loads
from oatsack.provision.loads import (
    MEAN_WATER_KG,
    ROUND_0_KCAL_PER_G,
    guess,
    heavier,
    leg_ends,
    weigh,
)
from oatsack.values.kitchen import FuelPlan, KitchenLedger, WaterCarry
from oatsack.values.menu import Slot
from oatsack.values.pack import Bag, Item, Packed, Sack
from oatsack.values.route import Day, Stretch
from oatsack.values.walker import Walker
from support.packs import days_of, people

DRY = KitchenLedger()


FOUR = ("breakfast", "lunch", "move", "dinner")


def slots(walkers: Sequence[Walker], days: Sequence[Day],
          meals: Sequence[str] = FOUR) -> tuple[Slot, ...]:  # fmt: skip
    """A slot for every walker, day and meal."""
    clock = {"breakfast": 420.0, "lunch": 750.0, "move": 660.0, "dinner": 1110.0}
    return tuple(
        Slot(walker=w.id, day=d.number, date=d.date, meal=m, clock_min=clock[m], hot=True,  # type: ignore[arg-type]
             leg=d.leg)
        for w in walkers for d in days for m in meals
    )  # fmt: skip


def item(day: int, grams: float, meal: str = "dinner", walker: str = "a") -> Item:
    """So many grams eaten at a meal."""
    return Item(food="oats", doses=grams / 50.0, net_g=grams, walker=walker, day=day, meal=meal)


def bag(name: str, *items: Item, wrap: float = 10.0, leg: int = 1) -> Bag:
    """A bag of these items."""
    return Bag(id=name, label="dinner", number=1, of=1, items=items, leg=leg,
               net_g=sum(i.net_g for i in items), wrap_g=wrap, volume_ml=100.0)  # fmt: skip


def sack(*bags: Bag, walker: str = "a", leg: int = 1, **common: float) -> Sack:
    """A sack that holds these bags."""
    return Sack(walker=walker, leg=leg, bags=tuple(b.id for b in bags),
                start_g=sum(b.gross_g for b in bags), by_day_g={}, wrappers_by_day_g={},
                common_g=common)  # fmt: skip


def camped(days: Sequence[Day]) -> tuple[Day, ...]:
    """The days with an evening in camp after the walk."""
    camp = Stretch(kind="camp", start_min=900.0, end_min=1320.0)
    return tuple(replace(d, stretches=(*d.stretches, camp)) for d in days)


def test_the_guess_puts_every_gram_of_food_on_some_back() -> None:
    who, days = people(3), days_of(4)
    target = {w.id: dict.fromkeys(range(1, 5), 2520.0) for w in who}
    found = guess(who, days, slots(who, days), target)
    whole = 3 * 4 * 2520.0 / ROUND_0_KCAL_PER_G
    assert sum(f.start for f in found.food_g.values()) == pytest.approx(whole)


@given(st.lists(st.sampled_from([0.5, 1.0, 1.5, 2.0]), min_size=1, max_size=5),
       st.integers(1, 5))  # fmt: skip
def test_the_guess_shares_food_by_capacity(capacities: list[float], count: int) -> None:
    who = tuple(replace(w, capacity=c)
                for w, c in zip(people(len(capacities)), capacities, strict=True))  # fmt: skip
    days = days_of(count)
    target = {w.id: dict.fromkeys(range(1, count + 1), 2000.0) for w in who}
    found = guess(who, days, slots(who, days), target)
    each = {w.id: found.food_g[w.id].start / w.capacity for w in who}
    assert max(each.values()) == pytest.approx(min(each.values()))


def test_a_guess_without_a_target_for_a_day_carries_nothing_for_it() -> None:
    who, days = people(1), days_of(2)
    found = guess(who, days, slots(who, days), {"a": {1: 2100.0}})
    assert found.food_g["a"].start == pytest.approx(2100.0 / ROUND_0_KCAL_PER_G)
    assert found.food_g["a"].left(np.array([1440.0]))[0] == pytest.approx(0.0)


def test_the_guess_holds_base_weight_food_and_the_stated_water() -> None:
    who, days = people(1, base_weight_kg=7.0), days_of(1)
    found = guess(who, days, slots(who, days, ["dinner"]), {"a": {1: 4200.0}})
    assert found.load_kg["a"][1] == pytest.approx([7.0 + 1.0 + MEAN_WATER_KG])


def test_the_guessed_load_never_grows_from_day_to_day_within_a_leg() -> None:
    who, days = people(2), days_of(6)
    target = {w.id: dict.fromkeys(range(1, 7), 2800.0) for w in who}
    found = guess(who, days, slots(who, days), target)
    for load in found.load_kg.values():
        assert np.all(np.diff(np.concatenate([load[n] for n in range(1, 7)])) <= 1e-12)


def test_food_of_a_later_leg_waits_at_the_resupply() -> None:
    who, days = people(1), days_of(4, legs=(2, 2))
    found = guess(who, days, slots(who, days, ["dinner"]), {"a": dict.fromkeys(range(1, 5), 4200.)})
    load = [float(found.load_kg["a"][n][0]) for n in range(1, 5)]
    base = who[0].base_weight_kg + MEAN_WATER_KG
    assert load == pytest.approx([base + 2, base + 1, base + 2, base + 1])


@given(st.sampled_from([0.0, 0.5, 3.0, 12.0]))
def test_heavier_adds_the_same_to_every_stretch(kg: float) -> None:
    who, days = people(2), camped(days_of(3))
    target = {w.id: dict.fromkeys(range(1, 4), 2500.0) for w in who}
    before = guess(who, days, slots(who, days), target)
    after = heavier(before, kg)
    for w in before.load_kg:
        for n, load in before.load_kg[w].items():
            assert after.load_kg[w][n] - load == pytest.approx(np.full(load.shape, kg))
    assert after.food_g == before.food_g


def test_what_is_weighed_at_the_start_is_the_food_of_all_sacks() -> None:
    who, days = people(2), days_of(2)
    one, two = bag("x", item(1, 300.0), item(2, 200.0)), bag("y", item(1, 120.0, walker="b"))
    packed = Packed(bags=(one, two), sacks=(sack(one), sack(two, walker="b")))
    found = weigh(who, days, slots(who, days), packed, DRY)
    assert {w: f.start for w, f in found.food_g.items()} == {"a": 500.0, "b": 120.0}


def test_a_walker_may_carry_what_another_eats() -> None:
    who, days = people(2), days_of(1)
    one = bag("x", item(1, 400.0, walker="b"))
    found = weigh(who, days, slots(who, days), Packed(bags=(one,), sacks=(sack(one),)), DRY)
    assert found.food_g["a"].start == 400.0
    assert found.food_g["b"].start == 0.0


def test_a_bag_leaves_the_sack_at_the_clock_of_its_eaters_meal() -> None:
    who, days = people(1), days_of(1)
    one = bag("x", item(1, 400.0, "dinner"))
    found = weigh(who, days, slots(who, days), Packed(bags=(one,), sacks=(sack(one),)), DRY)
    left = found.food_g["a"].left(np.array([1109.0, 1110.0]))
    assert list(left) == [400.0, 0.0]


def test_a_meal_without_a_slot_is_eaten_at_noon() -> None:
    who, days = people(1), days_of(1)
    one = bag("x", item(1, 400.0, "lunch"))
    found = weigh(who, days, (), Packed(bags=(one,), sacks=(sack(one),)), DRY)
    assert list(found.food_g["a"].left(np.array([719.0, 720.0]))) == [400.0, 0.0]


def test_nibbles_leave_the_sack_over_the_walk() -> None:
    who, days = people(1), days_of(1)
    one = bag("x", item(1, 400.0, "move"))
    walk = days[0].stretches[0]
    halves = tuple(replace(walk, start_min=a, end_min=b) for a, b in ((540, 720), (720, 900)))
    days = (replace(days[0], stretches=halves),)
    found = weigh(who, days, (), Packed(bags=(one,), sacks=(sack(one),)), DRY)
    assert list(found.food_g["a"].left(np.array([600.0, 700.0, 850.0]))) == [400.0, 200.0, 0.0]


def test_wrappers_stay_on_the_back_until_the_leg_ends() -> None:
    who, days = people(1), camped(days_of(4, legs=(2, 2)))
    one, two = bag("x", item(1, 500.0, "lunch"), wrap=40.0), bag("y", item(3, 250.0), leg=2,
                                                                  wrap=60.0)  # fmt: skip
    packed = Packed(bags=(one, two), sacks=(sack(one), sack(two, leg=2)))
    found = weigh(who, days, slots(who, days), packed, DRY)
    base = who[0].base_weight_kg + MEAN_WATER_KG
    assert found.load_kg["a"][2] == pytest.approx(np.full(2, base + 0.040))
    assert found.load_kg["a"][4] == pytest.approx(np.full(2, base + 0.060))


def test_spare_food_is_carried_to_the_end_of_its_leg() -> None:
    who, days = people(1), days_of(2)
    one = bag("spare", item(0, 150.0), wrap=0.0)
    found = weigh(who, days, slots(who, days), Packed(bags=(one,), sacks=(sack(one),)), DRY)
    assert found.food_g["a"].start == 0.0
    for load in found.load_kg["a"].values():
        assert load == pytest.approx([who[0].base_weight_kg + MEAN_WATER_KG + 0.150])


def test_common_things_weigh_on_the_back_of_who_carries_them() -> None:
    who, days = people(2), days_of(1)
    packed = Packed(sacks=(sack(stove=90.0, container=1100.0), sack(walker="b")))
    found = weigh(who, days, (), packed, DRY)
    more = found.load_kg["a"][1] - found.load_kg["b"][1]
    assert more == pytest.approx([1.190])


def fuel(by_day: dict[str, float], carried: float) -> KitchenLedger:
    """A kitchen that burns so much by day."""
    burnt = sum(by_day.values())
    return KitchenLedger(fuel=FuelPlan(kind="gas", by_day_g=by_day, burnt_g=burnt, reserve_g=0.0,
                                       need_g=burnt, carried_g=carried))  # fmt: skip


def test_fuel_falls_by_what_the_days_before_have_burnt() -> None:
    who, days = people(1), days_of(3)
    found = weigh(who, days, (), Packed(sacks=(sack(fuel=100.0),)),
                  fuel({"1": 30.0, "2": 20.0, "3": 50.0}, 100.0))  # fmt: skip
    base = who[0].base_weight_kg + MEAN_WATER_KG
    load = [float(found.load_kg["a"][n][0]) - base for n in (1, 2, 3)]
    assert load == pytest.approx([0.100, 0.070, 0.050])


def test_fuel_shared_by_two_falls_on_both_in_proportion() -> None:
    who, days = people(2), days_of(2)
    sacks = (sack(fuel=75.0), sack(walker="b", fuel=25.0))
    found = weigh(who, days, (), Packed(sacks=sacks), fuel({"1": 40.0, "2": 60.0}, 100.0))
    fall = {w: float(load[1][0] - load[2][0]) for w, load in found.load_kg.items()}
    assert fall == pytest.approx({"a": 0.030, "b": 0.010})


def test_fuel_of_a_second_leg_falls_gram_by_gram_as_it_is_burnt() -> None:
    who, days = people(1), days_of(4, legs=(2, 2))
    sacks = (sack(fuel=200.0), sack(leg=2, fuel=120.0))  # 80 g went on the first leg
    found = weigh(who, days, (), Packed(sacks=sacks),
                  fuel({"1": 30.0, "2": 50.0, "3": 45.0, "4": 20.0}, 200.0))  # fmt: skip
    base = who[0].base_weight_kg + MEAN_WATER_KG
    load = [float(found.load_kg["a"][n][0]) - base for n in (1, 2, 3, 4)]
    assert load == pytest.approx([0.200, 0.170, 0.120, 0.075])


def test_fuel_on_the_back_is_never_less_than_none() -> None:
    who, days = people(1), days_of(3)
    found = weigh(who, days, (), Packed(sacks=(sack(fuel=50.0),)),
                  fuel({"1": 80.0, "2": 80.0, "3": 80.0}, 100.0))  # fmt: skip
    base = who[0].base_weight_kg + MEAN_WATER_KG
    assert all(float(load[0]) >= base - 1e-12 for load in found.load_kg["a"].values())


def carry(day: int, ml: float, minutes: float) -> WaterCarry:
    """Water from one place to the next."""
    return WaterCarry(day=day, start="here", end="there", distance_m=1000.0, minutes=minutes,
                      carry_ml=ml)  # fmt: skip


def test_water_counts_as_half_of_each_carry_weighed_by_its_minutes() -> None:
    who, days = people(1), days_of(1)
    kitchen = KitchenLedger(carries=(carry(1, 1000.0, 60.0), carry(1, 2000.0, 180.0)))
    found = weigh(who, days, (), Packed(), kitchen)
    mean = (1.0 * 60 + 2.0 * 180) / 240 / 2
    assert found.load_kg["a"][1] == pytest.approx([who[0].base_weight_kg + mean])


def test_a_day_without_known_carries_has_the_stated_mean() -> None:
    who, days = people(1), days_of(2)
    found = weigh(who, days, (), Packed(), KitchenLedger(carries=(carry(1, 0.0, 100.0),)))
    assert found.load_kg["a"][1] == pytest.approx([who[0].base_weight_kg])
    assert found.load_kg["a"][2] == pytest.approx([who[0].base_weight_kg + MEAN_WATER_KG])


def test_a_carry_of_no_minutes_is_no_carry() -> None:
    who, days = people(1), days_of(1)
    found = weigh(who, days, (), Packed(), KitchenLedger(carries=(carry(1, 3000.0, 0.0),)))
    assert found.load_kg["a"][1] == pytest.approx([who[0].base_weight_kg + MEAN_WATER_KG])


MEALS = st.sampled_from(["breakfast", "lunch", "move", "dinner"])


@given(st.lists(st.tuples(st.integers(1, 6), MEALS, st.integers(1, 500)), max_size=20))
def test_no_load_rises_within_a_leg(rows: list[tuple[int, str, int]]) -> None:
    who, days = people(1), camped(days_of(6, legs=(2, 4)))
    leg = {d.number: d.leg for d in days}
    bags = [bag(str(i), item(d, float(g), m), leg=leg[d]) for i, (d, m, g) in enumerate(rows)]
    sacks = tuple(sack(*(b for b in bags if b.leg == n), leg=n) for n in (1, 2))
    found = weigh(who, days, slots(who, days), Packed(bags=tuple(bags), sacks=sacks), DRY)
    for n in (1, 2):
        loads_of_leg = np.concatenate([found.load_kg["a"][d.number] for d in days if d.leg == n])
        assert np.all(np.diff(loads_of_leg) <= 1e-12)
    assert found.food_g["a"].start == pytest.approx(sum(g for _, _, g in rows))
    assert found.food_g["a"].left(np.array([1e7]))[0] == pytest.approx(0.0)


def test_each_leg_ends_at_the_midnight_after_its_last_day() -> None:
    assert leg_ends(days_of(5, legs=(2, 3))) == {1: 2 * 1440.0, 2: 5 * 1440.0}


def test_the_guess_is_as_dense_as_packed_food_usually_is() -> None:
    assert 3.5 <= loads.ROUND_0_KCAL_PER_G <= 4.6  # common practice
