"""What an aim is: a name, its unit, its usual weight, and how it prices the columns."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from oatsack.menu.eaten import Eaten
from oatsack.menu.frame import Frame


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
    in_trip: str = ""
    """Key of the trip file that turns it, where it is not ``rules.settings``."""

    @property
    def turned_by(self) -> str:
        """Where a trip file turns its weight."""
        return self.in_trip or f'rules.settings."aim.{self.name}"'


def eaten(frame: Frame) -> tuple[Eaten, ...]:
    """Every column through which food is eaten, open bags day by day."""
    if not frame.eaten:
        frame.eaten = tuple(_eaten(frame))
    return frame.eaten


def _eaten(frame: Frame) -> Iterator[Eaten]:
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
