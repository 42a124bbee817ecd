"""What is packed is reserved once, counts against other trips only, and is released whole (C17)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from oatsack.desk.home import Home
from oatsack.desk.opening import RESERVED, open_trip
from oatsack.desk.reserving import release, reserve, taken, told
from oatsack.errors import LarderError, UnreadableInput, UsageError
from oatsack.files.larder import bundled
from oatsack.files.reserved import Reserved, read_reserved, write_reserved
from oatsack.values.plan import Plan
from support.each import each
from support.plans import SHORT, plan_of

FOOD = "fd-mac-cheese"
STOCK = f"food,packs\n{FOOD},5\n"
TRIP = SHORT + '[larder]\nstock = "shelf/stock.csv"\n'


def plan_from_home(packs: float = 2.0) -> Plan:
    """A plan that takes so many packs of a food from home, as its shopping list says."""
    plan = plan_of(SHORT)
    grams = packs * plan.foods[FOOD].pack_g
    buy = tuple(replace(line, from_home_g=grams if line.food == FOOD else 0.0)
                for line in plan.packed.buy)  # fmt: skip
    return replace(plan, packed=replace(plan.packed, buy=buy),
                   trip=replace(plan.trip, stock="shelf/stock.csv"))  # fmt: skip


def home_in(folder: Path, plan: Plan | None = None) -> Home:
    (folder / "shelf").mkdir(exist_ok=True)
    (folder / "shelf" / "stock.csv").write_text(STOCK, encoding="utf-8")
    (folder / "trip.toml").write_text(TRIP, encoding="utf-8")
    return Home(plan or plan_from_home(), folder / "plan" / "plan.json")


def at_home(folder: Path, file: str = "other.toml", trip: str = TRIP) -> Mapping[str, float]:
    """Packs at home as a trip in this file finds them; its title is that of every other."""
    (folder / file).parent.mkdir(exist_ok=True)
    (folder / file).write_text(trip, encoding="utf-8")
    return {f.id: f.home_packs for f in open_trip(folder / file).foods}


def test_another_trip_sees_what_is_left_and_the_same_trip_sees_all(tmp_path: Path) -> None:
    reserve(home_in(tmp_path))
    assert at_home(tmp_path)[FOOD] == pytest.approx(3.0)
    assert at_home(tmp_path, "trip.toml")[FOOD] == pytest.approx(5.0)


def test_trips_of_two_folders_that_bear_one_name_keep_apart(tmp_path: Path) -> None:
    far = tmp_path / "far"
    far.mkdir()
    trip = TRIP.replace("shelf/stock.csv", "../shelf/stock.csv")
    home_in(tmp_path)
    (far / "trip.toml").write_text(trip, encoding="utf-8")
    plan = plan_from_home()
    theirs = replace(plan, trip=replace(plan.trip, stock="../shelf/stock.csv"))
    reserve(Home(theirs, far / "plan" / "plan.json"))
    assert at_home(far, "trip.toml", trip)[FOOD] == pytest.approx(5.0)
    assert at_home(tmp_path, "trip.toml")[FOOD] == pytest.approx(3.0)
    reserve(home_in(tmp_path, plan_from_home(1.0)))
    assert at_home(tmp_path)[FOOD] == pytest.approx(2.0)
    release(Home(theirs, far / "plan" / "plan.json"))
    assert at_home(tmp_path)[FOOD] == pytest.approx(4.0)


def test_reserving_twice_reserves_once(tmp_path: Path) -> None:
    home = home_in(tmp_path)
    assert reserve(home) == reserve(home) == taken(home)
    rows = read_reserved((tmp_path / "shelf" / RESERVED).read_bytes(), RESERVED)
    assert [(r.food, r.packs) for r in rows] == [(FOOD, 2.0)]


def test_a_later_plan_of_the_trip_replaces_the_earlier(tmp_path: Path) -> None:
    reserve(home_in(tmp_path))
    reserve(home_in(tmp_path, plan_from_home(1.0)))
    assert at_home(tmp_path)[FOOD] == pytest.approx(4.0)


def test_undo_releases_this_trip_and_leaves_others(tmp_path: Path) -> None:
    home = home_in(tmp_path)
    path = tmp_path / "shelf" / RESERVED
    theirs = Reserved(trip="Third", plan="abc123", food=FOOD, packs=1.5)
    path.write_bytes(write_reserved([theirs]))
    reserve(home)
    assert release(home) == taken(home)
    assert read_reserved(path.read_bytes(), RESERVED) == (theirs,)
    assert list(told(home, undo=True)) == ["Nothing was reserved for this trip."]


def test_more_reserved_than_there_is_leaves_none(tmp_path: Path) -> None:
    reserve(home_in(tmp_path, plan_from_home(9.0)))
    assert at_home(tmp_path)[FOOD] == 0.0


def test_a_plan_that_takes_nothing_writes_nothing(tmp_path: Path) -> None:
    home = home_in(tmp_path, plan_of(SHORT))
    assert list(told(home)) == ["The plan takes nothing from the stock at home."]
    assert not list(tmp_path.rglob(RESERVED))


def test_a_plan_without_its_trip_is_told_where_to_go(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match="no trip file"):
        reserve(Home(plan_from_home(), tmp_path / "far" / "plan.json"))


def test_rows_come_back_as_written() -> None:
    rows = (
        Reserved(trip="A, b; c", plan="00ff00", food="gouda", packs=0.25),
        Reserved(trip="=sum", plan="1", food="ramen", packs=3.0),
    )
    assert read_reserved(write_reserved(rows), "r.csv") == rows


@each(
    ("text", "line"),
    [("trip,plan,food,packs\na,b,c,many\n", 2), ("trip,plan,food,packs\na,b,c,-1\n", 2),
     ("trip,plan,food,packs\na,b,c,nan\n", 2), ("a,b\n", 1)],
)  # fmt: skip
def test_a_file_that_was_broken_is_told_with_its_line(text: str, line: int) -> None:
    with pytest.raises(LarderError) as caught:
        read_reserved(text.encode(), "r.csv")
    assert [fault.line for fault in caught.value.faults] == [line]


def test_a_broken_file_stops_the_opening_of_a_trip(tmp_path: Path) -> None:
    home_in(tmp_path)
    (tmp_path / "shelf" / RESERVED).write_text("nonsense\n", encoding="utf-8")
    with pytest.raises(UnreadableInput) as caught:
        open_trip(tmp_path / "trip.toml")
    assert {f.file for f in caught.value.faults} == {f"shelf/{RESERVED}"}


def test_the_bundled_food_of_these_tests_exists() -> None:
    assert FOOD in {food.id for food in bundled()}
