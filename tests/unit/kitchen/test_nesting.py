"""Cylinders in a pot: what fits upright, side by side, on top and lying across."""

from __future__ import annotations

from itertools import permutations
from math import hypot

import pytest

from oatsack.errors import UsageError
from oatsack.kitchen.nesting import (
    CHECK_LIST,
    RING,
    Nested,
    Thing,
    depth_mm,
    mark_mm,
    mug_share,
    nest,
    usable_ml,
)
from oatsack.values.kit import Pot
from support.each import each


def thing(name: str, diameter_mm: float, height_mm: float) -> Thing:
    return Thing(name=name, diameter_mm=diameter_mm, height_mm=height_mm)


CAN = thing("can", 90.0, 65.0)
BURNER = thing("burner", 33.0, 85.0)
STOUT = thing("stout burner", 40.0, 80.0)
NARROW = Pot(name="narrow", volume_ml=700.0, diameter_mm=95.0)
WIDE = Pot(name="wide", volume_ml=700.0, diameter_mm=110.0)


def left(way: Nested | None) -> float:
    assert way is not None
    return way.left_mm


def test_a_can_does_not_go_into_a_pot_of_its_own_width() -> None:
    assert nest([CAN], Pot(volume_ml=700.0, diameter_mm=90.0)) is None


def test_a_can_goes_into_a_narrow_pot() -> None:
    assert left(nest([CAN], NARROW)) == pytest.approx(33.8, abs=0.05)


def test_a_folded_burner_lies_on_top_of_the_can() -> None:
    way = nest([CAN, BURNER], NARROW)
    assert left(way) == pytest.approx(0.8, abs=0.05)
    assert way is not None and [layer.lying for layer in way.layers] == [False, True]


def test_a_stout_burner_needs_a_domed_lid() -> None:
    assert nest([CAN, STOUT], NARROW) is None
    assert nest([CAN, STOUT], NARROW, dome_mm=6.0) is None
    assert left(nest([CAN, STOUT], NARROW, dome_mm=6.25)) == pytest.approx(0.05, abs=0.05)


def test_a_wide_pot_holds_the_can_and_a_thin_thing_beside_it() -> None:
    assert left(nest([CAN], WIDE)) == pytest.approx(8.7, abs=0.05)
    assert left(nest([thing("tall", 90.0, 70.0)], WIDE)) == pytest.approx(3.7, abs=0.05)
    assert nest([CAN, thing("thin", 20.0, 60.0)], WIDE) is not None
    assert nest([CAN, thing("thick", 25.0, 60.0)], WIDE) is None


def test_a_long_thing_may_only_lie_where_its_diagonal_fits() -> None:
    spoon = thing("spoon", 30.0, 100.0)
    assert hypot(100.0, 30.0) < 110.0
    assert nest([spoon], Pot(volume_ml=330.0, diameter_mm=110.0)) is not None
    assert nest([spoon], Pot(volume_ml=330.0, diameter_mm=104.0)) is None


@each("count", [2, 3, 4, 5, 6, 7])
def test_equal_things_stand_in_a_ring(count: int) -> None:
    # circle packing, from memory: pot over thing is 2, 2.1547, 2.4142, 2.7013, 3, 3
    things = [thing(f"t{i}", 20.0, 90.0) for i in range(count)]
    just = Pot(volume_ml=1.0, diameter_mm=20.0 * RING[count] + 0.01, depth_mm=90.0)
    tight = Pot(volume_ml=1.0, diameter_mm=20.0 * RING[count] - 0.5, depth_mm=90.0)
    assert nest(things, just) is not None
    assert nest(things, tight) is None


def test_the_order_of_things_changes_nothing() -> None:
    things = [CAN, BURNER, thing("lighter", 15.0, 60.0)]
    pot = Pot(volume_ml=1300.0, diameter_mm=125.0)
    heights = {round(left(nest(list(way), pot)), 6) for way in permutations(things)}
    assert len(heights) == 1


def test_more_things_never_leave_more_room() -> None:
    pot = Pot(volume_ml=1300.0, diameter_mm=125.0)
    one = left(nest([CAN], pot))
    two = left(nest([CAN, BURNER], pot))
    assert two <= one


def test_the_depth_may_be_stated() -> None:
    assert nest([CAN], Pot(volume_ml=700.0, diameter_mm=95.0, depth_mm=60.0)) is None
    assert nest([CAN], Pot(volume_ml=700.0, diameter_mm=95.0, depth_mm=66.0)) is not None


def test_without_a_diameter_it_asks() -> None:
    with pytest.raises(UsageError, match="diameter"):
        nest([CAN], Pot())


def test_a_pot_is_never_filled_to_the_brim() -> None:
    # common practice: 75 % with food, 85 % clear water; a 700 ml pot holds two to three cups
    pot = Pot(volume_ml=700.0)
    assert usable_ml(pot, food=True) == 525.0
    assert usable_ml(pot, food=False) == 595.0
    assert 2 * 236.588 < usable_ml(pot, food=False) < 3 * 236.588


def test_marks_inside_the_pot() -> None:
    assert mark_mm(NARROW, 350.0) == pytest.approx(depth_mm(700.0, 95.0) / 2.0)
    assert mark_mm(NARROW, 0.0) == 0.0


@each(
    ("water", "mugs"), [(300.0, (1, 0.0)), (475.0, (1, 0.5)), (240.0, (0, 0.75)), (630.0, (2, 0.0))]
)
def test_water_by_the_mug(water: float, mugs: tuple[int, float]) -> None:
    assert mug_share(300.0, water) == mugs


def test_the_check_list_has_two_lighters_and_no_doubles() -> None:
    assert {"lighter", "second-lighter", "spoon", "pot-grip"} <= set(CHECK_LIST)
    assert len(set(CHECK_LIST)) == len(CHECK_LIST)
