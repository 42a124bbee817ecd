"""The days with their meals as the trip page lists them: rows ready to show, none decided."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace

from oatsack.desk.bench import Place, place
from oatsack.reports.contents.first_screen import walk_text
from oatsack.reports.telling import (
    Telling,
    counted,
    headline,
    long_date,
    meals_of,
    pieces,
    portions_at,
)
from oatsack.values.menu import Portion

MOST_OPEN = 4
"""So many walkers' days may all stand open; those of a larger party fold, for a phone would be
filled thirty times over."""
MOST_SHARES = 3
"""So many eaters of one food are named in its row; of more the row says how many."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one eater (or all) has of a food at a meal; `place` is where it is changed."""

    text: str
    name: str
    place: str
    new: bool
    kept: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One food at one meal; with one eater the name is the link itself."""

    name: str
    shares: tuple[Share, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Eater:
    """One walker's day: what is eaten, what is used, and where both are opened."""

    name: str
    eats: str
    eats_at: str
    uses: str
    uses_at: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MealShown:
    """One meal of a day."""

    key: str
    title: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One day."""

    title: str
    walk: str
    walk_opens: tuple[tuple[str, str], ...]
    """Its numbers as they are shown, each with where it is opened."""
    number: int
    eaters: tuple[Eater, ...]
    meals: tuple[MealShown, ...]
    brief: str = ""
    """What a folded day is known by, its dinner; empty where days stand open."""
    open: bool = True
    """Whether a folded day is open at first: the first one, and what changed."""


def days(
    told: Telling, news: Collection[Place], some: range | None = None
) -> tuple[Shown, ...]:
    """All days in order, or `some` by their places from 0."""
    shown = range(len(told.plan.days)) if some is None else some
    found = tuple(_day(told, told.plan.days[k].number, news) for k in shown)
    if len(told.plan.trip.walkers) <= MOST_OPEN or len(found) < 2:
        return found
    new = {day for _, day, _, _ in news}
    return tuple(
        replace(day, brief=headline(told, day.number), open=day is found[0] or day.number in new)
        for day in found
    )


def _day(told: Telling, number: int, news: Collection[Place]) -> Shown:
    day = told.day(number)
    meals = tuple(
        MealShown(key=meal, title=told.say(f"meals.{meal}"),
                  lines=tuple(_lines(told, portions_at(told.plan, number, meal), news)))
        for meal in meals_of(told.plan, number)
    )  # fmt: skip
    opens = ((told.m.distance(day.distance_m), f"days/{number}/distance_m"),
             (told.m.height(day.ascent_m), f"days/{number}/ascent_m"))  # fmt: skip
    return Shown(title=long_date(day), walk=walk_text(told, day), walk_opens=opens, number=number,
                 eaters=tuple(_eaters(told, number)), meals=meals)  # fmt: skip


def _eaters(told: Telling, number: int) -> list[Eater]:
    """Everyone's day; of a large party none, the reports hold them."""
    plan, day = told.plan, str(number)
    people = [w for w in plan.trip.walkers if day in plan.eaten[w.id] and day in plan.need[w.id]]
    return [
        Eater(
            name=w.name, eats=told.m.about(plan.eaten[w.id][day].energy_kcal),
            eats_at=f"eaten/{w.id}/{day}/energy_kcal",
            uses=told.m.about(plan.need[w.id][day].energy_kcal),
            uses_at=f"need/{w.id}/{day}/energy_kcal",
        )
        for w in people[: MOST_SHARES + 1]
    ]  # fmt: skip


def _lines(told: Telling, portions: list[Portion], news: Collection[Place]) -> list[Line]:
    """One row per food, whoever eats it."""
    by_food: dict[str, list[Portion]] = {}
    for p in portions:
        by_food.setdefault(p.food, []).append(p)
    return [
        Line(name=told.food(food).name, shares=tuple(_shares(told, _each_once(mine), news)))
        for food, mine in by_food.items()
    ]


def _each_once(mine: list[Portion]) -> list[Portion]:
    """One food at one meal: what somebody has of it in one number, counted or chosen; two open
    bags of it are one share. What can be changed stands for both (`changing.portion_at`)."""
    found: dict[tuple[str, bool], Portion] = {}
    for p in sorted(mine, key=lambda p: p.why == "count"):
        key = p.walker, p.why == "bag"
        had = found.get(key)
        found[key] = p if had is None else replace(had, doses=had.doses + p.doses)
    return [found[key] for key in dict.fromkeys((p.walker, p.why == "bag") for p in mine)]


def _shares(told: Telling, mine: list[Portion], news: Collection[Place]) -> list[Share]:
    alone = len(told.plan.trip.walkers) == 1
    if len(mine) > MOST_SHARES:
        said = told.say("live.eaters", n=len(mine))
        return [_share(told, mine[0], said, any(place(p) in news for p in mine))]
    return [
        _share(told, p, told.portion(p) if alone else _amount(told, p), place(p) in news)
        for p in mine
    ]


def _share(told: Telling, p: Portion, text: str, new: bool) -> Share:
    return Share(text=text, name=f"{told.name(p.walker)}: {told.portion(p)}", place=spelled(p),
                 new=new, kept=p.why == "held")  # fmt: skip


def _amount(told: Telling, p: Portion) -> str:
    """Whose, and how much: "Anna: 2", "Ben: 80 g"; a share of an open bag has no amount."""
    food, who = told.food(p.food), told.name(p.walker)
    if p.why == "bag":
        return who
    if counted(food):
        return told.say("live.amount", who=who, what=told.m.number(pieces(food, p.doses)))
    return told.say("live.amount", who=who, what=told.m.mass(p.doses * food.dose_g))


def spelled(p: Portion) -> str:
    """Where a portion stands, as an address spells it."""
    return "/".join(str(part) for part in place(p))
