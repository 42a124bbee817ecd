"""Laws of the chooser on small questions solved to the end."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from oatsack.errors import NoPlan
from oatsack.menu.choose import choose
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.trip import Hold
from support.menu_checker import faults_of
from support.menus import START, food, tiny

pytestmark = pytest.mark.slow

seeds = st.integers(0, 400)
few = settings(max_examples=12)


def menu_of(asked: MenuRequest) -> Menu | None:
    try:
        return choose(asked, solve)
    except NoPlan:
        return None


def aim_of(asked: MenuRequest) -> float:
    menu = menu_of(asked)
    return float("inf") if menu is None else menu.aim


def eaten_alone(seed: int) -> MenuRequest:
    """A tiny question without spare food, for laws of other foods or other eaters: which food is
    spare is settled before the menu, and another spare has packs of another price."""
    asked = tiny(seed)
    return replace(asked, rules=replace(asked.rules, spare="none"))


def no_worse(relaxed: float, strict: float) -> bool:
    return relaxed <= strict + 1e-6 * max(1.0, abs(strict)) or relaxed == strict


@few
@given(seeds)
def test_a_wider_window_never_worsens_the_aim(seed: int) -> None:
    asked = tiny(seed)
    rules = replace(asked.rules, day_window=asked.rules.day_window + 0.2,
                    trip_window=asked.rules.trip_window + 0.2)  # fmt: skip
    assert no_worse(aim_of(replace(asked, rules=rules)), aim_of(asked))


@few
@given(seeds)
def test_more_money_never_worsens_the_aim(seed: int) -> None:
    asked = tiny(seed)
    tight = replace(asked, rules=replace(asked.rules, budget=10.0))
    wide = replace(asked, rules=replace(asked.rules, budget=14.0))
    assert no_worse(aim_of(wide), aim_of(tight))


@few
@given(seeds)
def test_another_food_never_worsens_the_aim(seed: int) -> None:
    asked = eaten_alone(seed)
    extra = food("extra", meals="lunch", kcal=430.0, dose_g=45.0, liking=4.0)
    assert no_worse(aim_of(replace(asked, foods=(*asked.foods, extra))), aim_of(asked))


@few
@given(seeds, st.integers(0, 99))
def test_the_order_of_foods_changes_nothing(seed: int, shuffle: int) -> None:
    asked = tiny(seed)
    foods = list(asked.foods)
    random.Random(shuffle).shuffle(foods)
    assert aim_of(replace(asked, foods=tuple(foods))) == pytest.approx(aim_of(asked))


@few
@given(seeds)
def test_a_ban_never_betters_the_aim_and_is_kept(seed: int) -> None:
    asked = eaten_alone(seed)
    ban = Hold(food="bar-0", count=0)
    banned = replace(asked, rules=replace(asked.rules, holds=(ban,)))
    menu = menu_of(banned)
    assert no_worse(aim_of(asked), aim_of(banned))
    assert menu is None or "bar-0" not in {p.food for p in menu.portions}


@few
@given(seeds)
def test_what_is_held_stays_held(seed: int) -> None:
    asked = tiny(seed)
    hold = Hold(food="bar-1", walker="anna", date=START, meal="lunch", count=1)
    menu = menu_of(replace(asked, rules=replace(asked.rules, holds=(hold,))))
    if menu is not None:
        held = [p for p in menu.portions if p.why == "held"]
        assert [(p.food, p.meal, p.doses) for p in held] == [("bar-1", "lunch", 1.0)]


@few
@given(seeds)
def test_money_in_another_currency_changes_no_choice(seed: int) -> None:
    asked = tiny(seed)
    foods = tuple(replace(f, price=(f.price or 0.0) * 100) for f in asked.foods)
    budget = None if asked.rules.budget is None else asked.rules.budget * 100
    rules = replace(asked.rules, budget=budget, weight_price=asked.rules.weight_price / 100)
    assert aim_of(replace(asked, foods=foods, rules=rules)) == pytest.approx(aim_of(asked))


@few
@given(seeds)
def test_every_menu_passes_the_checker_and_its_bound_is_one(seed: int) -> None:
    asked = tiny(seed)
    menu = menu_of(asked)
    if menu is not None:
        assert faults_of(asked, menu) == []
        assert menu.bound <= menu.aim + 1e-9
        assert 0.0 <= menu.gap < 1e-3


@few
@given(seeds)
def test_the_same_question_has_the_same_answer(seed: int) -> None:
    asked = tiny(seed)
    one, two = menu_of(asked), menu_of(asked)
    assert one == two


@few
@given(seeds)
def test_a_stricter_diet_that_leaves_a_main_never_betters_the_aim(seed: int) -> None:
    """Where no main is left a dinner may do without one, and that can be lighter."""
    asked = eaten_alone(seed)
    assume(any(f.role == "main" and f.diet == "vegan" for f in asked.foods))
    loose = tuple(replace(w, eats="anything") for w in asked.walkers)
    strict = tuple(replace(w, eats="vegan") for w in asked.walkers)
    loose_aim = aim_of(replace(asked, walkers=loose))
    assert no_worse(loose_aim, aim_of(replace(asked, walkers=strict)))


def test_the_checker_sees_each_kind_of_fault() -> None:
    """Seeded corruption: a checker that cannot fail judges nothing."""
    asked = next(a for a in map(tiny, range(50)) if menu_of(a) and a.rules.budget is None)
    menu = menu_of(asked)
    assert menu is not None
    first = menu.portions[0]
    rest = menu.portions[1:]
    bad = {
        "broken": replace(first, doses=first.doses + 0.5),
        "nothing": replace(first, doses=0.0),
        "elsewhere": replace(first, meal="breakfast"),
        "unknown": replace(first, food="gone"),
        "another day": replace(first, day=7),
        "too much": replace(first, doses=first.doses + 20),
    }
    for name, portion in bad.items():
        assert faults_of(asked, replace(menu, portions=(portion, *rest))), name
    poor = replace(asked, rules=replace(asked.rules, budget=0.5))
    assert faults_of(poor, menu)
    tight = replace(asked, walkers=tuple(replace(w, dislikes=frozenset({first.food}))
                                         for w in asked.walkers))  # fmt: skip
    assert faults_of(tight, menu)
