"""The pages on one's own machine: every route in one list, and what they share.

A page reads the request, calls the desk, and fills a template; it adds up nothing. Every form
works without scripts. `guard` stands before all of it; `pages` holds what each route does.
"""

from __future__ import annotations

import datetime as dt
import logging
from collections.abc import Awaitable, Callable, Iterable
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from oatsack.desk.bench import Bench
from oatsack.desk.solving import Works
from oatsack.errors import OatsackError
from oatsack.reports.words import say
from oatsack.web import form_specs, larder_routes, pages, trip_routes
from oatsack.web.door import Door, Form, Page
from oatsack.web.guard import Guard, Tokens
from oatsack.web.spoken import spoken

if TYPE_CHECKING:
    from oatsack.web.lock import Opening

MOST_FIELDS = 2500
"""Of one form: the longest is a stock of six hundred lots."""
LOG = logging.getLogger("oatsack.web")
LATER = {"oatsack.web.forms": form_specs.ROUTES, **trip_routes.LATER, **larder_routes.LATER}
"""Modules that are loaded when they are first asked: they need more than the first page does."""


def create(folder: Path, *, today: Callable[[], dt.date] | None = None,
           works: Works | None = None, opening: Opening | None = None) -> Starlette:  # fmt: skip
    """The application over one folder. It touches nothing outside it.

    `works` says where the solving is done; without it, in this process. `opening` lets in other
    machines, by a pass phrase; without it only this one is answered.
    """
    bench = Bench(folder, today or _today, works)
    door = Door(bench=bench, templates=_templates(), tokens=Tokens(), prepare=_prepare)
    routes = [
        Route(path, _endpoint(door, getattr(pages, name)), methods=[method], name=name)
        for method, path, name in pages.ROUTES
    ]
    routes += [
        Route(path, _endpoint(door, _later(module, name)), methods=[method], name=name)
        for module, several in LATER.items()
        for method, path, name in several
    ]
    return Starlette(
        routes=routes, middleware=_before(opening),
        exception_handlers={
            HTTPException: _spoken(door), OatsackError: _spoken(door), Exception: _spoken(door),
        },
    )  # fmt: skip


def _prepare(door: Door, address: str) -> None:
    """The page of a trip made before somebody is sent to it; it draws, the first page does not."""
    import_module("oatsack.web.trip_page").prepare(door, address)


def _before(opening: Opening | None) -> list[Middleware]:
    """What stands before every page."""
    if opening is None:
        return [Middleware(Guard)]
    from oatsack.web.lock import Gate

    return [Middleware(Guard, names=opening.names), Middleware(Gate, lock=opening.lock)]


def _today() -> dt.date:
    return dt.datetime.now().astimezone().date()


def _templates() -> Environment:
    made = Environment(
        loader=PackageLoader("oatsack.web"), autoescape=True, undefined=StrictUndefined,
        trim_blocks=True, lstrip_blocks=True, auto_reload=False,
    )  # fmt: skip
    made.globals |= {"say": say, "linked": _linked}
    return made


def _linked(text: str, shown: Iterable[tuple[str, str]], base: str) -> str:
    """A sentence whose numbers are links to how they came about."""
    from oatsack.web.glance import linked  # it tells plans; the first page shows none

    return linked(text, list(shown), base)


def _later(module: str, name: str) -> Page:
    """A page whose module is loaded with its first request."""

    def page(door: Door, request: Request, form: Form) -> Response:
        answer: Response = getattr(import_module(module), name)(door, request, form)
        return answer

    return page


def _endpoint(door: Door, page: Page) -> Callable[[Request], Awaitable[Response]]:
    """A page as Starlette calls it: the form read and checked, the work in a thread."""

    async def answer(request: Request) -> Response:
        form: Form = {}
        if request.method == "POST":
            async with request.form(max_files=1, max_fields=MOST_FIELDS) as sent:
                form = await _form(sent)
            door.tokens.check(request, str(form.get("token", "")))
        try:
            return await run_in_threadpool(page, door, request, form)
        except (HTTPException, OatsackError):
            raise
        except Exception as error:
            LOG.exception("a page failed")  # for whoever runs it; the page itself shows no trace
            return spoken(door, request, error)

    return answer


async def _form(sent: FormData) -> Form:
    """Fields as texts, repeated ones as lists under their name with ``[]``; files as bytes."""
    out: Form = {}
    for name in sent:
        values = [v if isinstance(v, str) else await v.read() for v in sent.getlist(name)]
        out[name] = values if name.endswith("[]") else values[0]
    return out


def _spoken(door: Door) -> Callable[[Request, Exception], Response]:
    """What Starlette calls with an error."""

    def answer(request: Request, error: Exception) -> Response:
        return spoken(door, request, error)

    return answer
