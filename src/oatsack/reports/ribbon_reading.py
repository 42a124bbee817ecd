"""The ribbon read hour by hour: a sentence for each point, and the table behind the picture.

The same rows serve the pointer, the keyboard and whoever cannot see the drawing. For more than two
walkers they are means, as the curves are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from oatsack.charts.ribbon_data import Moment
from oatsack.reports.document import Row, Table, cell, row, table
from oatsack.reports.ribbon import bare, people_of
from oatsack.reports.telling import Telling, short_date
from oatsack.values.plan import Hour


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """One walker (or the mean of all) at the end of an hour; energies since the start [kcal]."""

    name: str
    carried_kg: float
    eaten_kcal: float
    used_kcal: float
    low_kcal: float
    """Eaten less used where most was used; `high_kcal` where least was."""
    high_kcal: float
    address: str
    """Where the hour's figures are opened; ``*`` in it stands for everyone, whose mean it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One hour of the walk: where it lies, what the walk does in it, and everyone at its end."""

    moment: Moment
    day: int
    hour: Hour
    people: tuple[Person, ...]


def ends_of_days(read: Sequence[Reading]) -> tuple[Reading, ...]:
    """The last hour of each day."""
    return tuple({one.day: one for one in read}.values())


def readings(told: Telling) -> tuple[Reading, ...]:
    """Every hour of the walk in order."""
    groups = [list(_person_hours(told, name, ids)) for name, ids in people_of(told)]
    first = next(iter(told.plan.timeline.values()))
    return tuple(
        Reading(moment=(h.day - 1, h.start_min + h.minutes), day=h.day, hour=h, people=people)
        for h, *people_ in zip(first, *groups, strict=True) for people in [tuple(people_)]
    )  # fmt: skip


def _person_hours(told: Telling, name: str, ids: Sequence[str]) -> Iterator[Person]:
    base = sum(w.base_weight_kg for w in told.plan.trip.walkers if w.id in ids)
    eaten = used = low = high = 0.0
    for hours in zip(*(told.plan.timeline[one] for one in ids), strict=True):
        n = len(ids)
        eaten += sum(h.eaten_kcal for h in hours) / n
        used += sum(h.need_kcal for h in hours) / n
        high += sum(h.eaten_kcal - h.need_low_kcal for h in hours) / n
        low += sum(h.eaten_kcal - h.need_high_kcal for h in hours) / n
        at = f"{hours[0].day}-{int(hours[0].start_min // 60):02d}"
        yield Person(
            name=name, carried_kg=(sum(h.pack_kg for h in hours) - base) / n, eaten_kcal=eaten,
            used_kcal=used, low_kcal=low, high_kcal=high,
            address=f"timeline/{ids[0] if n == 1 else '*'}/{at}",
        )  # fmt: skip


def sentence(told: Telling, one: Reading) -> str:
    """An hour as one sentence."""
    h = one.hour
    walked = told.say("ribbon.read_walked", way=h.distance_m) if h.walk_min > 0 else ""
    people = told.say("ribbon.read_joint").join(
        told.say("ribbon.read_person", who=p.name, carried=told.m.heavy(p.carried_kg),
                 balance=bare(told, p.eaten_kcal - p.used_kcal), low=bare(told, p.low_kcal),
                 high=bare(told, p.high_kcal))
        for p in one.people
    )  # fmt: skip
    return told.say("ribbon.read", when=when(told, one), height=h.height_m, walked=walked,
                    people=people)  # fmt: skip


def when(told: Telling, one: Reading) -> str:
    """The end of an hour; after midnight the date is the next day's."""
    night = one.moment[1] >= 1440.0 and one.day < len(told.plan.days)
    return f"{short_date(told.day(one.day + night))} {told.m.clock(one.moment[1])}"


def hours_table(told: Telling, read: Sequence[Reading] | None = None) -> Table:
    """The whole walk by the hour, as the picture shows it; or only what was `read`."""
    names = [name for name, _ in people_of(told)]
    alone = len(names) == 1
    heads = [told.say(f"ribbon.head_{key}") for key in ("when", "height", "walked")]
    for name in names:
        who = "" if alone else f"{name}: "
        heads += [who + told.say(f"ribbon.head_{key}")
                  for key in ("carried", "eaten", "used", "balance")]  # fmt: skip
    rows = [_row(told, one) for one in (readings(told) if read is None else read)]
    return table([heads[0], *(f">{head}" for head in heads[1:])], rows,
                 caption=told.say("ribbon.hours"))  # fmt: skip


def _row(told: Telling, one: Reading) -> Row:
    h = one.hour
    walked = told.m.distance(h.distance_m) if h.walk_min else ""
    at = f"timeline/{next(iter(told.plan.timeline))}/{h.day}-{int(h.start_min // 60):02d}"
    out = [cell(when(told, one)),
           cell(told.m.height(h.height_m), address=f"{at}/height_m"),
           cell(walked, address=f"{at}/distance_m" if walked else "")]  # fmt: skip
    for p in one.people:
        out += [
            cell(told.m.heavy(p.carried_kg), p.carried_kg, address=f"{p.address}/pack_kg"),
            cell(told.m.about(p.eaten_kcal), p.eaten_kcal, address=f"{p.address}/eaten_kcal"),
            cell(told.m.about(p.used_kcal), p.used_kcal, address=f"{p.address}/need_kcal"),
            cell(told.say("ribbon.balance_range", balance=bare(told, p.eaten_kcal - p.used_kcal),
                          low=bare(told, p.low_kcal), high=bare(told, p.high_kcal))),
        ]  # fmt: skip
    return row(*out)
