"""A menu close to a relaxed answer: of every food at most what that answer holds, rounded up.

The relaxed answer is nearly whole where money or room decides, since each meal then has its one
best food. Few columns are left, so that the engine soon has a menu of whole things; where it finds
none, `menu/build` makes one from tables.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from oatsack.menu.frame import Frame
from oatsack.menu.price import Engine
from oatsack.menu.structure import TOLERANCE, bought, fixed_outside
from oatsack.values.problem import Floats, Problem, Work, aim_of, worst_breach

NODES, ENOUGH_GAP = 1, 0.03
USED = 1e-6
MORE = (0.0, 1.0)
"""Of what stands, so much more than rounded up may be eaten, one try after the other; ours."""


def rounded(
    frame: Frame, problem: Problem, engine: Engine, near: Floats
) -> tuple[Floats, float] | None:
    """An answer with its aim; None where the engine finds none at the root of its tree."""
    for more in MORE:
        cut = replace(problem, high=ceilings(frame, problem, near, more))
        part, numbers = fixed_outside(cut, cut.high > cut.low, cut.low)
        answer = engine(part, Work(nodes=NODES, gap_rel=ENOUGH_GAP))
        full = cut.low.copy()
        if answer.x is not None:
            full[numbers] = answer.x
        if answer.x is not None and worst_breach(problem, full) <= TOLERANCE:
            return full, aim_of(problem, full)
    return None


def ceilings(frame: Frame, problem: Problem, near: Floats, more: float) -> Floats:
    """The most of every column. What measures or buys is as free as ever, and so is the use of
    what may be eaten; of an elastic problem only what gives already may give."""
    stands = near > USED
    most = np.where(stands, np.ceil(near - USED) + more, 0.0)
    gives = np.array([name.startswith("give/") for name in problem.columns], bool)
    free = bought(problem) & (stands | ~gives)
    high = np.where(free, problem.high, np.clip(most, problem.low, problem.high))
    for options in frame.options.values():
        for o in options:
            if o.use >= 0 and stands[o.eat]:
                high[o.use] = problem.high[o.use]
    return high
