"""Days typed by hand, the usual day, and the clock they are laid on."""

from __future__ import annotations

import dataclasses

import pytest

from oatsack.errors import TripFileError, UsageError
from oatsack.route.days import days_of
from oatsack.route.flags import flags_of
from oatsack.values.route import Day
from oatsack.values.trip import HandDay, HandStretch, HandWater, Trip
from support.each import each
from support.trips import USUAL, at, trip_of


def hours(day: Day, kind: str) -> float:
    return sum(s.minutes for s in day.stretches if s.kind == kind) / 60.0


def gapless(day: Day) -> bool:
    pairs = zip(day.stretches, day.stretches[1:], strict=False)
    return all(a.end_min == pytest.approx(b.start_min, abs=1e-6) for a, b in pairs)


def long_weekend(**route: object) -> Trip:
    return trip_of("2026-06-04 09:00", "2026-06-07 15:00", **route)


INTEGRATION = HandDay(
    camp_h=3.0,
    stretches=(
        HandStretch(distance_m=8000.0, grade_pct=10.0, speed_ms=3.0 / 3.6),
        HandStretch(distance_m=8000.0, grade_pct=-10.0, speed_ms=4.0 / 3.6),
        HandStretch(distance_m=4000.0, speed_ms=4.5 / 3.6),
    ),
)


def test_explicit_stretches_keep_their_slopes_speeds_and_hours() -> None:
    """A day of 5.5556 h walking, 3 h of chores and 8 h of sleep leaves 7.4444 h of sitting."""
    (day,) = days_of(trip_of("2026-06-01 06:00", "2026-06-02 06:00", hand_days=(INTEGRATION,)))
    assert day.walking_min / 60.0 == pytest.approx(8 / 3 + 8 / 4 + 4 / 4.5)
    assert (hours(day, "camp"), hours(day, "sleep")) == (pytest.approx(3.0), pytest.approx(8.0))
    assert hours(day, "rest") == pytest.approx(24 - 11 - (8 / 3 + 2 + 4 / 4.5))
    walked = [s for s in day.stretches if s.kind == "walk"]
    pairs = {(round(s.grade_pct), round(s.speed_ms * 3.6, 3)) for s in walked}
    assert pairs == {(10, 3.0), (-10, 4.0), (0, 4.5)}
    assert (day.ascent_m, day.descent_m, day.highest_m) == (800.0, 800.0, 1300.0)


def test_totals_alone_are_walked_at_the_assumed_slope() -> None:
    (day,) = days_of(
        trip_of(
            "2026-06-01 06:00", "2026-06-02 06:00",
            hand_days=(HandDay(distance_m=20_000.0, ascent_m=800.0, descent_m=800.0),),
        )
    )  # fmt: skip
    by_grade: dict[int, float] = {}
    for one in day.stretches:
        if one.kind == "walk":
            key = round(one.grade_pct)
            by_grade[key] = by_grade.get(key, 0.0) + one.distance_m
    assert by_grade == {
        0: pytest.approx(4000.0),
        10: pytest.approx(8000.0),
        -10: pytest.approx(8000.0),
    }
    assert day.by_hand


def test_a_climb_too_long_for_ten_percent_is_walked_steeper() -> None:
    (day,) = days_of(
        trip_of(
            "2026-06-01 06:00", "2026-06-02 06:00",
            hand_days=(HandDay(distance_m=5000.0, ascent_m=1000.0),),
        )
    )  # fmt: skip
    assert {round(s.grade_pct, 6) for s in day.stretches if s.kind == "walk"} == {20.0}
    assert day.distance_m == pytest.approx(5000.0)


def test_the_usual_day_is_walked_on_every_full_day_and_shared_on_part_days() -> None:
    days = days_of(long_weekend(usual_day=USUAL))
    assert [round(d.distance_m) for d in days] == [15200, 16000, 16000, 10400]
    assert days[3].ascent_m / days[3].distance_m == pytest.approx(700 / 16000)
    assert [d.camp_m is None for d in days] == [False, False, False, True]


def test_only_hours_inside_the_walk_count_and_none_is_missing() -> None:
    trip = long_weekend(usual_day=USUAL)
    days = days_of(trip)
    assert sum(d.inside_min for d in days) == pytest.approx(
        (trip.end - trip.begin).total_seconds() / 60
    )
    assert all(gapless(d) for d in days)
    assert days[0].stretches[0].kind == "walk"
    assert days[0].stretches[0].start_min == 540.0
    assert days[-1].stretches[-1].end_min == 900.0


@each(
    ("begin", "end", "night_h"),
    [("2026-03-28 09:00", "2026-03-30 15:00", 7.0), ("2026-10-24 09:00", "2026-10-26 15:00", 9.0)],
)
def test_a_change_of_clocks_lengthens_or_shortens_a_night_and_loses_no_hour(
    begin: str, end: str, night_h: float
) -> None:
    trip = trip_of(begin, end, usual_day=USUAL)
    days = days_of(trip)
    real = (at(end).timestamp() - at(begin).timestamp()) / 60.0
    assert sum(d.inside_min for d in days) == pytest.approx(real)
    assert hours(days[0], "sleep") == pytest.approx(night_h)
    assert hours(days[1], "sleep") == pytest.approx(8.0)
    assert days[1].stretches[0].start_min == 360.0  # waking at six by the new wall clock


def test_a_typed_day_may_say_its_chores_and_its_sleep() -> None:
    typed = dataclasses.replace(USUAL, camp_h=3.5, sleep_h=9.0)
    days = days_of(long_weekend(hand_days=(typed,) * 4))
    assert [hours(d, "camp") for d in days] == [pytest.approx(3.5)] * 4
    assert [hours(d, "sleep") for d in days[:3]] == [pytest.approx(9.0)] * 3


def test_a_day_of_rest_has_chores_and_sleep_and_no_walking() -> None:
    days = days_of(long_weekend(hand_days=(USUAL, HandDay(), USUAL, USUAL)))
    assert days[1].walking_min == 0.0
    assert hours(days[1], "camp") == pytest.approx(3.0)
    assert days[1].camp_m == pytest.approx(days[0].camp_m)


def test_the_camps_height_cools_the_air_by_the_lapse_rate() -> None:
    typed = HandDay(distance_m=9000.0, ascent_m=1000.0, camp_m=1500.0)
    days = days_of(
        trip_of("2026-06-04 09:00", "2026-06-05 15:00", hand_days=(typed, USUAL), cold_c=6.0)
    )
    assert days[0].cold_c == pytest.approx(-0.5)
    assert days[0].warm_c == pytest.approx(11.5)
    assert days[1].cold_c == pytest.approx(-0.5)  # breakfast is cooked where one slept


def test_too_few_and_too_many_typed_days_are_refused_with_the_count() -> None:
    for count in (3, 5):
        with pytest.raises(TripFileError) as caught:
            days_of(long_weekend(hand_days=(USUAL,) * count))
        (fault,) = caught.value.faults
        assert fault.path == "route.days"
        assert str(count) in fault.read
        assert "4 days" in fault.wrong


def test_no_way_at_all_is_refused() -> None:
    with pytest.raises(TripFileError, match="no way is given"):
        days_of(long_weekend())


def test_an_unknown_walking_time_rule_is_refused_by_name() -> None:
    with pytest.raises(UsageError, match="campbell-2022"):
        days_of(long_weekend(usual_day=USUAL, pace_model="campbel"))


def test_the_slowest_stated_pace_is_the_partys() -> None:
    quick = days_of(long_weekend(usual_day=USUAL, flat_speed_ms=1.4))[1]
    trip = long_weekend(usual_day=USUAL, flat_speed_ms=1.4)
    slow_walker = dataclasses.replace(trip.walkers[0], id="bo", pace_ms=0.7)
    slow = days_of(dataclasses.replace(trip, walkers=(*trip.walkers, slow_walker)))[1]
    assert slow.walking_min == pytest.approx(2 * quick.walking_min)


def test_water_is_passed_at_its_clock() -> None:
    typed = dataclasses.replace(
        USUAL, water=(HandWater(name="Ford", at_min=700.0, distance_m=8000.0),)
    )
    day = days_of(long_weekend(hand_days=(typed,) * 4))[1]
    assert day.water[0].at_min == 700.0


def test_legs_turn_after_a_place_where_food_is_taken_on() -> None:
    camp = dataclasses.replace(USUAL, camp_name="Mill")
    days = days_of(long_weekend(hand_days=(USUAL, camp, USUAL, USUAL), leg_ends=("Mill",)))
    assert [d.leg for d in days] == [1, 1, 2, 2]


def test_a_last_day_that_cannot_end_in_time_starts_earlier_and_says_what_is_missing() -> None:
    typed = (USUAL, dataclasses.replace(USUAL, distance_m=45_000.0))
    trip = trip_of("2026-06-04 09:00", "2026-06-05 12:00", hand_days=typed)
    days = days_of(trip)
    assert days[1].distance_m == pytest.approx(45_000.0)
    assert days[1].stretches[-1].end_min == pytest.approx(720.0)
    assert days[1].short_min > 300.0
    keys = [flag.key for flag in flags_of(days, trip)]
    assert "route.too-long" in keys
    assert "route.early-start" in keys


def test_walking_past_sunset_is_flagged_where_the_light_is_known() -> None:
    trip = trip_of(
        "2026-12-04 09:00", "2026-12-06 12:00",
        usual_day=dataclasses.replace(USUAL, distance_m=32_000.0),
    )  # fmt: skip
    light = {d.date: (450.0, 960.0) for d in days_of(trip)}
    days = days_of(trip, daylight=light)
    dark = [flag for flag in flags_of(days, trip) if flag.key == "route.after-dark"]
    assert [flag.scope for flag in dark] == ["days/1", "days/2"]
    assert days[0].daylight_min == (450.0, 960.0)
    assert not [f for f in flags_of(days_of(trip), trip) if f.key == "route.after-dark"]


def test_a_last_day_that_ends_before_setting_out_has_no_hour_too_many() -> None:
    """Found by the property of the clock: ending at 06:30, before the start at 08:30."""
    days = days_of(trip_of("2026-06-04 09:00", "2026-06-06 06:30", usual_day=USUAL))
    assert days[2].inside_min == pytest.approx(30.0)
    assert days[2].distance_m == 0.0
