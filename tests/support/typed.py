"""Random values of any type that the values are made of, by seed: for round trips of whole plans.

Draws from type hints alone, so that a field added to a value is drawn too.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import random
import types
import typing
from collections.abc import Mapping
from typing import Any
from zoneinfo import ZoneInfo

from oatsack.values.plan import FORMAT, Plan

TEXTS = ("anna", "äöü", "trail-mix", "a/b", "", 'quo"te', "line\nbreak", "ridge.gpx")


class Dice(random.Random):
    """Chance by seed, and the texts it chooses from."""

    texts: tuple[str, ...] = TEXTS


def draw(hint: Any, rng: random.Random, *, most: int = 2) -> Any:
    """A random value of a type; lists and mappings hold up to `most` items."""
    if hint in _PLAIN:
        return _PLAIN[hint](rng)
    origin, args = typing.get_origin(hint), typing.get_args(hint)
    if origin is typing.Literal:
        return rng.choice(args)
    if origin in (types.UnionType, typing.Union):
        return draw(rng.choice(args), rng, most=most)
    if dataclasses.is_dataclass(hint):
        return _draw_fields(typing.cast(type, hint), rng, most)
    if origin is frozenset:
        return frozenset(draw(args[0], rng, most=most) for _ in range(rng.randint(0, most)))
    if origin is tuple and args[-1] is not Ellipsis:
        return tuple(draw(arg, rng, most=most) for arg in args)
    if origin is tuple:
        return tuple(draw(args[0], rng, most=most) for _ in range(rng.randint(0, most)))
    if issubclass(typing.cast(type, origin), Mapping):
        count = rng.randint(0, most)
        return {draw(args[0], rng): draw(args[1], rng, most=most) for _ in range(count)}
    raise TypeError(f"cannot draw {hint}")


def drawn_plan(seed: int = 0, *, texts: tuple[str, ...] = TEXTS) -> Plan:
    """A random plan with at least one walker and one portion, in Vienna's summer time."""
    rng = Dice(seed)
    rng.texts = texts
    plan: Plan = draw(Plan, rng, most=3)
    while not plan.trip.walkers or not plan.menu.portions:
        plan = draw(Plan, rng, most=3)
    begin = dt.datetime(2026, 7, 2, 9, tzinfo=ZoneInfo("Europe/Vienna"))
    end = begin + dt.timedelta(days=3)
    trip = dataclasses.replace(plan.trip, zone="Europe/Vienna", begin=begin, end=end)
    return dataclasses.replace(plan, format=FORMAT, trip=trip)


def _draw_fields(cls: type, rng: random.Random, most: int) -> Any:
    hints = typing.get_type_hints(cls)
    return cls(**{f.name: draw(hints[f.name], rng, most=most) for f in dataclasses.fields(cls)})


def _draw_float(rng: random.Random) -> float:
    return rng.choice([0.0, -0.0, 1.0, rng.uniform(-1e4, 1e4), rng.random() * 1e-9, 1e300])


def _draw_moment(rng: random.Random) -> dt.datetime:
    zone = dt.timezone(dt.timedelta(minutes=rng.choice([0, 120, -570])))
    return dt.datetime(
        2026, rng.randint(1, 12), rng.randint(1, 28), rng.randint(0, 23), tzinfo=zone
    )


_PLAIN: Mapping[Any, Any] = {
    float: _draw_float,
    int: lambda rng: rng.randint(-5, 5000),
    str: lambda rng: rng.choice(getattr(rng, "texts", TEXTS)),
    bool: lambda rng: rng.random() < 0.5,
    type(None): lambda rng: None,
    dt.date: lambda rng: dt.date(2026, rng.randint(1, 12), rng.randint(1, 28)),
    dt.datetime: _draw_moment,
}
