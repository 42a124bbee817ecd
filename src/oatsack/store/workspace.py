"""The workspace database of one folder: every revision of every trip, and which one is the head.

A save names the head it started from. If another window has saved in between it is refused with
both texts, and nothing is lost (C12). Undo and redo move the head along the chain; what was undone
stays. It knows texts and bytes, no trips: what they mean is the desk's business. Standard library
only: SQLite with STRICT tables and a write-ahead log, each save synced before it is acknowledged.
Plans are kept packed (zlib), an eighth of their size; a workspace from before is read as it is.
"""

from __future__ import annotations

import sqlite3
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from oatsack.errors import StaleHead, UsageError

FILE = "oatsack.sqlite"
PACKED = b"\0z"
"""Before the bytes of a plan that is packed; one that is not begins otherwise."""
TABLES = """
create table if not exists revision (
    id integer primary key,
    trip text not null,
    parent integer references revision (id),
    next integer references revision (id),
    text text not null,
    plan blob,
    refusal text not null default '',
    note text not null default ''
) strict;
create table if not exists head (
    trip text primary key,
    revision integer not null references revision (id)
) strict;
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """One state of a trip: its text, the plan of it (or why there is none), and its neighbours."""

    id: int
    trip: str
    parent: int | None
    next: int | None
    text: str
    packed: bytes | None = None
    refusal: str = ""
    note: str = ""

    @property
    def plan(self) -> bytes | None:
        """The plan, unpacked with every call: most pages have theirs read already."""
        if self.packed is None or not self.packed.startswith(PACKED):
            return self.packed
        return zlib.decompress(self.packed[len(PACKED) :])

    @property
    def planned(self) -> bool:
        """Whether there is a plan."""
        return self.packed is not None


COLUMNS = "id, trip, parent, next, text, plan, refusal, note"
BEFORE = """
with recursive back (id, parent, note, planned, steps) as (
    select id, parent, note, plan is not null, 0 from revision where id = ?
    union all
    select r.id, r.parent, r.note, r.plan is not null, steps + 1
    from revision as r join back on r.id = back.parent where steps < ?
) select id, note from back where planned and steps > 0
"""


class Workspace:
    """The database in a folder. Each call opens its own connection, so threads may share it."""

    def __init__(self, folder: Path) -> None:
        self.path = folder / FILE
        with self._open() as db:
            db.executescript(TABLES)

    def trips(self) -> tuple[str, ...]:
        """Names of the trips, sorted."""
        with self._read() as db:
            return tuple(row[0] for row in db.execute("select trip from head order by trip"))

    def latest(self, most: int) -> tuple[str, ...]:
        """Names of the trips that were saved last, the newest first."""
        asked = "select trip from revision group by trip order by max(id) desc limit ?"
        with self._read() as db:
            return tuple(row[0] for row in db.execute(asked, (most,)))

    def before(self, number: int, most: int) -> tuple[tuple[int, str], ...]:
        """Numbers and notes of the revisions with a plan among the `most` that a revision came
        of, the latest first."""
        with self._read() as db:
            return tuple(db.execute(BEFORE, (number, most)))

    def head(self, trip: str) -> Revision | None:
        """Where a trip stands; None for one that was never saved."""
        with self._read() as db:
            return _head(db, trip)

    def revision(self, number: int) -> Revision:
        """A revision by number. Raises UsageError."""
        with self._read() as db:
            return _revision(db, number)

    def holds(self, trip: str, text: str) -> bool:
        """Whether some revision of a trip has this very text."""
        asked = "select 1 from revision where trip = ? and text = ? limit 1"
        with self._read() as db:
            return db.execute(asked, (trip, text)).fetchone() is not None

    def save(self, trip: str, text: str, *, head: int | None, plan: bytes | None = None,
             refusal: str = "", note: str = "") -> Revision:  # fmt: skip
        """Adds a revision behind `head` and makes it the head. Raises StaleHead with both texts."""
        with self._open() as db:
            _same_head(db, trip, head, text)
            made = db.execute(
                "insert into revision (trip, parent, text, plan, refusal, note)"
                " values (?, ?, ?, ?, ?, ?)",
                (trip, head, text, _packed(plan), refusal, note),
            ).lastrowid
            db.execute("update revision set next = ? where id = ?", (made, head))
            _move(db, trip, made)
            return _revision(db, made)

    def undo(self, trip: str, *, head: int) -> Revision:
        """The head goes back by one; what was undone is kept for redo. Raises UsageError."""
        with self._open() as db:
            now = _same_head(db, trip, head)
            if now is None or now.parent is None:
                raise UsageError("there is nothing left to undo")
            _move(db, trip, now.parent)  # its next is this one: the head came that way
            return _revision(db, now.parent)

    def redo(self, trip: str, *, head: int) -> Revision:
        """The head goes forward to what was undone last. Raises UsageError."""
        with self._open() as db:
            now = _same_head(db, trip, head)
            if now is None or now.next is None:
                raise UsageError("there is nothing to do again")
            _move(db, trip, now.next)
            return _revision(db, now.next)

    def sound(self) -> bool:
        """Whether SQLite finds the file whole."""
        with self._read() as db:
            return bool(db.execute("pragma integrity_check").fetchone()[0] == "ok")

    def backup(self, target: Path) -> Path:
        """A whole copy while others may be saving. Raises UsageError if something stands there."""
        if target.exists():
            raise UsageError(f"{target.name} is there already; name another file")
        source, copy = sqlite3.connect(self.path), sqlite3.connect(target)
        try:
            source.backup(copy)  # outside a transaction of its own, or SQLite waits for itself
        finally:
            copy.close()
            source.close()
        return target

    @contextmanager
    def _open(self) -> Iterator[sqlite3.Connection]:
        """A connection in one transaction that writes: all of it is kept, or none."""
        db = sqlite3.connect(self.path, timeout=20.0, isolation_level=None)
        try:
            db.execute("pragma journal_mode = wal")
            db.execute("pragma synchronous = full")
            db.execute("pragma foreign_keys = on")
            yield from _whole(db, "begin immediate")
        finally:
            db.close()

    @contextmanager
    def _read(self) -> Iterator[sqlite3.Connection]:
        """A connection that sees one moment of the file; nobody who saves waits for it."""
        db = sqlite3.connect(self.path, timeout=20.0, isolation_level=None)
        try:
            yield from _whole(db, "begin")
        finally:
            db.close()


def _packed(plan: bytes | None) -> bytes | None:
    return None if plan is None else PACKED + zlib.compress(plan)


def _whole(db: sqlite3.Connection, begin: str) -> Iterator[sqlite3.Connection]:
    db.execute(begin)
    try:
        yield db
    except BaseException:
        if db.in_transaction:
            db.execute("rollback")
        raise
    if db.in_transaction:
        db.execute("commit")


def _revision(db: sqlite3.Connection, number: int | None) -> Revision:
    row = db.execute(f"select {COLUMNS} from revision where id = ?", (number,)).fetchone()
    if row is None:
        raise UsageError(f"there is no revision {number}")
    names = COLUMNS.replace("plan", "packed").split(", ")
    return Revision(**dict(zip(names, row, strict=True)))


def _head(db: sqlite3.Connection, trip: str) -> Revision | None:
    row = db.execute("select revision from head where trip = ?", (trip,)).fetchone()
    return None if row is None else _revision(db, row[0])


def _same_head(
    db: sqlite3.Connection, trip: str, head: int | None, text: str = ""
) -> Revision | None:
    """The head, if it is the one the caller started from."""
    now = _head(db, trip)
    if (now.id if now else None) != head:
        raise StaleHead(head=now.id if now else 0, theirs=now.text if now else "", mine=text)
    return now


def _move(db: sqlite3.Connection, trip: str, number: int | None) -> None:
    db.execute(
        "insert into head (trip, revision) values (?, ?)"
        " on conflict (trip) do update set revision = excluded.revision",
        (trip, number),
    )
