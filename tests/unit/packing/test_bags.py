"""Bags: what lies together, what stays sealed, and that nothing is lost or invented."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from oatsack.packing.bags import HEAVIEST_G, way_of
from oatsack.packing.label import bag_g
from oatsack.values.food import Keep
from oatsack.values.kit import Container, Kit
from oatsack.values.menu import Menu, Pool
from oatsack.values.pack import Bag, Packed
from oatsack.values.trip import Rules
from oatsack.values.walker import Avoid
from support.each import each
from support.packs import (
    BAR,
    CHEESE,
    LARDER,
    LENTILS,
    NUTS,
    OATS,
    eat,
    food,
    grams_of_menu,
    packed,
    people,
    trip_for,
    usual_menu,
)

WAYS = ("meal", "day", "group")


def by_label(plan: Packed, label: str) -> list[Bag]:
    return [b for b in plan.bags if b.label == label]


@each("way", WAYS)
@each("party", [1, 2, 5])
def test_the_bags_hold_the_menu_to_the_gram(way: str, party: int) -> None:
    walkers = people(party)
    menu = usual_menu([w.id for w in walkers], 4)
    plan = packed(walkers, 4, menu=menu, rules=Rules(bags=way))  # type: ignore[arg-type]
    assert sum(b.net_g for b in plan.bags) == pytest.approx(grams_of_menu(menu, LARDER))
    items = [i for b in plan.bags for i in b.items]
    assert sum(i.net_g for i in items) == pytest.approx(grams_of_menu(menu, LARDER))


@each("way", WAYS)
def test_every_portion_is_in_exactly_one_bag(way: str) -> None:
    menu = usual_menu(["a", "b"], 3)
    plan = packed(people(2), 3, menu=menu, rules=Rules(bags=way))  # type: ignore[arg-type]
    found = sorted(
        (i.walker, i.day, "move" if i.meal == "spare" else i.meal, i.food, round(i.net_g, 6))
        for b in plan.bags for i in b.items
    )  # fmt: skip
    asked = sorted(
        (p.walker, p.day, p.meal, p.food, round(p.doses * LARDER[p.food].dose_g, 6))
        for p in (*menu.portions, *menu.spare)
    )
    assert found == asked


@each("way", WAYS)
def test_ids_are_unique_and_numbers_run_from_one(way: str) -> None:
    plan = packed(people(3), 4, rules=Rules(bags=way))  # type: ignore[arg-type]
    assert len({b.id for b in plan.bags}) == len(plan.bags)
    for sealed in (True, False):
        row = [b for b in plan.bags if b.sealed == sealed]
        assert sorted(b.number for b in row) == list(range(1, len(row) + 1))
        assert {b.of for b in row} <= {len(row)}


def test_sealed_things_stay_in_lots_as_bought_with_their_own_wrapping() -> None:
    plan = packed(people(1), 4)
    bars = next(b for b in by_label(plan, "move") if b.items[0].food == "bar")
    assert bars.sealed
    assert bars.net_g == pytest.approx(4 * 3 * BAR.dose_g)
    assert bars.wrap_g == pytest.approx(4 * 3 * 12.0 / 6.0)


def test_an_open_bag_is_one_bag_with_its_whole_pack() -> None:
    plan = packed(people(1), 4)
    nuts = next(b for b in plan.bags if b.items[0].food == "nuts")
    assert nuts.sealed
    assert (nuts.net_g, nuts.wrap_g) == (NUTS.pack_g, 6.0)
    assert (nuts.open_day, nuts.empty_day) == (1, 4)


def test_what_an_open_bag_holds_beyond_its_days_is_carried_and_named_left() -> None:
    pool = Pool(walker="a", food="nuts", packs=2.0, open_day=1, last_day=2,
                by_day_g={1: 150.0, 2: 150.0})  # fmt: skip
    plan = packed(people(1), 2, menu=Menu(portions=(), pools=(pool,)))
    items = [i for b in plan.bags for i in b.items]
    assert sum(i.net_g for i in items) == pytest.approx(2 * NUTS.pack_g)
    left = [i for i in items if i.meal == "left"]
    assert [(i.day, round(i.net_g)) for i in left] == [(0, 100)]


def test_two_foods_of_one_dinner_lie_loose_together_in_one_bag_of_that_day() -> None:
    plan = packed(people(1), 3)
    dinners = [b for b in by_label(plan, "dinner") if len({i.food for i in b.items}) == 2]
    assert [b.open_day for b in dinners] == [1, 2, 3]
    assert all({i.food for i in b.items} == {"lentils", "sauce"} for b in dinners)


def test_a_single_food_of_a_meal_fills_one_bag_for_all_days() -> None:
    plan = packed(people(1), 3)
    (oats,) = by_label(plan, "breakfast")
    assert oats.net_g == pytest.approx(3 * OATS.dose_g)
    assert {i.food for i in oats.items} == {"oats"}


def test_oil_never_lies_loose_with_what_goes_into_the_pot() -> None:
    for way in WAYS:
        plan = packed(people(2), 3, rules=Rules(bags=way))  # type: ignore[arg-type]
        holding = [b for b in plan.bags if any(i.food == "oil" for i in b.items)]
        assert holding
        if way == "meal":
            assert all({i.food for i in b.items} == {"oil"} for b in holding)


def test_a_couple_shares_the_bag_of_what_both_eat_and_not_what_one_eats() -> None:
    menu = usual_menu(["a", "b"], 2)
    extra = (eat("a", 1, "dinner", "cheese", 1.0),)
    plan = packed(people(2), 2, menu=replace(menu, portions=menu.portions + extra))
    dinners = by_label(plan, "dinner")
    assert {b.group for b in dinners if any(i.food == "lentils" for i in b.items)} == {"a+b"}
    assert {b.group for b in dinners if any(i.food == "cheese" for i in b.items)} == {"a"}


def test_snacks_are_one_bag_per_person_even_in_a_cook_group() -> None:
    plan = packed(people(6), 3, rules=Rules(bags="group"))
    assert {b.group for b in by_label(plan, "move")} == {w.id for w in people(6)}


def test_by_day_there_is_one_bag_per_day_for_what_one_eats_alone() -> None:
    plan = packed(people(1), 3, rules=Rules(bags="day"))
    days = by_label(plan, "day")
    assert [b.open_day for b in days] == [1, 2, 3]
    assert all(b.open_day == b.empty_day for b in days)
    assert all(any(i.food == "bar" for i in b.items) for b in days)


def test_a_bag_of_food_for_those_who_must_avoid_something_is_packed_first() -> None:
    a, b = people(2)
    careful = replace(b, avoids=(Avoid(allergen="milk"),))
    menu = Menu(portions=(*usual_menu(["a"], 2).portions, eat("b", 1, "dinner", "lentils"),
                          eat("b", 1, "dinner", "sauce")))  # fmt: skip
    plan = packed((a, careful), 2, menu=menu)
    first = next(x for x in plan.bags if x.number == 1 and not x.sealed)
    assert "b" in first.group.split("+")


def test_the_default_way_follows_party_and_length() -> None:
    assert {b.label for b in packed(people(2), 5).bags} & {"day"} == set()
    assert by_label(packed(people(2), 9), "day")
    assert any(b.group == "A" for b in packed(people(6), 9).bags)


def test_a_heavy_bag_for_many_days_is_split_by_days() -> None:
    menu = Menu(portions=tuple(eat("a", d, "breakfast", "oats", 10.0) for d in range(1, 7)))
    plan = packed(people(1), 6, menu=menu)
    assert len(plan.bags) > 1
    assert all(b.net_g <= HEAVIEST_G for b in plan.bags)
    spans = sorted((b.open_day, b.empty_day) for b in plan.bags)
    assert all(a[1] < b[0] for a, b in pairwise(spans))


def test_wrapping_of_a_repacked_bag_is_one_or_two_per_cent_of_its_contents() -> None:
    """Common practice."""
    plan = packed(people(2), 5)
    bags = [b for b in plan.bags if not b.sealed and b.net_g > 150 and b.label != "spare"
            and not any(i.food == "oil" for i in b.items)]  # fmt: skip
    assert bags
    assert all(0.005 <= b.wrap_g / b.net_g <= 0.035 for b in bags)


def test_spare_food_is_a_bag_of_its_own_to_the_end_of_the_walk() -> None:
    plan = packed(people(2), 4)
    spare = by_label(plan, "spare")
    assert {b.group for b in spare} == {"a", "b"}
    assert {b.empty_day for b in spare} == {4}
    assert all(i.day == 0 for b in spare for i in b.items)


def test_water_on_a_label_is_that_of_one_occasion() -> None:
    plan = packed(people(1), 3)
    (oats,) = by_label(plan, "breakfast")
    assert oats.water_ml == pytest.approx(OATS.prep.water_ml)
    dinner = next(b for b in by_label(plan, "dinner") if any(i.food == "lentils" for i in b.items))
    assert dinner.water_ml == pytest.approx(2 * 200.0 + 1 * 200.0)
    assert dinner.wait_min == 8.0


def test_shelter_is_said_only_where_there_is_a_container() -> None:
    store = Kit(containers=(Container(volume_ml=10_000.0),))
    none, some = packed(people(1), 3), packed(people(1), 3, kit=store)
    assert {b.shelter for b in none.bags} == {"none"}
    assert {b.shelter for b in some.bags} == {"container", "first-day"}
    first = [b for b in some.bags if b.shelter == "first-day"]
    assert all(b.empty_day == 1 for b in first)


def test_bags_of_later_legs_are_numbered_anew_and_named_by_leg() -> None:
    menu = usual_menu(["a"], 4)
    menu = replace(menu, pools=(), portions=tuple(p for p in menu.portions if p.why != "bag"))
    plan = packed(people(1), 4, menu=menu, legs=(2, 2))
    for leg in (1, 2):
        row = [b for b in plan.bags if b.leg == leg and not b.sealed]
        assert sorted(b.number for b in row) == list(range(1, len(row) + 1))
        assert all(b.id.startswith(f"{leg}-") for b in row)


def test_a_food_without_stated_wrapping_is_not_taken_as_unwrapped() -> None:
    blank = food("blank", carry="sealed", wrap_g=None)
    plan = packed(people(1), 2, menu=Menu(portions=(eat("a", 1, "move", "blank", 2.0),)),
                  foods={"blank": blank})  # fmt: skip
    assert plan.bags[0].wrap_g > 0
    assert any(f.key == "packing.wrap.assumed" for f in plan.flags)


def test_lentils_and_cheese_keep_their_names_in_the_items() -> None:
    plan = packed(people(1), 1)
    names = {i.food for b in plan.bags for i in b.items}
    assert {LENTILS.id, CHEESE.id} <= names


def test_two_open_bags_of_one_food_are_two_bags_with_a_pack_each() -> None:
    """They overlap on day 2: the first runs out while the second is opened."""
    pools = tuple(
        Pool(walker="a", food="nuts", packs=1.0, open_day=d, last_day=d + 1,
             by_day_g={d: 120.0, d + 1: 80.0})
        for d in (1, 2)
    )  # fmt: skip
    plan = packed(people(1), 3, menu=Menu(portions=(), pools=pools))
    assert [(b.open_day, b.net_g, b.wrap_g) for b in plan.bags] == [
        (1, 200.0, 6.0), (2, 200.0, 6.0),
    ]  # fmt: skip


def test_a_dose_eaten_apart_from_an_open_bag_is_no_part_of_it() -> None:
    menu = usual_menu(["a"], 3)
    more = (*menu.portions, eat("a", 2, "breakfast", "nuts", 1.0))
    plan = packed(people(1), 3, menu=replace(menu, portions=more))
    assert sorted(round(b.net_g) for b in plan.bags if b.items[0].food == "nuts") == [40, 200]


def test_dry_toppings_lie_loose_with_the_dish_and_spreads_do_not() -> None:
    tomato = food("tomato", role="topping", category="vegetable", dose_g=10.0)
    menu = Menu(portions=tuple(eat("a", 1, "dinner", f) for f in ("lentils", "tomato", "oil")))
    plan = packed(people(1), 1, menu=menu, foods={**LARDER, "tomato": tomato})
    assert sorted(sorted(i.food for i in b.items) for b in plan.bags) == [
        ["lentils", "tomato"], ["oil"],
    ]  # fmt: skip


@each(
    ("fields", "loose"),
    [
        ({"category": "nut", "pack_ml": 1000.0}, True),  # coconut flakes
        ({"category": "nut", "pack_ml": 460.0}, False),  # nut butter
        ({"category": "dairy", "pack_ml": 1000.0}, True),  # milk powder
        ({"category": "dairy", "pack_ml": 1200.0, "keep": Keep(opened_days=5.0)}, False),  # grated
        ({"category": "sweet", "pack_ml": 352.0}, False),  # honey
        ({"category": "fat", "pack_ml": 600.0}, False),
    ],
)
def test_what_tips_into_the_bowl_is_dry_and_keeps(fields, loose: bool) -> None:
    top = food("top", role="topping", **fields)
    menu = Menu(portions=(eat("a", 1, "breakfast", "oats"), eat("a", 1, "breakfast", "top")))
    plan = packed(people(1), 1, menu=menu, foods={**LARDER, "top": top})
    assert (len(plan.bags) == 1) == loose


def test_a_couple_has_one_bag_of_what_now_one_and_now_both_eat() -> None:
    menu = Menu(portions=(eat("a", 1, "breakfast", "oats"), eat("a", 2, "breakfast", "oats"),
                          eat("b", 2, "breakfast", "oats")))  # fmt: skip
    plan = packed(people(2), 2, menu=menu)
    assert [(b.group, b.net_g) for b in plan.bags] == [("a+b", 150.0)]


def test_a_cook_group_has_one_bottle_of_oil_and_a_dish_for_every_day() -> None:
    plan = packed(people(6), 4, rules=Rules(bags="group"))
    oil = [b for b in plan.bags if any(i.food == "oil" for i in b.items)]
    assert [(b.group, b.net_g) for b in oil] == [("A", 6 * 4 * 20.0)]
    dinners = [b for b in by_label(plan, "dinner") if b not in oil]
    assert [b.open_day for b in dinners] == [1, 2, 3, 4]
    assert all(b.group == "A" and b.open_day == b.empty_day for b in dinners)


def test_a_pot_groups_main_stays_with_its_day_even_alone_in_its_bag() -> None:
    menu = Menu(portions=tuple(eat(w.id, d, "dinner", "lentils") for w in people(6)
                               for d in (1, 2)))  # fmt: skip
    plan = packed(people(6), 2, menu=menu, rules=Rules(bags="group"))
    assert [(b.group, b.open_day) for b in plan.bags] == [("A", 1), ("A", 2)]


def test_no_strange_spoon_comes_into_the_jar_of_whoever_must_avoid_something() -> None:
    """A dish poured whole may be shared; what is opened again and again is not."""
    first, *others = people(5)
    careful = replace(first, avoids=(Avoid(allergen="sesame"),))
    plan = packed((careful, *others), 3, rules=Rules(bags="group"))
    oil = {b.group: b for b in plan.bags if any(i.food == "oil" for i in b.items)}
    assert set(oil) == {"a", "A-a"}
    shared = [b for b in by_label(plan, "dinner") if b not in oil.values()]
    assert {b.group for b in shared} == {"A"}
    first_bags = [b for b in plan.bags if b.number == 1 and not b.sealed]
    assert first_bags[0].group == "a"


@each(
    ("party", "days", "way"),
    [(1, 7, "meal"), (4, 7, "meal"), (4, 8, "day"), (5, 2, "group"), (12, 14, "group")],
)
def test_the_way_of_bagging_follows_common_practice(party: int, days: int, way: str) -> None:
    trip = trip_for(people(party), days)
    assert way_of(trip) == way
    assert way_of(replace(trip, rules=Rules(bags="day"))) == "day"


def test_a_bag_of_several_pieces_has_an_outer_bag_and_a_single_piece_has_none() -> None:
    """Oats and lentils loose together: one bag. With cheese wrapped apart: three."""
    loose = Menu(portions=(eat("a", 1, "dinner", "lentils"), eat("a", 1, "dinner", "sauce")))
    (one,) = packed(people(1), 1, menu=loose, rules=Rules(bags="day")).bags
    assert one.wrap_g == pytest.approx(bag_g(one.volume_ml))
    more = replace(loose, portions=(*loose.portions, eat("a", 1, "dinner", "cheese")))
    (three,) = packed(people(1), 1, menu=more, rules=Rules(bags="day")).bags
    inner = bag_g(one.volume_ml) + bag_g(three.volume_ml - one.volume_ml)
    assert three.wrap_g == pytest.approx(inner + bag_g(three.volume_ml))


def test_a_day_bag_with_sealed_things_counts_their_wrapping_and_its_own() -> None:
    menu = Menu(portions=(eat("a", 1, "move", "bar", 3.0), eat("a", 1, "lunch", "cheese")))
    (one,) = packed(people(1), 1, menu=menu, rules=Rules(bags="day")).bags
    assert one.wrap_g == pytest.approx(3 * 2.0 + bag_g(38.0) + bag_g(one.volume_ml))


def test_spare_food_is_there_from_the_first_day() -> None:
    plan = packed(people(1), 4)
    assert {b.open_day for b in by_label(plan, "spare")} == {1}
