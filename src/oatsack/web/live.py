"""Work that a page waits for: plainly, or listening to how it goes (server-sent events).

A browser without scripts sends a form and waits for the page it leads to. With scripts it asks for
events: the best so far, then where to go, or the page that says why not. Leaving ends the work.
"""

from __future__ import annotations

import asyncio
import json
import threading
from collections.abc import AsyncIterator, Callable
from dataclasses import dataclass
from typing import Any

from starlette.requests import Request
from starlette.responses import Response, StreamingResponse

from oatsack.desk.solving import Hear, Left, Seen, deaf
from oatsack.errors import OatsackError, UnreadableInput, UsageError
from oatsack.web.door import Door, back
from oatsack.web.spoken import spoken

STILL_S = 15.0
"""How often a silent stream says that it is still there."""
Work = Callable[[Hear], str]
"""Does something and gives the address of the page that shows what became of it."""
Say = Callable[[Seen], str]
Refused = Callable[[OatsackError], Response]


def listens(request: Request) -> bool:
    """Whether a page wants events rather than to wait."""
    return "text/event-stream" in request.headers.get("accept", "")


def answered(door: Door, request: Request, work: Work, say: Say, *,
             refused: Refused | None = None) -> Response:  # fmt: skip
    """The work done and the way to its page, or a stream that tells how it goes.

    `refused` makes the page for what is wrong with the answers; without it an error page does.
    """
    says = _Told(door=door, request=request, work=work, say=say, refused=refused)
    if listens(request):
        return StreamingResponse(_events(says), media_type="text/event-stream",
                                 headers={"cache-control": "no-store"})  # fmt: skip
    try:
        return back(work(deaf))
    except (UsageError, UnreadableInput) as error:
        if refused is None:
            raise
        return refused(error)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """One piece of work, and how everything about it is said."""

    door: Door
    request: Request
    work: Work
    say: Say
    refused: Refused | None

    def page(self, error: Exception) -> str:
        """The page of what went wrong."""
        if self.refused and isinstance(error, UsageError | UnreadableInput):
            return bytes(self.refused(error).body).decode("utf-8")
        return bytes(spoken(self.door, self.request, error).body).decode("utf-8")


async def _events(told: _Told) -> AsyncIterator[str]:
    loop, heard = asyncio.get_running_loop(), asyncio.Queue[tuple[str, Any]]()
    gone = threading.Event()

    def tell(kind: str, value: Any) -> None:
        if not loop.is_closed():
            loop.call_soon_threadsafe(heard.put_nowait, (kind, value))

    loop.run_in_executor(None, _run, told, tell, gone)
    try:
        yield ": at work\n\n"
        kind = ""
        while kind not in ("done", "page"):
            try:
                kind, value = await asyncio.wait_for(heard.get(), STILL_S)
            except TimeoutError:
                yield ": still at work\n\n"
                continue
            yield f"event: {kind}\ndata: {json.dumps(value)}\n\n"
    finally:
        gone.set()


def _run(told: _Told, tell: Callable[[str, Any], None], gone: threading.Event) -> None:
    """The work in a thread; its last word is where to go, or the page of what went wrong."""
    last = 0

    def hear(seen: Seen) -> bool:
        nonlocal last
        if seen.count > last:
            last = seen.count
            tell("best", told.say(seen))
        return not gone.is_set()

    try:
        tell("done", told.work(hear))
    except Left:
        tell("done", told.request.url.path)
    except Exception as error:  # noqa: BLE001 (shown as a page, like any other)
        tell("page", told.page(error))
