"""The first page: four questions, what the answers make, and favourites; no form for a beginner."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path

import pytest

from oatsack.desk.starting import WEEKDAYS, sizes, weekend
from oatsack.files.trip.write import Answers
from support.desk_pages import TODAY, Client, Opens, Sent

FOUR = {"mass": "68,5 kg and 150 lb", "begin": "2027-06-10T09:00", "end": "2027-06-13T15:00",
        "distance": "16 km", "up": "700 m", "eat": "2,600"}  # fmt: skip


@pytest.fixture
def client(tmp_path: Path) -> Client:
    return Client(tmp_path, works=Opens())


def test_nothing_but_a_body_mass_and_the_days_must_be_typed(client: Client) -> None:
    page = client.get("/").text
    sent = Sent(page).forms[0]
    blank = [name for name, value in sent.items() if not value and name != "name"]
    assert blank == [], "every question has an answer that may stand"
    assert page.index('id="mass"') < page.index('id="begin"') < page.index('id="distance"')
    assert page.index('id="eat"') < page.index("fieldset") < page.index('id="name"')


def test_what_the_answers_make_stands_before_what_each_level_weighs(client: Client) -> None:
    answer = client.send("/", FOUR | {"weigh": "yes"})
    lines = re.findall(r"<li>(That makes.*?|(?:light|usual|hungry):.*?)</li>", answer.text)
    assert lines[0] == "That makes 4 days and 3 nights: 3 breakfasts, 4 lunches, 3 dinners."
    assert [line.split(":")[0] for line in lines[1:]] == ["light", "usual", "hungry"]
    kept = Sent(answer.text).forms[0]
    assert {key: kept[key] for key in FOUR} == FOUR, "what was typed stands still"


def test_a_decimal_comma_parts_no_walkers_and_a_bare_number_is_energy(client: Client) -> None:
    client.send("/", FOUR | {"name": "new"})
    text = (client.folder / "new.toml").read_text("utf-8")
    assert re.findall(r'^mass = "(.*)"', text, re.M) == ["68,5 kg", "150 lb"]
    assert re.findall(r'^target = "(.*)"', text, re.M) == ["2600 kcal"] * 2


def test_answers_in_pounds_are_answered_in_pounds(client: Client) -> None:
    asked = FOUR | {"mass": "150 lb", "distance": "10 mi", "up": "2000 ft", "weigh": "yes"}
    page = client.send("/", asked).text
    assert re.search(r"<li>usual:[^<]* lb[^<]*of food</li>", page)
    assert not re.search(r"<li>usual:[^<]* k?g of food</li>", page)


@pytest.mark.parametrize("days", range(14))
def test_the_days_that_are_offered_are_the_next_weekend(days: int) -> None:
    today = TODAY + dt.timedelta(days=days)
    given = weekend(today)
    first, last = (dt.datetime.fromisoformat(given[key]) for key in ("begin", "end"))
    assert (WEEKDAYS[first.weekday()], WEEKDAYS[last.weekday()]) == ("sat", "sun")
    assert dt.timedelta(0) < first.date() - today <= dt.timedelta(days=7)


def test_meals_are_counted_from_the_clock_on_the_command_line_too() -> None:
    answers = Answers(masses=("68 kg",), begin="2027-06-10 15:00", end="2027-06-11 11:00",
                      distance="10 km", up="100 m")  # fmt: skip
    assert sizes(answers, TODAY)[0].makes == (
        "That makes 2 days and 1 night: 1 breakfast, 0 lunches, 1 dinner.")  # fmt: skip
