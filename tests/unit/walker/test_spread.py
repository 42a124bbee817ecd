"""How sure a day is: what widens the range, and what it is never narrower than."""

from __future__ import annotations

import math

import pytest

from oatsack.walker.spread import SPREAD, Spread, band
from support.each import each
from support.people import CHILD, MAN, UNKNOWN


def test_half_walking_on_a_track_is_17_percent() -> None:
    got = band(MAN, share=0.5, by_hand=False)
    half = math.sqrt(0.12**2 + (0.5 * 0.14) ** 2 + (0.5 * 0.06) ** 2 + (0.5 * 0.15) ** 2)
    assert got.high == pytest.approx(1.0 + half)
    assert got.low == pytest.approx(1.0 - half)


def test_a_day_of_rest_knows_nothing_of_the_model() -> None:
    got = band(MAN, share=0.0, by_hand=True)
    assert got.model_low == got.model_high == got.route == 0.0
    assert got.high == pytest.approx(1.0 + math.hypot(0.12, 0.15))


def test_typed_days_are_wider() -> None:
    typed, tracked = (band(MAN, share=0.6, by_hand=x) for x in (True, False))
    assert typed.high > tracked.high
    assert typed.low < tracked.low


def test_a_shelf_that_leans_up_widens_only_the_upper_side() -> None:
    plain = band(MAN, share=0.6, by_hand=False)
    leaning = band(MAN, share=0.6, by_hand=False, shelf=(0.02, 0.30))
    assert leaning.high > plain.high
    assert leaning.low == plain.low


def test_a_shelf_in_agreement_does_not_make_us_surer_than_the_models_own_error() -> None:
    assert band(MAN, share=0.6, by_hand=False, shelf=(0.0, 0.0)).model_high == pytest.approx(
        0.6 * SPREAD.model
    )


@each("body", [UNKNOWN, CHILD])
@each("share", [0.0, 0.3, 0.7])
def test_unstated_or_growing_bodies_have_at_least_a_quarter(body: object, share: float) -> None:
    got = band(body, share=share, by_hand=False)  # type: ignore[arg-type]
    assert got.high >= 1.25
    assert got.low <= 0.75


def test_the_half_widths_are_arguments() -> None:
    sure = Spread(model=0.0, track=0.0, hours=0.0, walker=0.0)
    got = band(MAN, share=0.5, by_hand=False, spread=sure)
    assert (got.low, got.high) == (1.0, 1.0)
