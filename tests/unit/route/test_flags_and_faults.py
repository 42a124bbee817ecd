"""What the route has to say, and how it refuses."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from oatsack.reports.words import sentences
from oatsack.route.faults import fault, nearest, refuse
from oatsack.route.flags import HIGH_M, LEAST_DARK_MIN, LONG_MIN, STEEP_PCT, flags_of
from oatsack.values.route import Day, Stretch
from support.trips import trip_of

TRIP = trip_of("2026-06-04 09:00", "2026-06-06 15:00")


def a_day(number: int = 2, *, start: float = 510.0, hours: float = 5.0, grade: float = 0.0,
          **more: object) -> Day:  # fmt: skip
    walk = Stretch(
        kind="walk", start_min=start, end_min=start + 60.0 * hours, distance_m=15_000.0,
        grade_pct=grade,
    )  # fmt: skip
    fields = {
        "date": dt.date(2026, 6, 5), "stretches": (walk,), "distance_m": 15_000.0,
        "ascent_m": 500.0, "descent_m": 500.0, "highest_m": 1200.0, "camp_m": 900.0,
    }  # fmt: skip
    return Day(number=number, **(fields | more))  # type: ignore[arg-type]


def keys(day: Day) -> list[str]:
    return [flag.key for flag in flags_of([day], TRIP)]


def test_an_ordinary_day_has_nothing_to_say() -> None:
    assert keys(a_day(daylight_min=(300.0, 1260.0))) == []


def test_more_walking_than_the_day_holds_is_a_caution() -> None:
    (flag,) = flags_of([a_day(short_min=75.0)], TRIP)
    assert (flag.key, flag.level, flag.scope) == ("route.too-long", "caution", "days/2")
    assert flag.values["short_min"] == 75.0


def test_a_long_day_is_one_quiet_line_and_not_said_twice() -> None:
    long = LONG_MIN / 60.0 + 0.5
    assert keys(a_day(hours=long)) == ["route.long-day"]
    assert keys(a_day(hours=long, short_min=30.0)) == ["route.too-long"]
    assert keys(a_day(hours=LONG_MIN / 60.0)) == []


def test_darkness_counts_at_both_ends_of_the_day() -> None:
    day = a_day(start=360.0, hours=8.0, number=1, daylight_min=(400.0, 800.0))
    (flag,) = flags_of([day], TRIP)
    assert flag.key == "route.after-dark"
    assert flag.values["dark_min"] == pytest.approx(80.0)
    assert flag.values["arrive_min"] == 840.0


def test_a_few_minutes_of_dusk_are_not_worth_a_word() -> None:
    assert keys(a_day(daylight_min=(510.0 + LEAST_DARK_MIN - 1.0, 1200.0))) == []
    assert keys(a_day(daylight_min=(510.0 + LEAST_DARK_MIN, 1200.0))) == ["route.after-dark"]


def test_polar_night_makes_all_walking_dark() -> None:
    (flag,) = flags_of([a_day(daylight_min=(720.0, 720.0))], TRIP)
    assert flag.values["dark_min"] == pytest.approx(300.0)


def test_without_daylight_nothing_is_said_of_darkness() -> None:
    assert keys(a_day(start=1200.0, hours=4.0)) == []


def test_setting_out_earlier_than_wished_is_told_except_on_the_first_day() -> None:
    assert keys(a_day(start=420.0)) == ["route.early-start"]
    assert keys(a_day(number=1, start=420.0)) == []


def test_height_is_told_above_the_threshold_only() -> None:
    assert keys(a_day(highest_m=HIGH_M)) == []
    assert keys(a_day(highest_m=HIGH_M + 1.0)) == ["route.high"]


def test_steep_ground_is_told_both_ways() -> None:
    assert keys(a_day(grade=STEEP_PCT + 1.0)) == ["route.steep"]
    assert keys(a_day(grade=-STEEP_PCT - 1.0)) == ["route.steep"]
    assert keys(a_day(grade=STEEP_PCT)) == []


def test_a_typed_day_is_noted_and_a_typed_day_of_rest_is_not() -> None:
    assert keys(a_day(by_hand=True)) == ["route.by-hand"]
    rest = a_day(by_hand=True, distance_m=0.0, stretches=())
    assert keys(rest) == []


def test_flags_come_in_the_order_of_days() -> None:
    days = [a_day(n, highest_m=HIGH_M + 1.0) for n in (1, 2, 3)]
    assert [flag.scope for flag in flags_of(days, TRIP)] == ["days/1", "days/2", "days/3"]


def test_every_flag_of_the_route_has_a_sentence_that_reads_its_values() -> None:
    from oatsack.reports.words import Voice

    voice = Voice(days={"2": "Fri 5"})
    loud = a_day(
        start=300.0, hours=11.0, grade=44.0, highest_m=3000.0, by_hand=True,
        daylight_min=(330.0, 900.0),
    )  # fmt: skip
    flags = [*flags_of([loud], TRIP), *flags_of([a_day(short_min=61.0)], TRIP)]
    assert len({flag.key for flag in flags}) == 7
    assert {f"flags.{flag.key}" for flag in flags} <= set(sentences())
    for flag in flags:
        said = voice.flag(flag)
        assert ("Fri 5" in said) != (flag.key == "route.by-hand"), said
        assert "{" not in said


def test_the_nearest_name_is_offered_whatever_its_case() -> None:
    assert nearest("hihg tarn", ["Fold", "High Tarn"]) == "did you mean 'High Tarn'?"


def test_where_no_name_is_near_all_are_listed() -> None:
    assert nearest("xyz", ["Fold", "Mill"]) == "known: 'Fold', 'Mill'"
    assert nearest("xyz", []) == "none are known"


def test_a_fault_stands_where_its_value_or_its_list_stands() -> None:
    origins = {"route.camps": ("a.toml", 7), "route.camps[1]": ("a.toml", 9)}
    trip = dataclasses.replace(TRIP, origins=origins)
    own = fault(trip, "route.camps[1]", "unknown", read="'x'", instead="y")
    list_ = fault(trip, "route.camps[0]", "unknown", read="'x'", instead="y")
    assert (own.file, own.line) == ("a.toml", 9)
    assert (list_.file, list_.line) == ("a.toml", 7)


def test_a_fault_without_a_file_still_says_its_path() -> None:
    error = refuse(TRIP, "route", "no way is given", read="nothing", instead="type it")
    assert str(error).startswith("the trip: route: no way is given, got nothing")
    assert error.faults[0].line == 0


def test_many_typed_days_are_one_remark() -> None:
    """A walk of forty typed days said the same sentence forty times."""
    walked = [a_day(by_hand=True), a_day(), a_day(by_hand=True),
              a_day(by_hand=True, distance_m=0.0, stretches=())]  # fmt: skip
    found = [f for f in flags_of(walked, TRIP) if f.key == "route.by-hand"]
    assert [(f.scope, dict(f.values)) for f in found] == [("", {"days": 2})]
