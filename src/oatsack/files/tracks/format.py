"""What one track format is, and the bounds that hold for all of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from oatsack.errors import Fault
from oatsack.values.route import Track

MOST_BYTES = 40_000_000
MOST_POINTS = 200_000
"""A long walk recorded every second has about as many in a week."""
MOST_FAULTS = 20
"""A file full of the same mistake is told of it this often."""

AGAIN = "export the track again, or mend it at this place"


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
    """One format: how its files are known, and how they are read."""

    name: str
    help: str
    knows: Callable[[bytes, str], bool]
    """Whether these bytes, from a file of this name, are of this format."""
    read: Callable[[bytes, str], Track]


def fault(
    file: str, path: str, wrong: str, *, read: str, instead: str = "", at: tuple[int, int] = (0, 0)
) -> Fault:
    """A fault in a track; `at` is line and column, from 1, or (0, 0) where unknown."""
    return Fault(
        file=file, path=path, wrong=wrong, read=read, instead=instead or AGAIN, line=at[0],
        column=at[1],
    )
