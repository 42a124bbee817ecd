"""What freezes too hard to bite is named; what stays crisp, small or hot is not."""

from __future__ import annotations

from dataclasses import replace

from oatsack.kitchen.frost import frost_flags, hardens
from oatsack.values.food import Keep, Meal
from support.kitchen import BAR, POUCH, day, food, menu_of, portion

CHEWY = replace(BAR, id="chewy", category="snack")
CRISP = replace(CHEWY, id="crisp", keep=Keep(crushes=True))
CHEESE = food("cheese", category="dairy", role="topping")
NUTS = food("nuts", category="nut", role="snack")
BUTTER = food("nut-butter", category="nut", role="topping")
ALL = {f.id: f for f in (CHEWY, CRISP, CHEESE, NUTS, BUTTER, POUCH)}


def test_bars_cheese_and_spreads_harden_and_crisps_nuts_and_hot_food_do_not() -> None:
    """Common practice: bars like bullets; cheese and sausage are cut at home."""
    assert {name for name, f in ALL.items() if hardens(f)} == {"chewy", "cheese", "nut-butter"}


def test_each_is_named_once_on_the_first_day_of_frost_and_only_where_it_is_eaten_cold() -> None:
    walk = [replace(day(n), warm_c=warm) for n, warm in ((1, 4.0), (2, -3.0), (3, -6.0))]
    eaten: list[tuple[str, int, Meal]] = [
        ("chewy", 1, "move"), ("chewy", 3, "move"), ("chewy", 2, "lunch"),
        ("cheese", 2, "dinner"), ("cheese", 3, "lunch"), ("crisp", 3, "move"),
    ]  # fmt: skip
    menu = menu_of(portion("anna", on, meal, name) for name, on, meal in eaten)
    told = [(f.values["food"], f.values["day"]) for f in frost_flags(menu, ALL, walk)]
    assert told == [("chewy", 2), ("cheese", 3)]


def test_a_walk_above_freezing_at_midday_hears_nothing_of_it() -> None:
    walk = [replace(day(1), warm_c=0.0, cold_c=-8.0)]
    assert list(frost_flags(menu_of([portion("anna", 1, "move", "chewy")]), ALL, walk)) == []
