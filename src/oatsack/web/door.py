"""What every page is given: the bench, the templates, the tokens of its forms."""

from __future__ import annotations

import secrets
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from jinja2 import Environment
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from oatsack.desk.bench import Bench
from oatsack.web.guard import COOKIE, Tokens

Form = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Door:
    """What every page needs: the bench, the templates, the tokens."""

    bench: Bench
    templates: Environment
    tokens: Tokens

    def page(
        self, request: Request, template: str, *, status: int = 200, **values: Any
    ) -> Response:
        """A filled template, with the token of this browser's forms."""
        cookie = request.cookies.get(COOKIE) or secrets.token_urlsafe(24)
        text = self.templates.get_template(template).render(
            token=self.tokens.token(cookie), **values
        )
        response = HTMLResponse(text, status)
        if COOKIE not in request.cookies:
            response.set_cookie(COOKIE, cookie, httponly=True, samesite="strict", path="/")
        return response


Page = Callable[[Door, Request, Form], Response]


def back(url: str) -> Response:
    """After a form: to the page that shows what became of it."""
    return RedirectResponse(url, 303)
