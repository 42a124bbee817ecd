"""One's own larder and stock in a folder: judged, kept, replaced, taken out, drawn on, liked."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack.desk import labels, stocking
from oatsack.errors import LarderError, NotThere, UsageError
from oatsack.files.larder import bundled
from oatsack.larder.stock import Lot
from oatsack.reports.words import PLAIN

GOOD = {"name": "Oat rounds", "pack_g": "500 g", "per": "100 g", "kcal": "380"}
FOODS = bundled()


def test_a_good_label_is_a_food_without_doubts() -> None:
    found = labels.judged(GOOD)
    assert found.food is not None and found.doubts == () and found.faults == ()
    assert (found.food.id, found.food.pack_g, found.food.per_100g.energy_kcal) == (
        "oat-rounds", 500.0, 380.0)  # fmt: skip
    assert found.food.per_100g.fat_g is None  # absent is not zero (C2)
    assert found.food.state("milk") == "unknown"  # and silence is not freedom (C10)


def test_every_fault_of_a_label_is_told_by_its_column() -> None:
    cases = {
        ("pack_g", "much"): "pack_g", ("kcal", "x"): "kcal", ("meals", "brunch"): "meals",
        ("price", "3 EUR"): "price", ("category", "thing"): "category", ("liking", "9"): "liking",
        ("contains", "nuts"): "contains", ("best_before", "soon"): "best_before",
        ("prep", "bake"): "prep", ("water_ml", "a bit"): "water_ml", ("name", ""): "name",
        ("pack_g", ""): "pack_g", ("per", ""): "per",
    }  # fmt: skip
    wrong = {}
    for (column, text), where in cases.items():
        found = labels.judged(GOOD | {column: text})
        if found.food is not None or where not in found.beside():
            wrong[(column, text)] = found.beside()
    assert wrong == {}


def test_several_faults_come_at_once_and_none_of_a_blank_label_is_forgotten() -> None:
    found = labels.judged(GOOD | {"pack_g": "much", "kcal": "x", "price": "y"})
    assert {"pack_g", "kcal", "price"} <= set(found.beside())
    assert set(labels.judged({}).beside()) >= {"name", "pack_g"}


def test_doubts_are_said_in_words_with_the_likely_slip() -> None:
    found = labels.judged(GOOD | {"category": "bread", "kcal": "1590"})
    assert found.food is not None and "kilojoules" in " ".join(found.says(PLAIN))


def test_what_is_no_column_is_not_read() -> None:
    assert labels.judged(GOOD | {"token": "x", "confirmed[]": "y"}).food is not None


@given(st.sampled_from(FOODS))
def test_a_food_of_the_larder_comes_back_from_its_form_unchanged(food) -> None:  # type: ignore[no-untyped-def]
    found = labels.judged(labels.row_of(food))
    assert found.faults == () and found.food is not None
    assert labels.row_of(found.food) == labels.row_of(food)


@given(st.dictionaries(st.sampled_from(sorted(GOOD | dict.fromkeys(("fat_g", "doses", "meals")))),
                       st.text(max_size=12)))  # fmt: skip
def test_whatever_is_typed_there_is_a_food_or_a_fault(typed: dict[str, str]) -> None:
    found = labels.judged(GOOD | typed)
    assert (found.food is None) == bool(found.faults)


def test_a_food_is_kept_replaced_and_taken_out_with_the_older_file_kept(tmp_path: Path) -> None:
    food = labels.judged(GOOD).food
    other = labels.judged(GOOD | {"kcal": "400"}).food
    assert food and other
    assert labels.own(tmp_path) == ()
    labels.keep(tmp_path, [food])
    labels.keep(tmp_path, [other])
    assert [f.per_100g.energy_kcal for f in labels.own(tmp_path)] == [400.0]
    assert len(list((tmp_path / "earlier").glob("larder-*.csv"))) == 1
    assert labels.every(tmp_path)[0].id == "oat-rounds"
    assert labels.food_of(tmp_path, "oat-rounds").per_100g.energy_kcal == 400.0
    labels.drop(tmp_path, "oat-rounds")
    assert labels.own(tmp_path) == ()
    for act in (lambda: labels.drop(tmp_path, "oat-rounds"), lambda: labels.food_of(tmp_path, "x")):
        with pytest.raises(UsageError):
            act()
    with pytest.raises(NotThere):
        labels.food_of(tmp_path, "../larder")


def test_ones_own_food_takes_the_place_of_the_bundled_one(tmp_path: Path) -> None:
    labels.keep(tmp_path, [labels.food_of(tmp_path, "couscous")])
    ids = [food.id for food in labels.every(tmp_path)]
    assert ids.count("couscous") == 1 and ids[0] == "couscous"
    assert len(ids) == len(FOODS)


def test_a_file_is_taken_in_whole_or_not_at_all(tmp_path: Path) -> None:
    comma = "name;pack_g;per;kcal\nRounds;1,5 kg;100 g;380,5\nSquares;200 g;100 g;400\n"
    count, dialect = labels.take_in(tmp_path, comma.encode("cp1252"))
    assert (count, dialect.decimal, dialect.delimiter) == (2, ",", ";")
    assert labels.food_of(tmp_path, "rounds").pack_g == 1500.0
    before = labels.written(tmp_path)
    with pytest.raises(LarderError) as caught:
        labels.take_in(tmp_path, b"name,pack_g,per,kcal\nA,x,100 g,1\nB,1 g,100 g,y\n")
    assert {fault.line for fault in caught.value.faults} == {2, 3}
    with pytest.raises(UsageError, match="2 MB"):
        labels.take_in(tmp_path, b"x" * (labels.MOST_BYTES + 1))
    assert labels.written(tmp_path) == before


def test_stock_is_kept_without_blank_rows_and_read_again(tmp_path: Path) -> None:
    rows = [{"food": "couscous", "packs": "1.5", "best_before": "2028-01-31"}, {"food": "  "},
            {"food": "rolled-oats", "packs": "2", "best_before": ""}, {}]  # fmt: skip
    stocking.keep(tmp_path, rows, FOODS)
    assert stocking.lots(tmp_path, FOODS) == (
        Lot(food="couscous", packs=1.5, best_before=dt.date(2028, 1, 31)),
        Lot(food="rolled-oats", packs=2.0),
    )
    stocking.keep(tmp_path, [], FOODS)
    assert stocking.lots(tmp_path, FOODS) == ()
    assert list((tmp_path / "earlier").glob("stock-*.csv"))


def test_faults_of_stock_count_the_rows_that_are_not_blank(tmp_path: Path) -> None:
    rows = [{"food": ""}, {"food": "couscous", "packs": "x"}, {"food": "moon", "packs": "1"}]
    with pytest.raises(LarderError) as caught:
        stocking.keep(tmp_path, rows, FOODS)
    assert {(f.line, f.path) for f in caught.value.faults} == {(2, "packs"), (3, "food")}
    assert not (tmp_path / stocking.FILE).exists()


LARDERS = (
    ({}, "larder", {"larder.files": ["bundled", "larder.csv"]}),
    ({"larder": {"files": "mine.csv"}}, "larder", {"larder.files": ["mine.csv", "larder.csv"]}),
    ({"larder": {"files": ["a.csv", "larder.csv"]}}, "larder", {}),
    ({}, "stock", {"larder.stock": "stock.csv"}),
    ({"larder": {"stock": "other.csv"}}, "stock", {"larder.stock": "stock.csv"}),
    ({"larder": {"stock": "stock.csv"}}, "stock", {}),
)


def test_a_trip_draws_on_the_folders_files_once() -> None:
    wrong = [case for case in LARDERS if stocking.drawing(case[0], case[1]) != case[2]]
    assert wrong == []
    with pytest.raises(UsageError):
        stocking.drawing({}, "/etc")


WALKERS = {"walkers": [{"liking": {"oats": 4}}, {}]}


def test_likes_change_only_what_differs() -> None:
    cases = (
        ({"0/oats": "4", "1/oats": ""}, {}), ({"0/oats": ""}, {"walkers[0].liking.oats": None}),
        ({"0/oats": "5", "1/bread": "1"},
         {"walkers[0].liking.oats": 5, "walkers[1].liking.bread": 1}),
    )  # fmt: skip
    wrong = [sent for sent, wanted in cases if stocking.liked(WALKERS, sent) != wanted]
    assert wrong == []
    for sent in ({"2/oats": "3"}, {"x/oats": "3"}, {"0/oats": "6"}, {"/oats": "1"}, {"-1/a": "1"}):
        with pytest.raises(UsageError):
            stocking.liked(WALKERS, sent)




WHOLE = {
    "name": "Stew", "pack_g": "120 g", "per": "100 g", "kcal": "420", "pouch_holds_ml": "600 ml",
    "potassium_mg": "300", "polyols_g": "2", "diet": "vegan", "liking_anna": "4", "source": "label",
    "home_packs": "2", "best_before": "2028-05-01", "confirmed": "yes", "contains": "soy",
}  # fmt: skip


def test_what_no_form_asks_for_stays_when_a_label_is_changed() -> None:
    food = labels.judged(WHOLE).food
    assert food is not None and food.confirmed and food.liking_by == {"anna": 4.0}
    typed = {"name": "Stew", "pack_g": "125 g", "per": "100 g", "kcal": "410", "diet": "vegan",
             "contains": "soy milk"}  # fmt: skip
    new = labels.judged(labels.changed(food, typed)).food
    assert new is not None and new.id == food.id
    assert (new.pack_g, new.per_100g.energy_kcal) == (125.0, 410.0)
    assert new.pouch == food.pouch and new.liking_by == food.liking_by and new.stock == food.stock
    assert new.per_100g.potassium_mg == 300.0 and new.per_100g.polyols_g == 2.0
    assert not new.confirmed  # another label is looked at anew
    assert new.state("milk") == "contains"


def test_nutrients_that_nobody_typed_go_where_the_others_are_per_serving() -> None:
    food = labels.judged(WHOLE).food
    assert food is not None
    typed = {"name": "Stew", "pack_g": "120 g", "per": "serving", "serving_g": "60 g",
             "kcal": "240"}  # fmt: skip
    new = labels.judged(labels.changed(food, typed)).food
    assert new is not None and new.per_100g.energy_kcal == pytest.approx(400.0)
    assert new.per_100g.potassium_mg is None  # per 100 g before: not to be read per serving
    assert new.pouch == food.pouch


@given(st.sampled_from(FOODS))
def test_a_food_whose_form_nobody_touched_is_the_same_food(food) -> None:  # type: ignore[no-untyped-def]
    new = labels.judged(labels.changed(food, labels.row_of(food))).food
    assert new is not None and labels.row_of(new) == labels.row_of(food)


def test_a_price_that_was_typed_is_no_longer_invented() -> None:
    food = next(f for f in FOODS if {"price", "pack_g"} <= f.origin.invented and f.price)
    row = labels.row_of(food)
    new = labels.judged(labels.changed(food, row | {"price": "9.87"})).food
    assert new is not None and new.price == 9.87
    assert food.origin.invented - new.origin.invented == {"price"}
