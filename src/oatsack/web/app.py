"""The pages on one's own machine: every route in one list, and what they share.

A page reads the request, calls the desk, and fills a template; it adds up nothing. Every form
works without scripts. `guard` stands before all of it; `pages` holds what each route does.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Awaitable, Callable
from pathlib import Path

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
from oatsack.errors import OatsackError, StaleHead, UnreadableInput
from oatsack.web import handing, pages, shelf
from oatsack.web.door import Door, Form, Page
from oatsack.web.guard import Guard, Tokens

PAGES = (pages, shelf, handing)
"""Each has its own ``ROUTES``: method, path, and the function of that module that answers."""


def create(folder: Path, *, today: Callable[[], dt.date] | None = None) -> Starlette:
    """The application over one folder. It touches nothing outside it."""
    door = Door(bench=Bench(folder, today or _today), templates=_templates(), tokens=Tokens())
    routes = [
        Route(path, _endpoint(door, getattr(module, name)), methods=[method], name=name)
        for module in PAGES
        for method, path, name in module.ROUTES
    ]
    return Starlette(
        routes=routes, middleware=[Middleware(Guard)],
        exception_handlers={
            HTTPException: _spoken(door), OatsackError: _spoken(door), Exception: _spoken(door),
        },
    )  # fmt: skip


def _today() -> dt.date:
    return dt.datetime.now().astimezone().date()


def _templates() -> Environment:
    return Environment(
        loader=PackageLoader("oatsack.web"), autoescape=True, undefined=StrictUndefined,
        trim_blocks=True, lstrip_blocks=True,
    )  # fmt: skip


def _endpoint(door: Door, page: Page) -> Callable[[Request], Awaitable[Response]]:
    """A page as Starlette calls it: the form read and checked, the work in a thread."""

    async def answer(request: Request) -> Response:
        form: Form = {}
        if request.method == "POST":
            form = await _form(await request.form(max_files=1, max_fields=300))
            door.tokens.check(request, str(form.get("token", "")))
        return await run_in_threadpool(page, door, request, form)

    return answer


async def _form(sent: FormData) -> Form:
    """Fields as texts, repeated ones as lists under their name with ``[]``; files as bytes."""
    out: Form = {}
    for name in sent:
        values = [v if isinstance(v, str) else await v.read() for v in sent.getlist(name)]
        out[name] = values if name.endswith("[]") else values[0]
    return out


def _spoken(door: Door) -> Callable[[Request, Exception], Response]:
    """An error as a page: what is wrong and what to do, never a trace."""

    def answer(request: Request, error: Exception) -> Response:
        if isinstance(error, StaleHead):
            return door.page(request, "stale.html", status=409, error=error,
                             name=request.path_params.get("name", ""))  # fmt: skip
        faults = error.faults if isinstance(error, UnreadableInput) else ()
        if isinstance(error, HTTPException):
            return door.page(request, "error.html", status=error.status_code,
                             said=error.detail, faults=faults)  # fmt: skip
        known = isinstance(error, OatsackError)
        said = str(error) if known else "something went wrong inside; nothing of yours was lost"
        status = 422 if known else 500
        return door.page(request, "error.html", status=status, said=said, faults=faults)

    return answer
