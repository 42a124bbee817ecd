"""Work under way: how far it is, who listens, and what ends it. One piece for each trip is known.

A piece of work goes on while somebody cares: a page that listens, or one that was shown how it
goes a while ago. A page that is loaded again finds the work by its trip and listens on. Pressing
Stop and leaving end it alike: the best so far is kept, or, before there is any, what was written
without a plan (that is the desk's business). Threads; no pages, no words of its own.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass

from oatsack.desk.solving import ENOUGH, Going, Hear, Left, Seen

GRACE_S = 6.0
"""So long a page that listened may be away: it is being loaded again."""
QUIET_S = 60.0
"""So long a page without scripts may wait before it asks again."""
Work = Callable[[Hear], str]
"""Does something and gives the address of the page that shows what became of it."""
Say = Callable[[Seen], str]
Tell = Callable[[str, str], None]
"""Is told ``best`` with how it reads, at last ``done`` with where to go, or ``wrong``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """What a piece of work is: whose, of which trip, how it is said, and the page to wait at."""

    trip: str
    owner: str
    """Who began it: the cookie of a browser; blank where a browser's first page began it."""
    at: str
    work: Work
    say: Say


class Job:
    """A piece of work in a thread of its own."""

    def __init__(self, piece: Piece, clock: Callable[[], float] = time.monotonic) -> None:
        self.piece, self.best = piece, ""
        self.error: Exception | None = None
        self.told = False
        """Whether somebody has heard how it ended."""
        self._address = ""
        self._clock, self._lock, self._over = clock, threading.Lock(), threading.Event()
        self._tells: list[Tell] = []
        self._count, self._stopping = 0, False
        self._until = clock() + QUIET_S

    def start(self) -> Job:
        """Begins."""
        threading.Thread(target=self._run, daemon=True, name="work").start()
        return self

    def told_to(self, owner: str) -> bool:
        """Whether a browser is told how it goes: its own, or nobody's yet."""
        return self.piece.owner in ("", owner)

    @property
    def over(self) -> bool:
        """Whether it has ended."""
        return self._over.is_set()

    @property
    def stopping(self) -> bool:
        """Whether it was asked to end."""
        return self._stopping

    def wait(self, seconds: float) -> bool:
        """Waits for the end, so long at most."""
        return self._over.wait(seconds)

    def ended(self) -> str:
        """Where to go, now that it has ended. Raises what went wrong."""
        self.told = True
        if self.error is not None:
            raise self.error
        return self._address

    def stop(self) -> None:
        """Ends it with the best so far."""
        self._stopping = True

    def look(self) -> None:
        """A page shows how it goes."""
        self._until = max(self._until, self._clock() + QUIET_S)

    def attach(self, tell: Tell) -> None:
        """Somebody listens, and is told at once how it stands."""
        with self._lock:
            self._tells.append(tell)
            if self.best:
                tell("best", self.best)
            if self.over:
                tell(*self._last())

    def detach(self, tell: Tell) -> None:
        """Somebody has gone."""
        with self._lock:
            self._tells.remove(tell)
            if not self._tells:
                self._until = self._clock() + GRACE_S

    def hear(self, seen: Seen) -> Going:
        """What the work calls with every better menu, and between them."""
        if seen.count > self._count:
            self._count = seen.count
            self.best = self.piece.say(seen)
            self._tell("best", self.best)
        if not self._tells and self._clock() > self._until:
            self._stopping = True
        return ENOUGH if self._stopping else True

    def _tell(self, kind: str, text: str) -> None:
        with self._lock:
            for tell in self._tells:
                tell(kind, text)

    def _last(self) -> tuple[str, str]:
        return ("wrong", "") if self.error else ("done", self._address)

    def _run(self) -> None:
        try:
            self._address = self.piece.work(self.hear)
        except Left:
            self._address = f"{self.piece.at}?note=left"
        except Exception as error:  # noqa: BLE001 (shown as a page, like any other)
            self.error = error
        with self._lock:
            self._over.set()
            for tell in self._tells:
                tell(*self._last())


class Underway:
    """The latest piece of work of each trip."""

    def __init__(self) -> None:
        self._jobs: dict[str, Job] = {}

    def begin(self, piece: Piece) -> Job:
        """Starts a piece of work; it is the one its trip's pages show."""
        for trip in [t for t, job in self._jobs.items() if job.over and job.told]:
            self._jobs.pop(trip, None)
        job = self._jobs[piece.trip] = Job(piece)
        return job.start()

    def of(self, trip: str) -> Job | None:
        """The work of a trip that has not ended."""
        job = self._jobs.get(trip)
        return None if job is None or job.over else job

    def last(self, trip: str) -> Job | None:
        """The latest work of a trip, ended or not."""
        return self._jobs.get(trip)

    def missed(self, trip: str, owner: str) -> Job | None:
        """Work that went wrong while its owner's page was away, to be told once."""
        job = self._jobs.get(trip)
        if job is None or not job.over or job.told or job.error is None:
            return None
        return job if job.told_to(owner) else None
