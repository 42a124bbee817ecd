"""Pieces of even slope: split, merged, and how long they take."""

from __future__ import annotations

import dataclasses
import math
import random

import pytest

from oatsack.errors import UsageError
from oatsack.route import pace
from oatsack.route.pieces import PIECE_M, Gait, Piece, gait_of, heights_along, merged, split
from support.trips import trip_of


def piece(distance: float = 100.0, grade: float = 0.0, **more: object) -> Piece:
    fields = {"height_m": 500.0, "terrain": 1.1} | more
    return Piece(distance_m=distance, grade_pct=grade, **fields)  # type: ignore[arg-type]


def rough(count: int, seed: int = 1) -> list[Piece]:
    dice = random.Random(seed)
    return [piece(100.0, dice.uniform(-30.0, 30.0)) for _ in range(count)]


def rise(pieces: object) -> float:
    return sum(one.distance_m * one.grade_pct / 100.0 for one in pieces)  # type: ignore[attr-defined]


def test_a_long_piece_is_split_evenly_and_climbs_on() -> None:
    parts = split(piece(1200.0, 10.0), 700.0)
    assert [part.distance_m for part in parts] == [400.0, 400.0, 400.0]
    assert [part.height_m for part in parts] == [720.0, 760.0, 800.0]


def test_a_short_piece_stays_whole() -> None:
    assert split(piece(PIECE_M), 500.0) == [piece(PIECE_M)]


def test_splitting_keeps_length_and_rise() -> None:
    whole = piece(7300.0, -12.0)
    parts = split(whole, 1500.0)
    assert sum(part.distance_m for part in parts) == pytest.approx(7300.0)
    assert rise(parts) == pytest.approx(rise([whole]))


def test_like_slopes_are_merged_up_to_the_longest_piece() -> None:
    joined = merged([piece(100.0, 5.0)] * 12, 200)
    assert [one.distance_m for one in joined] == [500.0, 500.0, 200.0]


def test_unlike_slopes_stay_apart_while_there_is_room() -> None:
    assert len(merged([piece(100.0, 0.0), piece(100.0, 9.0)], 200)) == 2


def test_unlike_ground_and_stated_speeds_are_never_merged() -> None:
    parts = [piece(terrain=1.1), piece(terrain=1.8), piece(terrain=1.8, speed_ms=1.0)]
    assert len(merged(parts, 1)) == 3


def test_merging_keeps_length_and_rise_however_hard_it_must_press() -> None:
    pieces = rough(900)
    for most in (300, 100, 20):
        joined = merged(pieces, most)
        assert len(joined) <= most
        assert sum(one.distance_m for one in joined) == pytest.approx(90_000.0)
        assert rise(joined) == pytest.approx(rise(pieces))


def test_a_merged_height_is_the_mean_over_its_length() -> None:
    pair = [piece(300.0, height_m=500.0), piece(100.0, height_m=540.0)]
    assert merged(pair, 200)[0].height_m == pytest.approx(510.0)


def test_heights_follow_the_slopes_from_the_start() -> None:
    assert heights_along([piece(100.0, 10.0), piece(200.0, -5.0)], 600.0) == [600.0, 610.0, 600.0]


def test_a_stated_speed_outranks_the_rule() -> None:
    gait = Gait(pace.DEFAULT, 1.3)
    assert gait.minutes(piece(600.0, 25.0, speed_ms=1.0)) == pytest.approx(10.0)


def test_the_rule_gives_the_time_where_nothing_was_stated() -> None:
    """Campbell2022: 1.0461 m/s at 10 percent; its own check value."""
    gait = Gait(pace.DEFAULT)
    assert gait.minutes(piece(1046.1, 10.0)) == pytest.approx(1000.0 / 60.0, rel=1e-4)


def test_rough_ground_is_walked_at_four_fifths_and_pathless_ground_at_three_fifths() -> None:
    """Langmuir1984: 4 km/h off good surfaces, not 5. Tobler1993: 0.6 off paths. Which: ours."""
    path = Gait(pace.DEFAULT).minutes(piece(1000.0))
    found = {t: path / Gait(pace.DEFAULT).minutes(piece(1000.0, terrain=t))
             for t in (1.0, 1.2, 1.29, 1.3, 1.49, 1.5, 2.1)}  # fmt: skip
    asked = {1.0: 1.0, 1.2: 1.0, 1.29: 1.0, 1.3: 0.8, 1.49: 0.8, 1.5: 0.6, 2.1: 0.6}
    assert found == pytest.approx(asked)


def test_who_states_a_speed_states_it_for_the_ground_as_well() -> None:
    for gait, more in ((Gait(pace.DEFAULT, 1.2), {}), (Gait(pace.DEFAULT), {"speed_ms": 1.2})):
        times = [gait.minutes(piece(720.0, terrain=t, **more)) for t in (1.0, 1.3, 2.1)]
        assert times == pytest.approx([10.0] * 3), more


def test_a_flat_speed_scales_every_slope_alike() -> None:
    plain, quick = Gait(pace.DEFAULT), Gait(pace.DEFAULT, 1.5)
    ratios = [plain.minutes(piece(100.0, g)) / quick.minutes(piece(100.0, g)) for g in (-20, 0, 15)]
    assert ratios == pytest.approx([ratios[0]] * 3)


def test_merging_hardly_changes_the_time_on_rolling_ground() -> None:
    """Slopes of real ground follow each other; on mere noise merging would flatter the walker."""
    slopes = [25.0 * math.sin(k / 5.0) + 8.0 * math.sin(k / 1.7) for k in range(600)]
    pieces, gait = [piece(100.0, slope) for slope in slopes], Gait(pace.DEFAULT)
    fine = sum(gait.minutes(one) for one in pieces)
    coarse = sum(gait.minutes(one) for one in merged(pieces, 250))
    assert coarse == pytest.approx(fine, rel=0.03)


def test_the_party_walks_as_fast_as_its_slowest() -> None:
    trip = trip_of("2026-06-04 09:00", "2026-06-05 09:00", flat_speed_ms=1.25)
    assert gait_of(trip).flat_ms == 1.25
    slow = dataclasses.replace(trip.walkers[0], pace_ms=0.9)
    assert gait_of(dataclasses.replace(trip, walkers=(slow,))).flat_ms == 0.9
    quick = dataclasses.replace(trip.walkers[0], pace_ms=1.9)
    assert gait_of(dataclasses.replace(trip, walkers=(quick,))).flat_ms == 1.25


def test_nobody_stated_a_speed_so_the_rule_stands() -> None:
    trip = trip_of("2026-06-04 09:00", "2026-06-05 09:00")
    assert gait_of(trip).flat_ms is None
    assert gait_of(trip).rule is pace.DEFAULT


def test_another_rule_is_found_by_name() -> None:
    trip = trip_of("2026-06-04 09:00", "2026-06-05 09:00", pace_model="tobler")
    assert gait_of(trip).rule.name == "tobler"
    with pytest.raises(UsageError, match="tobler"):
        gait_of(trip_of("2026-06-04 09:00", "2026-06-05 09:00", pace_model="trot"))
