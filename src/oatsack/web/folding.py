"""A walk too long for one page, in parts: its legs, and weeks where a leg is longer.

The trip page then shows the whole as one picture and a line for each part; a part has a page of its
own with its ribbon and its meals, which our script opens where its line stands.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Any

from starlette.datastructures import QueryParams
from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk.bench import Place, Standing
from oatsack.errors import NotThere
from oatsack.reports.document import Picture
from oatsack.reports.formats.html_blocks import slim
from oatsack.reports.ribbon import ribbon_picture, whole_picture
from oatsack.reports.telling import Telling, headline, long_date, mean, short_date, telling
from oatsack.reports.words import say
from oatsack.values.route import Day
from oatsack.web.door import Door, Form, planned
from oatsack.web.menu_view import days

WHOLE_DAYS = 10
"""So many days may stand on one page, where they fit."""
MOST_BYTES = 140_000
"""A page above this is folded too; the bar is 150 kB."""
WEEK, FEW = 7, 3
"""Days of a part at most, of a long walk and of one that few days fill already."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLine:
    """One part as the trip page lists it: which days, how far, how much is eaten and carried."""

    number: int
    title: str
    says: str
    news: int
    rows: tuple[tuple[str, str], ...]
    """For each of its days: when, and what is for dinner."""


def parts_of(days_: Sequence[Day]) -> tuple[range, ...]:
    """The parts as places of days from 0: legs, evenly split where longer than a week."""
    most = WEEK if len(days_) > WHOLE_DAYS else FEW
    out: list[range] = []
    for _, several in groupby(range(len(days_)), key=lambda k: days_[k].leg):
        leg = list(several)
        count = -(-len(leg) // most)
        cuts = [leg[0] - (-n * len(leg) // count) for n in range(count + 1)]
        out += [range(a, b) for a, b in pairwise(cuts)]
    return tuple(out)


def is_long(told: Telling) -> bool:
    """Whether the whole walk is too much for one page whatever its meals are."""
    return len(told.plan.days) > WHOLE_DAYS


def both(drawn: Picture) -> dict[str, str]:
    """A picture for a broad and for a narrow page."""
    return {"broad": slim(drawn.svg), "narrow": slim(drawn.narrow), "title": drawn.title}


def whole_ribbon(told: Telling) -> dict[str, str]:
    """The whole of a long walk as one picture."""
    return both(whole_picture(told, [part.start for part in parts_of(told.plan.days)]))


def lines(told: Telling, news: Collection[Place]) -> tuple[PartLine, ...]:
    """Every part as one line, with its days below."""
    return tuple(_line(told, n, part, news) for n, part in
                 enumerate(parts_of(told.plan.days), 1))  # fmt: skip


def _line(told: Telling, number: int, part: range, news: Collection[Place]) -> PartLine:
    plan = told.plan
    shown = [plan.days[k] for k in part]
    days_of = [(plan.eaten[w.id], str(d.number)) for w in plan.trip.walkers for d in shown]
    eaten = [of[number].energy_kcal for of, number in days_of if number in of]
    numbers, each = {d.number for d in shown}, "_each" if len(plan.trip.walkers) > 1 else ""
    return PartLine(
        number=number, title=_title(told, part),
        says=told.say(f"live.part_says{each}", n=len(shown), way=sum(d.distance_m for d in shown),
                      climb=sum(d.ascent_m for d in shown), kcal=mean(eaten)),
        news=len({where for where in news if where[1] in numbers}),
        rows=tuple((short_date(d), headline(told, d.number)) for d in shown),
    )  # fmt: skip


def _title(told: Telling, part: range) -> str:
    """From which day to which; with a leg's number where there are several."""
    first, last = told.plan.days[part[0]], told.plan.days[part[-1]]
    dates = told.say("live.part_dates", first=long_date(first), last=long_date(last))
    legs = {d.leg for d in told.plan.days}
    return told.say("live.part_leg", n=first.leg, dates=dates) if len(legs) > 1 else dates


def part(door: Door, request: Request, form: Form) -> Response:
    """Some days of a long walk: their ribbon and their meals."""
    standing, plan = planned(door, request)
    told = telling(plan)
    here = asked(told, request.path_params["part"])
    news = door.bench.news(standing, was_of(request.query_params))
    return door.page(request, "part.html", **shown(told, standing, here, news))


def shown(
    told: Telling, standing: Standing, number: int, news: Collection[Place]
) -> dict[str, Any]:
    """What the page of one part is filled with."""
    found = parts_of(told.plan.days)
    some = found[number - 1]
    new = len({where for where in news if where[1] - 1 in some})
    return {
        "s": standing, "told": told, "base": f"/trip/{standing.name}", "number": number,
        "count": len(found), "title": _title(told, some),
        "ribbon": both(ribbon_picture(told, only=some)),
        "days": days(told, news, some), "changed": told.say("live.changed", n=new) if new else "",
    }  # fmt: skip


def days_asked(told: Telling, request: Request) -> range | None:
    """The days of the part that an address asks for, as places from 0; None for all."""
    text = request.query_params.get("part", "")
    return parts_of(told.plan.days)[asked(told, text) - 1] if text else None


def asked(told: Telling, text: str) -> int:
    """The number of a part, from 1. Raises NotThere."""
    count = len(parts_of(told.plan.days))
    if not text.isascii() or not text.isdigit() or len(text) > 4 or not 0 < int(text) <= count:
        raise NotThere(say("live.no_part"))
    return int(text)


def was_of(asked: QueryParams) -> int | None:
    """The revision whose differences are to be marked, as an address says it."""
    text = asked.get("was", "")
    return int(text) if text.isascii() and text.isdigit() and len(text) < 12 else None
