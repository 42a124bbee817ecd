"""The days with their meals as the trip page lists them: rows ready to show, none decided."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from oatsack.desk.bench import Place, place
from oatsack.reports.contents.first_screen import walk_text
from oatsack.reports.telling import Telling, long_date, meals_of, portions_at
from oatsack.values.food import Food
from oatsack.values.menu import Portion

OFFERED = 12
"""So many foods are offered in place of another; a longer list is searched in the larder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One food at one meal."""

    who: str
    text: str
    place: str
    new: bool
    kept: bool
    fixed: bool
    """Counted or out of an open bag: not to be swapped here."""
    others: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One day."""

    title: str
    walk: str
    number: int
    kcal: tuple[tuple[str, str, str], ...]
    """Name, energy, and the address where it is opened."""
    meals: tuple[tuple[str, tuple[Line, ...]], ...]


def days(
    told: Telling, news: Collection[Place], foods: Iterable[Food]
) -> tuple[Shown, ...]:
    """All days, in order; `foods` are what one can swap for."""
    liked = sorted(foods, key=lambda f: (-f.liked_by(""), f.name))
    return tuple(_day(told, day.number, news, liked) for day in told.plan.days)


def _day(told: Telling, number: int, news: Collection[Place], liked: list[Food]) -> Shown:
    day = told.day(number)
    eaten = [
        (w.name, told.m.energy(told.plan.eaten[w.id][str(number)].energy_kcal),
         f"eaten/{w.id}/{number}/energy_kcal")
        for w in told.plan.trip.walkers if str(number) in told.plan.eaten[w.id]
    ]  # fmt: skip
    meals = tuple(
        (told.say(f"meals.{meal}"),
         tuple(_line(told, p, news, liked) for p in portions_at(told.plan, number, meal)))
        for meal in meals_of(told.plan, number)
    )  # fmt: skip
    return Shown(title=long_date(day), walk=walk_text(told, day), number=number,
                 kcal=tuple(eaten), meals=meals)  # fmt: skip


def _line(told: Telling, p: Portion, news: Collection[Place], liked: list[Food]) -> Line:
    food = told.food(p.food)
    others = [
        (f.id, f.name) for f in liked
        if p.meal in f.meals and f.role == food.role and f.id != food.id
    ]  # fmt: skip
    return Line(
        who=told.name(p.walker) if len(told.plan.trip.walkers) > 1 else "",
        text=told.portion(p), place="/".join(str(part) for part in place(p)), new=place(p) in news,
        kept=p.why == "held", fixed=p.why in ("bag", "count"), others=tuple(others[:OFFERED]),
    )  # fmt: skip
