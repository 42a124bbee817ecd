"""The drawn range: repeatable, in line with the sums, and quick."""

from __future__ import annotations

import time

import numpy as np
import pytest

from oatsack.walker.need import Need, need
from oatsack.walker.person import Body
from oatsack.walker.range import DRAWS, _walker_half, draw
from oatsack.walker.stretches import CAMP, REST, SLEEP, WALK, columns
from support.each import each
from support.people import MAN, UNKNOWN


def week(body: Body = MAN, **changes: float | bool) -> Need:
    """Seven equal days."""
    return need(body, columns(
        minutes=np.tile([300.0, 60.0, 180.0, 420.0, 480.0], 7),
        kind=np.tile([WALK, REST, CAMP, REST, SLEEP], 7),
        speed_ms=1.1, grade_pct=np.tile([3.0, 0.0, 0.0, 0.0, 0.0], 7), load_kg=12.0,
        day=np.repeat(np.arange(1, 8), 5), **changes,
    ))  # fmt: skip


def test_equal_seeds_give_equal_draws() -> None:
    """C14."""
    found = week()
    assert np.array_equal(draw(found, seed=3).drawn_kcal, draw(found, seed=3).drawn_kcal)
    assert not np.array_equal(draw(found, seed=3).drawn_kcal, draw(found, seed=4).drawn_kcal)


@each("body", [MAN, UNKNOWN])
@each("seed", [1, 2])
def test_the_drawn_range_agrees_with_the_summed_one_within_three_percent(
    body: Body, seed: int
) -> None:
    """Two ways to the same band: squares added up, and ten thousand draws."""
    found = week(body)
    drawn = draw(found, seed=seed)
    for n, (low, middle, high) in drawn.days.items():
        day = found.days[n]
        assert middle == pytest.approx(day.energy_kcal, rel=0.02)
        assert low == pytest.approx(day.low_kcal, rel=0.03)
        assert high == pytest.approx(day.high_kcal, rel=0.03)


def test_the_drawn_walker_fills_up_what_the_summed_range_has_beyond_its_parts() -> None:
    band = week(UNKNOWN).bands[1]
    parts = band.model_high**2 + band.route**2 + band.hours**2
    assert _walker_half(band) ** 2 + parts == pytest.approx((band.high - 1.0) ** 2)
    assert _walker_half(week(MAN).bands[1]) == pytest.approx(0.12)


def test_a_typed_route_draws_wider() -> None:
    typed, tracked = (draw(week(by_hand=x), seed=1).walk for x in (True, False))
    assert typed[2] - typed[0] > tracked[2] - tracked[0]


def test_days_of_one_walk_move_together() -> None:
    """Most of the doubt is the same on all days, so that a week is hardly surer than a day."""
    drawn = draw(week(), seed=1)
    matrix = np.corrcoef(drawn.drawn_kcal, rowvar=False)
    assert matrix[0, 6] > 0.8
    day = drawn.days[1]
    assert (drawn.walk[2] / drawn.walk[1]) > 0.9 * (day[2] / day[1])


def test_four_draws_in_five_lie_inside() -> None:
    drawn = draw(week(), seed=5)
    low, _, high = drawn.days[1]
    inside = np.mean((drawn.drawn_kcal[:, 0] >= low) & (drawn.drawn_kcal[:, 0] <= high))
    assert inside == pytest.approx(0.80, abs=0.001)


def test_no_draw_is_negative_or_missing() -> None:
    drawn = draw(week(UNKNOWN), seed=1).drawn_kcal
    assert drawn.shape == (DRAWS, 7)
    assert np.all(np.isfinite(drawn))
    assert np.all(drawn >= 0.0)


def test_a_walk_of_rest_days_can_be_drawn() -> None:
    s = columns(minutes=np.array([960.0, 480.0]), kind=np.array([REST, SLEEP]))
    low, middle, high = draw(need(MAN, s), seed=1).days[1]
    assert low < middle < high


def test_ten_thousand_draws_of_a_week_take_under_a_second() -> None:
    found = week()
    begin = time.perf_counter()
    draw(found, seed=1)
    assert time.perf_counter() - begin < 1.0
