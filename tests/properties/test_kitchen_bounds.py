"""Laws of sweat, salt, carries, keeping, nesting and swaps: monotone, bounded, closed."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from oatsack.kitchen import canister, heat, sweat
from oatsack.kitchen.boiltest import Boil, boil_test
from oatsack.kitchen.carries import Demand, carries, supplies
from oatsack.kitchen.counts import fills
from oatsack.kitchen.drinking import DAY_CAP_ML, HOUR_CAP_ML, water_day
from oatsack.kitchen.flamefree import flame_free
from oatsack.kitchen.fuels import fuel_of
from oatsack.kitchen.keeping import keeps_until
from oatsack.kitchen.nesting import CLEARANCE_MM, Thing, nest
from oatsack.values.kit import Pot
from oatsack.values.trip import Rules
from support.amount import examples
from support.kitchen import FOODS, day, menu_of, place, portion, walker

AIR = st.floats(15.0, 36.0)
WORK = st.floats(150.0, 400.0)


@given(AIR, WORK, st.floats(0.0, 5.0), st.floats(0.0, 50.0))
def test_more_heat_or_more_work_never_means_less_sweat(
    air: float, work: float, warmer: float, harder: float
) -> None:
    low = sweat.table_l_h(air, work)
    high = sweat.table_l_h(air + warmer, work + harder)
    if low is None:
        assert high is None
    elif high is not None:
        assert high >= low - 1e-12


@given(st.floats(-20.0, 50.0), st.floats(0.0, 700.0), st.floats(1.2, 2.6))
def test_sweat_is_always_a_finite_range_and_says_when_it_is_stretched(
    air: float, work: float, area: float
) -> None:
    got = sweat.sweat(air, work, area_m2=area)
    assert 0.0 <= got.low_ml <= got.likely_ml <= got.high_ml < 5000.0
    inside = 15.0 <= air <= 36.0 and 150.0 <= work <= 400.0
    assert (got.outside == ()) == inside


@given(st.floats(-5.0, 45.0), st.floats(100.0, 5000.0), st.floats(0.0, 3000.0))
def test_no_suggestion_ever_passes_a_cap(warm: float, wish: float, hot: float) -> None:
    one = day(warm_c=warm)
    water = water_day(one, walker(), Rules(water_ml_h=wish), cooking_ml=0.0, washing_ml=0.0,
                      hot_drinks_ml=hot)  # fmt: skip
    assert water.walking_suggested_ml <= HOUR_CAP_ML * one.walking_min / 60.0 + 1e-6
    assert water.walking_suggested_ml + water.camp_drinks_ml <= DAY_CAP_ML + 1e-6
    assert water.sodium_low_mg <= water.sodium_high_mg


@given(st.floats(-30.0, 45.0), st.floats(0.0, 4000.0), st.floats(0.5, 20.0))
def test_warmer_gas_pushes_harder(celsius: float, height: float, warmer: float) -> None:
    assume(celsius + warmer <= 50.0)
    assert canister.push_kpa(celsius + warmer, height) > canister.push_kpa(celsius, height)


@given(st.floats(-20.0, 40.0), st.floats(0.05, 0.95), st.floats(0.01, 0.5))
def test_an_emptier_can_never_pushes_harder(celsius: float, left: float, less: float) -> None:
    assume(left - less > 0.02)
    full, low = (
        canister.mix_kpa(canister.stripped(canister.MIX, celsius, share), celsius)
        for share in (left, left - less)
    )
    assert low <= full + 1e-9


@given(st.floats(0.0, 6000.0), st.floats(1.0, 2000.0), st.floats(950.0, 1050.0))
def test_water_boils_cooler_the_higher_and_the_lower_the_barometer(
    height: float, more: float, barometer: float
) -> None:
    assert heat.boiling_c(height + more, barometer) < heat.boiling_c(height, barometer)
    assert heat.boiling_c(height, barometer + 5.0) > heat.boiling_c(height, barometer)


PLACES = st.lists(
    st.tuples(st.floats(515.0, 925.0), st.sampled_from(["sure", "likely", "doubtful"])), max_size=4
)


@st.composite
def walks(draw: st.DrawFn):
    """Some days with water places, dry camps, and what is used on them."""
    count = draw(st.integers(1, 4))
    stretch = []
    for n in range(1, count + 1):
        places = tuple(
            place(f"p{n}-{i}", at, 16_000.0 * (at - 510.0) / 420.0, how)
            for i, (at, how) in enumerate(sorted(draw(PLACES)))
        )
        stretch.append(day(n, last=n == count, water=places, camp_dry=draw(st.booleans())))
    uses = [
        Demand(start=(n - 1) * 1440.0 + 510.0, end=(n - 1) * 1440.0 + 930.0,
               water_ml=draw(st.floats(0.0, 6000.0)))
        for n in range(1, count + 1)
    ]  # fmt: skip
    uses += [
        Demand(start=m, end=m, water_ml=draw(st.floats(0.0, 2000.0)))
        for n in range(1, count)
        for m in [(n - 1) * 1440.0 + 1110.0]
    ]
    return stretch, uses


@given(walks())
def test_what_is_carried_and_what_stands_in_wet_camps_is_all_that_is_used(walk) -> None:
    stretch, uses = walk
    got = carries(stretch, uses, bottles_ml=1e9)
    carried = sum(c.carry_ml for c in got)
    in_camp = sum(d.within(s.at, s.until) for d in uses for s in supplies(stretch))
    assert carried + in_camp == pytest.approx(sum(d.water_ml for d in uses))


@given(walks())
def test_one_more_sure_place_never_makes_the_worst_carry_heavier(walk) -> None:
    stretch, uses = walk
    before = max((c.carry_ml for c in carries(stretch, uses, bottles_ml=1e9)), default=0.0)
    extra = (*stretch[0].water, place("new", 720.0, 8000.0))
    richer = [replace(stretch[0], water=extra), *stretch[1:]]
    after = max((c.carry_ml for c in carries(richer, uses, bottles_ml=1e9)), default=0.0)
    assert after <= before + 6000.0 * 15.0 / 420.0 + 1e-6  # a spring just before it is passed over


@given(walks())
def test_distances_of_the_carries_never_exceed_the_walk(walk) -> None:
    stretch, uses = walk
    got = carries(stretch, uses, bottles_ml=1e9)
    assert all(c.distance_m >= -1e-6 for c in got)
    assert sum(c.distance_m for c in got) <= sum(d.distance_m for d in stretch) + 1e-6


@given(st.floats(0.0, 30.0), st.integers(1, 5), st.lists(st.floats(-5.0, 40.0), min_size=6))
def test_what_keeps_longer_or_cooler_is_eaten_no_earlier(
    limit: float, start: int, heats: list[float]
) -> None:
    heat_c = dict(enumerate(heats, 1))
    cooler = {n: c - 8.0 for n, c in heat_c.items()}
    last = keeps_until(limit, start, heat_c)
    assert start <= last <= start + math.ceil(limit)
    assert keeps_until(limit + 1.0, start, heat_c) >= last
    assert keeps_until(limit, start, cooler) >= last


@given(st.floats(0.0, 9000.0), st.lists(st.floats(250.0, 2000.0), min_size=1, max_size=4))
def test_bottles_hold_what_is_drunk(litres: float, bottles: list[float]) -> None:
    got = fills(litres, bottles)
    assert sum(bottles[i] * n for i, n in got) == pytest.approx(litres)
    whole = [n for _, n in got]
    assert max(whole) - min(whole) <= 1.0 + 1e-9


THINGS = st.lists(
    st.tuples(st.floats(10.0, 95.0), st.floats(10.0, 120.0)), min_size=1, max_size=3
).map(lambda sizes: [Thing(name=f"t{i}", diameter_mm=d, height_mm=h)
                     for i, (d, h) in enumerate(sizes)])  # fmt: skip
ROUND_POTS = st.builds(
    Pot, volume_ml=st.just(1000.0), diameter_mm=st.floats(80.0, 160.0),
    depth_mm=st.floats(60.0, 140.0),
)  # fmt: skip


@given(THINGS, ROUND_POTS)
def test_what_nests_has_less_volume_than_its_pot(things: list[Thing], pot: Pot) -> None:
    way = nest(things, pot)
    if way is None:
        return
    assert pot.diameter_mm is not None and pot.depth_mm is not None
    inside = sum(math.pi / 4.0 * t.diameter_mm**2 * t.height_mm for t in things)
    assert inside <= math.pi / 4.0 * pot.diameter_mm**2 * pot.depth_mm
    assert sorted(name for layer in way.layers for name in layer.things) == sorted(
        t.name for t in things
    )
    assert sum(layer.height_mm for layer in way.layers) + way.left_mm == pytest.approx(pot.depth_mm)


@given(THINGS, ROUND_POTS)
def test_a_larger_pot_never_holds_less(things: list[Thing], pot: Pot) -> None:
    assert pot.diameter_mm is not None and pot.depth_mm is not None
    wider = replace(pot, diameter_mm=pot.diameter_mm + 10.0, depth_mm=pot.depth_mm + 10.0)
    if nest(things, pot) is not None:
        assert nest(things, wider) is not None


@given(THINGS, ROUND_POTS)
@settings(max_examples=examples(60))
def test_nesting_finds_every_stack_that_a_plain_search_finds(things: list[Thing], pot: Pot) -> None:
    # oracle: try each thing upright or lying, all in one stack, without sharing a level
    assert pot.diameter_mm is not None and pot.depth_mm is not None
    total = 0.0
    for t in things:
        ways = []
        if t.diameter_mm + CLEARANCE_MM <= pot.diameter_mm:
            ways.append(t.height_mm)
        if math.sqrt(t.height_mm**2 + t.diameter_mm**2) <= pot.diameter_mm:
            ways.append(t.diameter_mm)
        total += min(ways, default=math.inf)
    if total <= pot.depth_mm:
        way = nest(things, pot)
        assert way is not None and way.left_mm >= pot.depth_mm - total - 1e-9


@given(st.floats(0.1, 0.9), st.floats(200.0, 2000.0), st.floats(1.0, 25.0), st.integers(1, 6))
def test_a_boil_test_is_exact_on_an_exact_scale(
    eta: float, water: float, start: float, boils: int
) -> None:
    kj = water / 1000.0 * heat.heat_kj_kg(start, 90.0)
    burnt = kj / (fuel_of("gas").lhv_mj_kg * eta)
    one = Boil(water_ml=water, from_c=start, to_c=90.0, before_g=500.0, after_g=500.0 - burnt)
    got = boil_test([one] * boils, "gas", scale_g=0.0)
    assert got.efficiency == pytest.approx(eta)
    assert got.low <= got.efficiency <= got.high


@given(st.lists(st.sampled_from(sorted(FOODS)), min_size=1, max_size=8), st.randoms())
def test_without_a_flame_nobody_is_offered_what_they_may_not_eat(names: list[str], dice) -> None:
    assert isinstance(dice, random.Random)
    banned = {name for name in FOODS if dice.random() < 0.4}
    menu = menu_of([portion("anna", 1, "dinner", name) for name in names])
    larder = [replace(f, meals=frozenset({"dinner"})) for f in FOODS.values()]
    twins = flame_free(menu, FOODS, larder=larder, heat_c={1: 20.0},
                       allowed=lambda walker, food: food.id not in banned)  # fmt: skip
    assert len(twins) == len(names)
    for twin in twins:
        if twin.swap is not None:
            assert twin.verdict == "no"
            assert twin.swap.food not in banned
            assert twin.swap.doses >= 1.0 and twin.swap.doses == int(twin.swap.doses)
