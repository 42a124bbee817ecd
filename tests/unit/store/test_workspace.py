"""The workspace: a chain of revisions with one head, refused when stale, whole after a kill."""

from __future__ import annotations

import os
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.errors import StaleHead, UsageError
from oatsack.store import workspace
from oatsack.store.workspace import Workspace
from support.amount import examples


def test_a_trip_that_was_never_saved_has_no_head(tmp_path: Path) -> None:
    assert Workspace(tmp_path).head("walk") is None
    assert Workspace(tmp_path).trips() == ()


def test_a_save_becomes_the_head_and_knows_its_parent(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    first = store.save("walk", "one", head=None, plan=b"1", note="begun")
    second = store.save("walk", "two", head=first.id)
    assert store.head("walk") == second
    assert (second.parent, second.text, second.plan) == (first.id, "two", None)
    assert store.revision(first.id).plan == b"1"
    assert store.trips() == ("walk",)


def test_a_stale_head_is_refused_and_shown_both_texts(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    first = store.save("walk", "one", head=None)
    store.save("walk", "theirs", head=first.id)
    with pytest.raises(StaleHead) as refused:
        store.save("walk", "mine", head=first.id)
    assert (refused.value.theirs, refused.value.mine) == ("theirs", "mine")
    assert store.head("walk").text == "theirs"  # type: ignore[union-attr]


def test_undo_and_redo_from_a_stale_window_are_refused(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    first = store.save("walk", "one", head=None)
    store.save("walk", "two", head=first.id)
    with pytest.raises(StaleHead):
        store.undo("walk", head=first.id)
    with pytest.raises(StaleHead):
        store.redo("walk", head=first.id)


def test_there_is_nothing_to_undo_before_the_first_save_or_redo_after_the_last(
    tmp_path: Path,
) -> None:
    store = Workspace(tmp_path)
    only = store.save("walk", "one", head=None)
    with pytest.raises(UsageError, match="undo"):
        store.undo("walk", head=only.id)
    with pytest.raises(UsageError, match="again"):
        store.redo("walk", head=only.id)


def test_two_trips_do_not_touch_each_other(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    store.save("a", "one", head=None)
    other = store.save("b", "uno", head=None)
    assert store.undo("b", head=store.save("b", "due", head=other.id).id).text == "uno"
    assert store.head("a").text == "one"  # type: ignore[union-attr]


@pytest.mark.slow
@settings(max_examples=examples(25), deadline=None)
@given(moves=st.lists(st.sampled_from(["save", "undo", "redo"]), max_size=12))
def test_undo_and_redo_walk_the_chain_like_two_stacks(
    moves: list[str], tmp_path_factory: pytest.TempPathFactory
) -> None:
    store = Workspace(tmp_path_factory.mktemp("w"))
    back, ahead, at = [], [], store.save("walk", "0", head=None)
    text = "0"
    for n, move in enumerate(moves, 1):
        if move == "save":
            at, ahead = store.save("walk", str(n), head=at.id), []
            back, text = [*back, text], str(n)
        elif move == "undo" and back:
            at, ahead = store.undo("walk", head=at.id), [text, *ahead]
            text = back.pop()
        elif move == "redo" and ahead:
            at, back = store.redo("walk", head=at.id), [*back, text]
            text = ahead.pop(0)
        assert store.head("walk").text == text  # type: ignore[union-attr]


def test_a_backup_is_a_whole_copy_and_never_overwrites(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    store.save("walk", "one", head=None, plan=b"1")
    (tmp_path / "copy").mkdir()
    target = store.backup(tmp_path / "copy" / "oatsack.sqlite")
    assert Workspace(target.parent).head("walk") == store.head("walk")
    with pytest.raises(UsageError, match="already"):
        store.backup(target)


SAVING = """
import sys
import threading
from pathlib import Path
from oatsack.store import workspace
from oatsack.store.workspace import Workspace
store = Workspace(Path(sys.argv[1]))
at = store.head("walk")
n = int(at.text) if at else 0
while True:
    n += 1
    at = store.save("walk", str(n), head=at.id if at else None, plan=b"x" * 20000)
    print(n, flush=True)
"""


@pytest.mark.slow
def test_kill_9_during_saves_loses_no_acknowledged_edit(tmp_path: Path) -> None:
    for moment in range(8):
        saver = subprocess.Popen(
            [sys.executable, "-c", SAVING, str(tmp_path)], stdout=subprocess.PIPE, text=True
        )
        assert saver.stdout is not None
        said = [saver.stdout.readline()]
        time.sleep(0.013 * moment)
        os.kill(saver.pid, signal.SIGKILL)
        said += saver.stdout.read().splitlines()
        saver.wait()
        saver.stdout.close()
        acknowledged = int([line for line in said if line.strip()][-1])
        store = Workspace(tmp_path)
        assert store.sound()
        head = store.head("walk")
        assert head is not None and int(head.text) in (acknowledged, acknowledged + 1)
        assert store.revision(head.parent or head.id).text in (str(int(head.text) - 1), head.text)


def test_a_revision_knows_what_it_was_saved_with_and_one_that_is_not_there_is_refused(
    tmp_path: Path,
) -> None:
    store = Workspace(tmp_path)
    made = store.save("walk", "one", head=None, refusal="no plan", note="a swap")
    assert store.revision(made.id) == made
    assert (made.refusal, made.note, made.plan, made.next) == ("no plan", "a swap", None, None)
    for number in (0, 2, 99):
        with pytest.raises(UsageError, match=f"no revision {number}"):
            store.revision(number)


def test_a_text_is_held_by_its_own_trip_and_to_the_letter(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    first = store.save("walk", "one", head=None)
    store.save("walk", "two", head=first.id)
    asked = [("walk", "one"), ("walk", "two"), ("walk", "One"), ("walk", "on"), ("other", "one")]
    assert [store.holds(*one) for one in asked] == [True, True, False, False, False]


def test_a_new_save_after_undo_leads_on_and_what_was_undone_is_kept_to_be_read(
    tmp_path: Path,
) -> None:
    store = Workspace(tmp_path)
    first = store.save("walk", "one", head=None)
    second = store.save("walk", "two", head=first.id)
    back = store.undo("walk", head=second.id)
    assert (back.id, back.next) == (first.id, second.id)
    assert store.redo("walk", head=first.id).id == second.id
    store.undo("walk", head=second.id)
    third = store.save("walk", "three", head=first.id)
    assert (third.parent, store.revision(first.id).next) == (first.id, third.id)
    with pytest.raises(UsageError, match="again"):
        store.redo("walk", head=third.id)
    assert store.revision(second.id).text == "two"  # nothing the user wrote is lost (C12)
    assert store.holds("walk", "two")


def test_a_trip_that_begins_with_a_head_it_never_had_is_stale(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    with pytest.raises(StaleHead) as refused:
        store.save("walk", "mine", head=7)
    assert (refused.value.head, refused.value.theirs, refused.value.mine) == (0, "", "mine")
    assert store.trips() == ()


def test_what_goes_wrong_inside_a_save_leaves_nothing_behind(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    first = store.save("walk", "one", head=None)
    with pytest.raises(sqlite3.IntegrityError):
        store.save("walk", None, head=first.id)  # type: ignore[arg-type]
    with pytest.raises(sqlite3.Error):
        store.save("walk", object(), head=first.id)  # type: ignore[arg-type]
    assert store.head("walk") == first
    assert store.save("walk", "two", head=first.id).parent == first.id
    assert store.sound()


def test_trips_are_listed_by_name_and_each_has_its_own_chain(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    for name in ("tarn", "alder", "Moor"):
        store.save(name, name, head=None)
    assert store.trips() == ("Moor", "alder", "tarn")
    assert Workspace(tmp_path).trips() == store.trips()
    assert [store.head(name).text for name in store.trips()] == list(store.trips())  # type: ignore[union-attr]


def test_a_backup_while_another_writes_is_whole(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    first = store.save("walk", "one", head=None, plan=b"x" * 100_000)
    writing = sqlite3.connect(store.path, isolation_level=None)
    writing.execute("begin immediate")
    writing.execute("insert into revision (trip, text) values ('other', 'half')")
    copy = store.backup(tmp_path / "copy.sqlite")
    writing.execute("rollback")
    writing.close()
    (tmp_path / "there").mkdir()
    copy.rename(tmp_path / "there" / "oatsack.sqlite")
    there = Workspace(tmp_path / "there")
    assert there.sound()
    assert there.head("walk") == first
    assert there.trips() == ("walk",)


def test_the_database_keeps_a_log_ahead_and_checks_its_references_and_types(
    tmp_path: Path,
) -> None:
    store = Workspace(tmp_path)
    outside = sqlite3.connect(store.path)
    assert outside.execute("pragma journal_mode").fetchone() == ("wal",)
    made = dict(outside.execute("select name, sql from sqlite_master where type = 'table'"))
    outside.close()
    assert all(sql.rstrip().lower().endswith("strict") for sql in made.values())
    with store._open() as db:
        assert db.execute("pragma synchronous").fetchone() == (2,)  # full: synced, then said
        assert db.execute("pragma foreign_keys").fetchone() == (1,)
    with pytest.raises(sqlite3.IntegrityError), store._open() as db:
        db.execute("insert into revision (trip, parent, text) values ('walk', 99, 'x')")
    assert not store.holds("walk", "x")


def test_a_save_that_breaks_off_in_the_middle_is_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = Workspace(tmp_path)
    first = store.save("walk", "one", head=None)

    def broken(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as here:
        here.setattr(workspace, "_move", broken)
        with pytest.raises(KeyboardInterrupt):
            store.save("walk", "two", head=first.id)
    assert not store.holds("walk", "two")
    assert store.revision(first.id).next is None
    assert store.head("walk") == first


def test_redo_leads_to_the_last_branch_that_was_undone(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    root = store.save("walk", "root", head=None)
    for text in ("left", "right"):
        branch = store.save("walk", text, head=root.id)
        leaf = store.save("walk", f"{text} leaf", head=branch.id)
        store.undo("walk", head=leaf.id)
        store.undo("walk", head=branch.id)
    texts = []
    at = root
    for _ in range(2):
        at = store.redo("walk", head=at.id)
        texts.append(at.text)
    assert texts == ["right", "right leaf"]
    back = store.undo("walk", head=at.id)
    assert (back.text, store.redo("walk", head=back.id).text) == ("right", "right leaf")


def test_one_saver_waits_for_another_and_the_later_is_told(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    first = store.save("walk", "one", head=None)
    told: list[object] = []

    def mine(text: str) -> None:
        try:
            told.append(Workspace(tmp_path).save("walk", text, head=first.id).text)
        except StaleHead as error:
            told.append((error.theirs, error.mine))

    both = [threading.Thread(target=mine, args=(text,)) for text in ("a", "b")]
    for one in both:
        one.start()
    for one in both:
        one.join()
    won = next(one for one in told if isinstance(one, str))
    lost = "b" if won == "a" else "a"
    assert (won, lost) in [one for one in told if isinstance(one, tuple)]
    assert store.head("walk").text == won  # type: ignore[union-attr]


PLAN = b", ".join(b'{"id": "oats-%d", "kcal": 372.0}' % n for n in range(900))


def test_plans_are_kept_packed_and_come_back_to_the_byte(tmp_path: Path) -> None:
    store, at = Workspace(tmp_path), None
    for n in range(20):
        at = store.save("walk", str(n), head=at.id if at else None, plan=PLAN + b" " * n)
    assert at is not None
    assert at.plan == PLAN + b" " * 19
    assert at.packed is not None and len(at.packed) < len(PLAN) / 4
    assert store.path.stat().st_size < 20 * len(PLAN) / 3
    odd = store.save("walk", "odd", head=at.id, plan=workspace.PACKED + b"not zlib")
    assert store.revision(odd.id).plan == workspace.PACKED + b"not zlib"
    none = store.save("walk", "none", head=odd.id)
    assert (none.plan, none.planned, odd.planned) == (None, False, True)


def test_a_workspace_from_before_plans_were_packed_is_read_as_it_is(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    with store._open() as db:
        db.execute("insert into revision (trip, text, plan) values ('walk', 'one', ?)", (PLAN,))
        db.execute("insert into head (trip, revision) values ('walk', 1)")
    old = store.head("walk")
    assert old is not None and (old.plan, old.planned) == (PLAN, True)
    assert store.save("walk", "two", head=old.id, plan=PLAN).parent == old.id
    assert store.revision(old.id).plan == PLAN


def test_what_a_revision_came_of_is_told_with_its_note_where_there_is_a_plan(
    tmp_path: Path,
) -> None:
    store, at = Workspace(tmp_path), None
    for n in range(9):
        plan = None if n == 4 else b"{}"
        at = store.save("walk", str(n), head=at.id if at else None, plan=plan, note=f"n{n}")
    assert at is not None
    planned = [note for _, note in store.before(at.id, 12)]
    assert planned == ["n7", "n6", "n5", "n3", "n2", "n1", "n0"]
    assert [note for _, note in store.before(at.id, 4)] == ["n7", "n6", "n5"]  # the fourth has none
    assert store.before(1, 12) == () == store.before(99, 12)
    side = store.save("walk", "side", head=at.id, plan=b"{}", note="side")
    assert store.before(side.id, 1) == ((at.id, "n8"),)


def test_the_latest_trips_come_first(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    first = store.save("alder", "one", head=None)
    for name in ("birch", "tarn"):
        store.save(name, "one", head=None)
    store.save("alder", "two", head=first.id)
    assert store.latest(9) == ("alder", "tarn", "birch")
    assert store.latest(2) == ("alder", "tarn")


def test_whoever_reads_waits_for_nobody_who_saves(tmp_path: Path) -> None:
    store = Workspace(tmp_path)
    first = store.save("walk", "one", head=None)
    with store._open() as db:
        db.execute("update revision set note = 'half' where id = 1")
        begin = time.monotonic()
        assert store.head("walk") == first  # as it was before
        assert time.monotonic() - begin < 5.0, "the lock is waited for 20 s"
    assert store.revision(first.id).note == "half"
