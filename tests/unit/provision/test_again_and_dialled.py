"""An edit keeps what it does not touch to the kilocalorie; the dial moves whole things only."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import replace
from functools import cache

import pytest

from judge.judge import judge
from oatsack.desk.opening import opened
from oatsack.desk.planning import make_plan
from oatsack.desk.turning import STEP_KCAL, STEPS, Dial, figures_of, places_of, turns
from oatsack.files.larder import bundled
from oatsack.files.planfile import dump, load
from oatsack.files.trip import edit_trip, parse_trip
from oatsack.provision.again import same_question, wanted_again
from oatsack.provision.dialled import dialled
from oatsack.provision.draft import Setting
from oatsack.reports import render
from oatsack.reports.contents.first_screen import changed_line
from oatsack.reports.telling import telling
from oatsack.values.menu import Portion
from oatsack.values.plan import Plan
from oatsack.values.walker import Target

pytestmark = pytest.mark.slow
TODAY = dt.date(2027, 6, 1)
TEXT = """
from = 2027-06-12T09:00
to = 2027-06-14T15:00
[[walkers]]
name = "Anna"
mass = "62 kg"
[[walkers]]
name = "Ben"
mass = "80 kg"
[route]
usual_day = { distance = "15 km", up = "600 m" }
"""


@cache
def first() -> Plan:
    trip = parse_trip(TEXT, "trip.toml")
    return load(dump(make_plan(opened(trip, bundled(), text=TEXT), today=TODAY)))


def edited(text: str) -> Plan:
    trip = parse_trip(text, "trip.toml")
    return make_plan(opened(trip, bundled(), text=text), today=TODAY, near=first())


def eaten(plan: Plan) -> dict[tuple[str, int, str, str, str], float]:
    return {(p.walker, p.day, p.meal, p.food, p.why): p.doses for p in plan.menu.portions}


def test_an_edit_that_changes_nothing_changes_nothing() -> None:
    again = edited(TEXT + "# looked at\n")
    assert eaten(again) == eaten(first()) and again.target == first().target
    assert again.menu.moved == 0


def test_only_the_very_same_question_is_answered_by_the_earlier_plan() -> None:
    plan = first()
    setting = Setting(today=TODAY, hashes={"larder": plan.made.larder_hash})
    anna, ben = plan.trip.walkers
    likes = replace(plan.trip, walkers=(replace(anna, liking={"muesli": 5.0}), ben))
    cut = replace(plan, menu=replace(plan.menu, ended="stopped"))
    asked = {
        "the same": same_question(plan.trip, plan, setting),
        "another like": same_question(likes, plan, setting),
        "another larder": same_question(plan.trip, plan, replace(setting, hashes={"larder": "x"})),
        "another seed": same_question(plan.trip, plan, replace(setting, seed=1)),
        "more work": same_question(plan.trip, plan, replace(setting, work=2)),
        "a search that was stopped": same_question(plan.trip, cut, setting),
    }
    assert [what for what, same in asked.items() if same] == ["the same"]


def test_one_walkers_number_leaves_the_others_target_alone() -> None:
    again = edited(TEXT.replace('name = "Ben"', 'name = "Ben"\ntarget = "2600 kcal"'))
    anna, ben = (w.id for w in again.trip.walkers)
    assert again.target[anna] == first().target[anna]
    assert again.chosen[ben].how == "typed" and again.chosen[ben].base_kcal == 2600.0


def test_another_walk_or_another_body_takes_nothing_over() -> None:
    plan = first()
    kept = wanted_again(plan.trip, plan.days, plan.slots, plan)
    assert kept is not None
    assert {w: {str(n): k for n, k in of.items()} for w, of in kept.kcal.items()} == plan.target
    anna, ben = plan.trip.walkers
    for walkers in ((replace(anna, mass_kg=70.0), ben), (anna,), (ben, anna)):
        trip = replace(plan.trip, walkers=walkers)
        assert wanted_again(trip, plan.days, plan.slots, plan) is None, walkers
    assert wanted_again(plan.trip, plan.days[:-1], plan.slots, plan) is None
    assert wanted_again(plan.trip, plan.days, plan.slots[:-1], plan) is None


def test_likes_and_the_number_chosen_are_no_part_of_the_body() -> None:
    plan = first()
    anna, ben = plan.trip.walkers
    liked = replace(anna, liking={"rolled-oats": 5.0}, target=Target(kcal=2000.0))
    found = wanted_again(replace(plan.trip, walkers=(liked, ben)), plan.days, plan.slots, plan)
    assert found is not None and found.targets[anna.id].base_kcal == 2000.0
    assert found.kcal[ben.id] == {int(n): k for n, k in plan.target[ben.id].items()}


def of_dinner(plan: Plan) -> list[Portion]:
    return [p for p in plan.menu.portions if p.meal == "dinner"]


def test_every_place_of_the_dial_is_a_plan_that_the_judge_accepts() -> None:
    plan = first()
    anna, ben = plan.trip.walkers
    asked = Dial(file=_file(), text=TEXT, plan=dump(plan), places=places_of(anna.id))
    found = turns(asked, lambda seen: True)
    assert [t.step for t in found] == list(STEPS)
    base = plan.chosen[anna.id].base_kcal
    energies = []
    for turn in found:
        made = load(turn.plan)
        assert abs(turn.figures.base_kcal - base - turn.step * STEP_KCAL) <= 5.0
        assert figures_of(made, anna.id) == turn.figures
        assert of_dinner(made) == of_dinner(plan), "dinners do not move"
        assert eats(made, ben.id) == eats(plan, ben.id), "nobody else's food moves"
        assert made.trip == parse_trip(turn.text, _file().name)
        complaints = judge(json.loads(turn.plan))
        assert complaints == [], (turn.step, complaints[:5])
        energies.append(made.totals.energy_kcal)
    assert energies == sorted(energies)
    assert energies[0] < plan.totals.energy_kcal < energies[-1]


def eats(plan: Plan, walker: str) -> list[Portion]:
    return [p for p in plan.menu.portions if p.walker == walker]


def _file():  # type: ignore[no-untyped-def]
    from pathlib import Path

    return Path("trip.toml")


def differ(one: Plan, two: Plan) -> int:
    """By hand: places where something else, or another number of it, is eaten."""
    a, b = ({(p.walker, p.day, p.meal, p.food): p.doses for p in plan.menu.portions}
            for plan in (one, two))  # fmt: skip
    return sum(a.get(at) != b.get(at) for at in a.keys() | b.keys())


def test_turning_tells_every_portion_that_comes_goes_or_changes() -> None:
    """Also what is only taken away, which the plan after it does not hold."""
    plan = first()
    asked = Dial(file=_file(), text=TEXT, plan=dump(plan), places=(("anna", -4), ("anna", 2)))
    for turn in turns(asked, lambda seen: True):
        made = load(turn.plan)
        assert turn.figures.moved == made.menu.moved == differ(plan, made) > 0
        gone = {(p.day, p.meal, p.food) for p in plan.menu.portions if p.walker == "anna"}
        gone -= {(p.day, p.meal, p.food) for p in made.menu.portions if p.walker == "anna"}
        assert gone or turn.step > 0, "nothing was taken away: the count is not tried"


def test_an_edit_tells_how_many_portions_differ_and_how_many_stay() -> None:
    again = edited(TEXT.replace('name = "Ben"', 'name = "Ben"\ntarget = "2600 kcal"'))
    (told,) = (f for f in again.flags if f.key in ("menu.moved", "menu.none-moved"))
    n, both = differ(first(), again), {*eaten(first()), *eaten(again)}
    assert told.values == {"n": n, "stay": len({at[:4] for at in both}) - n}
    assert again.menu.moved == n > 0 and told.key == "menu.moved"
    assert changed_line(telling(again)).startswith(f"Against the earlier plan {n} portion")
    assert changed_line(telling(first())) == ""
    for plan, shown in ((again, True), (first(), False)):  # and it stands on the first screen
        lines = render(plan, "first", "text").decode().splitlines()
        assert any(line.startswith("changed ") for line in lines) is shown
    (none,) = (f for f in edited(TEXT).flags if f.key.endswith("moved"))
    assert (none.key, none.values["n"]) == ("menu.none-moved", 0)


def test_whoever_comes_along_or_stays_at_home_moves_nobody_elses_food() -> None:
    third = TEXT.replace("[route]", '[[walkers]]\nname = "Cora"\nmass = "55 kg"\n[route]')
    third, pair = (typed(text) for text in (third, TEXT))
    before = make_plan(opened(parse_trip(pair, "trip.toml"), bundled(), text=pair), today=TODAY)
    joined, left = (
        make_plan(
            opened(parse_trip(text, "trip.toml"), bundled(), text=text), today=TODAY, near=near
        )
        for text, near in ((third, before), (pair, None))
    )
    assert left.menu.portions == before.menu.portions
    for walker in ("anna", "ben"):
        assert eats(joined, walker) == eats(before, walker), walker
    again = make_plan(
        opened(parse_trip(pair, "trip.toml"), bundled(), text=pair), today=TODAY, near=joined
    )
    assert [eats(again, w) for w in ("anna", "ben")] == [eats(before, w) for w in ("anna", "ben")]
    assert again.menu.moved == len(eats(joined, "cora"))
    for plan in (joined, again):
        assert judge(json.loads(dump(plan))) == []


def typed(text: str) -> str:
    """With numbers that everyone typed, which another walker does not change."""
    return text.replace('mass = "', 'target = "2400 kcal"\nmass = "')


def test_turning_ends_when_nobody_waits() -> None:
    plan = first()
    asked = Dial(file=_file(), text=TEXT, plan=dump(plan), places=places_of("anna"))
    assert turns(asked, lambda seen: seen.count < 0) == ()


def test_what_is_held_is_not_turned() -> None:
    plan = first()
    anna = plan.trip.walkers[0]
    held = tuple(
        replace(p, why="held") if p.walker == anna.id and p.why == "chosen" else p
        for p in plan.menu.portions
    )
    less = plan.chosen[anna.id].base_kcal - 300.0
    text = edit_trip(TEXT, {"walkers[0].target": f"{less:.0f} kcal"})
    kept = replace(plan, menu=replace(plan.menu, portions=held))
    made = dialled(kept, parse_trip(text, "trip.toml"), anna.id)
    before = {(p.day, p.meal, p.food): p.doses for p in held if p.why == "held"}
    after = {(p.day, p.meal, p.food): p.doses for p in made.menu.portions if p.why == "held"}
    assert before == after
