"""Folding cases into one test loses none of them."""

from __future__ import annotations

import inspect

import pytest
from hypothesis import given
from hypothesis import strategies as st

from support.each import each


def test_every_case_is_tried_and_every_failure_told() -> None:
    tried = []

    @each("a, b", [(1, 1), (1, 2), pytest.param(2, 2, id="two"), (3, 4)])
    def same(a: int, b: int) -> None:
        tried.append((a, b))
        assert a == b

    with pytest.raises(AssertionError, match="2 of 4 cases fail") as caught:
        same()
    assert tried == [(1, 1), (1, 2), (2, 2), (3, 4)]
    assert "a=1, b=2" in str(caught.value)
    assert "a=3, b=4" in str(caught.value)


def test_two_lists_make_their_product_and_fixtures_pass_through() -> None:
    tried = []

    @each("a", [1, 2])
    @each(("b", "c"), [(3, 4), (5, 6)])
    def noted(a: int, b: int, c: int, fixture: str) -> None:
        tried.append((a, b, c, fixture))

    assert list(inspect.signature(noted).parameters) == ["fixture"]
    noted(fixture="x")
    assert tried == [(1, 3, 4, "x"), (1, 5, 6, "x"), (2, 3, 4, "x"), (2, 5, 6, "x")]


def test_a_property_is_tried_for_each_case() -> None:
    seen = set()

    @each("sign", [-1, 1])
    @given(number=st.integers(1, 9))
    def noted(sign: int, number: int) -> None:
        seen.add(sign)
        assert sign * number != 0

    noted()
    assert seen == {-1, 1}


def test_any_error_is_a_failure_and_no_case_is_none() -> None:
    @each("a", [0, 1])
    def divided(a: int) -> None:
        assert 1 / a

    with pytest.raises(AssertionError, match="ZeroDivisionError"):
        divided()
    with pytest.raises(ValueError, match="no case"):
        each("a", [])
    with pytest.raises(ValueError, match="marks of its own"):
        each("a", [pytest.param(1, marks=pytest.mark.slow)])
