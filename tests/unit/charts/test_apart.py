"""Labels moved apart: never touching, in their order, and no further than they must."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.charts.apart import side_by_side


def placed(centres: list[float], widths: list[float], right: float) -> list[tuple[float, float]]:
    """Left and right end of each label, from left to right."""
    out: list[tuple[float, float]] = []
    for row in side_by_side(centres, widths, right):
        lefts = row.lefts(right)
        out += [(left, left + wide) for left, wide in zip(lefts, row.widths, strict=True)]
    return out


def test_labels_with_room_stay_where_they_are() -> None:
    assert placed([20.0, 60.0], [20.0, 20.0], 100.0) == [(10.0, 30.0), (50.0, 70.0)]


def test_two_that_touch_give_way_by_the_same() -> None:
    assert placed([50.0, 60.0], [20.0, 20.0], 100.0) == [(35.0, 55.0), (55.0, 75.0)]


def test_a_row_that_grows_takes_its_neighbour_in() -> None:
    """The two on the right push each other onto the first."""
    found = placed([40.0, 60.0, 62.0], [20.0, 20.0, 20.0], 100.0)
    assert found == [(24.0, 44.0), (44.0, 64.0), (64.0, 84.0)]


@pytest.mark.parametrize(("centre", "at"), [(2.0, (0.0, 20.0)), (99.0, (80.0, 100.0))])
def test_none_leaves_the_line(centre: float, at: tuple[float, float]) -> None:
    assert placed([centre], [20.0], 100.0) == [at]


def test_nothing_gives_nothing() -> None:
    assert side_by_side([], [], 100.0) == []


@given(st.lists(st.tuples(st.floats(0.0, 300.0), st.floats(4.0, 30.0)), min_size=1, max_size=9))
def test_none_touch_and_all_stay_on_a_line_with_room(some: list[tuple[float, float]]) -> None:
    some = sorted(some)
    found = placed([c for c, _ in some], [w for _, w in some], 300.0)
    assert len(found) == len(some)
    for (_, end), (begin, _) in pairwise(found):
        assert begin >= end - 1e-9
    assert found[0][0] >= 0.0
    assert found[-1][1] <= 300.0 + 1e-9
