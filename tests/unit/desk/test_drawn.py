"""Foods are read again when a file of theirs changes, and only then."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from oatsack.desk.bench import Bench, Standing
from oatsack.desk.drawn import read_from
from oatsack.store.workspace import Revision

TRIP = """
from = 2027-06-12 09:00
to = 2027-06-13T15:00
[[walkers]]
mass = "62 kg"
[route]
usual_day = {{ distance = "15 km", up = "600 m" }}
[larder]
{larder}
"""
LARDER = "name,id,per,kcal,pack_g,doses,meals\nOat cake,{id},100g,400,200,4,lunch\n"
"""A row of a made-up larder."""


def text(larder: str = 'files = ["bundled", "larder.csv"]') -> str:
    return TRIP.format(larder=larder)


def standing(said: str) -> Standing:
    return Standing(name="walk", plan=None, revision=Revision(
        id=1, trip="walk", parent=None, next=None, text=said))  # fmt: skip


def test_the_files_behind_the_foods_are_named_in_their_order(tmp_path: Path) -> None:
    file = tmp_path / "walk.toml"
    cases = {
        "": ["reserved.csv"],
        'files = "larder.csv"': ["larder.csv", "reserved.csv"],
        'files = ["bundled", "a.csv"]': ["bundled", "a.csv", "reserved.csv"],
        'files = ["a.csv", "bundled"]': ["a.csv", "bundled", "reserved.csv"],
        'stock = "home/stock.csv"': ["home/stock.csv", "home/reserved.csv"],
    }
    for larder, names in cases.items():
        found = [name.removeprefix(f"{tmp_path}/") for name, _, _ in read_from(file, text(larder))]
        assert found == ["walk.toml", *names], larder


def test_a_change_of_any_of_the_files_is_seen_and_one_of_the_trip_is_not(tmp_path: Path) -> None:
    file = tmp_path / "walk.toml"
    larder = 'files = ["larder.csv"]\nstock = "stock.csv"'
    seen = {read_from(file, text(larder))}
    for name in ("larder.csv", "stock.csv", "reserved.csv"):
        for data in ("one", "longer"):
            (tmp_path / name).write_text(data)
            seen.add(read_from(file, text(larder)))
    assert len(seen) == 7
    before = read_from(file, text(larder))
    assert read_from(file, text(larder).replace("62", "80")) == before
    assert read_from(tmp_path / "other.toml", text(larder)) != before


def test_a_food_put_into_the_larder_is_there_at_once_and_none_is_read_twice(
    tmp_path: Path,
) -> None:
    bench = Bench(tmp_path, lambda: dt.date(2027, 5, 1))
    (tmp_path / "larder.csv").write_text(LARDER.format(id="oat-cake"))
    one = standing(text())
    first = bench.foods(one)
    assert "oat-cake" in {food.id for food in first}
    assert bench.foods(standing(text().replace("62", "80"))) is first
    (tmp_path / "larder.csv").write_text(LARDER.format(id="oat-cake-2"))
    again = {food.id for food in bench.foods(one)}
    assert "oat-cake-2" in again and "oat-cake" not in again
