"""What packing says of itself, flag by flag."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np

from oatsack.packing.buy import Wanted
from oatsack.packing.share import Shared
from oatsack.packing.signs import (
    container_signs,
    heavy_signs,
    keeping_signs,
    loss_signs,
    puffed_signs,
    share_signs,
    stock_signs,
    wrap_signs,
)
from oatsack.reports.words import Voice
from oatsack.values.food import Keep, Pouch, Stock
from oatsack.values.kit import Container, Kit
from oatsack.values.pack import Buy, Loss, Night, Sack
from support.each import each
from support.packs import BEGIN, LARDER, bag, food, packed, people


def night(day: int, verdict: str, room: float = 10_000.0) -> Night:
    return Night(day=day, needed_low_ml=9_000.0, needed_ml=10_500.0, needed_high_ml=12_000.0,
                 room_ml=room, verdict=verdict)  # type: ignore[arg-type]  # fmt: skip


def test_only_the_first_night_that_may_stay_open_is_named() -> None:
    flags = container_signs([night(1, "likely"), night(2, "unlikely"), night(3, "no")])
    assert [(f.key, f.level, f.values["day"]) for f in flags] == [
        ("packing.container.unlikely", "caution", 2)
    ]


def test_a_night_without_containers_says_nothing() -> None:
    assert container_signs([night(1, "no", room=0.0)]) == []


def test_flattening_is_advised_where_it_makes_the_difference() -> None:
    assert puffed_signs([night(1, "likely")], [night(1, "no")])[0].level == "quiet"
    assert puffed_signs([night(1, "likely")], [night(1, "likely")]) == []
    assert puffed_signs([night(1, "no")], [night(1, "no")]) == []


def sack(walker: str, food_kg: float, leg: int = 1, **common: float) -> Sack:
    return Sack(walker=walker, leg=leg, bags=(), start_g=1000.0 * food_kg, by_day_g={},
                wrappers_by_day_g={}, common_g=common)  # fmt: skip


@each(
    ("food_kg", "level"),
    [(4.0, ""), (15.9, ""), (16.1, "quiet"), (21.9, "quiet"), (22.1, "caution"), (47.0, "caution")],
)
def test_a_pack_beyond_two_fifths_of_the_body_is_said_and_beyond_half_a_caution(
    food_kg: float, level: str
) -> None:
    """60 kg of body and 8 kg of base weight: two fifths are 24 kg, half is 30 kg."""
    who = people(1)  # 60 kg
    flags = heavy_signs([sack("a", food_kg)], who)
    assert [f.level for f in flags] == ([level] if level else [])
    for flag in flags:
        assert flag.values["pack_g"] == 1000.0 * (food_kg + 8.0)
        assert flag.values["food_g"] == 1000.0 * food_kg
        said = Voice(walkers={"a": "Ash"}).flag(flag)
        assert said.startswith("Ash starts under ") and "resupply" in said


def test_fuel_counts_and_the_heaviest_leg_of_each_is_named() -> None:
    sacks = [sack("a", 15.0, fuel=1200.0), sack("a", 25.0, leg=2), sack("b", 5.0)]
    (flag,) = heavy_signs(sacks, people(2))
    assert (flag.values["walker"], flag.values["leg"]) == ("a", 2)
    (flag,) = heavy_signs(sacks[:1], people(1))
    assert flag.values["leg"] == 1, "15 kg alone would be below two fifths"


def test_a_bag_that_keeps_says_nothing() -> None:
    assert keeping_signs([bag(eat_by_day=3, day=2)], LARDER, {1: (1, 5)}) == []
    assert keeping_signs([bag(eat_by_day=None, day=5)], LARDER, {1: (1, 5)}) == []


def test_assumed_wrappings_and_volumes_are_counted_once_per_food() -> None:
    blank = food("blank", carry="sealed", wrap_g=None, pack_ml=None)
    bags = [bag("1", {"blank": 50.0}), bag("2", {"blank": 50.0, "oats": 50.0})]
    flags = {f.key: f.values["count"] for f in wrap_signs(bags, {**LARDER, "blank": blank})}
    assert flags == {"packing.wrap.assumed": 1, "packing.volume.assumed": 1}
    assert wrap_signs([bag()], LARDER) == []


def test_the_sentences_read_as_a_walker_would_say_them() -> None:
    pouch = Pouch(flat_ml=200.0, puffed_ml=900.0)
    stew = replace(LARDER["lentils"], carry="sealed", pack_g=100.0, doses_per_pack=2.0,
                   pack_ml=200.0, pouch=pouch)  # fmt: skip
    cheese = replace(LARDER["cheese"], keep=Keep(opened_days=2.0))
    foods = {**LARDER, "lentils": stew, "cheese": cheese}
    wide = packed(people(1), 5, foods=foods, kit=Kit(containers=(Container(),)))
    just = Kit(containers=(Container(volume_ml=1.04 * wide.nights[0].needed_ml),))
    plan = packed(people(1), 5, foods=foods, kit=just)
    voice = Voice(foods={"cheese": "Hard cheese"}, walkers={"a": "Anna"})
    said = [voice.flag(f) for f in plan.flags]
    assert any(text.startswith("Hard cheese (") for text in said)
    assert any("Press the air out of pouches" in text for text in said)
    assert not any("{" in text for text in said)


@each(
    ("empty", "level"),
    [(4, None), (5, None), (6, "quiet"), (7, "caution"), (9, "caution")],
)
def test_a_day_beyond_its_date_is_a_quiet_word_two_are_a_caution(
    empty: int, level: str | None
) -> None:
    one = replace(bag(day=4), eat_by_day=5, empty_day=empty)
    found = keeping_signs([one], LARDER, {1: (1, 9)})
    assert [f.level for f in found] == ([level] if level else [])


def test_spare_food_that_goes_off_is_not_remarked_on() -> None:
    one = replace(bag(day=4), label="spare", eat_by_day=2, empty_day=9)
    assert keeping_signs([one], LARDER, {1: (1, 9)}) == []


def test_of_a_bags_foods_the_one_that_goes_off_first_is_named() -> None:
    foods = {**LARDER, "cheese": replace(LARDER["cheese"], keep=Keep(opened_days=3.0)),
             "oil": replace(LARDER["oil"], keep=Keep(opened_days=6.0))}  # fmt: skip
    one = replace(bag(contents={"lentils": 50.0, "oil": 10.0, "cheese": 40.0}, day=5), eat_by_day=3)
    (found,) = keeping_signs([one], foods, {1: (1, 9)})
    assert found.values["food"] == "cheese"
    assert found.values["eat_by_day"] == 3 and found.values["empty_day"] == 5


@each(
    ("walkers", "energy", "heat", "cold", "safe", "said"),
    [
        (3, 0.60, True, 0.5, {}, []),
        (3, 0.59, True, 0.5, {}, ["energy"]),
        (2, 0.40, True, 0.5, {}, []),  # a couple cannot help it
        (2, 0.40, False, 0.35, {}, []),
        (2, 0.40, False, 0.34, {}, ["heat"]),
        (2, 0.40, True, 0.10, {}, []),  # with a stove left, nobody eats cold
        (2, 0.50, True, 0.5, {"a": 0.60, "b": 0.59}, ["safe"]),
        (4, 0.10, False, 0.10, {"a": 0.10, "b": 0.2}, ["energy", "heat", "safe", "safe"]),
    ],
)
def test_a_loss_is_remarked_on_below_what_it_should_leave(
    walkers: int, energy: float, heat: bool, cold: float, safe: dict[str, float], said: list[str]
) -> None:
    loss = Loss(leg=2, walker="c", energy_share=energy, flameless_share=cold, heat=heat,
                safe_share=safe)  # fmt: skip
    found = loss_signs([loss], walkers)
    assert [f.key.rsplit(".", 1)[1] for f in found] == said
    assert {f.scope for f in found} <= {"packed/losses/2/c"}
    assert all((f.level == "caution") == f.key.endswith("safe") for f in found)
    assert [f.values["who"] for f in found if f.key.endswith("safe")] == [
        w for w, share in safe.items() if share < 0.6
    ]


@each(("excess", "bound", "said"), [(1.0, 0.96, False), (0.05, 0.0, False), (1.0, 0.94, True),
                                    (1.0, 1.0, False), (0.0, 0.0, False)])  # fmt: skip
def test_an_unfair_leg_is_noted_beyond_what_cannot_be_helped(
    excess: float, bound: float, said: bool
) -> None:
    one = Shared(carrier=np.zeros(1, np.int64), excess=excess, bound=bound, part=1.0,
                 breach=0.0)  # fmt: skip
    assert [f.scope for f in share_signs({3: one})] == ["packed/sacks/3"] * said


def test_stock_past_its_date_is_named_once_for_a_food_with_the_last_day_it_is_eaten() -> None:
    def lot(day: int, packs: float = 1.0) -> Stock:
        return Stock(packs=packs, best_before=BEGIN + dt.timedelta(days=day - 1))

    wants = [
        Wanted(food=name, date=BEGIN + dt.timedelta(days=day - 1), grams=50.0, leg=1)
        for name in ("oats", "bar") for day in (1, 3)
    ]  # fmt: skip
    cases = {2: ["bar", "oats"], 3: []}
    for day, old in cases.items():
        foods = {n: replace(LARDER[n], stock=lot(day)) for n in ("oats", "bar")}
        assert [f.values["food"] for f in stock_signs(wants, [], foods)] == old
    none_left = {n: replace(LARDER[n], stock=lot(1, 0.0)) for n in ("oats", "bar")}
    assert stock_signs(wants, [], none_left) == []
    assert [f.scope for f in stock_signs(wants[:2], [], LARDER, {"oats": (lot(2),)})] == [
        "packed/buy/oats"
    ]


def test_what_no_shop_sells_and_home_lacks_is_said_to_be_short() -> None:
    line = Buy(food="oats", shop="home", need_g=500.0, from_home_g=0.0, packs=1.0, pack_g=500.0,
               price=None, left_g=0.0)  # fmt: skip
    rows = [line, replace(line, food="bar", packs=0.0), replace(line, food="oil", shop="village")]
    (found,) = stock_signs([], rows, LARDER)
    assert (found.key, found.values) == ("packing.stock.short", {"food": "oats", "packs": 1.0})


def test_a_repacked_food_needs_no_wrapping_of_its_own() -> None:
    foods = {**LARDER, "oats": replace(LARDER["oats"], wrap_g=None),
             "bar": replace(LARDER["bar"], wrap_g=None)}  # fmt: skip
    assert wrap_signs([bag(contents={"oats": 50.0})], foods) == []
    (found,) = wrap_signs([bag(contents={"oats": 50.0, "bar": 40.0})], foods)
    assert found.values == {"count": 1}
