"""What the walkers picked and held, as fixed portions and open bags; the chooser never swaps it.

Choices of a meal rotate in day order. Bags are whole packs laid over the days on which one nibbles.
Counts are counted per day, mug, bottle or trip. A pick that meets its own walker's allergy or diet
is left out and flagged (C11); one that no longer applies is reported, never dropped in silence.
A ban is a later word than a usual: what is banned somewhere is not served there as a pick either.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from oatsack.menu.allowed import Gate, covers, forbidden, reason_against, unsafe
from oatsack.menu.sizes import sensible_g
from oatsack.values.flags import Flag, Level
from oatsack.values.food import Food, Meal
from oatsack.values.menu import MenuRequest, Slot, Why
from oatsack.values.trip import Hold
from oatsack.values.walker import Count, Walker

Key = tuple[str, int, Meal]
"""Walker, day, meal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixed:
    """A portion that stands before anything is chosen."""

    slot: Slot
    food: Food
    doses: float
    why: Why


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """Whole packs of one food, opened on one day and nibbled evenly until another."""

    walker: str
    food: Food
    days: tuple[int, ...]
    packs: float = 1.0


@dataclass(slots=True)
class Given:
    """Everything that stands before the chooser starts."""

    fixed: list[Fixed] = field(default_factory=list)
    bags: list[Bag] = field(default_factory=list)
    whole: set[Key] = field(default_factory=set)
    """Meals the walker picked in full: nothing is added there."""
    flags: list[Flag] = field(default_factory=list)


def given_of(request: MenuRequest, gate: Gate) -> Given:
    """Fixed portions and bags of all walkers, from their holds, usuals and counts."""
    out = Given()
    foods = {f.id: f for f in request.foods}
    for hold in request.rules.holds:
        _hold(out, hold, request, gate, foods)
    for walker in request.walkers:
        slots = [s for s in request.slots if s.walker == walker.id]
        _meals(out, walker, slots, gate, foods)
        _counts(out, walker, slots, gate, foods)
        _bags(out, walker, slots, gate, foods)
    return out


def _hold(
    out: Given, hold: Hold, request: MenuRequest, gate: Gate, foods: Mapping[str, Food]
) -> None:
    food = foods.get(hold.food)
    if food is None:
        out.flags.append(_lost(hold, "unknown"))
        return
    found = [s for s in request.slots if covers(hold, s)]
    if hold.count <= 0:
        if not found:
            out.flags.append(_lost(hold, _nowhere(hold, request)))
        return
    placed = _place(found, food, hold, gate)
    if not placed:
        out.flags.append(_lost(hold, "refused" if found else _nowhere(hold, request)))
    for slot in placed:
        out.fixed.append(Fixed(slot=slot, food=food, doses=hold.count, why="held"))


def _nowhere(hold: Hold, request: MenuRequest) -> str:
    """Why no meal of the walk is meant by a hold or ban."""
    if hold.walker is not None and hold.walker not in {w.id for w in request.walkers}:
        return "nobody"
    outside = hold.date is not None and hold.date not in {s.date for s in request.slots}
    return "no-day" if outside else "no-meal"


def _place(found: Sequence[Slot], food: Food, hold: Hold, gate: Gate) -> list[Slot]:
    """One slot per walker and day where the held food can stand."""
    seen: set[tuple[str, int]] = set()
    out = []
    for slot in found:
        natural = hold.meal is not None or slot.meal in food.meals
        if natural and (slot.walker, slot.day) not in seen and unsafe(gate, food, slot) is None:
            seen.add((slot.walker, slot.day))
            out.append(slot)
    return out


def _lost(hold: Hold, why: str) -> Flag:
    when = "" if hold.date is None else hold.date.isoformat()
    return Flag(
        key="menu.hold-lost", level="quiet", scope=f"menu/{hold.walker or 'all'}",
        values={"food": hold.food, "walker": hold.walker or "", "date": when,
                "meal": hold.meal or "", "why": why},
    )  # fmt: skip


def _meals(
    out: Given, walker: Walker, slots: Sequence[Slot], gate: Gate, foods: Mapping[str, Food]
) -> None:
    held = {(f.slot.walker, f.slot.day, f.slot.meal) for f in out.fixed if f.food.role == "main"}
    before = gate.request.eaten_before.get(walker.id, {})
    for meal, choices in walker.usual.meals.items():
        turns = [s for s in slots if s.meal == meal]
        for turn, slot in enumerate(turns, before.get(meal, 0)):
            key = (walker.id, slot.day, slot.meal)
            if not choices or key in held:
                continue
            picks = [p for p in choices[turn % len(choices)].picks
                     if not forbidden(gate.request, p.food, slot)]  # fmt: skip
            kept = [(foods.get(p.food), p.count, p.food) for p in picks]
            added = [_pick(out, slot, food, count, name, gate) for food, count, name in kept]
            if any(added):
                out.whole.add(key)


def _pick(
    out: Given, slot: Slot, food: Food | None, count: float, name: str, gate: Gate
) -> bool:  # fmt: skip
    reason = "unknown" if food is None else unsafe(gate, food, slot)
    if food is None or reason is not None:
        out.flags.append(_refused(slot.walker, name, reason or "unknown", slot.meal))
        return False
    soft = reason_against(gate, food, slot)
    if soft not in (None, "meal", "disliked"):
        out.flags.append(_doubted(slot, name, str(soft)))
    out.fixed.append(Fixed(slot=slot, food=food, doses=count, why="usual"))
    return True


def _refused(walker: str, name: str, reason: str, meal: str) -> Flag:
    level: Level = "quiet" if reason == "unknown" else "caution"
    return Flag(
        key="menu.pick-refused", level=level, scope=f"menu/{walker}",
        values={"walker": walker, "food": name, "why": reason, "meal": meal},
    )  # fmt: skip


def _doubted(slot: Slot, name: str, reason: str) -> Flag:
    return Flag(
        key="menu.pick-doubted", level="quiet", scope=f"menu/{slot.walker}/{slot.day}/{slot.meal}",
        values={"walker": slot.walker, "food": name, "why": reason, "day": slot.day,
                "meal": slot.meal},
    )  # fmt: skip


def _counts(
    out: Given, walker: Walker, slots: Sequence[Slot], gate: Gate, foods: Mapping[str, Food],
) -> None:  # fmt: skip
    for count in walker.usual.counts:
        food = foods.get(count.food)
        reason = "unknown" if food is None else _unsafe_anywhere(gate, food, slots)
        if food is None or reason is not None:
            out.flags.append(_refused(walker.id, count.food, reason or "unknown", "drinks"))
            continue
        for slot, doses in _counted(count, food, slots, gate.request):
            if doses > 0 and not forbidden(gate.request, count.food, slot):
                out.fixed.append(Fixed(slot=slot, food=food, doses=doses, why="count"))


def _counted(
    count: Count, food: Food, slots: Sequence[Slot], request: MenuRequest
) -> Iterable[tuple[Slot, float]]:
    """Where a counted thing stands, and how many, rounded up to whole ones per day. What is counted
    by the trip is carried on the first leg."""
    places = _one_per_day(slots, "drinks" if count.per != "bottle" else "move")
    if count.per == "trip":
        first = [s for s in places if s.leg == places[0].leg]
        begun = any(request.eaten_before.get(s.walker) for s in places[:1])
        return [(first[-1], count.count)] if first and not begun else []
    return [(slot, _per_day(count, slot, request)) for slot in places]


def _per_day(count: Count, slot: Slot, request: MenuRequest) -> float:
    if count.per == "mug":
        mugs = request.hot_drinks.get(slot.walker, {}).get(slot.day, 0.0)
        return math.ceil(count.count * mugs - 1e-9)
    if count.per == "bottle":
        once = float(len(request.kit.bottles_ml))
        fills = request.bottle_fills.get(slot.walker, {}).get(slot.day, once)
        return math.ceil(count.count * fills - 1e-9)
    return count.count


def _one_per_day(slots: Sequence[Slot], meal: str) -> list[Slot]:
    by_day: dict[int, Slot] = {}
    for slot in slots:
        if slot.meal == meal or slot.day not in by_day:
            by_day[slot.day] = slot
    return [by_day[day] for day in sorted(by_day)]


def _unsafe_anywhere(gate: Gate, food: Food, slots: Sequence[Slot]) -> str | None:
    """The first safety gate that refuses a counted thing or a bag at any meal (C10, C11)."""
    return next((why for slot in slots if (why := unsafe(gate, food, slot)) is not None), None)


def _bags(
    out: Given, walker: Walker, slots: Sequence[Slot], gate: Gate, foods: Mapping[str, Food],
) -> None:  # fmt: skip
    moves = [s for s in slots if s.meal == "move"]
    days = [s.day for s in moves]
    for pick in walker.usual.bags:
        if moves and all(forbidden(gate.request, pick.food, s) for s in moves):
            continue
        food = foods.get(pick.food)
        reason = "unknown" if food is None else _unsafe_anywhere(gate, food, slots)
        if food is None or reason is not None or not days:
            out.flags.append(_refused(walker.id, pick.food, reason or "unknown", "move"))
            continue
        request = gate.request
        packs = pick.count if pick.count > 0 else _packs_that_fit(out, walker, food, request, days)
        out.bags += [
            Bag(walker=walker.id, food=food, days=piece, packs=each)
            for piece, each in lay_out(days, packs)
        ]


def _packs_that_fit(
    out: Given, walker: Walker, food: Food, request: MenuRequest, days: Sequence[int]
) -> float:  # fmt: skip
    """Whole packs of a bag whose number the walker left open: a sensible amount a day, and no more
    than this bag's part of half the day's energy; at least 1."""
    open_picks = max(1, sum(1 for p in walker.usual.bags if p.count <= 0))
    wanted = 0.5 * sum(request.target_kcal[walker.id].get(d, 0.0) for d in days)
    taken = sum(b.packs * b.food.dose_kcal * b.food.doses_per_pack for b in out.bags
                if b.walker == walker.id)  # fmt: skip
    taken += sum(f.doses * f.food.dose_kcal for f in out.fixed
                 if f.slot.walker == walker.id and f.slot.meal in ("lunch", "move"))  # fmt: skip
    room_g = (wanted - taken) / open_picks / max(food.dose_kcal, 1.0) * food.dose_g
    daily_g = sum(sensible_g(food, "move")) / 2.0 * len(days)
    return max(1.0, math.floor(min(room_g, daily_g) / food.pack_g + 0.25))


def lay_out(days: Sequence[int], packs: float) -> list[tuple[tuple[int, ...], float]]:
    """Packs one after another over the days: pieces of days, and packs in each piece."""
    whole = max(1, round(packs))
    if whole >= len(days):
        n = len(days)
        return [((d,), float((i + 1) * whole // n - i * whole // n)) for i, d in enumerate(days)]
    cuts = [round(i * len(days) / whole) for i in range(whole + 1)]
    return [(tuple(days[a:b]), packs / whole) for a, b in pairwise(cuts)]
