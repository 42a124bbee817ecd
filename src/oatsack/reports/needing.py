"""What the days of a trip use, before there is a plan: a document from plain needs and targets.

It knows no menu. Day by day and walker by walker: the hours walked, the likely need with its range,
what each published walking model says, what is chosen to eat; then what follows, in neutral words.
A plan's own need is told by `contents/need`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from oatsack.reports.document import Block, Document, Heading, Note, Para, Row, Table, row, table
from oatsack.reports.document import cell as plain_cell
from oatsack.reports.measures import measures_of
from oatsack.reports.telling import short_date
from oatsack.reports.words import Voice
from oatsack.values.flags import Flag
from oatsack.values.plan import DayNeed
from oatsack.values.route import Day
from oatsack.values.trip import Trip


@dataclass(frozen=True, slots=True, kw_only=True)
class Needing:
    """One walker: needs, models and targets by day number [kcal]."""

    walker: str
    name: str
    days: Mapping[int, DayNeed]
    shelf_kcal: Mapping[str, Mapping[int, float]]
    """Walking by model and day, the chosen model first."""
    eats_kcal: Mapping[int, float]
    more_kcal: float
    """What `extra_kg` more on the back adds to the whole walk."""
    extra_kg: float
    norm_kcal: Mapping[str, float] = field(default_factory=dict)
    """A day without the walk by public norms, by name."""
    drawn: Mapping[int, tuple[float, float, float]] = field(default_factory=dict)
    drawn_walk: tuple[float, float, float] | None = None
    """Low, middle and high of the draws, by day and over the walk."""


@dataclass(frozen=True, slots=True)
class _Teller:
    voice: Voice

    def say(self, key: str, **values: Any) -> str:
        return self.voice.say(f"needing.{key}", **values)

    def kcal(self, value: float) -> str:
        return self.voice.measures.about(value)

    def span(self, low: float, high: float) -> str:
        if self.kcal(low) == self.kcal(high):
            return self.kcal(low)
        return self.voice.say("need.from_to", low=low, high=high)


def document(
    trip: Trip, days: Sequence[Day], people: Sequence[Needing], flags: Sequence[Flag] = ()
) -> Document:
    """The document, in the units of the trip. `flags` are told once each, under their walker."""
    voice = Voice(
        measures=measures_of(trip.units, trip.rules.currency),
        walkers={one.walker: one.name for one in people},
        days={str(day.number): short_date(day) for day in days},
    )
    teller = _Teller(voice)
    blocks: list[Block] = []
    for one in people:
        blocks += _walker(teller, one, days, [f for f in flags if _whose(f) == one.walker])
    loose = [f for f in flags if _whose(f) not in {one.walker for one in people}]
    blocks += [_note(voice, flag) for flag in _once(loose)]
    blocks.append(Para(text=teller.say("guess"), tone="quiet"))
    return Document(
        title=voice.say("need.title", title=trip.title), subtitle=teller.say("before"),
        blocks=tuple(blocks), name="need",
    )  # fmt: skip


def _walker(teller: _Teller, one: Needing, days: Sequence[Day],
            flags: Sequence[Flag]) -> list[Block]:  # fmt: skip
    walked = [day for day in days if day.number in one.days]
    blocks: list[Block] = [Heading(text=one.name), _table(teller, one, walked)]
    blocks += [_models(teller, one), *_norms(teller, one), *_terms(teller, one)]
    blocks += [_note(teller.voice, flag) for flag in _once(flags)]
    blocks.append(Para(text=teller.say("load", kg=one.extra_kg, more=one.more_kcal,
                                       share=_share(one)), tone="quiet"))  # fmt: skip
    if one.drawn_walk:
        low, middle, high = one.drawn_walk
        blocks.append(Para(text=teller.say("drawn", low=low, middle=middle, high=high),
                           tone="quiet"))  # fmt: skip
    return blocks


def _table(teller: _Teller, one: Needing, days: Sequence[Day]) -> Table:
    heads = ["need.day", ">needing.hours", ">need.uses", ">need.range", ">needing.models"]
    heads += [">needing.draws"] if one.drawn else []
    heads += [">needing.eats"]
    titles = [(">" if h[0] == ">" else "") + teller.voice.say(h.lstrip(">")) for h in heads]
    rows = [_row(teller, one, day) for day in days]
    return table(titles, [*rows, _total(teller, one)],
                 caption=teller.say("caption", walker=one.name))  # fmt: skip


def _row(teller: _Teller, one: Needing, day: Day) -> Row:
    need, eats = one.days[day.number], one.eats_kcal.get(day.number, 0.0)
    drawn = one.drawn.get(day.number)
    return row(
        short_date(day),
        plain_cell(f"{need.walking_h:.1f}", need.walking_h),
        plain_cell(teller.kcal(need.energy_kcal), need.energy_kcal),
        teller.span(need.low_kcal, need.high_kcal),
        _band(teller, one, day.number),
        *([teller.span(drawn[0], drawn[2])] if drawn else []),
        plain_cell(teller.kcal(eats), eats),
    )


def _total(teller: _Teller, one: Needing) -> Row:
    rows = one.days.values()
    uses, eats = sum(d.energy_kcal for d in rows), sum(one.eats_kcal.values())
    hours = sum(d.walking_h for d in rows)
    drawn = one.drawn_walk
    return row(
        teller.voice.say("need.total"),
        plain_cell(f"{hours:.1f}", hours),
        plain_cell(teller.kcal(uses), uses),
        teller.span(sum(d.low_kcal for d in rows), sum(d.high_kcal for d in rows)), "",
        *([teller.span(drawn[0], drawn[2])] if drawn else []),
        plain_cell(teller.kcal(eats), eats), kind="total",
    )  # fmt: skip


def _band(teller: _Teller, one: Needing, day: int) -> str:
    """Walking of one day by the models that say least and most."""
    told = [by_day.get(day, 0.0) for by_day in one.shelf_kcal.values()]
    return teller.span(min(told), max(told)) if max(told, default=0.0) > 0.0 else ""


def _models(teller: _Teller, one: Needing) -> Para:
    """What each model makes of all the walking, the chosen one first."""
    sums = {name: sum(by_day.values()) for name, by_day in one.shelf_kcal.items()}
    told = "; ".join(f"{name} {teller.kcal(kcal)}" for name, kcal in sums.items())
    return Para(text=teller.say("by_model", models=told), tone="quiet")


def _norms(teller: _Teller, one: Needing) -> list[Para]:
    """A day at home by public norms, to hold the sums against; nothing is added to them."""
    if not one.norm_kcal:
        return []
    told = ", ".join(f"{teller.kcal(kcal)} ({name})" for name, kcal in one.norm_kcal.items())
    return [Para(text=teller.say("norms", norms=told), tone="quiet")]


def _terms(teller: _Teller, one: Needing) -> list[Para]:
    """What the labelled terms add to the whole walk, where they add anything worth a line."""
    kcal = sum(day.terms_kcal for day in one.days.values())
    return [Para(text=teller.say("terms", kcal=kcal), tone="quiet")] if kcal >= 50.0 else []


def _share(one: Needing) -> float:
    whole = sum(d.energy_kcal for d in one.days.values())
    return one.more_kcal / whole if whole > 0 else 0.0


def _whose(flag: Flag) -> str:
    parts = flag.scope.split("/")
    return parts[1] if parts[0] == "need" and len(parts) > 1 else ""


def _note(voice: Voice, flag: Flag) -> Note:
    text = voice.flag(flag)
    return Note(text=text[:1].upper() + text[1:], level=flag.level)


def _once(flags: Sequence[Flag]) -> list[Flag]:
    return list({(f.key, f.scope, str(sorted(f.values.items()))): f for f in flags}.values())
