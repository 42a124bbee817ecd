"""The cheapest one-to-one matching, on cases whose answer is plain."""

from __future__ import annotations

import numpy as np
import pytest

from oatsack.packing.matching import cheapest


def test_nothing_matches_nothing() -> None:
    assert len(cheapest(np.zeros((0, 0)))) == 0


def test_the_diagonal_is_taken_where_it_is_free() -> None:
    assert list(cheapest(1.0 - np.eye(6))) == list(range(6))


def test_a_greedy_first_choice_is_undone_where_that_is_cheaper() -> None:
    """Row 0 likes column 0 best, but only row 1 suffers much without it."""
    assert list(cheapest(np.array([[1.0, 2.0], [1.0, 9.0]]))) == [1, 0]


def test_negative_costs_are_costs_too() -> None:
    assert list(cheapest(np.array([[0.0, -5.0], [-1.0, 0.0]]))) == [1, 0]


@pytest.mark.parametrize("seed", range(5))
def test_adding_a_constant_to_a_row_or_column_changes_nothing(seed: int) -> None:
    rng = np.random.default_rng(seed)
    cost = rng.integers(0, 50, (7, 7)).astype(float)
    shifted = cost + rng.integers(0, 9, (7, 1)) + rng.integers(0, 9, (1, 7))
    best = cost[np.arange(7), cheapest(cost)].sum()
    assert cost[np.arange(7), cheapest(shifted)].sum() == pytest.approx(best)


def test_two_hundred_rows_are_a_permutation() -> None:
    cost = np.random.default_rng(3).uniform(0.0, 1.0, (200, 200))
    assert sorted(cheapest(cost)) == list(range(200))
