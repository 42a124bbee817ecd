"""What is on each back, stretch by stretch: base weight, food left, wrappers, fuel left, water.

Before there is a menu the food is the target over a usual density (round 0). Afterwards it is what
the walker's own sack holds, which gets lighter as bags are eaten; wrappers stay until the leg's
end (C13), and fuel goes as it is burnt.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from oatsack.provision.moments import Falling, day_start, middles, moments
from oatsack.values.food import Meal
from oatsack.values.kitchen import KitchenLedger, WaterCarry
from oatsack.values.menu import Slot
from oatsack.values.pack import Bag, Packed, Sack
from oatsack.values.problem import Floats
from oatsack.values.route import Day
from oatsack.values.walker import Walker

ROUND_0_KCAL_PER_G = 4.2
"""Usual density of a packed food bag; common practice asks for 3.5 to 4.6. Replaced by the menu."""
MEAN_WATER_KG = 1.0
"""Water on the back while walking, where no carries are known: a stated mean, ours."""
LEAVING = frozenset({"fuel", "dog"})
"""What is carried for all and goes on the way: its mass on a day is told elsewhere."""

Clocks = Mapping[tuple[str, int, str], float]
"""(walker, day, meal) -> when it is eaten, minutes from the day's midnight."""
Load = Mapping[int, Floats]
"""Day number -> kilograms on the back at the middle of each of the day's stretches."""


@dataclass(frozen=True, slots=True)
class Backs:
    """Loads of all walkers, and the food falling in each sack [g]."""

    load_kg: Mapping[str, Load]
    food_g: Mapping[str, Falling]


def guess(walkers: Sequence[Walker], days: Sequence[Day], slots: Sequence[Slot],
          target: Mapping[str, Mapping[int, float]]) -> Backs:  # fmt: skip
    """Round 0: each walker carries a fair share of everyone's food, by capacity."""
    by_number = {day.number: day for day in days}
    grams = [
        (minute, share * _slot_g(slot, slots, target))
        for slot in slots
        for minute, share in moments(by_number[slot.day], slot.meal, slot.clock_min)
    ]
    whole = sum(w.capacity for w in walkers) or 1.0
    food = {w.id: Falling((t, g * w.capacity / whole) for t, g in grams) for w in walkers}
    return Backs({w.id: _load(w, days, food[w.id], {}, {}) for w in walkers}, food)


def heavier(backs: Backs, by_kg: float) -> Backs:
    """The same loads with so much more on every back."""
    load = {w: {n: kg + by_kg for n, kg in of.items()} for w, of in backs.load_kg.items()}
    return Backs(load, backs.food_g)


def _slot_g(slot: Slot, slots: Sequence[Slot], target: Mapping[str, Mapping[int, float]]) -> float:
    mine = [s for s in slots if s.walker == slot.walker and s.day == slot.day]
    return target[slot.walker].get(slot.day, 0.0) / ROUND_0_KCAL_PER_G / max(1, len(mine))


def weigh(walkers: Sequence[Walker], days: Sequence[Day], slots: Sequence[Slot],
          packed: Packed, ledger: KitchenLedger) -> Backs:  # fmt: skip
    """From the second round on: what each sack really holds."""
    bags = {bag.id: bag for bag in packed.bags}
    clock: Clocks = {(s.walker, s.day, str(s.meal)): s.clock_min for s in slots}
    by_number = {day.number: day for day in days}
    food, load = {}, {}
    for walker in walkers:
        mine = [sack for sack in packed.sacks if sack.walker == walker.id]
        steps = [
            step for sack in mine for b in sack.bags for step in _eaten(bags[b], by_number, clock)
        ]
        food[walker.id] = Falling(steps)
        load[walker.id] = _load(
            walker, days, food[walker.id], _dead_g(mine, bags, days, _dogs(packed, walker.id)),
            _water(ledger, days),
            _fuel(mine, days, ledger),
        )  # fmt: skip
    return Backs(load, food)


def _eaten(bag: Bag, days: Mapping[int, Day],
           clock: Clocks) -> list[tuple[float, float]]:  # fmt: skip
    """When the net contents of a bag leave the sack; spare food never does."""
    steps = []
    for item in bag.items:
        if item.day in days:
            at = clock.get((item.walker, item.day, item.meal), 720.0)
            meal: Meal = "move" if item.meal == "move" else "dinner"
            steps += [
                (t, share * item.net_g) for t, share in moments(days[item.day], meal, at)
            ]
    return steps


def _dogs(packed: Packed, walker: str) -> Mapping[int, float]:
    """Grams of the dogs' food on this back at waking, by day."""
    out: dict[int, float] = {}
    for bag in packed.dogs:
        for day, grams in bag.by_day_g.items() if bag.carrier == walker else ():
            out[int(day)] = out.get(int(day), 0.0) + grams
    return out


def _dead_g(sacks: Sequence[Sack], bags: Mapping[str, Bag], days: Sequence[Day],
            dogs_g: Mapping[int, float]) -> Mapping[int, float]:  # fmt: skip
    """Grams that the walker does not eat: wrappers, spare food, cans, container, by leg; and what
    a dog eats, as it is at waking."""
    dead = {}
    for day in days:
        mine = [s for s in sacks if s.leg == day.leg]
        held = [bags[b] for s in mine for b in s.bags]
        wrap = sum(bag.wrap_g for bag in held)
        kept = sum(i.net_g for bag in held for i in bag.items if i.day <= 0)
        common = sum(g for s in mine for name, g in s.common_g.items() if name not in LEAVING)
        dead[day.number] = wrap + kept + common + dogs_g.get(day.number, 0.0)
    return dead


def _fuel(sacks: Sequence[Sack], days: Sequence[Day], ledger: KitchenLedger) -> Mapping[int, float]:
    """Fuel on this back at each day's start [g]; it goes as the ledger burns it."""
    if ledger.fuel is None:
        return {}
    left = {}
    for leg in {day.leg for day in days}:
        mine = sum(s.common_g.get("fuel", 0.0) for s in sacks if s.leg == leg)
        in_leg = [day.number for day in days if day.leg == leg]
        burnt = {n: ledger.fuel.by_day_g.get(str(n), 0.0) for n in in_leg}
        gone = sum(g for n, g in ledger.fuel.by_day_g.items() if int(n) < min(in_leg))
        whole = max(ledger.fuel.carried_g - gone, 1e-9)  # of all backs as the leg begins
        for number in in_leg:
            before = sum(g for n, g in burnt.items() if n < number)
            left[number] = mine * max(0.0, 1.0 - before / whole)
    return left


def _water(ledger: KitchenLedger, days: Sequence[Day]) -> Mapping[int, float]:
    """Mean water on the back while walking, by day [kg]: half of each carry, by its minutes."""
    by_day: dict[int, list[WaterCarry]] = {}
    for carry in ledger.carries:
        by_day.setdefault(carry.day, []).append(carry)
    mean = {}
    for day in days:
        carries = by_day.get(day.number, [])
        minutes = sum(c.minutes for c in carries)
        if minutes > 0:
            mean[day.number] = sum(c.carry_ml * c.minutes for c in carries) / minutes / 2000.0
    return mean


def _load(walker: Walker, days: Sequence[Day], food: Falling, dead_g: Mapping[int, float],
          water_kg: Mapping[int, float],
          fuel_g: Mapping[int, float] | None = None) -> Load:  # fmt: skip
    legs = leg_ends(days)
    out = {}
    for day in days:
        at = middles(day)
        later = float(food.left(np.array([legs[day.leg]]))[0])  # food of later legs waits there
        food_kg = (food.left(at) - later) / 1000.0
        rest = walker.base_weight_kg + dead_g.get(day.number, 0.0) / 1000.0
        rest += (fuel_g or {}).get(day.number, 0.0) / 1000.0
        out[day.number] = rest + food_kg + water_kg.get(day.number, MEAN_WATER_KG)
    return out


def leg_ends(days: Sequence[Day]) -> Mapping[int, float]:
    """Leg -> the minute at which its last day ends."""
    return {day.leg: day_start(day.number + 1) for day in days}
