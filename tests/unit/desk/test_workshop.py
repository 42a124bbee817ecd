"""Processes that solve: what they answer, what they tell, and that leaving ends them."""

from __future__ import annotations

import datetime as dt
import multiprocessing
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from oatsack.desk import workshop as shop
from oatsack.desk.bench import stopped
from oatsack.desk.elsewhere import Elsewhere
from oatsack.desk.solving import ENOUGH, Asked, Here, Left, Planned, Seen, deaf, planned
from oatsack.desk.workshop import Workshop
from oatsack.errors import OatsackError, UnreadableInput
from oatsack.files.planfile import load
from oatsack.files.trip.write import Answers, write_trip
from support.desk_pages import WEEKEND

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def works() -> Iterator[Workshop]:
    made = Workshop()
    yield made
    made.close()


def test_a_task_is_done_elsewhere_and_told_of(works: Workshop) -> None:
    told: list[int] = []

    def hear(seen: Seen) -> bool:
        told.append(seen.count)
        return True

    asked = Asked(file=Path("a.toml"), text="x", today=dt.date(2027, 6, 1))
    found = works.do("oatsack.desk.solving:planned", Asked(
        file=asked.file, text=asked.text, today=asked.today, prepared=b"{}"), hear)  # fmt: skip
    assert found == Planned(plan=b"{}") == works.plan(
        Asked(file=asked.file, text="y", today=asked.today, prepared=b"{}"), deaf
    )
    assert works.plan(Asked(file=asked.file, text="", today=asked.today, prepared=b"1"), deaf)


def test_faults_and_wrong_use_arrive_as_they_would_here(works: Workshop, tmp_path: Path) -> None:
    asked = Asked(file=tmp_path / "a.toml", text="mass = ", today=dt.date(2027, 6, 1))
    for where in (Here(), works):
        with pytest.raises(UnreadableInput) as raised:
            where.plan(asked, deaf)
        assert raised.value.faults
    with pytest.raises(RuntimeError):
        works.do("oatsack.desk.solving:no_such_task", asked, deaf)


def test_a_plan_made_elsewhere_is_the_plan_made_here(works: Workshop, tmp_path: Path) -> None:
    asked = Asked(file=tmp_path / "a.toml", text=write_trip(WEEKEND), today=dt.date(2027, 6, 1))
    told: list[Seen] = []

    def hear(seen: Seen) -> bool:
        told.append(seen)
        return True

    assert works.plan(asked, hear) == planned(asked)
    better = [seen for seen in told if seen.count]
    assert better and better[-1].mass_g > 0 and 0.0 <= better[-1].gap < 1.0
    assert [s.count for s in better] == sorted(s.count for s in better)


def test_leaving_ends_the_process_at_once_and_another_is_ready(
    works: Workshop, tmp_path: Path
) -> None:
    asked = Asked(file=tmp_path / "a.toml", text=write_trip(WEEKEND), today=dt.date(2027, 6, 1))
    begin = time.perf_counter()
    with pytest.raises(Left):
        works.plan(asked, lambda seen: False)
    assert time.perf_counter() - begin < 20.0
    assert not works._busy
    assert works.plan(asked, deaf).plan


LONG = Answers(masses=("68 kg", "80 kg", "59 kg"), begin="2027-06-12 09:00",
               end="2027-06-21 15:00", distance="14 km", up="500 m")  # fmt: skip


def test_enough_ends_the_work_with_the_best_so_far(works: Workshop, tmp_path: Path) -> None:
    asked = Asked(file=tmp_path / "a.toml", text=write_trip(LONG), today=dt.date(2027, 6, 1))
    for where in (Here(), works):
        found = where.plan(asked, lambda seen: ENOUGH if seen.count else True)
        assert found.plan is not None, "a whole plan"
        plan = load(found.plan)
        assert plan.menu.ended == "stopped" and stopped(plan) and 0.0 < plan.menu.gap < 1.0
        assert plan.valid and len(plan.days) == 10, "as valid as any"
    assert not works._busy and any(one.process.is_alive() for one in works._idle)


def test_enough_before_there_is_anything_leaves(works: Workshop, tmp_path: Path) -> None:
    asked = Asked(file=tmp_path / "a.toml", text=write_trip(LONG), today=dt.date(2027, 6, 1))
    with pytest.raises(Left):
        works.plan(asked, lambda seen: ENOUGH)
    assert not works._busy


def test_what_does_not_come_is_not_waited_for_for_ever(monkeypatch: pytest.MonkeyPatch) -> None:
    seen = Seen(count=3, mass_g=1.0, price=1.0, gap=0.1)
    assert shop._in_vain(seen, time.monotonic() - 1.0)
    assert not shop._in_vain(seen, time.monotonic() + 60.0)
    assert shop._in_vain(Seen(count=0, mass_g=0.0, price=0.0, gap=1.0), time.monotonic() + 60.0)


def test_a_process_tells_each_menu_once_and_learns_that_it_is_enough() -> None:
    ours, theirs = multiprocessing.Pipe()
    hear = shop._teller(theirs)
    first, second = (Seen(count=n, mass_g=1.0, price=1.0, gap=0.1) for n in (1, 2))
    assert [hear(first), hear(first), hear(second)] == [True, True, True]
    assert [ours.recv(), ours.recv()] == [("seen", first), ("seen", second)]
    ours.send(ENOUGH)
    assert hear(second) == ENOUGH == hear(second) and not ours.poll()


def test_a_word_that_comes_too_late_is_passed_over() -> None:
    ours, theirs = multiprocessing.Pipe()
    thread = threading.Thread(target=shop.work, args=(theirs,))
    thread.start()
    asked = Asked(file=Path("a"), text="", today=dt.date(2027, 6, 1), prepared=b"x")
    ours.send(ENOUGH)
    ours.send(("oatsack.desk.solving:planned", asked))
    assert ours.recv() == ("done", Planned(plan=b"x"))
    ours.close()
    thread.join(10)
    assert not thread.is_alive()


def test_leaving_is_possible_here_too(tmp_path: Path) -> None:
    asked = Asked(file=tmp_path / "a.toml", text=write_trip(WEEKEND), today=dt.date(2027, 6, 1))
    with pytest.raises(Left):
        planned(asked, lambda seen: False)


def test_a_process_is_renewed_after_its_jobs(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shop, "JOBS_OF_ONE", 2)
    made = Workshop()
    asked = Asked(file=Path("a"), text="", today=dt.date(2027, 6, 1), prepared=b"x")
    pids = set()
    for _ in range(5):
        made.do("oatsack.desk.solving:planned", asked, deaf)
        assert all(one.jobs < 2 and one.process.is_alive() for one in made._idle)
        assert 1 <= len(made._idle) <= shop.KEPT and not made._busy
        pids |= {one.process.pid for one in made._idle}
    made.close()
    assert len(pids) >= 3, "the second job is a process's last"


def test_an_edit_finds_a_process_while_another_works(tmp_path: Path) -> None:
    made = Workshop()
    long = Asked(file=tmp_path / "a.toml", text=write_trip(WEEKEND), today=dt.date(2027, 6, 1))
    started, left = threading.Event(), threading.Event()

    def hear(seen: Seen) -> bool:
        started.set()
        return not left.is_set()

    def work() -> None:
        with pytest.raises(Left):
            made.plan(long, hear)

    thread = threading.Thread(target=work)
    thread.start()
    assert started.wait(60) and len(made._idle) == 1, "one waits beside the one that works"
    left.set()
    thread.join(60)
    made.close()


def test_two_jobs_at_once_do_not_wait_for_each_other(works: Workshop) -> None:
    asked = Asked(file=Path("a"), text="", today=dt.date(2027, 6, 1), prepared=b"x")
    found: list[Any] = []
    threads = [
        threading.Thread(target=lambda: found.append(
            works.do("oatsack.desk.solving:planned", asked, deaf)))
        for _ in range(2)
    ]  # fmt: skip
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert found == [Planned(plan=b"x")] * 2 and not works._busy


def test_nothing_is_left_running_after_closing() -> None:
    made = Workshop()
    made.warm()
    process = made._idle[0].process
    made.close()
    process.join(5)
    assert not process.is_alive()


def test_elsewhere_opens_its_workshop_when_it_is_wanted() -> None:
    works = Elsewhere()
    assert works._shop is None
    works.warm()
    assert isinstance(works._shop, Workshop) and works._shop._idle
    works._shop.close()


def test_words_of_a_job_become_values_or_errors() -> None:
    assert shop._opened(("done", 3)) == 3
    ends: tuple[tuple[str, Any, type[Exception]], ...] = (
        ("faults", (), UnreadableInput), ("error", "no", OatsackError),
        ("broken", "x", RuntimeError),
    )  # fmt: skip
    for kind, value, error in ends:
        with pytest.raises(error):
            shop._opened((kind, value))
    assert shop._done("oatsack.desk.solving:planned", Asked(
        file=Path("a"), text="", today=dt.date(2027, 6, 1), prepared=b"x"), deaf
    ) == ("done", Planned(plan=b"x"))  # fmt: skip
