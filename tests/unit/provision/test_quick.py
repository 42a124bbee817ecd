"""The quickest dinner first on a cold first night: told where it comes later."""

from __future__ import annotations

from dataclasses import replace

from oatsack.provision.quick import dinner_min, quick_first
from oatsack.reports.words import Voice
from oatsack.values.flags import Flag
from oatsack.values.kitchen import KitchenLedger, MealLedger
from oatsack.values.menu import Menu
from support.each import each
from support.packs import BAR, LARDER, days_of, eat


def cooked(*minutes: float, meal: str = "dinner", walkers: tuple[str, ...] = ("a",)) -> tuple[
    MealLedger, ...
]:
    return tuple(
        MealLedger(day=n, meal=meal, walkers=walkers, boiled_ml=1000.0, cold_ml=0.0,  # type: ignore[arg-type]
                   wash_ml=0.0, heat_kj=400.0, fuel_g=15.0, minutes=took)
        for n, took in enumerate(minutes, start=1)
    )  # fmt: skip


DISHES = ("lentils", "oats", "lentils")


def said(*minutes: float, cold_c: float = -8.0, snow: bool | None = None) -> tuple[Flag, ...]:
    days = tuple(replace(d, cold_c=cold_c, snow=snow) for d in days_of(len(minutes)))
    menu = Menu(portions=tuple(
        eat("a", n, "dinner", DISHES[(n - 1) % 3]) for n in range(1, len(minutes) + 1)
    ))  # fmt: skip
    return quick_first(menu, LARDER, days, KitchenLedger(meals=cooked(*minutes)))


def test_a_quicker_dinner_that_comes_later_is_named_with_what_it_saves() -> None:
    (flag,) = said(30.0, 18.0, 25.0)
    assert (flag.key, flag.level) == ("kitchen.quick-later", "quiet")
    assert flag.values == {"food": "oats", "day": 2, "took_min": 18.0, "more_min": 12.0}
    text = Voice(foods={"oats": "Oats"}, days={"2": "Wed 3"}).flag(flag)
    assert "Oats" in text and "Wed 3" in text and "12 min" in text


@each("minutes", [(18.0, 30.0, 25.0), (20.0, 18.0, 25.0), (18.0, 18.0, 18.0), (22.9, 18.0)])
def test_the_quickest_first_or_one_as_quick_is_only_noted(minutes: tuple[float, ...]) -> None:
    (flag,) = said(*minutes)
    assert (flag.key, flag.level) == ("kitchen.quick-first", "note")
    assert flag.values["day"] == 1
    assert flag.values["food"] == "lentils"


def test_on_a_mild_first_night_nothing_is_said() -> None:
    assert said(30.0, 18.0, cold_c=2.0) == ()
    assert said(30.0, 18.0, cold_c=2.0, snow=True) != ()


def test_one_dinner_or_none_has_no_order() -> None:
    assert said(30.0) == ()
    assert quick_first(Menu(portions=()), LARDER, days_of(2), KitchenLedger()) == ()


def test_a_dinner_takes_as_long_as_its_slowest_cook_group_and_breakfasts_do_not_count() -> None:
    meals = (*cooked(20.0, 10.0), *cooked(26.0, walkers=("b",)), *cooked(90.0, meal="breakfast"))
    assert dinner_min(KitchenLedger(meals=meals)) == {1: 26.0, 2: 10.0}


def test_without_a_main_dish_there_is_nothing_to_name() -> None:
    days = tuple(replace(d, cold_c=-5.0) for d in days_of(2))
    menu = Menu(portions=(eat("a", 1, "dinner", "bar"), eat("a", 2, "dinner", "bar")))
    ledger = KitchenLedger(meals=cooked(30.0, 10.0))
    assert quick_first(menu, {"bar": BAR}, days, ledger) == ()
