"""One budget over many legs: each leg is chosen apart, with money as dear as it takes.

Legs of a long walk share nothing but stock and the purse. So that they need not be solved as one,
money is made dearer for all of them alike until the packs of the whole walk are within the budget,
and then as much cheaper again as they stay there. What the legs come to at any such price, less
what the whole budget is worth at it, is a bound (Lagrangian relaxation).
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Iterable
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
from oatsack.values.food import Food
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
    """Whether a budget over several legs is kept by its price and not by one great problem, which
    shares packs over all legs: not where some are bought on the way."""
    many = legs.walker_days(request) > TOGETHER or bool(request.shops)
    return len(legs.leg_numbers(request)) > 1 and many


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
    proved_apart = len(tried) > 1 and best.menu.ended == "proved"  # not the whole
    ended = "work" if proved_apart else best.menu.ended
    return replace(best.menu, aim=aim, bound=bound, ended=ended)


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
    """What the whole packs of a menu and its spare food cost: what leaves home in one heap, less
    what is at home and still good when it is eaten, and the rest of each leg at its shop."""
    foods = {food.id: food for food in request.foods}
    eaten: dict[tuple[str, int | None], list[tuple[dt.date, float]]] = {}
    days = {(s.walker, s.day): s for s in request.slots}
    last = max((s.date for s in request.slots), default=dt.date.max)
    for p in menu.portions:
        at = days[p.walker, p.day]
        heap = (p.food, legs.bought_for(request, foods[p.food], at.leg))
        eaten.setdefault(heap, []).append((at.date, p.doses))
    for p in menu.spare:
        eaten.setdefault((p.food, None), []).append((last, p.doses))
    return sum(
        price_of_pack(foods[name]) * _packs(foods[name], doses, at_home=shop is None)
        for (name, shop), doses in eaten.items()
    )


def _packs(food: Food, eaten: Iterable[tuple[dt.date, float]], *, at_home: bool) -> float:
    """Whole packs to buy for doses on dates: those at home go in the order of their dates."""
    lots = [(lot.best_before or dt.date.max, lot.packs * food.doses_per_pack)
            for lot in food.at_home if at_home]  # fmt: skip
    left = [_pieces(food, doses) for _, doses in lots]
    wanted = taken = 0.0
    for date, doses in sorted(eaten):
        wanted += doses
        for i, (best_before, _) in enumerate(lots):
            part = min(doses, left[i]) if best_before >= date else 0.0
            left[i], doses, taken = left[i] - part, doses - part, taken + part
    return max(0.0, math.ceil((wanted - _pieces(food, taken)) / food.doses_per_pack - 1e-6))


def _pieces(food: Food, doses: float) -> float:
    """So many doses in the whole pieces that a food is carried in."""
    piece = {"bag": food.doses_per_pack, "sealed": 1.0, "repack": 0.0}[food.carry]
    return math.floor(doses / piece + 1e-6) * piece if piece else doses


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
