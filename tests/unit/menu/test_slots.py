"""Meals counted from clock times (C4), and targets (C15). Counts: common practice, by hand."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from oatsack.menu.slots import MEAL_SHARE, cups, day_shares, in_town, slots_of
from oatsack.values.kit import Kit
from oatsack.values.menu import Slot
from oatsack.values.pack import Place
from oatsack.values.trip import Rules
from support.menus import days, trip, walker


def counted(count: int, begin: float, end: float, **rules: object) -> Counter[str]:
    walk = trip([walker()], count, begin=begin, end=end, rules=Rules(**rules))  # type: ignore[arg-type]
    return Counter(s.meal for s in slots_of(walk, days(count)))


def test_a_solo_walk_of_three_nights_has_three_dinners_three_breakfasts_two_lunches() -> None:
    meals = counted(4, 14, 11)
    assert (meals["dinner"], meals["breakfast"], meals["lunch"]) == (3, 3, 2)


def test_a_weekend_from_friday_afternoon_to_sunday_at_one() -> None:
    meals = counted(3, 15, 13)
    assert (meals["dinner"], meals["breakfast"], meals["lunch"]) == (2, 2, 2)


def test_the_lunch_of_the_finish_day_is_a_visible_switch() -> None:
    assert counted(3, 15, 13, last_lunch=False)["lunch"] == 1
    assert counted(3, 15, 11, last_lunch=True)["lunch"] == 2


def test_twelve_for_eight_days_eat_84_of_each_meal() -> None:
    """Own lunch on day 1, out at 14:00 on day 8: 84 dinners, 84 breakfasts, 84 lunches."""
    party = [walker(f"w{i}") for i in range(12)]
    walk = trip(party, 8, begin=9, end=14, rules=Rules(first_day_meals=frozenset({"dinner"})))
    meals = Counter(s.meal for s in slots_of(walk, days(8)))
    assert (meals["dinner"], meals["breakfast"], meals["lunch"]) == (84, 84, 84)


def test_four_days_and_three_nights_as_in_the_first_ten_minutes() -> None:
    meals = counted(4, 9, 15)
    assert (meals["breakfast"], meals["lunch"], meals["dinner"], meals["move"]) == (3, 4, 3, 4)


def test_a_meal_whose_middle_lies_at_the_very_start_is_served() -> None:
    assert counted(1, 12.5, 20)["lunch"] == 1
    assert counted(1, 12.6, 20)["lunch"] == 0


def test_meals_never_are_days_times_three() -> None:
    for begin in (6, 10, 15, 19):
        for end in (5, 9, 13, 20):
            meals = counted(3, begin, end)
            breakfasts = 1 + (begin <= 7) + (end >= 7)
            assert meals["breakfast"] == breakfasts


def test_the_walkers_own_meal_times_move_the_count() -> None:
    early = {"breakfast": 300.0, "lunch": 600.0, "dinner": 1000.0}
    assert counted(1, 6, 17, meal_clock_min=early) == counted(1, 8, 19)


def test_hot_meals_follow_the_stove_and_the_walkers_word() -> None:
    def hot(walk_rules: Rules, kit: Kit | None = None) -> set[str]:
        walk = trip([walker()], 1, rules=walk_rules, kit=kit or Kit())
        return {s.meal for s in slots_of(walk, days(1)) if s.hot}

    assert hot(Rules()) == {"breakfast", "dinner", "drinks"}
    assert hot(Rules(hot_breakfast=False, cook_midday=True)) == {"lunch", "dinner", "drinks"}
    assert hot(Rules(no_flame=True)) == set()
    assert hot(Rules(), Kit(stove=None)) == set()


def test_days_carried_start_anew_with_every_leg() -> None:
    walk = trip([walker()], 5)
    carried = {s.day: s.carry_days for s in slots_of(walk, days(5, (1, 1, 1, 2, 2)))}
    assert carried == {1: 1.0, 2: 2.0, 3: 3.0, 4: 1.0, 5: 2.0}


def test_the_minutes_of_a_meal_stand_in_its_slot() -> None:
    walk = trip([walker()], 1, rules=Rules(minutes={"dinner": 30.0}))
    limits = {s.meal: s.minutes_limit for s in slots_of(walk, days(1))}
    assert limits["dinner"] == 30.0
    assert limits["breakfast"] is None


def shares_of(count: int, begin: float, end: float) -> dict[int, float]:
    walk = trip([walker()], count, begin=begin, end=end)
    return day_shares(walk, slots_of(walk, days(count)))


def test_a_full_day_is_all_shares_and_shares_add_to_one() -> None:
    assert sum(MEAL_SHARE.values()) == pytest.approx(1.0)
    assert shares_of(3, 6, 20) == {n: pytest.approx(1.0) for n in (1, 2, 3)}


def test_part_days_bring_their_share_only() -> None:
    """Trip 1 of the acceptance trips: Fri 15:00 to Sun 13:00 at 2,050 a day is about 3,950."""
    shares = shares_of(3, 15, 13)
    assert 2050.0 * sum(shares.values()) == pytest.approx(3950, rel=0.05)
    assert shares[1] < shares[3] < shares[2] == pytest.approx(1.0)


def test_a_walk_without_a_full_day_has_less_than_its_days() -> None:
    shares = shares_of(2, 12, 12)
    assert sum(shares.values()) < 2.0
    assert all(0.0 < share < 1.0 for share in shares.values())


def test_slots_come_in_the_order_of_the_day() -> None:
    walk = trip([walker()], 1)
    slots: tuple[Slot, ...] = slots_of(walk, days(1))
    assert [s.meal for s in slots] == ["breakfast", "move", "lunch", "dinner", "drinks"]


def test_a_day_with_only_breakfast_or_only_dinner_has_half_the_hot_drinks_rounded_up() -> None:
    """Two a day over five dinners and five breakfasts are ten cups (common practice)."""
    whole, evening, noon = {"breakfast", "lunch", "dinner"}, {"move", "dinner"}, {"lunch"}
    asked = {2.0: (2.0, 1.0, 0.0), 3.0: (3.0, 2.0, 0.0), 1.0: (1.0, 1.0, 0.0), 0.0: (0.0, 0.0, 0.0)}
    found = {n: tuple(cups(n, meals) for meals in (whole, evening, noon)) for n in asked}  # type: ignore[arg-type]
    assert found == asked
    days_out = [evening, whole, whole, whole, whole, {"breakfast"}]
    assert sum(cups(2.0, meals) for meals in days_out) == 10.0  # type: ignore[arg-type]


def test_a_meal_at_the_very_end_is_served_and_nibbling_begins_at_an_hour_and_a_half() -> None:
    """From breakfast at 7:00 to dinner at 18:30; a walk that ends at 12:30 has its lunch."""
    assert counted(1, 6, 12.5)["lunch"] == 1
    assert counted(1, 6, 12.4)["lunch"] == 0
    assert counted(1, 7, 8.5)["move"] == 1
    assert counted(1, 7, 8.4)["move"] == 0
    assert counted(1, 17, 20)["move"] == 1
    assert counted(1, 17.1, 20)["move"] == 0


def test_a_day_without_daytime_has_no_part_of_the_nibbling() -> None:
    walk = trip([walker()], 2, begin=18.4, end=20)
    shares = day_shares(walk, slots_of(walk, days(2)))
    assert shares[1] == pytest.approx(MEAL_SHARE["dinner"])
    assert shares[2] == pytest.approx(sum(MEAL_SHARE.values()))
    late = trip([walker()], 2, begin=19, end=20,
                rules=Rules(first_day_meals=frozenset({"move", "dinner"})))  # fmt: skip
    assert day_shares(late, slots_of(late, days(2)))[1] == pytest.approx(MEAL_SHARE["dinner"])


def test_in_town_one_eats_lunch_and_dinner_of_the_day_and_breakfast_of_the_next() -> None:
    town = Place(name="Town", leg=2, day=2, town_meals=frozenset({"lunch", "dinner", "breakfast"}))
    unknown = replace(town, day=0)
    walk = replace(trip([walker()], 4), places=(town,))
    assert in_town(walk) == {(2, "lunch"), (2, "dinner"), (3, "breakfast")}
    assert in_town(replace(walk, places=(unknown,))) == frozenset()
    found = {(s.day, s.meal) for s in slots_of(walk, days(4))}
    assert not found & in_town(walk)
    assert {(2, "breakfast"), (3, "lunch"), (1, "dinner")} <= found
