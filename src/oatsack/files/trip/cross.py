"""Whether the answers of a trip file fit together: each check yields faults at the right place."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Collection, Iterable, Iterator

from oatsack.errors import Fault
from oatsack.files.trip import build, tables
from oatsack.files.trip.document import Document, Path, path_text
from oatsack.files.trip.faults import related, short
from oatsack.files.trip.kinds import nearest
from oatsack.units import show_distance
from oatsack.values.kit import Stove

Found = Iterator[Fault | None]
MOST_DAYS = 400
SPAN: tuple[Path, Path] = (("from",), ("to",))


class Checker:
    """One run over one file: the tables, the document, and how a fault is said."""

    def __init__(
        self, table: tables.TripTable, document: Document, guessed: Collection[Path]
    ) -> None:
        self.table, self.document, self.guessed = table, document, guessed
        self.ids = build.walker_names(table)

    def fault(self, path: Path, wrong: str, instead: str, *on: Path) -> Fault | None:
        """A fault about the value at a path; None if it rests on a value that is only guessed.

        `on` names what else it rests on.
        """
        if any(related(rest, guess) for rest in (path, *on) for guess in self.guessed):
            return None
        place = self.document.place(path)
        return self.document.fault(
            path_text(path), place, wrong, read=short(place.source) or "nothing", instead=instead
        )

    @property
    def day_count(self) -> int:
        """Days by date."""
        return (self.table.end.date() - self.table.begin.date()).days + 1


def cross_faults(
    table: tables.TripTable, document: Document, guessed: Collection[Path] = ()
) -> list[Fault]:
    """All faults that only show when answers are compared.

    `guessed` are paths where a stand-in takes the place of a value that is itself at fault.
    """
    checker = Checker(table, document, guessed)
    return [fault for check in CHECKS for fault in check(checker) if fault is not None]


def times(c: Checker) -> Found:
    """The end follows the begin, within reason."""
    if c.table.end <= c.table.begin:
        yield c.fault(
            ("to",), "the walk ends before it begins", f"write a time after {c.table.begin}", *SPAN
        )
    elif c.day_count > MOST_DAYS:
        yield c.fault(
            ("to",), f"a walk of {c.day_count} days", f"write at most {MOST_DAYS} days", *SPAN
        )


def walkers(c: Checker) -> Found:
    """Somebody walks, and every name stands for one."""
    if not c.table.walkers:
        yield c.fault(("walkers",), "nobody walks", "add a table [[walkers]] with a mass")
    seen: dict[str, str] = {}
    for number, (who, name) in enumerate(c.ids):
        if who in seen:
            instead = f"write a name that differs from {seen[who]} in its letters"
            yield c.fault(("walkers", number, "name"), "a name given twice", instead, *_names_of(c))
        seen.setdefault(who, name)


def dogs(c: Checker) -> Found:
    """Every dog's name stands for one, and whoever carries its food walks."""
    seen: dict[str, str] = {}
    for number, (who, name) in enumerate(build.dog_names(c.table)):
        path: Path = ("dogs", number)
        if who in seen:
            instead = f"write a name that differs from {seen[who]} in its letters"
            yield c.fault((*path, "name"), "a name given twice", instead)
        seen.setdefault(who, name)
        yield from _named(c, (*path, "carrier"), (c.table.dogs or [])[number].carrier)


def paces(c: Checker) -> Found:
    """A walker's pace is told once: by a number, or by a track."""
    for number, one in enumerate(c.table.walkers):
        if one.pace_ms is not None and one.pace_track is not None:
            path: Path = ("walkers", number)
            yield c.fault((*path, "pace_track"), "both a pace and a track that tells it",
                          "keep one of them", (*path, "pace"))  # fmt: skip


BY_HAND = ("usual_day", "days")


def _shallow(c: Checker, keys: Iterable[str]) -> list[Path]:
    """Keys of the route as places; what is guessed deep inside them does not matter."""
    return [("route", key) for key in keys if ("route", key) in c.guessed]


def way(c: Checker) -> Found:
    """The way is given once: a track, or days by hand."""
    route = c.table.route
    by_hand = route.usual_day or route.hand_days
    if not route.track and not by_hand:
        instead = 'add track = "way.gpx", or usual_day = { distance = "16 km", up = "700 m" }'
        yield c.fault(("route",), "no way is given", instead)
    if route.track and by_hand:
        path: Path = ("route", "track")
        yield c.fault(
            path, "both a track and typed days", "keep one of them", *_shallow(c, BY_HAND)
        )
    how = [key for key in ("camps", "cuts", "equal_days") if _gives(route, key)]
    if not route.track:
        for key in how:
            instead = "name a track, or leave it out"
            yield c.fault(("route", key), f"{key} without a track", instead, ("route", "track"))
    elif len(how) > 1:
        wrong = f"both {how[0]} and {how[1]}"
        yield c.fault(("route", how[1]), wrong, "keep one of them", ("route", how[0]))


def _gives(route: tables.RouteTable, key: str) -> bool:
    return bool({"camps": route.camps, "cuts": route.cuts_m, "equal_days": route.equal_days}[key])


def cuts(c: Checker) -> Found:
    """Cuts lie one behind the other."""
    found = c.table.route.cuts_m or []
    for number in range(1, len(found)):
        if found[number] <= found[number - 1]:
            before = show_distance(found[number - 1])
            yield c.fault(
                ("route", "cuts", number), "a cut before the last", f"write more than {before}",
                ("route", "cuts", number - 1),
            )  # fmt: skip


def days(c: Checker) -> Found:
    """Typed days have a length, make sense in height, and are not too many."""
    typed = c.table.route.hand_days or []
    if c.table.end > c.table.begin and len(typed) > c.day_count:
        wrong = f"{len(typed)} days are typed, the walk has {c.day_count}"
        yield c.fault(
            ("route", "days", c.day_count), wrong, "leave some out, or end the walk later", *SPAN
        )
    for number, day in enumerate(typed):
        yield from _day(c, ("route", "days", number), day)
    if c.table.route.usual_day:
        yield from _day(c, ("route", "usual_day"), c.table.route.usual_day)


def _day(c: Checker, path: Path, day: tables.DayTable) -> Found:
    stretches = sum(one.distance_m for one in day.stretches or ())
    length = stretches if day.distance_m is None else day.distance_m
    if day.distance_m is None and not day.stretches:
        yield c.fault(
            path, "a day without its distance", 'add distance = "16 km", or "0 km" to rest'
        )
    elif day.stretches and not math.isclose(length, stretches, rel_tol=0.01):
        wrong = f"the stretches make {show_distance(stretches)}"
        rest = (*path, "stretches")
        yield c.fault((*path, "distance"), wrong, "correct one of them, or leave it out", rest)
    if day.highest_m is not None and day.camp_m is not None and day.highest_m < day.camp_m:
        yield c.fault((*path, "highest"), "below the night's camp", "write the day's highest point",
                      (*path, "camp_height"))  # fmt: skip
    still = day.distance_m == 0 and stretches == 0
    if still and ((day.ascent_m or 0) > 0 or (day.descent_m or 0) > 0):
        yield c.fault((*path, "distance"), "a climb without distance", 'write for example "12 km"',
                      (*path, "stretches"), (*path, "up"), (*path, "down"))  # fmt: skip
    for number, place in enumerate(day.water or ()):
        if length and place.distance_m > 1.001 * length:
            instead = f"write at most {show_distance(length)}"
            yield c.fault((*path, "water", number), "water beyond the end of the day", instead,
                          (*path, "distance"), (*path, "stretches"))  # fmt: skip


def cans(c: Checker) -> Found:
    """A can has a known empty mass, and weighs no less than that."""
    kit = c.table.kit
    stove = build.stove_of(kit.stove if kit else None)
    for number, can in enumerate((kit.cans if kit else None) or ()):
        empty = can.empty_g if can.empty_g is not None else build.common_empty_g(can.net_g, stove)
        path: Path = ("kit", "cans", number)
        if empty is None:
            instead = _common_sizes(stove)
            yield c.fault(path, "no common size, and its empty mass is not given", instead,
                          ("kit", "stove"))  # fmt: skip
        elif can.gross_now_g is not None and not empty <= can.gross_now_g <= 1.05 * (
            can.net_g + empty
        ):
            instead = f"write what it weighs now, {empty:g} to {can.net_g + empty:g} g"
            yield c.fault((*path, "now"), "no mass that this can may have", instead, path)


def _common_sizes(stove: Stove | None) -> str:
    sizes = ", ".join(f"{net:g} g" for net in build.common_sizes_g(stove))
    return f'write {{ net = "200 g", empty = "130 g" }}, or a common size: {sizes or "none"}'


def places(c: Checker) -> Found:
    """A box is not slower at its fastest; a place is named once and is open at some time."""
    seen: set[str] = set()
    for number, one in enumerate(c.table.places or ()):
        path: Path = ("places", number)
        made = build.place_of(one)
        if made.transit_fast_days > made.transit_slow_days:
            key = "fastest" if one.transit_fast_days is not None else "slowest"
            yield c.fault((*path, key), "the fastest is slower than the slowest",
                          "write fastest = 3 and slowest = 6, in days", path)  # fmt: skip
        if not made.open_weekdays:
            yield c.fault((*path, "open"), "never open", 'write for example ["mon", "tue"]', path)
        if one.name.casefold() in seen:
            yield c.fault((*path, "name"), "a place named twice", "keep one table for it", path)
        seen.add(one.name.casefold())


def names(c: Checker) -> Found:
    """Whoever is named walks. A hold or ban for somebody who walks no longer, or for a day that is
    no longer part of it, is no fault: it is reported (`foods.gone`). A misspelt name is one."""
    rules, kit = c.table.rules, c.table.kit
    holds: list[tuple[Path, tables.BanTable]] = [
        (("rules", key, number), one)
        for key, several in (("holds", rules.holds), ("bans", rules.bans))
        for number, one in enumerate(several or ())
    ] if rules else []  # fmt: skip
    for path, one in holds:
        if one.walker and nearest(one.walker, [name for _, name in c.ids]):
            yield from _named(c, (*path, "walker"), one.walker)
    for number, box in enumerate((kit.containers if kit else None) or ()):
        yield from _named(c, ("kit", "containers", number, "carrier"), box.carrier)
    for number, pot in enumerate((kit.pots if kit else None) or ()):
        for place, name in enumerate(pot.walkers or ()):
            yield from _named(c, ("kit", "pots", number, "for", place), name)


def _named(c: Checker, path: Path, name: str | None) -> Found:
    known = [name for _, name in c.ids]
    folded = {word.casefold() for pair in c.ids for word in pair}
    if name is not None and name.casefold() not in folded:
        close = nearest(name, known)
        hint = f'did you mean "{close}"?' if close else f"walkers: {', '.join(known)}"
        yield c.fault(path, "nobody of this name walks", hint, *_names_of(c))


def _names_of(c: Checker) -> list[Path]:
    """The places of all names."""
    return [("walkers", number, "name") for number in range(len(c.ids))]


def settings(c: Checker) -> Found:
    """Every setting is one of a rule or an aim."""
    given = (c.table.rules.settings if c.table.rules else None) or {}
    if given:
        from oatsack.menu.turnable import turnable  # numpy, which few trip files need

        known = turnable()
        for name in (name for name in given if name not in known):
            close = nearest(name, known)
            hint = f'did you mean "{close}"?' if close else 'a name as "protein.g_per_kg"'
            yield c.fault(("rules", "settings", name), "no setting of this name", hint)


def now(c: Checker) -> Found:
    """Today is a day of the walk, delays included."""
    state = c.table.now
    if state and state.day > c.day_count + (state.days_late or 0):
        yield c.fault(("now", "day"), "a day after the walk", f"write 1 to {c.day_count}",
                      ("now", "days_late"), *SPAN)  # fmt: skip


def real_times(c: Checker) -> Found:
    """The clock times exist in the zone: not in the hour that a change of clocks leaves out."""
    from zoneinfo import ZoneInfo

    zone = ZoneInfo(c.table.zone or "UTC")
    for key, value in (("from", c.table.begin), ("to", c.table.end)):
        there = value.replace(tzinfo=zone).astimezone(dt.UTC).astimezone(zone)
        if there.replace(tzinfo=None) != value:
            wrong = "a time that the clocks leave out on that night"
            yield c.fault((key,), wrong, f'write "{there:%Y-%m-%d %H:%M}"', ("zone",))


CHECKS: tuple[Callable[[Checker], Found], ...] = (
    times, walkers, dogs, paces, way, cuts, days, places, cans, names, settings, now,
    real_times,
)  # fmt: skip
