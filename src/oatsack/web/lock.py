"""A pass phrase before pages that are served beyond this machine.

It is typed, or taken from an environment variable, never from the command line where others could
read it. It is compared in constant time, and wrong tries are slowed and bounded. This is a gate for
a kitchen table, not a shared server: what is missing is said when it is opened (`web.serve`).
"""

from __future__ import annotations

import asyncio
import hashlib
import hmac
import ipaddress
import secrets
import socket
import time
from collections import deque
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from html import escape
from urllib.parse import parse_qs

from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from oatsack.errors import UsageError
from oatsack.reports.words import say

VARIABLE = "OATSACK_PASS_PHRASE"
LEAST = 12
"""Signs; a shorter one is guessed too soon."""
COOKIE = "oatsack-in"
ENTER = "/enter"
MOST_TRIES, IN_S = 10, 60.0
WAIT_S = 0.5
"""What a wrong try costs, whoever makes it."""
MOST_BYTES = 4096


def beyond(host: str) -> bool:
    """Whether a server bound to this name can be reached from other machines."""
    if host.casefold() == "localhost":
        return False
    try:
        return not ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return True


def phrase_from(environ: Mapping[str, str], ask: Callable[[str], str] | None) -> str:
    """The pass phrase, from the environment or typed. UsageError for none, or one too short.

    `ask` asks a person without showing what they type; None where nobody can be asked.
    """
    given = environ.get(VARIABLE, "") or (ask(say("web.serve.ask")) if ask else "")
    if not given:
        raise UsageError(say("web.serve.no-phrase", variable=VARIABLE))
    if len(given) < LEAST:
        raise UsageError(say("web.serve.short", least=LEAST))
    return given


def names_of(host: str) -> frozenset[str]:
    """What the machine may be called by whoever asks for its pages, without ports."""
    return frozenset({host.casefold(), socket.gethostname().casefold(),
                      socket.getfqdn().casefold()} - {""})  # fmt: skip


@dataclass(slots=True)
class Lock:
    """Knows who was let in. One key a run; nothing is written down."""

    phrase: str = field(repr=False)
    clock: Callable[[], float] = time.monotonic
    _key: bytes = field(default_factory=lambda: secrets.token_bytes(32), repr=False)
    _wrong: deque[float] = field(default_factory=deque)

    def right(self, said: str) -> bool:
        """Compares in constant time; digests first, so that the length does not show either."""
        digests = [hashlib.sha256(text.encode("utf-8")).digest() for text in (said, self.phrase)]
        return hmac.compare_digest(*digests)

    def tired(self) -> bool:
        """Whether so much was guessed lately that nobody is let in for a while."""
        now = self.clock()
        while self._wrong and now - self._wrong[0] > IN_S:
            self._wrong.popleft()
        return len(self._wrong) >= MOST_TRIES

    def missed(self) -> None:
        """One more wrong try."""
        self._wrong.append(self.clock())

    def ticket(self) -> str:
        """What a browser that was let in carries."""
        name = secrets.token_urlsafe(12)
        return f"{name}.{self._signed(name)}"

    def admits(self, ticket: str) -> bool:
        """Whether a ticket is of this run."""
        name, _, sign = ticket.partition(".")
        return hmac.compare_digest(self._signed(name).encode(), sign.encode("utf-8", "replace"))

    def _signed(self, name: str) -> str:
        return hmac.new(self._key, name.encode("utf-8", "replace"), "sha256").hexdigest()


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """How pages are served beyond this machine: by which names, behind which lock."""

    names: frozenset[str]
    lock: Lock


class Gate:
    """Stands behind the guard and before the pages: asks for the phrase, once for a browser."""

    def __init__(self, app: ASGIApp, lock: Lock) -> None:
        self.app, self.lock = app, lock

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return await self.app(scope, receive, send)
        request = Request(scope, receive)
        if self.lock.admits(request.cookies.get(COOKIE, "")):
            return await self.app(scope, receive, send)
        enters = scope["method"] == "POST" and scope["path"] == ENTER
        answer = await self._entered(request) if enters else _asked(401)
        return await answer(scope, receive, send)

    async def _entered(self, request: Request) -> Response:
        if self.lock.tired():
            return PlainTextResponse(say("web.serve.tired"), 429)
        body = b""
        async for part in request.stream():
            body += part
            if len(body) > MOST_BYTES:
                return PlainTextResponse(say("web.serve.wrong"), 413)
        said = parse_qs(body.decode("utf-8", "replace")).get("phrase", [""])[0]
        if not self.lock.right(said):
            self.lock.missed()
            await asyncio.sleep(WAIT_S)
            return _asked(401, wrong=True)
        answer = RedirectResponse("/", 303)
        answer.set_cookie(COOKIE, self.lock.ticket(), httponly=True, samesite="strict", path="/")
        return answer


def _asked(status: int, *, wrong: bool = False) -> Response:
    """The one page that is shown to whoever was not let in yet; it tells nothing of the trips."""
    told = f'<p role="alert">{escape(say("web.serve.wrong"))}</p>' if wrong else ""
    label, enter = escape(say("web.serve.label")), escape(say("web.serve.enter"))
    return HTMLResponse(
        f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Oatsack</title>'
        f'<meta name="viewport" content="width=device-width, initial-scale=1"></head><body><main>'
        f'<h1>Oatsack</h1>{told}<form method="post" action="{ENTER}"><p><label for="phrase">{label}'
        f'</label> <input id="phrase" name="phrase" type="password" required autocomplete='
        f'"current-password"> <button>{enter}</button></p></form></main></body></html>',
        status, headers={"cache-control": "no-store"},
    )  # fmt: skip
