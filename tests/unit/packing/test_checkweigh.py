"""The scale's reading, and what explains it."""

from __future__ import annotations

import pytest

from oatsack.packing.checkweigh import Fault, Guess, Piece, explain, pieces_of, tolerance_g, weigh
from oatsack.values.menu import Menu
from support.each import each
from support.packs import LARDER, bag, eat, packed, people

PIECES = tuple(
    Piece(food=name, grams=grams)
    for name, grams in (("cheese", 452.0), ("oats", 250.0), ("bar", 43.0), ("milk", 100.0))
)


def named(guess: Guess) -> set[frozenset[tuple[str, str]]]:
    return {frozenset((f.kind, f.piece.food) for f in way) for way in guess.ways}


def test_a_light_bag_names_what_is_missing() -> None:
    first = explain(PIECES, -452.0)[0]
    assert frozenset({("missing", "cheese")}) in named(first)
    assert first.miss_g == pytest.approx(0.0)


def test_a_heavy_bag_names_what_is_in_it_twice() -> None:
    assert frozenset({("twice", "oats")}) in named(explain(PIECES, 250.5)[0])


def test_two_faults_at_once_are_found() -> None:
    first = explain(PIECES, -452.0 + 43.0)[0]
    assert frozenset({("missing", "cheese"), ("twice", "bar")}) in named(first)


def test_one_fault_comes_before_two_that_weigh_the_same() -> None:
    pieces = (*PIECES, Piece(food="a", grams=60.0), Piece(food="b", grams=40.0))
    first = explain(pieces, -100.0)[0]
    assert len(first.ways[0]) == 1
    assert {frozenset({("missing", "milk")})} <= named(first)
    assert frozenset({("missing", "a"), ("missing", "b")}) in named(first)


def test_equal_masses_are_one_answer() -> None:
    pieces = (Piece(food="cheese", grams=50.0, day=5), Piece(food="cracker", grams=50.0, day=2))
    guesses = explain(pieces, -50.0)
    assert named(guesses[0]) >= {
        frozenset({("missing", "cheese")}), frozenset({("missing", "cracker")}),
    }  # fmt: skip


def test_two_of_a_kind_are_missing_only_where_there_are_two() -> None:
    one = explain((Piece(food="bar", grams=40.0),), -80.0)
    assert all(len(way) == 1 for g in one for way in g.ways)
    two = explain((Piece(food="bar", grams=40.0, day=1), Piece(food="bar", grams=40.0, day=2)), -80)
    assert any(len(way) == 2 for way in two[0].ways)


def test_the_day_is_named_only_where_it_can_be_told() -> None:
    alike = explain((Piece(food="bar", grams=40.0, day=1), Piece(food="bar", grams=40.0, day=2)),
                    -40.0)  # fmt: skip
    assert alike[0].ways[0][0].piece.day == 0
    single = explain((Piece(food="bar", grams=40.0, day=3),), -40.0)
    assert single[0].ways[0][0].piece.day == 3


def test_nothing_is_both_missing_and_in_twice() -> None:
    for guess in explain(PIECES, 0.0):
        for way in guess.ways:
            kinds = {(f.piece.food, f.kind) for f in way}
            assert not any((n, "missing") in kinds and (n, "twice") in kinds for n, _ in kinds)


def test_a_piece_of_another_bag_is_a_last_resort() -> None:
    strange = (Piece(food="soup", grams=77.0),)
    (first, *_) = explain(PIECES, 77.0, others=strange)
    assert named(first) == {frozenset({("strange", "soup")})}
    assert Fault(kind="strange", piece=strange[0]).grams == 77.0
    assert not any("strange" in {k for k, _ in way} for way in
                   named(explain(PIECES, 100.0, others=(Piece(food="x", grams=100.0),))[0])
                   if ("twice", "milk") in way)  # fmt: skip


def test_where_nothing_fits_the_nearest_single_fault_is_named() -> None:
    (only,) = explain((Piece(food="oats", grams=250.0),), -200.0)
    assert named(only) == {frozenset({("missing", "oats")})}
    assert abs(only.miss_g) == pytest.approx(50.0)


def test_an_empty_bag_has_no_answer() -> None:
    assert explain((), 10.0) == ()


def test_a_right_bag_is_right_within_the_scales_error() -> None:
    b = bag(contents={"lentils": 100.0, "sauce": 40.0})
    assert weigh(b, LARDER, b.gross_g + 1.9).right
    assert not weigh(b, LARDER, b.gross_g + 2.1).right
    assert weigh(b, LARDER, b.gross_g - 5.0, spread=0.03).right


def test_the_reading_states_difference_and_at_most_three_answers() -> None:
    b = bag(contents={"lentils": 100.0, "sauce": 40.0, "cheese": 80.0, "oats": 50.0})
    reading = weigh(b, LARDER, b.gross_g - 80.0)
    assert reading.difference_g == pytest.approx(-80.0)
    assert 1 <= len(reading.guesses) <= 3
    assert frozenset({("missing", "cheese")}) in named(reading.guesses[0])
    assert not reading.too_many


def test_natural_spread_widens_the_tolerance() -> None:
    assert tolerance_g(PIECES, 2.0, 0.0) == 2.0
    assert tolerance_g(PIECES, 2.0, 0.02) > 20.0


def test_sealed_doses_are_pieces_with_their_wrapping_and_an_open_bag_is_one() -> None:
    plan = packed(people(1), 3)
    of = {b.items[0].food: pieces_of(b, LARDER) for b in plan.bags if b.sealed}
    assert len(of["bar"]) == 9
    assert {round(p.grams, 3) for p in of["bar"]} == {42.0}
    assert [round(p.grams, 3) for p in of["nuts"]] == [206.0]


@each("way", ["meal", "day", "group"])
def test_the_pieces_of_a_bag_weigh_what_is_in_it(way: str) -> None:
    from oatsack.values.trip import Rules

    plan = packed(people(2), 3, rules=Rules(bags=way))  # type: ignore[arg-type]
    for b in plan.bags:
        assert b.net_g <= sum(p.grams for p in pieces_of(b, LARDER)) <= b.gross_g + 1e-6


def test_a_sack_full_of_pieces_asks_for_smaller_bags() -> None:
    menu = Menu(portions=tuple(eat("a", d, "lunch", f, 1.0 + d / 7.0)
                for d in range(1, 4) for f in ("oats", "cheese", "lentils", "sauce")))  # fmt: skip
    plan = packed(people(1), 3, menu=menu)
    contents = {i.food: 0.0 for b in plan.bags for i in b.items}
    assert contents
    items = tuple(i for b in plan.bags for i in b.items)
    whole = bag(items=items, net_g=sum(i.net_g for i in items))
    assert weigh(whole, LARDER, whole.gross_g).too_many


def test_two_packs_opened_together_are_two_pieces() -> None:
    from oatsack.values.menu import Pool

    pool = Pool(walker="a", food="nuts", packs=2.0, open_day=1, last_day=2,
                by_day_g={1: 200.0, 2: 200.0})  # fmt: skip
    (nuts,) = packed(people(1), 2, menu=Menu(portions=(), pools=(pool,))).bags
    assert [round(p.grams, 3) for p in pieces_of(nuts, LARDER)] == [206.0, 206.0]


def test_one_fault_that_nearly_fits_comes_before_two_that_fit_exactly() -> None:
    pieces = tuple(Piece(food=f, grams=g) for f, g in (("a", 100.0), ("b", 60.0), ("c", 41.0)))
    first, second, *_ = explain(pieces, -101.0)
    assert named(first) == {frozenset({("missing", "a")})}
    assert named(second) == {frozenset({("missing", "b"), ("missing", "c")})}
    assert first.score < second.score
    assert (first.miss_g, second.miss_g) == (pytest.approx(1.0), pytest.approx(0.0))


def test_of_two_single_faults_the_closer_comes_first() -> None:
    pieces = (Piece(food="a", grams=100.0), Piece(food="b", grams=102.0))
    assert named(explain(pieces, -101.6)[0]) == {frozenset({("missing", "b")})}
    assert named(explain(pieces, -100.4)[0]) == {frozenset({("missing", "a")})}
