"""Watches a search: when the first plan came, how good the best was within its seconds, CPU spent.

Wall-clock seconds mean something only on a quiet machine; CPU seconds of the process stand beside
them, so that a run on a busy one can be judged too. With two threads CPU may exceed the wall.
"""

from __future__ import annotations

import time
from collections.abc import Callable

from oatsack.values.menu import Menu


class Watch:
    """Remembers the first plan and the best within the limit, and stops after it.

    The limit is in CPU seconds with `by_cpu`, so that other work on the machine takes none of it.
    """

    def __init__(self, limit_s: float, *, by_cpu: bool = False) -> None:
        self.spent: Callable[[], float] = self.cpu if by_cpu else self.seconds
        self.begin, self.begin_cpu = time.perf_counter(), time.process_time()
        self.limit_s = limit_s
        self.first: Menu | None = None
        self.first_s: float | None = None
        self.first_cpu_s: float | None = None
        self.best: Menu | None = None
        """The best menu shown within the limit; the first one where that came later."""

    def __call__(self, menu: Menu) -> bool:
        if self.first is None:
            self.first, self.first_s, self.first_cpu_s = menu, self.seconds(), self.cpu()
        if self.best is None or self.spent() <= self.limit_s:
            self.best = menu
        return self.spent() < self.limit_s

    def seconds(self) -> float:
        """Wall-clock since the start [s]."""
        return round(time.perf_counter() - self.begin, 2)

    def cpu(self) -> float:
        """CPU of the whole process since the start [s]."""
        return round(time.process_time() - self.begin_cpu, 2)
