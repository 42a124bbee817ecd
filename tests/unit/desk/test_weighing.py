"""A bag on the scale is answered in words that a person in a kitchen can act on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from oatsack.desk.weighing import found_bag, told
from oatsack.errors import UsageError
from oatsack.packing.checkweigh import pieces_of
from oatsack.values.pack import Bag
from oatsack.values.plan import Plan
from support.plans import SHORT, plan_of


def plan() -> Plan:
    return plan_of(SHORT)


def a_bag(least: int) -> Bag:
    """A bag of at least so many pieces alike and no other kind."""
    for bag in plan().packed.bags:
        masses = {(p.food, round(p.grams, 3)) for p in pieces_of(bag, plan().foods)}
        if len(masses) == 1 and len(pieces_of(bag, plan().foods)) >= least:
            return bag
    raise AssertionError("the short plan has no such bag")


def said(bag: Bag, grams: float) -> list[str]:
    return list(told(plan(), bag.id, f"{grams:.1f} g"))


def test_a_bag_as_heavy_as_it_should_be_is_right() -> None:
    bag = plan().packed.bags[0]
    (line,) = said(bag, bag.gross_g)
    assert "as it should be" in line
    assert bag.id not in line


def test_one_piece_less_is_named_with_its_mass() -> None:
    bag = a_bag(1)
    piece = pieces_of(bag, plan().foods)[0]
    lines = said(bag, bag.gross_g - piece.grams)
    assert " light (" in lines[0]
    assert lines[1] == "It would be explained by:"
    assert plan().foods[piece.food].name in lines[2]
    assert lines[2].endswith("missing")


def test_several_pieces_alike_are_counted_not_repeated() -> None:
    bag = a_bag(2)
    piece = pieces_of(bag, plan().foods)[0]
    lines = said(bag, bag.gross_g - 2 * piece.grams)
    assert any("2 × " in line for line in lines[2:]), lines


def test_more_than_two_pieces_alike_are_found_too() -> None:
    bag = a_bag(1)
    item = bag.items[0]
    food = plan().foods[item.food]
    many = replace(bag, items=tuple(replace(item, day=day, doses=1.0, net_g=food.dose_g)
                                    for day in (1, 2, 3, 4)))  # fmt: skip
    wide = replace(plan(), packed=replace(plan().packed, bags=(many,)))
    piece = pieces_of(many, plan().foods)[0]
    lines = list(told(wide, many.id, f"{many.gross_g - 3 * piece.grams:.1f} g"))
    assert any("3 × " in line for line in lines[2:]), lines


def test_a_difference_that_nothing_explains_is_said_to_be_so() -> None:
    bag = a_bag(1)
    piece = min(pieces_of(bag, plan().foods), key=lambda p: p.grams)
    lines = said(bag, bag.gross_g + 0.43 * piece.grams + 7.0)
    assert " heavy (" in lines[0]
    assert lines[1].startswith("No few slips explain it")
    assert len(lines) == 3


def test_a_bag_is_found_by_number_and_by_name_and_missed_with_names() -> None:
    bag = next(b for b in plan().packed.bags if not b.sealed)
    assert found_bag(plan(), str(bag.number)).number == bag.number
    assert found_bag(plan(), bag.id.upper()) == bag
    with pytest.raises(UsageError, match="no bag 'nothing'; there is: "):
        found_bag(plan(), "nothing")


def test_a_reading_without_unit_is_refused_in_words() -> None:
    with pytest.raises(UsageError, match="without its unit"):
        told(plan(), plan().packed.bags[0].id, "452")
