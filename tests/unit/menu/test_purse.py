"""One budget over many legs: kept by the packs of the whole walk, and never proven falsely."""

from __future__ import annotations

import datetime as dt
import math
from collections import Counter
from dataclasses import replace
from typing import Any

import pytest

from oatsack.errors import NoPlan
from oatsack.menu import purse
from oatsack.menu.choose import choose
from oatsack.solve.highs import solve
from oatsack.values.food import Food, Stock
from oatsack.values.menu import Menu, MenuRequest, Portion
from oatsack.values.trip import Rules
from support.menu_checker import faults_of
from support.menus import START, food, request, retarget

FOODS = (
    food("stew", role="main", meals="dinner", category="meal", dose_g=100, price=9.0, doses=1.0,
         liking=5.0),
    food("dal", role="main", meals="dinner", category="meal", dose_g=125, kcal=360, price=3.0,
         doses=1.0, liking=2.0, every_day_fine=True),
    food("bar", meals="lunch", dose_g=50, kcal=450, price=4.0, doses=1.0, liking=5.0),
    food("crackers", meals="lunch", dose_g=60, kcal=420, price=6.0, doses=10.0, liking=2.0,
         taste="salty", every_day_fine=True),
)  # fmt: skip
LEGS = (1, 1, 2, 2, 3, 3)


def asking(budget: float | None, foods: tuple[Food, ...] = FOODS) -> MenuRequest:
    one = request(foods, keep="lunch dinner", count=6, legs=LEGS, rules=Rules(budget=budget))
    return retarget(one, 690.0)


def spent(asked: MenuRequest, menu: Menu) -> float:
    """By hand: packs opened over the whole walk, those of the spare food too, at their price."""
    foods = {f.id: f for f in asked.foods}
    doses = Counter[str]()
    for p in (*menu.portions, *menu.spare):
        doses[p.food] += p.doses  # type: ignore[assignment]
    return sum(
        math.ceil(n / foods[f].doses_per_pack - 1e-9) * (foods[f].price or 0.0)
        for f, n in doses.items()
    )


def cheap_and_dear() -> tuple[float, float]:
    """What the walk costs when money counts for all, and when it counts as usual."""
    usual = choose(asking(None), solve)
    rules = Rules(weight_price=500.0)
    cheap = choose(replace(asking(None), rules=rules), solve)
    return spent(asking(None), cheap), spent(asking(None), usual)


@pytest.fixture(autouse=True)
def _legs_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(purse, "TOGETHER", 0)


def test_the_packs_of_the_whole_walk_keep_the_budget() -> None:
    low, high = cheap_and_dear()
    assert low < high - 6.0, "the budgets below would ask nothing"
    for share in (0.0, 0.4, 0.8, 1.0):
        asked = asking(low + share * (high - low))
        menu = choose(asked, solve)
        assert faults_of(asked, menu) == [], share
        assert spent(asked, menu) <= (asked.rules.budget or 0.0) + 1e-9, share
        assert purse.packs_cost(asked, menu) == pytest.approx(spent(asked, menu)), share


def test_a_budget_that_asks_nothing_leaves_the_legs_as_they_were() -> None:
    free, rich = choose(asking(None), solve), choose(asking(500.0), solve)
    assert rich.portions == free.portions
    assert rich.aim == pytest.approx(free.aim)
    assert rich.bound == pytest.approx(free.bound)


def test_a_smaller_budget_never_gives_a_better_aim_nor_less_of_a_bound() -> None:
    low, high = cheap_and_dear()
    menus = [choose(asking(low + share * (high - low)), solve) for share in (1.0, 0.5, 0.0)]
    aims = [m.aim for m in menus]
    assert aims == sorted(aims)
    for menu in menus:
        assert menu.bound <= menu.aim + 1e-9


def test_the_bound_holds_for_the_walk_solved_as_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """As one, packs are shared between the legs, and money still counts by whole packs."""
    low, high = cheap_and_dear()
    asked = asking(low + 0.5 * (high - low))
    apart = choose(asked, solve)
    monkeypatch.setattr(purse, "TOGETHER", 99)
    as_one = choose(replace(asked, budget_work=4), solve)
    assert faults_of(asked, as_one) == []
    assert apart.bound <= as_one.aim + 1e-6 * abs(as_one.aim)


def test_what_no_walk_of_these_foods_costs_is_refused_with_what_would_do() -> None:
    low, _ = cheap_and_dear()
    with pytest.raises(NoPlan) as caught:
        choose(asking(low / 2.0), solve)
    clash, way = caught.value.flags
    assert clash.key == "no-plan.packs-over"
    assert clash.values["over_money"] == pytest.approx(low / 2.0)
    assert way.key == "way-out.budget"
    enough = asking(float(way.values["budget_money"]))
    assert faults_of(enough, choose(enough, solve)) == []


def test_packs_at_home_cost_nothing() -> None:
    menu = choose(asking(None), solve)
    eaten = Counter[str]()
    for p in (*menu.portions, *menu.spare):
        eaten[p.food] += p.doses  # type: ignore[assignment]
    name = max(eaten)
    foods = tuple(replace(f, stock=Stock(packs=99.0)) if f.id == name else f for f in FOODS)
    with_stock = purse.packs_cost(asking(None, foods), menu)
    row = next(f for f in FOODS if f.id == name)
    packs = math.ceil(eaten[name] / row.doses_per_pack)
    assert spent(asking(None), menu) - with_stock == pytest.approx(packs * (row.price or 0.0))


BAR = next(f for f in FOODS if f.id == "bar")


def bars(*doses: float, packs: float = 10.0, spare: float = 0.0) -> Menu:
    """So many bars at noon of each day; a pack holds `packs`."""
    portions = tuple(
        Portion(walker="anna", day=day, meal="lunch", food="bar", doses=n)
        for day, n in enumerate(doses, 1)
    )
    more = (Portion(walker="anna", day=0, meal="move", food="bar", doses=spare),)
    return Menu(portions=portions, spare=more if spare else ())


def costs(menu: Menu, shops: dict[int, frozenset[str]] | None = None, *lots: Stock,
          **more: Any) -> float:  # fmt: skip
    """What a walk of three legs of two days costs in bars of ten a pack, at 4.00 a pack."""
    ten = replace(BAR, doses_per_pack=10.0, pack_g=500.0, stock=lots[0] if lots else Stock(),
                  lots=lots[1:], shop="village", **more)  # fmt: skip
    return purse.packs_cost(replace(asking(None, (ten,)), shops=shops or {}), menu)  # type: ignore[arg-type]


def test_what_is_bought_on_the_way_is_a_heap_of_its_own() -> None:
    """By hand: twelve bars, four a leg. In one heap that is two packs; bought at the second leg's
    shop it is one pack there, and eight for the other legs from one pack that leaves home."""
    eaten = bars(2, 2, 2, 2, 2, 2)
    sells, other = frozenset({"village"}), frozenset({"kiosk"})
    assert costs(eaten) == 8.0
    assert costs(eaten, {2: sells}) == 8.0
    assert costs(eaten, {2: sells, 3: sells}) == 12.0
    assert costs(eaten, {2: frozenset(), 3: frozenset()}) == 12.0, "nobody said what it sells: all"
    assert costs(eaten, {2: other, 3: other}) == 8.0, "what a shop has not leaves home"
    assert costs(bars(2, 2, 2, 2, 2, 2, spare=7), {2: sells, 3: sells}) == 16.0


def test_stock_pays_for_what_leaves_home_up_to_its_date_in_whole_pieces() -> None:
    eaten, sells = bars(2, 2, 2, 2, 2, 2), frozenset({"village"})
    ends = START + dt.timedelta(days=2)
    told = {
        "all of it": costs(eaten, {}, Stock(packs=1.2)),
        "no shop takes stock": costs(eaten, {2: sells, 3: sells}, Stock(packs=9.0)),
        "three days of it, six bars": costs(eaten, {}, Stock(packs=1.0, best_before=ends)),
        "two lots, the later for what the sooner misses": costs(
            eaten, {}, Stock(packs=1.0, best_before=ends), Stock(packs=0.6)),
        "an opened pack is no bag": costs(eaten, {}, Stock(packs=1.9), carry="bag"),
        "and two are two": costs(bars(4, 4, 4, 4, 2, 2), {}, Stock(packs=2.0), carry="bag"),
        "pieces are whole": costs(eaten, {}, Stock(packs=1.19)),
        "what is repacked is not": costs(bars(2, 2, 2, 2, 2, 1.9), {}, Stock(packs=1.19),
                                         carry="repack"),
        "spare food lasts to the end": costs(
            bars(2, spare=2), {}, Stock(packs=1.0, best_before=ends)),
    }  # fmt: skip
    assert told == {
        "all of it": 0.0, "no shop takes stock": 8.0, "three days of it, six bars": 4.0,
        "two lots, the later for what the sooner misses": 0.0, "an opened pack is no bag": 4.0,
        "and two are two": 0.0, "pieces are whole": 4.0, "what is repacked is not": 0.0,
        "spare food lasts to the end": 4.0,
    }  # fmt: skip


def test_a_walk_that_buys_on_the_way_is_never_solved_as_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(purse, "TOGETHER", 99)
    assert not purse.apart(asking(50.0))
    assert purse.apart(replace(asking(50.0), shops={2: frozenset()}))


def test_few_days_are_solved_as_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(purse, "TOGETHER", 6)
    assert not purse.apart(asking(50.0))
    monkeypatch.setattr(purse, "TOGETHER", 5)
    assert purse.apart(asking(50.0))
