"""Addresses: every number of a plan by the words that lead to it, as ``need/anna/2/energy_kcal``.

A mapping is stepped into by its key, a value by its field, a row by what it is known by (a day by
its number, a bag by its name, an hour by day and clock), else by its place in the list.
"""

from __future__ import annotations

import dataclasses
import difflib
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from oatsack.errors import UnknownAddress
from oatsack.values.dog import Dog
from oatsack.values.kitchen import MealLedger
from oatsack.values.pack import Bag, Box, Buy, DogBag, Loss, Night, Rubbish, Sack
from oatsack.values.plan import Assumption, Hour, Late, Plan
from oatsack.values.route import Day
from oatsack.values.walker import Walker

NAMES: Mapping[type, Callable[[Any], str]] = {
    Day: lambda day: str(day.number),
    Walker: lambda walker: str(walker.id),
    Dog: lambda dog: str(dog.id),
    DogBag: lambda bag: f"{bag.leg}-{bag.dog}",
    Hour: lambda hour: f"{hour.day}-{int(hour.start_min // 60):02d}",
    Bag: lambda bag: str(bag.id),
    Buy: lambda line: f"{line.leg}-{line.shop}-{line.food}",
    Sack: lambda sack: f"{sack.leg}-{sack.walker}",
    Night: lambda night: str(night.day),
    Rubbish: lambda rubbish: str(rubbish.day),
    Loss: lambda loss: f"{loss.leg}-{loss.walker}",
    Box: lambda box: f"{box.leg}-{box.kind}",
    Late: lambda late: str(late.days),
    Assumption: lambda assumption: str(assumption.key),
    MealLedger: lambda meal: f"{meal.day}-{meal.meal}-{'+'.join(meal.walkers)}",
}

SUMS: Mapping[type, tuple[str, ...]] = {Bag: ("gross_g",), DogBag: ("gross_g",)}
"""Numbers that are shown and can be opened, though no plan file holds them: each is a property."""


def steps(value: Any) -> Iterator[tuple[str, Any]]:
    """The parts of a value by name."""
    if dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            yield field.name, getattr(value, field.name)
    elif isinstance(value, Mapping):
        for key, part in value.items():
            yield str(key), part
    elif isinstance(value, tuple | list):
        yield from _rows(value)


def _rows(rows: tuple[Any, ...] | list[Any]) -> Iterator[tuple[str, Any]]:
    seen: dict[str, int] = {}
    for place, part in enumerate(rows):
        naming = NAMES.get(type(part))
        name = naming(part).replace("/", "-") if naming else str(place)
        seen[name] = seen.get(name, 0) + 1
        yield name if seen[name] == 1 else f"{name}~{seen[name]}", part


def leaves(value: Any, start: str = "") -> Iterator[tuple[str, float]]:
    """Every number below a value with its address, in order."""
    for name, part in steps(value):
        address = f"{start}/{name}" if start else name
        if isinstance(part, bool):
            continue
        if isinstance(part, int | float):
            yield address, float(part)
        else:
            yield from leaves(part, address)


def find(value: Any, address: str) -> Any:
    """What stands at an address. Raises UnknownAddress that names what is there instead."""
    here: Any = value
    walked: list[str] = []
    for word in (w for w in address.strip("/").split("/") if w):
        parts = dict(steps(here))
        parts |= {name: getattr(here, name) for name in SUMS.get(type(here), ())}
        if word not in parts:
            close = difflib.get_close_matches(word, parts, n=4) or list(parts)[:8]
            at = "/".join(walked) or "the plan"
            raise UnknownAddress(
                f"{at} has no {word!r}; there is: {', '.join(close)}" if parts
                else f"{at} is {here!r} and has no parts"
            )  # fmt: skip
        here = parts[word]
        walked.append(word)
    return here


def portions_at(plan: Plan, address: str) -> tuple[str, ...]:
    """Addresses of the portions at ``menu/walker/day``, ``.../meal`` or ``.../meal/food``; none
    for any other address."""
    words = address.strip("/").split("/")
    if len(words) < 3 or words[0] != "menu" or words[1] not in plan.target:
        return ()
    return tuple(
        f"menu/portions/{i}/doses" for i, p in enumerate(plan.menu.portions)
        if [p.walker, str(p.day), p.meal, p.food][: len(words) - 1] == words[1:]
    )  # fmt: skip


def number(plan: Plan, address: str) -> float:
    """The number at an address. Raises UnknownAddress when it is no number."""
    found = find(plan, address)
    if isinstance(found, bool) or not isinstance(found, int | float):
        inner = ", ".join(name for name, _ in list(steps(found))[:12])
        raise UnknownAddress(f"{address} is no number; it holds: {inner}" if inner
                             else f"{address} is no number but {found!r}")  # fmt: skip
    return float(found)
