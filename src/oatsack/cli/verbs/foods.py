"""`oatsack foods [WORDS]`: what the larder holds."""

from __future__ import annotations


def foods(*words: str) -> int:
    """Search the larder."""
    return 0
