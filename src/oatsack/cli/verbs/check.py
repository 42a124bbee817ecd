"""`oatsack check TRIP.toml`: every fault of all files, without planning."""

from __future__ import annotations

from pathlib import Path

from oatsack.reports.words import say as told


def check(trip: Path) -> int:
    """Report every fault of a trip file, its larders and its track, without planning.

    Parameters
    ----------
    trip
        The trip file (TOML).
    """
    from oatsack.desk.opening import doubtful, open_trip, written
    from oatsack.reports.words import Voice
    from oatsack.route.days import days_of

    opened = open_trip(trip)
    days = days_of(opened.trip, opened.track)
    doubts = doubtful(opened.foods)
    voice = Voice(foods={food.id: food.name for food in opened.foods})
    for flag in (*opened.flags, *doubts):
        print(voice.flag(flag))
    for name, found in opened.dialects.items():
        print(written(name, found))
    count = len(opened.foods)
    print(told("cli.no-fault", trip=trip, days=len(days), walkers=len(opened.trip.walkers),
               foods=count))  # fmt: skip
    if doubts:
        print(told("cli.odd", n=len(doubts)))
    return 0
