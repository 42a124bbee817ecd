"""How much of a food makes a portion: whole doses between what is worth a bag and what one eats."""

from __future__ import annotations

from oatsack.menu.sizes import bag_most_g, doses_between, sensible_g
from support.menus import food

PLENTY = 5000.0


def test_a_meal_takes_whole_doses_between_least_and_most() -> None:
    """Grams: common practice; six slices: our choice."""
    asked = {
        "crispbread, as many slices as one chews": (food("a", category="bread", dose_g=10), (4, 6)),
        "tortillas, by their weight": (food("b", category="bread", dose_g=49), (1, 2)),
        "a pouch is as large as it is": (food("c", category="meal", dose_g=400), (1, 1)),
        "oil by the sachet": (food("d", category="fat", dose_g=5), (1, 3)),
        "nuts by the handful": (food("e", category="nut", dose_g=20), (1, 3)),
    }  # fmt: skip
    found = {what: doses_between(one, "lunch", PLENTY) for what, (one, _) in asked.items()}
    assert found == {what: wanted for what, (_, wanted) in asked.items()}


def test_a_meal_of_few_kcal_takes_fewer_doses_but_one_at_least() -> None:
    rye = food("rye", category="bread", dose_g=10, kcal=370)  # 37 a slice
    found = {kcal: doses_between(rye, "lunch", kcal) for kcal in (20.0, 111.0, 112.0, 185.0)}
    assert found == {20.0: (1, 1), 111.0: (3, 3), 112.0: (3, 3), 185.0: (4, 5)}


def test_a_food_without_energy_is_bounded_by_its_weight_alone() -> None:
    salt = food("salt", category="condiment", dose_g=10, kcal=0)
    assert doses_between(salt, "dinner", 0.0) == (1, 3)


def test_what_a_food_is_for_narrows_its_portion() -> None:
    soy = food("soy", role="side", category="protein", dose_g=10, kcal=35)
    spread = food("spread", role="topping", category="nut", dose_g=15, kcal=90)
    tomato = food("tomato", role="topping", category="vegetable", dose_g=10, kcal=30)
    oats = food("oats", role="main", category="breakfast", dose_g=50, kcal=190)
    mix = food("mix", role="drink", category="drink", dose_g=10, kcal=38)
    found = {
        "dried meat or soy in one pot": sensible_g(soy, "dinner"),
        "a spread": sensible_g(spread, "lunch"),
        "tomato powder": sensible_g(tomato, "dinner"),
        "what carries a hot meal": sensible_g(oats, "breakfast"),
        "the same eaten cold": sensible_g(oats, "lunch"),
        "a drink mixed on the way": sensible_g(mix, "move"),
        "the same from a mug": sensible_g(mix, "dinner"),
        "a class nobody listed": sensible_g(food("x", category="elsewhere"), "lunch"),
    }
    assert found == {
        "dried meat or soy in one pot": (25.0, 40.0), "a spread": (10.0, 45.0),
        "tomato powder": (5.0, 20.0),
        "what carries a hot meal": (40.0, 120.0), "the same eaten cold": (40.0, 120.0),
        "a drink mixed on the way": (5.0, 30.0), "the same from a mug": (1.0, 60.0),
        "a class nobody listed": (15.0, 100.0),
    }  # fmt: skip


def test_less_chocolate_than_nuts_is_nibbled_from_one_bag() -> None:
    found = {kind: bag_most_g(food("x", category=kind)) for kind in ("sweet", "nut", "snack")}
    assert found == {"sweet": 50.0, "nut": 100.0, "snack": 100.0}
