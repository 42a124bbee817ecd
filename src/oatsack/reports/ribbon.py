"""The ribbon of a plan: its numbers and words gathered for the drawing, and the table behind it.

Up to two walkers have curves of their own; for more the curves are the mean of all. What is eaten
is the mean of a walker. The drawing itself stands in `charts.ribbon`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate

from oatsack.charts.ribbon import Spot, Theme, draw, spots
from oatsack.charts.ribbon_data import (
    Moment,
    RibbonCurve,
    RibbonDay,
    RibbonMeal,
    RibbonWater,
    RibbonWords,
)
from oatsack.charts.ribbon_whole import draw_whole, spots_whole
from oatsack.reports.document import Picture, Table, cell, row, table
from oatsack.reports.telling import Telling, long_date, portions_at, short_date, telling
from oatsack.values.plan import Hour, Plan
from oatsack.values.route import Day, Stretch

OWN_CURVES = 2
"""So many walkers have curves of their own."""
BRIEF = 16
"""So many letters of a name fit beside a number on a phone."""


def ribbon_svg(plan: Plan, *, width: float = 960.0, theme: Theme = "paper") -> str:
    """The ribbon as a file of its own."""
    return _drawn(telling(plan), width, theme, "ribbon")


BROAD, NARROW = 832.0, 350.0
"""Widths for which a page's ribbon is drawn [px]."""


def places(
    told: Telling, moments: Sequence[Moment], width: float, *, only: range | None = None,
    whole: bool = False,
) -> tuple[Spot, ...]:  # fmt: skip
    """Where moments lie in the page's drawing of this width; `only` some days, or the `whole`."""
    days = [_day(told, day) for day in told.plan.days]
    curves = 2 * len(people_of(told))
    if whole:
        return spots_whole(days, moments, curves=curves, width=width)
    return spots(days, moments, curves=curves, width=width, only=only)


def ribbon_picture(told: Telling, *, only: range | None = None) -> Picture:
    """The ribbon for a page, drawn for a broad and for a narrow one, with its table.

    `only` some of its days, by their places from 0.
    """
    days, curves, words = _parts(told, only)
    name = "ribbon" if only is None else f"ribbon-{only.start}"
    broad, narrow = (
        draw(days, curves, words=words, width=width, theme="page", name=name + end, only=only)
        for width, end in ((BROAD, ""), (NARROW, "-narrow"))
    )
    return Picture(svg=broad, narrow=narrow, title=told.say("pictures.ribbon"),
                   text=words.desc, table=_table(told))  # fmt: skip


def whole_picture(told: Telling, parts: Sequence[int]) -> Picture:
    """A long walk at once; `parts` are the places from 0 of the days on which its parts begin."""
    days, curves, words = _parts(told)
    broad, narrow = (
        draw_whole(days, curves, parts=parts, words=words, width=width, name=name)
        for width, name in ((BROAD, "whole"), (NARROW, "whole-narrow"))
    )
    return Picture(svg=broad, narrow=narrow, title=told.say("pictures.ribbon"),
                   text=words.desc, table=_table(told))  # fmt: skip


def _parts(
    told: Telling, only: range | None = None
) -> tuple[list[RibbonDay], list[RibbonCurve], RibbonWords]:
    """What every drawing of one ribbon is made of; the words are those of `only` some days."""
    curves = _curves(told)
    shown = range(len(told.plan.days)) if only is None else only
    return [_day(told, day) for day in told.plan.days], curves, _words(told, curves, shown)


def _drawn(told: Telling, width: float, theme: Theme, name: str) -> str:
    days, curves, words = _parts(told)
    return draw(days, curves, words=words, width=width, theme=theme, name=name)


def _words(told: Telling, curves: Sequence[RibbonCurve], shown: range) -> RibbonWords:
    days = [told.plan.days[k] for k in shown]
    distance, climb = sum(d.distance_m for d in days), sum(d.ascent_m for d in days)
    ends = {
        curve.name: max((k, value) for k, value in enumerate(curve.likely)
                        if curve.at[k][0] <= shown[-1])[1]
        for curve in curves if curve.kind == "balance"
    }  # fmt: skip
    each = "_each" if len(told.plan.trip.walkers) > 1 else ""
    balance = "; ".join(f"{name}: {_signed(told, value)}" for name, value in ends.items())
    return RibbonWords(
        title=told.plan.trip.title or told.say("pictures.ribbon"),
        sub=told.say("ribbon.sub", first=long_date(days[0]), last=long_date(days[-1]),
                     distance=distance, climb=climb),
        desc=told.say("ribbon.desc", n=len(days), distance=distance, climb=climb,
                      high=max(d.highest_m for d in days), balance=balance),
        eaten=told.say(f"ribbon.eaten{each}"),
        eaten_day=told.say(f"ribbon.eaten_day{each}"),
        eaten_brief=told.say(f"ribbon.eaten_brief{each}"),
        dry=told.say("ribbon.dry"),
        height=told.m.height,
        kcal=told.m.about,
        signed=lambda kcal: _signed(told, kcal),
        between=lambda low, high: told.say(
            "ribbon.between", low=bare(told, low), high=bare(told, high)
        ),
        mass=told.m.heavy,
    )  # fmt: skip


def _signed(told: Telling, kcal: float) -> str:
    return f"{bare(told, kcal)} kcal"


def bare(told: Telling, kcal: float) -> str:
    """With its sign; nothing has none."""
    shown = told.m.about(abs(kcal))
    return shown if shown == told.m.about(0.0) else f"{'+' if kcal >= 0 else '−'}{shown}"


def _day(told: Telling, day: Day) -> RibbonDay:
    walks = [s for s in day.stretches if s.kind == "walk"]
    lines = [told.m.distance(day.distance_m), _climbs(told, day)] if walks else []
    if not walks:
        lines = [told.say("ribbon.rest")]
    return RibbonDay(
        name=short_date(day),
        lines=tuple(lines),
        tip=f"{long_date(day)}: {', '.join(lines)}",
        start_min=day.stretches[0].start_min,
        end_min=day.stretches[-1].end_min,
        walks=tuple((s.start_min, s.end_min) for s in walks),
        heights=tuple(_heights(day, walks)),
        night=day.camp_m is not None,
        camp=day.camp_name,
        dry=day.camp_dry,
        by_hand=day.by_hand,
        meals=tuple(_meals(told, day)),
        move_kcal=_kcal(told, day, "move"),
        move_name=told.say("meals.move"),
        water=tuple(
            RibbonWater(name=w.name, clock_min=w.at_min, sure=w.reliability == "sure")
            for w in day.water
        ),
    )


def _climbs(told: Telling, day: Day) -> str:
    return f"+{told.m.height(day.ascent_m)} −{told.m.height(day.descent_m)}"


def _heights(day: Day, walks: Sequence[Stretch]) -> Iterator[tuple[float, float]]:
    """Clock and height at every joint; between two stretches the mean of what both say."""
    if not walks:
        height = day.camp_m if day.camp_m is not None else day.highest_m
        yield from ((day.stretches[0].start_min, height), (day.stretches[-1].end_min, height))
        return
    rises = [s.distance_m * s.grade_pct / 200.0 for s in walks]
    yield walks[0].start_min, walks[0].height_m - rises[0]
    for k in range(len(walks) - 1):
        left, right = walks[k].height_m + rises[k], walks[k + 1].height_m - rises[k + 1]
        yield walks[k].end_min, (left + right) / 2.0
    yield walks[-1].end_min, walks[-1].height_m + rises[-1]


def _kcal(told: Telling, day: Day, meal: str) -> float:
    """Energy of one meal, mean of the walkers [kcal]."""
    walkers = told.plan.trip.walkers
    found = (
        p
        for w in walkers
        for p in portions_at(told.plan, day.number, meal, w.id)  # type: ignore[arg-type]
    )
    return sum(p.doses * told.food(p.food).dose_kcal for p in found) / len(walkers)


def _meals(told: Telling, day: Day) -> Iterator[RibbonMeal]:
    clocks = {slot.meal: slot.clock_min for slot in told.plan.slots if slot.day == day.number}
    for meal, clock in clocks.items():
        kcal = _kcal(told, day, meal)
        if meal != "move" and kcal > 0:
            yield RibbonMeal(clock_min=clock, kcal=kcal, kind=meal, name=told.say(f"meals.{meal}"))


def people_of(told: Telling) -> list[tuple[str, list[str]]]:
    """Whose curves there are: each walker by name, or the mean of a larger party."""
    people = [w for w in told.plan.trip.walkers if w.id in told.plan.timeline]
    if len(people) > OWN_CURVES:
        return [(told.say("ribbon.mean", n=len(people)), [w.id for w in people])]
    return [(w.name, [w.id]) for w in people]


def _curves(told: Telling) -> list[RibbonCurve]:
    """Sack and balance of each walker, or their means for a larger party."""
    rows = people_of(told)
    return [_sack(told, *one) for one in rows] + [_balance(told, *one) for one in rows]


def _sack(told: Telling, name: str, ids: Sequence[str]) -> RibbonCurve:
    base = {w.id: w.base_weight_kg for w in told.plan.trip.walkers}
    hours = [told.plan.timeline[one] for one in ids]
    carried = [
        sum(h.pack_kg - base[one] for one, h in zip(ids, row_, strict=True)) / len(ids)
        for row_ in zip(*hours, strict=True)
    ]
    twice = tuple(value for value in carried for _ in range(2))
    said = told.say("ribbon.sack", who=name)
    at = tuple(_moments(hours[0]))
    return RibbonCurve(name=said, at=at, low=twice, likely=twice, high=twice, kind="sack")


def _balance(told: Telling, name: str, ids: Sequence[str]) -> RibbonCurve:
    """Eaten less used, summed from the start; the low end is where most was used."""
    hours = [told.plan.timeline[one] for one in ids]
    sums: list[tuple[float, ...]] = []
    for need in ("need_high_kcal", "need_kcal", "need_low_kcal"):
        steps = (
            sum(h.eaten_kcal - getattr(h, need) for h in row_) / len(ids)
            for row_ in zip(*hours, strict=True)
        )
        sums.append((0.0, *accumulate(steps)))
    at = (_start(hours[0]), *((h.day - 1, h.start_min + h.minutes) for h in hours[0]))
    return RibbonCurve(name=told.say("ribbon.balance", who=name), at=at, low=sums[0],
                       likely=sums[1], high=sums[2], kind="balance",
                       brief=told.say("ribbon.balance_brief", who=_brief(name)))  # fmt: skip


def _brief(name: str) -> str:
    """A name for where little room is."""
    first = name if len(name) <= BRIEF else name.split()[0]
    return first if len(first) <= BRIEF else first[: BRIEF - 1] + "…"


def _moments(hours: Sequence[Hour]) -> Iterator[Moment]:
    """Start and end of every hour: what is carried falls in steps."""
    for hour in hours:
        yield hour.day - 1, hour.start_min
        yield hour.day - 1, hour.start_min + hour.minutes


def _start(hours: Sequence[Hour]) -> Moment:
    return hours[0].day - 1, hours[0].start_min


def _table(told: Telling) -> Table:
    """What the picture shows, as numbers by day."""
    keys = ("day", "distance", "climb", "highest", "camp", "water")
    heads = tuple(told.say(f"ribbon.head_{key}") for key in keys)
    rows = []
    for day in told.plan.days:
        water = ", ".join(f"{w.name} {told.m.clock(w.at_min)}" for w in day.water)
        camp = " ".join(filter(None, (day.camp_name, _camp_height(told, day))))
        rows.append(
            row(short_date(day), cell(told.m.distance(day.distance_m), day.distance_m),
                _climbs(told, day), told.m.height(day.highest_m), camp, water)
        )  # fmt: skip
    return table(heads, rows, caption=told.say("pictures.ribbon"))


def _camp_height(told: Telling, day: Day) -> str:
    return "" if day.camp_m is None else told.m.height(day.camp_m)
