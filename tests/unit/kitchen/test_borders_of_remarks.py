"""When the kitchen speaks up: each remark on a ledger made by hand, just inside and just outside.

And what a dose costs where, what is cooked together, and what is taken when there is no flame.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import log
from typing import Any

import pytest

from oatsack.kitchen import remarks as said
from oatsack.kitchen.canister import push_kpa
from oatsack.kitchen.cooking import critical, distil, one_boil
from oatsack.kitchen.cosy import LUKEWARM_C, Bagged
from oatsack.kitchen.flamefree import best_swap, flame_free, verdict_of
from oatsack.kitchen.heat import boiling_c, soak_factor, staple_factor
from oatsack.kitchen.ledger import conditions_at, kitchens
from oatsack.kitchen.occasions import Pour, helpings, occasions
from oatsack.kitchen.price import (
    conditions_of,
    dose_price,
    flame,
    in_bottle,
    in_mug,
    in_pot,
    pot_room_ml,
)
from oatsack.kitchen.remarks import View, meets
from oatsack.values.flags import Flag
from oatsack.values.food import Pouch, Prep
from oatsack.values.kit import Kit, Pot, Stove
from oatsack.values.kitchen import (
    Conditions,
    CookStep,
    FuelPlan,
    KitchenLedger,
    MealLedger,
    WaterCarry,
)
from oatsack.values.menu import Menu
from oatsack.values.trip import Rules
from oatsack.values.walker import Avoid
from support.each import each
from support.kitchen import FOODS, day, days, food, menu_of, place, portion, walker, walkers

FUEL = FuelPlan(kind="gas", by_day_g={"1": 50.0}, burnt_g=50.0, reserve_g=10.0, need_g=60.0,
                carried_g=100.0)  # fmt: skip


def view(*meals: MealLedger, fuel: FuelPlan | None = FUEL, **more: Any) -> View:
    """A view of these meals, with whatever else it should hold."""
    book = KitchenLedger(meals=meals, fuel=fuel, carries=more.pop("carries", ()))
    fields = {"served": (), "menu": Menu(portions=()), "foods": FOODS, "days": days(3),
              "walkers": walkers(1), "kit": Kit(), "rules": Rules()}  # fmt: skip
    return View(ledger=book, **(fields | more))


def meal(number: int = 1, kind: str = "dinner", *, steps: tuple[CookStep, ...] = (),
         **more: Any) -> MealLedger:  # fmt: skip
    fields = {"boiled_ml": 0.0, "cold_ml": 0.0, "wash_ml": 0.0, "heat_kj": 0.0, "fuel_g": 0.0,
              "minutes": 10.0}  # fmt: skip
    return MealLedger(day=number, meal=kind, walkers=("anna",), steps=steps,  # type: ignore[arg-type]
                      **(fields | more))  # fmt: skip


def keys(remark: Callable[[View], Iterator[Flag]], seen: View) -> list[str]:
    return [flag.key.removeprefix("kitchen.") for flag in remark(seen)]


@each(
    ("carried", "key"),
    [(49.9, ["fuel-short"]), (50.0, ["fuel-thin"]), (59.9, ["fuel-thin"]), (60.0, [])],
)
def test_fuel_is_short_below_what_burns_and_thin_below_the_reserve(
    carried: float, key: list[str]
) -> None:
    found = list(said.fuel_amount(view(fuel=replace(FUEL, carried_g=carried))))
    assert [flag.key.removeprefix("kitchen.") for flag in found] == key
    levels = {"kitchen.fuel-short": "block", "kitchen.fuel-thin": "caution"}
    assert all(flag.level == levels[flag.key] for flag in found)
    if key == ["fuel-thin"]:
        assert found[0].values["over_g"] == pytest.approx(carried - 50.0)
    assert list(said.fuel_amount(view(fuel=None))) == []


@each(("carry", "key"), [(2000.0, []), (2001.0, ["bottles-short"])])
def test_water_beyond_the_bottles_is_told_for_the_longest_carry(
    carry: float, key: list[str]
) -> None:
    def one(number: int, ml: float, why: str = "to-next-water") -> WaterCarry:
        return WaterCarry(day=number, start="a", end="b", distance_m=1.0, minutes=1.0,
                          carry_ml=ml, why=why)  # fmt: skip

    found = view(carries=(one(1, 500.0), one(2, carry), one(3, 900.0)))
    assert keys(said.bottles, found) == key
    if key:
        (flag,) = said.bottles(found)
        assert (flag.values["day"], flag.values["bottles_ml"]) == (2, 2000.0)
    unknown = view(carries=(one(1, 500.0, "places-unknown"),))
    assert keys(said.bottles, unknown) == ["places-unknown"]


@each(("limit", "key"), [(None, []), (10.0, []), (9.9, ["minutes"])])
def test_a_meal_longer_than_the_walker_allowed_is_told(
    limit: float | None, key: list[str]
) -> None:
    rules = Rules(minutes={} if limit is None else {"dinner": limit})
    assert keys(said.minutes, view(meal(), meal(2, "breakfast", minutes=99.0), rules=rules)) == key


def test_many_fills_are_told_though_melting_for_the_bottles_takes_more() -> None:
    # Water to drink is melted in as many fills as it takes; that must not hide a meal's own.
    melted = meal(1, "drinks", batches=9)
    for batches, key in ((3, []), (4, ["batches"])):
        assert keys(said.batches, view(melted, meal(2, batches=batches))) == key
    assert keys(said.batches, view(melted)) == []
    (flag,) = said.batches(view(meal(1, batches=4), melted, meal(2, batches=6)))
    assert (flag.values["batches"], flag.values["day"]) == (6, 2)


def step(kind: Any, minutes: float) -> CookStep:
    return CookStep(kind=kind, start_min=5.0, end_min=5.0 + minutes, food="x")


@each(
    ("kind", "factor"), [("wait", soak_factor), ("simmer", staple_factor)]
)
def test_longer_waits_up_high_are_told_by_the_factor_that_made_them(
    kind: str, factor: Callable[[float], float]
) -> None:
    at = boiling_c(3000.0)
    high = meal(2, boiling_c=at, steps=(step(kind, 10.0 * factor(at)), step("boil", 99.0)))
    low = meal(1, boiling_c=99.0, steps=(step("wait", 60.0),))
    (flag,) = said.altitude_wait(view(low, high))
    assert (flag.values["day"], flag.values["boiling_c"]) == (2, at)
    assert flag.values["longer_min"] == pytest.approx(10.0 * (factor(at) - 1.0))


@each(("boils_at", "told"), [(95.0, False), (94.9, True)])
def test_waits_are_told_where_water_boils_below_95_degrees(boils_at: float, told: bool) -> None:
    one = meal(1, boiling_c=boils_at, steps=(step("wait", 10.0),))
    assert bool(keys(said.altitude_wait, view(one))) is told
    assert keys(said.altitude_wait, view(meal(1, boiling_c=80.0))) == []  # nothing stands


@each(
    ("stated", "warm", "told"), [(None, -3.0, True), (None, 1.0, False), (True, -3.0, False),
                                 (False, -3.0, False)]
)  # fmt: skip
def test_snow_is_told_where_it_was_guessed(stated: bool | None, warm: float, told: bool) -> None:
    stretch = [replace(one, snow=stated) for one in days(3, warm_c=warm)]
    assert bool(keys(said.snow, view(days=stretch))) is told
    assert keys(said.snow, view(days=stretch, fuel=None)) == []


@each(
    ("kind", "fuel", "told"),
    [("gas-open", "gas", False), ("spirit-open", "ethanol", True), ("open-fire", "wood", False)],
)
def test_a_flame_that_cannot_be_turned_down_cannot_simmer(
    kind: str, fuel: Any, told: bool
) -> None:
    served = helpings([portion("anna", 1, "dinner", "rice")], FOODS)
    kit = Kit(stove=Stove(kind=kind, fuel=fuel))
    assert bool(keys(said.cannot_simmer, view(served=served, kit=kit))) is told
    assert keys(said.cannot_simmer, view(served=(), kit=kit)) == []
    assert keys(said.cannot_simmer, view(served=served, kit=Kit(stove=None))) == []


@each(
    ("state", "traces", "met"),
    [("contains", False, True), ("contains", True, True), ("may", False, True),
     ("may", True, False), ("unknown", True, True), ("unknown", False, True),
     ("free", False, False)],
)  # fmt: skip
def test_a_trace_is_met_unless_it_is_allowed_and_the_unknown_always(
    state: Any, traces: bool, met: bool
) -> None:
    # C10: unknown counts as contains.
    avoid = Avoid(allergen="milk", scope="pot", traces=traces)
    allergens = {} if state == "unknown" else {"milk": state}
    assert meets(food("x", allergens=allergens), avoid) is met


def test_one_remark_is_made_once_for_one_food_in_one_place() -> None:
    twice = helpings([portion("anna", 1, "dinner", "rice"), portion("anna", 1, "lunch", "rice")],
                     FOODS, flame=False)  # fmt: skip
    found = said.remarks(view(served=twice, fuel=None, kit=Kit(stove=None)))
    assert [flag.key for flag in found].count("kitchen.needs-flame") == 1


@each(("water_g", "food_g"), [(475.0, 120.0), (240.0, 60.0)])
def test_a_bare_bag_is_lukewarm_after_its_own_time(water_g: float, food_g: float) -> None:
    # Oracle: C ln((T0 - Ta) / (55 - Ta)) / (U A) with 10 W/m2 K over 0.06 m2, at 5 deg C.
    bag = Bagged(water_g=water_g, water_c=95.0, food_g=food_g, food_c=5.0)
    capacity = water_g * 4.19 + food_g * 1.8
    mixed = (water_g * 4.19 * 95.0 + food_g * 1.8 * 5.0) / capacity
    assert bag.mixed_c == pytest.approx(mixed)
    minutes = capacity * log((mixed - 5.0) / (LUKEWARM_C - 5.0)) / 0.6 / 60.0
    assert bag.after_c(minutes, 5.0, cosy=False) == pytest.approx(LUKEWARM_C)
    # A sleeve holds it 10 / 3 times as long.
    assert bag.after_c(minutes * 10.0 / 3.0, 5.0, cosy=True) == pytest.approx(LUKEWARM_C)


# What a dose costs where


@each(
    ("warm", "cold", "water_c"),
    [(18.0, 6.0, 10.0), (2.0, 0.0, 1.0), (45.0, 30.0, 20.0), (4.0, 3.0, 1.5)],
)
def test_running_water_is_two_kelvins_under_the_mean_air_between_one_and_twenty(
    warm: float, cold: float, water_c: float
) -> None:
    assert conditions_of(day(warm_c=warm, cold_c=cold)).water_c == pytest.approx(water_c)


@each(
    ("warm", "snow", "sure", "melts"),
    [(-0.1, None, None, True), (0.0, None, None, False), (-5.0, None, "sure", False),
     (-5.0, None, "likely", True), (-5.0, False, None, False), (9.0, True, "sure", True)],
)  # fmt: skip
def test_snow_is_melted_when_said_or_when_it_freezes_all_day_and_no_water_is_sure(
    warm: float, snow: bool | None, sure: str | None, melts: bool
) -> None:
    water = () if sure is None else (place("Brook", 600.0, 100.0, sure),)
    assert conditions_of(day(warm_c=warm, cold_c=-9.0, snow=snow, water=water)).snow is melts


@each(
    ("prep", "role", "bottle", "mug", "pot"),
    [
        (Prep(kind="none"), "snack", False, False, False),
        (Prep(kind="soak", water_ml=500.0), "drink", True, False, False),
        (Prep(kind="soak", water_ml=500.0), "small", True, False, False),
        (Prep(kind="soak", water_ml=150.0), "main", False, False, False),
        (Prep(kind="boil", water_ml=250.0), "drink", False, True, False),
        (Prep(kind="boil", water_ml=250.0, needs_pot=True), "drink", False, False, True),
        (Prep(kind="boil", water_ml=400.0, needs_pot=True, from_bag=True), "main", False, False,
         False),
        (Prep(kind="simmer", water_ml=250.0), "main", False, False, True),
        (Prep(kind="boil", water_ml=240.0), "main", False, False, False),
    ],
)  # fmt: skip
def test_where_a_food_is_made(prep: Prep, role: Any, bottle: bool, mug: bool, pot: bool) -> None:
    one = food("x", prep=prep, role=role)
    assert (in_bottle(one), in_mug(one), in_pot(one)) == (bottle, mug, pot)
    # Only what lies in the pot takes room beside its water: 130 g of solids are 100 ml.
    room = pot_room_ml(replace(one, dose_g=130.0), 2.0)
    assert room == pytest.approx(2.0 * (prep.water_ml + (100.0 if pot else 0.0)))


MILD = Conditions(height_m=0.0, air_c=15.0, water_c=15.0)
BURNER = flame(MILD, Stove())


@each(
    ("prep", "stove", "boiled", "wait", "burns"),
    [
        (Prep(kind="none"), True, 0.0, 0.0, False),
        (Prep(kind="none", water_ml=200.0, wait_min=9.0), True, 0.0, 0.0, False),
        (Prep(kind="soak", water_ml=200.0, wait_min=30.0), True, 0.0, 30.0, False),
        (Prep(kind="soak", water_ml=200.0, wait_min=30.0, cold_soak_min=45.0), True, 0.0, 45.0,
         False),
        (Prep(kind="boil", water_ml=200.0, wait_min=8.0), True, 200.0, 8.0, True),
        (Prep(kind="boil", water_ml=200.0, wait_min=8.0), False, 0.0, 0.0, False),
        (Prep(kind="boil", water_ml=200.0, wait_min=8.0, cold_soak_min=60.0), False, 0.0, 60.0,
         False),
    ],
)  # fmt: skip
def test_what_one_dose_asks_of_a_mild_camp(
    prep: Prep, stove: bool, boiled: float, wait: float, burns: bool
) -> None:
    kit = Kit() if stove else Kit(stove=None)
    found = dose_price(food("x", prep=prep, role="main"), MILD, kit)
    assert (found.water_ml, found.boiled_ml) == (prep.water_ml, boiled)
    assert found.wait_min == pytest.approx(wait, rel=1e-3)  # at the sea nothing waits longer
    assert (found.fuel_g > 0.0, found.flame_min > 0.0, found.heat_kj > 0.0) == (burns,) * 3
    if burns:
        assert found.heat_kj == pytest.approx(0.2 * BURNER.boil_kj_kg)
        assert found.fuel_g == pytest.approx(found.heat_kj * BURNER.fuel_g_kj)


def test_simmering_takes_150_watts_for_its_minutes() -> None:
    rice = FOODS["rice"]
    plain = replace(rice, prep=replace(rice.prep, simmer_min=0.0))
    long, short = (dose_price(one, MILD, Kit()) for one in (rice, plain))
    minutes = 12.0 * BURNER.simmer_factor
    assert long.heat_kj - short.heat_kj == pytest.approx(150.0 * 60.0 * minutes / 1000.0)
    assert long.flame_min - short.flame_min == pytest.approx(minutes)
    # Dry food in the pot is warmed as well: 100 g at 1.8 kJ/kg K.
    water = 0.25 * BURNER.boil_kj_kg
    assert short.heat_kj == pytest.approx(water + 0.1 * 1.8 * (BURNER.boiling_c - 15.0))


@each(
    ("clock", "height", "air"),
    [(500.0, 900.0, 6.0), (750.0, 900.0, 18.0), (5000.0, 900.0, 6.0)],
)
def test_a_meal_is_cooked_where_one_is_at_its_clock(
    clock: float, height: float, air: float
) -> None:
    one = day(2, warm_c=18.0, cold_c=6.0)
    at = conditions_at(one, clock, Rules(meal_clock_min={"lunch": 750.0}))
    assert (at.height_m, at.air_c) == (height, air)


# What is cooked together, by whom


@each(
    ("eaten", "doses", "made"),
    [
        ((), 3.0, {"drinks": 3.0}),
        (("breakfast",), 3.0, {"breakfast": 3.0}),
        (("dinner",), 3.0, {"dinner": 3.0}),
        (("breakfast", "dinner"), 3.0, {"breakfast": 2.0, "dinner": 1.0}),
        (("breakfast", "dinner"), 1.0, {"breakfast": 1.0}),
        (("breakfast", "dinner"), 4.0, {"breakfast": 2.0, "dinner": 2.0}),
        (("lunch",), 2.0, {"drinks": 2.0}),
    ],
)
def test_hot_drinks_go_to_the_meals_in_camp(
    eaten: tuple[Any, ...], doses: float, made: dict[str, float]
) -> None:
    portions = [portion("anna", 1, "drinks", "coffee", doses)]
    portions += [portion("anna", 1, one, "bar") for one in eaten]
    assert {h.meal: h.doses for h in helpings(portions, FOODS)} == made


def test_a_portion_of_nothing_is_not_cooked() -> None:
    assert helpings([portion("anna", 1, "dinner", "rice", 0.0)], FOODS) == ()


@each(
    ("stands", "doses", "bowls"),
    [(True, 1.0, ["breakfast"]), (True, 2.0, ["breakfast", "lunch"]), (False, 1.0, [])],
)
def test_an_emptied_pouch_that_stands_is_a_bowl_once(
    stands: bool, doses: float, bowls: list[str]
) -> None:
    pouch = replace(FOODS["pouch"], pouch=Pouch(stands=stands, closes=True, holds_ml=700.0))
    served = helpings(
        [portion("anna", 1, "dinner", "pouch", doses),
         *(portion("anna", 2, one, "oats") for one in ("breakfast", "lunch", "dinner"))],
        FOODS | {"pouch": pouch},
    )  # fmt: skip
    found = occasions(served, {"all": ("anna",)})
    assert [one.meal for one in found if one.pouch_bowls] == bowls
    assert [one.bowls for one in found] == [
        0, *(0 if meal_ in bowls else 1 for meal_ in ("breakfast", "lunch", "dinner"))
    ]  # fmt: skip


@each(
    ("wait", "mug_ml", "pot_ml", "shared"),
    [
        (0.5, 250.0, 1000.0, True),
        (0.5, 600.0, 1000.0, True),  # 850 ml are 85 % of a litre
        (0.5, 601.0, 1000.0, False),
        (10.0, 250.0, 1000.0, False),  # the food would be long ready before its coffee
    ],
)
def test_meals_and_mugs_share_a_boil_that_holds_both_and_is_quick(
    wait: float, mug_ml: float, pot_ml: float, shared: bool
) -> None:
    from oatsack.kitchen.cooking import Camp, _Hob

    camp = Camp(flame=BURNER, pots=[_Hob(Pot(volume_ml=pot_ml))], burners=[0.0])
    meals = [Pour(food="oats", water_ml=250.0, wait_min=wait, portions=1)]
    cups = [Pour(food="coffee", water_ml=mug_ml, wait_min=0.0, portions=1, mug=True)]
    assert one_boil(camp, meals, cups) is shared
    assert not one_boil(camp, meals, [])
    assert not one_boil(camp, [], cups)


@each(
    ("water", "hold", "fills", "kinds"),
    [(850.0, 0.0, 1, ["melt"]), (851.0, 0.0, 2, ["melt"] * 2),
     (1700.0, 3.0, 2, ["boil", "simmer"] * 2)],
)  # fmt: skip
def test_drinking_water_is_made_by_fills_of_85_percent(
    water: float, hold: float, fills: int, kinds: list[str]
) -> None:
    snow = flame(Conditions(air_c=-5.0, snow=True), Stove())
    pots = [Pot(volume_ml=500.0), Pot(volume_ml=1000.0)]
    made = distil(1, ("anna",), snow, pots=pots, water_ml=water, hold_min=hold)
    assert (made.batches, [one.kind for one in made.steps]) == (fills, kinds)
    assert made.minutes == made.steps[-1].end_min
    assert sum(one.water_ml for one in made.steps) == pytest.approx(water)
    assert made.fuel_g == pytest.approx(made.heat_kj * snow.fuel_g_kj)
    per_kg = snow.boil_kj_kg if hold else snow.melt_kj_kg
    least = water / 1000.0 * per_kg + fills * hold * 9.0
    assert least <= made.heat_kj <= least + fills * 120.0 * 0.52 * snow.rise_k / 1000.0 + 1e-9
    assert critical(made) == made.steps


def test_a_party_beyond_ten_with_one_pot_brings_a_kit_for_each_group() -> None:
    for count, parts in ((10, 1), (11, 2)):
        people = walkers(count)
        groups = [[w.id for w in people[:5]], [w.id for w in people[5:]]]
        assert len(kitchens(people, Kit(), groups)) == parts
        assert len(kitchens(people, Kit(), None)) == 1


# Without a flame


@each(
    ("prep", "role", "verdict"),
    [
        (Prep(kind="none"), "snack", "as-it-is"),
        (Prep(kind="soak", water_ml=500.0), "drink", "as-it-is"),
        (Prep(kind="soak", water_ml=150.0), "main", "soak"),
        (Prep(kind="boil", water_ml=240.0, cold_soak_min=0.0), "main", "soak"),
        (Prep(kind="boil", water_ml=240.0), "main", "no"),
        (Prep(kind="simmer", water_ml=240.0), "main", "no"),
    ],
)
def test_what_can_be_eaten_cold(prep: Prep, role: Any, verdict: str) -> None:
    assert verdict_of(food("x", prep=prep, role=role)) == verdict


def cold(name: str, kcal: float, **more: Any) -> Any:
    fields = {"role": "main", "meals": frozenset({"dinner"}), "dose_g": 100.0} | more
    return food(name, kcal=kcal, **fields)


@each(
    ("larder", "taken", "doses"),
    [
        ([cold("far", 300.0), cold("near", 390.0)], "near", 1.0),
        ([cold("a", 396.0), cold("b", 404.0)], "a", 1.0),  # alike to ten: by name in the end
        ([cold("a", 400.0, role="side"), cold("b", 400.0)], "b", 1.0),  # a main for a main
        ([cold("a", 400.0, liking=2.0), cold("b", 400.0, liking=4.0)], "b", 1.0),
        ([cold("a", 400.0), cold("b", 200.0, dose_g=200.0)], "a", 1.0),  # then the lighter
        ([cold("a", 130.0)], "a", 3.0),
        ([cold("a", 1500.0)], "a", 1.0),  # never less than one dose
        ([cold("rice", 400.0)], None, 0.0),  # not itself
        ([cold("a", 400.0, meals=frozenset({"lunch"}))], None, 0.0),
        ([cold("a", 400.0, role="topping")], None, 0.0),
        ([cold("a", 400.0, role="small")], None, 0.0),
        ([cold("a", 400.0, role="drink")], None, 0.0),
        ([cold("a", 0.0)], None, 0.0),
    ],
)
def test_the_nearest_in_energy_stands_in(
    larder: list[Any], taken: str | None, doses: float
) -> None:
    rice = replace(FOODS["rice"], liking=None)
    swap = best_swap(portion("anna", 1, "dinner", "rice"), rice, larder)
    assert (swap and swap.food) == taken
    if swap is not None:
        assert swap.doses == doses
        assert swap.off_kcal == pytest.approx(swap.energy_kcal - 400.0)


def test_nothing_is_swapped_that_can_be_eaten_and_nothing_a_walker_must_not_eat() -> None:
    menu = menu_of([portion("anna", 1, "dinner", "rice"), portion("bert", 1, "dinner", "rice"),
                    portion("anna", 1, "lunch", "couscous")])  # fmt: skip
    larder = [cold("cheese", 400.0), cold("ham", 390.0)]
    twins = flame_free(menu, FOODS, larder=larder, heat_c={1: 33.0},
                       allowed=lambda who, one: who == "anna" or one.id == "ham")  # fmt: skip
    assert [one.swap and one.swap.food for one in twins] == ["cheese", "ham", None]
    assert twins[2].clock is not None
    assert twins[2].clock.eat_within_min == 60.0  # above 32 deg C


def test_walkers_are_told_of_in_the_order_of_the_menu() -> None:
    assert walker().id == "anna"
    menu = menu_of(portion(w, n, "lunch", "bar") for n in (2, 1) for w in ("bert", "anna"))
    twins = flame_free(menu, FOODS, larder=[], heat_c={}, allowed=lambda *_: True)
    assert [(one.walker, one.day) for one in twins] == [("bert", 2), ("anna", 2), ("bert", 1),
                                                         ("anna", 1)]  # fmt: skip


# Gas, flames, pots and soaks


def test_gas_that_hardly_leaves_its_can_is_told_for_the_worst_of_the_nights_outside() -> None:
    cold, colder, home = (day(n, cold_c=c, last=n == 3)
                          for n, c in ((1, -12.0), (2, -15.0), (3, -30.0)))  # fmt: skip
    (flag,) = said.cold_gas(view(days=[cold, colder, home]))
    assert (flag.values["day"], flag.values["nights"], flag.values["air_c"]) == (2, 2, -15.0)
    at = conditions_of(colder)
    assert flag.values["push_kpa"] == round(push_kpa(at.air_c, at.height_m), 1)
    liquid = Kit(stove=Stove(kind="white-gas", fuel="white-gas"))
    for seen in (view(days=[cold], fuel=None), view(days=[cold], kit=liquid), view(days=[home]),
                 view(days=[cold], kit=Kit(stove=None))):  # fmt: skip
        assert keys(said.cold_gas, seen) == []


def test_gas_is_weak_below_fifty_kilopascals_and_not_at_them() -> None:
    def pushed(air: float) -> float:
        return push_kpa(air, 900.0)

    low, high = -30.0, 20.0
    for _ in range(80):  # the air at which a nearly empty can pushes exactly so much
        low, high = (low, (low + high) / 2) if pushed((low + high) / 2) > said.PUSH_KPA else (
            (low + high) / 2, high)  # fmt: skip
    for air, told in ((low - 0.01, True), (high + 0.01, False)):
        assert bool(keys(said.cold_gas, view(days=[day(cold_c=air)]))) is told


@each(
    ("fuel", "kit", "told"),
    [
        (FUEL, Kit(), ["fire-valve", "fumes", "no-flight"]),
        (FUEL, Kit(stove=Stove(kind="spirit-open", fuel="ethanol")),
         ["fire-open", "fumes", "no-flight"]),
        (None, Kit(), []),
        (FUEL, Kit(stove=None), []),
    ],
)  # fmt: skip
def test_rules_of_fire_are_told_where_something_is_lit(
    fuel: FuelPlan | None, kit: Kit, told: list[str]
) -> None:
    found = [one for one in keys(said.flame_rules, view(fuel=fuel, kit=kit))
             if not one.startswith("stove-")]  # fmt: skip
    assert found == told


def test_of_several_waits_up_high_the_one_that_grows_most_is_told_for_the_highest_day() -> None:
    low, high = boiling_c(2000.0), boiling_c(3000.0)
    meals = (
        meal(1, boiling_c=low, steps=(step("simmer", 500.0),)),
        meal(2, boiling_c=high, steps=(step("wait", 12.0), step("simmer", 30.0))),
        meal(2, "breakfast", boiling_c=high, steps=(step("wait", 5.0),
             CookStep(kind="wait", start_min=0.0, end_min=900.0))),  # no food waits here
    )  # fmt: skip
    (flag,) = said.altitude_wait(view(*meals))
    assert flag.values["day"] == 2
    assert flag.values["longer_min"] == pytest.approx(30.0 * (1.0 - 1.0 / staple_factor(high)))


@each(
    ("scope", "dish", "told"),
    [("pot", "rice", True), ("party", "rice", True), ("plate", "rice", False),
     ("pot", "oats", False), ("pot", "pouch", False)],
)  # fmt: skip
def test_a_pot_is_kept_clean_of_what_is_made_in_it_and_not_of_water_for_a_bag(
    scope: Any, dish: str, told: bool
) -> None:
    # Nobody said whether these hold milk, and unknown counts as contains (C10).
    strict = walker("w00", avoids=(Avoid(allergen="milk", scope=scope),))
    served = helpings([portion("w01", 1, "dinner", dish)], FOODS)
    seen = view(served=served, walkers=[strict, walker("w01")])
    assert bool(keys(said.pot_allergens, seen)) is told


@each(
    ("cosy", "fuel", "air", "wait", "told"),
    [(False, FUEL, -15.0, 20.0, True), (True, FUEL, -15.0, 20.0, False),
     (False, None, -15.0, 20.0, False), (False, FUEL, 25.0, 5.0, False),
     (False, FUEL, -15.0, 0.0, False)],
)  # fmt: skip
def test_a_bag_that_cools_before_its_time_is_told_once_without_a_cosy(
    cosy: bool, fuel: FuelPlan | None, air: float, wait: float, told: bool
) -> None:
    pouch = replace(FOODS["pouch"], prep=replace(FOODS["pouch"].prep, wait_min=wait))
    served = helpings([portion("anna", 2, "dinner", "pouch"), portion("bert", 2, "dinner", "oats")],
                      FOODS | {"pouch": pouch})  # fmt: skip
    seen = view(meal(2, boiling_c=90.0), served=served, kit=Kit(cosy=cosy), fuel=fuel,
                days=[day(2, cold_c=air)])  # fmt: skip
    found = list(said.cooling(seen))
    assert bool(found) is told
    if told:
        assert (found[0].values["food"], found[0].values["day"]) == ("pouch", 2)
        bag = Bagged(water_g=475.0, water_c=90.0, food_g=120.0, food_c=air)
        ends = bag.after_c(wait * soak_factor(90.0), air, cosy=False)
        assert found[0].values["end_c"] == pytest.approx(ends)
        assert ends < LUKEWARM_C


@each(
    ("meal_", "told"), [("lunch", True), ("dinner", False)]
)
def test_a_soak_stands_in_middays_air_at_lunch_and_in_the_cold_at_dinner(
    meal_: Any, told: bool
) -> None:
    slow = replace(FOODS["couscous"], prep=replace(FOODS["couscous"].prep, wait_min=90.0))
    served = helpings([portion("anna", 1, meal_, "couscous")], FOODS | {"couscous": slow})
    seen = view(served=served, days=[day(1, warm_c=34.0, cold_c=12.0)])
    found = list(said.soaking(seen))
    assert bool(found) is told  # an hour above 32 deg C, two below (FSISDanger)
    if told:
        assert (found[0].values["ready_min"], found[0].values["within_min"]) == (90.0, 60.0)


def test_sweat_worked_out_anew_replaces_its_remarks_and_keeps_the_others() -> None:
    named = ("kitchen.fumes", "kitchen.too-hot", "kitchen.salt", "kitchen.minutes")
    old = KitchenLedger(flags=tuple(Flag(key=key, level="note") for key in named))
    found = said.resweated(old, Menu(portions=()), FOODS)
    assert [flag.key for flag in found] == ["kitchen.fumes", "kitchen.minutes"]
