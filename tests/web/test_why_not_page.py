"""Why a food is not on the menu, asked on a page; and the mean of a party opened."""

from __future__ import annotations

from typing import Any

import pytest

from oatsack.desk.solving import Left
from oatsack.desk.why_not import Question
from oatsack.values.plan import Plan
from support.desk_pages import Client, Given
from support.sample_plan import sample_plan

ASK = "/trip/walk/why-not"


class Answers(Given):
    """Answers why not with the food it was asked about."""

    def __init__(self, plan: Plan) -> None:
        super().__init__(plan)
        self.asked: list[Question] = []

    def do(self, task: str, asked: Any, hear: Any) -> Any:
        assert task == "oatsack.desk.why_not:answer"
        self.asked.append(asked)
        if asked.food == "rolled-oats":
            raise Left("left")
        return (f"It would cost 35 g <more>: {asked.food}.", "Of that: load.")


@pytest.fixture(scope="module")
def works() -> Answers:
    return Answers(sample_plan(walkers=3))


@pytest.fixture(scope="module")
def client(works: Answers, tmp_path_factory: pytest.TempPathFactory) -> Client:
    return Client(tmp_path_factory.mktemp("why"), works=works)


def test_a_food_is_asked_about_by_its_name_and_the_answer_stands_below(
    client: Client, works: Answers
) -> None:
    page = client.get(ASK).text
    assert '<option value="Couscous">' in page and "It would cost" not in page
    answer = client.send(ASK, {"food": " couscous "})
    assert answer.url.path == ASK and answer.url.query == b"food=couscous"
    assert "It would cost 35 g &lt;more&gt;: couscous. Of that: load." in answer.text
    assert 'value="Couscous"' in answer.text, "the name stands in its field again"
    one = works.asked[-1]
    assert (one.food, one.plan) == ("couscous", works.made)
    assert one.text == client.text() and one.file == client.folder / "walk.toml"
    count = len(works.asked)
    assert "35 g" in client.get(f"{ASK}?food=couscous").text and len(works.asked) == count


def test_a_food_that_there_is_not_is_told_with_what_comes_near(client: Client) -> None:
    answer = client.send(ASK, {"food": "couscos"})
    assert answer.status_code == 422 and "did you mean" in answer.text
    assert 'value="couscos"' in answer.text
    empty = client.send(ASK, {"food": ""})
    assert empty.status_code == 422
    strange = client.get(f"{ASK}?food=%3Cscript%3E%00")
    assert strange.status_code == 200 and "<script>" not in strange.text


def test_whoever_leaves_is_told_so_and_may_ask_again(client: Client) -> None:
    answer = client.send(ASK, {"food": "rolled-oats"})
    assert answer.url.query == b"note=left" and '<p id="changed"' in answer.text
    assert client.get(f"{ASK}?food=rolled-oats").status_code == 200


def test_the_pages_that_offer_foods_lead_there(client: Client) -> None:
    put = client.get("/trip/walk/put?p=2/lunch&q=%22oat%22").text
    assert f'href="{ASK}?food=%22oat%22"' in put
    place = client.get("/trip/walk").text.split("at?p=")[1].split('"')[0]
    card = client.get(f"/trip/walk/at?p={place}").text
    assert (f'href="{ASK}"' in card) == ("<table" in card)


def test_the_mean_of_a_party_opens_what_it_is_the_mean_of(client: Client, works: Answers) -> None:
    page = client.get("/trip/walk/hours").text
    plan = sample_plan(walkers=3)
    walkers = [w.id for w in plan.trip.walkers]
    address = page.split('why?at=timeline/*/')[1].split('"')[0]
    opened = client.get(f"/trip/walk/why?at=timeline/*/{address}").text
    assert "The mean of 3 walkers: " in opened
    for walker in walkers:
        assert f"timeline/{walker}/{address} = " in opened, walker
    hour, _, name = address.partition("/")
    of = [next(getattr(h, name) for h in plan.timeline[w]
               if f"{h.day}-{int(h.start_min // 60):02d}" == hour) for w in walkers]  # fmt: skip
    shown = opened.split("The mean of 3 walkers: ")[1].split(" ")[0]
    assert float(shown.replace(",", "")) == pytest.approx(sum(of) / 3.0, rel=1e-4)
    assert client.get("/trip/walk/why?at=timeline/*/9-99/pack_kg").status_code == 404
    assert client.get("/trip/walk/why?at=need/*/1/energy_kcal").status_code == 404
