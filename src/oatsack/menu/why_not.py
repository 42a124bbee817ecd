"""Why a food is not on the menu: a gate that refuses it, or what choosing it would cost.

Asked of one meal, or of the whole trip: then the gates say where it may not stand, and of the meals
where it may the few that look best are tried, the food forced in and its day chosen anew.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from oatsack.menu.allowed import reason_against
from oatsack.menu.frame import Option, is_bag
from oatsack.menu.improve import Neighbourhoods, State
from oatsack.menu.price import Engine
from oatsack.menu.structure import Mask, fixed_outside, with_bounds
from oatsack.menu.usual import Key
from oatsack.values.flags import Flag
from oatsack.values.food import Food
from oatsack.values.problem import Floats, Work

MOST_TRIED = 5
"""So many places are tried where a food may stand at more; ours."""
NODES, SECONDS, GAP = 40, 5.0, 0.001
NOTHING_G = 0.5
Place = tuple[Key, tuple[int, ...]]
"""A meal, and the columns that are forced in for a food to stand there."""


def anywhere(
    state: State, engine: Engine, food: Food, prices: Mapping[str, Floats]
) -> tuple[Flag, ...]:
    """Why a food is nowhere on the menu, walker by walker where gates differ; where it stands if
    it does. `prices` are those of single aims by column: what it would cost is told by them."""
    stands = _stands(state, food)
    if stands:
        return tuple(_at("chosen-at", key, food) for key in stands[:MOST_TRIED])
    places = _places(state, food)
    if not places:
        return tuple(_refusals(state, food))
    found = [(after, key) for key, columns in places
             if (after := _forced(state, engine, key, columns, food.id)) is not None]  # fmt: skip
    if not found:
        return (_at("clash-at", places[0][0], food),)
    x, key = min(found, key=lambda one: float(state.problem.cost @ one[0]))
    parts = _parts(state, prices, x)
    return (_at("would-cost" if parts["more_g"] >= NOTHING_G else "level", key, food, **parts),)


def _stands(state: State, food: Food) -> list[Key]:
    """Meals at which it is eaten, from an open bag too."""
    meals = [key for key, options in state.frame.options.items()
             for o in options if o.food.id == food.id and state.x[o.eat] > 0.5]  # fmt: skip
    bags: list[Key] = [
        (who, b.bag.days[0], "move")
        for who, bags in state.frame.bags.items()
        for b in bags
        if b.bag.food.id == food.id and state.x[b.column] > 0.0
    ]
    return [*meals, *bags]


def _places(state: State, food: Food) -> list[Place]:
    """Meals and bags through which it could be eaten, those that look best first."""
    out: list[Place] = [
        (key, (o.use, o.eat)) for key, options in state.frame.options.items()
        for o in options if o.food.id == food.id and o.use >= 0
    ]  # fmt: skip
    out += [((who, b.bag.days[0], "move"), (b.column,)) for who, bags in state.frame.bags.items()
            for b in bags if b.bag.food.id == food.id and not b.fixed]  # fmt: skip
    rank = state.relaxed.prices.rank
    return sorted(out, key=lambda place: sum(rank[c] for c in set(place[1])))[:MOST_TRIED]


def _refusals(state: State, food: Food) -> Iterable[Flag]:
    """The gate that most often refuses it, by walker; of meals that it is not made for only where
    nothing else does."""
    for walker in state.frame.days:
        keys = [key for key in state.frame.slots if key[0] == walker]
        gates = Counter(_gate(state, food, key) for key in keys)
        told = [gate for gate in gates if gate not in ("meal", "")] or [g for g in gates if g]
        if not told:
            yield Flag(key="why-not.picked-all", level="note", scope=f"menu/{walker}",
                       values={"food": food.id, "walker": walker})  # fmt: skip
        else:
            gate = max(told, key=lambda g: gates[g])
            yield Flag(key="why-not.gate-all", level="note", scope=f"menu/{walker}",
                       values={"food": food.id, "walker": walker, "gate": gate})  # fmt: skip


def _gate(state: State, food: Food, key: Key) -> str:
    slot = state.frame.slots[key]
    if is_bag(food) and key[2] == "move":
        return reason_against(state.frame.gate, food, slot) or "meal"
    return reason_against(state.frame.gate, food, slot) or ""


def _forced(
    state: State, engine: Engine, key: Key, columns: Sequence[int], food: str
) -> Floats | None:  # fmt: skip
    """The menu in which these columns are taken, their day (or a bag's days) chosen anew."""
    free: Mask = Neighbourhoods(state).days(_days(state, key, columns), dinners=True)
    free[list(columns)] = True
    if food in state.frame.buy:
        free[state.frame.buy[food]] = True
    low = state.problem.low.copy()
    low[list(columns)] = np.maximum(low[list(columns)], 1.0)
    part, numbers = fixed_outside(
        with_bounds(state.problem, low, state.problem.high), free, state.x
    )  # fmt: skip
    answer = engine(part, Work(nodes=NODES, seconds=SECONDS, gap_rel=GAP))
    if answer.x is None:
        return None
    x = state.x.copy()
    x[numbers] = answer.x
    return x


def _days(state: State, key: Key, columns: Sequence[int]) -> list[tuple[str, int]]:
    """The walker-days that change with it: all who share the dish, all days of the bag."""
    shared = [o.slot for c in columns for o in state.frame.sharers.get(c, ())]
    bag = [b.bag.days for b in state.frame.bags.get(key[0], ()) if b.column in columns]
    if shared:
        return sorted({(slot.walker, slot.day) for slot in shared})
    return [(key[0], day) for day in (bag[0] if bag else (key[1],))]


def _parts(state: State, prices: Mapping[str, Floats], x: Floats) -> dict[str, float]:
    """What is lost and won against the menu as it stands, in grams carried for the mean time."""
    carry = state.frame.mean_carry
    change = x - state.x
    parts = {f"{name.replace('-', '_')}_g": float(cost @ change) / carry
             for name, cost in prices.items()}  # fmt: skip
    more = float(state.problem.cost @ change) / carry
    return {"more_g": max(more, 0.0), **parts, "rest_g": more - sum(parts.values())}


def _at(what: str, key: Key, food: Food, **values: float) -> Flag:
    walker, day, meal = key
    return Flag(
        key=f"why-not.{what}",
        level="note",
        scope="/".join(("menu", *map(str, key))),
        values={"food": food.id, "walker": walker, "day": day, "meal": meal, **values},
    )


def why_not(state: State, engine: Engine, key: Key, food: str) -> Flag:
    """One flag: ``why-not.gate`` with the gate's name, ``why-not.picked`` where the walker chose
    the whole meal, ``why-not.chosen`` where it is there, ``why-not.clash`` where nothing fits with
    it, or ``why-not.dearer`` with the grams, carried for the mean time, that it would cost."""
    frame = state.frame
    scope = "/".join(("menu", *map(str, key)))
    row = next((f for f in frame.request.foods if f.id == food), None)
    if row is None or key not in frame.slots:
        return Flag(key="why-not.unknown", level="note", scope=scope, values={"food": food})
    gate = reason_against(frame.gate, row, frame.slots[key])
    if gate is not None:
        return _said("gate", scope, food, gate=gate)
    if key in frame.given.whole:
        return _said("picked", scope, food)
    option = next((o for o in frame.options.get(key, ()) if o.food.id == food), None)
    if option is None:
        return _said("picked", scope, food)
    if state.x[option.use] > 0.5:
        return _said("chosen", scope, food)
    more = _dearer(state, engine, key, option)
    if more is None:
        return _said("clash", scope, food)
    return _said("dearer", scope, food, more_g=more / frame.mean_carry)


def _said(what: str, scope: str, food: str, **values: float | str) -> Flag:
    return Flag(key=f"why-not.{what}", level="note", scope=scope, values={"food": food, **values})


def _dearer(state: State, engine: Engine, key: Key, option: Option) -> float | None:
    """How much the aim grows when this food must be taken, its day chosen anew."""
    x = _forced(state, engine, key, (option.use, option.eat), option.food.id)
    return None if x is None else max(0.0, float(state.problem.cost @ (x - state.x)))
