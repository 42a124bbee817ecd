"""`oatsack check TRIP.toml`: every fault of all files, without planning."""

from __future__ import annotations

import sys
from pathlib import Path


def check(trip: Path) -> int:
    """Report every fault of a trip file, its larders and its track, without planning.

    Parameters
    ----------
    trip
        The trip file (TOML).
    """
    from oatsack.desk.checking import checked
    from oatsack.reports.words import say

    found = checked(trip)
    for fault in found.faults:
        print(fault, file=sys.stderr)
    for line in (*found.doubts, *found.notes):
        print(line)
    if not found.faults:
        print(say("check-trip.sound", file=trip, days=found.days, walkers=found.walkers,
                  foods=found.foods))  # fmt: skip
    if found.doubts:
        print(say("check-trip.odd", n=len(found.doubts)))
    return 2 if found.faults else 0
