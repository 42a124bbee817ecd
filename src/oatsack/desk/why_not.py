"""Answers "why not this food" for a plan: where it stands, which gate refuses it, or what it costs.

The plan's own question is laid out again and its menu put back as it stands; need stays frozen.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from oatsack.desk.home import Home
from oatsack.desk.solving import Hear
from oatsack.desk.swapping import found_food
from oatsack.larder.plausible import admitted
from oatsack.reports.telling import telling
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.plan import Plan
from oatsack.values.problem import aim_of

if TYPE_CHECKING:
    from oatsack.menu.family import Family
    from oatsack.menu.improve import State

ASKED = re.compile(r"(?:why\s+)?not[\s/]+(?P<food>.+)", re.IGNORECASE)


def food_asked(words: str) -> str | None:
    """The food of ``why not FOOD`` or ``not FOOD``; None for other words."""
    found = ASKED.fullmatch(words.strip())
    return found["food"].strip(" ?") if found else None


def told(home: Home, name: str) -> Iterator[str]:
    """Lines for a person. Raises UsageError for a food that the larder has not."""
    foods = home.foods()
    yield from _lines(home.plan, named(name, foods), foods)


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A food by its id, and the plan it is asked of, as plain values for another process."""

    file: Path
    text: str
    plan: bytes
    food: str


def answer(asked: Question, hear: Hear) -> tuple[str, ...]:
    """Lines for a person; whoever leaves is not told."""
    from oatsack.desk.opening import open_trip
    from oatsack.files.planfile import load

    plan = load(asked.plan)
    foods = {food.id: food for food in open_trip(asked.file, asked.text).foods} | dict(plan.foods)
    return tuple(_lines(plan, foods[asked.food], foods))


def named(name: str, foods: Mapping[str, Food]) -> Food:
    """The food of an id or a name. Raises UsageError with what comes near."""
    return found_food(_id_of(name, foods), foods, "larder")


def _lines(plan: Plan, food: Food, foods: Mapping[str, Food]) -> Iterator[str]:
    voice = telling(plan).voice
    voice = replace(voice, foods={**voice.foods, food.id: food.name})
    for flag in flags_of(plan, food, foods.values()):
        yield voice.flag(flag)
        if flag.key == "why-not.would-cost":
            yield voice.flag(Flag(key="why-not.would-cost-parts", level="note",
                                  values=dict(flag.values)))  # fmt: skip


def _id_of(name: str, foods: Mapping[str, Food]) -> str:
    """The id of a food named by its id or its name, whatever its capitals."""
    by_name = {food.name.casefold(): food.id for food in foods.values()}
    return name if name in foods else by_name.get(name.casefold(), name)


def flags_of(plan: Plan, food: Food, foods: Iterable[Food]) -> tuple[Flag, ...]:
    """The answer as flags."""
    from oatsack.menu.why_not import anywhere
    from oatsack.solve.highs import solve

    rows = {row.id: row for row in admitted(tuple(foods))[0]}
    if food.id not in rows:
        return (Flag(key="why-not.doubted", level="note", values={"food": food.id}),)
    found = state_of(plan, rows)
    if found is None:
        return (Flag(key="why-not.by-hand", level="note"),)
    state, family = found
    prices = {name: weight * family.prices[name] for name, weight in weights_of(plan).items()}
    return anywhere(state, solve, rows[food.id], prices)


def weights_of(plan: Plan) -> dict[str, float]:
    """What load, liking and price weigh in a plan, by the names of their aims."""
    rules = plan.trip.rules
    return {"kg-days": rules.weight_kgdays, "liking": rules.weight_liking,
            "price": rules.weight_price}  # fmt: skip


def state_of(plan: Plan, rows: Mapping[str, Food]) -> tuple[State, Family] | None:
    """The plan's menu on its own matrix; None where it is no answer of it."""
    from oatsack.menu.family import family_of
    from oatsack.menu.improve import State
    from oatsack.menu.price import price
    from oatsack.provision.replanned import asked_of
    from oatsack.solve.highs import solve

    question = replace(asked_of(plan, rows), aims=())
    family = family_of(question, solve, plan.menu)
    if not family.answers:
        return None
    load, liking, money = weights_of(plan).values()
    problem = family.under((load, liking, money))
    x = family.answers[0]
    relaxed = price(family.frame, problem, solve)
    aim = aim_of(problem, x)
    state = State(frame=family.frame, problem=problem, relaxed=relaxed, x=x, aim=aim,
                  bound=relaxed.bound)  # fmt: skip
    return state, family
