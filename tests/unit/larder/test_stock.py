"""What is at home is used first, as far as it is good when it is eaten."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from oatsack.larder.stock import (
    Drawn,
    Lot,
    draw,
    is_good,
    lots_of,
    stale,
    stocked,
)  # fmt: skip
from oatsack.values.food import Stock
from support.each import each
from support.foods import label

EATEN = dt.date(2027, 6, 10)
OLD = Lot(food="oats", packs=1.0, best_before=dt.date(2027, 6, 9))
SOON = Lot(food="oats", packs=1.5, best_before=EATEN)
LATE = Lot(food="oats", packs=2.0, best_before=dt.date(2028, 1, 1))
UNDATED = Lot(food="oats", packs=1.0)


@each(
    ("lot", "good"), [(OLD, False), (SOON, True), (LATE, True), (UNDATED, True)]
)
def test_a_lot_is_good_up_to_and_on_its_date(lot: Lot, good: bool) -> None:
    assert is_good(lot, EATEN) is good


def test_the_soonest_date_is_drawn_first_and_the_undated_last() -> None:
    drawn = draw([UNDATED, LATE, OLD, SOON], 4.0, EATEN)
    assert [(lot.packs, lot.best_before) for lot in drawn.home] == [
        (1.5, EATEN), (2.0, LATE.best_before), (0.5, None),
    ]  # fmt: skip
    assert drawn.buy == 0


@each(
    ("packs", "buy", "over"), [(1.5, 0, 0.0), (1.6, 1, 0.9), (2.5, 1, 0.0), (4.0, 3, 0.5)]
)
def test_what_home_does_not_cover_is_bought_in_whole_packs(
    packs: float, buy: int, over: float
) -> None:
    drawn = draw([SOON], packs, EATEN)
    assert drawn.buy == buy
    assert drawn.over == pytest.approx(over)
    assert sum(lot.packs for lot in drawn.home) + drawn.buy - drawn.over == pytest.approx(packs)


def test_nothing_asked_draws_nothing() -> None:
    assert draw([SOON, LATE], 0.0, EATEN) == Drawn()


def test_a_stale_lot_is_flagged_and_no_other() -> None:
    (flag,) = stale([OLD, SOON, UNDATED], EATEN)
    assert flag.key == "larder.past-best"
    assert flag.values == {"food": "oats", "packs": 1.0, "best_before": "2027-06-09"}


def test_lots_come_from_the_larder_and_from_a_stock_file() -> None:
    oats = label(kcal=380, of_g=100.0, id="oats", stock=Stock(packs=2.0, best_before=EATEN))
    none = label(kcal=380, of_g=100.0, id="none")
    found = lots_of([oats, none], [LATE, Lot(food="rice", packs=1.0), Lot(food="x", packs=0.0)])
    assert set(found) == {"oats", "rice"}
    assert found["oats"] == (Lot(food="oats", packs=2.0, best_before=EATEN), LATE)


def test_a_stock_file_adds_lots_that_keep_their_dates() -> None:
    late = Stock(packs=1.0, best_before=LATE.best_before)
    oats = label(kcal=380, of_g=100.0, id="oats", stock=late)
    rice = label(kcal=1, of_g=1.0, id="rice")
    first, second = stocked([oats, rice], [SOON, OLD, UNDATED])
    assert first.home_packs == 1.0 + SOON.packs + OLD.packs + UNDATED.packs
    dates = [lot.best_before for lot in first.at_home]
    assert dates == [OLD.best_before, SOON.best_before, LATE.best_before, None]
    assert second is rice


def test_what_is_taken_from_home_is_what_ends_first() -> None:
    oats, = stocked([label(kcal=1, of_g=1.0, id="oats")], [UNDATED, SOON, OLD])
    soonest = OLD.packs + 0.5
    gone = oats.less_home(soonest)
    assert [lot.packs for lot in gone.at_home] == [SOON.packs - 0.5, UNDATED.packs]
    assert oats.less_home(1e9).at_home == ()
    bare = label(kcal=1, of_g=1.0, id="none")
    assert bare.less_home(1.0) is bare


def test_what_is_taken_off_never_falls_below_none() -> None:
    from oatsack.files.larder import bundled
    from oatsack.larder.stock import without

    foods = tuple(replace(f, stock=Stock(packs=2.0)) for f in bundled()[:2])
    left = without(foods, {foods[0].id: 3.0, "nobody": 1.0})
    assert [f.stock.packs for f in left] == [0.0, 2.0]
