"""The first screen: at most 30 lines at 60 columns or more, and what is asked to be on it."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from oatsack.reports import render
from oatsack.reports.contents.first_screen import _dishes, clip
from oatsack.reports.telling import telling
from oatsack.values.flags import Flag
from oatsack.values.plan import Plan
from support.each import each
from support.sample_plan import sample_plan

SIZES = [
    {"walkers": 1, "days": 2}, {"walkers": 1, "days": 7}, {"walkers": 2, "days": 3},
    {"walkers": 2, "days": 7}, {"walkers": 2, "days": 14, "legs": 2}, {"walkers": 3, "days": 5},
    {"walkers": 12, "days": 8}, {"walkers": 12, "days": 14, "long_names": True},
]  # fmt: skip


def first(plan: Plan, width: int = 80) -> list[str]:
    return render(plan, "first", "text", width=width).decode().splitlines()


@pytest.mark.slow
@each("units", ["metric", "us"])
@each("size", SIZES, ids=str)
@each("width", [60, 72, 80, 120])
def test_it_has_at_most_30_lines_that_fit(width: int, size: dict[str, int], units: str) -> None:
    lines = first(sample_plan(units=units, **size), width)
    assert len(lines) <= 30
    assert max(map(len, lines)) <= width


def test_loud_flags_never_push_it_over_30_lines() -> None:
    plan = sample_plan(walkers=2, days=7, long_names=True)
    loud = tuple(
        Flag(key=f"made.up.{n}", level="caution", values={"text": "a longer word " * 12})
        for n in range(6)
    )
    for width in (60, 72, 80, 120):
        lines = first(replace(plan, flags=loud), width)
        assert len(lines) <= 30
        assert sum("ade.up" in line for line in lines) == 2


def test_a_narrow_screen_says_all_that_a_wide_one_says_in_fewer_words() -> None:
    plan = sample_plan(walkers=2, days=7)
    narrow, wide = "\n".join(first(plan, 60)), "\n".join(first(plan, 120))
    for label in ("to buy", "open bags", "weighs", "container", "cooking", "rubbish", "uses, eats",
                  "we assumed", "ask next"):  # fmt: skip
        assert label in narrow and label in wide
    for walker in ("Anna: ", "Ben: "):  # the neutral line of each keeps its range (C11)
        line = re.search(walker + r"about [\d,]+ of [\d,]+ kcal a day \([\d,]+ to [\d,]+\)",
                         " ".join(narrow.split()))  # fmt: skip
        assert line, narrow
    assert "up 750 m" in wide and "up 750 m" not in narrow  # a day's line has its dish instead
    assert "more" in narrow.split("to buy")[1].split("open bags")[0]


def test_it_says_days_shopping_bags_mass_water_fuel_rubbish_need_and_what_to_ask() -> None:
    text = "\n".join(first(sample_plan()))
    for day in ("Thu 10", "Fri 11", "Sat 12"):
        assert day in text
    for word in ("3 × Fruit and seed bar", "nibble", "3.2 kg", "6.3 l", "one can of 230 g", "135 g",
                 "a full day uses about", "85 %", "more · less · swap"):  # fmt: skip
        assert word in text


def test_a_block_flag_comes_first() -> None:
    plan = sample_plan()
    flags = (Flag(key="made.b", level="caution"), Flag(key="made.a", level="block"))
    text = "\n".join(first(replace(plan, flags=flags)))
    assert text.index("Made.a") < text.index("Made.b") < text.index("to buy")


def test_a_quiet_flag_does_not_show_on_the_first_screen() -> None:
    assert "sample" not in "\n".join(first(sample_plan())).lower()


def test_no_shortfall_is_spoken_of_to_the_young_or_pregnant() -> None:
    plan = sample_plan()
    young, grown = plan.trip.walkers
    trip = replace(plan.trip, walkers=(replace(young, age_years=9.0), grown))
    text = "\n".join(first(replace(plan, trip=trip)))
    assert "Anna: full food" in text
    assert "Anna: you chose" not in text and "Ben: you chose" in text


def test_without_a_stove_it_says_that_nothing_is_heated() -> None:
    plan = sample_plan()
    cold = replace(plan, kitchen=replace(plan.kitchen, fuel=None))
    assert "nothing is heated" in "\n".join(first(cold))


def test_without_a_container_no_line_speaks_of_one() -> None:
    plan = sample_plan()
    trip = replace(plan.trip, kit=replace(plan.trip.kit, containers=()))
    assert "container" not in "\n".join(first(replace(plan, trip=trip)))


def test_one_artefact_never_mixes_units() -> None:
    us = "\n".join(first(sample_plan(units="us")))
    assert " kg" not in us and " km" not in us and " ml" not in us
    metric = "\n".join(first(sample_plan()))
    assert " oz" not in metric and " mi," not in metric


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert render(sample_plan(), "first", "text") == render(sample_plan(), "first", "text")


def test_clip_marks_what_it_cuts() -> None:
    assert clip("abcdef", 6) == "abcdef"
    assert clip("abc, def", 5) == "abc…"


def test_a_dish_loses_how_it_was_dried_before_its_end() -> None:
    told = telling(sample_plan())
    one, two = "Freeze-dried beef stew", "Freeze-dried lentil curry"
    found = {
        "fits": _dishes(told, one, 28),
        "two": _dishes(told, f"{one} · {two}", 28),
        "still too long": _dishes(told, f"{one} · {two}", 16),
        "uncut": _dishes(told, f"{one} · {two}", 10_000),
    }
    assert found == {
        "fits": one, "two": "Beef stew · Lentil curry", "still too long": "Beef stew · Len…",
        "uncut": f"{one} · {two}",
    }  # fmt: skip


def test_every_day_of_a_week_has_its_line_before_the_shopping_has_three() -> None:
    """Shopping and assumptions shorten first: they stand in full elsewhere."""
    for walkers in (1, 2):
        for days in (3, 5, 7):
            plan = sample_plan(walkers=walkers, days=days)
            lines = first(plan)
            assert len(lines) <= 30
            stated = [line for line in lines if line.rstrip().endswith("kcal")]
            assert len(stated) == days, "\n".join(lines)
            assert any(line.startswith("to buy") for line in lines)
            assert any(line.startswith("we assumed") for line in lines)


def test_a_walk_of_one_day_has_no_night_no_dinner_and_no_full_day() -> None:
    whole = sample_plan(walkers=1, days=3)
    menu = replace(whole.menu, portions=tuple(p for p in whole.menu.portions if p.day == 1
                                              and p.meal != "dinner"), pools=())  # fmt: skip
    plan = replace(whole, days=whole.days[:1], menu=menu,
                   need={w: {"1": of["1"]} for w, of in whole.need.items()},
                   target={w: {"1": of["1"]} for w, of in whole.target.items()})  # fmt: skip
    text = " ".join(" ".join(first(plan)).split())
    assert "1 walker, one day, Thu 10 June" in text and " to Thu 10" not in text
    assert "the day uses about" in text and "full day" not in text
    assert text.endswith("more · less · swap · print · why")
    assert "a full day uses" in " ".join(first(whole))
    assert "each day uses" in " ".join(first(sample_plan(walkers=1, days=2)))


def test_a_plus_or_minus_is_never_left_alone_at_the_end_of_a_line() -> None:
    for width in range(60, 121):
        assert not any(line.endswith("±") for line in first(sample_plan(), width))


def test_a_stove_that_is_not_used_is_not_said_to_be_missing() -> None:
    plan = sample_plan(walkers=1, days=2)
    kitchen = replace(plan.kitchen, fuel=None)
    cold = replace(plan, kitchen=kitchen)
    assert "stove and fuel may stay at home" in " ".join(first(cold))
    bare = replace(cold, trip=replace(cold.trip, kit=replace(cold.trip.kit, stove=None)))
    assert "no stove: nothing is heated" in " ".join(first(bare))
    banned = replace(cold.trip, rules=replace(cold.trip.rules, no_flame=True))
    assert "no stove: nothing is heated" in " ".join(first(replace(cold, trip=banned)))
