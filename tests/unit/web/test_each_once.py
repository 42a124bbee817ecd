"""What somebody eats of one food at one meal stands there once, whatever it comes of."""

from __future__ import annotations

from dataclasses import replace

from oatsack.reports.telling import telling
from oatsack.values.menu import Portion
from oatsack.values.plan import Plan
from oatsack.web.changing import portion_at
from oatsack.web.menu_view import days
from support.sample_plan import sample_plan


def having(plan: Plan, *more: Portion) -> Plan:
    return replace(plan, menu=replace(plan.menu, portions=(*plan.menu.portions, *more)))


def texts(plan: Plan, day: int, meal: str, food: str) -> list[str]:
    """What a meal's row of one food says, share by share."""
    shown = days(telling(plan), ())[day - 1]
    lines = [line for m in shown.meals if m.key == meal for line in m.lines]
    return [share.text for line in lines for share in line.shares if f"/{food}" in share.place]


def test_what_is_counted_and_what_is_chosen_of_one_thing_are_one_number() -> None:
    plan = sample_plan(walkers=1)
    who = plan.trip.walkers[0].id
    counted = Portion(walker=who, day=2, meal="drinks", food="bar", doses=1.0, why="count")
    chosen = replace(counted, doses=2.0, why="chosen")
    for both in ((counted, chosen), (chosen, counted)):
        told = having(plan, *both)
        (said,) = texts(told, 2, "drinks", "bar")
        assert said == telling(told).portion(replace(chosen, doses=3.0))
        assert portion_at(told, f"{who}/2/drinks/bar").why == "chosen", "that can be changed"


def test_two_open_bags_of_one_food_are_named_once_and_a_helping_beside_them_too() -> None:
    plan = sample_plan(walkers=1)
    who = plan.trip.walkers[0].id
    bag = Portion(walker=who, day=2, meal="drinks", food="bar", doses=1.0, why="bag")
    assert len(texts(having(plan, bag, bag), 2, "drinks", "bar")) == 1
    helping = replace(bag, why="chosen")
    assert len(texts(having(plan, bag, helping, bag), 2, "drinks", "bar")) == 2


def test_two_walkers_keep_a_share_each() -> None:
    plan = sample_plan(walkers=2)
    first, second = (w.id for w in plan.trip.walkers)
    mine = Portion(walker=first, day=2, meal="drinks", food="bar", doses=1.0, why="chosen")
    found = texts(having(plan, mine, replace(mine, walker=second)), 2, "drinks", "bar")
    assert len(found) == len(set(found)) == 2
