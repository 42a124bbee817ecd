"""What the desk does, said to the log of whoever asked for one (-v); it costs nothing otherwise."""

from __future__ import annotations

import sys


def note(text: str) -> None:
    """A line of the log. Logging is not loaded for it: who asked for a log has loaded it."""
    if "logging" in sys.modules:
        sys.modules["logging"].getLogger("oatsack").info(text)
