"""Ten menus on one matrix, leg by leg; the dial from one menu outward: true gaps, little work."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.errors import NoPlan
from oatsack.menu import legs
from oatsack.menu.along import SHARES, along_the_dial, at_share
from oatsack.menu.by_leg import parted
from oatsack.menu.choose import choose
from oatsack.menu.frontier import WEIGHTS, Point, frontier, point_of
from oatsack.menu.problem import build
from oatsack.solve.highs import solve
from oatsack.values.food import Stock
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.problem import Work
from oatsack.values.trip import Rules
from support.menu_checker import faults_of
from support.menus import boiled, food, request, tiny

pytestmark = pytest.mark.slow

LARDER = (
    *(food(f"dinner-{i}", role="main", meals="dinner", category="meal", dose_g=100 + 5 * i,
           kcal=450, prep=boiled(), price=3.0 + i, liking=1.0 + i) for i in range(4)),
    *(food(f"breakfast-{i}", role="main", meals="breakfast", category="breakfast", dose_g=80,
           price=1.0 + i) for i in range(2)),
    *(food(f"bar-{i}", meals="lunch move", dose_g=25 + 5 * i, kcal=420 + 20 * i, price=1.0 + i,
           taste="salty" if i % 2 else "sweet", liking=2.0 + 0.7 * i) for i in range(4)),
)  # fmt: skip


def asking(**more: object) -> MenuRequest:
    return request(LARDER, hot_drinks={}, need=1900.0, **more)  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def asked() -> MenuRequest:
    return asking(count=3)


@pytest.fixture(scope="module")
def known(asked: MenuRequest) -> Menu:
    return choose(asked, solve)


def weighted(asked: MenuRequest, name: str) -> MenuRequest:
    load, liking, money = next(of for known, *of in WEIGHTS if known == name)
    rules = replace(asked.rules, weight_kgdays=load, weight_liking=liking, weight_price=money)
    return replace(asked, rules=rules)


def test_every_point_keeps_every_rule_and_its_gap_is_true(asked: MenuRequest, known: Menu) -> None:
    wrong = []
    for point in frontier(asked, solve, known=known):
        own = weighted(asked, point.name)
        best = solve(build(own)[1], Work(nodes=400, gap_rel=0.002, seconds=60.0))
        within = point.menu.bound <= best.aim + 1e-6 and point.menu.aim >= best.bound - 1e-6
        if faults_of(own, point.menu) or not within:
            wrong.append((point.name, point.menu.bound, best.aim, best.bound, point.menu.aim))
    assert wrong == []


def test_who_has_seen_enough_keeps_what_is_there(asked: MenuRequest, known: Menu) -> None:
    seen: list[str] = []

    def enough(point: Point) -> bool:
        seen.append(point.name)
        return len(seen) < 3

    found = frontier(asked, solve, known=known, seen=enough)
    assert [p.name for p in found] == seen == [name for name, *_ in WEIGHTS[:3]]
    turned: list[str] = []
    dial = along_the_dial(asked, solve, known=known, seen=lambda p: bool(turned.append(p.name)))
    assert [p.name for p in dial] == turned == ["100%"]


def test_aims_in_order_and_an_earlier_menu_are_left_aside(asked: MenuRequest, known: Menu) -> None:
    bent = replace(asked, aims=("price", "kg-days"), near=known)
    plain, other = (frontier(a, solve, known=known) for a in (asked, bent))
    assert [p.menu.portions for p in plain] == [p.menu.portions for p in other]


def test_what_cannot_be_planned_is_refused_with_reasons() -> None:
    poor = asking(count=2, rules=Rules(budget=1.0))
    for make in (frontier, along_the_dial):
        with pytest.raises(NoPlan) as refused:
            make(poor, solve)
        assert any("packs" in reason for reason in refused.value.reasons)


def test_legs_alike_are_asked_once_and_joined_on_their_own_days() -> None:
    walk = asking(count=4, legs=(1, 1, 2, 2))
    menu = choose(walk, solve)
    found = parted(walk, menu)
    assert len(found.places) == 2
    joined = found.joined([part for _, part in found.asked])
    if len(found.asked) == 1:
        assert [later for _, later in found.places] == [0, 2]
    assert {p.day for p in joined.portions} == {1, 2, 3, 4}
    assert faults_of(walk, joined) == []
    assert joined.spare == menu.spare


def test_stock_eaten_on_one_leg_is_gone_on_the_next() -> None:
    home = replace(LARDER[0], stock=Stock(packs=1.0))
    walk = replace(asking(count=4, legs=(1, 1, 2, 2)), foods=(home, *LARDER[1:]))
    menu = choose(walk, solve)
    taken = legs.stock_used(walk, legs.part_of(menu, {1, 2}))
    left = {f.id: f.home_packs for f in parted(walk, menu).asked[-1][0].foods}
    if taken.get(home.id):
        assert left[home.id] == pytest.approx(1.0 - taken[home.id])


def test_points_of_legs_are_sums_over_the_legs() -> None:
    walk = asking(count=4, legs=(1, 1, 2, 2))
    for point in frontier(walk, solve, seen=lambda p: p.name != "light"):
        assert {p.day for p in point.menu.portions} == {1, 2, 3, 4}
        assert faults_of(weighted(walk, point.name), point.menu) == []
        assert 0.0 < point.menu.bound <= point.menu.aim


def test_money_shared_by_legs_keeps_them_one_question() -> None:
    walk = asking(count=4, legs=(1, 1, 2, 2), rules=Rules(budget=200.0))
    menu = choose(walk, solve)
    assert len(parted(walk, menu).asked) == 1


def dinners(menu: Menu) -> set[tuple[str, int, str]]:
    return {(p.walker, p.day, p.food) for p in menu.portions
            if p.meal == "dinner" and p.food.startswith("dinner")}  # fmt: skip


def test_the_dial_goes_from_little_to_much_within_true_gaps(
    asked: MenuRequest, known: Menu
) -> None:
    found = along_the_dial(asked, solve, known=known)
    assert [p.name for p in found] == [f"{share:.0%}" for share in SHARES]
    assert [p.energy_kcal for p in found] == sorted(p.energy_kcal for p in found)
    assert [p.mass_g for p in found] == sorted(p.mass_g for p in found)
    wrong = []
    for point, share in zip(found, SHARES, strict=True):
        to = at_share(asked, share)
        best = solve(build(to)[1], Work(nodes=400, gap_rel=0.002, seconds=60.0))
        if faults_of(to, point.menu) or point.menu.bound > best.aim + 1e-6:
            wrong.append((point.name, point.menu.bound, best.aim))
    assert wrong == []


def test_a_turn_that_whole_things_meet_leaves_the_dinners(asked: MenuRequest, known: Menu) -> None:
    found = {p.name: p.menu for p in along_the_dial(asked, solve, (0.9, 1.0, 1.1), known=known)}
    assert dinners(found["100%"]) == dinners(known)
    stayed = [name for name, menu in found.items() if dinners(menu) == dinners(known)]
    assert len(stayed) >= 2, stayed


def test_a_place_of_the_dial_with_no_menu_is_left_out() -> None:
    asked = next(a for a in (tiny(seed) for seed in range(30)) if _fits(a) and not _fits(a, 4.0))
    assert [p.name for p in along_the_dial(asked, solve, (1.0, 4.0))] == ["100%"]


def _fits(asked: MenuRequest, share: float = 1.0) -> bool:
    return solve(build(at_share(asked, share))[1], Work()).x is not None


def test_a_point_is_judged_by_all_that_is_eaten(asked: MenuRequest, known: Menu) -> None:
    rows = {f.id: f for f in asked.foods}
    point = point_of("usual", asked, known)
    by_hand = sum(p.doses * (rows[p.food].dose_g + rows[p.food].dose_wrap_g)
                  for p in known.portions)  # fmt: skip
    assert point.mass_g == pytest.approx(by_hand)
    assert 1.0 <= point.liking <= 5.0
