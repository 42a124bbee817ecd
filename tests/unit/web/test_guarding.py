"""The small parts before and behind the pages: sizes, headers, tokens, units, errors as answers."""

from __future__ import annotations

import asyncio
from typing import Any

import pytest
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import PlainTextResponse

from oatsack.errors import (
    LarderError,
    NotThere,
    StaleHead,
    TripFileError,
    UnknownAddress,
    UsageError,
)
from oatsack.reports.document import Heading, Para
from oatsack.web import handing, system
from oatsack.web.guard import HEADERS, MOST_BYTES, Guard, Tokens
from oatsack.web.spoken import status_of
from support.each import each


def asked(method: str = "GET", path: str = "/", query: str = "", **headers: str) -> dict[str, Any]:
    """A request as a server hands it on."""
    given = {"host": "127.0.0.1:80", **{k.replace("_", "-"): v for k, v in headers.items()}}
    return {
        "type": "http", "method": method, "path": path, "query_string": query.encode(),
        "headers": [(k.encode("latin-1"), v.encode("latin-1")) for k, v in given.items()],
    }  # fmt: skip


def through(scope: dict[str, Any], body: tuple[bytes, ...] = (b"",)) -> tuple[int, dict[str, str]]:
    """Status and headers of what comes back through the guard from a page that reads everything."""
    sent: list[dict[str, Any]] = []
    parts = iter(body)

    async def page(scope: Any, receive: Any, send: Any) -> None:
        while (await receive()).get("more_body"):
            pass
        await PlainTextResponse("page")(scope, receive, send)

    async def receive() -> dict[str, Any]:
        part = next(parts, b"")
        return {"type": "http.request", "body": part, "more_body": bool(part)}

    async def send(message: dict[str, Any]) -> None:
        sent.append(message)

    asyncio.run(Guard(page)(scope, receive, send))
    headers = {k.decode(): v.decode() for k, v in sent[0]["headers"]}
    return sent[0]["status"], headers


def test_every_answer_through_the_guard_bears_every_header() -> None:
    for scope in (asked(), asked(host="pages.example"), asked("POST", origin="null")):
        _, headers = through(scope)
        assert {name: headers[name] for name, _ in HEADERS} == dict(HEADERS)


@each("headers, status", [
    ({}, 200), ({"origin": "http://127.0.0.1:80"}, 200), ({"sec_fetch_site": "same-origin"}, 200),
    ({"sec_fetch_site": "none"}, 200), ({"sec_fetch_site": "cross-site"}, 403),
    ({"sec_fetch_site": "same-site"}, 403), ({"origin": "https://127.0.0.1:80"}, 403),
    ({"origin": "http://127.0.0.1:81"}, 403), ({"origin": "null"}, 403), ({"origin": ""}, 403),
    ({"origin": "http://127.0.0.1:80/"}, 403), ({"content_length": str(MOST_BYTES)}, 200),
    ({"content_length": str(MOST_BYTES + 1)}, 413), ({"content_length": "-1"}, 413),
    ({"content_length": "1e3"}, 413), ({"host": "127.0.0.1.example:80"}, 400),
])  # fmt: skip
def test_what_a_form_may_come_with(headers: dict[str, str], status: int) -> None:
    assert through(asked("POST", **headers))[0] == status


def test_reading_needs_no_origin_but_the_right_host() -> None:
    assert through(asked("GET", origin="http://pages.example"))[0] == 200
    assert through(asked("HEAD", sec_fetch_site="cross-site", sec_fetch_mode="navigate"))[0] == 200
    assert through(asked("DELETE", origin="http://pages.example"))[0] == 403


def test_a_link_from_elsewhere_may_lead_here_and_a_page_elsewhere_may_load_nothing() -> None:
    cases = {
        ("cross-site", "navigate"): 200, ("same-site", "navigate"): 200, ("none", "navigate"): 200,
        ("same-origin", "cors"): 200, ("same-origin", "no-cors"): 200,
        ("cross-site", "no-cors"): 403, ("cross-site", "cors"): 403, ("same-site", "no-cors"): 403,
        ("cross-site", "nested-navigate"): 403, ("nonsense", ""): 403,
    }  # fmt: skip
    found = {
        (site, mode): through(asked(sec_fetch_site=site, sec_fetch_mode=mode))[0]
        for site, mode in cases
    }
    assert found == cases


def test_a_body_that_says_nothing_of_its_length_is_counted() -> None:
    part = b"x" * 1_000_000
    assert through(asked("POST"), (part,) * (MOST_BYTES // len(part)))[0] == 200
    with pytest.raises(HTTPException) as caught:
        through(asked("POST"), (part,) * (MOST_BYTES // len(part) + 1))
    assert caught.value.status_code == 413


def test_tokens_are_of_one_run_and_one_browser() -> None:
    one, other = Tokens(), Tokens()
    request = Request(asked("POST", cookie="oatsack=me"))
    one.check(request, one.token("me"))
    stranger = Request(asked("POST"))
    for tokens, who, sent in ((other, request, one.token("me")), (one, request, one.token("you")),
                              (one, request, ""), (one, stranger, one.token("")),
                              (one, request, "é"), (one, request, "\ud800")):  # fmt: skip
        with pytest.raises(HTTPException) as caught:
            tokens.check(who, sent)
        assert caught.value.status_code == 403


@each("error, status", [
    (NotThere("x"), 404), (UnknownAddress("x"), 404), (UsageError("x"), 422),
    (TripFileError([]), 422), (LarderError([]), 422), (RuntimeError("x"), 500), (KeyError(1), 500),
    (StaleHead(head=1, theirs="a", mine="b"), 422),
])  # fmt: skip
def test_the_status_of_an_error(error: Exception, status: int) -> None:
    assert status_of(error) == status


@each("query, cookie, us", [
    ("", "", False), ("units=us", "", True), ("units=metric", "oatsack-units=us", False),
    ("", "oatsack-units=us", True), ("units=x", "", False), ("", "oatsack-units=x", False),
])  # fmt: skip
def test_units_are_those_asked_for_else_those_chosen_before(
    query: str, cookie: str, us: bool
) -> None:
    request = Request(asked(query=query, cookie=cookie))
    assert system.measures_for(request).us == us
    answer = system.remembered(request, PlainTextResponse(""))
    chosen = query in ("units=us", "units=metric")
    assert ("set-cookie" in answer.headers) == chosen


def test_headings_are_raised_to_the_first_level_together() -> None:
    blocks = (Heading(text="a", level=2), Para(text="p"), Heading(text="b", level=3))
    levels = [b.level for b in handing._raised(blocks) if isinstance(b, Heading)]
    assert levels == [1, 2]
    assert handing._raised((Para(text="p"),)) == [Para(text="p")]
