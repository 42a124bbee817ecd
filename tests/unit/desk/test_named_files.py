"""A trip opens with the files it names, and their faults are told even beside faults of its own."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from oatsack.desk.opening import Opened, open_trip, written
from oatsack.errors import UnreadableInput
from oatsack.files.larder import bundled, write_larder

TRIP = """\
from = 2026-07-02 09:00
to = 2026-07-04 15:00
[[walkers]]
mass = "68 kg"
[route]
track = "way.gpx"
[larder]
files = ["mine.csv"]
"""
TRACK = """\
<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>
<trkpt lat="47.00" lon="11.00"><ele>500</ele></trkpt>
<trkpt lat="47.05" lon="11.00"><ele>700</ele></trkpt>
<trkpt lat="47.10" lon="11.00"><ele>600</ele></trkpt>
</trkseg></trk></gpx>
"""


def faulty_files(folder: Path, trip: str, *, larder: str = "", track: str = TRACK) -> set[str]:
    (folder / "trip.toml").write_text(trip, encoding="utf-8")
    (folder / "way.gpx").write_text(track, encoding="utf-8")
    if larder:
        (folder / "mine.csv").write_text(larder, encoding="utf-8")
    try:
        opened = open_trip(folder / "trip.toml")
    except UnreadableInput as error:
        return {fault.file for fault in error.faults}
    assert opened.track is not None
    return set()


def test_a_trip_whose_times_have_no_seconds_finds_its_track(tmp_path: Path) -> None:
    alone = TRIP.replace('files = ["mine.csv"]', "")
    assert faulty_files(tmp_path, alone) == set()


@pytest.mark.parametrize(
    "trip",
    [TRIP, TRIP.replace('"68 kg"', "68 kg"), TRIP.replace('"68 kg"', '"68"'), TRIP + "nonsense\n"],
)
def test_a_larder_that_is_missing_is_named_beside_faults_of_the_trip(
    tmp_path: Path, trip: str
) -> None:
    expected = {"mine.csv"} | ({"trip.toml"} if trip != TRIP else set())
    assert faulty_files(tmp_path, trip) == expected


def test_faults_of_all_three_files_are_told_at_once(tmp_path: Path) -> None:
    trip = TRIP.replace('"68 kg"', "68 kg")
    found = faulty_files(tmp_path, trip, larder="nonsense", track="<gpx>")
    assert found == {"trip.toml", "mine.csv", "way.gpx"}


STOCKED = TRIP.replace('files = ["mine.csv"]', 'stock = "home.csv"')


def with_stock(folder: Path, stock: str, trip: str = STOCKED) -> Opened:
    (folder / "home.csv").write_text(stock, encoding="utf-8")
    (folder / "trip.toml").write_text(trip, encoding="utf-8")
    (folder / "way.gpx").write_text(TRACK, encoding="utf-8")
    return open_trip(folder / "trip.toml")


def test_what_is_at_home_joins_the_foods(tmp_path: Path) -> None:
    food = bundled()[0].id
    found = with_stock(tmp_path, f"food;packs;best_before\n{food};1,5;2027-01-31\n{food};2;\n")
    (row,) = [f for f in found.foods if f.id == food]
    assert [(lot.packs, lot.best_before) for lot in row.at_home] == [
        (1.5, dt.date(2027, 1, 31)), (2.0, None),
    ]  # fmt: skip
    assert found.trip.stock == "home.csv"
    assert found.flags == ()


def test_a_lot_that_ends_on_the_walk_counts_until_its_day(tmp_path: Path) -> None:
    food = bundled()[0].id
    found = with_stock(tmp_path, f"food,packs,best_before\n{food},3,2026-07-03\n")
    assert [f.home_packs for f in found.foods if f.id == food] == [3.0]
    assert found.flags == ()


def test_a_lot_past_its_date_before_the_walk_is_named(tmp_path: Path) -> None:
    food = bundled()[0].id
    found = with_stock(tmp_path, f"food,packs,best_before\n{food},3,2026-07-01\n")
    assert [flag.values["food"] for flag in found.flags] == [food]


def test_a_food_at_home_that_no_larder_knows_is_a_fault_with_its_line(tmp_path: Path) -> None:
    with pytest.raises(UnreadableInput) as caught:
        with_stock(tmp_path, "food,packs\nno-such-food,1\n")
    assert [(f.file, f.line) for f in caught.value.faults] == [("home.csv", 2)]


def test_a_broken_larder_does_not_make_all_stock_unknown(tmp_path: Path) -> None:
    (tmp_path / "mine.csv").write_text("nonsense\n", encoding="utf-8")
    trip = STOCKED.replace("stock =", 'files = ["mine.csv"]\nstock =')
    with pytest.raises(UnreadableInput) as caught:
        with_stock(tmp_path, "food,packs\nsomething,1\n", trip)
    assert {f.file for f in caught.value.faults} == {"mine.csv"}


def test_a_stock_file_that_is_missing_is_named(tmp_path: Path) -> None:
    (tmp_path / "trip.toml").write_text(STOCKED, encoding="utf-8")
    (tmp_path / "way.gpx").write_text(TRACK, encoding="utf-8")
    with pytest.raises(UnreadableInput) as caught:
        open_trip(tmp_path / "trip.toml")
    assert {f.file for f in caught.value.faults} == {"home.csv"}


def test_how_a_larder_is_written_is_told_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "mine.csv").write_bytes(write_larder(bundled(), decimal=","))
    (tmp_path / "trip.toml").write_text(TRIP, encoding="utf-8")
    (tmp_path / "way.gpx").write_text(TRACK, encoding="utf-8")
    found = open_trip(tmp_path / "trip.toml")
    (line,) = [written(name, dialect) for name, dialect in found.dialects.items()]
    assert line.startswith("mine.csv: ")
    assert "semicolon" in line
    assert "decimal commas" in line


def test_the_bundled_larder_is_not_told_as_a_file(tmp_path: Path) -> None:
    assert with_stock(tmp_path, "food,packs\n").dialects == {}
