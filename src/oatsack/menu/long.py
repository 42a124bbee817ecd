"""The long search: for whoever gives it seconds, with the proof beside it.

It begins with the best of what the first menu and the relaxed answer use, then takes all its steps.
What is done never depends on how far the proof has come meanwhile, so that equal work gives equal
menus.
"""

from __future__ import annotations

from oatsack.menu.blend import blended
from oatsack.menu.exchange import exchange_of
from oatsack.menu.improve import STEPS_PER_WORK, State, Stop, improve
from oatsack.menu.lanes import Engine, Lanes
from oatsack.menu.proof import Proof
from oatsack.values.problem import Work

BLENDED_UP_TO = 16_000
"""Columns up to which a look at all days at once is worth its time; ours, measured."""
BLENDED, BLEND_GAP = 100, 0.025
"""Columns to choose from besides those in use, and how near to its best, as a share; ours."""
TRIES = 300
"""Exchanges between some steps and the next; ours, measured."""
NODES_PER_WORK = 8
"""Nodes of the proof beyond its root, for every four times the everyday work beyond eight; ours."""
FEW_AT_LAST, NODES_AT_LAST, AT_LAST_SECONDS = 700, 20, 600.0
"""With so few whole-number columns the engine has the last word, for so many nodes; ours."""


def searched_long(state: State, engine: Engine, stop: Stop, *, close: float) -> str:
    """Betters the menu and its bound; `close` is the share of the aim at which it counts as
    proved. Says how it ended: proved, work or stopped."""
    work = state.frame.request.budget_work
    proof = Proof(state.frame, state.problem, state.relaxed, engine)
    proof.begin(state.x, nodes=max(1, NODES_PER_WORK * (work // 4 - 2)))

    def ask(now: State) -> bool:
        now.bound = max(now.bound, min(proof.bound, now.aim))
        return stop(now)

    try:
        ended = _bettered(state, engine, ask, steps=work * STEPS_PER_WORK)
        if ended != "stopped":
            whole = proof.joined(lambda: ask(state))
            ended = _at_last(state, engine, ask, close=close) if whole else "stopped"
    finally:
        proof.end()
    state.bound = max(state.bound, min(proof.bound, state.aim))
    return ended


def _bettered(state: State, engine: Engine, stop: Stop, *, steps: int) -> str:
    """The best of what menu and relaxed answer use on all days at once, then all steps."""
    if len(state.problem.columns) <= BLENDED_UP_TO:
        with Lanes(engine, lambda: stop(state)) as lanes:
            blended(state, lanes, more=BLENDED, gap=BLEND_GAP)
        if lanes.halted or stop(state):
            return "stopped"
    exchange = exchange_of(state)
    return improve(
        state, engine, steps=steps, done_gap=-1.0, stop=stop,
        between=lambda: exchange.better(engine, tries=TRIES, stop=lambda: stop(state)),
    )  # fmt: skip


def _at_last(state: State, engine: Engine, stop: Stop, *, close: float) -> str:
    """The engine on the whole of a problem that is small enough, with the menu as a start."""
    gap = close * abs(state.aim)
    if stop(state):
        return "stopped"
    if state.aim - state.bound > gap and state.problem.integer.sum() <= FEW_AT_LAST:
        work = Work(nodes=NODES_AT_LAST, seconds=AT_LAST_SECONDS, gap_abs=gap, seed=state.seed,
                    hint=state.x)  # fmt: skip
        with Lanes(engine, lambda: stop(state)) as lanes:
            answer = lanes.run([(state.problem, work)])[0]
        state.bound = max(state.bound, min(answer.bound, state.aim))
        if answer.x is not None and answer.aim < state.aim:
            state.x, state.aim = answer.x, answer.aim
        if lanes.halted:
            return "stopped"
    return "proved" if state.aim - state.bound <= gap else "work"
