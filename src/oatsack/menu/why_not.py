"""Why a food is not on the menu: a gate that refuses it, or what choosing it would cost."""

from __future__ import annotations

from oatsack.menu.allowed import reason_against
from oatsack.menu.improve import Neighbourhoods, State
from oatsack.menu.price import Engine
from oatsack.menu.structure import Mask, fixed_outside, with_bounds
from oatsack.menu.usual import Key
from oatsack.values.flags import Flag
from oatsack.values.problem import Work


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
    more = _dearer(state, engine, key, option.use, option.eat)
    if more is None:
        return _said("clash", scope, food)
    return _said("dearer", scope, food, more_g=more / frame.mean_carry)


def _said(what: str, scope: str, food: str, **values: float | str) -> Flag:
    return Flag(key=f"why-not.{what}", level="note", scope=scope, values={"food": food, **values})


def _dearer(state: State, engine: Engine, key: Key, use: int, eat: int) -> float | None:
    """How much the aim grows when this food must be taken, its day chosen anew."""
    free: Mask = Neighbourhoods(state).days([(key[0], key[1])], dinners=True)
    free[[use, eat]] = True
    low = state.problem.low.copy()
    low[use] = 1.0
    forced = with_bounds(state.problem, low, state.problem.high)
    part, _ = fixed_outside(forced, free, state.x)
    answer = engine(part, Work(nodes=100, seconds=5.0, gap_rel=0.001))
    return None if answer.x is None else max(0.0, answer.aim - state.aim)
