"""Files are written whole or not at all, and nothing that stood there is lost (C12)."""

from __future__ import annotations

import gzip
import json
import stat
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.desk import export
from oatsack.desk.export import (
    EARLIER,
    folder_for,
    keep,
    place_for,
    write_file,
    write_files,
    write_out,
)
from oatsack.desk.opening import open_trip
from oatsack.errors import UsageError
from oatsack.values.plan import FORMAT
from support.amount import examples
from support.sample_plan import sample_plan

TRIP_WITH_OWN = """
from = "2027-07-01 09:00"
to = "2027-07-04 15:00"
[[walkers]]
mass = "68 kg"
[route]
usual_day = { distance = "16 km", up = "700 m" }
[larder]
files = ["own.csv"]
"""


def names(folder: Path) -> list[str]:
    """Everything below a folder, in order."""
    return sorted(str(p.relative_to(folder)) for p in folder.rglob("*") if p.is_file())


def test_a_new_file_holds_its_bytes_and_nothing_else_is_left(tmp_path: Path) -> None:
    path = write_file(tmp_path / "plan.txt", b"oats\n")
    assert path.read_bytes() == b"oats\n"
    assert names(tmp_path) == ["plan.txt"]


def test_a_written_file_can_be_read_by_others(tmp_path: Path) -> None:
    path = write_file(tmp_path / "plan.txt", b"oats")
    assert stat.S_IMODE(path.stat().st_mode) == 0o644


def test_equal_bytes_are_left_untouched(tmp_path: Path) -> None:
    path = write_file(tmp_path / "plan.txt", b"oats")
    before = path.stat()
    write_file(path, b"oats")
    assert (path.stat().st_ino, path.stat().st_mtime_ns) == (before.st_ino, before.st_mtime_ns)
    assert names(tmp_path) == ["plan.txt"]


def test_a_file_that_was_edited_is_kept(tmp_path: Path) -> None:
    path = write_file(tmp_path / "plan.txt", b"ours")
    path.write_bytes(b"edited")
    write_file(path, b"ours again")
    assert path.read_bytes() == b"ours again"
    (kept,) = (tmp_path / EARLIER).iterdir()
    assert kept.read_bytes() == b"edited"
    assert kept.name.startswith("plan-")
    assert kept.suffix == ".txt"


def test_the_same_earlier_file_is_kept_once(tmp_path: Path) -> None:
    path = tmp_path / "plan.txt"
    assert keep(path, b"edited") == keep(path, b"edited")
    assert len(list((tmp_path / EARLIER).iterdir())) == 1


@settings(max_examples=examples(15))
@given(st.lists(st.binary(max_size=20), min_size=1, max_size=6))
def test_every_content_a_file_ever_had_can_still_be_found(contents: list[bytes]) -> None:
    import tempfile

    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for data in contents:
            write_file(folder / "bags.csv", data)
        found = {p.read_bytes() for p in folder.rglob("*") if p.is_file()}
        assert found == set(contents)
        assert (folder / "bags.csv").read_bytes() == contents[-1]


def test_a_broken_write_leaves_the_old_file_and_no_scrap(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = write_file(tmp_path / "plan.txt", b"whole")

    def full(_: int) -> None:
        raise OSError("no room left")

    monkeypatch.setattr(export.os, "fsync", full)
    with pytest.raises(OSError, match="no room"):
        export._atomic(path, b"half")
    assert path.read_bytes() == b"whole"
    assert names(tmp_path) == ["plan.txt"]


def test_folders_are_made_as_needed(tmp_path: Path) -> None:
    made = write_files(tmp_path / "a" / "b", [("x.txt", b"1"), ("y.txt", b"2")])
    assert [p.name for p in made] == ["x.txt", "y.txt"]
    assert names(tmp_path) == ["a/b/x.txt", "a/b/y.txt"]


def test_a_plan_is_written_with_its_everyday_papers(tmp_path: Path) -> None:
    made = write_out(sample_plan(), tmp_path)
    assert [p.name for p in made] == ["plan.json", "ribbon.svg", "plan.txt", "shopping.csv",
                                      "bags.csv"]  # fmt: skip
    assert json.loads(made[0].read_text("utf-8"))["format"] == FORMAT
    assert all(p.stat().st_size > 0 for p in made)


def test_tables_are_written_as_the_sheet_program_at_home_writes_them(tmp_path: Path) -> None:
    """A larder kept with decimal commas: 16.20 would open there as a date."""
    (tmp_path / "own.csv").write_text("name;pack_g;kcal per 100 g\nMuesli;500,5;415\n", "utf-8")
    (tmp_path / "t.toml").write_text(TRIP_WITH_OWN, "utf-8")
    assert open_trip(tmp_path / "t.toml").decimal == ","
    (tmp_path / "own.csv").write_text("name,pack_g,kcal per 100 g\nMuesli,500.5,415\n", "utf-8")
    assert open_trip(tmp_path / "t.toml").decimal == "."
    plan = sample_plan()
    for decimal, between in ((".", ","), (",", ";")):
        write_out(plan, tmp_path / "out", decimal=decimal)
        for name in ("shopping.csv", "bags.csv"):
            head, *rows = (tmp_path / "out" / name).read_text("utf-8-sig").splitlines()
            assert len(head.split(between)) > 10
            figures = [cell for row in rows for cell in row.split(between) if cell[:1].isdigit()]
            assert any(decimal in cell for cell in figures) and figures
            assert not any(cell.replace(decimal, "").count("." if decimal == "," else ",")
                           for cell in figures)  # fmt: skip


def test_writing_the_same_plan_again_changes_nothing(tmp_path: Path) -> None:
    first = {p: p.stat().st_mtime_ns for p in write_out(sample_plan(), tmp_path)}
    assert {p: p.stat().st_mtime_ns for p in write_out(sample_plan(), tmp_path)} == first


def test_a_folder_that_cannot_be_written_is_told_without_a_traceback(tmp_path: Path) -> None:
    """Where a file stands in the way, and where the system refuses."""
    (tmp_path / "file").write_text("mine", "utf-8")
    for folder in (tmp_path / "file", tmp_path / "file" / "deeper", Path("/proc/nowhere")):
        with pytest.raises(UsageError, match="cannot be written") as caught:
            folder_for(folder)
        assert str(folder) in str(caught.value)
        with pytest.raises(UsageError, match="another place with --out"):
            write_files(folder, [("plan.json", b"{}")])
    assert (tmp_path / "file").read_text("utf-8") == "mine"


def test_where_another_place_may_be_named_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine", "utf-8")
    for path in (tmp_path / "file" / "trip.toml", Path("/proc/nowhere/trip.toml")):
        with pytest.raises(UsageError, match="another place with --file") as caught:
            place_for(path, option="--file")
        assert str(path) in str(caught.value)
    with pytest.raises(UsageError, match="another place with oatsack demo FOLDER"):
        folder_for(tmp_path / "file", option="oatsack demo FOLDER")


def test_a_place_for_a_file_is_only_tried(tmp_path: Path) -> None:
    (tmp_path / "trip.toml").write_text("mine", "utf-8")
    assert place_for(tmp_path / "trip.toml", option="--file") == tmp_path / "trip.toml"
    assert (tmp_path / "trip.toml").read_text("utf-8") == "mine"
    assert list(place_for(tmp_path / "new" / "trip.toml", option="--file").parent.iterdir()) == []


def test_trying_a_folder_leaves_nothing_in_it(tmp_path: Path) -> None:
    assert list(folder_for(tmp_path / "new" / "deep").iterdir()) == []


def test_what_is_written_often_and_is_large_is_kept_packed_and_once(tmp_path: Path) -> None:
    path = tmp_path / "larder.csv"
    rows = [f"food-{n},Oat cake number {n},{n * 37 % 900},lunch\n" for n in range(800)]
    states = ["".join(rows[: 700 + n]).encode() for n in range(30)]
    for state in (*states, states[0], states[1]):
        write_file(path, state, often=True)
    kept = sorted((tmp_path / EARLIER).iterdir())
    assert {one.suffixes[-1] for one in kept} == {".gz"}
    assert {gzip.decompress(one.read_bytes()) for one in kept} == set(states), "each state, once"
    assert sum(one.stat().st_size for one in kept) < sum(map(len, states)) / 3
    small = tmp_path / "stock.csv"
    for text in (b"one", b"two"):
        write_file(small, text, often=True)
    assert [one.read_bytes() for one in (tmp_path / EARLIER).glob("stock-*.csv")] == [b"one"]
    for text in (states[0], states[1]):
        write_file(tmp_path / "plan.json", text)
    assert [one.read_bytes() for one in (tmp_path / EARLIER).glob("plan-*")] == [states[0]]
