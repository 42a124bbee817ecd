"""Reserves what a packed plan takes from the stock at home, and releases it again (C17)."""

from __future__ import annotations

from collections.abc import Iterator

from oatsack.desk.export import write_file
from oatsack.desk.home import Home
from oatsack.desk.opening import RESERVED, reserved_as
from oatsack.files.reserved import Reserved, read_reserved, write_reserved
from oatsack.packing.buy import reserved_g
from oatsack.reports.telling import telling, version


def taken(home: Home) -> tuple[Reserved, ...]:
    """What the plan takes from home, in packs."""
    plan, trip = home.plan, _trip(home)
    return tuple(
        Reserved(trip=trip, plan=version(plan), food=food, packs=grams / plan.foods[food].pack_g)
        for food, grams in sorted(reserved_g(plan.packed.buy).items())
    )


def reserve(home: Home) -> tuple[Reserved, ...]:
    """Reserves for this plan, in place of an earlier plan of the same trip."""
    mine = taken(home)
    others, _ = _parted(home)
    _write(home, (*others, *mine))
    return mine


def release(home: Home) -> tuple[Reserved, ...]:
    """Releases whatever is reserved for the plan's trip; what that was."""
    others, mine = _parted(home)
    if mine:
        _write(home, others)
    return mine


def _trip(home: Home) -> str:
    """The name of the trip's rows: its file, not its title, which another walk may bear too."""
    folder, file = home.folder, home.trip_file
    return reserved_as(file, folder) if file else ""


def _parted(home: Home) -> tuple[tuple[Reserved, ...], tuple[Reserved, ...]]:
    """Rows of other trips, and those of this one."""
    path, trip = home.folder / RESERVED, _trip(home)
    rows = read_reserved(path.read_bytes(), path.name) if path.is_file() else ()
    return (tuple(r for r in rows if r.trip != trip), tuple(r for r in rows if r.trip == trip))


def _write(home: Home, rows: tuple[Reserved, ...]) -> None:
    path = home.folder / RESERVED
    if rows or path.is_file():
        write_file(path, write_reserved(rows))


def told(home: Home, *, undo: bool = False) -> Iterator[str]:
    """Does it, and says it in lines."""
    say = telling(home.plan).say
    if undo:
        gone = release(home)
        yield say("packed.released", n=len(gone)) if gone else say("packed.nothing")
        return
    rows = reserve(home)
    yield from (say("packed.took", packs=row.packs, food=row.food) for row in rows)
    if not rows:
        yield say("packed.none")
