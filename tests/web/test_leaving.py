"""Leaving a page ends the work; what was typed is kept, with the best so far, and others go on."""

from __future__ import annotations

import re
import socket
import time
from pathlib import Path
from urllib.parse import urlencode, urlsplit
from urllib.request import HTTPCookieProcessor, build_opener

import pytest

from oatsack.desk.elsewhere import Elsewhere
from support import browser

pytestmark = pytest.mark.slow
ANSWERS = {
    "mass": "68 kg, 80 kg, 59 kg", "begin": "2027-06-12T09:00", "end": "2027-07-02T15:00",
    "distance": "14 km", "up": "500 m", "eat": "usual", "name": "long",
}  # fmt: skip


def test_closing_the_window_ends_the_work_and_keeps_what_was_typed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[Elsewhere] = []

    class Watched(Elsewhere):
        def __init__(self) -> None:
            super().__init__()
            made.append(self)

    monkeypatch.setattr(browser, "Elsewhere", Watched)
    with browser.served(tmp_path) as address:
        window = build_opener(HTTPCookieProcessor())
        with window.open(address + "/") as answer:
            page = answer.read().decode("utf-8")
            cookie = str(answer.headers["set-cookie"]).split(";")[0]
        token = re.search(r'name="token" value="(\w+)"', page)
        assert token
        wire = asking(address, cookie, {"token": token[1], **ANSWERS})
        shop = made[0]._opened()
        busy = until(lambda: list(shop._busy))  # type: ignore[attr-defined]
        assert busy, "a process works for this window"
        process = busy[0].process
        with window.open(address + "/") as answer:
            assert answer.status == 200, "other pages are answered meanwhile"
        wire.close()
        begin = time.perf_counter()
        assert until(lambda: not shop._busy, 60.0), "leaving ends it"  # type: ignore[attr-defined]
        took = time.perf_counter() - begin
        assert until(lambda: (tmp_path / "long.toml").is_file()), "what was typed is kept"
        with window.open(address + "/trip/long") as answer:
            page_text = answer.read().decode("utf-8")
        unplanned = "Not planned yet" in page_text
        assert unplanned or "The search was stopped" in page_text
        assert not (unplanned and process.is_alive()), "before there is a menu the process is ended"
        assert took < 60.0
        shop.close()  # type: ignore[attr-defined]


def asking(address: str, cookie: str, fields: dict[str, str]) -> socket.socket:
    """A form sent by hand, its answer begun: events."""
    where = urlsplit(address)
    body = urlencode(fields).encode()
    wire = socket.create_connection((where.hostname, where.port), timeout=60)
    head = (
        f"POST /start HTTP/1.1\r\nHost: {where.netloc}\r\nCookie: {cookie}\r\n"
        f"Origin: {address}\r\nAccept: text/event-stream\r\n"
        "Content-Type: application/x-www-form-urlencoded\r\n"
        f"Content-Length: {len(body)}\r\n\r\n"
    )
    wire.sendall(head.encode() + body)
    assert b"200 OK" in wire.recv(4096)
    return wire


def until(true: object, seconds: float = 30.0) -> object:
    """What a question answers once it answers yes, or its last no."""
    end = time.perf_counter() + seconds
    while True:
        found = true()  # type: ignore[operator]
        if found or time.perf_counter() > end:
            return found
        time.sleep(0.05)
