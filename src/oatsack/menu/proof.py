"""The proof beside the search: a bound that grows while menus get better.

The engine works on the whole problem and looks for no answers, only for what no menu can beat. It
starts from a menu, since what cannot be in a better one need not be looked at. Its bound can be
read at any moment; what the search does never depends on when that is.
"""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor, wait

from oatsack.menu.bound import proven
from oatsack.menu.frame import Frame
from oatsack.menu.lanes import ASK_S, Engine
from oatsack.menu.price import WHOLE_UP_TO, Relaxed
from oatsack.values.problem import Floats, Problem, Work

DAYS_FIRST = 8_000
"""From so many columns on, days apart prove more in the first seconds than the whole; ours."""
PROOF_SECONDS = 600.0


class Proof:
    """A bound for the whole problem, in the making."""

    def __init__(self, frame: Frame, problem: Problem, relaxed: Relaxed, engine: Engine) -> None:
        self.frame, self.problem, self.relaxed, self.engine = frame, problem, relaxed, engine
        self.bound, self.enough = relaxed.bound, False
        self.pool = ThreadPoolExecutor(1)

    def begin(self, x: Floats, *, nodes: int) -> None:
        """Starts beside the search, from a menu; `nodes` says how much work it may be."""
        self.future = self.pool.submit(self._prove, x.copy(), nodes)

    def joined(self, ask: Callable[[], bool]) -> bool:
        """Waits until all its work is done, True, or `ask` says that it is enough."""
        while not self.enough and wait([self.future], timeout=ASK_S).not_done:
            self.enough = ask()
        if not self.enough:
            self.future.result()
        return not self.enough

    def end(self) -> None:
        """Ends it where it stands; the engine leaves off as soon as it asks."""
        self.enough = True
        self.pool.shutdown(wait=False)

    def _prove(self, x: Floats, nodes: int) -> None:
        size = len(self.problem.columns)
        if size > DAYS_FIRST:
            found = proven(
                self.frame, self.problem, self.relaxed, self.engine, halt=lambda _: self.enough
            )  # fmt: skip
            self._heard(found)
        if size <= WHOLE_UP_TO and not self.enough:
            work = Work(nodes=nodes, seconds=PROOF_SECONDS, hint=x, prove=True, halt=self._heard)
            self._heard(self.engine(self.problem, work).bound)

    def _heard(self, bound: float) -> bool:
        self.bound = max(self.bound, bound)
        return self.enough
