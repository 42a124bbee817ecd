"""One budget over many legs: each leg is chosen apart, with money as dear as it takes.

Legs of a long walk share nothing but stock and the purse. So that they need not be solved as one,
money is made dearer for all of them alike until the packs of the whole walk are within the budget,
and then as much cheaper again as they stay there. What the legs come to at any such price, less
what the whole budget is worth at it, is a bound (Lagrangian relaxation).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from oatsack.errors import NoPlan
from oatsack.menu import legs
from oatsack.menu.aims import price as price_aim
from oatsack.menu.facts import price_of_pack
from oatsack.menu.near import answer_of
from oatsack.menu.price import Engine
from oatsack.menu.problem import build
from oatsack.menu.structure import completed
from oatsack.values.flags import Flag
from oatsack.values.menu import Menu, MenuRequest

TOGETHER = 40
"""Up to so many walker-days the legs are solved as one problem, with their packs shared; ours."""
DEARER, MOST_DEARER, CHEAPER_AGAIN = 3.0, 5, 2
"""Money gets so many times dearer, at most so often, and is then brought back so often; ours."""

ChooseLegs = Callable[[MenuRequest], Menu]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """The legs at one price of money: their menu, what its packs cost, and what it proves."""

    times: float
    menu: Menu
    money: float
    bound: float


def apart(request: MenuRequest) -> bool:
    """Whether a budget over several legs is kept by its price and not by one great problem."""
    return len(legs.leg_numbers(request)) > 1 and legs.walker_days(request) > TOGETHER


def within_budget(request: MenuRequest, engine: Engine, choose_legs: ChooseLegs) -> Menu:
    """The best menu found whose packs keep the budget. Raises NoPlan where none does."""
    budget = request.rules.budget
    assert budget is not None
    tried = [_at(request, choose_legs, 1.0, budget)]
    while tried[-1].money > budget and len(tried) <= MOST_DEARER:
        tried.append(_at(request, choose_legs, tried[-1].times * DEARER, budget))
    if tried[-1].money > budget:
        raise _too_dear(request, min(tried, key=lambda t: t.money), budget)
    for _ in range(CHEAPER_AGAIN if len(tried) > 1 else 0):
        tried.append(_at(request, choose_legs, _between(tried, budget), budget))
    best = min((t for t in tried if t.money <= budget), key=lambda t: t.times)
    aim = _aim(request, engine, best.menu)
    bound = min(aim, max(t.bound for t in tried))
    return replace(best.menu, aim=aim, bound=bound)


def _between(tried: list[Tried], budget: float) -> float:
    """A price between the dearest that is too cheap and the cheapest that is dear enough."""
    low = max(t.times for t in tried if t.money > budget)
    high = min(t.times for t in tried if t.money <= budget)
    return math.sqrt(low * high)


def _at(request: MenuRequest, choose_legs: ChooseLegs, times: float, budget: float) -> Tried:
    weight = request.rules.weight_price
    more = (times - 1.0) * max(weight, 1.0)
    rules = replace(request.rules, budget=None, weight_price=weight + more)
    menu = choose_legs(replace(request, rules=rules))
    worth = more * price_aim.AIM.grams * _longest_carry(request) * budget
    return Tried(times=times, menu=menu, money=packs_cost(request, menu), bound=menu.bound - worth)


def _longest_carry(request: MenuRequest) -> float:
    """The largest mean of days carried of any leg, at least 1."""
    found: dict[int, list[float]] = {}
    for slot in request.slots:
        found.setdefault(slot.leg, []).append(slot.carry_days)
    return max([1.0, *(sum(days) / len(days) for days in found.values())])


def packs_cost(request: MenuRequest, menu: Menu) -> float:
    """What the whole packs of a menu and its spare food cost, those at home taken off."""
    doses: dict[str, float] = {}
    for p in (*menu.portions, *menu.spare):
        doses[p.food] = doses.get(p.food, 0.0) + p.doses
    return sum(
        price_of_pack(food)
        * math.ceil(doses[food.id] / food.doses_per_pack - food.home_packs - 1e-6)
        for food in request.foods if doses.get(food.id, 0.0) / food.doses_per_pack > food.home_packs
    )  # fmt: skip


def _aim(request: MenuRequest, engine: Engine, menu: Menu) -> float:
    """The legs' aims at the usual price of money, by the dose, summed."""
    total, used = 0.0, dict[str, float]()
    free = replace(request, rules=replace(request.rules, budget=None))
    for leg in legs.leg_numbers(request):
        asked = legs.leg_request(free, leg, used)
        part = legs.part_of(menu, {s.day for s in asked.slots})
        frame, problem = build(asked)
        done = completed(problem, engine, answer_of(frame, problem, part))
        total += menu.aim if done is None else done[1]
        for name, packs in legs.stock_used(asked, part).items():
            used[name] = used.get(name, 0.0) + packs
    return total


def _too_dear(request: MenuRequest, cheapest: Tried, budget: float) -> NoPlan:
    """What the cheapest menu found costs more than the budget, and that this much would do."""
    foods = {f.id: f for f in request.foods}
    mass = sum(p.doses * (foods[p.food].dose_g + foods[p.food].dose_wrap_g)
               for p in cheapest.menu.portions)  # fmt: skip
    over = cheapest.money - budget
    flags = [
        Flag(key="no-plan.packs-over", level="block", scope="packs/budget",
             values={"rule": "packs", "rows": 1, "short_money": 0.0, "over_money": over,
                     "limit_money": budget}),
        Flag(key="way-out.budget", level="note",
             values={"budget_money": float(math.ceil(cheapest.money)), "mass_g": mass}),
    ]  # fmt: skip
    return NoPlan([flag.key for flag in flags], flags)
