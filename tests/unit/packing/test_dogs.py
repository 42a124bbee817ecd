"""The dog's own food: how much, whose back, in the container; and what is not for a dog."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.packing.dogs import (
    dog_bags,
    feeds_on,
    most_room_ml,
    not_for_dogs,
    ration_g,
    room_ml,
)
from oatsack.packing.pack import pack
from oatsack.provision.asking import container_room
from oatsack.provision.loads import weigh
from oatsack.values.dog import Dog
from oatsack.values.kit import Container, Kit
from oatsack.values.kitchen import KitchenLedger
from oatsack.values.pack import Packed
from oatsack.values.trip import Trip
from support.packs import LARDER, days_of, food, people, trip_for, usual_menu
from support.trips import at

BO = Dog(id="bo", name="Bo", mass_kg=22.0)
STATED = replace(BO, food_g_day=600.0)
STORE = Kit(containers=(Container(volume_ml=60_000.0),))


def with_dogs(*dogs: Dog, days: int = 3, kit: Kit | None = None) -> Trip:
    return replace(trip_for(people(2), days, kit=kit), dogs=dogs)


def packed(trip: Trip, legs: tuple[int, ...] = (), extra: tuple[str, ...] = ()) -> Packed:
    foods = LARDER | {name: food(name) for name in extra}
    days = days_of(trip.day_count, legs)
    menu = usual_menu([w.id for w in trip.walkers], trip.day_count)
    swap = {"oats": extra[0]} if extra else {}
    menu = replace(menu, portions=tuple(
        replace(p, food=swap.get(p.food, p.food)) for p in menu.portions))  # fmt: skip
    return pack(menu, foods, days, trip, KitchenLedger())


def test_a_ration_by_mass_is_half_as_much_again_as_at_home() -> None:
    """Bermingham2014, abstract: 142.8 kcal a day for each kg to the power of 0.75, mean of 70
    groups. A dog of 16 kg has eight such units: 1142.4 kcal at home, 1713.6 on the way, 451 g."""
    assert ration_g(replace(BO, mass_kg=16.0)) == pytest.approx(1713.6 / 3.8)


def test_a_ration_lies_in_the_span_that_active_dogs_are_fed() -> None:
    """Common practice: 30 to 50 kcal a day for each pound of an active dog."""
    outside = {}
    for mass_kg in (15.0, 20.0, 25.0, 30.0, 35.0, 40.0):
        kcal = ration_g(replace(BO, mass_kg=mass_kg)) * 3.8
        if not 30.0 <= kcal / (mass_kg / 0.45359237) <= 50.0:
            outside[mass_kg] = kcal
    assert outside == {}


def test_a_stated_ration_outranks_the_mass() -> None:
    assert ration_g(STATED) == 600.0


def test_it_is_fed_at_the_clocks_of_breakfast_and_dinner_inside_the_walk() -> None:
    """C4: counted from clock times, never days times two."""
    trip = with_dogs(BO)  # Monday 09:00 to Wednesday 15:00
    days = days_of(3)
    assert [len(feeds_on(trip, day.date)) for day in days] == [1, 2, 1]
    late = replace(trip, begin=at("2026-06-01 19:00"))
    assert [len(feeds_on(late, day.date)) for day in days] == [0, 2, 1]
    (one,) = dog_bags(late, days)
    assert (one.feeds, one.net_g) == (3.0, pytest.approx(1.5 * one.ration_g))


def test_its_bag_gets_lighter_by_half_a_ration_each_time() -> None:
    (one,) = dog_bags(with_dogs(STATED), days_of(3))
    assert one.net_g == 1200.0
    assert one.gross_g == one.net_g + one.wrap_g
    assert one.by_day_g == {
        "1": 1200.0 + one.wrap_g, "2": 900.0 + one.wrap_g, "3": 300.0 + one.wrap_g,
    }  # fmt: skip


def test_each_leg_has_a_bag_and_a_leg_without_feeding_none() -> None:
    days = days_of(4, (3, 1))
    assert [(b.leg, b.feeds) for b in dog_bags(with_dogs(STATED, days=4), days)] == [
        (1, 5.0), (2, 1.0),
    ]  # fmt: skip
    short = replace(with_dogs(STATED, days=2), begin=at("2026-06-01 19:00"))
    short = replace(short, end=at("2026-06-01 22:00"))
    assert dog_bags(short, days_of(1)) == ()


def test_sums_of_the_walkers_food_stay_without_it() -> None:
    plain, dogged = packed(with_dogs()), packed(with_dogs(BO))
    assert replace(dogged, dogs=(), flags=()) == replace(plain, flags=())
    assert [b.dog for b in dogged.dogs] == ["bo"]
    assert packed(with_dogs()).dogs == ()


def test_a_walker_who_carries_it_has_it_beside_the_fuel() -> None:
    carried = packed(with_dogs(replace(STATED, carrier="b")))
    (one,) = carried.dogs
    told = {s.walker: s.common_g.get("dog", 0.0) for s in carried.sacks}
    assert told == {"a": 0.0, "b": one.gross_g}


def test_the_back_of_its_carrier_gets_lighter_as_the_dog_eats() -> None:
    days, who = days_of(3), people(2)
    dogs = dog_bags(with_dogs(replace(STATED, carrier="b")), days)
    ledger = KitchenLedger()
    plain = weigh(who, days, (), Packed(), ledger).load_kg
    found = weigh(who, days, (), Packed(dogs=dogs), ledger).load_kg
    more = {w: [float((found[w][n] - plain[w][n])[0]) for n in (1, 2, 3)] for w in ("a", "b")}
    wrap = dogs[0].wrap_g / 1000.0
    assert more["a"] == [0.0, 0.0, 0.0]
    assert more["b"] == pytest.approx([1.2 + wrap, 0.9 + wrap, 0.3 + wrap])


def test_what_it_still_eats_closes_in_at_night() -> None:
    """300 g in a bag at 0.4 g/ml are 750 ml, of a store of which soft bags fill nine tenths."""
    days = days_of(3)
    bags = dog_bags(with_dogs(STATED), days)
    assert room_ml(bags, 2) == pytest.approx(750.0 / 0.9)
    assert room_ml(bags, 1) == pytest.approx(3 * 750.0 / 0.9)
    assert room_ml(bags, 3) == 0.0
    plain, dogged = packed(with_dogs(kit=STORE)), packed(with_dogs(STATED, kit=STORE))
    more = [b.needed_ml - a.needed_ml for a, b in zip(plain.nights, dogged.nights, strict=True)]
    assert more == pytest.approx([3 * 750.0 / 0.9, 750.0 / 0.9])


def test_the_menu_is_left_the_room_that_the_dog_leaves() -> None:
    days = days_of(3)
    plain, dogged = with_dogs(kit=STORE), with_dogs(STATED, kit=STORE)
    rooms = [container_room(trip, days) for trip in (plain, dogged)]
    assert rooms[0] is not None and rooms[1] is not None
    assert rooms[0] - rooms[1] == pytest.approx(room_ml(dog_bags(dogged, days), 1))
    legs = {1: (1, 3)}
    assert most_room_ml(dog_bags(dogged, days), legs) == pytest.approx(3 * 750.0 / 0.9)


def test_what_can_poison_a_dog_is_told_by_the_name_of_the_food() -> None:
    """Cortinovis2016, abstract: chocolate, the onion kind, macadamias, grapes and raisins,
    xylitol. Coffee: common practice."""
    foods = {
        "Milk chocolate": "chocolate", "Unsweetened cocoa powder": "chocolate",
        "Chewy granola bars with nuts and raisins": "raisins", "Dried sultanas": "raisins",
        "Onion soup mix": "onion", "Garlic powder": "onion", "Salted macadamias": "macadamia",
        "Chewing gum with xylitol": "xylitol", "Mints with birch sugar": "xylitol",
        "Instant coffee sticks": "coffee",
    }  # fmt: skip
    found = {name: not_for_dogs([food(f"f{n}", name=name)]) for n, name in enumerate(foods)}
    assert {name: got[0][1] if got else "" for name, got in found.items()} == foods
    harmless = ["Rye crispbread", "Oat flakes", "Smoked beef sticks", "Dried apricots"]
    assert not_for_dogs([food(f"g{n}", name=name) for n, name in enumerate(harmless)]) == ()


def test_an_id_tells_it_where_the_name_does_not() -> None:
    assert not_for_dogs([food("choc-bar", name="My bar")]) == (("choc-bar", "chocolate"),)


def test_foods_of_the_bags_are_named_in_one_quiet_line() -> None:
    flags = packed(with_dogs(BO), extra=("raisins",)).flags
    (told,) = [f for f in flags if f.key.startswith("packing.dog.") and f.level == "quiet"]
    assert told.key == "packing.dog.named"
    assert told.values == {"dogs": "Bo", "foods": "coffee, raisins"}
    assert told.source == "Cortinovis2016"


def test_without_a_dog_nothing_is_said_of_dogs() -> None:
    assert [f for f in packed(with_dogs()).flags if "dog" in f.key] == []


def test_a_load_beyond_a_seventh_of_the_dog_is_said_unless_a_walker_carries_it() -> None:
    """Common practice: 10 to 15 per cent of its mass."""
    for mass_kg, carrier, heavy in ((7.0, "", True), (7.0, "a", False), (30.0, "", False)):
        dog = replace(STATED, mass_kg=mass_kg, carrier=carrier)
        keys = {f.key for f in packed(with_dogs(dog)).flags}
        assert ("packing.dog.heavy" in keys) is heavy, (mass_kg, carrier)


def test_a_guessed_ration_is_noted_and_a_stated_one_not() -> None:
    guessed = {f.key for f in packed(with_dogs(BO)).flags}
    stated = {f.key for f in packed(with_dogs(STATED)).flags}
    assert "packing.dog.ration" in guessed
    assert "packing.dog.ration" not in stated
