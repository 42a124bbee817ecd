"""The everyday engine against the one that tries everything, and problems as plain numbers."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.errors import SolverFailed
from oatsack.solve import exhaustive, highs
from oatsack.values.problem import Builder, Problem, Work, activity, worst_breach
from support.amount import examples

SMALL = st.integers(-5, 5)


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    """A small problem of whole numbers."""
    b = Builder(offset=float(draw(SMALL)))
    columns = [b.column(f"c{i}", high=float(draw(st.integers(0, 4))), cost=float(draw(SMALL)))
               for i in range(draw(st.integers(1, 4)))]  # fmt: skip
    for i in range(draw(st.integers(0, 3))):
        low = float(draw(st.integers(-10, 8)))
        terms = [(c, float(draw(SMALL))) for c in columns]
        b.row(f"r{i}", terms, low=low, high=low + draw(st.integers(0, 12)))
    return b.done()


@settings(max_examples=examples(60), deadline=None)
@given(problems())
def test_both_solvers_agree_on_what_is_best_and_what_is_impossible(problem: Problem) -> None:
    fast, slow = (engine.solve(problem, Work()) for engine in (highs, exhaustive))
    assert fast.status == slow.status
    if slow.x is not None and fast.x is not None:
        assert fast.aim == pytest.approx(slow.aim, abs=1e-6)
        for found in (fast, slow):
            assert worst_breach(problem, found.x) <= 1e-6
            assert found.aim == pytest.approx(float(problem.cost @ found.x) + problem.offset)
            assert np.array_equal(found.x, np.round(found.x))


@settings(max_examples=examples(40), deadline=None)
@given(problems())
def test_no_answer_is_better_than_its_bound(problem: Problem) -> None:
    found = highs.solve(problem, Work())
    if found.x is not None:
        assert found.aim >= found.bound - 1e-6


@settings(max_examples=examples(40), deadline=None)
@given(problems(), st.lists(st.integers(0, 4), min_size=4, max_size=4))
def test_the_activity_is_a_plain_product_row_by_row(problem: Problem, some: list[int]) -> None:
    x = np.array(some[: len(problem.columns)], float)
    slow = []
    for i in range(len(problem.rows)):
        span = range(problem.start[i], problem.start[i + 1])
        slow.append(sum(problem.value[k] * x[problem.index[k]] for k in span))
    assert list(activity(problem, x)) == pytest.approx(slow)


def soft(short: float, over: float) -> Problem:
    """Three doses of 100 at most; a row wants 250; being off it has its price."""
    b = Builder()
    doses = b.column("doses", high=3.0)
    low = b.column("short", integer=False, cost=short)
    high = b.column("over", integer=False, cost=over)
    b.row("energy", [(doses, 100.0), (low, 1.0), (high, -1.0)], low=250.0, high=250.0)
    return b.done()


@pytest.mark.parametrize(("short", "over", "doses", "aim"), [(1.0, 3.0, 2.0, 50.0),
                                                             (3.0, 1.0, 3.0, 50.0)])  # fmt: skip
def test_a_measured_row_is_missed_on_its_cheaper_side(short: float, over: float, doses: float,
                                                      aim: float) -> None:  # fmt: skip
    for engine in (highs, exhaustive):
        found = engine.solve(soft(short, over), Work())
        assert found.x is not None
        assert (found.x[0], found.aim) == (doses, pytest.approx(aim))
        assert worst_breach(soft(short, over), found.x) <= 1e-6


def test_too_many_answers_are_not_tried() -> None:
    b = Builder()
    for i in range(10):
        b.column(f"c{i}", high=9.0)
    with pytest.raises(SolverFailed, match="too many"):
        exhaustive.solve(b.done(), Work())


def test_a_column_that_is_more_than_a_measure_cannot_be_judged() -> None:
    b = Builder()
    b.column("share", integer=False, high=1.0)
    with pytest.raises(SolverFailed, match="share"):
        exhaustive.solve(b.done(), Work())


def test_a_column_is_offered_once() -> None:
    b = Builder()
    b.column("oats")
    with pytest.raises(ValueError, match="twice"):
        b.column("oats")


def test_noughts_take_no_room() -> None:
    b = Builder()
    one, two = b.column("one"), b.column("two")
    b.row("r", [(one, 0.0), (two, 2.0)], low=1.0)
    problem = b.done()
    assert list(problem.index) == [two]
    assert list(problem.start) == [0, 1]


def test_a_breach_is_the_largest_of_rows_and_bounds() -> None:
    b = Builder()
    c = b.column("c", high=2.0)
    b.row("r", [(c, 1.0)], low=1.0, high=4.0)
    problem = b.done()
    found = {x: worst_breach(problem, np.array([x])) for x in (1.5, 0.0, 5.0, -1.0)}
    assert found == {1.5: 0.0, 0.0: 1.0, 5.0: 3.0, -1.0: 2.0}


def test_a_problem_of_nothing_breaks_nothing() -> None:
    assert worst_breach(Builder().done(), np.zeros(0)) == 0.0
