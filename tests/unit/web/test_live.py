"""Work that is waited for or heard: where it leads, what it says, and what ends it."""

from __future__ import annotations

import asyncio
import json
from pathlib import Path
from typing import Any

import pytest
from starlette.requests import Request
from starlette.responses import HTMLResponse, StreamingResponse

from oatsack.desk.bench import Bench
from oatsack.desk.solving import Hear, Left, Seen
from oatsack.errors import UsageError
from oatsack.web import live
from oatsack.web.app import _templates
from oatsack.web.door import Door
from oatsack.web.guard import Tokens
from support.desk_pages import TODAY


def asked(*, listens: bool) -> Request:
    accept = b"text/event-stream" if listens else b"text/html"
    return Request({"type": "http", "method": "POST", "path": "/trip/a/change", "query_string": b"",
                    "headers": [(b"accept", accept), (b"host", b"127.0.0.1")],
                    "scheme": "http", "server": ("127.0.0.1", 80)})  # fmt: skip


@pytest.fixture
def door(tmp_path: Path) -> Door:
    return Door(bench=Bench(tmp_path, lambda: TODAY), templates=_templates(), tokens=Tokens())


def better(hear: Hear) -> str:
    for count in (1, 2, 2, 3):
        hear(Seen(count=count, mass_g=100.0 * count, price=1.0, gap=0.1))
    return "/trip/a?was=1"


async def heard(answer: StreamingResponse, most: int = 99) -> list[tuple[str, Any]]:
    out = []
    iterator = answer.body_iterator
    async for part in iterator:
        lines = str(part).strip().split("\n")
        if lines[0].startswith("event: "):
            out.append((lines[0][7:], json.loads(lines[1][6:])))
        if len(out) >= most:
            break
    await iterator.aclose()  # type: ignore[attr-defined]
    return out


def told(door: Door, work: live.Work, **more: Any) -> list[tuple[str, Any]]:
    answer = live.answered(door, asked(listens=True), work, lambda s: f"{s.mass_g:g}", **more)
    assert isinstance(answer, StreamingResponse)
    return asyncio.run(heard(answer))


def test_who_does_not_listen_waits_and_is_sent_on(door: Door) -> None:
    answer = live.answered(door, asked(listens=False), better, lambda s: "")
    assert (answer.status_code, answer.headers["location"]) == (303, "/trip/a?was=1")


def test_who_listens_hears_each_better_one_once_and_where_to_go(door: Door) -> None:
    assert told(door, better) == [("best", "100"), ("best", "200"), ("best", "300"),
                                  ("done", "/trip/a?was=1")]  # fmt: skip


def test_what_goes_wrong_arrives_as_the_page_that_says_it(door: Door) -> None:
    def wrong(hear: Hear) -> str:
        raise UsageError("no <such> thing")

    [(kind, html)] = told(door, wrong)
    assert kind == "page" and "no &lt;such&gt; thing" in html
    with pytest.raises(UsageError):
        live.answered(door, asked(listens=False), wrong, lambda s: "")


def test_a_slip_of_ours_shows_no_trace(door: Door) -> None:
    def slip(hear: Hear) -> str:
        raise ZeroDivisionError("secret")

    [(kind, html)] = told(door, slip)
    assert kind == "page" and "secret" not in html and "went wrong inside" in html


def test_answers_that_are_refused_make_their_own_page_either_way(door: Door) -> None:
    def refused(error: UsageError) -> HTMLResponse:
        return HTMLResponse(f"again: {error}", 422)

    def wrong(hear: Hear) -> str:
        raise UsageError("not so")

    assert told(door, wrong, refused=refused) == [("page", "again: not so")]
    answer = live.answered(door, asked(listens=False), wrong, lambda s: "", refused=refused)
    assert answer.status_code == 422


def test_leaving_is_told_to_the_work_which_then_ends(door: Door) -> None:
    ended: list[bool] = []

    def long(hear: Hear) -> str:
        import time

        for count in range(1, 400):
            if not hear(Seen(count=count, mass_g=1.0, price=1.0, gap=0.0)):
                ended.append(True)
                raise Left("left")
            time.sleep(0.01)
        return "/never"

    answer = live.answered(door, asked(listens=True), long, lambda s: "x")
    assert isinstance(answer, StreamingResponse)
    assert len(asyncio.run(heard(answer, most=2))) == 2
    assert ended == [True]
