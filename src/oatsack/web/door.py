"""What every page is given: the bench, the templates, the tokens of its forms."""

from __future__ import annotations

import secrets
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, TypeVar

from jinja2 import Environment
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from oatsack.desk.bench import Bench, Standing, keep_few
from oatsack.errors import UsageError
from oatsack.reports.words import say
from oatsack.web.guard import COOKIE, Tokens
from oatsack.web.underway import Underway

if TYPE_CHECKING:
    from oatsack.values.plan import Plan

Form = dict[str, Any]
Made = TypeVar("Made")
PAGES_KEPT = 32
"""So many pages and drawings of revisions are kept made."""
MARK = f"@{secrets.token_hex(8)}@"
"""Stands for the token in a page that is kept; no text of a user's can guess it."""
WORK = f"@{secrets.token_hex(8)}@"
"""Stands where the page says how far the work under way is."""
TYPES = {
    "css": "text/css", "js": "text/javascript", "svg": "image/svg+xml", "ttf": "font/ttf",
    "pdf": "application/pdf", "html": "text/html; charset=utf-8", "csv": "text/csv; charset=utf-8",
    "json": "application/json", "txt": "text/plain; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Door:
    """What every page needs: the bench, the templates, the tokens."""

    bench: Bench
    templates: Environment
    tokens: Tokens
    kept: dict[Any, Any] = field(default_factory=dict)
    """Pages that were made already, by revision; few at a time."""
    underway: Underway = field(default_factory=Underway)
    prepare: Callable[[Door, str], None] = lambda door, address: None
    """Makes the page of an address before somebody is sent there."""

    def once(self, what: str, revision: int, more: Hashable, make: Callable[[], Made]) -> Made:
        """Something of a revision, made when it is first asked for: a revision never changes."""
        key = (what, revision, more)
        if key not in self.kept:
            keep_few(self.kept, key, made := make(), PAGES_KEPT)
            return made
        found: Made = self.kept[key]
        return found

    def page(
        self, request: Request, template: str, *, status: int = 200, **values: Any
    ) -> Response:
        """A filled template, with the token of this browser's forms."""
        text = self.templates.get_template(template).render(
            token=MARK, work=WORK, here=request.url.path, **values
        )
        return self.sent(request, text, status=status)

    def sent(self, request: Request, text: str, *, status: int = 200) -> Response:
        """A page whose marks become the token of this browser's forms, and how far work is."""
        text = text.replace(WORK, self._working(request.path_params.get("name", "")), 1)
        cookie = request.cookies.get(COOKIE) or secrets.token_urlsafe(24)
        response = HTMLResponse(text.replace(MARK, self.tokens.token(cookie)), status)
        if COOKIE not in request.cookies:
            response.set_cookie(COOKIE, cookie, httponly=True, samesite="strict", path="/")
        return response

    def _working(self, trip: str) -> str:
        """The line that says how far the work of a trip is, with its Stop."""
        job = self.underway.of(trip) if trip else None
        if job is None:
            return ""
        job.look()
        return self.templates.get_template("working.html").render(
            token=MARK, trip=trip, stopping=job.stopping, best=job.best,
        )  # fmt: skip


Page = Callable[[Door, Request, Form], Response]


def back(url: str) -> Response:
    """After a form: to the page that shows what became of it."""
    return RedirectResponse(url, 303)


def planned(door: Door, request: Request) -> tuple[Standing, Plan]:
    """The trip of this address with its plan. Raises UsageError where there is none."""
    standing = door.bench.standing(request.path_params["name"])
    if standing.plan is None:
        raise UsageError(say("web.refused.plan"))
    return standing, standing.plan
