"""The JSON that pages and scripts read: as described, for every question that can be asked."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.web.interface import described
from support.amount import examples
from support.desk_pages import Client

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Client:
    made = Client(tmp_path_factory.mktemp("trips"))
    made.get("/trip/walk")
    return made


def answered(client: Client, path: str, **asked: str) -> tuple[int, Any]:
    """Status and data of an answer that must be as the description says."""
    shape = re.sub(r"^/trip/[^/]*/", "/trip/{name}/", path)
    said = described()["paths"][shape]["get"]["responses"]
    answer = client.get(path, params=asked)
    assert str(answer.status_code) in said, (path, asked, answer.status_code)
    schema = said[str(answer.status_code)]["content"]["application/json"]["schema"]
    assert answer.headers["content-type"].startswith("application/json")
    data = answer.json()
    jsonschema.validate(data, schema)
    return answer.status_code, data


@pytest.mark.slow
def test_every_described_path_answers_as_described(client: Client) -> None:
    walker = next(iter(client.get("/trip/walk/plan.json").json()["chosen"]))
    for shape, what in described()["paths"].items():
        asked = {p["name"]: walker for p in what["get"]["parameters"] if p["name"] == "w"}
        status, _ = answered(client, shape.replace("{name}", "walk"), **asked)
        assert status == 200, shape


def test_every_json_address_is_described_and_no_other(client: Client) -> None:
    served = {route.path for route in client.http.app.routes if route.path.endswith(".json")}
    assert served - {"/openapi.json"} == set(described()["paths"])
    assert client.get("/openapi.json").json() == described()


def test_the_plan_is_as_its_schema_says(client: Client) -> None:
    schema = client.get("/plan.schema.json").json()
    jsonschema.validate(client.get("/trip/walk/plan.json").json(), schema)


def test_foods_are_found_as_the_page_finds_them(client: Client) -> None:
    _, data = answered(client, "/larder.json", q="oats")
    page = client.get("/larder?q=oats").text
    assert data["count"] == len(data["foods"]) >= 2
    assert [f["name"] for f in data["foods"] if f["name"] not in page] == []


def test_a_number_tells_its_calculation_and_what_it_opens(client: Client) -> None:
    _, data = answered(client, "/trip/walk/why.json", at="totals/gross_g")
    assert data["lines"] and data["lines"][0].startswith("totals/gross_g")
    for address in data["opens"][:3]:
        assert answered(client, "/trip/walk/why.json", at=address)[0] == 200


def test_faults_come_as_data_too(client: Client) -> None:
    (client.folder / "broken.toml").write_text('[[walkers]]\nmass = "x"\n', "utf-8")
    status, data = answered(client, "/trip/broken/plan.json")
    assert status == 422 and len(data["faults"]) >= 2
    assert answered(client, "/trip/none/plan.json")[0] in (404, 422)
    assert json.dumps(data).find("Traceback") == -1


ANY = st.text(max_size=30)
WORDS = st.one_of(ANY, st.sampled_from(
    ["totals/energy_kcal", "need/x/1", "totals", "/", "a/" * 40, "free:", ":", "contains:milk",
     "diet:x", "%00", "\x00", "\ud7ff", "0", "-1", "__class__", "walkers[0]"]))  # fmt: skip


@settings(max_examples=examples(150, 8))
@given(shape=st.sampled_from(sorted(described()["paths"])), name=st.one_of(
    st.just("walk"), st.from_regex(r"[a-z0-9][a-z0-9_-]{0,39}", fullmatch=True)), text=WORDS)
def test_whatever_is_asked_the_answer_is_one_of_those_described(
    client: Client, shape: str, name: str, text: str
) -> None:
    names = [p["name"] for p in described()["paths"][shape]["get"]["parameters"]]
    asked = {name: text for name in names if name != "name"}
    answered(client, shape.replace("{name}", name), **asked)


@pytest.mark.browser
@pytest.mark.slow
def test_schemathesis_finds_nothing_that_is_not_described(tmp_path: Path) -> None:
    import warnings

    with warnings.catch_warnings():  # its own imports warn of the next versions of others
        warnings.simplefilter("ignore")
        schemathesis = pytest.importorskip("schemathesis")
    client = Client(tmp_path)
    client.get("/trip/walk")
    schema = schemathesis.openapi.from_dict(client.get("/openapi.json").json())
    asked: list[str] = []
    for found in schema.get_all_operations():
        operation = found.ok()

        @settings(max_examples=examples(40), deadline=None)
        @given(case=operation.as_strategy())
        def ask(case: Any) -> None:
            case.path_parameters = {k: v if k != "name" else "walk" if len(v) % 2 else v
                                    for k, v in (case.path_parameters or {}).items()}  # fmt: skip
            sent = case.as_transport_kwargs(base_url="http://127.0.0.1:8000")
            sent.pop("cookies", None)
            sent["headers"] = {"accept": "application/json"}
            answer = client.http.request(**sent)
            case.validate_response(schemathesis.Response.from_httpx(answer, verify=False))

        ask()
        asked.append(operation.label)
    assert len(asked) == len(described()["paths"])
