"""What values work out of themselves: doses, cans, stretches, days, bags, gaps."""

from __future__ import annotations

import datetime as dt
from dataclasses import FrozenInstanceError, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.values.flags import Flag
from oatsack.values.food import ALLERGENS, Food, Nutrients, Stock
from oatsack.values.kit import FuelCan
from oatsack.values.menu import Menu
from oatsack.values.pack import Bag
from oatsack.values.route import Day, Stretch
from oatsack.values.trip import RouteSpec
from support.each import each
from support.packs import people, trip_for
from support.sample_plan import sample_plan

POSITIVE = st.floats(0.1, 2000.0)


def food(**more: Any) -> Food:
    """A food with hardly anything stated."""
    fields = {"id": "x", "name": "X", "category": "snack", "per_100g": Nutrients(), "pack_g": 400.0,
              "doses_per_pack": 8.0, "dose_g": 50.0}  # fmt: skip
    return Food(**fields | more)


def test_a_blank_nutrient_stays_blank_in_a_dose() -> None:
    assert food().per_dose("sodium_mg") is None
    assert food(per_100g=Nutrients(sodium_mg=0.0)).per_dose("sodium_mg") == 0.0


@given(st.floats(0.0, 900.0), POSITIVE)
def test_energy_of_a_dose_is_that_of_its_grams(kcal: float, grams: float) -> None:
    one = food(per_100g=Nutrients(energy_kcal=kcal), dose_g=grams)
    assert one.dose_kcal == pytest.approx(kcal * grams / 100.0)
    assert one.per_dose("energy_kcal") == pytest.approx(one.dose_kcal)


def test_a_food_without_stated_energy_brings_none() -> None:
    assert food().dose_kcal == 0.0


def test_a_nutrient_nobody_knows_the_name_of_is_an_error() -> None:
    with pytest.raises(AttributeError):
        food().per_dose("magic_g")


@given(st.sampled_from(["sealed", "bag"]), st.floats(0.0, 100.0), st.floats(1.0, 40.0))
def test_wrapping_of_all_doses_is_that_of_the_pack(carry: str, wrap: float, doses: float) -> None:
    one = food(carry=carry, wrap_g=wrap, doses_per_pack=doses)
    assert one.dose_wrap_g * doses == pytest.approx(wrap)


def test_what_is_repacked_leaves_its_wrapping_at_home() -> None:
    assert food(carry="repack", wrap_g=40.0).dose_wrap_g == 0.0


def test_unknown_wrapping_adds_nothing() -> None:
    assert food(carry="sealed").dose_wrap_g == 0.0


def test_volume_of_a_dose_is_its_part_of_the_pack_or_unknown() -> None:
    assert food(pack_ml=800.0).dose_ml == 100.0
    assert food().dose_ml is None


@given(st.sampled_from(ALLERGENS))
def test_an_allergen_nobody_named_is_unknown_not_absent(allergen: str) -> None:
    assert food().state(allergen) == "unknown"
    assert food(allergens={allergen: "free"}).state(allergen) == "free"


def test_liking_is_ones_own_else_everyones_else_three() -> None:
    assert food().liked_by("a") == 3.0
    assert food(liking=4.0).liked_by("a") == 4.0
    own = food(liking=4.0, liking_by={"a": 1.0})
    assert (own.liked_by("a"), own.liked_by("b")) == (1.0, 4.0)


@given(POSITIVE, st.floats(10.0, 300.0), st.floats(0.0, 3000.0))
def test_a_can_never_holds_less_than_nothing(net: float, empty: float, gross: float) -> None:
    held = FuelCan(net_g=net, empty_g=empty, gross_now_g=gross).fuel_g
    assert held == max(0.0, gross - empty)


def test_a_can_that_was_not_weighed_is_full() -> None:
    assert FuelCan(net_g=230.0, empty_g=150.0).fuel_g == 230.0


@given(st.floats(0.0, 1400.0), st.floats(1.0, 600.0), st.floats(0.0, 20_000.0))
def test_speed_times_time_is_distance(start: float, minutes: float, distance: float) -> None:
    one = Stretch(kind="walk", start_min=start, end_min=start + minutes, distance_m=distance)
    assert one.speed_ms * one.minutes * 60.0 == pytest.approx(distance)


def test_a_stretch_of_no_time_has_no_speed() -> None:
    assert Stretch(kind="walk", start_min=5.0, end_min=5.0, distance_m=10.0).speed_ms == 0.0


@given(st.lists(st.tuples(st.sampled_from(["walk", "rest", "camp", "sleep"]),
                          st.integers(0, 300)), max_size=8))  # fmt: skip
def test_a_day_counts_its_walking_and_all_its_minutes(parts: list[tuple[Any, int]]) -> None:
    pieces = tuple(Stretch(kind=k, start_min=0.0, end_min=float(m)) for k, m in parts)
    day = Day(number=1, date=dt.date(2026, 6, 1), stretches=pieces, distance_m=0.0, ascent_m=0.0,
              descent_m=0.0, highest_m=0.0, camp_m=None)  # fmt: skip
    assert day.walking_min == sum(m for k, m in parts if k == "walk")
    assert day.inside_min == sum(m for _, m in parts)


@given(st.floats(0.0, 5000.0), st.floats(0.0, 200.0))
def test_a_bag_weighs_its_food_and_its_wrapping(net: float, wrap: float) -> None:
    bag = Bag(id="x", label="dinner", number=1, of=1, items=(), net_g=net, wrap_g=wrap,
              volume_ml=1.0)  # fmt: skip
    assert bag.gross_g == net + wrap


@given(st.floats(0.0, 1e5), st.floats(0.0, 1e5))
def test_a_gap_is_a_share_of_the_aim_and_never_negative(aim: float, bound: float) -> None:
    menu = Menu(portions=(), aim=aim, bound=bound)
    assert 0.0 <= menu.gap <= 1.0
    if aim > 0.0 and bound <= aim:
        assert aim * (1.0 - menu.gap) == pytest.approx(bound)


@given(st.integers(1, 60))
def test_days_of_a_trip_count_the_first_and_the_last(count: int) -> None:
    assert trip_for(people(1), count).day_count == count


def test_a_plan_is_valid_until_something_hard_is_broken() -> None:
    plan = replace(sample_plan(), flags=(Flag(key="x", level="caution"),))
    assert plan.valid
    assert not replace(plan, flags=(*plan.flags, Flag(key="y", level="block"))).valid


def test_values_do_not_change() -> None:
    with pytest.raises(FrozenInstanceError):
        food().id = "other"  # type: ignore[misc]


EARLY, LATE = dt.date(2027, 1, 1), dt.date(2027, 9, 1)


def at_home() -> Food:
    """Five packs: two soon to end, one later, two undated, and a lot that is empty."""
    return food(
        stock=Stock(packs=2.0),
        lots=(Stock(packs=1.0, best_before=LATE), Stock(packs=2.0, best_before=EARLY), Stock()),
    )


def test_lots_at_home_stand_in_the_order_of_their_dates_the_undated_last() -> None:
    assert [lot.best_before for lot in at_home().at_home] == [EARLY, LATE, None]
    assert at_home().home_packs == 5.0
    assert food().at_home == ()


@each(
    ("taken", "left"),
    [(0.0, [2.0, 1.0, 2.0]), (0.5, [1.5, 1.0, 2.0]), (2.0, [1.0, 2.0]), (2.5, [0.5, 2.0]),
     (4.0, [1.0]), (5.0, []), (9.0, [])],
)  # fmt: skip
def test_what_leaves_home_is_what_ends_first_and_never_more_than_there_is(
    taken: float, left: list[float]
) -> None:
    rest = at_home().less_home(taken)
    assert [lot.packs for lot in rest.at_home] == left
    assert rest.home_packs == pytest.approx(max(0.0, 5.0 - taken))


@each(
    ("asked", "dry"), [("Barn", True), ("BARN", True), ("Straße", True), ("STRASSE", True),
                       ("Byre", False), ("", False)]
)  # fmt: skip
def test_a_camp_is_dry_by_its_name_in_any_case(asked: str, dry: bool) -> None:
    assert RouteSpec(dry_camps=frozenset({"barn", "straße"})).is_dry(asked) is dry
    assert not RouteSpec().is_dry(asked)
