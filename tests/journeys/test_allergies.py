"""Allergens fail closed on every way food can enter a plan (C10, C11), and the picker hears it."""

from __future__ import annotations

import pytest

from oatsack.reports.words import say_flag
from oatsack.values.plan import Plan
from support.plans import plan_of

TRIP = """
title = "Nuts stay home"
from = 2026-07-02T09:00
to = 2026-07-04T15:00
[[walkers]]
name = "Zed"
mass = "70 kg"
avoids = [{{ allergen = "tree_nut", scope = "{scope}" }}]
[[walkers]]
name = "Wanda"
mass = "58 kg"
{usual}
[route]
usual_day = {{ distance = "14 km", up = "500 m" }}
{rules}
"""


def planned(scope: str, usual: str = "", rules: str = "") -> Plan:
    return plan_of(TRIP.format(scope=scope, usual=usual, rules=rules))


def eaters_of(plan: Plan, food: str) -> set[str]:
    rows = (*plan.menu.portions, *plan.menu.spare)
    return {p.walker for p in rows if p.food == food}


def nutty(plan: Plan, walker: str) -> set[str]:
    rows = (*plan.menu.portions, *plan.menu.spare)
    eaten = {p.food for p in rows if p.walker == walker}
    return {f for f in eaten if plan.foods[f].state("tree_nut") != "free"}


@pytest.mark.slow
@pytest.mark.parametrize(
    ("usual", "food"),
    [
        ('[walkers.usual]\nbags = ["almonds"]', "almonds"),
        ('[walkers.usual]\nlunch = ["1 almonds"]', "almonds"),
        ('[walkers.usual]\ncounts = ["1 almonds a day"]', "almonds"),
    ],
)
def test_a_pick_that_the_party_must_not_meet_is_refused_and_said(usual: str, food: str) -> None:
    plan = planned("party", usual)
    assert eaters_of(plan, food) == set()
    refused = [f for f in plan.flags if f.key == "menu.pick-refused" and f.values["food"] == food]
    assert refused
    assert refused[0].level == "caution"
    assert "?" not in say_flag(refused[0])


@pytest.mark.slow
def test_a_held_food_that_the_party_must_not_meet_is_refused_and_said() -> None:
    rules = '[rules]\nholds = [{ food = "almonds", walker = "Wanda", meal = "lunch", count = 1 }]'
    plan = planned("party", rules=rules)
    assert eaters_of(plan, "almonds") == set()
    assert any("hold" in f.key for f in plan.flags)


@pytest.mark.slow
def test_with_scope_party_nobody_meets_it() -> None:
    plan = planned("party")
    assert nutty(plan, "zed") == set()
    assert nutty(plan, "wanda") == set()


@pytest.mark.slow
def test_with_scope_plate_the_other_may_eat_it() -> None:
    plan = planned("plate", '[walkers.usual]\nbags = ["almonds"]')
    assert eaters_of(plan, "almonds") == {"wanda"}
    assert nutty(plan, "zed") == set()


@pytest.mark.slow
def test_with_scope_pot_nothing_of_it_is_cooked_or_repacked_for_anyone() -> None:
    plan = planned("pot")
    for p in plan.menu.portions:
        food = plan.foods[p.food]
        if food.prep.kind != "none" or food.carry == "repack":
            assert food.state("tree_nut") == "free", p
