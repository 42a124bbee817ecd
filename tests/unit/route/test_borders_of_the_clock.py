"""Where the day's clock turns: each limit of calendar and clock, just inside and just outside."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from oatsack.route import pace
from oatsack.route.calendar import Window, windows_of
from oatsack.route.clock import Hours, Laid, hours_of, lay, pauses_min
from oatsack.route.pieces import Gait, Piece, Walk
from oatsack.values.route import Stretch
from support.each import each
from support.trips import trip_of

FULL = Window(
    number=2, date=dt.date(2026, 6, 5), start_min=360.0, end_min=1800.0, walk_from_min=510.0,
    wake_min=360.0, night=True, share=1.0,
)  # fmt: skip


def steps(*minutes: float, **more: object) -> Walk:
    """A way in pieces that take so many minutes each at one metre a second."""
    pieces = tuple(
        Piece(distance_m=60.0 * one, grade_pct=0.0, height_m=100.0 * k, terrain=1.1, speed_ms=1.0)
        for k, one in enumerate(minutes)
    )
    fields = {"ascent_m": 0.0, "descent_m": 0.0, "highest_m": 900.0, "start_m": 900.0}
    return Walk(pieces=pieces, end_m=950.0, **(fields | more))  # type: ignore[arg-type]


def laid(walk: Walk, window: Window = FULL, lunch: float = 750.0) -> Laid:
    return lay(walk, window, Gait(pace.DEFAULT), hours_of(walk, window, lunch, 1110.0))


def spans(stretches: tuple[Stretch, ...], kind: str) -> list[tuple[float, float]]:
    return [(one.start_min, one.end_min) for one in stretches if one.kind == kind]


@each(
    ("end", "night"),
    [("02:59", False), ("03:00", True), ("05:59", True), ("00:30", False)],
)
def test_who_ends_three_hours_before_waking_or_later_has_slept_outside(
    end: str, night: bool
) -> None:
    (only,) = windows_of(trip_of("2026-06-05 12:00", f"2026-06-06 {end}"))
    assert only.night is night


def test_the_three_hours_are_counted_from_the_walkers_own_waking() -> None:
    for end, night in (("01:59", False), ("02:00", True)):
        trip = trip_of("2026-06-05 12:00", f"2026-06-06 {end}", start_clock_min=360.0)
        (only,) = windows_of(trip)  # walking at 06:00, so waking at 05:00
        assert only.night is night


def test_seconds_of_the_trips_begin_are_kept() -> None:
    trip = trip_of("2026-06-05 12:00:45", "2026-06-05 14:00:15")
    (only,) = windows_of(trip)
    assert (only.start_min, only.end_min) == (720.75, pytest.approx(840.25))


@each(
    ("start_clock", "dinner", "end", "share"),
    [
        (510.0, None, "18:30", 1.0),  # 10 hours to dinner at 18:30, which nobody has to say
        (510.0, None, "12:30", 0.4),
        (510.0, None, "18:00", 0.95),
        (1080.0, 1110.0, "18:30", 0.5),  # half an hour to dinner: a full day is an hour at least
        (1080.0, 1000.0, "18:30", 1.0),  # dinner before walking: all days share alike
    ],
)
def test_the_share_of_a_last_day(
    start_clock: float, dinner: float | None, end: str, share: float
) -> None:
    trip = trip_of("2026-06-05 06:00", f"2026-06-06 {end}", start_clock_min=start_clock)
    if dinner is not None:
        rules = dataclasses.replace(trip.rules, meal_clock_min={"dinner": dinner})
        trip = dataclasses.replace(trip, rules=rules)
    windows = windows_of(trip)
    if dinner == 1000.0:
        trip = dataclasses.replace(trip, begin=trip.end - dt.timedelta(minutes=30))
        windows = windows_of(trip)
    assert windows[-1].share == pytest.approx(share)


def test_days_outside_the_walking_hours_share_by_their_length() -> None:
    trip = trip_of("2026-06-05 20:00", "2026-06-06 07:00")
    first, last = windows_of(trip)
    assert (first.inside_min, last.inside_min) == (600.0, 60.0)
    assert (first.share, last.share) == (1.0, pytest.approx(0.1))


@each(
    ("walking", "lunch", "pauses"),
    [
        (59.0, 900.0, 0.0),
        (60.0, 900.0, 10.0),
        (119.0, 900.0, 10.0),
        (185.0, 900.0, 30.0),
        (185.0, 510.0, 30.0),  # lunch on setting out has been eaten
        (185.0, 511.0, 60.0),
        (185.0, 510.0 + 185.0 + 30.0 + 29.0, 60.0),  # reached with its own half hour
        (185.0, 510.0 + 185.0 + 30.0 + 30.0, 30.0),
    ],
)
def test_pauses_are_ten_minutes_a_full_hour_and_lunch_where_the_walk_spans_it(
    walking: float, lunch: float, pauses: float
) -> None:
    assert pauses_min(walking, 510.0, lunch) == pauses


@each(
    ("minutes", "rests"),
    [
        ((60.0, 20.0), [(570.0, 580.0)]),
        ((60.0, 19.0), []),  # so shortly before the end nobody stops
        ((59.0, 60.0, 30.0), [(629.0, 639.0)]),
        ((30.0, 30.0, 30.0), [(570.0, 580.0)]),
        ((60.0, 60.0, 60.0), [(570.0, 580.0), (640.0, 650.0)]),
        ((130.0, 130.0, 40.0), [(640.0, 650.0), (780.0, 810.0)]),
    ],
)
def test_a_pause_stands_before_the_piece_that_follows_an_hour(
    minutes: tuple[float, ...], rests: list[tuple[float, float]]
) -> None:
    day = laid(steps(*minutes))
    walks = spans(day.stretches, "walk")
    between = [one for one in spans(day.stretches, "rest") if walks[0][0] < one[0] < walks[-1][0]]
    assert between == rests


@each(
    ("lunch", "expected"),
    [
        (570.0, (570.0, 600.0)),  # at the joint itself
        (569.0, (570.0, 600.0)),
        (451.0, None),  # before setting out: taken
        (571.0, (660.0, 690.0)),
        (900.0, None),
    ],
)
def test_lunch_is_taken_at_the_first_joint_from_its_time_on(
    lunch: float, expected: tuple[float, float] | None
) -> None:
    day = laid(steps(60.0, 80.0, 30.0), lunch=lunch)
    long = [one for one in spans(day.stretches, "rest") if one[1] - one[0] == 30.0]
    assert long == ([] if expected is None else [expected])


def test_lunch_missed_by_two_hours_is_no_longer_lunch() -> None:
    for lunch, pause in ((600.0, 10.0), (601.0, 30.0)):
        day = laid(steps(210.0, 30.0), lunch=lunch)  # the first joint comes at 720
        (only,) = (one for one in spans(day.stretches, "rest") if one[0] == 720.0)
        assert only[1] - only[0] == pause, lunch


def test_a_pause_is_spent_at_the_height_of_the_piece_to_come() -> None:
    day = laid(steps(60.0, 60.0))
    (rest,) = (one for one in day.stretches if one.kind == "rest" and one.start_min == 570.0)
    assert rest.height_m == 100.0


def test_the_hours_of_camp_are_spent_at_the_first_piece_and_at_the_camp() -> None:
    day = laid(steps(60.0, 60.0))
    still = [one for one in day.stretches if one.kind in ("camp", "sleep")]
    assert [one.height_m for one in still] == [0.0, 950.0, 950.0, 950.0]


@each(
    ("night", "camp_h", "morning", "evening"),
    [(True, None, 60.0, 120.0), (True, 1.5, 30.0, 60.0), (False, None, 60.0, 0.0),
     (False, 2.0, 120.0, 0.0), (False, 4.0, 150.0, 90.0)],
)  # fmt: skip
def test_a_third_of_the_chores_is_done_in_the_morning_and_all_on_the_day_that_ends_at_home(
    night: bool, camp_h: float | None, morning: float, evening: float
) -> None:
    window = dataclasses.replace(FULL, night=night)
    hours = hours_of(steps(60.0, camp_h=camp_h), window, 750.0, 1110.0)
    assert (hours.morning_min, hours.evening_min) == (morning, evening)
    assert hours.dinner_min == (1110.0 if night else 0.0)


def test_bed_is_eight_hours_before_the_next_waking() -> None:
    early = dataclasses.replace(FULL, wake_min=300.0)
    assert hours_of(steps(60.0), early, 750.0, 1110.0).bed_min == 300.0 + 1440.0 - 480.0
    assert hours_of(steps(60.0, sleep_h=6.0), FULL, 750.0, 1110.0).bed_min == 1440.0


LAST = dataclasses.replace(FULL, number=3, end_min=900.0, night=False)


@each(
    ("walking", "number", "set_out", "short"),
    [
        # 390 minutes lie between 08:30 and 15:00.
        (300.0, 3, 510.0, 0.0),  # 50 minutes of pauses and lunch make 380
        (310.0, 3, 510.0, 0.0),  # exactly
        (330.0, 3, 490.0, 0.0),  # twenty minutes late, so twenty earlier
        (400.0, 3, 420.0, 0.0),  # not before packing at 07:00
        (480.0, 3, 420.0, 0.0),  # without pauses it fits exactly
        (500.0, 3, 420.0, 20.0),
        (500.0, 1, 400.0, 0.0),  # the first day needs no packing
    ],
)
def test_a_day_that_must_end_starts_earlier_then_drops_pauses_then_runs_short(
    walking: float, number: int, set_out: float, short: float
) -> None:
    count = round(walking / 10.0)
    window = dataclasses.replace(LAST, number=number, start_min=360.0)
    if number == 1:
        window = dataclasses.replace(window, start_min=400.0)
    day = laid(steps(*[10.0] * count), window)
    walks = spans(day.stretches, "walk")
    assert walks[0][0] == pytest.approx(set_out)
    assert day.short_min == pytest.approx(short)
    assert walks[-1][1] <= 900.0 + 1e-9


def test_a_day_with_a_night_never_starts_earlier() -> None:
    day = laid(steps(*[10.0] * 80))
    assert spans(day.stretches, "walk")[0][0] == 510.0
    assert day.short_min == 0.0


def test_a_place_after_a_pause_is_passed_after_it() -> None:
    day = laid(steps(60.0, 60.0))
    assert day.clock_at(3600.0) == 570.0
    # The pause lies before the second piece, spread over it as its clock has no finer marks.
    assert day.clock_at(7200.0) == pytest.approx(640.0)
    assert day.clock_at(5400.0) == pytest.approx(570.0 + 35.0)
    assert day.clock_at(9999.0) == pytest.approx(640.0)  # beyond the end


def test_every_minute_of_a_day_is_spent_once_and_in_order() -> None:
    for walk in (steps(), steps(45.0), steps(*[25.0] * 20), steps(*[25.0] * 40, camp_h=6.0)):
        for window in (FULL, LAST):
            day = laid(walk, window)
            at = window.start_min
            for one in day.stretches:
                assert one.start_min == pytest.approx(at)
                assert one.minutes > 0.0
                at = one.end_min
            assert at == pytest.approx(window.end_min)


def test_dinner_after_bedtime_moves_before_it() -> None:
    late = Hours(morning_min=60.0, evening_min=120.0, bed_min=1320.0, lunch_min=750.0,
                 dinner_min=1400.0)  # fmt: skip
    day = lay(steps(60.0), FULL, Gait(pace.DEFAULT), late)
    assert spans(day.stretches, "camp")[-1] == (1260.0, 1320.0)
    assert spans(day.stretches, "sleep") == [(1320.0, 1800.0)]


@each(
    ("start", "camp_h", "set_out"),
    [(360.0, None, 420.0), (360.0, 4.0, 420.0), (480.0, None, 510.0), (360.0, 0.3, 378.0)],
)
def test_an_earlier_start_leaves_an_hour_for_packing_or_what_the_chores_take(
    start: float, camp_h: float | None, set_out: float
) -> None:
    window = dataclasses.replace(LAST, start_min=start)
    day = laid(steps(*[10.0] * 60, camp_h=camp_h), window)
    assert spans(day.stretches, "walk")[0][0] == pytest.approx(set_out)


@each(("walking", "paused"), [(390.0, True), (391.0, False)])
def test_pauses_are_kept_while_they_fit_to_the_minute(walking: float, paused: bool) -> None:
    # From 07:00 to 15:00 are 480 minutes: 390 on foot, six pauses and lunch.
    walk = steps(*[10.0] * 38, walking - 380.0)
    day = laid(walk, LAST)
    walks = spans(day.stretches, "walk")
    still = [one for one in spans(day.stretches, "rest") if walks[0][0] < one[0] < walks[-1][0]]
    assert bool(still) is paused
    assert walks[0][0] == 420.0


def test_who_sets_out_at_lunchtime_has_eaten() -> None:
    for lunch, breaks in ((510.0, 0), (510.5, 1)):
        day = laid(steps(60.0, 60.0, 60.0), lunch=lunch)
        long = [one for one in spans(day.stretches, "rest") if one[1] - one[0] == 30.0]
        assert len(long) == breaks, lunch
