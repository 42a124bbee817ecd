"""Wishes on the trip page without scripts: each is written, planned, marked and undone."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest

from oatsack.files.planfile import load
from oatsack.values.plan import Plan
from support.desk_pages import Client

pytestmark = pytest.mark.slow


class Trip(Client):
    """The walk of these tests with its wishes."""

    def head(self) -> str:
        return self.fields("/trip/walk/text")["head"]

    def wish(self, wish: str, **more: str) -> Any:
        sent = self.fields("/trip/walk/text")
        keep = {key: sent[key] for key in ("token", "head")}
        return self.post("/trip/walk/change", keep | {"wish": wish} | more)

    def plan(self) -> Plan:
        return load(self.get("/trip/walk/plan.json").content)

    def eaten(self) -> dict[tuple[str, int, str, str], float]:
        out: dict[tuple[str, int, str, str], float] = {}
        for p in self.plan().menu.portions:
            key = (p.walker, p.day, p.meal, p.food)
            out[key] = out.get(key, 0.0) + p.doses
        return out

    def place(self, meal: str) -> str:
        """Where the first chosen portion of a meal stands."""
        return next(f"{p.walker}/{p.day}/{p.meal}/{p.food}" for p in self.plan().menu.portions
                    if p.meal == meal and p.why == "chosen")  # fmt: skip


@pytest.fixture(scope="module")
def trip(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Trip]:
    yield Trip(tmp_path_factory.mktemp("trips"))


def changed(page: str) -> str:
    found = re.search(r'id="changed"[^>]*>([^<]*)', page)
    assert found
    return found[1]


def test_what_is_kept_is_kept_and_nothing_else_moves(trip: Trip) -> None:
    before, text, place = trip.eaten(), trip.text(), trip.place("dinner")
    answer = trip.wish(f"keep {place}")
    assert answer.status_code == 200 and "<em>kept</em>" in answer.text
    assert trip.eaten() == before, "keeping what is there moves nothing"
    assert "nothing on the menu had to change" in changed(answer.text)
    assert place.split("/")[-1] in trip.text()
    answer = trip.wish(f"free {place}")
    assert "<em>kept</em>" not in answer.text and trip.eaten() == before
    trip.wish("undo")
    trip.wish("undo")
    assert trip.text() == text


def test_undo_and_redo_go_all_the_way_and_mark_what_differs(trip: Trip) -> None:
    states = [trip.text()]
    for _ in range(3):
        trip.wish(f"out {trip.place('lunch')}")
        states.append(trip.text())
    assert len(set(states)) == 4
    for want in reversed(states[:-1]):
        answer = trip.wish("undo")
        assert trip.text() == want and "One step back." in changed(answer.text)
    for want in states[1:]:
        answer = trip.wish("redo")
        assert trip.text() == want and "<strong>new</strong>" in answer.text
    for _ in range(3):
        trip.wish("undo")


def test_out_goes_from_that_meal_and_never_from_all_of_them(trip: Trip) -> None:
    place = trip.place("lunch")
    walker, day, meal, food = place.split("/")
    trip.wish(f"out {place}")
    assert (walker, int(day), meal, food) not in trip.eaten()
    trip.wish("undo")
    answer = trip.wish(f"never {place}")
    assert not [key for key in trip.eaten() if key[3] == food]
    taken = re.findall(r'value="(back bans/\d+)"', answer.text)
    assert taken, "what is forbidden can be taken back on the page"
    trip.wish(taken[0])
    assert "bans = []" in trip.text().replace(" ", " ")
    trip.wish("undo")
    trip.wish("undo")


def test_another_stands_instead_and_one_more_and_one_less_are_counted(trip: Trip) -> None:
    place = trip.place("lunch")
    card = trip.get(f"/trip/walk/at?p={place}")
    assert card.status_code == 200
    swap = re.search(r'value="(swap [^"]+)"', card.text)
    assert swap
    other = swap[1].split(" ")[2]
    walker, day, meal, food = place.split("/")
    trip.wish(swap[1])
    eaten = trip.eaten()
    assert (walker, int(day), meal, food) not in eaten
    there = eaten[(walker, int(day), meal, other)]
    trip.wish(f"more {walker}/{day}/{meal}/{other}")
    assert trip.eaten()[(walker, int(day), meal, other)] == there + 1
    trip.wish(f"less {walker}/{day}/{meal}/{other}")
    assert trip.eaten()[(walker, int(day), meal, other)] == there
    for _ in range(3):
        trip.wish("undo")


def test_something_found_by_a_word_is_put_in(trip: Trip) -> None:
    page = trip.get("/trip/walk/put?p=1/lunch").text
    put = re.search(r'value="(put [^"]+)"', page)
    assert put
    food = put[1].split("/")[-1]
    found = trip.get(f"/trip/walk/put?p=1/lunch&q={food}").text
    assert put[1] in found
    trip.wish(put[1])
    walker, day, meal, _ = put[1].removeprefix("put ").split("/")
    assert trip.eaten()[(walker, int(day), meal, food)] == 1.0
    trip.wish("undo")


def test_the_dial_takes_whole_things_and_leaves_dinners(trip: Trip) -> None:
    before, walker = trip.plan(), trip.plan().trip.walkers[0].id
    page = trip.get(f"/trip/walk/dial?w={walker}").text
    assert f'value="dial {walker}/2"' in page
    places = trip.get(f"/trip/walk/dial.json?w={walker}").json()["places"]
    assert [p["step"] for p in places] == sorted(p["step"] for p in places)
    answer = trip.wish(f"dial {walker}/2")
    after = trip.plan()
    assert answer.status_code == 200
    assert abs(after.chosen[walker].base_kcal - before.chosen[walker].base_kcal - 300.0) <= 5.0
    gained = after.totals.energy_kcal - before.totals.energy_kcal
    assert gained > 0

    def dinners(plan: Plan) -> list[Any]:
        return [p for p in plan.menu.portions if p.meal == "dinner"]

    assert dinners(after) == dinners(before)
    shown = next(p for p in places if p["step"] == 2)["figures"]
    assert f">{shown['mass']}</a>" in answer.text, "what the dial showed is what one gets"
    trip.wish("undo")


def test_a_typed_number_is_for_everyone_and_a_bad_one_is_said(trip: Trip) -> None:
    text = trip.text()
    answer = trip.wish("target", target="lots")
    assert answer.status_code == 422 and "lots" in answer.text and trip.text() == text
    trip.wish("target", target="2400 kcal")
    assert '"2400 kcal"' in trip.text()
    trip.wish("undo")


def test_wishes_that_clash_come_with_their_ways_out_as_buttons(trip: Trip) -> None:
    sent = trip.fields("/trip/walk/text")
    rules = '\n[rules]\nbudget = "3 EUR"\n'
    text = trip.text()
    with_budget = text.replace("[rules]\n", rules) if "[rules]" in text else text + rules
    answer = trip.post("/trip/walk/text", sent | {"text": with_budget})
    assert "These wishes clash" in answer.text
    ways = re.findall(r'value="(way [^"]+)"', answer.text)
    assert "way way-out.budget" in ways
    answer = trip.wish("way way-out.budget")
    assert answer.status_code == 200
    written = re.search(r'budget = "([\d.]+) EUR"', trip.text())
    assert written and float(written[1]) > 3.0, "the way out stands in the trip as it was said"
    trip.wish("undo")
    trip.wish("undo")


def test_what_is_gone_or_unknown_is_said_and_changes_nothing(trip: Trip) -> None:
    text = trip.text()
    wrong = (
        "keep nobody/1/dinner/air", "swap x", "put a/b", "back holds/99", "back holds/x", "dial x",
        "dial nobody/2", "way way-out.none", "fly", "", "free " + trip.place("dinner"),
        f"swap {trip.place('lunch')} no-such-food", "choice light",
    )  # fmt: skip
    answers = {wish: trip.wish(wish).status_code for wish in wrong}
    assert set(answers.values()) == {422}, answers
    sent = trip.fields("/trip/walk/text")
    bare = trip.post("/trip/walk/change", {"token": sent["token"], "wish": "undo"})
    assert bare.status_code == 422 and trip.text() == text
    for page in ("at?p=x", "at", "put?p=99/lunch", "put?p=1/brunch", "dial?w=nobody"):
        assert trip.get(f"/trip/walk/{page}").status_code in (404, 422), page


def test_a_page_that_listens_hears_how_it_goes_and_where_to_go(trip: Trip) -> None:
    sent = trip.fields("/trip/walk/text")
    fields = {key: sent[key] for key in ("token", "head")} | {"wish": f"out {trip.place('lunch')}"}
    answer = trip.post("/trip/walk/change", fields, headers={"accept": "text/event-stream"})
    kinds = re.findall(r"^event: (\w+)$", answer.text, re.MULTILINE)
    assert answer.headers["content-type"].startswith("text/event-stream")
    assert kinds[-1] == "done" and "best" in kinds
    assert "within" in answer.text and "/trip/walk?was=" in answer.text
    stale = trip.post("/trip/walk/change", fields, headers={"accept": "text/event-stream"})
    assert "Changed in another window" in stale.text and "event: page" in stale.text
    trip.wish("undo")


def test_every_figure_opens_and_each_link_of_the_page_leads_somewhere(trip: Trip) -> None:
    page = trip.get("/trip/walk").text
    links = sorted(set(re.findall(r'href="(/trip/walk/why[^"]+)"', page)))
    assert len(links) >= 15
    wrong = {link: trip.get(link).status_code for link in links}
    assert {link for link, status in wrong.items() if status != 200} == set()
    figures = re.findall(r'data-figure="(\w+)"', page)
    assert figures == ["mass", "start", "energy", "price", "kg_days", "cook", "water", "fuel",
                       "rubbish"]  # fmt: skip


def test_the_hours_are_read_alike_by_table_and_by_ribbon(trip: Trip) -> None:
    table = trip.get("/trip/walk/hours").text
    read = trip.get("/trip/walk/ribbon.json").json()
    hours = len(next(iter(trip.plan().timeline.values())))
    assert len(read["says"]) == hours == len(read["broad"]) == len(read["narrow"])
    assert table.count("<tr>") == hours + 1
    xs = [x for x, _, _ in read["broad"]]
    assert xs == sorted(xs) and min(xs) >= 0 and max(xs) <= 832
    assert "why?at=timeline/" in table


def test_an_old_address_marks_nothing_and_a_wrong_one_is_no_error(trip: Trip) -> None:
    for was in ("999999", "x", "-1", "1" * 40, "1%00"):
        answer = trip.get(f"/trip/walk?was={was}&note=%3Cb%3E")
        assert answer.status_code == 200 and "<strong>new</strong>" not in answer.text, was
        assert "<b>" not in changed(answer.text)


def test_pages_are_light(trip: Trip) -> None:
    sizes = {path: len(trip.get(path).content) for path in
             ("/", "/trip/walk", "/trip/walk/hours", "/trip/walk/choices")}  # fmt: skip
    assert {path: n for path, n in sizes.items() if n > 150_000} == {}


def test_us_measures_are_never_mixed_with_metric_ones(trip: Trip) -> None:
    sent = trip.fields("/trip/walk/text")
    text = trip.text()
    trip.post("/trip/walk/text", sent | {"text": 'units = "us"\n' + text})
    seen = [trip.get("/trip/walk").text, trip.get("/trip/walk/hours").text,
            trip.get("/trip/walk/ribbon.json").text]  # fmt: skip
    plain = [re.sub(r"<title>.*?</title>|<[^>]+>", " ", page) for page in seen]
    mixed = [re.findall(r"\d\s?(?:kg|g|km|m|ml|l)\b(?! per)", page) for page in plain]
    assert mixed == [[], [], []]
    trip.wish("undo")


def test_what_each_size_weighs_stands_beside_the_question_and_answers_stay(trip: Trip) -> None:
    sent = trip.fields("/") | {
        "mass": "68 kg, 80 kg", "begin": "2027-06-12T09:00", "end": "2027-06-15T15:00",
        "weigh": "yes", "distance": "12 km",
    }  # fmt: skip
    page = trip.post("/start", sent)
    told = re.findall(r"<li>((?:light|usual|hungry): [^<]*)", page.text)
    assert page.status_code == 200 and len(told) == 3
    grams = [float(found) for text in told for found in re.findall(r"([\d.]+) kg of food", text)]
    assert grams == sorted(grams) and len(set(grams)) == 3
    assert 'value="12 km"' in page.text and not (trip.folder / "trip.toml").exists()
    wrong = trip.post("/start", sent | {"mass": "heavy"})
    assert wrong.status_code == 422 and 'value="heavy"' in wrong.text


def test_enter_in_the_four_answers_makes_the_plan(trip: Trip) -> None:
    form = trip.get("/").text.split("<form")[1]
    assert re.search(r"<button[^>]*>", form)[0].count("name=") == 0  # type: ignore[index]
