"""One occasion on the clock: batches, order, waits, washing, and a camp of twelve."""

from __future__ import annotations

import itertools
import timeit

import pytest

from oatsack.kitchen import heat
from oatsack.kitchen.cooking import (
    POUR_MIN,
    WASH_BOWL_ML,
    WASH_MIN,
    WASH_POT_ML,
    cook,
    critical,
    distil,
)
from oatsack.kitchen.occasions import Dish, Occasion, Pour, Soak, helpings, occasions
from oatsack.kitchen.price import flame
from oatsack.values.kit import Pot, Stove
from oatsack.values.kitchen import Conditions, CookStep, MealLedger
from support.kitchen import FOODS, portion, walkers

AT = flame(Conditions(height_m=1000.0), Stove())
SNOW = flame(Conditions(height_m=2000.0, air_c=-8.0, snow=True), Stove())


def dinner(*, pours: tuple[Pour, ...] = (), dishes: tuple[Dish, ...] = (),
           soaks: tuple[Soak, ...] = (), bowls: int = 0) -> Occasion:  # fmt: skip
    return Occasion(day=1, meal="dinner", walkers=("anna",), pours=pours, dishes=dishes,
                    soaks=soaks, bowls=bowls)  # fmt: skip


def pouch(water: float = 475.0, n: int = 1, wait: float = 10.0, name: str = "pouch") -> Pour:
    return Pour(food=name, water_ml=water, wait_min=wait, portions=n)


def mugs(n: int = 1, water: float = 250.0) -> Pour:
    return Pour(food="coffee", water_ml=water * n, wait_min=0.0, portions=n, mug=True)


def rice(n: int = 1, simmer: float = 12.0, wait: float = 0.0, name: str = "rice") -> Dish:
    return Dish(food=name, water_ml=250.0 * n, solids_g=100.0 * n, simmer_min=simmer,
                wait_min=wait, portions=n)  # fmt: skip


def kinds(meal: MealLedger) -> list[str]:
    return [s.kind for s in meal.steps]


def of(meal: MealLedger, kind: str, food: str = "") -> list[CookStep]:
    return [s for s in meal.steps if s.kind == kind and (not food or s.food == food)]


def test_one_pouch_is_boiled_poured_and_waited_for() -> None:
    meal = cook(dinner(pours=(pouch(),)), AT, pots=[Pot()], burners=1)
    assert kinds(meal) == ["boil", "pour", "wait"]
    boil = of(meal, "boil")[0]
    assert meal.minutes == pytest.approx(boil.end_min + POUR_MIN + 10.0 * AT.soak_factor)
    assert (meal.boiled_ml, meal.left_ml, meal.wash_ml, meal.batches) == (500.0, 25.0, 0.0, 1)


def test_water_goes_up_to_the_next_mark_and_no_further() -> None:
    for water, boiled in ((475.0, 500.0), (500.0, 500.0), (501.0, 550.0)):
        meal = cook(dinner(pours=(pouch(water),)), AT, pots=[Pot()], burners=1)
        assert meal.boiled_ml == boiled


def test_coffee_is_made_while_the_food_stands() -> None:
    meal = cook(dinner(pours=(pouch(), mugs())), AT, pots=[Pot()], burners=1)
    stand, coffee = of(meal, "wait")[0], of(meal, "pour", "coffee")[0]
    assert stand.start_min < coffee.start_min < coffee.end_min < stand.end_min
    assert meal.minutes == pytest.approx(stand.end_min)
    assert meal.batches == 2


def test_coffee_and_instant_food_share_one_boil() -> None:
    meal = cook(dinner(pours=(pouch(240.0, wait=0.5, name="oats"), mugs())), AT, pots=[Pot()],
                burners=1)  # fmt: skip
    assert meal.batches == 1
    assert [s.food for s in of(meal, "pour")] == ["oats", "coffee"]


def test_a_small_pot_is_filled_again() -> None:
    meal = cook(dinner(pours=(pouch(950.0, n=2),)), AT, pots=[Pot(volume_ml=700.0)], burners=1)
    assert meal.batches == 2
    first, second = of(meal, "boil")
    assert first.water_ml == pytest.approx(595.0)
    assert second.start_min >= first.end_min
    assert sum(s.water_ml for s in of(meal, "pour")) == pytest.approx(950.0)


def test_the_second_fill_waits_until_the_first_is_poured() -> None:
    meal = cook(dinner(pours=(pouch(950.0, n=2),)), AT, pots=[Pot(volume_ml=700.0)], burners=1)
    assert of(meal, "boil")[1].start_min == pytest.approx(of(meal, "pour")[0].end_min)


def test_a_second_pot_heats_while_the_first_is_poured() -> None:
    pots = [Pot(name="a", volume_ml=700.0), Pot(name="b", volume_ml=700.0)]
    meal = cook(dinner(pours=(pouch(950.0, n=2),)), AT, pots=pots, burners=1)
    first, second = of(meal, "boil")
    assert (first.pot, second.pot) == ("a", "b")
    assert second.start_min == pytest.approx(first.end_min)


def test_two_burners_halve_the_heating() -> None:
    pots = [Pot(name="a", volume_ml=2000.0), Pot(name="b", volume_ml=2000.0)]
    one = cook(dinner(pours=(pouch(3400.0, n=7),)), AT, pots=pots, burners=1)
    two = cook(dinner(pours=(pouch(3400.0, n=7),)), AT, pots=pots, burners=2)
    assert two.minutes < one.minutes
    assert two.fuel_g == pytest.approx(one.fuel_g)
    assert of(two, "boil")[1].start_min == 0.0


def test_a_dish_boils_simmers_and_is_served_then_the_pot_is_washed() -> None:
    meal = cook(dinner(dishes=(rice(),)), AT, pots=[Pot()], burners=1)
    assert kinds(meal) == ["boil", "simmer", "pour", "wash"]
    simmer = of(meal, "simmer")[0]
    assert simmer.end_min - simmer.start_min == pytest.approx(12.0 * AT.simmer_factor)
    assert meal.minutes == pytest.approx(of(meal, "pour")[0].end_min)
    assert (meal.wash_ml, meal.dirty_pots) == (WASH_POT_ML, 1)


def test_coffee_after_a_dish_waits_for_a_clean_pot() -> None:
    meal = cook(dinner(dishes=(rice(),), pours=(mugs(),)), AT, pots=[Pot()], burners=1)
    assert kinds(meal) == ["boil", "simmer", "pour", "wash", "boil", "pour"]
    assert meal.dirty_pots == 1 and meal.wash_ml == WASH_POT_ML
    wash = of(meal, "wash")[0]
    assert wash.end_min - wash.start_min == WASH_MIN
    assert of(meal, "boil")[1].start_min == pytest.approx(wash.end_min)


def test_a_second_pot_saves_the_washing_before_coffee() -> None:
    pots = [Pot(name="big", volume_ml=1300.0), Pot(name="small", volume_ml=700.0)]
    one = cook(dinner(dishes=(rice(),), pours=(mugs(),)), AT, pots=pots[:1], burners=1)
    two = cook(dinner(dishes=(rice(),), pours=(mugs(),)), AT, pots=pots, burners=1)
    assert of(two, "boil")[1].pot == "small"
    assert two.minutes < one.minutes


def test_a_dish_that_stands_leaves_the_burner_free() -> None:
    pots = [Pot(name="big", volume_ml=1300.0), Pot(name="small", volume_ml=700.0)]
    stew = rice(simmer=0.0, wait=10.0, name="stew")
    meal = cook(dinner(dishes=(stew,), pours=(mugs(),)), AT, pots=pots, burners=1)
    stand, coffee = of(meal, "wait")[0], of(meal, "boil")[1]
    assert stand.start_min <= coffee.start_min < stand.end_min


def test_too_much_rice_is_cooked_in_equal_batches_without_a_wash_between() -> None:
    meal = cook(dinner(dishes=(rice(4),)), AT, pots=[Pot(volume_ml=900.0)], burners=1)
    boils = of(meal, "boil")
    assert len(boils) == 2 and boils[0].water_ml == boils[1].water_ml == 500.0
    assert len(of(meal, "wash")) == 1


def test_two_pots_on_two_burners_share_a_large_dish() -> None:
    pots = [Pot(name="a", volume_ml=1000.0), Pot(name="b", volume_ml=800.0)]
    one = cook(dinner(dishes=(rice(4),)), AT, pots=pots[:1], burners=1)
    two = cook(dinner(dishes=(rice(4),)), AT, pots=pots, burners=2)
    assert two.minutes < 0.7 * one.minutes
    assert {s.pot for s in of(two, "boil")} == {"a", "b"}
    assert sum(s.water_ml for s in of(two, "boil")) == pytest.approx(1000.0)
    assert two.dirty_pots == 2
    for step in of(two, "boil"):
        volume = 1000.0 if step.pot == "a" else 800.0
        assert step.water_ml * (1000.0 + 400.0 / 1.3) / 1000.0 <= 0.75 * volume + 1e-6


def test_a_dish_that_fits_one_pot_uses_one_pot() -> None:
    pots = [Pot(name="a", volume_ml=900.0), Pot(name="b", volume_ml=700.0)]
    meal = cook(dinner(dishes=(rice(2),)), AT, pots=pots, burners=2)
    assert [s.pot for s in of(meal, "boil")] == ["a"]


def test_another_dish_in_the_same_pot_needs_a_wash_between() -> None:
    meal = cook(dinner(dishes=(rice(), rice(simmer=3.0, name="soup"))), AT, pots=[Pot()],
                burners=1)  # fmt: skip
    assert len(of(meal, "wash")) == 2
    assert meal.wash_ml == 2 * WASH_POT_ML


def test_bowls_are_rinsed_after_the_meal() -> None:
    meal = cook(dinner(pours=(pouch(),), bowls=3), AT, pots=[Pot()], burners=1)
    assert meal.wash_ml == 3 * WASH_BOWL_ML
    assert meal.minutes == pytest.approx(of(meal, "wait")[0].end_min)


def test_a_cold_soak_runs_before_minute_nought() -> None:
    meal = cook(dinner(soaks=(Soak(food="couscous", water_ml=150.0, wait_min=30.0),)), AT,
                pots=[Pot()], burners=1)  # fmt: skip
    (step,) = meal.steps
    assert (step.start_min, step.end_min) == (-30.0, 0.0)
    assert (meal.minutes, meal.cold_ml, meal.boiled_ml) == (0.0, 150.0, 0.0)


def test_snow_is_melted_before_it_boils() -> None:
    meal = cook(dinner(pours=(pouch(),)), SNOW, pots=[Pot()], burners=1)
    assert kinds(meal)[:2] == ["melt", "boil"]
    melt, boil = meal.steps[0], meal.steps[1]
    assert melt.end_min == pytest.approx(boil.start_min)
    kj = 0.5 * heat.snow_kj_kg(-8.0, 0.0)
    assert melt.fuel_g == pytest.approx(kj * SNOW.fuel_g_kj)


def test_heat_and_fuel_are_the_sum_of_water_and_pot() -> None:
    pot = Pot(mass_g=200.0, material="aluminium")
    meal = cook(dinner(pours=(pouch(500.0),)), AT, pots=[pot], burners=1)
    boiling = heat.boiling_c(1000.0)
    kj = 0.5 * heat.heat_kj_kg(10.0, boiling) + 0.2 * 0.897 * (boiling - 10.0)
    assert meal.heat_kj == pytest.approx(kj)
    assert meal.fuel_g == pytest.approx(kj / (45.73 * 0.55))


def test_each_burner_is_primed_once() -> None:
    pots = [Pot(name="a", volume_ml=600.0), Pot(name="b", volume_ml=600.0)]
    plain = cook(dinner(pours=(pouch(2000.0, n=4),)), AT, pots=pots, burners=2)
    primed = cook(dinner(pours=(pouch(2000.0, n=4),)), AT, pots=pots, burners=2, priming_g=4.0)
    assert plain.batches == 4
    assert primed.fuel_g == pytest.approx(plain.fuel_g + 8.0)


def test_the_boiling_point_stands_in_the_ledger() -> None:
    meal = cook(dinner(pours=(pouch(),)), AT, pots=[Pot()], burners=1)
    assert meal.boiling_c == pytest.approx(heat.boiling_c(1000.0))


def test_melting_drinking_water_needs_no_boil() -> None:
    still = distil(1, ("anna",), SNOW, pots=[Pot(volume_ml=2000.0)], water_ml=3000.0, hold_min=0.0)
    assert {s.kind for s in still.steps} == {"melt"}
    assert still.batches == 2
    assert still.heat_kj == pytest.approx(3.0 * heat.snow_kj_kg(-8.0, 0.0))


def test_treating_water_boils_it_and_holds_it() -> None:
    still = distil(1, ("anna",), AT, pots=[Pot(volume_ml=2000.0)], water_ml=3000.0, hold_min=3.0)
    assert [s.kind for s in still.steps] == ["boil", "simmer", "boil", "simmer"]
    assert still.minutes == pytest.approx(still.steps[-1].end_min)
    assert still.fuel_g == pytest.approx(sum(s.fuel_g for s in still.steps))
    assert still.heat_kj * AT.fuel_g_kj == pytest.approx(still.fuel_g)


def test_four_litres_treated_burn_about_61_grams_of_gas() -> None:
    # 10 C at 2,000 m, gas at 0.5: 15.26 g a kilogram, as computed apart from this code
    at = flame(Conditions(height_m=2000.0), Stove(efficiency=0.5))
    still = distil(1, ("anna",), at, pots=[Pot(volume_ml=5000.0, mass_g=0.0)], water_ml=4000.0,
                   hold_min=3.0)  # fmt: skip
    boils = sum(s.fuel_g for s in still.steps if s.kind == "boil")
    assert boils == pytest.approx(61.0, abs=0.3)


def test_twelve_walkers_are_scheduled_in_under_a_tenth_of_a_second() -> None:
    occasion = dinner(pours=(pouch(475.0 * 12, n=12), mugs(12)), dishes=(rice(12),))
    pots = [Pot(name="a", volume_ml=3000.0), Pot(name="b", volume_ml=2000.0)]
    took = min(timeit.repeat(lambda: cook(occasion, AT, pots=pots, burners=2), number=1, repeat=3))
    assert took < 0.1


def test_coffee_is_poured_after_the_bags_even_where_its_water_boils_first() -> None:
    people = walkers(6)
    found = occasions(helpings(
        [portion(w.id, 1, "dinner", "pouch") for w in people]
        + [portion(people[0].id, 1, "dinner", "coffee")], FOODS,
    ), {"all": tuple(w.id for w in people)})  # fmt: skip
    book = cook(found[0], flame(Conditions(), Stove()), pots=[Pot(volume_ml=4000.0), Pot()],
                burners=2)  # fmt: skip
    bags = [s.end_min for s in book.steps if s.kind == "pour" and s.food == "pouch"]
    coffee = [s for s in book.steps if s.kind == "pour" and s.food == "coffee"]
    boiled = [s.end_min for s in book.steps if s.kind == "boil"]
    assert min(boiled) < max(bags), "its water boils beside the bags'"
    assert coffee[0].start_min >= max(bags) - 1e-9
    waited = sum(s.end_min - s.start_min for s in critical(book))
    assert waited == pytest.approx(book.minutes)


def test_each_keeps_to_their_own_pots_on_one_flame() -> None:
    pots_of = {"w00": (0,), "w01": (1,), "w02": (1,)}
    found = occasions(
        helpings([portion(w, 1, "dinner", "rice") for w in pots_of], FOODS),
        {"all": tuple(pots_of)}, pots_of,
    )  # fmt: skip
    assert [(d.food, d.pots, d.portions) for d in found[0].dishes] == [
        ("rice", (0,), 1), ("rice", (1,), 2),
    ]  # fmt: skip
    pots = [Pot(name="red"), Pot(name="blue", volume_ml=2000.0)]
    book = cook(found[0], flame(Conditions(), Stove()), pots=pots, burners=1)
    served = {(s.pot, round(s.water_ml)) for s in book.steps if s.kind == "pour"}
    assert served == {("red", 250), ("blue", 500)}
    assert book.dirty_pots == 2


def test_the_heat_of_a_dish_is_water_pot_food_and_simmering_to_the_joule() -> None:
    meal = cook(dinner(dishes=(rice(simmer=12.0),)), AT, pots=[Pot()], burners=1)
    water = 0.25 * AT.boil_kj_kg
    pot = heat.pot_kj(120.0, "titanium", AT.rise_k)
    simmer = 12.0 * AT.simmer_factor
    # 150 W over the minutes that the height makes of twelve.
    whole = water + pot + 100.0 * AT.food_kj_g + simmer * 150.0 * 60.0 / 1000.0
    assert meal.heat_kj == pytest.approx(whole)
    assert meal.fuel_g == pytest.approx(whole * AT.fuel_g_kj)
    bare = cook(dinner(dishes=(rice(simmer=0.0),)), AT, pots=[Pot()], burners=1)
    assert bare.heat_kj == pytest.approx(whole - simmer * 9.0)
    assert not of(bare, "simmer")


def test_coffee_shares_no_boil_with_a_dish_in_the_way_or_from_another_pot() -> None:
    oats = Pour(food="oats", water_ml=240.0, wait_min=0.5, portions=1)
    alone = cook(dinner(pours=(oats, mugs())), AT, pots=[Pot()], burners=1)
    assert len(of(alone, "boil")) == 1
    with_dish = cook(dinner(pours=(oats, mugs()), dishes=(rice(),)), AT, pots=[Pot()], burners=1)
    assert len(of(with_dish, "boil")) == 3
    apart = [Pour(food="oats", water_ml=240.0, wait_min=0.5, portions=1, pots=(0,)),
             Pour(food="coffee", water_ml=250.0, wait_min=0.0, portions=1, mug=True, pots=(1,))]
    two = cook(dinner(pours=tuple(apart)), AT, pots=[Pot(name="a"), Pot(name="b")], burners=1)
    assert [(s.pot, s.food) for s in of(two, "pour")] == [("a", "oats"), ("b", "coffee")]
    assert len(of(two, "boil")) == 2


def test_washing_up_waits_until_the_meal_is_over() -> None:
    meal = cook(
        dinner(pours=(pouch(wait=60.0),), dishes=(rice(),), bowls=2), AT,
        pots=[Pot(name="a"), Pot(name="b")], burners=2,
    )  # fmt: skip
    washed = of(meal, "wash")
    assert min(s.start_min for s in washed) >= meal.minutes
    assert sorted(s.water_ml for s in washed) == [2 * WASH_BOWL_ML, WASH_POT_ML]
    assert meal.wash_ml == WASH_POT_ML + 2 * WASH_BOWL_ML


def test_a_pour_of_no_water_takes_no_time() -> None:
    none = Pour(food="nothing", water_ml=0.0, wait_min=30.0, portions=1)
    meal = cook(dinner(pours=(none, pouch())), AT, pots=[Pot()], burners=1)
    assert {s.food for s in of(meal, "pour")} == {"pouch"}
    assert of(meal, "wait", "nothing") == []


def test_the_steps_one_waits_for_fill_the_minutes_without_a_gap() -> None:
    meal = cook(
        dinner(pours=(pouch(), mugs(2)), dishes=(rice(), rice(name="stew", simmer=3.0)),
               soaks=(Soak(food="couscous", water_ml=150.0, wait_min=30.0),), bowls=1),
        AT, pots=[Pot()], burners=1,
    )  # fmt: skip
    chain = critical(meal)
    assert chain[0].start_min == pytest.approx(0.0)
    assert chain[-1].end_min == pytest.approx(meal.minutes)
    for first, then in itertools.pairwise(chain):
        assert first.end_min == pytest.approx(then.start_min)
    assert sum(s.end_min - s.start_min for s in chain) == pytest.approx(meal.minutes)
    assert "soak" not in {s.kind for s in chain}
