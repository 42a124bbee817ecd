"""The prepared answer to being late."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.packing.late import day_equivalents, fuel_g, late_plans, left_kcal
from oatsack.values.kitchen import FuelPlan
from oatsack.values.menu import Menu
from support.packs import LARDER, days_of, eat, food, gas, usual_menu

THOUSAND = food("k", 1000.0, dose_g=100.0, pack_g=100.0, doses_per_pack=1.0)
FOODS = {"k": THOUSAND}


def even(walker: str, days: list[float], spare: float = 0.0) -> Menu:
    """Thousands of kcal by day, and spare."""
    return Menu(
        portions=tuple(eat(walker, d, "dinner", "k", n) for d, n in enumerate(days, 1)),
        spare=(eat(walker, 0, "move", "k", spare),) if spare else (),
    )


def test_fern_ford_one_day_late_on_the_third_evening() -> None:
    """Common practice: 9,800 kcal left, spare included, for 2.7 day-equivalents of 5,100 for two
    is 70 per cent of the plan, about 2,100 and 1,500; gas 124 g left, 102 needed."""
    target = {w: {1: n, 2: n, 3: n, 4: n, 5: 0.7 * n} for w, n in (("m", 3000.0), ("w", 2100.0))}
    spare = 9800.0 - 1.7 * 5100.0
    menu = Menu(
        portions=tuple(eat(w, d, "dinner", "k", kcal / 1000.0)
                       for w, of in target.items() for d, kcal in of.items()),
        spare=(eat("m", 0, "move", "k", 0.6 * spare / 1000.0),
               eat("w", 0, "move", "k", 0.4 * spare / 1000.0)),
    )  # fmt: skip
    fuel = FuelPlan(
        kind="gas", by_day_g={"1": 34.0, "2": 36.0, "3": 36.0, "4": 36.0, "5": 30.0},
        burnt_g=172.0, reserve_g=18.0, need_g=190.0, carried_g=230.0,
    )  # fmt: skip
    one = late_plans(menu, FOODS, target, fuel, days_of(5))[0]
    assert one.days == 1
    assert sum(one.left_kcal.values()) == pytest.approx(9800.0)
    assert one.share["m"] == pytest.approx(0.70, abs=0.02)
    assert one.kcal_day["m"] == pytest.approx(2100.0, rel=0.03)
    assert one.kcal_day["w"] == pytest.approx(1500.0, rel=0.03)
    assert one.fuel_left_g == pytest.approx(124.0)
    assert one.fuel_needed_g == pytest.approx(102.0)


def test_the_share_falls_with_every_day_more() -> None:
    plans = late_plans(even("a", [3.0] * 6), FOODS, {"a": dict.fromkeys(range(1, 7), 3000.0)},
                       None, days_of(6))  # fmt: skip
    assert [p.days for p in plans] == [1, 2, 3]
    assert [round(p.share["a"], 3) for p in plans] == [0.75, 0.6, 0.5]


def test_it_is_noticed_half_way_unless_said_otherwise() -> None:
    target = {"a": dict.fromkeys(range(1, 8), 1000.0)}
    menu = even("a", [1.0] * 7)
    assert late_plans(menu, FOODS, target, None, days_of(7))[0].left_kcal["a"] == 3000.0
    early = late_plans(menu, FOODS, target, None, days_of(7), notice_day=1)[0]
    assert early.left_kcal["a"] == 6000.0
    assert early.share["a"] == pytest.approx(6.0 / 7.0)


def test_spare_food_counts_as_left() -> None:
    menu = even("a", [2.0] * 4, spare=1.0)
    assert left_kcal(menu, FOODS, "a", 2, 4) == pytest.approx(5000.0)
    assert left_kcal(menu, FOODS, "b", 2, 4) == 0.0


def test_plenty_of_spare_is_a_full_share_and_not_more() -> None:
    plan = late_plans(even("a", [1.0] * 4, spare=20.0), FOODS,
                      {"a": dict.fromkeys(range(1, 5), 1000.0)}, None, days_of(4))[0]  # fmt: skip
    assert (plan.share["a"], plan.kcal_day["a"]) == (1.0, 1000.0)


def test_part_days_count_as_parts() -> None:
    assert day_equivalents({1: 500.0, 2: 1000.0, 3: 700.0}, 1, 3) == pytest.approx(1.7)
    assert day_equivalents({}, 0, 3) == 0.0


def test_shares_are_of_each_walkers_own_number() -> None:
    target = {"a": dict.fromkeys(range(1, 5), 3000.0), "b": dict.fromkeys(range(1, 5), 1500.0)}
    menu = Menu(portions=even("a", [3.0] * 4).portions + even("b", [1.5] * 4).portions)
    plan = late_plans(menu, FOODS, target, None, days_of(4))[0]
    assert plan.share["a"] == pytest.approx(plan.share["b"])
    assert plan.kcal_day["a"] == pytest.approx(2 * plan.kcal_day["b"])


def test_fuel_for_days_more_is_that_of_the_thirstiest_day() -> None:
    left, needed = fuel_g(gas(), 3, 5, 2)
    assert left == pytest.approx(230.0 - 60.0)
    assert needed == pytest.approx(2 * 20.0 + 2 * 20.0)
    assert fuel_g(None, 3, 5, 2) == (0.0, 0.0)


def test_on_a_long_walk_the_late_plan_is_that_of_the_longest_leg() -> None:
    target = {"a": dict.fromkeys(range(1, 9), 1000.0)}
    plan = late_plans(even("a", [1.0] * 8), FOODS, target, None, days_of(8, (2, 6)))[0]
    assert plan.left_kcal["a"] == pytest.approx(3000.0)


def test_a_real_menu_gives_three_plans_for_every_walker() -> None:
    menu = usual_menu(["a", "b"], 5)
    target = {w: dict.fromkeys(range(1, 6), 2000.0) for w in ("a", "b")}
    plans = late_plans(menu, LARDER, target, gas(), days_of(5))
    assert len(plans) == 3
    assert all(set(p.share) == set(p.kcal_day) == set(p.left_kcal) == {"a", "b"} for p in plans)
    assert all(0.0 < p.share["a"] <= 1.0 for p in plans)
    bare = late_plans(replace(menu, spare=()), LARDER, target, gas(), days_of(5))
    assert all(x.share["a"] <= y.share["a"] for x, y in zip(bare, plans, strict=True))
