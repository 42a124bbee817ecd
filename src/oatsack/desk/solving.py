"""A trip's text to its plan, here or in a process of its own; both answer alike.

What is asked and what is answered are plain values, so that they can cross to another process.
`planned` does the work in this process; `workshop` sends it to one that can be left at any moment.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal, Protocol

from oatsack.errors import NoPlan, OatsackError

if TYPE_CHECKING:
    from oatsack.values.food import Food
    from oatsack.values.menu import Menu


class Left(OatsackError):
    """Whoever asked for the work has gone; nothing was kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A trip's text as its file would hold it, the day it is, and the plan to stay close to."""

    file: Path
    text: str
    today: dt.date
    near: bytes | None = None
    prepared: bytes | None = None
    """A plan that was made ahead for this very text: nothing is left to solve."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """The plan as its file holds it; or what clashes, as keys, sentences and values."""

    plan: bytes | None = None
    refusal: tuple[tuple[str, str, Mapping[str, Any]], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """The best menu so far: how many were seen, mass with wrapping [g], price, and the gap."""

    count: int
    mass_g: float
    price: float
    gap: float


ENOUGH: Final = "enough"
"""Whoever waits has seen enough: the best so far is to be kept."""
Going = bool | Literal["enough"]
Hear = Callable[[Seen], Going]
"""Is told every better menu, and between them asked again; True goes on, ENOUGH ends the work with
the best so far, False leaves and keeps nothing."""


class Works(Protocol):
    """Where the solving is done."""

    def plan(self, asked: Asked, hear: Hear) -> Planned:
        """The plan of a text."""

    def do(self, task: str, asked: Any, hear: Hear) -> Any:
        """A named function (``module:function``) of what is asked and who hears."""

    def warm(self) -> None:
        """Gets ready before anyone asks."""


def deaf(_: Seen) -> Going:
    """Hears nothing and stays."""
    return True


class Here:
    """Solves in this process: for a command, and for tests."""

    def plan(self, asked: Asked, hear: Hear) -> Planned:
        """The plan of a text."""
        return planned(asked, hear)

    def do(self, task: str, asked: Any, hear: Hear) -> Any:
        """A named function of what is asked and who hears."""
        module, _, name = task.partition(":")
        return getattr(import_module(module), name)(asked, hear)

    def warm(self) -> None:
        """Nothing to get ready."""


def planned(asked: Asked, hear: Hear = deaf) -> Planned:
    """The plan of a text, made in this process. Raises UnreadableInput with every fault."""
    from oatsack.desk.opening import digest, open_trip
    from oatsack.desk.planning import make_plan
    from oatsack.files.planfile import dump, load
    from oatsack.reports.words import Voice

    if asked.prepared is not None:
        return Planned(plan=asked.prepared)
    opened = open_trip(asked.file, asked.text)
    near = load(asked.near) if asked.near else None
    if asked.near:  # the bytes are here: no need to write them again to name them
        hashes = {**opened.hashes, "near": digest(asked.near.decode("utf-8"))}
        opened = replace(opened, hashes=hashes)
    told = _teller(opened.foods, hear)
    try:
        made = make_plan(opened, today=asked.today, near=near, progress=told)
        return Planned(plan=dump(made))
    except NoPlan as error:
        voice = Voice(walkers=error.walkers, foods=error.foods)
        said = tuple((f.key, voice.flag(f), dict(f.values)) for f in error.flags)
        return Planned(refusal=said or tuple(("", reason, {}) for reason in error.reasons))


def _teller(foods: tuple[Food, ...], hear: Hear) -> Callable[[Menu], bool]:
    """What the chooser calls with every better menu; it ends the work when nobody waits."""
    from oatsack.menu.facts import price_of_dose

    rows = {food.id: food for food in foods}
    last: tuple[Menu, Seen] | None = None

    def told(menu: Menu) -> bool:
        nonlocal last
        if last is None or last[0] is not menu:
            eaten = [(p.doses, rows[p.food]) for p in (*menu.portions, *menu.spare)]
            last = menu, Seen(
                count=1 if last is None else last[1].count + 1, gap=menu.gap,
                mass_g=sum(n * (f.dose_g + f.dose_wrap_g) for n, f in eaten),
                price=sum(n * price_of_dose(f) for n, f in eaten),
            )  # fmt: skip
        going = hear(last[1])
        if going is False:
            raise Left("left")
        return going != ENOUGH

    return told
