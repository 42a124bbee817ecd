"""The ledger of a whole walk: who cooks with what, fuel, water, snow, treatment, groups."""

from __future__ import annotations

import time
import timeit
from dataclasses import replace
from itertools import pairwise

import pytest

from oatsack.kitchen.ledger import conditions_at, kitchens, ledger, with_work
from oatsack.kitchen.sweat import work_w_m2
from oatsack.values.kit import FuelCan, Kit, Pot, Stove
from oatsack.values.kitchen import KitchenLedger
from oatsack.values.menu import Menu
from oatsack.values.route import Day, Stretch
from oatsack.values.trip import Rules
from support.kitchen import FOODS, day, days, menu_of, portion, simple_menu, walker, walkers


def keep(menu: Menu, stretch, people, kit: Kit | None = None, rules: Rules | None = None,
         **rest) -> KitchenLedger:  # fmt: skip
    return ledger(menu, FOODS, stretch, people, kit or Kit(), rules or Rules(), **rest)


def solo(count: int = 3, kit: Kit | None = None, rules: Rules | None = None,
         **fields) -> KitchenLedger:  # fmt: skip
    people, stretch = walkers(1), days(count, **fields)
    return keep(simple_menu(people, stretch), stretch, people, kit, rules)


def short(one: Day) -> Day:
    """The same day with five and a half hours of walking, as in winter."""
    pieces = [replace(s, start_min=600.0) if s.kind == "walk" else s for s in one.stretches]
    return replace(one, stretches=tuple(pieces))


def keys(book: KitchenLedger) -> set[str]:
    return {flag.key.removeprefix("kitchen.") for flag in book.flags}


def test_a_weekend_alone_takes_the_gas_of_the_hand_sum() -> None:
    # common practice: 2 dinners, 2 breakfasts and the coffee, 2.4 l heated: 48 g, within 15 %
    people, stretch = walkers(1), days(3)
    book = keep(simple_menu(people, stretch), stretch, people)
    boiled = sum(m.boiled_ml - m.left_ml for m in book.meals)
    assert boiled == pytest.approx(2 * 475 + 2 * 240 + 6 * 250)
    by_rule = boiled / 1000.0 * 15.0 * 1.10 + 7.5
    assert book.fuel is not None
    assert book.fuel.need_g == pytest.approx(by_rule, rel=0.15)


def test_a_can_with_75_g_is_enough_and_one_with_50_is_not() -> None:
    # common practice: three nights alone, 4.05 l boiled, 57 g burnt and about 73 g with reserve
    people, stretch = walkers(1), days(4)
    menu = menu_of(
        [portion("w00", n, "dinner", "pouch") for n in (1, 2, 3)]
        + [portion("w00", n, "breakfast", "oats") for n in (2, 3, 4)]
        + [portion("w00", n, "drinks", "coffee", 2.0) for n in (1, 2, 3, 4)]
    )

    def with_can(grams: float) -> KitchenLedger:
        can = FuelCan(net_g=100.0, empty_g=100.0, gross_now_g=100.0 + grams)
        return keep(menu, stretch, people, Kit(cans=(can,)))

    enough, thin = with_can(85.0), with_can(50.0)
    assert enough.fuel is not None and 55.0 < enough.fuel.burnt_g < 70.0
    assert not {"fuel-short", "fuel-thin"} & keys(enough)
    assert "fuel-short" in keys(thin)
    assert any(flag.level == "block" for flag in thin.flags)


def test_fuel_between_burnt_and_reserve_is_thin() -> None:
    burnt = solo().fuel.burnt_g
    can = FuelCan(net_g=100.0, empty_g=100.0, gross_now_g=100.0 + burnt + 1.0)
    book = solo(kit=Kit(cans=(can,)))
    (flag,) = [f for f in book.flags if f.key == "kitchen.fuel-thin"]
    assert flag.level == "caution"
    assert flag.values["over_g"] == pytest.approx(1.0)


def test_reserve_is_a_tenth_and_half_a_litre_and_stated() -> None:
    # common practice
    book = solo()
    half = next(m for m in book.meals if m.boiled_ml == 500.0)
    pot_share = 120.0 / 1000.0 * 0.52 * 90.0 / (45.73 * 0.55)
    assert book.fuel.reserve_g == pytest.approx(
        0.10 * book.fuel.burnt_g + half.fuel_g - pot_share, rel=0.02
    )


def test_a_windy_day_takes_no_second_tenth() -> None:
    calm, windy = solo(), solo(windy=True)
    # within 1 %: a slow boil shares its water with the coffee, a quick one does not
    assert windy.fuel.burnt_g == pytest.approx(calm.fuel.burnt_g * 0.55 / 0.25, rel=0.01)
    tenth = 0.10 * calm.fuel.burnt_g
    assert windy.fuel.reserve_g == pytest.approx((calm.fuel.reserve_g - tenth) * 0.55 / 0.25)


def test_breakfast_is_cooked_where_one_woke_and_dinner_where_one_arrives() -> None:
    climb = day(2)
    low, high = climb.stretches[0], replace(climb.stretches[2], height_m=2500.0)
    climb = replace(climb, stretches=(low, climb.stretches[1], high), camp_m=2500.0)
    assert conditions_at(climb, 420.0, Rules()).height_m == 900.0
    assert conditions_at(climb, 1110.0, Rules()).height_m == 2500.0
    assert conditions_at(climb, 3000.0, Rules()).height_m == 2500.0


def test_lunch_is_cooked_in_midday_air() -> None:
    at = conditions_at(day(), 750.0, Rules())
    assert at.air_c == day().warm_c
    assert conditions_at(day(), 1110.0, Rules()).air_c == day().cold_c


def test_each_group_gets_pots_of_its_own_where_there_are_enough() -> None:
    kit = Kit(
        pots=(Pot(name="s", volume_ml=1000.0), Pot(name="l", volume_ml=3000.0)),
        stove=Stove(burners=3),
    )
    first, second = kitchens(walkers(4), kit, [["w00", "w01"], ["w02", "w03"]])
    assert [p.name for p in first.pots] == ["l"] and first.burners == 2
    assert [p.name for p in second.pots] == ["s"] and second.burners == 1


def test_with_one_pot_all_groups_share_it() -> None:
    kit = Kit(pots=(Pot(),), stove=Stove(burners=1))
    (one,) = kitchens(walkers(4), kit, [["w00", "w01"], ["w02", "w03"]])
    assert one.pots == kit.pots and len(one.walkers) == 4 and not one.pots_of


def test_a_party_too_large_for_one_pot_brings_such_a_kit_for_each_group() -> None:
    kit = Kit(pots=(Pot(),), stove=Stove(burners=1))
    names = [w.id for w in walkers(12)]
    both = kitchens(walkers(12), kit, [names[:6], names[6:]])
    assert [k.walkers for k in both] == [tuple(names[:6]), tuple(names[6:])]
    assert all(k.pots == kit.pots and k.burners == 1 for k in both)


def test_with_one_burner_groups_share_the_flame_and_keep_to_their_pots() -> None:
    kit = Kit(pots=(Pot(name="red", walkers=("w00",)), Pot(name="blue")), stove=Stove(burners=1))
    (one,) = kitchens(walkers(3), kit, None)
    assert one.pots_of == {"w00": (0,), "w01": (1,), "w02": (1,)}
    menu = simple_menu(walkers(3), days(2), dinner="rice")
    book = keep(menu, days(2), walkers(3), kit)
    (dinner,) = (m for m in book.meals if m.meal == "dinner")
    cooked = {(s.pot, s.kind) for s in dinner.steps if s.food == "rice"}
    assert {pot for pot, kind in cooked if kind == "simmer"} == {"red", "blue"}
    assert dinner.dirty_pots == 2
    flames = sorted((s.start_min, s.end_min) for s in dinner.steps if s.kind in ("boil", "simmer"))
    assert all(a[1] <= b[0] + 1e-9 for a, b in pairwise(flames))


def test_without_a_pot_nothing_is_heated() -> None:
    people, stretch = walkers(1), days(2)
    book = keep(simple_menu(people, stretch), stretch, people, Kit(pots=()))
    assert book.fuel is None and all(m.boiled_ml == 0.0 for m in book.meals)
    rice = keep(simple_menu(people, stretch, dinner="rice"), stretch, people, Kit(pots=()))
    assert "needs-flame" in {f.key.removeprefix("kitchen.") for f in rice.flags}


def test_groups_cook_apart() -> None:
    people, stretch = walkers(4), days(2)
    menu = simple_menu(people, stretch, dinner="rice")
    together = keep(menu, stretch, people)
    kit = Kit(pots=(Pot(), Pot()), stove=Stove(burners=2))
    apart = keep(menu, stretch, people, kit, groups=[["w00", "w01"], ["w02", "w03"]])
    dinners = [m for m in apart.meals if m.meal == "dinner"]
    assert len(dinners) == 2 * len([m for m in together.meals if m.meal == "dinner"])
    assert max(m.minutes for m in dinners) < max(m.minutes for m in together.meals)
    assert sum(m.boiled_ml - m.left_ml for m in apart.meals) == pytest.approx(
        sum(m.boiled_ml - m.left_ml for m in together.meals)
    )


def test_a_camp_of_twelve_is_scheduled_in_under_a_tenth_of_a_second() -> None:
    people, stretch = walkers(12), days(2)
    menu = simple_menu(people, stretch, dinner="rice")
    kit = Kit(pots=(Pot(volume_ml=3000.0), Pot(volume_ml=2000.0)), stove=Stove(burners=2))
    names = [w.id for w in people]
    for groups in (None, [names[:6], names[6:]]):
        runs = timeit.repeat(
            lambda groups=groups: keep(menu, stretch, people, kit, groups=groups), number=1,
            repeat=3, timer=time.process_time,
        )  # fmt: skip
        assert min(runs) < 0.1


def test_without_a_stove_nothing_burns_and_what_needs_a_flame_blocks() -> None:
    people, stretch = walkers(1), days(2)
    book = keep(simple_menu(people, stretch, dinner="rice", coffees=0), stretch, people,
                Kit(stove=None))  # fmt: skip
    assert book.fuel is None
    assert all(m.fuel_g == 0.0 for m in book.meals)
    blocked = [f for f in book.flags if f.key == "kitchen.needs-flame"]
    assert [f.values["food"] for f in blocked] == ["rice"]
    assert blocked[0].level == "block"


def test_a_fire_ban_soaks_what_can_be_soaked() -> None:
    people, stretch = walkers(1), days(2)
    book = keep(simple_menu(people, stretch, coffees=0), stretch, people,
                rules=Rules(no_flame=True))  # fmt: skip
    assert book.fuel is None
    assert {s.kind for m in book.meals for s in m.steps} == {"soak"}
    assert "needs-flame" not in keys(book)


def test_on_snow_all_drinking_water_is_melted() -> None:
    # a hand sum for one walker on snow: 4 days and 3 nights, about 14 l melted
    people, stretch = walkers(1), [short(d) for d in days(4, warm_c=-4.0, cold_c=-12.0)]
    book = keep(simple_menu(people, stretch), stretch, people)
    melted = sum(m.boiled_ml for m in book.meals)
    assert melted == pytest.approx(14_000.0, rel=0.15)
    assert "snow-assumed" in keys(book)
    stills = [m for m in book.meals if m.meal == "drinks"]
    assert [m.day for m in stills] == [1, 2, 3]
    assert all(s.kind == "melt" for m in stills for s in m.steps)


def test_snow_with_a_liquid_stove_takes_the_litres_of_the_hand_sum() -> None:
    # common practice: 190 to 250 ml of liquid fuel a person and day where all water is snow
    stove = Kit(stove=Stove(kind="white-gas", fuel="white-gas"), pots=(Pot(volume_ml=2000.0),))
    book = solo(4, kit=stove, warm_c=-8.0, cold_c=-15.0, height_m=2500.0)
    litres = book.fuel.need_g / 1000.0 / 0.715
    assert 3 * 0.19 < litres < 4 * 0.25


def test_boiling_to_treat_counts_fuel_for_every_litre() -> None:
    plain, boiled = solo(), solo(kit=Kit(treatment="boil"))
    stills = [m for m in boiled.meals if m.meal == "drinks"]
    assert len(stills) == 2
    drunk = [boiled.water["w00"][str(d)] for d in (1, 2, 3)]
    for still, here, next_day in zip(stills, drunk, drunk[1:], strict=False):
        wanted = here.camp_drinks_ml - here.hot_drinks_ml + next_day.walking_suggested_ml
        assert still.boiled_ml == pytest.approx(wanted)
    extra = sum(m.fuel_g for m in stills)
    assert boiled.fuel.burnt_g == pytest.approx(plain.fuel.burnt_g + extra)


def test_high_camps_hold_the_boil_three_minutes() -> None:
    for height, minutes in ((1500.0, 1.0), (2500.0, 3.0)):
        book = solo(2, kit=Kit(treatment="boil"), height_m=height)
        holds = [s for m in book.meals for s in m.steps if s.kind == "simmer"]
        assert holds and all(s.end_min - s.start_min == pytest.approx(minutes) for s in holds)


def test_washing_is_shared_by_those_who_ate() -> None:
    people, stretch = walkers(2), days(2)
    menu = menu_of([portion("w00", 1, "dinner", "rice"), portion("w01", 1, "dinner", "rice")])
    book = keep(menu, stretch, people)
    washes = [book.water[w]["1"].washing_ml for w in ("w00", "w01")]
    assert washes[0] == washes[1]
    assert sum(washes) == pytest.approx(sum(m.wash_ml for m in book.meals))


def test_portions_of_days_outside_the_walk_are_not_cooked() -> None:
    people, stretch = walkers(1), days(2)
    book = keep(menu_of([portion("w00", 9, "dinner", "pouch")]), stretch, people)
    assert book.meals == ()


def test_an_empty_menu_has_an_empty_ledger() -> None:
    people, stretch = walkers(1), days(2)
    book = keep(menu_of([]), stretch, people)
    assert book.meals == () and book.fuel is None
    assert book.water["w00"]["1"].cooking_ml == 0.0


def test_the_flows_own_work_replaces_the_stand_in_for_sweat() -> None:
    people, stretch = [walker("anna", height_cm=180.0, mass_kg=75.0)], days(2)
    book = keep(simple_menu(people, stretch), stretch, people)
    menu = simple_menu(people, stretch)
    harder = with_work(book, menu, FOODS, days=stretch, walkers=people,
                       work={"anna": {1: 300.0, 2: 300.0}})  # fmt: skip
    one = harder.water["anna"]["1"]
    # ISO7933 table: 0.419 l/h at 18 C and 300 W/m2, seven hours, 40 % either way
    assert one.sweat_low_ml == pytest.approx(0.6 * 419.0 * 7.0, rel=0.001)
    assert one.sweat_high_ml == pytest.approx(1.4 * 419.0 * 7.0, rel=0.001)
    assert one.sweat_models == ("table",)
    assert one.cooking_ml == book.water["anna"]["1"].cooking_ml


def test_work_per_square_metre_from_energy_and_hours() -> None:
    anna = walker("anna", height_cm=180.0, mass_kg=75.0)
    # 500 kcal in an hour over 1.938 m2
    assert work_w_m2(500.0, 1.0, anna) == pytest.approx(500 * 4184 / 3600 / 1.938, rel=0.002)
    assert work_w_m2(500.0, 0.0, anna) == 0.0


def test_minutes_over_the_walkers_limit_are_said_once_per_meal() -> None:
    book = solo(rules=Rules(minutes={"dinner": 5.0}))
    told = [f for f in book.flags if f.key == "kitchen.minutes"]
    assert [f.values["day"] for f in told] == [1, 2]
    assert all(f.level == "quiet" for f in told)


def test_a_day_without_stretches_can_be_cooked_on() -> None:
    bare = replace(day(), stretches=())
    people = walkers(1)
    book = keep(menu_of([portion("w00", 1, "dinner", "pouch")]), [bare], people)
    assert book.meals[0].boiled_ml == 500.0


def test_a_rest_day_drinks_in_camp_only() -> None:
    rest = replace(
        day(2), stretches=(Stretch(kind="camp", start_min=390.0, end_min=1320.0, height_m=900.0),)
    )
    people = walkers(1)
    book = keep(menu_of([]), [day(1), rest, day(3, last=True)], people)
    assert book.water["w00"]["2"].walking_suggested_ml == 0.0
    assert book.water["w00"]["2"].camp_drinks_ml == 1000.0


def test_a_sensible_plan_is_quiet() -> None:
    loud = [f for f in solo().flags if f.level != "note"]
    assert loud == []


def test_on_snow_the_bottles_are_filled_in_the_evening() -> None:
    people = walkers(1)
    stretch = [short(d) for d in days(2, snow=True)]
    lazy = [replace(d, stretches=tuple(s for s in d.stretches if s.kind != "walk"))
            for d in stretch]  # fmt: skip
    book = keep(menu_of([]), lazy, people, Kit(bottles_ml=(1000.0, 750.0)))
    (still,) = book.meals
    assert still.boiled_ml == pytest.approx(1000.0 + 1750.0)


def test_running_water_is_not_melted() -> None:
    assert all(m.meal != "drinks" for m in solo(3, snow=False, warm_c=-5.0).meals)


def test_twelve_for_eight_days_take_about_two_kilograms_of_gas() -> None:
    # common practice: 84 dinners and breakfasts in two cook groups at 22 g, and a tenth: 2.0 kg
    people, stretch = walkers(12), days(8)
    large = Kit(pots=(Pot(volume_ml=4000.0, mass_g=500.0, material="aluminium"),))
    halves = [[w.id for w in people[:6]], [w.id for w in people[6:]]]
    book = keep(simple_menu(people, stretch), stretch, people, large, groups=halves)
    assert book.fuel is not None
    assert book.fuel.need_g == pytest.approx(2000.0, rel=0.15)
    assert sum(count for _, count in book.fuel.cans) in (4, 5)


def test_six_days_alone_take_108_grams() -> None:
    # common practice: five dinners, five breakfasts and the coffee; one 100 g can is not enough
    people, stretch = walkers(1), days(6)
    book = keep(simple_menu(people, stretch), stretch, people)
    assert book.fuel is not None
    assert book.fuel.need_g == pytest.approx(108.0, rel=0.15)
    assert book.fuel.cans == ((230.0, 1),)


def test_a_couple_for_five_days_takes_one_230_g_can() -> None:
    # common practice: 175 to 190 g
    people, stretch = walkers(2), days(5)
    book = keep(simple_menu(people, stretch), stretch, people, Kit(pots=(Pot(volume_ml=1300.0),)))
    assert book.fuel is not None
    assert book.fuel.need_g == pytest.approx(182.0, rel=0.15)
    assert book.fuel.cans == ((230.0, 1),)
