"""Engine calls side by side, asking meanwhile whether that is enough; and clocks that ran out.

Answers come back in the order of the questions, whichever was done first, so that equal work gives
equal menus. What the search does with them is no business of this file.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import Future, ThreadPoolExecutor, wait
from dataclasses import dataclass, field, replace
from types import TracebackType

from oatsack.values.problem import Answer, Problem, Work

Engine = Callable[[Problem, Work], Answer]
AT_ONCE = 2
"""Questions solved side by side; ours, for the two cores that every machine has."""
ASK_S = 0.2
"""So often is asked whether that is enough, while the engine is at work."""


@dataclass(slots=True)
class Clocked:
    """An engine that remembers when its clock ended it before its work was done."""

    engine: Engine
    fired: list[str] = field(default_factory=list)
    """A column of each problem that was left so."""

    def __call__(self, problem: Problem, work: Work) -> Answer:
        """The engine's answer."""
        answer = self.engine(problem, work)
        if answer.ended == "clock":
            self.fired.append(problem.columns[0] if problem.columns else "")
        return answer


class Lanes:
    """Some questions at once; `ask` is asked while they are at work, and True ends them."""

    def __init__(self, engine: Engine, ask: Callable[[], bool]) -> None:
        self.engine, self.ask, self.halted = engine, ask, False
        self.pool = ThreadPoolExecutor(AT_ONCE)

    def __enter__(self) -> Lanes:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:  # fmt: skip
        """Ends what is still at work, where asking raised an error."""
        self.halted = self.halted or error is not None
        self.pool.shutdown()

    def run(self, questions: Sequence[tuple[Problem, Work]]) -> list[Answer]:
        """An answer for each question, in order; what was found so far where it was ended."""
        futures = [
            self.pool.submit(self.engine, problem, replace(work, halt=self._enough))
            for problem, work in questions
        ]
        self.wait(futures)
        return [future.result() for future in futures]

    def wait(self, futures: Sequence[Future[Answer]]) -> None:
        """Waits until all are done, asking meanwhile."""
        while wait(futures, timeout=ASK_S).not_done:
            self.halted = self.halted or self.ask()

    def _enough(self, bound: float) -> bool:
        return self.halted
