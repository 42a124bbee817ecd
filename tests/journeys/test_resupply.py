"""A walk with a box, a shop and a dinner in town, from its trip file to its papers and numbers."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from oatsack.desk.home import Home
from oatsack.desk.opening import open_trip
from oatsack.desk.planning import make_plan
from oatsack.desk.reserving import release, reserve
from oatsack.files.planfile import dump, load
from oatsack.reports import render
from oatsack.values.plan import Plan
from oatsack.why import evaluate, leaves, why
from oatsack.why.functions import Remembered
from support.plans import TODAY, judged

pytestmark = pytest.mark.slow

TRIP = """\
title = "Mill to Moor"
from = "2026-07-03 10:00"
to = "2026-07-08 15:00"
zone = "Europe/Vienna"
[[walkers]]
name = "Anna"
mass = "62 kg"
target = "2300 kcal"
usual = { lunch = ["cheddar"], dinner = ["fd-mac-cheese"] }
[route]
days = [
  { distance = "12 km", up = "500 m", camp = "Alder Ford" },
  { distance = "15 km", up = "600 m", camp = "Birch Ford" },
  { distance = "14 km", up = "500 m", camp = "Cold Well" },
  { distance = "16 km", up = "700 m", camp = "Mill Town" },
  { distance = "15 km", up = "500 m", camp = "Dale Head" },
  { distance = "9 km", up = "200 m" },
]
[larder]
stock = "home.csv"
[[places]]
name = "birch ford"
fastest = 2
slowest = 5
late = 2
checked = "2026-05-04"
[[places]]
name = "Mill Town"
kind = "shop"
sells = ["village", "kiosk"]
open = ["mon", "tue", "wed", "thu", "fri", "sat"]
town = "dinner"
checked = "2026-05-04"
"""
STOCK = "food,packs,best_before\nfd-mac-cheese,2,2026-07-04\nfd-mac-cheese,1,2027-01-01\n"


@pytest.fixture(scope="module")
def walk(tmp_path_factory: pytest.TempPathFactory) -> tuple[Plan, Path]:
    folder = tmp_path_factory.mktemp("walk")
    (folder / "trip.toml").write_text(TRIP, encoding="utf-8")
    (folder / "home.csv").write_text(STOCK, encoding="utf-8")
    return judged(make_plan(open_trip(folder / "trip.toml"), today=TODAY)), folder


def test_the_plan_knows_its_places_and_comes_back_from_its_file(walk: tuple[Plan, Path]) -> None:
    plan, _ = walk
    assert [(p.name, p.leg, p.day) for p in plan.trip.places] == [
        ("Birch Ford", 2, 2), ("Mill Town", 3, 4),
    ]  # fmt: skip
    assert dump(load(dump(plan))) == dump(plan)
    assert [(b.place, b.kind) for b in plan.packed.boxes] == [
        ("Birch Ford", "box"), ("Mill Town", "shop"),
    ]  # fmt: skip


def test_the_dinner_in_town_is_no_meal_of_ours_and_lightens_the_day(
    walk: tuple[Plan, Path],
) -> None:
    plan, _ = walk
    assert not [s for s in plan.slots if (s.day, s.meal) == (4, "dinner")]
    assert plan.chosen["anna"].town == {"4": pytest.approx(0.3 * 2300.0)}
    assert plan.target["anna"]["4"] == pytest.approx(0.7 * 2300.0)
    eaten = sum(hour.eaten_kcal for hour in plan.timeline["anna"] if hour.day == 4)
    assert eaten == pytest.approx(plan.eaten["anna"]["4"].energy_kcal + 690.0, abs=1.0)


def test_every_number_of_it_opens_and_is_counted_again(walk: tuple[Plan, Path]) -> None:
    plan, _ = walk
    functions = Remembered().functions()
    wrong = [
        address for address, value in leaves(plan)
        if not math.isclose(evaluate(why(plan, address), functions), value,
                            rel_tol=1e-9, abs_tol=1e-9)
    ]  # fmt: skip
    assert wrong == []
    assert "town_kcal" in why(plan, "target/anna/4").formula
    assert "town_kcal" not in why(plan, "target/anna/3").formula


def test_lots_feed_the_days_up_to_their_dates(walk: tuple[Plan, Path]) -> None:
    """Two packs end on the second day, one lasts: of what is eaten, home covers exactly those."""
    plan, _ = walk
    food = plan.foods["fd-mac-cheese"]
    rows = [p for p in plan.menu.portions if p.food == food.id]
    early = sum(p.doses for p in rows if p.day <= 2) / food.doses_per_pack
    late = sum(p.doses for p in rows if p.day > 2) / food.doses_per_pack
    home = sum(b.from_home_g for b in plan.packed.buy if b.food == food.id) / food.pack_g
    assert home == pytest.approx(min(2.0, early) + min(1.0, late))
    assert len(food.lots) == 2


def test_nothing_is_eaten_from_a_pack_open_too_long(walk: tuple[Plan, Path]) -> None:
    plan, _ = walk
    bags = [b for b in plan.packed.bags if any(i.food == "cheddar" for i in b.items)]
    assert bags
    assert all(b.eat_by_day is None or b.empty_day <= b.eat_by_day for b in bags)


def test_papers_name_the_place_the_window_and_the_dinner(walk: tuple[Plan, Path]) -> None:
    plan, _ = walk
    boxes = " ".join(render(plan, "boxes", "text", width=200).decode().split())
    assert "Birch Ford, box 1 of 1" in boxes
    assert "Mill Town (bought there)" in boxes
    assert "dinner in Mill Town, about 690 kcal" in " ".join(
        render(plan, "menu", "text", width=200).decode().split()
    )
    shopping = render(plan, "shopping", "text", width=200).decode()
    assert "on the way" in shopping


def test_packing_reserves_and_cancelling_releases(walk: tuple[Plan, Path]) -> None:
    plan, folder = walk
    home = Home(plan, folder / "plan" / "plan.json")
    rows = reserve(home)
    assert {r.trip for r in rows} == {"trip.toml"}
    (folder / "other.toml").write_text(TRIP, encoding="utf-8")

    def at_home() -> float:
        foods = open_trip(folder / "other.toml").foods
        return next(f.home_packs for f in foods if f.id == "fd-mac-cheese")

    taken = sum(r.packs for r in rows if r.food == "fd-mac-cheese")
    assert at_home() == pytest.approx(3.0 - taken)
    assert release(home) == rows
    assert at_home() == 3.0


def test_a_budget_holds_for_what_is_bought_on_the_way_as_well(tmp_path: Path) -> None:
    """Packs bought at a shop of the walk are packs of their own, and no stock lies there: a menu
    that shared them with what leaves home would cost more than it was counted for."""
    (tmp_path / "home.csv").write_text(STOCK, encoding="utf-8")
    free = _with_budget(tmp_path, None)
    assert free.totals.price is not None
    price = free.totals.price
    for budget in (round(0.97 * price, 2), round(0.92 * price, 2)):
        plan = _with_budget(tmp_path, budget)
        spent = sum(line.price or 0.0 for line in plan.packed.buy)
        assert spent <= budget + 0.005, budget
        assert {line.leg for line in plan.packed.buy} == {1, 3}
        home = {line.food: line.from_home_g for line in plan.packed.buy if line.from_home_g}
        mac = plan.foods["fd-mac-cheese"]
        assert home.get(mac.id, 0.0) <= 3.0 * mac.pack_g
        assert all(line.leg == 1 for line in plan.packed.buy if line.from_home_g)


def _with_budget(folder: Path, budget: float | None) -> Plan:
    rules = "" if budget is None else f'[rules]\nbudget = "{budget} EUR"\n'
    (folder / "trip.toml").write_text(TRIP + rules, encoding="utf-8")
    return judged(make_plan(open_trip(folder / "trip.toml"), today=TODAY))
