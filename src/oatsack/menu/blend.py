"""Chooses anew among what the menu and the relaxed answer use; all else stays out.

The relaxed answer knows which foods belong together over the whole trip, the menu which of them
make whole meals. Few columns are in either, so that the engine soon says what is best of both.
"""

from __future__ import annotations

import numpy as np

from oatsack.menu.improve import State, stepped
from oatsack.menu.lanes import Lanes
from oatsack.menu.price import Engine
from oatsack.menu.structure import Mask

NODES, ENOUGH_GAP = 1, 0.03
"""The root of the engine's tree is nearly all there is to gain; ours, measured."""
USED = 1e-6


def blend(state: State, engine: Engine, *, more: int = 0) -> bool:
    """The best menu of what either uses, and of the `more` columns that rank next; True when it
    is better. Every answer is one of the whole matrix."""
    with Lanes(engine, lambda: False) as lanes:
        return blended(state, lanes, more=more, gap=ENOUGH_GAP)


def blended(state: State, lanes: Lanes, *, more: int, gap: float) -> bool:
    """The same, as a step of a search that may be ended; `gap` is a share of the aim."""
    enough = gap * len(state.frame.day_keys)
    return stepped(state, lanes, [used_by_either(state, more)], enough=enough, nodes=NODES)


def used_by_either(state: State, more: int) -> Mask:
    """Columns above nothing in the menu or in the relaxed answer, what measures, and the next in
    rank; a portion never without its use."""
    problem, prices = state.problem, state.relaxed.prices
    free: Mask = ~problem.integer | (state.relaxed.x > USED) | (state.x > USED)
    rank = np.where(free, np.inf, prices.rank)
    free[np.argsort(rank, kind="stable")[:more]] = True
    for options in state.frame.options.values():
        for o in options:
            if o.use >= 0 and (free[o.eat] or free[o.use]):
                free[o.eat] = free[o.use] = True
    return free
