"""What is held is eaten exactly so often: nothing of it is added, and the dial leaves it alone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.menu.choose import choose
from oatsack.menu.dial import dial
from oatsack.menu.frontier import judged
from oatsack.solve.highs import solve
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.trip import Hold
from support.menu_checker import faults_of
from support.menus import boiled, food, request

pytestmark = pytest.mark.slow
LARDER = (
    *(food(f"dinner-{i}", role="main", meals="dinner", category="meal", dose_g=95 + 10 * i,
           kcal=440 + 5 * i, prep=boiled()) for i in range(4)),
    *(food(f"breakfast-{i}", role="main", meals="breakfast", category="breakfast",
           dose_g=75 + 5 * i) for i in range(3)),
    *(food(f"bar-{i}", meals="lunch move", dose_g=40 + 5 * i, kcal=430 + 15 * i,
           taste="salty" if i % 2 else "sweet") for i in range(6)),
)  # fmt: skip


def held(count: float) -> MenuRequest:
    asked = request(LARDER, count=4, need=2000.0, hot_drinks={})
    slot = next(s for s in asked.slots if s.meal == "lunch" and s.day == 2)
    hold = Hold(food="bar-1", walker=slot.walker, date=slot.date, meal="lunch", count=count)
    return replace(asked, rules=replace(asked.rules, holds=(hold,)))


def there(menu: Menu) -> float:
    return sum(p.doses for p in menu.portions if (p.day, p.meal, p.food) == (2, "lunch", "bar-1"))


def test_the_walkers_count_is_the_count() -> None:
    for count in (1.0, 2.0):
        asked = held(count)
        menu = choose(asked, solve)
        assert faults_of(asked, menu) == []
        assert there(menu) == count


def test_an_edit_does_not_add_what_it_had_to_what_is_now_held() -> None:
    free = request(LARDER, count=4, need=2000.0, hot_drinks={})
    near = choose(free, solve)
    portion = next(p for p in near.portions if p.meal == "lunch" and p.why == "chosen")
    slot = next(s for s in free.slots if (s.walker, s.day, s.meal) == (
        portion.walker, portion.day, "lunch"))  # fmt: skip
    hold = Hold(food=portion.food, walker=slot.walker, date=slot.date, meal="lunch",
                count=portion.doses)  # fmt: skip
    asked = replace(free, near=near, rules=replace(free.rules, holds=(hold,)))
    again = choose(asked, solve)
    assert again.moved == 0, "keeping what is there moves nothing"
    assert [p.why for p in again.portions
            if (p.day, p.meal, p.food) == (portion.day, "lunch", portion.food)] == ["held"]


def test_the_dial_adds_nothing_to_what_is_held_and_takes_nothing_of_it() -> None:
    asked = held(2.0)
    menu = choose(asked, solve)
    walker = asked.walkers[0].id
    for kcal in (-400.0, 400.0):
        assert there(dial(asked, menu, walker, kcal)) == 2.0


def test_each_day_is_turned_by_its_own_wish() -> None:
    asked = held(1.0)
    menu, walker = choose(asked, solve), asked.walkers[0].id
    foods = {f.id: f for f in asked.foods}

    def kcal(of: Menu, day: int) -> float:
        return sum(p.doses * foods[p.food].dose_kcal for p in of.portions if p.day == day)

    made = dial(asked, menu, walker, 0.0, by_day={1: 0.0, 2: 0.0, 3: 350.0, 4: 0.0})
    change = {day: kcal(made, day) - kcal(menu, day) for day in (1, 2, 3, 4)}
    assert change[3] == pytest.approx(350.0, abs=120.0)
    assert {day: kcal for day, kcal in change.items() if day != 3} == {1: 0.0, 2: 0.0, 4: 0.0}


def test_a_menu_is_judged_by_what_is_eaten() -> None:
    asked = held(1.0)
    menu = choose(asked, solve)
    foods = {f.id: f for f in asked.foods}
    mass, price, liking = judged(menu, foods, asked.walkers)
    grams = sum(p.doses * (foods[p.food].dose_g + foods[p.food].dose_wrap_g) for p in menu.portions)
    assert mass == pytest.approx(grams) and price > 0 and 1.0 <= liking <= 5.0
