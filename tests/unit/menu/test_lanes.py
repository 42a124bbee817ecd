"""Engine calls side by side: in order, ended when asked, and every clock that ran out is told."""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np
import pytest

from oatsack.menu.lanes import AT_ONCE, Clocked, Lanes
from oatsack.values.problem import Answer, Builder, Problem, Work


def question(name: str) -> Problem:
    b = Builder()
    b.column(name)
    return b.done()


def answer(name: str, ended: str = "proved") -> Answer:
    return Answer(status=name, x=np.zeros(1), aim=0.0, bound=0.0, ended=ended)


def patient(problem: Problem, work: Work) -> Answer:
    """The first question takes longest, and all go on until they are told that it is enough."""
    assert work.halt is not None
    name = problem.columns[0]
    begin = time.monotonic()
    while not work.halt(0.0) and time.monotonic() - begin < (20.0 if name == "long" else 0.0):
        time.sleep(0.005)
    return answer(name)


def test_answers_come_in_the_order_of_their_questions() -> None:
    def engine(problem: Problem, work: Work) -> Answer:
        time.sleep(0.03 if problem.columns[0] == "a" else 0.0)
        return answer(problem.columns[0])

    with Lanes(engine, lambda: False) as lanes:
        found = lanes.run([(question(name), Work()) for name in "abc"])
    assert [one.status for one in found] == ["a", "b", "c"]


def test_questions_are_at_work_at_the_same_time() -> None:
    inside, most = [0], [0]

    def engine(problem: Problem, work: Work) -> Answer:
        inside[0] += 1
        most[0] = max(most[0], inside[0])
        time.sleep(0.05)
        inside[0] -= 1
        return answer("done")

    with Lanes(engine, lambda: False) as lanes:
        lanes.run([(question(name), Work()) for name in "abcd"])
    assert most[0] == AT_ONCE


def test_asking_ends_what_is_at_work() -> None:
    begin = time.monotonic()
    with Lanes(patient, lambda: True) as lanes:
        found = lanes.run([(question("long"), Work()), (question("short"), Work())])
    assert lanes.halted
    assert [one.status for one in found] == ["long", "short"]
    assert time.monotonic() - begin < 5.0


def test_nothing_is_ended_that_nobody_had_enough_of() -> None:
    asked: list[int] = []

    def ask() -> bool:
        asked.append(1)
        return len(asked) > 2

    with Lanes(patient, ask) as lanes:
        lanes.run([(question("long"), Work())])
    assert len(asked) == 3


def test_an_error_of_whoever_is_asked_ends_the_work_and_is_not_lost() -> None:
    def ask() -> bool:
        raise KeyboardInterrupt

    begin = time.monotonic()
    with pytest.raises(KeyboardInterrupt), Lanes(patient, ask) as lanes:
        lanes.run([(question("long"), Work())])
    assert time.monotonic() - begin < 5.0


def test_an_error_of_the_engine_comes_out() -> None:
    def engine(problem: Problem, work: Work) -> Answer:
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError), Lanes(engine, lambda: False) as lanes:
        lanes.run([(question("a"), Work())])


def test_only_a_clock_that_ended_the_work_is_remembered() -> None:
    ends = iter(("proved", "clock", "work", "stopped", "clock"))
    engine: Callable[[Problem, Work], Answer] = lambda p, w: answer("x", next(ends))  # noqa: E731
    clocked = Clocked(engine)
    for name in "abcde":
        clocked(question(name), Work())
    assert clocked.fired == ["b", "e"]
