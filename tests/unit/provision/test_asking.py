"""The question put to the menu chooser: room, spare food, kitchen prices."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.menu.aims import AIMS
from oatsack.menu.slots import slots_of
from oatsack.provision.asking import (
    SPARE_DAYS_FROM,
    SPARE_MEAL_KCAL,
    container_room,
    kitchen_prices,
    ordinary_day,
    request,
    spare_kcal,
)
from oatsack.values.kit import Container, Kit
from oatsack.values.menu import MenuRequest
from oatsack.values.trip import Rules
from support.each import each
from support.packs import BAR, COFFEE, LARDER, LENTILS, NUTS, OATS, days_of, people, trip_for

WHOLE = {"a": 2600.0, "b": 3100.0}
FULL = {"a": {1: 1200.0, 2: 2600.0, 3: 900.0}, "b": {1: 1500.0, 2: 3100.0, 3: 1000.0}}


def test_without_a_container_nothing_must_close() -> None:
    assert container_room(trip_for(people(2), 3)) is None


@given(st.lists(st.integers(1000, 20_000), min_size=1, max_size=4), st.integers(1, 6),
       st.integers(0, 2000))  # fmt: skip
def test_room_is_all_containers_less_everyones_other_things(volumes: list[int], count: int,
                                                            other: int) -> None:  # fmt: skip
    kit = Kit(containers=tuple(Container(volume_ml=float(v)) for v in volumes),
              other_smellables_ml=float(other))  # fmt: skip
    room = container_room(trip_for(people(count), 3, kit=kit))
    assert room == sum(volumes) - other * count


def test_only_what_is_prepared_has_a_kitchen_price() -> None:
    found = kitchen_prices([OATS, BAR, NUTS, COFFEE], days_of(2), Kit())
    assert set(found) == {(f, d) for f in ("oats", "coffee") for d in (1, 2)}


def test_whatever_is_boiled_takes_water_and_fuel() -> None:
    price = kitchen_prices([LENTILS], days_of(1), Kit())["lentils", 1]
    assert price.boiled_ml > 0.0
    assert price.fuel_g > 0.0


def test_nothing_to_cook_is_no_price_at_all() -> None:
    assert kitchen_prices([BAR, NUTS], days_of(3), Kit()) == {}


@each(("days", "kcal"), [(1, 500.0), (SPARE_DAYS_FROM, 500.0)])
def test_a_short_trip_takes_one_cold_meal_to_spare(days: int, kcal: float) -> None:
    assert kcal == SPARE_MEAL_KCAL
    assert spare_kcal(trip_for(people(2), days), WHOLE) == {"a": kcal, "b": kcal}


def test_a_longer_trip_takes_an_ordinary_day_to_spare() -> None:
    trip = trip_for(people(2), SPARE_DAYS_FROM + 1)
    assert spare_kcal(trip, WHOLE) == WHOLE


def test_an_ordinary_day_evens_out_part_days_and_a_growing_appetite() -> None:
    share = {1: 0.4, 2: 1.0, 3: 1.0, 4: 0.6}
    eaten = {1: 0.4 * 2550.0, 2: 2850.0, 3: 3300.0, 4: 0.6 * 3300.0 + 180.0}
    assert sum(eaten.values()) == 9330.0
    assert ordinary_day(eaten, share) == pytest.approx(9330.0 / 3.0)
    assert ordinary_day({}, share) == ordinary_day(eaten, {}) == 0.0


def test_the_walkers_word_on_spare_food_outranks_the_length() -> None:
    def asked(spare: object, days: int) -> object:
        return spare_kcal(trip_for(people(2), days, rules=Rules(spare=spare)), WHOLE)  # type: ignore[arg-type]

    assert asked("none", 20) == {"a": 0.0, "b": 0.0}
    assert asked("meal", 20) == {"a": SPARE_MEAL_KCAL, "b": SPARE_MEAL_KCAL}
    assert asked("day", 2) == WHOLE


@given(st.floats(0.0, 6000.0), st.integers(1, 25))
def test_a_number_of_spare_kcal_is_everyones(kcal: float, days: int) -> None:
    trip = trip_for(people(2), days, rules=Rules(spare=kcal))
    assert spare_kcal(trip, WHOLE) == {"a": kcal, "b": kcal}


def test_a_spare_day_of_who_eats_nothing_is_nothing() -> None:
    trip = trip_for(people(1), 2, rules=Rules(spare="day"))
    assert spare_kcal(trip, {"a": 0.0}) == {"a": 0.0}


def test_the_whole_question_holds_what_the_trip_says() -> None:
    rules = Rules(budget=40.0, spare="none")
    trip = trip_for(people(2, hot_drinks_day=3.0), 3, rules=rules,
                    kit=Kit(containers=(Container(volume_ml=9000.0),)))  # fmt: skip
    days = days_of(3)
    slots = slots_of(trip, days)
    prices = kitchen_prices(list(LARDER.values()), days, trip.kit)
    asked = request(trip, days, slots, list(LARDER.values()), target=FULL, prices=prices)
    assert (asked.slots, asked.walkers, asked.rules) == (slots, trip.walkers, rules)
    assert asked.target_kcal == FULL
    assert asked.near is None
    assert asked.walking_h == {}
    assert asked.temperatures_c == {1: 18.0, 2: 18.0, 3: 18.0}
    assert asked.hot_drinks == {w: {1: 2.0, 2: 3.0, 3: 2.0} for w in ("a", "b")}
    assert asked.container_ml == 7000.0
    assert asked.spare_kcal == {"a": 0.0, "b": 0.0}
    assert {f.id for f in asked.foods} == set(LARDER)


def test_aims_in_order_are_asked_for_by_the_names_the_menu_knows() -> None:
    def asked_with(rules: Rules) -> MenuRequest:
        trip = trip_for(people(2), 3, rules=rules)
        days = days_of(3)
        foods = list(LARDER.values())
        return request(trip, days, slots_of(trip, days), foods, target=FULL, prices={})

    asked = asked_with(Rules(aims=("load", "price"), aims_within=0.05))
    assert asked.aims == ("kg-days", "price")
    assert asked.aims_within == 0.05
    assert asked_with(Rules()).aims == ()
    assert set(asked.aims) <= {aim.name for aim in AIMS}
