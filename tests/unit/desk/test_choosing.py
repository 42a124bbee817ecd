"""Menus with other weights: each a plan to be taken, none worse than another in everything."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest

from judge.judge import judge
from oatsack.desk.choosing import Choosing, choices, yours
from oatsack.desk.solving import Asked, Left, Seen, planned
from oatsack.files.planfile import load
from oatsack.files.trip import parse_trip
from oatsack.files.trip.write import write_trip
from oatsack.menu import frontier
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
