"""Where the pages solve: in processes that can be left. The workshop is loaded when first wanted,
so that the first page need not wait for it."""

from __future__ import annotations

import threading
from typing import Any

from oatsack.desk.solving import Asked, Hear, Planned, Works


class Elsewhere:
    """Solves in processes that can be left; `workshop` is loaded when the first is wanted."""

    def __init__(self) -> None:
        self._shop: Works | None = None
        self._lock = threading.Lock()

    def _opened(self) -> Works:
        with self._lock:
            if self._shop is None:
                from oatsack.desk.workshop import Workshop

                self._shop = Workshop()
            return self._shop

    def plan(self, asked: Asked, hear: Hear) -> Planned:
        """The plan of a text."""
        return self._opened().plan(asked, hear)

    def do(self, task: str, asked: Any, hear: Hear) -> Any:
        """A named function of what is asked and who hears."""
        return self._opened().do(task, asked, hear)

    def warm(self) -> None:
        """A process made ready."""
        self._opened().warm()
