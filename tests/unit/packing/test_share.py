"""Sharing the load: fair by capacity over the leg, limits kept, the same every time."""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.packing.share import (
    NOBODY,
    Shared,
    Sharing,
    exact,
    fair_parts,
    lower_bound,
    problem_of,
    spread,
)
from oatsack.values.problem import Answer, Problem, Work, worst_breach


def ask(kg_days: list[float], fair: list[float], **more: object) -> Sharing:
    fields: dict[str, object] = {
        "already": np.zeros(len(fair)), "own": np.full(len(kg_days), NOBODY, np.int64),
    }  # fmt: skip
    return Sharing(kg_days=np.array(kg_days), fair=np.array(fair), **fields | more)  # type: ignore[arg-type]


def loads(question: Sharing, answer: Shared) -> list[float]:
    return list(
        question.already + np.bincount(answer.carrier, question.kg_days, len(question.fair))
    )


def test_equal_bags_go_evenly_to_equal_walkers() -> None:
    question = ask([1.0] * 9, [1 / 3] * 3)
    assert loads(question, spread(question)) == [3.0, 3.0, 3.0]


def test_capacity_decides_the_part() -> None:
    question = ask([0.1] * 100, [0.6, 0.4])
    assert loads(question, spread(question)) == pytest.approx([6.0, 4.0])


def test_who_carries_the_fuel_carries_less_food() -> None:
    question = ask([0.5] * 8, [0.5, 0.5], already=np.array([1.0, 0.0]))
    answer = spread(question)
    assert loads(question, answer) == pytest.approx([2.5, 2.5])


def test_an_own_bag_stays_on_its_own_back() -> None:
    own = np.array([0, 1, NOBODY, NOBODY], np.int64)
    question = ask([5.0, 0.1, 1.0, 1.0], [0.5, 0.5], own=own)
    answer = spread(question)
    assert list(answer.carrier[:2]) == [0, 1]
    assert list(answer.carrier[2:]) == [1, 1]
    assert answer.bound == pytest.approx(lower_bound(question))
    assert answer.bound > 1.0


def test_exchanges_mend_what_largest_first_gets_wrong() -> None:
    """3, 3 | 2, 2, 2 is even, but largest first gives 3, 2, 2 | 3, 2."""
    question = ask([3.0, 3.0, 2.0, 2.0, 2.0], [0.5, 0.5])
    assert spread(question).excess == pytest.approx(0.0)


def test_a_limit_is_kept_even_at_the_cost_of_fairness() -> None:
    energy = np.array([10.0, 10.0, 1.0, 1.0])
    question = ask([1.0, 1.0, 1.0, 3.0], [0.5, 0.5], limits=((energy, np.array([11.5, 11.5])),))
    answer = spread(question)
    assert answer.breach == 0.0
    assert answer.carrier[0] != answer.carrier[1]


def test_a_limit_that_nobody_can_keep_is_reported_and_still_shared() -> None:
    question = ask([1.0, 1.0], [0.5, 0.5], limits=((np.array([5.0, 5.0]), np.array([1.0, 1.0])),))
    assert spread(question).breach > 0


def test_one_walker_carries_everything_and_that_is_fair() -> None:
    question = ask([1.0, 2.0], [1.0])
    answer = spread(question)
    assert list(answer.carrier) == [0, 0]
    assert answer.excess == pytest.approx(0.0)


def test_no_bags_is_no_trouble() -> None:
    assert len(spread(ask([], [0.5, 0.5])).carrier) == 0


def test_the_same_question_has_the_same_answer() -> None:
    rng = np.random.default_rng(4)
    question = ask(list(rng.uniform(0.1, 2.0, 60)), [0.25] * 4)
    assert list(spread(question).carrier) == list(spread(question).carrier)


def test_the_problem_for_an_engine_has_every_bag_once_and_knows_the_fair_answer() -> None:
    question = ask([2.0, 2.0], [0.5, 0.5], limits=((np.ones(2), np.array([1.0, 1.0])),))
    problem = problem_of(question)
    x = np.array([1.0, 0.0, 0.0, 1.0, 0.0])
    assert worst_breach(problem, x) == 0.0
    assert float(problem.cost @ x) == 0.0
    assert worst_breach(problem, np.array([1.0, 0.0, 1.0, 0.0, 0.0])) > 0


def test_exact_never_gives_worse_than_spread_and_takes_the_bound() -> None:
    question = ask([3.0, 3.0, 2.0, 2.0, 2.0], [0.5, 0.5])

    def lazy(problem: Problem, work: Work) -> Answer:
        x = np.zeros(len(problem.columns))
        x[0:10:2] = 1.0  # everything on the first back
        return Answer(status="feasible", x=x, aim=6.0, bound=0.0)

    assert exact(question, lazy, Work()).excess == pytest.approx(0.0)


def test_exact_falls_back_when_the_engine_finds_nothing() -> None:
    question = ask([1.0, 1.0], [0.5, 0.5])
    nothing = Answer(status="nothing", x=None, aim=0.0, bound=0.0)
    assert exact(question, lambda problem, work: nothing, Work()).excess == pytest.approx(0.0)


def test_fair_parts_sum_to_one_and_need_no_capacity_at_all() -> None:
    assert list(fair_parts({"a": 3.0, "b": 1.0}, ["a", "b"])) == [0.75, 0.25]
    assert list(fair_parts({"a": 0.0, "b": 0.0}, ["a", "b"])) == [0.5, 0.5]


def test_an_earlier_sharing_that_is_fair_enough_is_left_as_it_is() -> None:
    """4.1 against 3.9 could be evened out by an exchange; nobody should unpack for it."""
    question = ask([2.1, 2.0, 2.0, 1.9], [0.5, 0.5])
    before = np.array([0, 0, 1, 1], np.int64)
    assert list(spread(question, before=before).carrier) == [0, 0, 1, 1]
    unfair = np.array([0, 0, 0, 1], np.int64)
    assert list(spread(question, before=unfair).carrier) != [0, 0, 0, 1]


def test_fairness_never_pushes_a_receiver_over_a_limit() -> None:
    """The heavy bag could be handed over for fairness, but would break the receiver's limit."""
    energy = np.array([8.0, 1.0, 8.0, 1.0])
    question = ask([3.0, 3.0, 1.0, 1.0], [0.5, 0.5], limits=((energy, np.array([10.0, 10.0])),))
    answer = spread(question, before=np.array([0, 0, 1, 1], np.int64))
    used = np.bincount(answer.carrier, energy, 2)
    assert answer.breach == 0.0
    assert used.max() <= 10.0
    assert answer.excess < 2.0


def test_a_broken_limit_is_mended_before_fairness_is_sought() -> None:
    energy = np.array([6.0, 6.0, 0.0, 0.0])
    question = ask([1.0, 1.0, 1.0, 1.0], [0.5, 0.5], limits=((energy, np.array([6.0, 6.0])),))
    answer = spread(question, before=np.array([0, 0, 1, 1], np.int64))
    assert answer.breach == 0.0
    assert answer.carrier[0] != answer.carrier[1]
