"""The card of one portion, with every change it allows; and the page to put something in.

Both are whole pages, so that they work without scripts; with them the card opens in its row.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk.instead import Offer, instead, portion, suiting
from oatsack.errors import UsageError
from oatsack.reports.telling import Telling, long_date, telling
from oatsack.reports.words import say
from oatsack.values.food import MEALS
from oatsack.values.menu import Portion
from oatsack.values.plan import Plan
from oatsack.web.changing import portion_at
from oatsack.web.door import Door, Form, planned
from oatsack.web.glance import Figure
from oatsack.web.menu_view import spelled

OFFERED = 10
FOUND = 30


class Other(NamedTuple):
    """A food on offer as texts."""

    id: str
    name: str
    energy: str
    mass: str
    price: str
    liked: str


def card(door: Door, request: Request, form: Form) -> Response:
    """One portion: what it is, and keep, more, less, out, never, or another instead."""
    standing, plan = planned(door, request)
    told = telling(plan)
    p = portion_at(plan, request.query_params.get("p", ""))
    others = instead(plan, p, door.bench.foods(standing))[:OFFERED]
    return door.page(
        request, "card.html", s=standing, title=told.portion(p), place=spelled(p),
        where=told.say("live.card_of", who=told.name(p.walker), day=long_date(told.day(p.day)),
                       meal=told.say(f"meals.{p.meal}")),
        who=told.name(p.walker), kept=p.why == "held", bag=p.why == "bag",
        counted=p.why == "count", figures=_figures(told, p),
        others=[_other(told, offer) for offer in others], eaters=_eaters(told, p),
    )  # fmt: skip


def _figures(told: Telling, p: Portion) -> list[Figure]:
    """What the portion brings, each figure with where it is opened."""
    offer, cost = portion(told.plan, p), told.plan.prices.get(p.food, {}).get(str(p.day))
    food, kitchen = f"foods/{p.food}", f"prices/{p.food}/{p.day}"
    doses = f"menu/portions/{told.plan.menu.portions.index(p)}/doses"  # why so many, and why this
    rows = [("count", told.m.number(p.doses, 1), doses)]
    rows += [("mass", told.m.mass(offer.mass_g), f"{food}/dose_g"),
             ("energy", told.m.energy(offer.energy_kcal), f"{food}/per_100g/energy_kcal")]
    if offer.price is not None:
        rows.append(("price", told.m.money(offer.price), f"{food}/price"))
    if cost is not None and cost.flame_min > 0:
        rows.append(("minutes", told.m.minutes(cost.flame_min), f"{kitchen}/flame_min"))
    if cost is not None and cost.boiled_ml > 0:
        rows.append(("water", told.m.volume(cost.boiled_ml), f"{kitchen}/boiled_ml"))
    return [Figure(key, told.say(f"live.card_{key}"), text, at) for key, text, at in rows]


def _other(told: Telling, offer: Offer) -> Other:
    m = told.m
    return Other(
        offer.food.id, told.say("live.swap_name", n=offer.doses, food=offer.food.name),
        _signed(m.energy, offer.energy_kcal), _signed(m.mass, offer.mass_g),
        "" if offer.price is None else _signed(m.money, offer.price), m.number(offer.liked),
    )  # fmt: skip


def _signed(show: Callable[[float], str], value: float) -> str:
    return f"{'+' if value >= 0 else '−'}{show(abs(value))}"


def _eaters(told: Telling, p: Portion) -> list[tuple[str, str]]:
    """Who else has this food at this meal, each with the place of theirs."""
    return [
        (told.name(q.walker), spelled(q)) for q in told.plan.menu.portions
        if (q.day, q.meal, q.food) == (p.day, p.meal, p.food) and q.walker != p.walker
    ]  # fmt: skip


def put(door: Door, request: Request, form: Form) -> Response:
    """Foods that suit a meal, to be put into it for one walker."""
    standing, plan = planned(door, request)
    told, asked = telling(plan), request.query_params.get("q", "")
    day, meal = _meal(plan, request.query_params.get("p", ""))
    people = [(s.walker, told.name(s.walker)) for s in plan.slots if (s.day, s.meal) == (day, meal)]
    chosen = request.query_params.get("w", people[0][0] if people else "")
    found = suiting(plan, (chosen, day, meal), door.bench.foods(standing), asked)
    return door.page(
        request, "put.html", s=standing, asked=asked, people=people, chosen=chosen,
        spot=f"{day}/{meal}", title=told.say("live.put_title", meal=told.say(f"meals.{meal}"),
                                             day=long_date(told.day(day))),
        found=[(o.food.id, o.food.name, told.m.energy(o.energy_kcal), told.m.mass(o.mass_g))
               for o in found[:FOUND]],
    )  # fmt: skip


def _meal(plan: Plan, place: str) -> tuple[int, str]:
    day, _, meal = place.partition("/")
    known = day.isdecimal() and len(day) < 5 and 1 <= int(day) <= len(plan.days) and meal in MEALS
    if not known:
        raise UsageError(say("web.refused.meal"))
    return int(day), meal
