"""The question "why not this food" as words, and its answer for a plan."""

from __future__ import annotations

import datetime as dt
import pickle
from dataclasses import replace
from pathlib import Path

import pytest

from oatsack.cli.main import run
from oatsack.desk.home import Home
from oatsack.desk.solving import Asked, deaf, planned
from oatsack.desk.why_not import Question, answer, flags_of, food_asked, told
from oatsack.errors import UsageError
from oatsack.files.planfile import load
from oatsack.files.trip.write import write_trip
from support.desk_pages import WEEKEND


def test_the_question_is_known_by_its_first_words() -> None:
    asked = {
        "not energy-bar": "energy-bar", "why not energy-bar?": "energy-bar",
        "Why not Couscous": "Couscous", "not/energy-bar": "energy-bar",
        "why not Nut and fruit mix ?": "Nut and fruit mix",
        "totals/energy_kcal": None, "notes/1": None, "why": None, "need/not/2": None,
    }  # fmt: skip
    assert {words: food_asked(words) for words in asked} == asked


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Home:
    folder = tmp_path_factory.mktemp("trip")
    text = write_trip(WEEKEND)
    (folder / "walk.toml").write_text(text, "utf-8")
    made = planned(Asked(file=folder / "walk.toml", text=text, today=dt.date(2027, 6, 1))).plan
    assert made is not None
    (folder / "plan.json").write_bytes(made)
    return Home(load(made), folder / "plan.json")


@pytest.mark.slow
def test_every_food_of_the_larder_has_an_answer_in_words(home: Home) -> None:
    wrong = []
    names = sorted(home.foods())[::40]
    for name in names:
        lines = list(told(home, name))
        if not lines or any("{" in line or "why-not" in line for line in lines):
            wrong.append((name, lines))
    assert wrong == []


@pytest.mark.slow
def test_a_food_is_found_by_its_name_and_a_wrong_one_names_the_nearest(home: Home) -> None:
    eaten = next(iter(home.plan.menu.portions)).food
    name = home.plan.foods[eaten].name
    assert list(told(home, name.upper())) == list(told(home, eaten))
    assert "on the menu" in next(told(home, eaten))
    with pytest.raises(UsageError, match="did you mean"):
        list(told(home, eaten + "x"))


@pytest.mark.slow
def test_a_menu_changed_by_hand_is_not_weighed(home: Home) -> None:
    menu = replace(
        home.plan.menu, portions=home.plan.menu.portions[: len(home.plan.menu.portions) // 2]
    )
    foods = home.foods()
    found = flags_of(replace(home.plan, menu=menu), next(iter(foods.values())), foods.values())
    assert [f.key for f in found] == ["why-not.by-hand"]


@pytest.mark.slow
def test_the_command_answers_and_takes_a_wrong_food_as_wrong_use(
    home: Home, capsys: pytest.CaptureFixture[str]
) -> None:
    eaten = home.plan.menu.portions[0].food
    assert run(["why", str(home.path), f"why not {eaten}"]) == 0
    assert "on the menu" in capsys.readouterr().out
    assert run(["why", str(home.path), "not nothing-of-the-kind"]) == 2


def test_an_address_is_still_an_address(tmp_path: Path) -> None:
    assert run(["why", str(tmp_path / "none.json"), "not energy-bar"]) == 2


@pytest.mark.slow
def test_pages_and_command_answer_alike(home: Home) -> None:
    assert home.trip_file is not None
    asked = Question(file=home.trip_file, text=home.trip_file.read_text("utf-8"),
                     plan=home.path.read_bytes(), food="couscous")  # fmt: skip
    assert pickle.loads(pickle.dumps(asked)) == asked, "it crosses to another process"
    assert answer(asked, deaf) == tuple(told(home, "couscous")) != ()
