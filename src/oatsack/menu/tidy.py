"""Fewer things to buy: foods that stand on the menu only once or twice give way to foods that are
there anyway, where that costs little.

One thing less to find, bag and carry home half full is worth some grams; how many is a setting.
Nothing that the walker picked is touched, nor a dinner's main.
"""

from __future__ import annotations

from collections.abc import Sequence

from oatsack.menu.frame import Option
from oatsack.menu.improve import State
from oatsack.menu.price import Engine
from oatsack.menu.structure import Mask, fixed_outside, relaxed, with_bounds
from oatsack.menu.usual import Key
from oatsack.values.problem import Floats, Work, aim_of

THING_GRAMS = 18.0
"""What one thing less is worth, carried for the mean time; ours. Setting ``tidy.grams``."""
FEW_USES, MOST_TRIED = 2, 14
NODES, SECONDS = 5, 20.0


def tidy(state: State, engine: Engine) -> int:
    """Takes rare foods off the menu one by one; the number of things that are gone."""
    worth = state.frame.setting("tidy.grams", THING_GRAMS) * state.frame.mean_carry
    if worth <= 0.0:
        return 0
    return sum(_without(state, engine, food, worth) for food in rare(state)[:MOST_TRIED])


def uses(state: State) -> dict[str, list[Key]]:
    """Chosen food -> the meals at which it stands."""
    out: dict[str, list[Key]] = {}
    for key, options in state.frame.options.items():
        for o in options:
            if o.use >= 0 and state.x[o.eat] > 0.5:
                out.setdefault(o.food.id, []).append(key)
    return out


def things(state: State) -> set[str]:
    """Everything on the menu, picks and bags included."""
    picked = {o.food.id for options in state.frame.options.values() for o in options if o.use < 0}
    bags = {b.bag.food.id for bags in state.frame.bags.values() for b in bags
            if state.x[b.column] > 0.5}  # fmt: skip
    return picked | bags | set(uses(state))


def rare(state: State) -> list[str]:
    """Chosen foods with few uses that nobody picked, the rarest first."""
    picked = {o.food.id for options in state.frame.options.values() for o in options if o.use < 0}
    mains = {o.food.id for key, options in state.frame.options.items() if key[2] == "dinner"
             for o in options if o.food.role == "main"}  # fmt: skip
    found = {f: keys for f, keys in uses(state).items() if f not in picked | mains}
    few = [f for f, keys in found.items() if len(keys) <= FEW_USES]
    return sorted(few, key=lambda f: (len(found[f]), f))


def _without(state: State, engine: Engine, food: str, worth: float) -> bool:
    """Chooses a food's meals, and what is nibbled on those days, anew from what is there anyway;
    True when it is gone."""
    stands = uses(state).get(food, [])
    nibbles: set[Key] = {(who, day, "move") for who, day, _ in stands}
    options = [o for key in sorted({*stands, *nibbles}) for o in state.frame.options.get(key, ())
               if o.use >= 0]  # fmt: skip
    there = things(state) - {food}
    part, numbers = fixed_outside(
        with_bounds(state.problem, state.problem.low, _barred(state, options, food)),
        _free(state, options, there, food), state.x,
    )  # fmt: skip
    most = state.aim + worth
    if engine(relaxed(part), Work()).bound > most:
        return False
    answer = engine(part, Work(nodes=NODES, seconds=SECONDS, gap_abs=0.3 * worth,
                               halt=lambda bound: bound > most))  # fmt: skip
    if answer.x is None or answer.aim > most:
        return False
    state.x[numbers] = answer.x
    state.aim = aim_of(state.problem, state.x)
    return True


def _free(state: State, options: Sequence[Option], there: set[str], food: str) -> Mask:
    """What may change: the days' portions of foods that are there; shared dishes stay."""
    free = ~state.problem.integer
    for o in options:
        if o.food.id in there or o.food.id == food:
            if o.food.id in state.frame.buy:
                free[state.frame.buy[o.food.id]] = True
            free[o.eat] = True
            free[o.use] |= not state.problem.columns[o.use].startswith("dish/")
    return free


def _barred(state: State, options: Sequence[Option], food: str) -> Floats:
    high = state.problem.high.copy()
    for o in options:
        if o.food.id == food:
            high[o.eat] = 0.0
            high[o.use] = 0.0
    return high
