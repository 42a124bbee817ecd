"""Random walks packed, and each packing judged: the judge's own checks over menus nobody made up.

The judge reads the packing as plan.json holds it, and counts every bag, sack, night, wrapper, loss
and bill again; here it meets legs, avoids, stock, pouches and ways of bagging in all mixtures.
"""

from __future__ import annotations

import datetime as dt
import json
from collections import defaultdict
from dataclasses import replace
from functools import cache
from random import Random
from typing import Any

import pytest

from judge.judge import bags_hold_the_menu, packs_are_bought_whole, sacks_hold_the_bags
from judge.packs import PACKS
from oatsack.files.planfile import dump
from oatsack.packing.pack import pack
from oatsack.values.food import Food, Keep, Pouch, Stock
from oatsack.values.kit import Container, Kit
from oatsack.values.kitchen import FuelPlan, KitchenLedger
from oatsack.values.menu import Menu, Pool, Portion
from oatsack.values.plan import Plan
from oatsack.values.trip import Rules
from oatsack.values.walker import Avoid
from support.amount import some
from support.each import each
from support.packs import BEGIN, LARDER, days_of, eat, people, trip_for
from support.sample_plan import sample_plan

MEALS = {
    "oats": "breakfast", "lentils": "dinner", "sauce": "dinner", "oil": "dinner",
    "cheese": "lunch", "bar": "move", "coffee": "drinks", "tablet": "move", "stew": "dinner",
}  # fmt: skip
POUCH = Pouch(stands=True, closes=True, holds_ml=600.0, flat_ml=200.0, puffed_ml=700.0)
STEW = replace(LARDER["lentils"], id="stew", name="stew", carry="sealed", pack_g=100.0,
               doses_per_pack=2.0, dose_g=50.0, pack_ml=260.0, pouch=POUCH, wrap_g=20.0,
               prep=replace(LARDER["lentils"].prep, from_bag=True))  # fmt: skip
CHECKS = (*PACKS, bags_hold_the_menu, sacks_hold_the_bags, packs_are_bought_whole)


def dealt_larder(dice: Random) -> dict[str, Food]:
    """The foods of the tests with days they keep, allergens, blanks and stock dealt out."""
    out = {}
    for name, row in {**LARDER, "stew": STEW}.items():
        keep = Keep(warm_days=dice.choice([None, 3.0, 9.0]),
                    opened_days=dice.choice([None, 0.5, 4.0]))  # fmt: skip
        milk = dice.choice(["free", "may", "contains", "unknown"])
        allergens = {**row.allergens, "milk": milk}
        if milk == "unknown":
            del allergens["milk"]
        stock = Stock(packs=float(dice.randint(0, 2)),
                      best_before=BEGIN + dt.timedelta(days=dice.randint(0, 9)))  # fmt: skip
        wrap = dice.choice([row.wrap_g, row.wrap_g, None])
        out[name] = replace(row, keep=keep, allergens=allergens, stock=stock, wrap_g=wrap,
                            price=dice.choice([row.price, None]))  # fmt: skip
    return out


def dealt_menu(
    dice: Random, walkers: list[str], legs: list[int], foods: dict[str, Food]
) -> Menu:
    """Whole doses at the meals that suit, an open bag per walker and leg, some spare food."""
    booked: dict[tuple[str, int, str], int] = defaultdict(int)
    for _ in range(dice.randint(1, 40)):
        key = dice.choice(walkers), dice.randint(1, sum(legs)), dice.choice(sorted(MEALS))
        booked[key] += dice.randint(1, 4)
    portions = [eat(w, d, MEALS[f], f, float(n)) for (w, d, f), n in booked.items()]
    pools: list[Pool] = []
    shares: list[Portion] = []
    first = 1
    for long in legs:
        for walker in walkers if dice.random() < 0.5 else ():
            packs, last = dice.randint(1, 2), first + dice.randint(0, long - 1)
            days = range(first, last + 1)
            each_g = packs * foods["nuts"].pack_g * dice.choice([1.0, 0.8]) / len(days)
            pools.append(Pool(walker=walker, food="nuts", packs=float(packs), open_day=first,
                              last_day=last, by_day_g=dict.fromkeys(days, each_g)))  # fmt: skip
            shares += [eat(walker, d, "move", "nuts", each_g / 40.0, "bag") for d in days]
        first += long
    spare = tuple(
        eat(w, 0, "move", "bar", float(dice.randint(1, 3))) for w in walkers if dice.random() < 0.5
    )
    return Menu(portions=(*portions, *shares), pools=tuple(pools), spare=spare)


def dealt_fuel(dice: Random, days: int) -> FuelPlan | None:
    """Cans for what is burnt, or no stove at all."""
    if dice.random() < 0.2:
        return None
    by_day = {str(d): dice.uniform(1.0, 40.0) for d in range(1, days + 1)}
    burnt = sum(by_day.values())
    cans = int(burnt * 1.2 // 230.0) + 1
    return FuelPlan(
        kind="gas", by_day_g=by_day, burnt_g=burnt, reserve_g=0.2 * burnt, need_g=1.2 * burnt,
        cans=((230.0, cans),), carried_g=230.0 * cans, gross_g=380.0 * cans,
        left_g=230.0 * cans - burnt,
    )  # fmt: skip


@cache
def frame() -> Plan:
    """A plan around the packing; the checks of packing look at nothing else of it."""
    return sample_plan(walkers=1, days=2)


@cache
def packing(seed: int) -> Plan:
    """A plan whose trip, days, menu and packing are dealt out by dice."""
    dice = Random(seed)
    legs = [dice.randint(1, 4) for _ in range(dice.randint(1, 3))]
    avoid = Avoid(allergen="milk", scope="pot", traces=dice.random() < 0.5)
    careful = dice.choice([0, 0, 1, 2])
    party = tuple(
        replace(w, avoids=(avoid,)) if k < careful else w
        for k, w in enumerate(people(dice.randint(1, 5)))
    )
    foods = dealt_larder(dice)
    menu = dealt_menu(dice, [w.id for w in party], legs, foods)
    rooms = [dice.choice([4e3, 7e3, 12e3]) for _ in range(dice.randint(0, 3))]
    kit = Kit(containers=tuple(Container(volume_ml=room) for room in rooms))
    rules = Rules(bags=dice.choice([None, "meal", "day", "group"]))  # type: ignore[arg-type]
    trip = trip_for(party, sum(legs), kit=kit, rules=rules)
    days = days_of(sum(legs), legs)
    kitchen = KitchenLedger(fuel=dealt_fuel(dice, sum(legs)))
    return replace(
        frame(), trip=trip, days=days, menu=menu, foods=foods, kitchen=kitchen,
        packed=pack(menu, foods, days, trip, kitchen),
    )  # fmt: skip


def complaints(plan: Plan) -> list[str]:
    read = json.loads(dump(plan))
    return [f"{check.__name__}: {text}" for check in CHECKS for text in check(read)]


@each("seed", some(range(120), 10))
def test_no_packing_of_any_walk_is_faulted_by_the_judge(seed: int) -> None:
    assert complaints(packing(seed)) == []


@each("seed", some(range(120), 10))
def test_a_packing_with_one_bag_changed_is_faulted(seed: int) -> None:
    """The judge is not blind on walks of this kind: any bag made lighter, later or nobody's."""
    plan, dice = packing(seed), Random(seed)
    bags = list(plan.packed.bags)
    at = dice.randrange(len(bags))
    one = bags[at]
    changes: list[dict[str, Any]] = [
        {"net_g": one.net_g - 1.0}, {"wrap_g": one.wrap_g + 1.0}, {"carrier": "z"}, {"number": 99},
        {"open_day": one.open_day + 1}, {"water_ml": 1.0}, {"empty_day": one.empty_day + 1},
    ]  # fmt: skip
    bags[at] = replace(one, **dice.choice(changes))
    assert complaints(replace(plan, packed=replace(plan.packed, bags=tuple(bags))))


@each("seed", some(range(0, 120, 4), 8))
def test_packing_knows_no_dice(seed: int) -> None:
    plan = packing(seed)
    assert pack(plan.menu, plan.foods, plan.days, plan.trip, plan.kitchen) == plan.packed


@each("seed", some(range(0, 120, 4), 8))
def test_the_order_in_which_portions_stand_changes_no_bag(seed: int) -> None:
    plan = packing(seed)
    turned = replace(plan.menu, portions=plan.menu.portions[::-1], spare=plan.menu.spare[::-1])
    other = pack(turned, plan.foods, plan.days, plan.trip, plan.kitchen)

    def held(bags: Any) -> dict[str, list[Any]]:
        return {
            b.id: sorted((i.food, i.walker, i.day, i.meal, round(i.net_g, 6)) for i in b.items)
            for b in bags
        }

    assert held(other.bags) == held(plan.packed.bags)
    mass = {b.id: b.gross_g for b in plan.packed.bags}
    assert {b.id: b.gross_g for b in other.bags} == pytest.approx(mass)
