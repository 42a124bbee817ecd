"""What is cooked together: hot drinks shared out over the day, bowls and pouches, cold versions."""

from __future__ import annotations

from oatsack.kitchen.occasions import Occasion, helpings, occasions
from oatsack.values.food import Meal, Prep
from oatsack.values.menu import Portion
from support.each import each
from support.kitchen import FOODS, food, portion

SOLO = {"0": ("anna",)}
PAIR = {"0": ("anna", "bert")}


def made(portions: list[Portion], groups=None, *, flame: bool = True) -> tuple[Occasion, ...]:
    return occasions(helpings(portions, FOODS, flame=flame), groups or SOLO)


def test_dry_food_makes_no_occasion() -> None:
    assert made([portion("anna", 1, "lunch", "bar")]) == ()


def test_occasions_come_by_day_and_meal() -> None:
    got = made(
        [
            portion("anna", 2, "dinner", "pouch"),
            portion("anna", 1, "dinner", "pouch"),
            portion("anna", 2, "breakfast", "oats"),
        ]
    )
    assert [(o.day, o.meal) for o in got] == [(1, "dinner"), (2, "breakfast"), (2, "dinner")]


@each(
    ("mugs", "morning", "evening"), [(2.0, 1.0, 1.0), (3.0, 2.0, 1.0), (1.0, 1.0, 0.0)]
)
def test_hot_drinks_go_half_to_breakfast_half_to_dinner(
    mugs: float, morning: float, evening: float
) -> None:
    got = made(
        [
            portion("anna", 2, "breakfast", "oats"),
            portion("anna", 2, "dinner", "pouch"),
            portion("anna", 2, "drinks", "coffee", mugs),
        ]
    )
    by_meal = {o.meal: sum(o.drinks_ml.values()) for o in got}
    assert by_meal == {"breakfast": 250.0 * morning, "dinner": 250.0 * evening}


def test_with_one_meal_in_camp_all_drinks_go_there() -> None:
    got = made([portion("anna", 1, "dinner", "pouch"), portion("anna", 1, "drinks", "coffee", 2)])
    assert [(o.meal, o.drinks_ml) for o in got] == [("dinner", {"anna": 500.0})]


def test_a_cold_breakfast_still_gets_its_coffee() -> None:
    got = made([portion("anna", 2, "breakfast", "bar"), portion("anna", 2, "drinks", "coffee", 1)])
    assert [(o.meal, o.drinks_ml) for o in got] == [("breakfast", {"anna": 250.0})]


def test_drinks_alone_are_an_occasion_of_their_own() -> None:
    (only,) = made([portion("anna", 1, "drinks", "coffee", 2.0)])
    assert (only.meal, only.drinks_ml) == ("drinks", {"anna": 500.0})


def test_walkers_of_one_group_share_a_pot_and_others_do_not() -> None:
    portions = [portion(w, 1, "dinner", "rice") for w in ("anna", "bert")]
    (shared,) = made(portions, PAIR)
    assert shared.walkers == ("anna", "bert")
    assert shared.dishes[0].water_ml == 500.0
    apart = made(portions, {"0": ("anna",), "1": ("bert",)})
    assert [o.walkers for o in apart] == [("anna",), ("bert",)]


def test_the_longest_wait_is_poured_first_and_mugs_last() -> None:
    (only,) = made(
        [
            portion("anna", 1, "dinner", "oats"),
            portion("anna", 1, "dinner", "pouch"),
            portion("anna", 1, "drinks", "coffee", 1.0),
        ]
    )
    assert [p.food for p in only.pours] == ["pouch", "oats", "coffee"]
    assert [p.mug for p in only.pours] == [False, False, True]


def test_two_bags_are_two_pours_and_two_doses_of_oats_one_bowl() -> None:
    (only,) = made(
        [portion("anna", 1, "dinner", "pouch", 2.0), portion("anna", 1, "dinner", "oats", 2.0)]
    )
    assert {p.food: p.portions for p in only.pours} == {"pouch": 2, "oats": 1}


def test_an_emptied_pouch_is_tomorrows_bowl_once() -> None:
    got = made(
        [
            portion("anna", 1, "dinner", "pouch"),
            portion("anna", 2, "breakfast", "oats"),
            portion("anna", 3, "breakfast", "oats"),
        ]
    )
    assert [(o.bowls, o.pouch_bowls) for o in got] == [(0, ()), (0, ("anna",)), (1, ())]


def test_a_pouch_is_a_bowl_for_its_own_eater_only() -> None:
    got = made(
        [portion("anna", 1, "dinner", "pouch"), portion("bert", 2, "breakfast", "oats")], PAIR
    )
    assert (got[1].bowls, got[1].pouch_bowls) == (1, ())


def test_a_flat_pouch_is_no_bowl() -> None:
    flat = food("flat", prep=Prep(kind="boil", water_ml=300.0, from_bag=True))
    served = helpings(
        [portion("anna", 1, "dinner", "flat"), portion("anna", 2, "breakfast", "oats")],
        FOODS | {"flat": flat},
    )
    assert occasions(served, SOLO)[1].pouch_bowls == ()


def test_a_breakfast_does_not_use_the_pouch_it_empties_itself() -> None:
    (only,) = made(
        [portion("anna", 1, "breakfast", "pouch"), portion("anna", 1, "breakfast", "oats")]
    )
    assert (only.bowls, only.pouch_bowls) == (1, ())


def test_without_a_flame_hot_food_is_soaked() -> None:
    (only,) = made([portion("anna", 1, "dinner", "pouch")], flame=False)
    assert (only.pours, only.dishes) == ((), ())
    assert (only.soaks[0].water_ml, only.soaks[0].wait_min) == (475.0, 60.0)


def test_coffee_counted_as_a_small_thing_is_still_a_hot_drink() -> None:
    stick = food("stick", role="small", category="drink", prep=Prep(kind="boil", water_ml=250.0))
    soup = food("soup", role="side", category="soup", prep=Prep(kind="boil", water_ml=250.0))
    foods = FOODS | {"stick": stick, "soup": soup}
    served = helpings(
        [portion("anna", 1, "drinks", "stick"), portion("anna", 1, "dinner", "soup")], foods
    )
    (only,) = occasions(served, SOLO)
    assert only.drinks_ml == {"anna": 250.0}
    assert only.water_ml == {"anna": 250.0}
    assert only.bowls == 1


def test_cooking_water_and_drinks_are_told_apart() -> None:
    (only,) = made([portion("anna", 1, "dinner", "pouch"), portion("anna", 1, "drinks", "coffee")])
    assert only.water_ml == {"anna": 475.0}
    assert only.drinks_ml == {"anna": 250.0}


@each("meal", ["breakfast", "lunch", "dinner"])
def test_two_hungers_one_pot(meal: Meal) -> None:
    (only,) = made(
        [portion("anna", 1, meal, "rice", 1.0), portion("bert", 1, meal, "rice", 2.0)], PAIR
    )
    (dish,) = only.dishes
    assert (dish.water_ml, dish.solids_g, dish.portions) == (750.0, 300.0, 2)
    assert only.water_ml == {"anna": 250.0, "bert": 500.0}


def test_bottle_powders_belong_to_drinking_water() -> None:
    powder = food("powder", role="drink", prep=Prep(kind="none", water_ml=500.0))
    assert helpings([portion("anna", 1, "move", "powder")], FOODS | {"powder": powder}) == ()
