"""Which days a walk has, and which of their minutes (C4)."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from oatsack.route.calendar import Window, windows_of
from support.each import each
from support.trips import at, trip_of


def windows(begin: str, end: str, **route: object) -> tuple[Window, ...]:
    return windows_of(trip_of(begin, end, **route))


def test_a_weekend_has_three_days_and_two_nights() -> None:
    friday, saturday, sunday = windows("2026-06-05 15:00", "2026-06-07 13:00")
    assert (friday.start_min, friday.end_min) == (900.0, 1800.0)
    assert (saturday.start_min, saturday.end_min) == (360.0, 1800.0)
    assert (sunday.start_min, sunday.end_min) == (360.0, 780.0)
    assert [w.night for w in (friday, saturday, sunday)] == [True, True, False]
    assert [w.date.day for w in (friday, saturday, sunday)] == [5, 6, 7]
    assert [w.number for w in (friday, saturday, sunday)] == [1, 2, 3]


def test_the_first_day_is_walked_from_its_begin_and_others_from_the_start_clock() -> None:
    first, second, last = windows("2026-06-05 10:20", "2026-06-07 13:00")
    assert first.walk_from_min == 620.0
    assert second.walk_from_min == last.walk_from_min == 510.0


def test_a_day_that_begins_before_waking_begins_there_all_the_same() -> None:
    (only,) = windows("2026-06-05 03:30", "2026-06-05 18:00")
    assert (only.start_min, only.walk_from_min, only.end_min) == (210.0, 210.0, 1080.0)


def test_an_early_start_wakes_an_hour_before() -> None:
    first, second = windows("2026-06-05 12:00", "2026-06-06 12:00", start_clock_min=240.0)
    assert second.start_min == 180.0
    assert first.end_min == 1440.0 + 180.0


def test_ending_before_waking_belongs_to_the_day_before() -> None:
    days = windows("2026-06-05 12:00", "2026-06-06 05:00")
    assert len(days) == 1
    assert days[0].end_min == 1740.0
    assert days[0].night


def test_ending_late_in_the_evening_is_no_night() -> None:
    (only,) = windows("2026-06-05 12:00", "2026-06-05 23:30")
    assert not only.night


def test_a_walk_without_a_minute_has_no_day() -> None:
    assert windows("2026-06-05 12:00", "2026-06-05 12:00") == ()


@each(
    ("end", "share"),
    [("2026-06-06 18:30", 1.0), ("2026-06-06 13:30", 0.5), ("2026-06-06 08:00", 0.0),
     ("2026-06-06 21:00", 1.0)],
)  # fmt: skip
def test_the_share_of_a_last_day_is_its_walking_hours_over_those_of_a_full_one(
    end: str, share: float
) -> None:
    """From 08:30 to dinner at 18:30 are ten hours."""
    assert windows("2026-06-05 08:30", end)[-1].share == pytest.approx(share)


@each(
    ("begin", "share"), [("08:30", 1.0), ("06:00", 1.0), ("13:30", 0.5), ("18:30", 0.0)]
)
def test_the_share_of_a_first_day_falls_with_its_begin(begin: str, share: float) -> None:
    first = windows(f"2026-06-05 {begin}", "2026-06-07 18:30")[0]
    assert first.share == pytest.approx(share)


def test_another_dinner_time_is_another_full_day() -> None:
    trip = trip_of("2026-06-05 08:30", "2026-06-06 13:30")
    rules = dataclasses.replace(trip.rules, meal_clock_min={"dinner": 1230.0})
    assert windows_of(dataclasses.replace(trip, rules=rules))[-1].share == pytest.approx(300 / 720)


def test_a_walk_wholly_in_the_evening_still_has_a_share() -> None:
    (only,) = windows("2026-06-05 19:00", "2026-06-05 22:00")
    assert only.share == 1.0


@each(
    ("begin", "end", "minutes"),
    [
        ("2026-03-28 12:00", "2026-03-30 12:00", 47 * 60),  # a spring night
        ("2026-10-24 12:00", "2026-10-26 12:00", 49 * 60),  # an autumn night
        ("2026-06-05 12:00", "2026-06-07 12:00", 48 * 60),
    ],
)
def test_days_hold_the_hours_that_really_pass(begin: str, end: str, minutes: float) -> None:
    assert sum(w.inside_min for w in windows(begin, end)) == pytest.approx(minutes)


def test_the_wall_clock_is_right_again_on_the_morning_after_a_change() -> None:
    for night in ("2026-03-28", "2026-10-24"):
        first = dt.date.fromisoformat(night)
        days = windows(f"{night} 09:00", f"{first + dt.timedelta(days=2)} 15:00")
        assert [w.start_min for w in days] == [540.0, 360.0, 360.0]
        assert days[-1].end_min == 900.0


def test_a_walk_in_another_zone_than_its_clock_was_typed_in_keeps_its_own_zone() -> None:
    """The trip's zone rules: noon in Vienna is 10:00 on the Azores in June."""
    trip = trip_of("2026-06-05 12:00", "2026-06-06 12:00")
    moved = dataclasses.replace(trip, zone="Atlantic/Azores")
    first, last = windows_of(moved)
    assert first.start_min == 600.0
    assert last.end_min == 600.0


def test_crossing_the_date_line_of_a_zone_with_half_hours_is_no_trouble() -> None:
    trip = trip_of("2026-06-05 12:00", "2026-06-07 12:00", zone="Australia/Lord_Howe")
    assert sum(w.inside_min for w in windows_of(trip)) == 48 * 60.0


def test_a_night_across_a_half_hour_change_is_half_an_hour_longer() -> None:
    """Lord Howe Island moves its clocks by thirty minutes, on 5 April 2026."""
    trip = trip_of("2026-04-04 12:00", "2026-04-06 12:00", zone="Australia/Lord_Howe")
    days = windows_of(trip)
    assert days[0].end_min == 1800.0 + 30.0
    assert sum(w.inside_min for w in days) == pytest.approx(
        (trip.end.timestamp() - trip.begin.timestamp()) / 60.0
    )


def test_begin_and_end_may_be_given_as_universal_time() -> None:
    trip = trip_of("2026-06-05 12:00", "2026-06-06 12:00")
    same = dataclasses.replace(
        trip,
        begin=at("2026-06-05 12:00").astimezone(dt.UTC),
        end=at("2026-06-06 12:00").astimezone(dt.UTC),
    )
    assert windows_of(same) == windows_of(trip)


def test_a_year_of_days_is_counted_to_the_last() -> None:
    days = windows("2026-01-01 08:00", "2026-12-31 16:00")
    assert len(days) == 365
    assert [w.number for w in days] == list(range(1, 366))
