"""A trip opens with the files it names, and their faults are told even beside faults of its own."""

from __future__ import annotations

from pathlib import Path

import pytest

from oatsack.desk.opening import open_trip
from oatsack.errors import UnreadableInput

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
