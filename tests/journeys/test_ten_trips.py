"""The acceptance trips: counts exact, energy and masses within the stated spread.

Source of the expected figures: common practice, hand sums on practice values; masses, fuel and
energy are taken within 15 % unless said, counts exactly.
"""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import pytest

from oatsack.reports import render
from oatsack.values.plan import Plan
from support.plans import plan_named

pytestmark = pytest.mark.slow
WITHIN = 0.15


def meals(plan: Plan, walker: str) -> Counter[str]:
    return Counter(slot.meal for slot in plan.slots if slot.walker == walker)


def planned_g(plan: Plan) -> float:
    """Packed mass without spare food [g]."""
    return sum(b.gross_g for b in plan.packed.bags if b.label != "spare")


def boiled_l(plan: Plan) -> float:
    return sum(m.boiled_ml for m in plan.kitchen.meals) / 1000.0


def full_need(plan: Plan, walker: str) -> float:
    return max(day.energy_kcal for day in plan.need[walker].values())


def about(value: float, low: float, high: float | None = None) -> bool:
    """Within 15 % of a figure or of a span of figures."""
    return low * (1 - WITHIN) <= value <= (high or low) * (1 + WITHIN)


ALL = ("wren_hollow", "larkmoor", "stone_kettle", "saltback", "whitepass", "otter_flats",
       "bramble_bowl")  # fmt: skip


@pytest.mark.parametrize("name", ALL)
def test_the_first_screen_has_at_most_thirty_lines(name: str) -> None:
    text = render(plan_named(name), "first", "terminal", width=80).decode("utf-8")
    assert len(text.strip("\n").splitlines()) <= 30


@pytest.mark.parametrize("name", ALL)
def test_late_plans_are_shares_of_the_walkers_own_number(name: str) -> None:
    plan = plan_named(name)
    assert [late.days for late in plan.late] == [1, 2, 3]
    for late in plan.late:
        for walker, share in late.share.items():
            full = max(plan.target[walker].values())
            assert late.kcal_day[walker] == pytest.approx(share * full)
            assert 0.0 < share <= 1.0


MASSES = {
    "wren_hollow": (950, 1100), "stone_kettle": (5400, 6000), "saltback": (1450, 1650),
    "whitepass": (3000, 3300), "otter_flats": (3300, 3600), "bramble_bowl": (3900, 4200),
}  # fmt: skip
"""Packed food without the spare [g] (common practice, hand sums)."""
LEGS_KG = (3.3, 4.7, 3.7, 4.8, 3.0)
"""Food carried on each leg of the long walk [kg] (common practice, level 0.72 kg with a ramp)."""


def test_the_food_weighs_what_practice_says() -> None:
    found = {name: planned_g(plan_named(name)) for name in MASSES}
    assert {name: g for name, g in found.items() if not about(g, *MASSES[name])} == {}


def test_a_default_menu_is_no_bag_of_fat_and_its_breakfasts_and_dinners_are_hot() -> None:
    wrong = []
    for name in ("wren_hollow", "stone_kettle", "whitepass", "bramble_bowl"):
        plan = plan_named(name)
        if not 0.30 <= plan.totals.fat_share <= 0.41:
            wrong.append((name, "fat", plan.totals.fat_share))
        mains = [p for p in plan.menu.portions if plan.foods[p.food].role == "main"]
        cold = [p for p in mains if p.meal in ("breakfast", "dinner")
                and plan.foods[p.food].prep.kind not in ("boil", "simmer")]  # fmt: skip
        wrong += [(name, "cold", p.food) for p in cold]
    assert wrong == []


def test_the_legs_of_the_long_walk_weigh_what_practice_says() -> None:
    plan = plan_named("long_ridge_way")
    legs = {day.number: day.leg for day in plan.days}
    grams = Counter[int]()
    for p in plan.menu.portions:
        grams[legs[p.day]] += round(p.doses * plan.foods[p.food].dose_g)
    found = {leg: grams[leg] / 1000.0 for leg in range(1, 6)}
    assert {leg: kg for leg, kg in found.items() if not about(kg, LEGS_KG[leg - 1])} == {}


def test_wren_hollow() -> None:
    plan = plan_named("wren_hollow")
    assert meals(plan, "una")["dinner"] == 2
    assert meals(plan, "una")["breakfast"] == 2
    assert meals(plan, "una")["lunch"] == 2
    assert about(full_need(plan, "una"), 2750)
    assert about(plan.totals.energy_kcal, 3950)
    assert about(planned_g(plan), 950, 1100)
    assert plan.kitchen.fuel is not None
    assert plan.kitchen.fuel.need_g <= 60.0, "a can with 60 g left is enough"


def test_larkmoor_has_nothing_loud_and_keeps_the_favourites() -> None:
    plan = plan_named("larkmoor")
    loud = [flag.key for flag in plan.flags if flag.level == "block"]
    assert loud == []
    lunches = {p.food for p in plan.menu.portions if p.meal == "lunch" and p.why == "usual"}
    assert lunches == {"energy-bar"}
    dinners = [p.food for p in plan.menu.portions if p.meal == "dinner" and p.why == "usual"]
    assert set(dinners) == {"fd-chili-beans", "fd-beef-stew"}
    assert all(a != b for a, b in pairwise(dinners))


def test_stone_kettle_feeds_two_hungers() -> None:
    plan = plan_named("stone_kettle")
    assert about(full_need(plan, "bram"), 4050)
    assert about(full_need(plan, "ilse"), 2800)
    assert about(plan.totals.energy_kcal, 23_000)
    by_walker = {s.walker: s.kg_days for s in plan.packed.sacks}
    assert 0.5 <= by_walker["bram"] / sum(by_walker.values()) <= 0.7
    meat = {f.id for f in plan.foods.values() if f.diet not in ("vegan", "vegetarian")}
    assert not [p for p in plan.menu.portions if p.walker == "ilse" and p.food in meat]


def test_saltback_needs_no_flame() -> None:
    plan = plan_named("saltback")
    assert boiled_l(plan) == 0.0
    assert about(plan.totals.energy_kcal, 5900)
    assert not any(plan.foods[p.food].keep.melts for p in plan.menu.portions)
    carry = max(c.carry_ml for c in plan.kitchen.carries)
    assert about(carry, 5500, 6500)


def test_whitepass_melts_its_water() -> None:
    plan = plan_named("whitepass")
    assert about(plan.totals.energy_kcal, 12_400)
    assert about(full_need(plan, "egil"), 4350)


def test_otter_flats_feeds_the_child_by_the_norm_without_a_deficit_line() -> None:
    plan = plan_named("otter_flats")
    assert about(full_need(plan, "pip"), 1900)
    assert "pip" not in plan.consequence
    shortfall = [f for f in plan.flags if f.key == "body.shortfall" and f.scope.endswith("pip")]
    assert shortfall == []
    assert about(plan.totals.energy_kcal, 13_600)


def test_bramble_bowl_closes_on_the_first_night() -> None:
    plan = plan_named("bramble_bowl")
    assert meals(plan, "rafe")["dinner"] == 5
    assert meals(plan, "rafe")["breakfast"] == 5
    assert about(plan.totals.energy_kcal, 15_800)
    assert plan.packed.nights[0].verdict in ("closes", "likely")


def test_three_tarns_counts_eighty_four_of_each() -> None:
    plan = plan_named("three_tarns")
    counts = Counter(slot.meal for slot in plan.slots)
    assert (counts["dinner"], counts["breakfast"], counts["lunch"]) == (84, 84, 84)


def test_long_ridge_way_grows_with_the_appetite() -> None:
    plan = plan_named("long_ridge_way")
    legs = {day.number: day.leg for day in plan.days}
    first, last = ([d for d, leg in legs.items() if leg == which] for which in (1, 5))
    per_day = {
        which: sum(plan.target["ash"][str(d)] for d in days) / len(days)
        for which, days in (("first", first), ("last", last))
    }
    assert per_day["last"] > 1.05 * per_day["first"]
    assert {sack.leg for sack in plan.packed.sacks} == {1, 2, 3, 4, 5}
