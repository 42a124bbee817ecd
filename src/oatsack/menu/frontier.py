"""Menus from light to cheap to loved, and along the energy dial: each is a whole choice of its own
that starts from the one before."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from oatsack.menu.choose import choose
from oatsack.menu.facts import price_of_dose
from oatsack.menu.price import Engine
from oatsack.values.food import Food
from oatsack.values.menu import Menu, MenuRequest
from oatsack.values.walker import Walker

WEIGHTS: tuple[tuple[str, float, float, float], ...] = (
    ("lightest", 1.0, 0.0, 0.0),
    ("light", 1.0, 0.4, 0.4),
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


def frontier(request: MenuRequest, engine: Engine, *, seen: Seen | None = None) -> list[Point]:
    """Ten menus from light to cheap to loved, each within its own gap. Raises NoPlan."""
    out = []
    for name, kgdays, liking, price in WEIGHTS:
        rules = replace(
            request.rules, weight_kgdays=kgdays, weight_liking=liking, weight_price=price
        )
        out.append(_point(name, replace(request, rules=rules), engine))
        if seen is not None and seen(out[-1]) is False:
            break
    return out


def along_the_dial(
    request: MenuRequest, engine: Engine, shares: Sequence[float] = (0.8, 0.9, 1.0, 1.1, 1.2), *,
    seen: Seen | None = None,
) -> list[Point]:  # fmt: skip
    """Menus for shares of the target, from little to much. Raises NoPlan."""
    out = []
    for share in shares:
        target = {w: {d: kcal * share for d, kcal in by_day.items()}
                  for w, by_day in request.target_kcal.items()}  # fmt: skip
        out.append(_point(f"{share:.0%}", replace(request, target_kcal=target), engine))
        if seen is not None and seen(out[-1]) is False:
            break
    return out


def undominated(points: Sequence[Point]) -> list[Point]:
    """Points than which none is at once lighter, cheaper and better liked."""
    return [p for p in points if not any(_better(q, p) for q in points)]


def _better(a: Point, b: Point) -> bool:
    least = a.mass_g <= b.mass_g and a.price <= b.price and a.liking >= b.liking
    return least and (a.mass_g, a.price, a.liking) != (b.mass_g, b.price, b.liking)


def _point(name: str, request: MenuRequest, engine: Engine) -> Point:
    menu = choose(request, engine)
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
