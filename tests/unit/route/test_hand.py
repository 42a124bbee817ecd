"""A typed day becomes a way."""

from __future__ import annotations

import itertools

import pytest

from oatsack.route.hand import ASSUMED_GRADE_PCT, CLIMBS, walk_of
from oatsack.route.pieces import GRADE_LIMIT_PCT, PIECE_M, Walk
from oatsack.values.trip import HandDay, HandStretch, HandWater, RouteSpec

ROUTE = RouteSpec(terrain=1.2, dry_camps=frozenset({"Bare Knoll"}), leg_ends=("Mill",))


def walk(start_m: float = 600.0, share: float = 1.0, **fields: object) -> Walk:
    return walk_of(HandDay(**fields), ROUTE, start_m, share=share)  # type: ignore[arg-type]


def length_by_slope(one: Walk) -> dict[float, float]:
    out: dict[float, float] = {}
    for piece in one.pieces:
        key = round(piece.grade_pct, 6)
        out[key] = out.get(key, 0.0) + piece.distance_m
    return {slope: round(length, 6) for slope, length in out.items()}


def test_climb_and_descent_lie_at_the_assumed_slope_and_the_rest_is_level() -> None:
    one = walk(distance_m=14_000.0, ascent_m=600.0, descent_m=300.0)
    assert length_by_slope(one) == {0.0: 5000.0, ASSUMED_GRADE_PCT: 6000.0, -10.0: 3000.0}
    assert (one.ascent_m, one.descent_m) == (pytest.approx(600.0), pytest.approx(300.0))
    assert one.distance_m == pytest.approx(14_000.0)


def test_a_level_day_is_level() -> None:
    assert length_by_slope(walk(distance_m=9000.0)) == {0.0: 9000.0}


def test_more_climb_than_the_slope_holds_is_walked_steeper_without_level_parts() -> None:
    one = walk(distance_m=5000.0, ascent_m=700.0, descent_m=300.0)
    assert length_by_slope(one) == {20.0: 3500.0, -20.0: 1500.0}


def test_no_slope_is_steeper_than_the_models_know() -> None:
    one = walk(distance_m=1000.0, ascent_m=900.0)
    assert max(piece.grade_pct for piece in one.pieces) == GRADE_LIMIT_PCT


def test_the_day_ends_higher_by_ascent_less_descent() -> None:
    one = walk(distance_m=14_000.0, ascent_m=600.0, descent_m=250.0)
    assert one.end_m == pytest.approx(950.0)
    assert one.start_m == 600.0


def test_a_typed_camp_height_bends_the_heights_and_leaves_the_slopes() -> None:
    plain = walk(distance_m=14_000.0, ascent_m=600.0, descent_m=600.0)
    bent = walk(distance_m=14_000.0, ascent_m=600.0, descent_m=600.0, camp_m=700.0)
    assert bent.end_m == 700.0
    assert length_by_slope(bent) == length_by_slope(plain)
    assert bent.pieces[-1].height_m - plain.pieces[-1].height_m == pytest.approx(100.0, abs=5.0)
    assert bent.pieces[0].height_m - plain.pieces[0].height_m == pytest.approx(0.0, abs=5.0)


def test_two_climbs_share_the_ascent_so_the_day_peaks_at_half_of_it() -> None:
    one = walk(distance_m=14_000.0, ascent_m=800.0, descent_m=800.0)
    assert CLIMBS == 2
    assert one.highest_m == pytest.approx(1000.0)


def test_a_typed_highest_point_outranks_the_reckoned_one_but_not_the_camp() -> None:
    assert walk(distance_m=9000.0, highest_m=1480.0).highest_m == 1480.0
    assert walk(distance_m=9000.0, highest_m=400.0).highest_m == 600.0


def test_pieces_are_short_enough_for_pauses() -> None:
    one = walk(distance_m=20_000.0, ascent_m=800.0, descent_m=800.0)
    assert max(piece.distance_m for piece in one.pieces) <= PIECE_M + 1e-6


def test_heights_go_on_from_piece_to_piece() -> None:
    one = walk(distance_m=14_000.0, ascent_m=600.0, descent_m=600.0)
    for a, b in itertools.pairwise(one.pieces):
        end = a.height_m + a.distance_m * a.grade_pct / 200.0
        begin = b.height_m - b.distance_m * b.grade_pct / 200.0
        assert begin == pytest.approx(end, abs=1e-6)


def test_explicit_stretches_stand_as_typed_with_their_own_ground() -> None:
    one = walk(
        stretches=(
            HandStretch(distance_m=3000.0, grade_pct=12.0, speed_ms=0.8, terrain=1.5),
            HandStretch(distance_m=1000.0),
        )
    )
    assert length_by_slope(one) == {12.0: 3000.0, 0.0: 1000.0}
    assert {piece.terrain for piece in one.pieces} == {1.5, 1.1}
    assert {piece.speed_ms for piece in one.pieces} == {0.8, None}
    assert (one.ascent_m, one.descent_m) == (pytest.approx(360.0), 0.0)


def test_assumed_pieces_have_the_routes_ground() -> None:
    assert {piece.terrain for piece in walk(distance_m=9000.0).pieces} == {1.2}


def test_a_share_scales_length_and_climb_alike_and_forgets_the_camp() -> None:
    one = walk(share=0.4, distance_m=15_000.0, ascent_m=500.0, descent_m=200.0, camp_m=2000.0)
    assert one.distance_m == pytest.approx(6000.0)
    assert one.ascent_m == pytest.approx(200.0)
    assert one.end_m == pytest.approx(600.0 + 120.0)


def test_a_share_of_nothing_is_a_day_without_a_way() -> None:
    assert walk(share=0.0, distance_m=15_000.0, ascent_m=500.0).pieces == ()


def test_a_dry_camp_is_dry_by_its_own_word_or_by_the_routes_list() -> None:
    assert walk(distance_m=9000.0, camp_dry=True).camp_dry
    assert walk(distance_m=9000.0, camp_name="Bare Knoll").camp_dry
    assert not walk(distance_m=9000.0, camp_name="Mill").camp_dry


def test_a_place_with_food_to_take_on_supplies() -> None:
    assert walk(distance_m=9000.0, camp_name="Mill").supplied == "Mill"
    assert not walk(distance_m=9000.0).supplied


def test_typed_water_keeps_its_distance_its_clock_and_its_doubt() -> None:
    water = (
        HandWater(name="Ford", distance_m=4000.0, reliability="doubtful"),
        HandWater(name="Tap", distance_m=8000.0, at_min=800.0),
    )
    ford, tap = walk(distance_m=9000.0, water=water).water
    assert (ford.name, ford.distance_m, ford.at_min, ford.reliability) == (
        "Ford", 4000.0, None, "doubtful",
    )  # fmt: skip
    assert tap.at_min == 800.0


def test_every_typed_day_is_marked_as_such() -> None:
    assert walk(distance_m=9000.0).by_hand
    assert walk().by_hand
