"""What keeps, in which heat, and clocks once food is wet."""

from __future__ import annotations

from oatsack.kitchen.keeping import (
    ageing,
    eat_by,
    keeping_flags,
    keeps_until,
    soak_clock,
    wet_minutes,
)
from oatsack.values.food import Keep, Prep
from oatsack.values.menu import Menu, Pool
from support.each import each
from support.kitchen import BAR, COUSCOUS, OATS, POUCH, RICE, day, days, food, menu_of, portion

COOL = dict.fromkeys(range(1, 15), 15.0)
WARM = dict.fromkeys(range(1, 15), 26.0)
SCORCH = dict.fromkeys(range(1, 15), 35.0)


@each(
    ("air", "minutes"),
    [(35.0, 60.0), (33.0, 60.0), (32.0, 120.0), (20.0, 120.0), (5.0, 120.0), (4.0, None)],
)
def test_two_hours_in_the_danger_zone_and_one_in_the_heat(
    air: float, minutes: float | None
) -> None:
    # FSISDanger: 40 to 140 F two hours, above 90 F one hour
    assert wet_minutes(air) == minutes


def test_a_week_of_cheese_is_half_a_week_in_the_warm() -> None:
    # common practice: hard cheese 5 to 7 days cool, 1 to 3 hot
    assert keeps_until(6.0, 1, COOL) == 6
    assert keeps_until(6.0, 1, WARM) == 3
    assert keeps_until(6.0, 1, SCORCH) in (1, 2)


def test_food_opened_later_keeps_later() -> None:
    assert keeps_until(3.0, 4, COOL) == 6


def test_less_than_a_day_means_the_first_day_only() -> None:
    assert keeps_until(0.2, 1, COOL) == 1
    assert keeps_until(0.2, 3, SCORCH) == 3


def test_a_hot_day_in_between_counts() -> None:
    mixed = COOL | {2: 26.0}
    assert keeps_until(4.0, 1, mixed) == 3


def test_days_beyond_the_walk_are_as_warm_as_its_last() -> None:
    assert keeps_until(10.0, 1, {1: 26.0, 2: 26.0}) == 5


@each(("air", "rate"), [(10.0, 1.0), (20.0, 1.0), (25.0, 2.0), (34.0, 4.0)])
def test_heat_ages_food(air: float, rate: float) -> None:
    assert ageing(air) == rate


CHEESE = food("cheese", keep=Keep(opened_days=3.0, warm_days=6.0))
HAM = food("ham", keep=Keep(warm_days=0.5))
NUTS = food("nuts", keep=Keep(opened_days=4.0))


def test_what_keeps_for_ever_has_no_last_day() -> None:
    got = eat_by(BAR, days(5))
    assert (got.day, got.opened_day, got.perishable) == (None, None, False)


def flags(menu: Menu, *foods, count: int = 6, **fields) -> list[tuple[str, str]]:
    found = keeping_flags(menu, {f.id: f for f in foods}, days(count, **fields))
    return [(f.key.removeprefix("kitchen."), f.level) for f in found]


def test_perishable_food_after_the_first_day_is_blocked() -> None:
    assert flags(menu_of([portion("anna", 1, "dinner", "ham")]), HAM) == []
    assert flags(menu_of([portion("anna", 2, "lunch", "ham")]), HAM) == [("perishable", "block")]


def test_food_eaten_too_late_is_a_quiet_line() -> None:
    menu = menu_of([portion("anna", 5, "lunch", "cheese")])
    assert flags(menu, CHEESE) == []
    assert flags(menu, CHEESE, warm_c=26.0) == [("eat-by", "quiet")]


def test_food_of_a_later_leg_starts_anew() -> None:
    menu = menu_of([portion("anna", 5, "lunch", "ham")])
    stretch = [day(n, leg=1 if n < 5 else 2, last=n == 6) for n in range(1, 7)]
    assert list(keeping_flags(menu, {"ham": HAM}, stretch)) == []


def test_a_bag_open_too_long_is_a_quiet_line() -> None:
    pool = Pool(walker="anna", food="nuts", packs=1.0, open_day=1, last_day=6, by_day_g={})
    assert flags(Menu(portions=(), pools=(pool,)), NUTS) == [("open-long", "quiet")]
    short = Pool(walker="anna", food="nuts", packs=1.0, open_day=3, last_day=6, by_day_g={})
    assert flags(Menu(portions=(), pools=(short,)), NUTS) == []


def test_a_cold_soak_has_a_clock() -> None:
    # common practice: couscous half an hour, oats hours; wet food two hours in the warm
    quick, slow = soak_clock(COUSCOUS, 20.0), soak_clock(OATS, 33.0)
    assert quick is not None and slow is not None
    assert (quick.ready_min, quick.eat_within_min, quick.safe) == (30.0, 120.0, True)
    assert (slow.ready_min, slow.eat_within_min, slow.safe) == (120.0, 60.0, False)


def test_in_the_cold_of_the_night_anything_may_soak() -> None:
    overnight = food("overnight", prep=Prep(kind="soak", water_ml=200.0, wait_min=480.0))
    clock = soak_clock(overnight, 3.0)
    assert clock is not None and clock.safe and clock.eat_within_min is None


def test_what_must_cook_has_no_soak_clock() -> None:
    assert soak_clock(RICE, 20.0) is None
    assert soak_clock(POUCH, 20.0) is not None
