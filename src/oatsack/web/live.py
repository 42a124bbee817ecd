"""Work that a page waits for: plainly, or listening to how it goes (server-sent events).

With scripts a form asks for events: the best so far, then where to go, or the page that says why
not. Without, it waits for the page it leads to, and after a while for one that shows how far the
work is. A page loaded again finds the work by its trip. Stop and leaving keep the best so far.
"""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator, Callable
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response, StreamingResponse

from oatsack.desk.solving import Hear, Seen
from oatsack.errors import OatsackError, UnreadableInput, UsageError
from oatsack.reports.words import say
from oatsack.web.door import Door, Form, back
from oatsack.web.guard import COOKIE
from oatsack.web.spoken import spoken
from oatsack.web.underway import Job, Piece, Say, Work

STILL_S = 15.0
"""How often a silent stream says that it is still there."""
PLAIN_S = 8.0
"""So long a page without scripts waits for the end before it is shown how far the work is."""
Refused = Callable[[OatsackError], Response]


def listens(request: Request) -> bool:
    """Whether a page wants events rather than to wait."""
    return "text/event-stream" in request.headers.get("accept", "")


def answered(door: Door, request: Request, work: Work, how: Say, *, trip: str = "", at: str = "",
             refused: Refused | None = None) -> Response:  # fmt: skip
    """The work begun, and the way to its page, or a stream that tells how it goes.

    `trip` is whose work it is (without it, the address's), `at` the page where one waits for it.
    `refused` makes the page for what is wrong with the answers; without it an error page does.
    """
    trip = trip or request.path_params.get("name", "")
    owner = request.cookies.get(COOKIE, "")
    at = at or f"/trip/{trip}"

    def prepared(hear: Hear) -> str:
        address = work(hear)
        door.prepare(door, address)
        return address

    job = door.underway.begin(Piece(trip=trip, owner=owner, at=at, work=prepared, say=how))
    told = _Told(door=door, request=request, job=job, refused=refused)
    return told.stream() if listens(request) else told.plain()


def saved(door: Door, request: Request, head: int, save: Callable[[Hear], object], *,
          to: str = "", refused: Refused | None = None) -> Response:  # fmt: skip
    """A change of this address's trip, saved and planned, and the way to the trip, what changed
    marked, or to another page."""
    trip = f"/trip/{request.path_params['name']}"

    def work(hear: Hear) -> str:
        save(hear)
        return to or f"{trip}?was={head}#changed"

    return answered(door, request, work, best_said, refused=refused)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """A piece of work as one page hears it."""

    door: Door
    request: Request
    job: Job
    refused: Refused | None = None

    def plain(self) -> Response:
        """Where it leads; or, if that takes long, the page that shows how far it is."""
        if not self.job.wait(PLAIN_S):
            return back(self.job.piece.at)
        try:
            return back(self.job.ended())
        except (UsageError, UnreadableInput) as error:
            if self.refused is None:
                raise
            return self.refused(error)

    def stream(self) -> Response:
        """How it goes, as events."""
        return StreamingResponse(_events(self), media_type="text/event-stream",
                                 headers={"cache-control": "no-store"})  # fmt: skip

    def last(self, kind: str, text: str) -> tuple[str, str]:
        """The last event: where to go, or the page of what went wrong."""
        try:
            return kind, self.job.ended()
        except Exception as error:  # noqa: BLE001 (shown as a page, like any other)
            if self.refused and isinstance(error, UsageError | UnreadableInput):
                return "page", bytes(self.refused(error).body).decode("utf-8")
            return "page", bytes(spoken(self.door, self.request, error).body).decode("utf-8")


async def _events(told: _Told) -> AsyncIterator[str]:
    loop, heard = asyncio.get_running_loop(), asyncio.Queue[tuple[str, str]]()

    def tell(kind: str, text: str) -> None:
        if not loop.is_closed():
            loop.call_soon_threadsafe(heard.put_nowait, (kind, text))

    told.job.attach(tell)
    try:
        yield _event("begun", told.job.piece.trip)
        while True:
            try:
                kind, text = await asyncio.wait_for(heard.get(), STILL_S)
            except TimeoutError:
                yield ": still at work\n\n"
                continue
            if kind != "best":
                yield _event(*await loop.run_in_executor(None, told.last, kind, text))
                return
            yield _event(kind, text)
    finally:
        told.job.detach(tell)


def best_said(seen: Seen) -> str:
    """How far the work is."""
    return say("live.best", mass=seen.mass_g, price=seen.price, gap=seen.gap)


def _event(kind: str, text: str) -> str:
    return f"event: {kind}\ndata: {json.dumps(text)}\n\n"


def work(door: Door, request: Request, form: Form) -> Response:
    """How the work of this trip goes: events, or the page to wait at, at last what came of it."""
    trip = request.path_params["name"]
    job = door.underway.last(trip)
    if job is None:
        return back(f"/trip/{trip}")
    if not job.told_to(request.cookies.get(COOKIE, "")):
        # another browser's: a page that listens stays as it is
        return Response(status_code=204) if listens(request) else back(f"/trip/{trip}")
    told = _Told(door=door, request=request, job=job)
    if listens(request):
        return told.stream()
    return back(job.ended() if job.over else job.piece.at)


def stop(door: Door, request: Request, form: Form) -> Response:
    """Ends the work of this trip with the best so far."""
    trip = request.path_params["name"]
    job = door.underway.last(trip)
    if job is None:
        return back(f"/trip/{trip}")
    job.stop()
    if listens(request):  # it hears the end where it listens already
        return Response(status_code=204)
    return _Told(door=door, request=request, job=job).plain()
