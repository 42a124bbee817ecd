"""Solves in processes of its own: progress is heard, and leaving ends the work at once.

One process waits warm, its libraries loaded, so that an edit need not wait for them. A process is
spawned (it inherits no thread and no lock), takes one job at a time through a pipe, and is renewed
after so many, which keeps memory flat. Who has seen enough is sent the best so far. It knows
nothing of pages.
"""

from __future__ import annotations

import atexit
import multiprocessing
import threading
import time
from importlib import import_module
from multiprocessing.connection import Connection
from typing import Any

from oatsack.desk.solving import ENOUGH, Asked, Going, Hear, Left, Planned, Seen
from oatsack.errors import OatsackError, UnreadableInput, UsageError

JOBS_OF_ONE = 40
KEPT = 2
"""So many processes are kept: an edit need not wait while the dial is made ready."""
LISTEN_S = 0.25
"""How often a job that says nothing is asked whether anyone still waits for it."""
PATIENCE_S = 120.0
"""So long a job may take to hand over the best so far; then its process is ended."""


class Workshop:
    """Processes that solve; threads may share it."""

    def __init__(self) -> None:
        self._idle: list[_Bench] = []
        self._busy: set[_Bench] = set()
        self._lock = threading.Lock()
        atexit.register(self.close)

    def warm(self) -> None:
        """Has a process ready before anyone asks."""
        with self._lock:
            if not self._idle:
                self._idle.append(_Bench())

    def plan(self, asked: Asked, hear: Hear) -> Planned:
        """`solving.planned`, elsewhere."""
        if asked.prepared is not None:
            return Planned(plan=asked.prepared)
        made: Planned = self.do("oatsack.desk.solving:planned", asked, hear)
        return made

    def do(self, task: str, asked: Any, hear: Hear) -> Any:
        """A named function of two arguments, called in a process.

        Raises Left when `hear` left, or had enough before there was anything to hand over.
        """
        bench = self._taken()
        try:
            answer = bench.do(task, asked, hear)
        except BaseException:
            self._ended(bench)
            raise
        self._put_back(bench)
        return _opened(answer)

    def _taken(self) -> _Bench:
        with self._lock:
            bench = self._idle.pop() if self._idle else _Bench()
            self._busy.add(bench)
            if not self._idle and len(self._busy) < KEPT:
                self._idle.append(_Bench())
            return bench

    def _put_back(self, bench: _Bench) -> None:
        with self._lock:
            self._busy.discard(bench)
            fresh = bench.jobs < JOBS_OF_ONE
            if fresh and len(self._idle) + len(self._busy) < KEPT:
                self._idle.append(bench)
                return
        bench.end()
        if not fresh:
            self.warm()

    def _ended(self, bench: _Bench) -> None:
        bench.end()
        with self._lock:
            self._busy.discard(bench)
        self.warm()

    def close(self) -> None:
        """Ends every process."""
        with self._lock:
            for bench in (*self._idle, *self._busy):
                bench.end()
            self._idle.clear()
            self._busy.clear()


class _Bench:
    """One process and the pipe to it."""

    def __init__(self) -> None:
        context = multiprocessing.get_context("spawn")
        self.pipe, theirs = context.Pipe()
        self.process = context.Process(target=work, args=(theirs,), daemon=True)
        self.process.start()
        theirs.close()
        self.jobs = 0

    def do(self, task: str, asked: Any, hear: Hear) -> tuple[str, Any]:
        """The last word of a job, its progress handed on."""
        self.jobs += 1
        self.pipe.send((task, asked))
        seen, until = Seen(count=0, mass_g=0.0, price=0.0, gap=1.0), 0.0
        while True:
            if self.pipe.poll(LISTEN_S):
                kind, value = self._heard()
                if kind != "seen":
                    return kind, value
                seen = value
            going = hear(seen)
            if going == ENOUGH and not until:
                until = time.monotonic() + PATIENCE_S
                self.pipe.send(ENOUGH)
            if going is False or (going == ENOUGH and _in_vain(seen, until)):
                raise Left("left")

    def _heard(self) -> tuple[str, Any]:
        try:
            kind, value = self.pipe.recv()
        except EOFError:
            raise Left("ended") from None
        return kind, value

    def end(self) -> None:
        """Stops it, whatever it does."""
        self.process.terminate()
        self.pipe.close()
        self.process.join(2.0)


def _in_vain(seen: Seen, until: float) -> bool:
    """Whether there is nothing to hand over, or it does not come."""
    return seen.count == 0 or time.monotonic() > until


def _opened(answer: tuple[str, Any]) -> Any:
    """What a job gave back, or the error it met, raised here."""
    kind, value = answer
    if kind == "faults":
        raise UnreadableInput(value)
    if kind == "error":
        raise UsageError(value)
    if kind == "broken":
        raise RuntimeError(value)
    return value


def work(pipe: Connection) -> None:
    """What a process does: one job after the other, until nobody holds the other end."""
    for name in ("oatsack.desk.planning", "oatsack.desk.opening", "oatsack.files.trip"):
        import_module(name)
    try:
        while True:
            job = pipe.recv()
            if job != ENOUGH:  # said too late: that job has answered
                task, asked = job
                pipe.send(_done(task, asked, _teller(pipe)))
    except (EOFError, BrokenPipeError, KeyboardInterrupt):
        return


def _teller(pipe: Connection) -> Hear:
    """Hands progress on, each once; whoever leaves ends the process, whoever has enough says so."""
    last: Any = None
    going: Going = True

    def told(seen: Any) -> Going:
        nonlocal last, going
        if seen is not last:
            last = seen
            pipe.send(("seen", seen))
        if going != ENOUGH and pipe.poll():
            going = pipe.recv()
        return going

    return told


def _done(task: str, asked: Any, hear: Hear) -> tuple[str, Any]:
    """A job's last word."""
    module, _, name = task.partition(":")
    try:
        return "done", getattr(import_module(module), name)(asked, hear)
    except UnreadableInput as error:
        return "faults", error.faults
    except OatsackError as error:
        return "error", str(error)
    except (EOFError, BrokenPipeError):
        raise
    except Exception as error:  # noqa: BLE001 (told to the door, which says it went wrong)
        return "broken", repr(error)
