"""A pace told by a recorded track: read with the trip, told with its source, faults at its line."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from oatsack.desk.needing import need_of, told
from oatsack.desk.opening import open_trip, paced_as
from oatsack.desk.planning import make_plan
from oatsack.desk.whys import told as why_told
from oatsack.errors import Fault, UnknownAddress, UnreadableInput
from oatsack.files.trip import parse_trip
from oatsack.provision.assume import assumptions
from oatsack.provision.loads import guess
from oatsack.reports.formats.text import render
from oatsack.route.pieces import gait_of
from oatsack.values.plan import Plan
from oatsack.why import why
from support.sample_plan import sample_plan
from support.tracks import METRE, gpx

TODAY = dt.date(2027, 1, 5)
TRIP = """
from = "2027-07-03 08:00"
to = "2027-07-04 16:00"
[[walkers]]
name = "Anna"
mass = "62 kg"
target = "2100 kcal"
[[walkers]]
name = "Ben"
mass = "84 kg"
target = "2600 kcal"
{pace}
[route]
usual_day = {{ distance = "15 km", up = "500 m" }}
"""
TRACK = 'pace_track = "last-year.gpx"'


def recorded(speed_ms: float = 1.1, *, timed: bool = True, metres: float = 4000.0) -> bytes:
    """A level walk at one speed, with half an hour of rest in its middle."""
    rows, seconds = [], 0.0
    begin = dt.datetime(2026, 8, 1, 9, 0)
    for k in range(int(metres / 20)):
        seconds += 20.0 / speed_ms + (1800.0 if k == 80 else 0.0)
        clock = (begin + dt.timedelta(seconds=seconds)).isoformat(timespec="seconds")
        time = f"<time>{clock}Z</time>" if timed else ""
        rows.append(f'<trkpt lat="{47 + 20 * k * METRE:.8f}" lon="13"><ele>600</ele>{time}</trkpt>')
    return gpx(f"<trk><trkseg>{''.join(rows)}</trkseg></trk>")


def trip(folder: Path, pace: str = TRACK, track: bytes | None = None) -> Path:
    (folder / "last-year.gpx").write_bytes(recorded() if track is None else track)
    path = folder / "trip.toml"
    path.write_text(TRIP.format(pace=pace), encoding="utf-8")
    return path


def faults(path: Path) -> tuple[Fault, ...]:
    with pytest.raises(UnreadableInput) as caught:
        open_trip(path)
    return caught.value.faults


def test_the_track_tells_the_speed_on_the_flat(tmp_path: Path) -> None:
    ben = open_trip(trip(tmp_path)).trip.walkers[1]
    assert ben.pace_ms == pytest.approx(1.1, rel=0.02)
    assert ben.own_pace is not None
    assert ben.own_pace.track == "last-year.gpx"
    assert ben.own_pace.paused_min == pytest.approx(30.0, abs=4.0)


def test_who_names_no_track_keeps_the_partys_pace(tmp_path: Path) -> None:
    assert open_trip(trip(tmp_path)).trip.walkers[0].own_pace is None


def test_the_slowest_sets_the_pace_as_with_typed_speeds(tmp_path: Path) -> None:
    by_track = open_trip(trip(tmp_path)).trip
    assert gait_of(by_track).flat_ms == by_track.walkers[1].pace_ms
    both = TRIP.format(pace=TRACK).replace('target = "2100 kcal"',
                                           'target = "2100 kcal"\npace = "3 km/h"')  # fmt: skip
    slower = open_trip(trip(tmp_path), both).trip
    assert gait_of(slower).flat_ms == pytest.approx(3 / 3.6)


def test_a_slower_recording_makes_longer_days(tmp_path: Path) -> None:
    hours = [
        need_of(open_trip(trip(tmp_path, track=recorded(speed))), today=TODAY).days[0].walking_min
        for speed in (0.8, 1.1, 1.5)
    ]
    assert hours == sorted(hours, reverse=True)
    assert hours[0] / hours[2] == pytest.approx(1.5 / 0.8, rel=0.02)


def test_the_rule_of_the_trip_is_the_one_that_is_scaled(tmp_path: Path) -> None:
    text = TRIP.format(pace=TRACK).replace("[route]", '[route]\npace = "tobler"')
    own = open_trip(trip(tmp_path), text).trip.walkers[1].own_pace
    assert own is not None
    assert own.rule == "tobler"


def test_it_is_told_with_its_source_before_there_is_a_menu(tmp_path: Path) -> None:
    shown = " ".join(render(told(need_of(open_trip(trip(tmp_path)), today=TODAY))).decode().split())
    assert "The pace of Ben is from your track of last-year.gpx: 4.0 km/h on the flat" in shown


def test_it_stands_among_the_assumptions_in_place_of_an_ordinary_pace(tmp_path: Path) -> None:
    found = need_of(open_trip(trip(tmp_path)), today=TODAY)
    backs = guess(found.trip.walkers, found.days, (), {"anna": {}, "ben": {}})
    keys = {one.key: one for one in assumptions(found.trip, found.days, backs)}
    assert "pace" not in keys
    assert keys["own-pace"].path == "walkers[1].pace_track"


def one_fault(path: Path) -> Fault:
    (found,) = faults(path)
    assert (found.file, found.path) == ("trip.toml", "walkers[1].pace_track")
    assert (found.line, found.column) == (12, 14)
    assert found.text == TRACK
    return found


def test_a_track_that_is_not_there_is_a_fault_at_its_line(tmp_path: Path) -> None:
    path = trip(tmp_path)
    (tmp_path / "last-year.gpx").unlink()
    assert "cannot be read" in one_fault(path).wrong


def test_a_track_without_times_is_a_fault_at_its_line(tmp_path: Path) -> None:
    found = one_fault(trip(tmp_path, track=recorded(timed=False)))
    assert "no times" in found.wrong
    assert "pace =" in found.instead


def test_less_than_a_kilometre_says_nothing_of_a_pace(tmp_path: Path) -> None:
    assert "less than a kilometre" in one_fault(trip(tmp_path, track=recorded(metres=600.0))).wrong


def test_a_broken_track_tells_its_own_lines(tmp_path: Path) -> None:
    (found,) = faults(trip(tmp_path, track=b"<gpx><trk>"))
    assert found.file == "last-year.gpx"
    assert found.line > 0


def test_faults_of_the_trip_and_of_its_track_come_together(tmp_path: Path) -> None:
    path = trip(tmp_path, track=recorded(timed=False))
    path.write_text(path.read_text("utf-8").replace('"62 kg"', '"heavy"'), encoding="utf-8")
    assert {f.path for f in faults(path)} == {"walkers[0].mass", "walkers[1].pace_track"}


def test_a_number_and_a_track_are_one_too_many(tmp_path: Path) -> None:
    (found,) = faults(trip(tmp_path, f'{TRACK}\npace = "4 km/h"'))
    assert "both a pace and a track" in found.wrong


def test_a_text_read_again_without_its_folder_keeps_the_pace(tmp_path: Path) -> None:
    """As when a dial is turned: the plan's own trip knows what the track said."""
    earlier = open_trip(trip(tmp_path)).trip
    again = paced_as(parse_trip(TRIP.format(pace=TRACK), "trip.toml"), earlier)
    assert again.walkers == earlier.walkers
    other = paced_as(parse_trip(TRIP.format(pace='pace_track = "x.gpx"'), "trip.toml"), earlier)
    assert other.walkers[1].own_pace is None


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    return make_plan(open_trip(trip(tmp_path_factory.mktemp("own"))), today=TODAY)


@pytest.mark.slow
def test_why_opens_the_pace_down_to_the_track(plan: Plan) -> None:
    first = "\n".join(why_told(plan, "trip/walkers/ben/pace_ms"))
    assert "trip/walkers/ben/own_pace/flat_ms" in first
    below = "\n".join(why_told(plan, "trip/walkers/ben/own_pace/flat_ms"))
    assert "your track of last-year.gpx" in below
    assert "Campbell" in below
    typed = why(plan, "trip/walkers/anna/mass_kg")
    assert typed.inputs["stated"].origin == "trip.toml:6"


def test_availability_that_is_left_out_says_for_whom_it_is() -> None:
    """The hand-built plan has none."""
    plan = sample_plan()
    name = plan.trip.walkers[0].id
    for tail in ("", "/likely_kcal_kg"):
        with pytest.raises(UnknownAddress, match="healthy adults and walks of up to seven days"):
            why(plan, f"consequence/{name}/availability{tail}")
    with pytest.raises(UnknownAddress, match="there is"):
        why(plan, "consequence/nobody/availability")


@pytest.mark.slow
def test_the_first_screen_names_the_track(plan: Plan) -> None:
    from oatsack.reports import render as report

    shown = " ".join(report(plan, "first", "terminal", width=80).decode().split())
    assert "4.0 km/h on the flat, from your track of last-year.gpx" in shown
    assert len(plan.assumptions) == 5


@pytest.mark.slow
def test_availability_opens_by_why_with_range_caution_and_source(plan: Plan) -> None:
    lines = "\n".join(why_told(plan, "consequence/ben/availability/likely_kcal_kg"))
    for said in ("Burke", "between", "no diagnosis", "weak for men", "professional"):
        assert said in lines
