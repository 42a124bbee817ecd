"""A long walk on the trip page: one picture, parts that open, and never too much for one page."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from oatsack.web.folding import WEEK
from support.desk_pages import Client, Given
from support.sample_plan import sample_plan

BAR_BYTES = 150_000


def client_of(folder: Path, **shape: Any) -> Client:
    folder.mkdir()
    return Client(folder, works=Given(sample_plan(**shape)))


@pytest.fixture(scope="module")
def forty(tmp_path_factory: pytest.TempPathFactory) -> Client:
    return client_of(tmp_path_factory.mktemp("long") / "forty", walkers=1, days=40, legs=4)


@pytest.mark.slow
def test_no_trip_page_is_above_150_kb_however_long_the_walk_or_large_the_party(
    tmp_path: Path,
) -> None:
    shapes = [(1, 40), (2, 7), (2, 10), (12, 14), (20, 9)]
    large = {}
    for walkers, days in shapes:
        client = client_of(tmp_path / f"{walkers}-{days}", walkers=walkers, days=days,
                           long_names=True)  # fmt: skip
        page = client.get("/trip/walk").text
        parts = re.findall(r'href="(/trip/walk/days/\d+)"', page)
        for path in ["/trip/walk", *dict.fromkeys(parts)]:
            size = len(client.get(path).content)
            if size > BAR_BYTES:
                large[walkers, days, path] = size
    assert large == {}


def test_a_short_walk_stands_whole_and_a_long_one_in_its_legs_and_weeks(
    forty: Client, tmp_path: Path
) -> None:
    short = client_of(tmp_path / "short", walkers=2, days=7).get("/trip/walk").text
    assert short.count('<section class="day">') == 7 and "/days/" not in short
    page = forty.get("/trip/walk").text
    assert page.count('<section class="day">') == 0
    assert page.count('<details class="stretch"') == 8, "four legs of ten days, each in two halves"
    assert page.count("<h3>Leg 4, ") == 2


@pytest.mark.slow
def test_the_days_of_a_large_party_fold_but_for_the_first_and_what_changed(tmp_path: Path) -> None:
    four = client_of(tmp_path / "four", walkers=4, days=3).get("/trip/walk").text
    party = client_of(tmp_path / "five", walkers=5, days=3)
    page = party.get("/trip/walk").text
    assert "<details" not in four and four.count("<h3>") == page.count("<h3>")
    assert re.findall(r'<details class="stretch" id="day-(\d)"( open)?>', page) == [
        ("1", " open"), ("2", ""), ("3", "")]  # fmt: skip
    assert page.count('<section class="day">') == 3, "all is there, without scripts too"
    inside = [part.count("at?p=") for part in page.split("<details")[1:]]
    assert min(inside) > 0 and sum(inside) == page.count("at?p=")
    folded = page.split("<details")[2]
    dinner = folded.split("</summary>")[0].split('"quiet">')[1].split("<")[0]
    assert dinner and dinner in folded.split("</summary>")[1], "a folded day is known by its dinner"


def test_the_dial_of_a_long_walk_is_made_only_when_it_is_asked_for(
    forty: Client, tmp_path: Path
) -> None:
    short = client_of(tmp_path / "short", walkers=2, days=7).get("/trip/walk").text
    page = forty.get("/trip/walk").text
    assert short.count("/dial.json?w=") == 2 and short.count('"/trip/walk/dial?w=') == 2
    assert page.count("/dial.json?w=") == 0 and page.count('"/trip/walk/dial?w=') == 1


def test_the_parts_hold_every_day_and_every_meal_once(forty: Client) -> None:
    plan = json.loads(forty.get("/trip/walk/plan.json").content)
    pages = [forty.get(f"/trip/walk/days/{n}").text for n in range(1, 9)]
    counts = [page.count('<section class="day">') for page in pages]
    assert sum(counts) == 40 and max(counts) <= WEEK
    places = [place for page in pages for place in re.findall(r"at\?p=([\w/-]+)", page)]
    eaten = {f"{p['walker']}/{p['day']}/{p['meal']}/{p['food']}"
             for p in plan["menu"]["portions"]}  # fmt: skip
    assert set(places) == eaten


def test_a_part_lies_between_its_neighbours_and_there_is_none_beyond(forty: Client) -> None:
    first, middle, last = (forty.get(f"/trip/walk/days/{n}").text for n in (1, 4, 8))
    assert 'rel="prev"' not in first and 'rel="next"' not in last
    assert 'href="/trip/walk/days/3"' in middle and 'href="/trip/walk/days/5"' in middle
    for wrong in ("0", "9", "x", "-1", "99999", "٣"):
        assert forty.get(f"/trip/walk/days/{wrong}").status_code == 404, wrong


def test_a_long_walk_is_read_by_the_day_and_each_part_by_the_hour(forty: Client) -> None:
    whole = forty.get("/trip/walk/ribbon.json?whole=yes").json()
    assert len(whole["says"]) == len(whole["broad"]) == len(whole["narrow"]) == 40
    part = forty.get("/trip/walk/ribbon.json?part=2").json()
    assert len(part["says"]) == len(part["broad"]) == len(part["narrow"]) == 5 * 8
    assert not set(part["says"]) - set(forty.get("/trip/walk/ribbon.json").json()["says"])
    by_day, by_hour = (forty.get(f"/trip/walk/hours{q}").text for q in ("", "?part=1"))
    assert by_day.count("<tr>") == 41 and 'href="/trip/walk/hours?part=8"' in by_day
    assert by_hour.count("<tr>") == 1 + 5 * 8
    assert forty.get("/trip/walk/hours?part=77").status_code == 404


def test_a_change_on_a_part_leads_back_to_that_part(forty: Client) -> None:
    sent = forty.fields("/trip/walk/days/3")
    place = re.findall(r"at\?p=([\w/-]+)", forty.get("/trip/walk/days/3").text)[0]
    answer = forty.post("/trip/walk/change", sent | {"wish": f"keep {place}"},
                        follow_redirects=False)  # fmt: skip
    assert answer.headers["location"].startswith("/trip/walk/days/3?was=")
    elsewhere = forty.post(
        "/trip/walk/change", forty.fields("/trip/walk/days/3") | {"part": "../x", "wish": "undo"},
        follow_redirects=False,
    )  # fmt: skip
    assert elsewhere.headers["location"].startswith("/trip/walk?was=")
