"""What an aim is: a name, its unit, its usual weight, and how it prices the columns."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from oatsack.menu.facts import Facts
from oatsack.menu.frame import Frame
from oatsack.values.food import Food


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """One aim. `add` prices columns in its own unit; `grams` turns one unit into grams carried for
    the mean time, so that aims can be summed."""

    name: str
    help: str
    unit: str
    grams: float
    weight: Callable[[Frame], float]
    add: Callable[[Frame, float], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Eaten:
    """A column through which food is eaten: doses per unit of it, and days carried per dose."""

    column: int
    walker: str
    food: Food
    facts: Facts
    doses: float
    carry_days: float
    day: int


def eaten(frame: Frame) -> Iterator[Eaten]:
    """Every column through which food is eaten, open bags day by day."""
    for options in frame.options.values():
        for o in options:
            yield Eaten(
                column=o.eat, walker=o.slot.walker, food=o.food, facts=o.facts, doses=1.0,
                carry_days=o.slot.carry_days, day=o.slot.day,
            )  # fmt: skip
    for walker, bags in frame.bags.items():
        for b in bags:
            for day in b.bag.days:
                yield Eaten(
                    column=b.column, walker=walker, food=b.bag.food, facts=b.facts,
                    doses=b.doses_day, day=day,
                    carry_days=frame.slots[(walker, day, "move")].carry_days,
                )  # fmt: skip


def per_setting(name: str, default: float) -> Callable[[Frame], float]:
    """A weight that the walker may turn as ``aim.name``."""
    return lambda frame: frame.setting(f"aim.{name}", default)
