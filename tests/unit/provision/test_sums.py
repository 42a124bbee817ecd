"""Sums over the menu, each against a slow count made here once more."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.provision.sums import (
    SUMMED,
    budget_flag,
    day_total,
    eaten,
    grams,
    high,
    nutrient,
    over_budget,
    person_days,
    priced,
    totals,
    unpriced,
)
from oatsack.values.classes import high_of
from oatsack.values.food import Food, Nutrients
from oatsack.values.kitchen import FuelPlan, KitchenLedger, MealLedger
from oatsack.values.menu import Menu
from oatsack.values.pack import Bag, Buy, Packed, Rubbish, Sack
from oatsack.values.trip import Rules
from support.packs import days_of, eat, food, people, trip_for

FULL_LABEL = Nutrients(energy_kcal=400.0, protein_g=10.0, fat_g=12.0, carb_g=60.0, fibre_g=8.0,
                       sodium_mg=350.0, caffeine_mg=40.0)  # fmt: skip


def plain(name: str, label: Nutrients = FULL_LABEL, dose_g: float = 50.0, **more: Any) -> Food:
    """A food with a whole label."""
    fields_of = {"name": name, "category": "snack", "pack_g": 500.0, "doses_per_pack": 10.0}
    return Food(id=name, per_100g=label, dose_g=dose_g, **fields_of | more)  # type: ignore[arg-type]


FOODS = {f.id: f for f in (
    plain("oats"), plain("nuts", Nutrients(energy_kcal=600.0, protein_g=20.0, fat_g=50.0,
                                           carb_g=20.0, fibre_g=7.0, sodium_mg=5.0), 40.0),
    plain("riddle", Nutrients(energy_kcal=200.0), 25.0),
)}  # fmt: skip
COUNTS = st.lists(st.tuples(st.sampled_from(sorted(FOODS)), st.integers(1, 8)), max_size=10)


def portions(rows: list[tuple[str, int]], walker: str = "a", day: int = 1) -> list[Any]:
    """Portions of quarter doses."""
    return [eat(walker, day, "lunch", name, n / 4.0) for name, n in rows]


def slow(rows: list[tuple[str, int]], name: str) -> float:
    """A nutrient counted by hand; a blank adds nothing."""
    total = 0.0
    for food_id, quarters in rows:
        per = getattr(FOODS[food_id].per_100g, name)
        if per is not None:
            total += per * FOODS[food_id].dose_g * quarters / 4.0 / 100.0
    return total


def slow_high(rows: list[tuple[str, int]], name: str) -> float:
    """The same, a blank read as the high value of its class."""
    total = slow(rows, name)
    for food_id, quarters in rows:
        row = FOODS[food_id]
        if getattr(row.per_100g, name) is None:
            total += high_of(row, name) * row.dose_g * quarters / 4.0 / 100.0
    return total


def test_a_portion_weighs_its_doses() -> None:
    assert grams(eat("a", 1, "lunch", "oats", 2.5), FOODS["oats"]) == 125.0


def test_a_blank_is_no_nutrient_but_a_high_one_against_a_ceiling() -> None:
    portion = eat("a", 1, "lunch", "riddle", 4.0)  # 100 g
    assert nutrient(portion, FOODS["riddle"], "sodium_mg") == 0.0
    assert high(portion, FOODS["riddle"], "sodium_mg") == high_of(FOODS["riddle"], "sodium_mg") > 0


def test_what_is_stated_counts_as_stated_against_a_ceiling_too() -> None:
    portion = eat("a", 1, "lunch", "nuts", 5.0)  # 200 g
    assert high(portion, FOODS["nuts"], "sodium_mg") == pytest.approx(10.0)
    assert nutrient(portion, FOODS["nuts"], "sodium_mg") == pytest.approx(10.0)


@given(COUNTS)
def test_a_day_is_the_sum_of_its_portions(rows: list[tuple[str, int]]) -> None:
    found = day_total(portions(rows), FOODS, target_kcal=1.0, minutes=2.0)
    for name in SUMMED:
        assert getattr(found, name) == pytest.approx(slow(rows, name))
    assert found.mass_g == pytest.approx(sum(FOODS[f].dose_g * n / 4.0 for f, n in rows))
    assert (found.target_kcal, found.minutes) == (1.0, 2.0)


@given(COUNTS)
def test_high_figures_read_blanks_high_and_are_never_the_lower(rows: list[tuple[str, int]]) -> None:
    found = day_total(portions(rows), FOODS, target_kcal=0.0, minutes=0.0)
    for name in ("sodium_mg", "fat_g", "caffeine_mg"):
        stem, unit = name.rsplit("_", 1)
        told = getattr(found, f"{stem}_high_{unit}")
        assert told == pytest.approx(slow_high(rows, name))
        assert told >= getattr(found, name) - 1e-9


@given(COUNTS, COUNTS)
def test_two_halves_of_a_day_add_up_to_it(one: list[tuple[str, int]],
                                          two: list[tuple[str, int]]) -> None:  # fmt: skip
    parts = [day_total(portions(r), FOODS, target_kcal=0.0, minutes=0.0) for r in (one, two)]
    whole = day_total(portions(one + two), FOODS, target_kcal=0.0, minutes=0.0)
    for f in fields(whole):
        assert getattr(whole, f.name) == pytest.approx(sum(getattr(p, f.name) for p in parts))


def meal(day: int, *walkers: str, minutes: float = 10.0, boiled: float = 500.0) -> MealLedger:
    """One cooked occasion."""
    return MealLedger(day=day, meal="dinner", walkers=walkers, boiled_ml=boiled, cold_ml=0.0,
                      wash_ml=0.0, heat_kj=0.0, fuel_g=5.0, minutes=minutes)  # fmt: skip


KITCHEN = KitchenLedger(meals=(meal(1, "a", "b", minutes=12.0), meal(1, "b", minutes=7.0),
                               meal(2, "a", minutes=5.0)))  # fmt: skip


def test_everyone_has_the_days_of_their_target_and_their_own_portions() -> None:
    menu = Menu(portions=(eat("a", 1, "lunch", "oats", 2.0), eat("b", 1, "lunch", "nuts", 1.0),
                          eat("a", 2, "lunch", "nuts", 3.0)))  # fmt: skip
    found = eaten(menu, FOODS, {"a": {1: 400.0, 2: 700.0}, "b": {1: 240.0}}, KITCHEN)
    assert {w: {d: t.energy_kcal for d, t in of.items()} for w, of in found.items()} == {
        "a": {"1": 400.0, "2": 720.0}, "b": {"1": 240.0},
    }  # fmt: skip
    assert found["a"]["2"].target_kcal == 700.0


def test_kitchen_minutes_count_for_everyone_who_eats_there() -> None:
    found = eaten(Menu(portions=()), FOODS, {"a": {1: 1.0, 2: 1.0}, "b": {1: 1.0}}, KITCHEN)
    assert found["a"]["1"].minutes == 12.0
    assert found["b"]["1"].minutes == 19.0
    assert found["a"]["2"].minutes == 5.0


def test_person_days_are_hours_inside_the_walk_over_twenty_four() -> None:
    days = days_of(4)  # six walking hours each
    assert person_days(days, 2) == pytest.approx(4 * 6 * 2 / 24)
    assert person_days((), 3) == 0.0


def line(price: float | None, packs: float = 1.0) -> Buy:
    """One line of the shopping list."""
    return Buy(food="oats", shop="village", need_g=100.0, from_home_g=0.0, packs=packs,
               pack_g=500.0, price=price, left_g=400.0)  # fmt: skip


def test_a_list_without_any_price_has_none() -> None:
    assert priced(Packed(buy=(line(None), line(None)))) is None
    assert unpriced(Packed(buy=(line(None), line(None)))) == 2


def test_what_is_all_at_home_costs_nothing_and_lacks_no_price() -> None:
    for packed in (Packed(), Packed(buy=(line(None, packs=0.0),))):
        assert (priced(packed), unpriced(packed)) == (0.0, 0)


def test_what_comes_from_home_is_no_price_of_what_is_bought() -> None:
    """A pack of nothing costs nothing, which says nothing of what the others cost (C2)."""
    assert priced(Packed(buy=(line(0.0, packs=0.0), line(None)))) is None


def test_the_sum_is_the_least_where_some_price_is_not_known() -> None:
    packed = Packed(buy=(line(2.5), line(None), line(4.0)))
    assert (priced(packed), unpriced(packed)) == (6.5, 1)


def test_a_budget_is_broken_by_what_is_known_to_cost_more() -> None:
    trip = trip_for(people(1), 2, rules=Rules(budget=5.0))
    assert over_budget(trip, Packed(buy=(line(2.5), line(4.0)))) == pytest.approx(1.5)
    assert over_budget(trip, Packed(buy=(line(6.0), line(None)))) == pytest.approx(1.0)
    assert over_budget(trip, Packed(buy=(line(4.0), line(None)))) == 0.0


def test_a_price_of_nothing_is_a_price() -> None:
    assert priced(Packed(buy=(line(0.0), line(None)))) == 0.0


def test_known_prices_are_summed() -> None:
    assert priced(Packed(buy=(line(2.5), line(None), line(4.0)))) == 6.5


def bag(name: str, net: float, wrap: float, volume: float) -> Bag:
    """A bag by its measures."""
    return Bag(id=name, label="dinner", number=1, of=2, items=(), net_g=net, wrap_g=wrap,
               volume_ml=volume)  # fmt: skip


def sack(walker: str, leg: int, start: float, kg_days: float) -> Sack:
    """A sack by its measures."""
    return Sack(walker=walker, leg=leg, bags=(), start_g=start, by_day_g={}, wrappers_by_day_g={},
                kg_days=kg_days)  # fmt: skip


PACKED = Packed(
    buy=(line(3.0), line(1.5)), bags=(bag("x", 300.0, 10.0, 700.0), bag("y", 120.0, 8.0, 250.0)),
    sacks=(sack("a", 1, 900.0, 1.5), sack("b", 1, 600.0, 1.0), sack("a", 2, 5000.0, 4.0)),
    rubbish=(Rubbish(day=1, mass_g=12.0, volume_ml=50.0), Rubbish(day=2, mass_g=31.0,
                                                                 volume_ml=90.0)),
)  # fmt: skip
MENU = Menu(
    portions=(eat("a", 1, "lunch", "oats", 4.0), eat("b", 1, "lunch", "nuts", 5.0),
              eat("b", 2, "lunch", "riddle", 2.0)),
    spare=(eat("a", 0, "move", "nuts", 1.0),),
)  # fmt: skip
ROWS = [("oats", 16), ("nuts", 20), ("riddle", 8)]


def whole(**more: Any) -> Any:
    """Totals of the menu above over four days."""
    fuel = FuelPlan(kind="gas", by_day_g={}, burnt_g=44.0, reserve_g=10.0, need_g=54.0)
    kitchen = KitchenLedger(meals=KITCHEN.meals, fuel=fuel)
    trip = trip_for(people(2), 4)
    given_ = {"menu": MENU, "packed": PACKED, "ledger": kitchen} | more
    return totals(trip, days_of(4), given_["menu"], FOODS, given_["packed"], given_["ledger"])


def test_totals_of_what_is_eaten_leave_spare_food_apart() -> None:
    found = whole()
    assert found.energy_kcal == pytest.approx(slow(ROWS, "energy_kcal"))
    assert found.net_g == pytest.approx(4 * 50.0 + 5 * 40.0 + 2 * 25.0)
    assert (found.spare_g, found.spare_kcal) == (40.0, pytest.approx(240.0))


def test_totals_per_day_and_person_divide_by_full_days_of_one_eater() -> None:
    found, count = whole(), 2.0  # two people, four days of six hours
    assert found.person_days == pytest.approx(count)
    assert found.g_per_person_day == pytest.approx(450.0 / count)
    assert found.sodium_mg_day == pytest.approx(slow(ROWS, "sodium_mg") / count)
    assert found.fibre_g_day == pytest.approx(slow(ROWS, "fibre_g") / count)
    assert found.caffeine_mg_day == pytest.approx(slow(ROWS, "caffeine_mg") / count)
    assert found.protein_g_per_kg_day == pytest.approx(slow(ROWS, "protein_g") / count / 61.0)


def test_totals_of_mass_volume_and_money_are_those_of_the_bags() -> None:
    found = whole()
    assert (found.gross_g, found.volume_ml, found.price) == (438.0, 950.0, 4.5)
    assert found.kg_days == 6.5


def test_the_start_weighs_the_first_leg_only() -> None:
    assert whole().start_kg == pytest.approx(1.5)


def test_rubbish_is_that_of_the_worst_day() -> None:
    assert whole().rubbish_g == 31.0


def test_kitchen_totals_are_means_over_the_days() -> None:
    found = whole()
    assert found.cook_minutes_day == pytest.approx(24.0 / 4)
    assert found.boiled_ml_day == pytest.approx(1500.0 / 4)
    assert found.fuel_g == 44.0


def test_density_and_fat_are_shares_of_what_is_eaten() -> None:
    found = whole()
    assert found.kcal_per_100g == pytest.approx(100 * found.energy_kcal / 450.0)
    assert found.fat_share == pytest.approx(9 * slow(ROWS, "fat_g") / found.energy_kcal)


def test_a_trip_without_food_has_noughts_and_no_division_by_it() -> None:
    found = whole(menu=Menu(portions=()), packed=Packed(), ledger=KitchenLedger())
    assert all(getattr(found, f.name) == 0.0 for f in fields(found) if f.name != "person_days")


def test_the_sample_food_of_packing_states_what_these_sums_read() -> None:
    assert nutrient(eat("a", 1, "lunch", "oats", 2.0), food(), "energy_kcal") == 400.0


def test_what_is_spent_over_the_budget_is_told_to_the_cent() -> None:
    def bought(*prices: float | None) -> Packed:
        lines = tuple(
            Buy(food="oats", shop="village", need_g=1.0, from_home_g=0.0, packs=1.0, pack_g=500.0,
                price=price, left_g=0.0, when="weeks before", leg=1)
            for price in prices
        )  # fmt: skip
        return Packed(buy=lines)

    walk = trip_for(people(1), 2)
    poor = replace(walk, rules=replace(walk.rules, budget=10.0))
    cases = {(6.0, 4.0): 0.0, (6.0, 4.004): 0.0, (6.0, 4.01): 0.01, (20.0,): 10.0, (): 0.0,
             (20.0, None): 10.0, (9.0, None): 0.0}  # fmt: skip
    for prices, over in cases.items():
        found = over_budget(poor, bought(*prices))
        assert found == pytest.approx(over), prices
        flags = budget_flag(poor, bought(*prices))
        assert bool(flags) == (over > 0.0), prices
        assert all(f.level == "caution" and f.values["limit_money"] == 10.0 for f in flags)
        assert over_budget(walk, bought(*prices)) == 0.0
        assert budget_flag(walk, bought(*prices)) == ()


def test_a_stated_nothing_is_no_blank() -> None:
    """Against a ceiling only what is not stated counts as the high value of its class (C2)."""
    none = plain("none", Nutrients(energy_kcal=400.0, fat_g=0.0))
    blank = plain("blank", Nutrients(energy_kcal=400.0))
    portion = eat("a", 1, "move", "none", 2.0)
    assert high(portion, none, "fat_g") == 0.0
    assert high(portion, blank, "fat_g") == pytest.approx(high_of(blank, "fat_g")) != 0.0
