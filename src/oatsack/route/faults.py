"""How the route says that a trip's values do not fit together, in the trip file's own terms."""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from oatsack.errors import Fault, TripFileError

if TYPE_CHECKING:
    from collections.abc import Iterable

    from oatsack.values.trip import Trip


def fault(trip: Trip, path: str, wrong: str, *, read: str, instead: str) -> Fault:
    """A fault at a path of the trip, with file and line where the trip knows them."""
    found = trip.origins.get(path) or trip.origins.get(path.partition("[")[0])
    file, line = found or ("the trip", 0)
    return Fault(
        file=file, path=path, wrong=wrong, read=read, instead=instead, line=line,
        column=1 if line else 0,
    )  # fmt: skip


def refuse(trip: Trip, path: str, wrong: str, *, read: str, instead: str) -> TripFileError:
    """The error of one fault, ready to be raised."""
    return TripFileError([fault(trip, path, wrong, read=read, instead=instead)])


def nearest(name: str, known: Iterable[str]) -> str:
    """A hint that names the known name most like this one, or all of them."""
    names = list(dict.fromkeys(known))
    folded = {one.casefold(): one for one in names}
    close = difflib.get_close_matches(name.casefold(), folded, n=1, cutoff=0.5)
    if close:
        return f"did you mean {folded[close[0]]!r}?"
    return "known: " + ", ".join(repr(one) for one in names) if names else "none are known"
