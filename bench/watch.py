"""Watches a search: when the first plan came, how good the best was within its seconds, CPU spent.

Wall-clock seconds mean something only on a quiet machine; CPU seconds of the process stand beside
them, so that a run on a busy one can be judged too. Two threads at work spend two of them a second.
"""

from __future__ import annotations

import threading
import time

from oatsack.values.menu import Menu


class Watch:
    """Remembers the first plan and the best within the limit, and stops after it.

    The limit is over once both clocks say so: on a quiet machine that is the wall's, and on a busy
    one the search still gets as many CPU seconds, which is at most what it would have had.
    """

    def __init__(self, limit_s: float) -> None:
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

    def spent(self) -> float:
        """Seconds of the limit that are gone."""
        return min(self.seconds(), self.cpu())

    def seconds(self) -> float:
        """Wall-clock since the start [s]."""
        return round(time.perf_counter() - self.begin, 2)

    def cpu(self) -> float:
        """CPU of the whole process since the start [s]."""
        return round(time.process_time() - self.begin_cpu, 2)


def all_quiet(most_s: float = 60.0) -> None:
    """Waits until no thread of an earlier search is at work any more."""
    end = time.perf_counter() + most_s
    while threading.active_count() > 1 and time.perf_counter() < end:
        time.sleep(0.05)
