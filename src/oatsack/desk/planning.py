"""Provisions an opened trip: the only place where clock-free flow, engine and files meet."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace

from oatsack.desk.opening import Opened, digest
from oatsack.desk.ways import kept_ways
from oatsack.errors import NoPlan, TripFileError, UnitError, UsageError
from oatsack.files.daylight import daylight_of
from oatsack.files.planfile import dump
from oatsack.files.trip import placed
from oatsack.files.trip.picks import TARGET
from oatsack.larder.plausible import doubts
from oatsack.provision import Setting, provision
from oatsack.provision.draft import Progress
from oatsack.solve.highs import solve
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.plan import Plan
from oatsack.values.trip import Trip
from oatsack.values.walker import Target


def make_plan(opened: Opened, *, today: dt.date, target: Target | None = None,
              near: Plan | None = None, seed: int = 0, work: int = 1,
              progress: Progress | None = None) -> Plan:  # fmt: skip
    """The plan of a trip; `target` outranks what its walkers chose, `near` is stayed close to.
    Hashes that `opened` names already are taken as they are.

    Raises NoPlan, explained, when it cannot be provisioned as asked.
    """
    trip = opened.trip if target is None else with_target(opened.trip, target)
    hashes = dict(opened.hashes)
    if near is not None and "near" not in hashes:
        hashes["near"] = digest(dump(near).decode("utf-8"))
    setting = Setting(
        today=today, seed=seed, work=work, track=opened.track, hashes=hashes,
        daylight=daylight_of(trip, opened.track),
    )  # fmt: skip
    try:
        return provision(trip, opened.foods, solve, setting=setting, near=near, progress=progress)
    except TripFileError as error:
        raise TripFileError(placed(trip, error.faults, opened.text)) from None
    except NoPlan as error:
        error.walkers = {w.id: w.name for w in trip.walkers}
        error.foods = {food.id: food.name for food in opened.foods}
        error.flags = (*kept_ways(trip, error.flags), *kept_out(opened.foods))
        raise


def kept_out(foods: Iterable[Food]) -> tuple[Flag, ...]:
    """A way out where foods stay out of every menu because their label looks odd (C2)."""
    odd = [food.id for food in foods if not food.confirmed and doubts(food)]
    if not odd:
        return ()
    return (Flag(key="way-out.labels", level="note", values={"n": len(odd), "food": odd[0]}),)


def with_target(trip: Trip, target: Target) -> Trip:
    """The same trip with another wish of how much to eat, for every walker."""
    stated = frozenset(p for p in trip.defaults if not p.endswith(".target"))
    walkers = tuple(replace(w, target=target) for w in trip.walkers)
    return replace(trip, walkers=walkers, defaults=stated)


def read_target(text: str) -> Target:
    """``2200 kcal``, ``9 MJ``, ``75%`` or ``hungry``, within the bounds of the trip file's own.
    Raises UsageError that says what to write."""
    try:
        found: Target = TARGET.read(text)
    except UnitError as error:
        said = f"{error.wrong}, got {text!r}; {error.instead}"
        raise UsageError(f"--target: {said}") from None
    return found


def with_order(trip: Trip, names: tuple[str, ...]) -> Trip:
    """The same trip with these aims in order."""
    stated = trip.defaults - {"rules.order"}
    return replace(trip, rules=replace(trip.rules, aims=names), defaults=stated)


def read_order(text: str) -> tuple[str, ...]:
    """``load, price`` as aims in order, by the trip file's own names. Raises UsageError that says
    which there are."""
    from oatsack.files.trip.tables.rules import AIM_WORD

    try:
        found = [AIM_WORD.read(word.strip()) for word in text.split(",")]
    except UnitError as error:
        raise UsageError(f"--order: {error.wrong}, got {text!r}; {error.instead}") from None
    return tuple(dict.fromkeys(found))
