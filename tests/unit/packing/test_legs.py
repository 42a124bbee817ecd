"""Legs, boxes and when to post them."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from oatsack.packing.legs import (
    arrive_day,
    carried_by_leg_kg,
    date_of,
    places_of,
    posting_window,
    ramp_on,
)
from oatsack.packing.pack import pack
from oatsack.values.food import Keep
from oatsack.values.kitchen import KitchenLedger
from oatsack.values.menu import Menu
from oatsack.values.pack import Place
from support.packs import LARDER, days_of, packed, people, trip_for, usual_menu

START = dt.date(2026, 6, 1)
"""A Monday."""
POST = Place(leg=2, name="Otter Ford", transit_fast_days=3, transit_slow_days=6, hold_days=15,
             early_days=1, late_days=3)  # fmt: skip


def test_the_window_of_a_box_expected_on_day_11() -> None:
    """Common practice: earliest 10, latest 14, transit 3 to 6 days, hold 15 days."""
    window = posting_window(POST, 11, START)
    assert (window.earliest, window.latest) == (-4, 4)
    assert window.exists
    assert not window.at_risk(0) and window.at_risk(5) and window.at_risk(-5)


def test_a_longer_hold_opens_the_window_earlier() -> None:
    """Common practice: with a 30-day hold the earliest becomes day -19."""
    assert posting_window(replace(POST, hold_days=30), 11, START).earliest == -19


def test_six_days_behind_a_box_posted_before_day_2_is_at_risk() -> None:
    """Common practice."""
    window = posting_window(POST, 11, START, behind_days=6)
    assert window.earliest == 2
    assert window.at_risk(1) and not window.at_risk(2)


def test_a_hold_too_short_for_the_spread_leaves_no_window() -> None:
    window = posting_window(replace(POST, hold_days=2, late_days=9), 11, START)
    assert not window.exists
    assert window.at_risk(window.earliest) and window.at_risk(window.latest)


def test_the_office_is_shut_on_some_days_of_arrival() -> None:
    """Day 10 is a Wednesday, 13 and 14 the weekend."""
    window = posting_window(POST, 11, START)
    assert [d.weekday() for d in window.open] == [2, 3, 4]
    assert [d.weekday() for d in window.closed] == [5, 6]
    every_day = posting_window(replace(POST, open_weekdays=frozenset(range(7))), 11, START)
    assert every_day.closed == ()


def test_day_zero_is_the_day_before_the_walk() -> None:
    assert date_of(1, START) == START
    assert date_of(0, START) == dt.date(2026, 5, 31)
    assert posting_window(POST, 11, START).latest_date == dt.date(2026, 6, 4)


def test_what_five_legs_weigh_with_the_ramp_and_flat() -> None:
    """Common practice: 5, 6, 4.5, 5.5 and 3.5 days at 0.72 kg."""
    legs = (5.0, 6.0, 4.5, 5.5, 3.5)
    ramped = carried_by_leg_kg(legs)
    assert [round(kg, 1) for kg in ramped] == [3.3, 4.7, 3.7, 4.8, 3.0]
    assert sum(ramped) == pytest.approx(19.4, abs=0.05)
    flat = carried_by_leg_kg(legs, flat=True)
    assert [round(kg, 1) for kg in flat] == [3.6, 4.3, 3.2, 4.0, 2.5]
    assert flat[0] > ramped[0]
    assert all(0.5 <= r - f <= 0.8 for r, f in zip(ramped[3:], flat[3:], strict=True))


def test_the_ramp_carries_on_over_legs() -> None:
    assert [ramp_on(d) for d in (1, 2, 3, 6, 7, 14, 15, 150)] == [
        0.8, 0.8, 1.0, 1.0, 1.1, 1.1, 1.2, 1.2,
    ]  # fmt: skip


def test_every_later_leg_has_a_place_given_or_assumed_as_a_box() -> None:
    days = days_of(6, (2, 2, 2))
    places = places_of(days, (Place(leg=3, name="Mill Town", kind="shop"),))
    assert [(p.leg, p.name, p.kind) for p in places] == [
        (2, "Camp 2", "box"), (3, "Mill Town", "shop"),
    ]  # fmt: skip
    assert places_of(days_of(3)) == ()
    assert arrive_day(2, days) == 2


def legged(count: int, legs: tuple[int, ...]) -> tuple[Menu, int]:
    menu = usual_menu(["a"], count)
    return replace(menu, pools=(), portions=tuple(p for p in menu.portions if p.why != "bag")), len(
        legs
    )


def test_a_box_holds_the_bags_of_its_leg() -> None:
    menu, _ = legged(6, (2, 2, 2))
    plan = packed(people(1), 6, menu=menu, legs=(2, 2, 2))
    bags = {b.id: b for b in plan.bags}
    assert [b.leg for b in plan.boxes] == [2, 3]
    for box in plan.boxes:
        assert {bags[b].leg for b in box.bags} == {box.leg}
        assert box.gross_g == pytest.approx(sum(bags[b].gross_g for b in box.bags))
        assert box.kind == "box"


def test_a_box_states_when_to_post_it_and_when_the_door_is_shut() -> None:
    """Expected on Tuesday, day 2; the walker may come from day 1 to day 5, Monday to Friday."""
    menu, _ = legged(4, (2, 2))
    plan = packed(people(1), 4, menu=menu, legs=(2, 2))
    (box,) = plan.boxes
    assert box.arrive_day == 2
    assert box.post_until == START - dt.timedelta(days=6)
    assert box.post_from == START + dt.timedelta(days=4 - 15 - 3)
    assert box.shut == ()
    assert {f.key for f in plan.flags} >= {"packing.box.not-asked"}


def test_an_asked_place_is_warned_of_by_its_own_facts() -> None:
    menu, _ = legged(4, (2, 2))
    place = Place(leg=2, name="Otter Ford", hold_days=1, late_days=6, checked="2026-05-01",
                  open_weekdays=frozenset({0}))  # fmt: skip
    plan = pack(menu, LARDER, days_of(4, (2, 2)), trip_for(people(1), 4), KitchenLedger(),
                places=(place,))  # fmt: skip
    keys = {f.key: f.level for f in plan.flags}
    assert keys["packing.box.no-window"] == "caution"
    assert keys["packing.box.shut"] == "quiet"
    assert "packing.box.not-asked" not in keys


def test_a_leg_bought_on_the_way_is_on_its_own_shopping_list() -> None:
    menu, _ = legged(4, (2, 2))
    shop = (Place(leg=2, name="Mill Town", kind="shop"),)
    plan = pack(menu, LARDER, days_of(4, (2, 2)), trip_for(people(1), 4), KitchenLedger(),
                places=shop)  # fmt: skip
    assert {b.when for b in plan.buy if b.leg == 2} == {"on the way"}
    assert plan.boxes[0].kind == "shop"
    assert plan.boxes[0].post_from is plan.boxes[0].post_until is None
    assert sum(b.need_g for b in plan.buy) == pytest.approx(sum(b.net_g for b in plan.bags))


def test_what_a_shop_does_not_sell_leaves_home_and_is_said() -> None:
    menu, _ = legged(4, (2, 2))
    rows = {**LARDER, "bar": replace(LARDER["bar"], shop="outdoor")}
    shop = Place(leg=2, name="Mill Town", kind="shop", sells=frozenset({"supermarket"}))
    plan = pack(menu, rows, days_of(4, (2, 2)), trip_for(people(1), 4), KitchenLedger(),
                places=(shop,))  # fmt: skip
    assert {b.leg for b in plan.buy if b.food == "bar"} == {1}
    assert {b.leg for b in plan.buy if b.food == "oats"} == {1, 2}
    (flag,) = [f for f in plan.flags if f.key == "packing.box.not-sold"]
    assert (flag.values["food"], flag.values["foods"]) == ("bar", 1)


def test_what_would_not_keep_in_the_post_is_said() -> None:
    """A week in the warm is less than the days from posting to the last meal of the leg."""
    menu, _ = legged(4, (2, 2))
    rows = {**LARDER, "cheese": replace(LARDER["cheese"], keep=Keep(warm_days=7.0))}
    post = Place(leg=2, name="Otter Ford", transit_slow_days=9, checked="2026-05-01")
    plan = pack(menu, rows, days_of(4, (2, 2)), trip_for(people(1), 4), KitchenLedger(),
                places=(post,))  # fmt: skip
    (flag,) = [f for f in plan.flags if f.key == "packing.box.spoils"]
    assert (flag.values["food"], flag.values["foods"]) == ("cheese", 1)
    lasting = pack(menu, LARDER, days_of(4, (2, 2)), trip_for(people(1), 4), KitchenLedger(),
                   places=(post,))  # fmt: skip
    assert "packing.box.spoils" not in {f.key for f in lasting.flags}


def test_the_trips_own_places_are_asked_where_none_are_handed_in() -> None:
    menu, _ = legged(4, (2, 2))
    trip = replace(trip_for(people(1), 4), places=(Place(leg=2, day=2, name="Mill Town",
                                                         kind="shop"),))  # fmt: skip
    plan = pack(menu, LARDER, days_of(4, (2, 2)), trip, KitchenLedger())
    assert [(b.place, b.kind) for b in plan.boxes] == [("Mill Town", "shop")]


def test_a_box_says_how_likely_it_is_open_and_ready() -> None:
    """Expected on Tuesday, day 2, from Monday to Friday: always open; and on Saturday, day 6."""
    menu, _ = legged(8, (6, 2))
    plan = packed(people(1), 8, menu=menu, legs=(6, 2))
    (box,) = plan.boxes
    assert box.open_chance == pytest.approx(1 / 6 + 1 / 6 + 1 / 12)  # Fri, then Mon and Tue
    assert box.wait_days == 2
    assert box.box_chance == pytest.approx(1.0)
    assert box.post_on is not None and box.post_from <= box.post_on <= box.post_until
    assert (box.early, box.late) == (START + dt.timedelta(4), START + dt.timedelta(8))


@pytest.mark.slow
def test_150_days_and_25_legs_are_packed_leg_by_leg() -> None:
    menu, _ = legged(150, (6,) * 25)
    plan = packed(people(1), 150, menu=menu, legs=(6,) * 25)
    assert len(plan.boxes) == 24
    assert len(plan.sacks) == 25
    spare_g = sum(b.gross_g for b in plan.bags if b.label == "spare")
    own = [s.start_g - spare_g for s in plan.sacks]
    assert max(own) - min(own) < 1.0
