"""A walk on the clock: pauses, chores, rest and sleep."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from oatsack.route import pace
from oatsack.route.calendar import Window
from oatsack.route.clock import Laid, hours_of, lay, pauses_min
from oatsack.route.pieces import Gait, Piece, Walk
from oatsack.values.route import Stretch
from support.each import each

FULL = Window(
    number=2, date=dt.date(2026, 6, 5), start_min=360.0, end_min=1800.0, walk_from_min=510.0,
    wake_min=360.0, night=True, share=1.0,
)  # fmt: skip
FIRST = dataclasses.replace(FULL, number=1, start_min=600.0, walk_from_min=600.0)
LAST = dataclasses.replace(FULL, number=3, end_min=900.0, night=False)


def a_walk(minutes: float, *, parts: int = 40, **more: object) -> Walk:
    """A level way that takes so many minutes at one metre a second."""
    each = minutes * 60.0 / parts
    piece = Piece(distance_m=each, grade_pct=0.0, height_m=900.0, terrain=1.1, speed_ms=1.0)
    fields = {"ascent_m": 0.0, "descent_m": 0.0, "highest_m": 900.0, "start_m": 900.0}
    pieces = (piece,) * (parts if minutes else 0)
    return Walk(pieces=pieces, end_m=950.0, **(fields | more))  # type: ignore[arg-type]


def laid(minutes: float, window: Window = FULL, **more: object) -> Laid:
    walk = a_walk(minutes, **more)
    hours = hours_of(walk, window, 750.0, 1110.0)
    return lay(walk, window, Gait(pace.DEFAULT), hours)


def of_kind(day: Laid, kind: str) -> list[Stretch]:
    return [stretch for stretch in day.stretches if stretch.kind == kind]


def total(day: Laid, kind: str) -> float:
    return sum(stretch.minutes for stretch in of_kind(day, kind))


def breaks(day: Laid) -> list[float]:
    """Pauses between the first and the last step of the day."""
    walks = of_kind(day, "walk")
    return [
        stretch.minutes
        for stretch in of_kind(day, "rest")
        if walks[0].start_min < stretch.start_min < walks[-1].start_min
    ]


def test_walking_sets_out_at_the_start_clock() -> None:
    assert of_kind(laid(200.0), "walk")[0].start_min == 510.0


def test_a_pause_of_ten_minutes_follows_an_hour_on_foot() -> None:
    assert breaks(laid(200.0)) == [10.0, 10.0, 10.0]


def test_lunch_is_half_an_hour_and_comes_once() -> None:
    pauses = breaks(laid(400.0))
    assert sorted(pauses, reverse=True)[:2] == [30.0, 10.0]
    assert pauses.count(30.0) == 1
    day = laid(400.0)
    lunch = next(s for s in of_kind(day, "rest") if s.minutes == pytest.approx(30.0))
    assert 750.0 <= lunch.start_min < 765.0


def test_there_is_no_pause_just_before_arriving() -> None:
    assert breaks(laid(75.0)) == []


def test_who_sets_out_after_lunch_has_no_second_one() -> None:
    late = dataclasses.replace(FIRST, start_min=760.0, walk_from_min=760.0)
    assert 30.0 not in breaks(laid(250.0, late))


@each("minutes", [30.0, 130.0, 260.0, 400.0, 555.0])
def test_pauses_never_take_more_than_was_reckoned(minutes: float) -> None:
    day = laid(minutes)
    assert sum(breaks(day)) <= pauses_min(minutes, 510.0, 750.0) + 1e-9


def test_a_full_day_has_three_hours_of_chores_and_eight_of_sleep() -> None:
    day = laid(300.0)
    assert total(day, "camp") == pytest.approx(180.0)
    assert total(day, "sleep") == pytest.approx(480.0)
    assert of_kind(day, "sleep")[0].start_min == 1320.0
    assert total(day, "rest") == pytest.approx(1440.0 - 180.0 - 480.0 - 300.0)


def test_one_hour_of_chores_comes_just_before_setting_out() -> None:
    first = of_kind(laid(300.0), "camp")[0]
    assert (first.start_min, first.end_min) == (450.0, 510.0)


def test_evening_chores_are_half_on_arriving_and_half_about_dinner() -> None:
    day = laid(300.0)
    arrived = of_kind(day, "walk")[-1].end_min
    evening = of_kind(day, "camp")[1:]
    assert [(s.start_min, s.minutes) for s in evening] == [
        (pytest.approx(arrived), pytest.approx(60.0)),
        (1110.0, pytest.approx(60.0)),
    ]


def test_arriving_late_cooks_at_once_and_goes_to_bed_later() -> None:
    day = laid(760.0)
    arrived = of_kind(day, "walk")[-1].end_min
    assert arrived > 1320.0
    assert of_kind(day, "sleep")[0].start_min == pytest.approx(arrived + 120.0)
    assert day.stretches[-1].end_min == 1800.0


def test_the_first_day_has_all_its_chores_in_the_evening() -> None:
    day = laid(200.0, FIRST)
    assert day.stretches[0].kind == "walk"
    assert total(day, "camp") == pytest.approx(180.0)


def test_the_last_day_has_one_hour_of_chores_before_and_none_after() -> None:
    day = laid(200.0, LAST)
    assert total(day, "camp") == pytest.approx(60.0)
    assert of_kind(day, "camp")[0].end_min == 510.0
    assert of_kind(day, "sleep") == []
    assert day.stretches[-1].end_min == 900.0


def test_a_last_day_with_too_much_way_starts_earlier_but_not_before_packing() -> None:
    day = laid(380.0, LAST)
    walks = of_kind(day, "walk")
    assert walks[0].start_min == pytest.approx(900.0 - 380.0 - pauses_min(380.0, 510.0, 750.0))
    assert walks[-1].end_min <= 900.0
    assert day.short_min == 0.0
    earliest = laid(600.0, LAST)
    assert of_kind(earliest, "walk")[0].start_min == 420.0


def test_what_does_not_fit_is_told_and_the_distance_is_kept() -> None:
    day = laid(600.0, LAST)
    assert day.short_min == pytest.approx(600.0 - 480.0)
    assert breaks(day) == []
    assert sum(s.distance_m for s in of_kind(day, "walk")) == pytest.approx(36_000.0)
    assert of_kind(day, "walk")[0].speed_ms == pytest.approx(600.0 / 480.0)


def test_a_day_of_rest_has_chores_in_the_morning_and_evening() -> None:
    day = laid(0.0)
    assert total(day, "walk") == 0.0
    assert total(day, "camp") == pytest.approx(180.0)
    assert total(day, "sleep") == pytest.approx(480.0)


def test_typed_chores_and_sleep_are_kept() -> None:
    day = laid(300.0, camp_h=4.5, sleep_h=6.5)
    assert total(day, "camp") == pytest.approx(270.0)
    assert total(day, "sleep") == pytest.approx(390.0)


def test_typed_chores_on_a_last_day_follow_the_walk_where_the_morning_is_full() -> None:
    day = laid(120.0, LAST, camp_h=4.0)
    assert total(day, "camp") == pytest.approx(240.0)
    assert of_kind(day, "camp")[0].minutes == pytest.approx(150.0)


def test_nobody_sleeps_longer_than_the_day_is_inside_the_walk() -> None:
    short = dataclasses.replace(FULL, end_min=1380.0, night=False)
    assert total(laid(100.0, short), "sleep") == pytest.approx(60.0)


def test_a_place_is_passed_at_its_share_of_the_piece() -> None:
    day = laid(50.0)
    assert day.clock_at(0.0) == 510.0
    assert day.clock_at(1500.0) == pytest.approx(535.0)
    assert day.clock_at(3000.0) == pytest.approx(560.0)
    assert day.clock_at(9999.0) == pytest.approx(560.0)


def test_a_place_behind_a_pause_is_passed_after_it() -> None:
    day = laid(200.0)
    assert day.clock_at(4000.0) == pytest.approx(510.0 + 4000.0 / 60.0 + 10.0)


@each("window", [FULL, FIRST, LAST])
@each("minutes", [0.0, 45.0, 300.0, 700.0, 1500.0])
def test_every_minute_of_the_window_is_told_once(window: Window, minutes: float) -> None:
    day = laid(minutes, window)
    assert day.stretches[0].start_min == window.start_min
    assert day.stretches[-1].end_min == pytest.approx(window.end_min)
    assert sum(s.minutes for s in day.stretches) == pytest.approx(window.inside_min)
