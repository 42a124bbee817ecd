"""Work that is waited for or heard: where it leads, what it says, and what ends it."""

from __future__ import annotations

import asyncio
import json
import time
from pathlib import Path
from typing import Any

import pytest
from starlette.requests import Request
from starlette.responses import HTMLResponse, StreamingResponse

from oatsack.desk.bench import Bench
from oatsack.desk.solving import ENOUGH, Hear, Seen
from oatsack.errors import UsageError
from oatsack.web import live, underway
from oatsack.web.app import _templates
from oatsack.web.door import Door
from oatsack.web.guard import COOKIE, Tokens
from oatsack.web.underway import Piece, Work
from support.desk_pages import TODAY


def asked(*, listens: bool, browser: str = "mine") -> Request:
    accept = b"text/event-stream" if listens else b"text/html"
    return Request({"type": "http", "method": "POST", "path": "/trip/a/change", "query_string": b"",
                    "path_params": {"name": "a"},
                    "headers": [(b"accept", accept), (b"host", b"127.0.0.1"),
                                (b"cookie", f"{COOKIE}={browser}".encode())],
                    "scheme": "http", "server": ("127.0.0.1", 80)})  # fmt: skip


@pytest.fixture
def door(tmp_path: Path) -> Door:
    return Door(bench=Bench(tmp_path, lambda: TODAY), templates=_templates(), tokens=Tokens())


def better(hear: Hear) -> str:
    time.sleep(0.1)
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


def told(door: Door, work: Work, **more: Any) -> list[tuple[str, Any]]:
    answer = live.answered(door, asked(listens=True), work, lambda s: f"{s.mass_g:g}", **more)
    assert isinstance(answer, StreamingResponse)
    (begun, trip), *rest = asyncio.run(heard(answer))
    assert (begun, trip) == ("begun", "a")
    return rest


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


def until_enough(hear: Hear) -> str:
    """Work that gets better every hundredth of a second until somebody has seen enough."""
    for count in range(1, 2000):
        if hear(Seen(count=count, mass_g=float(count), price=1.0, gap=0.0)) == ENOUGH:
            return "/trip/a?was=1"
        time.sleep(0.01)
    return "/never"


def begun(door: Door, work: Work = until_enough) -> StreamingResponse:
    answer = live.answered(door, asked(listens=True), work, lambda s: f"{s.mass_g:g}")
    assert isinstance(answer, StreamingResponse)
    return answer


def test_leaving_ends_the_work_with_the_best_so_far(
    door: Door, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(underway, "GRACE_S", 0.1)
    assert len(asyncio.run(heard(begun(door), most=2))) == 2
    job = door.underway.last("a")
    assert job is not None and job.wait(5.0)
    assert job.ended() == "/trip/a?was=1"


def test_a_page_that_is_loaded_again_hears_on(door: Door) -> None:
    asyncio.run(heard(begun(door), most=3))
    job = door.underway.of("a")
    assert job is not None and not job.over, "it goes on while the page is away for a moment"
    again = live.work(door, asked(listens=True), {})
    assert isinstance(again, StreamingResponse)
    kinds = [kind for kind, _ in asyncio.run(heard(again, most=3))]
    assert kinds == ["begun", "best", "best"], "how it stands is told at once"
    job.stop()
    assert job.wait(5.0)


def test_stop_leads_to_what_was_found(door: Door) -> None:
    begun(door)
    assert live.stop(door, asked(listens=True), {}).status_code == 204, "heard by who listens"
    job = door.underway.last("a")
    assert job is not None and job.wait(5.0)
    begun(door)
    answer = live.stop(door, asked(listens=False), {})
    assert (answer.status_code, answer.headers["location"]) == (303, "/trip/a?was=1")


def test_without_scripts_long_work_leads_to_a_page_that_shows_how_far_it_is(
    door: Door, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(live, "PLAIN_S", 0.05)
    answer = live.answered(door, asked(listens=False), until_enough, lambda s: f"best {s.count}")
    assert answer.headers["location"] == "/trip/a"
    waiting = bytes(door.page(asked(listens=False), "at_work.html").body).decode("utf-8")
    assert "best " in waiting and 'action="/trip/a/stop"' in waiting
    assert live.work(door, asked(listens=False), {}).headers["location"] == "/trip/a"
    job = door.underway.of("a")
    assert job is not None
    job.stop()
    assert job.wait(5.0)
    assert live.work(door, asked(listens=False), {}).headers["location"] == "/trip/a?was=1"
    quiet = bytes(door.page(asked(listens=False), "at_work.html").body).decode("utf-8")
    assert 'id="working"' not in quiet


def test_what_went_wrong_while_the_page_was_away_is_told_once_and_to_whom_it_belongs(
    door: Door,
) -> None:
    def wrong(hear: Hear) -> str:
        raise UsageError("not so")

    begun(door, wrong)
    job = door.underway.last("a")
    assert job is not None and job.wait(5.0)
    assert door.underway.missed("a", "another browser") is None
    assert door.underway.missed("b", "mine") is None
    missed = door.underway.missed("a", "mine")
    assert missed is job
    with pytest.raises(UsageError, match="not so"):
        missed.ended()
    assert door.underway.missed("a", "mine") is None


def test_nobody_else_hears_or_finds_it(door: Door) -> None:
    begun(door)
    other = asked(listens=True, browser="other")
    assert live.work(door, other, {}).status_code == 204, "the page that asks stays as it is"
    led = live.work(door, asked(listens=False, browser="other"), {})
    assert led.headers["location"] == "/trip/a"
    assert live.stop(Door(bench=door.bench, templates=door.templates, tokens=Tokens()),
                     asked(listens=False), {}).headers["location"] == "/trip/a"  # fmt: skip
    job = door.underway.of("a")
    assert job is not None
    job.stop()
    assert job.wait(5.0)


def test_what_a_browsers_very_first_page_began_is_heard_by_it(door: Door) -> None:
    """That page had no cookie yet; the page it waits at has given it one."""
    first = Request({k: v for k, v in asked(listens=False).scope.items() if k != "headers"}
                    | {"headers": [(b"host", b"127.0.0.1")]})  # fmt: skip
    piece = Piece(trip="a", owner=first.cookies.get(COOKIE, ""), at="/trip/a", work=better,
                  say=lambda seen: "so far")  # fmt: skip
    door.underway.begin(piece)
    answer = live.work(door, asked(listens=True), {})
    assert isinstance(answer, StreamingResponse)
    *_, last = asyncio.run(heard(answer))
    assert last == ("done", "/trip/a?was=1")


def test_work_that_nobody_looks_at_ends_after_a_while() -> None:
    now = [0.0]
    piece = Piece(trip="a", owner="", at="/trip/a", work=until_enough, say=lambda s: "x")
    job = underway.Job(piece, clock=lambda: now[0])
    seen = Seen(count=1, mass_g=1.0, price=1.0, gap=0.0)
    assert job.hear(seen) is True
    now[0] = underway.QUIET_S - 1.0
    assert job.hear(seen) is True
    job.look()
    now[0] += underway.QUIET_S - 1.0
    assert job.hear(seen) is True, "a page has shown it meanwhile"
    tells: list[tuple[str, str]] = []

    def tell(kind: str, text: str) -> None:
        tells.append((kind, text))

    job.attach(tell)
    now[0] += 1000.0
    assert job.hear(seen) is True, "somebody listens"
    assert tells == [("best", "x")]
    job.detach(tell)
    now[0] += underway.GRACE_S - 1.0
    assert job.hear(seen) is True
    now[0] += 2.0
    assert job.hear(seen) == ENOUGH and job.stopping
