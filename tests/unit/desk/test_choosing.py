"""Menus with other weights: each a plan to be taken, none worse than another in everything."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest

from judge.judge import judge
from oatsack.desk.choosing import Choosing, along, choices, questioned, ten, yours
from oatsack.desk.edits import weighed
from oatsack.desk.solving import ENOUGH, Asked, Left, Seen, planned
from oatsack.files.planfile import load
from oatsack.files.trip import parse_trip
from oatsack.files.trip.write import write_trip
from oatsack.menu import frontier
from oatsack.menu.choose import choose
from oatsack.solve.highs import solve
from oatsack.values.problem import Answer, Problem, Work
from support.desk_pages import WEEKEND, Client

pytestmark = pytest.mark.slow
TWO = tuple(row for row in frontier.WEIGHTS if row[0] in ("lightest", "cheapest", "best-loved"))


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> Choosing:
    file, text = tmp_path_factory.mktemp("trips") / "walk.toml", write_trip(WEEKEND)
    file.write_text(text, "utf-8")
    plan = planned(Asked(file=file, text=text, today=dt.date(2027, 6, 1))).plan
    assert plan is not None
    return Choosing(file=file, text=text, plan=plan)


def test_each_choice_is_a_plan_with_its_weights_in_the_text(
    asked: Choosing, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(frontier, "WEIGHTS", TWO)
    told: list[int] = []

    def hear(seen: Seen) -> bool:
        told.append(seen.count)
        return True

    found = choices(asked, hear)
    assert told == [1, 2, 3] and len(found) >= 2
    assert [c.mass_g for c in found] == sorted(c.mass_g for c in found)
    for choice in found:
        plan = load(choice.plan)
        assert judge(json.loads(choice.plan)) == []
        weights = {name: of for name, *of in TWO}[choice.name]
        rules = parse_trip(choice.text, "walk.toml").rules
        assert [rules.weight_kgdays, rules.weight_liking, rules.weight_price] == weights
        again = yours(plan)
        assert (again.mass_g, again.price, again.liking) == pytest.approx(
            (choice.mass_g, choice.price, choice.liking)
        )
    worse = [(a.name, b.name) for a in found for b in found if a is not b
             and a.mass_g >= b.mass_g and a.price >= b.price and a.liking <= b.liking]  # fmt: skip
    assert worse == []


def test_nobody_waiting_ends_it(asked: Choosing) -> None:
    with pytest.raises(Left):
        choices(asked, lambda seen: False)


def test_a_choice_is_taken_and_one_of_another_state_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(frontier, "WEIGHTS", TWO)
    client = Client(tmp_path)
    page = client.get("/trip/walk/choices")
    assert "Work them out" in page.text and "choice " not in page.text
    token = client.fields("/trip/walk/text")["token"]
    shown = client.post("/trip/walk/choices", {"token": token}).text
    names = [name for name, *_ in TWO if f'value="choice {name}"' in shown]
    assert names and "<circle" in shown
    sent = client.fields("/trip/walk/text")
    keep = {"token": token, "head": sent["head"]}
    taken = client.post("/trip/walk/change", keep | {"wish": f"choice {names[0]}"})
    rules = parse_trip(client.text(), "walk.toml").rules
    assert taken.status_code == 200
    assert rules.weight_kgdays == next(row[1] for row in TWO if row[0] == names[0])
    head = client.fields("/trip/walk/text")["head"]
    again = client.post("/trip/walk/change", {"token": token, "head": head,
                                              "wish": f"choice {names[0]}"})  # fmt: skip
    assert again.status_code == 422 and "another state" in again.text


class Counting:
    """The engine, and how many whole-number columns it was given in all."""

    def __init__(self) -> None:
        self.whole = 0

    def __call__(self, problem: Problem, work: Work) -> Answer:
        self.whole += int(problem.integer.sum())
        return solve(problem, work)


def test_ten_points_are_a_small_multiple_of_one_search(asked: Choosing) -> None:
    """Measured by whole-number columns given to the engine, which no busy machine changes."""
    plan, _, question = questioned(asked)
    one, ten_ = Counting(), Counting()
    choose(question, one)
    found = frontier.frontier(question, ten_, known=plan.menu)
    assert len(found) == 10
    assert ten_.whole <= 7.0 * one.whole, (ten_.whole, one.whole)
    assert all(p.menu.gap < 0.25 for p in found), [(p.name, p.menu.gap) for p in found]


def test_a_choice_keeps_what_is_proven_of_it(asked: Choosing) -> None:
    """A menu of the chooser's own matrix that was never proven would be told as one of any kind."""
    for choice in ten(asked, lambda seen: ENOUGH if seen.count == 2 else True):
        plan = load(choice.plan)
        assert choice.gap == pytest.approx(plan.menu.gap)
        assert 0.0 <= plan.made.gap < 0.25
        assert plan.menu.binds


def test_the_dial_shows_whole_plans_that_eat_more_and_more(asked: Choosing) -> None:
    told: list[Seen] = []

    def hear(seen: Seen) -> bool:
        told.append(seen)
        return True

    found = along(asked, hear)
    assert [c.name for c in found] == ["80%", "90%", "100%", "110%", "120%"] and len(told) == 5
    plans = [load(c.plan) for c in found]
    eaten = [plan.totals.energy_kcal for plan in plans]
    assert eaten == sorted(eaten) and eaten[0] < 0.87 * eaten[-1]
    assert [problem for plan in found for problem in judge(json.loads(plan.plan))] == []


def test_aims_in_order_leave_the_text_when_weights_are_taken() -> None:
    text = '[rules]\naims = ["price", "load"]\n'
    assert weighed(text, 1.0, 2.0, 3.0)["rules.aims"] is None
    assert "rules.aims" not in weighed("[rules]\n", 1.0, 2.0, 3.0)
