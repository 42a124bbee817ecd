"""Ten menus from light to cheap to loved, each within its own gap.

They stand on one exact matrix (`menu/family`): what is found and proven for one serves all, so that
ten cost a small multiple of one search.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from oatsack.menu import purse
from oatsack.menu.by_leg import parted
from oatsack.menu.choose import choose
from oatsack.menu.facts import price_of_dose
from oatsack.menu.family import Weights, best_again, best_under, family_of
from oatsack.menu.price import Engine
from oatsack.values.food import Food
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.walker import Walker

WEIGHTS: tuple[tuple[str, float, float, float], ...] = (
    ("lightest", 4.0, 0.0, 0.0),
    ("light", 2.0, 0.4, 0.4),
    ("usual", 1.0, 1.0, 1.0),
    ("fair", 1.0, 1.0, 2.5),
    ("cheap", 1.0, 0.7, 6.0),
    ("cheaper", 0.6, 0.4, 12.0),
    ("cheapest", 0.15, 0.1, 20.0),
    ("liked", 1.0, 2.5, 1.0),
    ("loved", 0.7, 5.0, 0.7),
    ("best-loved", 0.3, 8.0, 0.3),
)
"""Name, and the weights of kg-days, liking and price; ours."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One menu of the frontier with what it is judged by: mass [g], price, mean liking (1 to 5)."""

    name: str
    menu: Menu
    mass_g: float
    price: float
    liking: float
    energy_kcal: float


Seen = Callable[[Point], object]
"""Is shown every point; False asks for no more."""


def frontier(
    request: MenuRequest, engine: Engine, *, known: Menu | None = None, seen: Seen | None = None
) -> list[Point]:  # fmt: skip
    """Ten menus from light to cheap to loved, each within its own gap. Raises NoPlan.

    `known` is a menu of this request, where there is one: all begin from it. Legs of a long walk
    are taken one by one and equal ones once; a budget over many of them is kept point by point.
    Aims in order and an earlier menu to stay close to are left aside.
    """
    asked = replace(request, aims=(), near=None)
    menus = _one_by_one(asked, engine) if purse.apart(asked) else _together(asked, engine, known)
    found: dict[str, Point] = {}
    for name, menu in menus:
        first = name not in found
        found[name] = point_of(name, asked, menu)
        if first and seen is not None and seen(found[name]) is False:
            break
    return list(found.values())


def _one_by_one(asked: MenuRequest, engine: Engine) -> Iterator[tuple[str, Menu]]:
    for name, load, liking, price in WEIGHTS:
        rules = replace(asked.rules, weight_kgdays=load, weight_liking=liking, weight_price=price)
        yield name, choose(replace(asked, rules=rules), engine)


def _together(
    asked: MenuRequest, engine: Engine, known: Menu | None
) -> Iterator[tuple[str, Menu]]:  # fmt: skip
    """Every point as it is found; at the end those for which another's menu or proof is better."""
    legs = parted(asked, choose(asked, engine) if known is None else known)
    families = [family_of(of, engine, menu) for of, menu in legs.asked]
    first = {}
    for name, *weights in WEIGHTS:
        first[name] = legs.joined([best_under(f, engine, _three(weights)) for f in families])
        yield name, first[name]
    for name, *weights in WEIGHTS:
        again = legs.joined([best_again(f, engine, _three(weights)) for f in families])
        if again.gap < first[name].gap:
            yield name, again


def _three(weights: Sequence[float]) -> Weights:
    load, liking, price = weights
    return load, liking, price


def undominated(points: Sequence[Point]) -> list[Point]:
    """Points than which none is at once lighter, cheaper and better liked."""
    return [p for p in points if not any(_better(q, p) for q in points)]


def _better(a: Point, b: Point) -> bool:
    least = a.mass_g <= b.mass_g and a.price <= b.price and a.liking >= b.liking
    return least and (a.mass_g, a.price, a.liking) != (b.mass_g, b.price, b.liking)


def point_of(name: str, request: MenuRequest, menu: Menu) -> Point:
    """A menu with what it is judged by."""
    foods = {f.id: f for f in request.foods}
    mass, money, liking = judged(menu, foods, request.walkers)
    energy = sum(p.doses * foods[p.food].dose_kcal for p in menu.portions)
    return Point(name=name, menu=menu, mass_g=mass, price=money, energy_kcal=energy, liking=liking)


def judged(
    menu: Menu, foods: Mapping[str, Food], walkers: Sequence[Walker]
) -> tuple[float, float, float]:
    """Mass with its wrapping [g], price of what is eaten, and mean liking weighed by energy."""
    rows = list(_sums(menu, foods, walkers))
    mass, money, energy, liked = (sum(column) for column in zip(*rows, strict=True))
    return mass, money, liked / energy if energy else 0.0


def _sums(
    menu: Menu, foods: Mapping[str, Food], walkers: Sequence[Walker]
) -> Iterator[tuple[float, float, float, float]]:
    """Mass, price, energy and liking times energy of every portion."""
    liking = {w.id: w.liking for w in walkers}
    for p in menu.portions:
        food = foods[p.food]
        kcal = p.doses * food.dose_kcal
        liked = liking[p.walker].get(p.food, food.liked_by(p.walker))
        mass = p.doses * (food.dose_g + food.dose_wrap_g)
        yield mass, p.doses * price_of_dose(food), kcal, liked * kcal
