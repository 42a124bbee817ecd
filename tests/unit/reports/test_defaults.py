"""What nobody stated is told in the full plan, a line each, the five assumptions apart."""

from __future__ import annotations

from dataclasses import replace

from oatsack.reports import render
from oatsack.reports.contents.defaults import ALONE, EACH_ALONE, OF_TRIP, OF_WALKER, default_lines
from oatsack.reports.telling import telling
from oatsack.reports.words import sentence
from oatsack.values.plan import Assumption, Plan
from support.sample_plan import sample_plan
from support.tripfiles import all_entries


def left_out(*paths: str, walkers: int = 1, **more: object) -> Plan:
    plan = sample_plan(walkers=walkers, **more)  # type: ignore[arg-type]
    return replace(plan, trip=replace(plan.trip, defaults=frozenset(paths)), assumptions=())


def lines(*paths: str, **more: object) -> tuple[str, ...]:
    return default_lines(telling(left_out(*paths, **more)))  # type: ignore[arg-type]


def test_what_was_stated_is_not_told() -> None:
    assert lines() == ()


def test_a_default_is_told_with_the_value_that_stands() -> None:
    trip = left_out("rules.times.dinner", "kit.mug", "rules.day_window")
    assert trip.trip.kit.mug_ml == 300.0
    assert default_lines(telling(trip)) == (
        "dinner at 18:30", "a day within 12 % of its number", "mugs of 300 ml",
    )  # fmt: skip


def test_the_height_of_the_start_is_no_default_where_a_track_tells_it() -> None:
    plan = left_out("route.start_height")
    assert len(default_lines(telling(plan))) == 1
    route = replace(plan.trip.route, track="way.gpx")
    assert default_lines(telling(replace(plan, trip=replace(plan.trip, route=route)))) == ()


def test_american_units_are_shown_in_american_units() -> None:
    (line,) = lines("route.start_height", units="us")
    assert line.endswith(" ft")


def test_an_assumption_that_is_named_already_is_not_told_again() -> None:
    plan = left_out("route.warm", "kit.cans")
    named = Assumption(key="warm", path="route.warm", value=18.0, effect_kcal=50.0)
    told = default_lines(telling(replace(plan, assumptions=(named,))))
    assert told == ("fuel containers of the common sizes",)


def test_walkers_are_named_only_where_there_are_several() -> None:
    assert lines("walkers[0].eats") == ("eats anything",)
    (one,) = lines("walkers[1].eats", walkers=2)
    first, second = (w.name for w in sample_plan(walkers=2).trip.walkers)
    assert one == f"{second}: eats anything"
    (both,) = lines("walkers[0].eats", "walkers[1].eats", walkers=2)
    assert both == f"{first}, {second}: eats anything"


def test_every_line_has_its_words_and_its_key_in_the_trip_file() -> None:
    entries = list(all_entries())
    known = {f"{e.section}.{e.key}".strip(".") for e in entries}
    known |= {e.section.removesuffix("[]") for e in entries}
    for path in (*OF_TRIP, *ALONE):
        assert sentence(f"default.{path}"), path
        assert path in known, path
    for key in (*OF_WALKER, *EACH_ALONE):
        assert sentence(f"default.walkers.{key}"), key
        assert f"walkers[].{key}" in known, key


def test_the_full_plan_holds_them_and_the_first_screen_does_not() -> None:
    plan = left_out("kit.treatment")
    assert b"filtered" in render(plan, "plan", "text")
    assert b"water from the way is filtered" not in render(plan, "first", "text")
