"""The trip page: the ribbon, what it comes to, the dial, and the days with their meals.

A page of a revision is made once and kept: a revision never changes. After a change it is made
before anybody is sent to it. The hours of the ribbon are
read from `ribbon`, and stand as a table on a page of their own.
"""

from __future__ import annotations

from collections.abc import Collection
from functools import partial
from typing import Any
from urllib.parse import urlsplit

from markupsafe import Markup
from starlette.datastructures import QueryParams
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from oatsack.desk import edits, ways, whys
from oatsack.desk.bench import Place, Standing, stopped
from oatsack.desk.solving import Hear
from oatsack.reports.formats.html_blocks import table_html
from oatsack.reports.ribbon import BROAD, NARROW, places, ribbon_picture
from oatsack.reports.ribbon_reading import ends_of_days, hours_table, readings, sentence
from oatsack.reports.telling import Telling, short_date, telling
from oatsack.reports.words import say
from oatsack.web import folding
from oatsack.web.door import MARK, WORK, Door, Form, planned
from oatsack.web.glance import facts, figures, opened
from oatsack.web.guard import COOKIE
from oatsack.web.live import answered, best_said
from oatsack.web.menu_view import days

NOTES = ("begun", "planned", "undone", "redone", "left")
"""What the page may be told to say first."""
MOST_ASKED = 40
"""So many numbers at most that one number comes of are told at once."""
DIALS_AT_ONCE = 3
"""So many walkers' dials stand on the trip page; of a larger party each has a page, and on a long
walk, where making a dial takes minutes."""


def trip(door: Door, request: Request, form: Form) -> Response:
    """The whole trip; `was` names the revision whose differences are marked."""
    name = request.path_params["name"]
    missed = door.underway.missed(name, request.cookies.get(COOKIE, ""))
    if missed is not None:  # what went wrong while this page was being loaded is told here
        missed.ended()
    if name not in door.bench.names() or door.bench.unread(name):
        if door.underway.of(name):
            return door.page(request, "at_work.html")
        if door.bench.unread(name):  # the file was written elsewhere
            return answered(door, request, partial(_taken_in, door, name), best_said)
    standing = door.bench.standing(name)
    if standing.plan is None:
        ready = {w.key for w in standing.ways
                 if ways.mended(standing.revision.text, w.key, w.values)}  # fmt: skip
        words = [{"wish": f"back {w.kind}/{w.place}", "text": _word(None, w)}
                 for w in edits.words_of(standing.revision.text)]  # fmt: skip
        return door.page(request, "no_plan.html", s=standing, ready=ready, words=words)
    note = request.query_params.get("note", "")
    return door.sent(request, _kept(door, standing, folding.was_of(request.query_params), note))


def _taken_in(door: Door, name: str, hear: Hear) -> str:
    """A trip's file planned as it stands."""
    door.bench.standing(name, hear=hear)
    return f"/trip/{name}?note=planned"


def prepare(door: Door, address: str) -> None:
    """Makes the page of a trip that somebody is about to be sent to."""
    url = urlsplit(address)
    _, first, name, *more = (*url.path.split("/"), "", "")
    if first != "trip" or any(more):
        return
    if name not in door.bench.names():
        return
    standing, asked = door.bench.standing(name), QueryParams(url.query)
    if standing.plan is not None:
        _kept(door, standing, folding.was_of(asked), asked.get("note", ""))


def _kept(door: Door, standing: Standing, was: int | None, note: str) -> str:
    """The page, made once."""
    return door.once("trip", standing.revision.id, (standing.revision.next, was, note),
                     lambda: _made(door, standing, was, note))  # fmt: skip


def _made(door: Door, standing: Standing, was: int | None, note: str) -> str:
    """The page with a mark in place of the forms' token; in parts where it would be too large."""
    assert standing.plan is not None
    told = telling(standing.plan)
    if not folding.is_long(told):
        text = _filled(door, standing, told, (was, note))
        if len(text.encode("utf-8")) <= folding.MOST_BYTES:
            return text
    return _filled(door, standing, told, (was, note), folded=True)


def _filled(door: Door, standing: Standing, told: Telling, asked: tuple[int | None, str], *,
            folded: bool = False) -> str:  # fmt: skip
    base, (was, note) = f"/trip/{standing.name}", asked
    news = door.bench.news(standing, was)
    return door.templates.get_template("trip.html").render(
        s=standing, told=told, token=MARK, work=WORK, base=base, here=base,
        changed=_changed(told, news, door.bench.gone(standing, was), was, note),
        figures=figures(told),
        ribbon=_ribbon(door, standing, told, folded=folded),
        facts=facts(told, base), days=() if folded else days(told, news),
        stopped=stopped(told.plan), parts=folding.lines(told, news) if folded else (), was=was,
        dials=_dials(told), words=_words(told, standing.revision.text),
    )  # fmt: skip


def _ribbon(door: Door, standing: Standing, told: Telling, *, folded: bool) -> dict[str, str]:
    """The ribbon, drawn once for all pages of a revision."""

    def draw() -> dict[str, str]:
        return folding.whole_ribbon(told) if folded else folding.both(ribbon_picture(told))

    return door.once("drawn", standing.revision.id, folded, draw)


def _changed(
    told: Telling, news: Collection[Place], gone: Collection[Place] | None, was: int | None,
    note: str,
) -> str:  # fmt: skip
    """What is read out after a change; `gone` is None where there was no menu before it."""
    first = told.say(f"live.{note}") if note in NOTES else ""
    if (was is not None or note in ("begun", "planned")) and stopped(told.plan):
        first = f"{first} {told.say('live.best_kept', gap=told.plan.menu.gap)}".strip()
    if was is None:
        return first
    if gone is None:
        return first or told.say("live.begun")
    if not news and not gone:
        return first or told.say("live.same")
    found = told.say("live.changed", n=len(news)) if news else told.say("live.gone", n=len(gone))
    return f"{first} {found}".strip()


def _dials(told: Telling) -> list[dict[str, Any]]:
    """Everyone's dial as it stands; `here` says whether it can be turned on this page."""
    people = told.plan.trip.walkers
    here = len(people) <= DIALS_AT_ONCE and not folding.is_long(told)
    return [
        {"id": w.id, "here": here,
         "says": told.say("live.dial_who", who=w.name, kcal=told.plan.chosen[w.id].base_kcal),
         "opens": [(told.m.about(told.plan.chosen[w.id].base_kcal), f"chosen/{w.id}/base_kcal")]}
        for w in people if w.id in told.plan.chosen
    ]  # fmt: skip


def _words(told: Telling, text: str) -> list[dict[str, str]]:
    """Every hold and ban, and the name by which it is taken back."""
    return [
        {"wish": f"back {word.kind}/{word.place}", "text": _word(told, word)}
        for word in edits.words_of(text)
    ]  # fmt: skip


def _word(told: Telling | None, word: edits.Word) -> str:
    """One hold or ban as a sentence; without a plan foods and days go by their own marks."""
    name, date = str(word.where.get("food", "")), word.where.get("date")
    meal, who = word.where.get("meal"), word.where.get("walker")
    day = str(date or "")
    if told is not None:
        found = told.plan.foods.get(name)
        name = found.name if found else told.plan.names.get(name, name)
        day = next((short_date(d) for d in told.plan.days if d.date == date), day)
    where = say("live.word_where", date=day, meal=say(f"meals.{meal}") if meal else "")
    return say(f"live.word_{word.kind}", who=f"{who}: " if who else "", n=word.count or 1.0,
               food=name, where=where.rstrip() if date or meal else "")  # fmt: skip


def hours(door: Door, request: Request, form: Form) -> Response:
    """Every hour of the ribbon as a table, its figures to be opened; of a long walk every day,
    or the hours of one part."""
    standing, plan = planned(door, request)
    told, base = telling(plan), f"/trip/{standing.name}"
    some = folding.days_asked(told, request)
    by_day = some is None and folding.is_long(told)

    def table() -> Markup:
        read = readings(told)
        if by_day:
            read = ends_of_days(read)
        elif some is not None:
            read = tuple(one for one in read if one.day - 1 in some)
        return opened(table_html(hours_table(told, read)), base)

    return door.page(
        request, "hours.html", s=standing, base=base,
        parts=folding.lines(told, ()) if by_day else (),
        title=say("ribbon.ends" if by_day else "ribbon.hours"),
        table=door.once("hours", standing.revision.id, some, table),
    )  # fmt: skip


def ribbon(door: Door, request: Request, form: Form) -> Response:
    """What the ribbon says at each hour, and where that lies in its two drawings; ``?part=`` for
    some days of a long walk, ``?whole=yes`` for the end of each day in the picture of the whole."""
    standing, plan = planned(door, request)
    told = telling(plan)
    some, whole = folding.days_asked(told, request), request.query_params.get("whole") == "yes"
    read = door.once("ribbon", standing.revision.id, (some, whole),
                     lambda: _hours_read(told, some, whole=whole))  # fmt: skip
    return JSONResponse(read)


def _hours_read(told: Telling, some: range | None, *, whole: bool) -> dict[str, Any]:
    """Sentences, and for each its place in the broad and in the narrow drawing."""
    found = [one for one in readings(told) if some is None or one.day - 1 in some]
    shown = ends_of_days(found) if whole else found
    moments = [one.moment for one in shown]
    drawn = {
        name: [[round(s.x, 1), round(s.top, 1), round(s.bottom, 1)]
               for s in places(told, moments, width, only=some, whole=whole)]
        for name, width in (("broad", BROAD), ("narrow", NARROW))
    }  # fmt: skip
    return {**drawn, "says": [sentence(told, one) for one in shown]}


def why(door: Door, request: Request, form: Form) -> Response:
    """How a number came about, its inputs as links."""
    standing, plan = planned(door, request)
    asked = request.query_params.getlist("at")[:MOST_ASKED] or ["totals/energy_kcal"]
    found = [(whys.told(plan, at), whys.inputs_at(plan, at)) for at in asked]
    links = dict.fromkeys(link for _, links in found for link in links)
    return door.page(request, "why.html", s=standing, several=[lines for lines, _ in found],
                     links=list(links))  # fmt: skip


