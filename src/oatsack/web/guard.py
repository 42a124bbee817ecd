"""What stands before every page: who may ask, how much may be sent, and what a page may load.

Only this machine's own names are answered (Host), only our own pages may send forms (Origin, a
token beside a SameSite cookie), and a page loads nothing but what this program serves (CSP).
"""

from __future__ import annotations

import hmac
import re
import secrets
from collections.abc import MutableMapping
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from oatsack.reports.words import say

HOST = re.compile(r"(?P<name>\[[0-9a-f:.]+\]|[a-z0-9._-]+)(?::\d{1,5})?")
ADDRESS = re.compile(r"\[[0-9a-f:.]+\]|\d{1,3}(?:\.\d{1,3}){3}")
LOCAL = ("127.0.0.1", "localhost", "[::1]")
MOST_BYTES = 8_000_000
COOKIE = "oatsack"
POLICY = (
    "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
HEADERS = (
    ("content-security-policy", POLICY), ("x-content-type-options", "nosniff"),
    ("referrer-policy", "same-origin"), ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
)  # fmt: skip


class Guard:
    """Refuses strangers, bounds what is sent, and adds the headers."""

    def __init__(self, app: ASGIApp, names: frozenset[str] | None = None) -> None:
        """`names` are further hosts that are answered, where the pages are served beyond this
        machine; any address in numbers is answered then too: only names can be rebound."""
        self.app, self.names = app, names

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return await self.app(scope, receive, send)
        refused = _refused(scope, self.names)
        app = self.app if refused is None else PlainTextResponse(refused[1], refused[0])
        return await app(scope, _bounded(receive), _headed(send))


def _refused(
    scope: MutableMapping[str, Any], names: frozenset[str] | None = None
) -> tuple[int, str] | None:
    """Status and reason, for a request that is not answered."""
    headers = {name.decode("latin-1").lower(): value.decode("latin-1")
               for name, value in scope["headers"]}  # fmt: skip
    host = headers.get("host", "")
    if not answers_to(host, names):
        return 400, say("web.refused.host")
    ours = headers.get("sec-fetch-site", "same-origin") in ("same-origin", "none")
    if scope["method"] in ("GET", "HEAD"):  # a link from elsewhere may lead here, no more
        visits = ours or headers.get("sec-fetch-mode") == "navigate"
        return None if visits else (403, say("web.refused.origin"))
    if not ours or headers.get("origin", f"http://{host}") != f"http://{host}":
        return 403, say("web.refused.origin")
    length = headers.get("content-length", "0")
    if not length.isdigit() or int(length) > MOST_BYTES:
        return 413, say("web.refused.size")
    return None


def answers_to(host: str, names: frozenset[str] | None = None) -> bool:
    """Whether a Host header names this machine, with a port or without."""
    found = HOST.fullmatch(host.casefold())
    if found is None:
        return False
    name = found["name"]
    if name in LOCAL or names is None:
        return name in LOCAL
    return name in names or ADDRESS.fullmatch(name) is not None


def _bounded(receive: Receive) -> Receive:
    taken = 0

    async def counted() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > MOST_BYTES:
            raise HTTPException(413, say("web.refused.size"))
        return message

    return counted


def _headed(send: Send) -> Send:
    async def with_headers(message: Message) -> None:
        if message["type"] == "http.response.start":
            have = {name for name, _ in message["headers"]}
            more = [(k.encode(), v.encode()) for k, v in HEADERS if k.encode() not in have]
            message = {**message, "headers": [*message["headers"], *more]}
        await send(message)

    return with_headers


class Tokens:
    """The token of a browser's forms: made from its cookie and a key of this run."""

    def __init__(self) -> None:
        self._key = secrets.token_bytes(32)

    def token(self, cookie: str) -> str:
        return hmac.new(self._key, cookie.encode(), "sha256").hexdigest()

    def check(self, request: Request, sent: str) -> None:
        """Raises 403 for a form that no page of ours gave to this browser."""
        cookie = request.cookies.get(COOKIE, "")
        token, given = self.token(cookie).encode(), sent.encode("utf-8", "replace")
        if not cookie or not hmac.compare_digest(token, given):
            raise HTTPException(403, say("web.refused.token"))
