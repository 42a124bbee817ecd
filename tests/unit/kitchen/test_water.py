"""Sweat, drinking, caps, carries from source to source, dry camps."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest

from oatsack.kitchen import drinking, sweat
from oatsack.kitchen.carries import Demand, carries, supplies
from oatsack.kitchen.ledger import ledger
from oatsack.values.kit import Kit
from oatsack.values.kitchen import WaterCarry, WaterDay
from oatsack.values.trip import Rules
from support.kitchen import (
    ARRIVE,
    FOODS,
    START,
    day,
    days,
    menu_of,
    place,
    portion,
    walker,
    walkers,
)


def test_the_table_is_read_at_its_points_and_between() -> None:
    # ISO7933, the shipped table
    assert sweat.table_l_h(21.0, 250.0) == pytest.approx(0.360)
    assert sweat.table_l_h(22.5, 275.0) == pytest.approx((0.360 + 0.492 + 0.432 + 0.570) / 4)


def test_beyond_the_table_its_edge_is_held() -> None:
    assert sweat.table_l_h(5.0, 300.0) == sweat.table_l_h(15.0, 300.0)
    assert sweat.table_l_h(20.0, 90.0) == sweat.table_l_h(20.0, 150.0)


def test_next_to_a_blank_there_is_no_figure() -> None:
    assert sweat.table_l_h(33.0, 400.0) is None
    assert sweat.table_l_h(33.0, 375.0) is None
    assert sweat.table_l_h(33.0, 350.0) is not None


def test_inside_the_limits_nothing_is_flagged() -> None:
    got = sweat.sweat(24.0, 300.0)
    assert (got.model, got.outside, got.too_hot) == ("table", (), False)
    assert got.likely_ml == pytest.approx(570.0)
    assert (got.low_ml, got.high_ml) == (pytest.approx(342.0), pytest.approx(798.0))


def test_cold_air_is_flagged() -> None:
    got = sweat.sweat(8.0, 300.0)
    assert got.outside == ("air_c",) and got.model == "table"
    assert got.likely_ml == pytest.approx(348.0)


def test_hard_work_goes_to_the_marching_equation_and_is_flagged() -> None:
    got = sweat.sweat(20.0, 430.0)
    assert got.model == "equation" and got.outside == ("work_w_m2",)
    expected = sweat.equation_g_m2_h(20.0, 430.0) * sweat.TABLE_AREA_M2
    assert got.likely_ml == pytest.approx(expected)


def test_the_equation_is_not_stretched_beyond_its_own_range() -> None:
    assert sweat.sweat(50.0, 600.0).likely_ml == sweat.sweat(46.0, 450.0).likely_ml


def test_a_body_that_runs_hot_is_told_so() -> None:
    assert sweat.sweat(34.0, 400.0).too_hot
    assert not sweat.sweat(30.0, 400.0).too_hot


def test_sweat_scales_with_the_body() -> None:
    small = sweat.sweat(24.0, 300.0, area_m2=1.6)
    assert small.likely_ml == pytest.approx(570.0 * 1.6 / 1.938)


def test_body_area_of_the_table() -> None:
    # DuBois1916, eq. 1: 75 kg and 1.80 m are 1.938 m2
    assert sweat.body_area_m2(75.0, 180.0) == pytest.approx(1.938, abs=0.001)


def test_half_a_litre_an_hour_and_three_quarters_in_the_heat() -> None:
    # common practice
    assert drinking.rate_ml_h(day(warm_c=18.0), Rules()) == 500.0
    assert drinking.rate_ml_h(day(warm_c=29.0), Rules()) == 750.0


def test_no_suggestion_passes_the_hourly_cap() -> None:
    # TBMED507: 1.5 quarts an hour
    assert drinking.rate_ml_h(day(warm_c=35.0), Rules(water_ml_h=1300.0)) == 1420.0


def test_no_day_passes_the_daily_cap() -> None:
    # TBMED507: 12 quarts a day
    long = day(warm_c=35.0)
    walk = replace(long.stretches[0], start_min=240.0, end_min=1200.0)
    long = replace(long, stretches=(walk, *long.stretches[1:]))
    water = drinking.water_day(long, walker(), Rules(water_ml_h=1420.0), cooking_ml=0.0,
                               washing_ml=0.0, hot_drinks_ml=500.0)  # fmt: skip
    assert water.walking_suggested_ml + water.camp_drinks_ml == pytest.approx(11_360.0)


def test_camp_water_includes_the_hot_drinks() -> None:
    def camp(hot: float) -> float:
        return drinking.water_day(
            day(), walker(), Rules(), cooking_ml=0.0, washing_ml=0.0, hot_drinks_ml=hot
        ).camp_drinks_ml  # fmt: skip

    assert camp(500.0) == 1000.0
    assert camp(1500.0) == 1500.0


def test_a_day_that_ends_at_home_needs_no_camp_water() -> None:
    water = drinking.water_day(day(3, last=True), walker(), Rules(), cooking_ml=0.0,
                               washing_ml=0.0, hot_drinks_ml=250.0)  # fmt: skip
    assert water.camp_drinks_ml == 250.0


def test_every_litre_figure_says_what_it_is() -> None:
    for value in (WaterDay, WaterCarry):
        for field in fields(value):
            if field.name.endswith("_ml"):
                assert drinking.KINDS[field.name] in ("need", "suggestion", "limit", "estimate")
    assert drinking.KINDS["walking_suggested_ml"] == "suggestion"
    assert drinking.KINDS["day_cap_ml"] == drinking.KINDS["hour_cap_ml"] == "limit"


def test_a_demand_counts_only_its_part_within_a_span() -> None:
    walk = Demand(start=100.0, end=200.0, water_ml=500.0)
    assert walk.within(0.0, 150.0) == 250.0
    assert walk.within(150.0, 300.0) == 250.0
    assert walk.within(200.0, 300.0) == 0.0
    meal = Demand(start=120.0, end=120.0, water_ml=475.0)
    assert meal.within(100.0, 120.0) == 475.0
    assert meal.within(120.0, 200.0) == 0.0


def test_places_camps_start_and_end_are_supplies_in_order() -> None:
    one = day(1, water=(place("spring", 700.0, 8000.0),), camp_name="Fern Flat")
    names = [s.name for s in supplies([one, day(2, last=True)])]
    assert names == ["start", "spring", "Fern Flat", "end"]


def test_a_spring_just_before_the_camp_is_passed_over() -> None:
    near = day(1, water=(place("spring", ARRIVE - 10.0, 15_600.0),), camp_name="Fern Flat")
    far = day(1, water=(place("spring", ARRIVE - 40.0, 14_000.0),), camp_name="Fern Flat")
    assert [s.name for s in supplies([near, day(2, last=True)])] == ["start", "Fern Flat", "end"]
    assert "spring" in [s.name for s in supplies([far, day(2, last=True)])]


def test_a_spring_just_before_a_dry_camp_is_kept() -> None:
    dry = day(1, water=(place("spring", ARRIVE - 10.0, 15_600.0),), camp_dry=True)
    assert [s.name for s in supplies([dry, day(2, last=True)])] == ["start", "spring", "end"]


def test_a_doubtful_place_is_not_counted_on() -> None:
    one = day(1, water=(place("puddle", 700.0, 8000.0, "doubtful"),))
    assert "puddle" not in [s.name for s in supplies([one, day(2, last=True)])]


def test_a_dry_camp_is_no_supply() -> None:
    dry = day(1, camp_dry=True, camp_name="Bare Ridge")
    assert [s.name for s in supplies([dry, day(2, last=True)])] == ["start", "end"]


def book(stretch, menu=(), count: int = 1, **kit):
    return ledger(menu_of(menu), FOODS, stretch, walkers(count), Kit(**kit), Rules())


def test_water_is_carried_from_place_to_place() -> None:
    halves = (place("spring", (START + ARRIVE) / 2, 8000.0),)
    got = book([day(1, water=halves), day(2, last=True, water=halves)]).carries
    assert [(c.start, c.end) for c in got] == [
        ("start", "spring"), ("spring", "camp 1"), ("camp 1", "spring"), ("spring", "end"),
    ]  # fmt: skip
    assert [round(c.carry_ml) for c in got] == [1750] * 4  # 3.5 h at half a litre
    assert all(c.why == "to-next-water" for c in got)
    assert [c.distance_m for c in got] == [8000.0] * 4


def test_a_dry_camp_is_carried_to_with_dinner_night_and_breakfast() -> None:
    # common practice: 3 to 4.5 l each for a dry camp, dinner to the first hours of the morning
    last_water = (place("last spring", ARRIVE - 60.0, 14_000.0),)
    first_water = (place("brook", START + 120.0, 5000.0),)
    stretch = [day(1, water=last_water, camp_dry=True), day(2, last=True, water=first_water)]
    menu = [
        portion("w00", 1, "dinner", "pouch"),
        portion("w00", 2, "breakfast", "oats"),
        portion("w00", 2, "drinks", "coffee", 1.0),
        portion("w00", 1, "drinks", "coffee", 1.0),
    ]
    carry = next(c for c in book(stretch, menu).carries if c.start == "last spring")
    assert (carry.end, carry.why) == ("brook", "dry-camp")
    assert 3000.0 <= carry.carry_ml <= 4500.0


def test_a_hot_dry_stretch_without_a_stove_adds_up() -> None:
    # a hand sum: no stove, hot, 5.5 to 6.5 l from the last tap to the next source, 0.3 l to soak
    tap, well = place("tap", START + 60.0, 2000.0), place("well", START + 60.0, 2000.0)
    stretch = [day(1, warm_c=33.0, camp_dry=True, water=(tap,)),
               day(2, last=True, warm_c=33.0, water=(well,))]  # fmt: skip
    menu = [portion("w00", 1, "dinner", "couscous", 2.0)]
    carry = next(c for c in book(stretch, menu, stove=None).carries if c.start == "tap")
    assert 5500.0 <= carry.carry_ml <= 6700.0
    assert carry.end == "well"


def test_where_no_place_is_named_the_bottles_bound_the_suggestion() -> None:
    got = book(days(2), bottles_ml=(1000.0, 750.0)).carries
    assert {c.why for c in got} == {"places-unknown"}
    assert max(c.carry_ml for c in got) == 1750.0


def test_more_water_than_bottles_is_said() -> None:
    stretch = [day(1, camp_dry=True), day(2, last=True)]
    made = book(stretch, bottles_ml=(500.0,))
    (flag,) = [f for f in made.flags if f.key == "kitchen.bottles-short"]
    assert flag.values["bottles_ml"] == 500.0
    assert flag.values["carry_ml"] > 500.0


def test_the_carry_is_per_walker() -> None:
    menu = [portion(w, 1, "dinner", "pouch") for w in ("w00", "w01")]
    dry = [day(1, camp_dry=True), day(2, last=True)]
    two = book(dry, menu, count=2).carries[0].carry_ml
    one = book(dry, menu[:1], count=1).carries[0].carry_ml
    assert two == pytest.approx(one, abs=30.0)  # the pot is filled to the mark once, not twice


def test_no_days_no_carries() -> None:
    assert carries([], [], bottles_ml=1000.0) == ()


def test_carried_and_camp_water_cover_all_that_is_asked_for() -> None:
    stretch = [day(1, camp_dry=True), day(2), day(3, last=True)]
    spans = [Demand(start=START, end=ARRIVE, water_ml=3500.0),
             Demand(start=1440.0 + START, end=1440.0 + ARRIVE, water_ml=3500.0),
             Demand(start=1110.0, end=1110.0, water_ml=1475.0)]  # fmt: skip
    got = carries(stretch, spans, bottles_ml=99_999.0)
    assert sum(c.carry_ml for c in got) == pytest.approx(3500.0 * 2 + 1475.0)
