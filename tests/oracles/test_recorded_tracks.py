"""Recorded walks, counted by a separate program: the test tracks of gpxpy's source archive.

The archive (gpxpy 1.6.2, Apache-2.0) is fetched through pip while the test runs and is no part of
this project. Expected figures were counted apart from this code on the same three files.
"""

from __future__ import annotations

import dataclasses
import hashlib
from pathlib import Path

import numpy as np
import pytest

from oatsack.files.tracks import read_track
from oatsack.route.climb import naive_m
from oatsack.route.cuts import course_of
from oatsack.route.days import days_of
from oatsack.route.profile import profile_of
from oatsack.values.route import Track
from oatsack.values.trip import HandDay
from support.climbs import climbed_m
from support.recorded import archive_in
from support.trips import trip_of

pytestmark = [pytest.mark.tracks, pytest.mark.slow]

HASHES = {
    "Mojstrovka": "ed9fe789e69b",
    "korita-zbevnica": "14125bf02a51",
    "cerknicko-jezero": "8bad699d4c32",
}


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of test files, fetched and unpacked."""
    return archive_in(tmp_path_factory.mktemp("tracks"))


def segment(archive: Path, name: str, number: int) -> Track:
    """One segment of a recorded track, its file checked by hash."""
    data = (archive / f"{name}.gpx").read_bytes()
    assert hashlib.sha256(data).hexdigest().startswith(HASHES[name])
    track = read_track(data, f"{name}.gpx")
    ends = [*track.starts[1:], len(track.lat)]
    part = slice(track.starts[number], ends[number])
    return dataclasses.replace(
        track, lat=track.lat[part], lon=track.lon[part], height_m=track.height_m[part],
        time_s=track.time_s[part], starts=(0,),
    )  # fmt: skip


# file, segment, length [m]; ascent/descent: plain, then turning points at 2, 3, 5 and 10 m
TABLE = [
    ("Mojstrovka", 0, 2701, [(483, 454), (474, 445), (472, 443), (467, 438), (467, 438)]),
    ("korita-zbevnica", 0, 8645, [(552, 563), (526, 540), (513, 527), (494, 508), (451, 457)]),
    ("korita-zbevnica", 1, 2285, [(239, 44), (226, 31), (221, 26), (212, 17), (195, 0)]),
    ("cerknicko-jezero", 0, 1914, [(69, 68), (56, 55), (46, 45), (35, 34), (27, 26)]),
]


@pytest.mark.parametrize(("name", "number", "length", "climbs"), TABLE)
def test_length_and_climb_by_every_method(
    archive: Path, name: str, number: int, length: float, climbs: list[tuple[int, int]]
) -> None:
    """Lengths agree to 0.2 % (another radius of the earth), climbs to the metre."""
    track = segment(archive, name, number)
    rows = np.array(track.height_m, dtype=float)
    assert profile_of(track).length_m == pytest.approx(length, rel=0.002)
    counted = [naive_m(rows), *(climbed_m(rows, t) for t in (2.0, 3.0, 5.0, 10.0))]
    for got, expected in zip(counted, climbs, strict=True):
        assert got == (pytest.approx(expected[0], abs=0.51), pytest.approx(expected[1], abs=0.51))


@pytest.mark.parametrize(
    ("name", "number", "low", "high"),
    [
        ("Mojstrovka", 0, 414, 472),
        ("korita-zbevnica", 0, 348, 513),
        ("korita-zbevnica", 1, 188, 221),
        ("cerknicko-jezero", 0, 21, 46),
    ],
)
def test_the_whole_way_of_counting_lies_between_smoothing_by_points_and_a_threshold_alone(
    archive: Path, name: str, number: int, low: float, high: float
) -> None:
    """A mean over nine points flattens real climbs; a threshold alone keeps noise."""
    profile = profile_of(segment(archive, name, number))
    assert low < profile.climb_m(0.0, profile.length_m)[0] < high


def test_a_recorded_walk_and_its_typed_totals_agree_in_time_within_an_eighth(archive: Path) -> None:
    for name, number in (("Mojstrovka", 0), ("korita-zbevnica", 0), ("korita-zbevnica", 1)):
        track = segment(archive, name, number)
        (recorded,) = days_of(trip_of("2026-06-04 08:30", "2026-06-04 18:30"), track)
        typed = HandDay(
            distance_m=recorded.distance_m,
            ascent_m=recorded.ascent_m,
            descent_m=recorded.descent_m,
        )
        (by_hand,) = days_of(trip_of("2026-06-04 08:30", "2026-06-04 18:30", hand_days=(typed,)))
        assert by_hand.walking_min == pytest.approx(recorded.walking_min, rel=0.125)


def test_edge_cases_of_the_archive_are_read_or_refused_without_a_traceback(archive: Path) -> None:
    from oatsack.errors import TrackError

    read = refused = 0
    for path in sorted(archive.glob("*.gpx")):
        try:
            profile_of(read_track(path.read_bytes(), path.name))
            read += 1
        except TrackError:
            refused += 1
    assert read >= 15
    assert refused >= 5


# file, segment; ascent/descent by a library's weights of 0.3, 0.4, 0.3 and by a mean of nine points
SMOOTHED = [
    ("Mojstrovka", 0, (446, 418), (414, 393)),
    ("korita-zbevnica", 0, (396, 408), (348, 353)),
    ("korita-zbevnica", 1, (217, 21), (188, 10)),
    ("cerknicko-jezero", 0, (50, 49), (21, 28)),
]


def nine_point_mean(rows: np.ndarray) -> np.ndarray:
    """The mean of up to nine neighbours; fewer at the ends."""
    return np.array([rows[max(0, k - 4) : k + 5].mean() for k in range(len(rows))])


def weighed(rows: np.ndarray) -> np.ndarray:
    """Each height with its two neighbours, as gpxpy 1.6.2 smooths before it sums."""
    inner = 0.3 * rows[:-2] + 0.4 * rows[1:-1] + 0.3 * rows[2:]
    return np.concatenate((rows[:1], inner, rows[-1:]))


@pytest.mark.parametrize(("name", "number", "library", "mean"), SMOOTHED)
def test_smoothing_by_points_counts_what_was_counted_apart(
    archive: Path, name: str, number: int, library: tuple[int, int], mean: tuple[int, int]
) -> None:
    rows = np.array(segment(archive, name, number).height_m, dtype=float)
    counted = [(naive_m(weighed(rows)), library), (naive_m(nine_point_mean(rows)), mean)]
    for got, expected in counted:
        assert got == (pytest.approx(expected[0], abs=0.55), pytest.approx(expected[1], abs=0.55))


def test_smoothing_by_points_loses_a_third_of_a_sparse_walks_climb_and_ours_less(
    archive: Path,
) -> None:
    """Where points lie far apart a mean over nine of them flattens hills; ours goes by distance."""
    track = segment(archive, "korita-zbevnica", 0)
    rows = np.array(track.height_m, dtype=float)
    believed = climbed_m(rows, 3.0)[0]
    assert naive_m(nine_point_mean(rows))[0] < 0.70 * believed
    profile = profile_of(track)
    ours = profile.climb_m(0.0, profile.length_m)[0]
    assert 1.15 * naive_m(nine_point_mean(rows))[0] < ours < believed


def test_bare_satellite_heights_count_no_more_than_map_heights(archive: Path) -> None:
    """By the wider window and the threshold of 10 m, on real walks of all sorts."""
    for name, number, _, climbs in TABLE:
        track = segment(archive, name, number)
        found = {}
        for heights in ("map", "barometer", "satellite"):
            profile = course_of(track, heights=heights).profile  # type: ignore[arg-type]
            found[heights] = profile.climb_m(0.0, profile.length_m)[0]
        assert found["map"] == found["barometer"]
        assert found["satellite"] <= found["map"] <= climbs[0][0], name
