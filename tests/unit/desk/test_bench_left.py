"""Work that is ended: what was written is kept, with the best so far or without a plan; and what
an edit stays close to. Nothing here searches a menu."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import pytest

from oatsack.desk.bench import Bench
from oatsack.desk.export import EARLIER
from oatsack.desk.solving import Asked, Hear, Left, Planned
from oatsack.errors import UnreadableInput, UsageError
from oatsack.files.trip.write import write_trip
from support.desk_pages import TODAY, WEEKEND

TEXT = write_trip(WEEKEND)


class Told:
    """Answers what it is told to, and notes what it was asked."""

    def __init__(self) -> None:
        self.next: Planned | None = Planned(refusal=(("x", "no", {}),))
        self.asked: list[Asked] = []

    def plan(self, asked: Asked, hear: Hear) -> Planned:
        """The next answer; None leaves."""
        self.asked.append(asked)
        if self.next is None:
            raise Left("left")
        return self.next

    def do(self, task: str, asked: Any, hear: Hear) -> Any:
        """Nothing else is asked."""
        raise AssertionError(task)

    def warm(self) -> None:
        """Nothing to get ready."""


class Unread(Bench):
    """A bench that takes plans as they are: here they are marks, not plans."""

    def plan_of(self, revision: Any) -> Any:
        """Nothing is read."""
        return None


@pytest.fixture
def works() -> Told:
    return Told()


@pytest.fixture
def bench(tmp_path: Path, works: Told) -> Bench:
    return Unread(tmp_path, lambda: TODAY, works)


def changed(n: int) -> str:
    return f"# {n}\n{TEXT}"


def test_what_was_written_is_kept_where_the_work_is_left_before_a_menu(
    bench: Bench, works: Told
) -> None:
    works.next = None
    begun = bench.begin("walk", TEXT)
    assert begun.unplanned and begun.plan is None and begun.clashes == () and begun.ways == ()
    assert (bench.folder / "walk.toml").read_text("utf-8") == TEXT
    works.next = Planned(refusal=(("x", "they clash", {}),))
    again = bench.again("walk", head=begun.revision.id)
    assert not again.unplanned and again.clashes == ("they clash",)
    assert again.revision.text == TEXT and works.asked[-1].today == dt.date(2027, 6, 1)
    assert bench.undo("walk", head=again.revision.id).unplanned


def test_an_edit_that_is_left_is_one_step_that_can_be_undone(bench: Bench, works: Told) -> None:
    first = bench.begin("walk", TEXT)
    works.next = None
    second = bench.put("walk", changed(2), head=first.revision.id, note="form")
    assert second.unplanned and second.revision.note == "form"
    back = bench.undo("walk", head=second.revision.id)
    assert back.revision.text == TEXT and not back.unplanned
    assert bench.redo("walk", head=back.revision.id).revision.text == changed(2)


def test_a_text_that_cannot_be_read_is_not_kept_by_leaving(bench: Bench, works: Told) -> None:
    first = bench.begin("walk", TEXT)
    works.next = None
    with pytest.raises(UnreadableInput):
        bench.put("walk", "mass = [", head=first.revision.id, note="text")
    assert bench.standing("walk").revision.id == first.revision.id


def test_an_edit_stays_close_to_the_last_plan_there_was(bench: Bench, works: Told) -> None:
    works.next = Planned(plan=b"one")
    head = bench.begin("walk", TEXT).revision.id
    assert works.asked[-1].near is None
    for n, answer in enumerate((Planned(refusal=(("x", "no", {}),)), None, Planned(plan=b"two"))):
        works.next = answer
        head = bench.put("walk", changed(n), head=head, note="edit").revision.id
        assert works.asked[-1].near == b"one", n
    bench.put("walk", changed(9), head=head, note="edit")
    assert works.asked[-1].near == b"two"


@pytest.mark.slow
def test_many_edits_leave_one_file_and_one_workspace(bench: Bench, works: Told) -> None:
    head = bench.begin("walk", TEXT).revision.id
    for n in range(40):
        head = bench.put("walk", changed(n), head=head, note="edit").revision.id
    for _ in range(10):
        head = bench.undo("walk", head=head).revision.id
    left = sorted(p.name for p in bench.folder.iterdir())
    assert [name for name in left if not name.startswith("oatsack.sqlite")] == ["walk.toml"]
    assert {bench.store.holds("walk", changed(n)) for n in range(40)} == {True}
    assert (bench.folder / "walk.toml").read_text("utf-8") == changed(29)


def test_what_was_written_beside_the_pages_is_copied_before_it_is_written_over(
    bench: Bench, works: Told
) -> None:
    head = bench.begin("walk", TEXT).revision.id
    file = bench.folder / "walk.toml"
    for beside in (b"# mine, in an editor\n", b"\xff\xfe not UTF-8\n"):
        file.write_bytes(beside)
        head = bench.put("walk", changed(len(beside)), head=head, note="edit").revision.id
        assert beside in [p.read_bytes() for p in (bench.folder / EARLIER).iterdir()]
    assert len(list((bench.folder / EARLIER).iterdir())) == 2


def test_a_file_that_is_gone_is_written_again(bench: Bench, works: Told) -> None:
    head = bench.begin("walk", TEXT).revision.id
    (bench.folder / "walk.toml").unlink()
    bench.put("walk", changed(1), head=head, note="edit")
    assert (bench.folder / "walk.toml").read_text("utf-8") == changed(1)
    assert not (bench.folder / EARLIER).exists()


def test_a_plan_that_is_still_wanted_must_have_been(bench: Bench) -> None:
    with pytest.raises(UsageError):
        bench.again("walk", head=99)
