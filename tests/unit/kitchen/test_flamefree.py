"""The same bags without a flame, swaps that respect who may eat what, and a pot for two hungers."""

from __future__ import annotations

from collections.abc import Callable

from oatsack.kitchen.flamefree import Twin, best_swap, flame_free, verdict_of
from oatsack.values.food import Food, Prep
from support.each import each
from support.kitchen import BAR, COFFEE, COUSCOUS, FOODS, OATS, POUCH, RICE, food, menu_of, portion

WRAP = food("wrap", kcal=300.0, role="main", meals=frozenset({"lunch", "dinner"}))
NUT_WRAP = food("nut-wrap", kcal=400.0, role="main", meals=frozenset({"dinner"}))
OIL = food("oil", kcal=884.0, dose_g=10.0, role="topping", meals=frozenset({"dinner"}))
COLA = food("cola", kcal=40.0, role="drink", meals=frozenset({"drinks"}))
LARDER = [WRAP, NUT_WRAP, OIL, COLA, BAR, COUSCOUS, RICE]


def anyone(walker: str, food: Food) -> bool:
    return True


def twins(*names: str, larder: list[Food] = LARDER,
          allowed: Callable[[str, Food], bool] = anyone) -> list[Twin]:  # fmt: skip
    meals = {"pouch": "dinner", "rice": "dinner", "oats": "breakfast", "bar": "lunch",
             "coffee": "drinks", "couscous": "dinner"}  # fmt: skip
    menu = menu_of([portion("anna", 1, meals[n], n) for n in names])  # type: ignore[arg-type]
    return list(flame_free(menu, FOODS, larder=larder, allowed=allowed, heat_c={1: 22.0}))


@each(
    ("food", "verdict"),
    [(BAR, "as-it-is"), (COUSCOUS, "soak"), (POUCH, "soak"), (OATS, "soak"), (RICE, "no"),
     (COFFEE, "no")],
)  # fmt: skip
def test_which_food_goes_without_a_flame(food: Food, verdict: str) -> None:
    # common practice: couscous, flakes and freeze-dried food soak; raw rice and pasta never
    assert verdict_of(food) == verdict


def test_every_portion_has_a_twin_in_its_order() -> None:
    got = twins("oats", "bar", "rice")
    assert [t.food for t in got] == ["oats", "bar", "rice"]
    assert [t.verdict for t in got] == ["soak", "as-it-is", "no"]


def test_what_soaks_gets_its_clock_and_no_swap() -> None:
    (oats,) = twins("oats")
    assert oats.clock is not None and oats.clock.ready_min == 120.0
    assert oats.swap is None


def test_a_swap_is_of_the_same_meal_and_near_in_energy() -> None:
    (rice,) = twins("rice")
    assert rice.swap is not None
    assert rice.swap.food == "couscous"  # 400 kcal like the rice, and lighter by no more
    assert rice.swap.off_kcal == 0.0


def test_a_swap_never_needs_a_flame_itself() -> None:
    simmers = Prep(kind="simmer", simmer_min=9.0)
    pasta = food("pasta", role="main", meals=frozenset({"dinner"}), prep=simmers)
    assert twins("rice", larder=[RICE, pasta])[0].swap is None


def test_what_a_walker_may_not_eat_is_never_proposed() -> None:
    def no_nuts_no_wheat(walker: str, food: Food) -> bool:
        return food.id not in ("nut-wrap", "couscous")

    (rice,) = twins("rice", allowed=no_nuts_no_wheat)
    assert rice.swap is not None and rice.swap.food == "wrap"
    (none,) = twins("rice", allowed=lambda walker, food: False)
    assert none.swap is None


def test_oil_is_no_dinner() -> None:
    (rice,) = twins("rice", larder=[OIL])
    assert rice.swap is None


def test_a_drink_stands_in_for_a_drink_only() -> None:
    (coffee,) = twins("coffee")
    assert coffee.swap is not None and coffee.swap.food == "cola"
    assert twins("rice", larder=[COLA])[0].swap is None


def test_swaps_come_in_whole_doses() -> None:
    big = portion("anna", 1, "dinner", "rice", 2.0)
    swap = best_swap(big, RICE, [WRAP])
    assert swap is not None
    assert swap.doses == 3.0  # 800 kcal against 300 each
    assert swap.energy_kcal == 900.0 and swap.off_kcal == 100.0


def test_the_better_liked_of_equals_is_taken() -> None:
    dull = food("dull", role="main", meals=frozenset({"dinner"}), liking=2.0)
    dear = food("dear", role="main", meals=frozenset({"dinner"}), liking=5.0)
    swap = best_swap(portion("anna", 1, "dinner", "rice"), RICE, [dull, dear])
    assert swap is not None and swap.food == "dear"
