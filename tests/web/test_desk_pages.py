"""The pages by their answers: forms without scripts, strangers refused, edits kept and undone."""

from __future__ import annotations

import datetime as dt
import re
import warnings
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import pytest

from oatsack.desk.opening import open_trip
from oatsack.desk.planning import make_plan
from oatsack.files.planfile import dump
from oatsack.web.app import create

with warnings.catch_warnings():  # its client asks for the next httpx; this one serves
    warnings.simplefilter("ignore")
    from starlette.testclient import TestClient

TODAY = dt.date(2027, 6, 1)
ANSWERS = {
    "mass": "68 kg", "begin": "2027-06-12T09:00", "end": "2027-06-13T15:00", "distance": "14 km",
    "up": "500 m", "eat": "usual", "name": "walk",
}  # fmt: skip


class Inline(HTMLParser):
    """Collects inline styles, scripts and handlers, and everything fetched from elsewhere."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.wrong: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self.wrong += [f"{tag} {n}" for n in given if n == "style" or n.startswith("on")]
        if tag == "style" or (tag == "script" and "src" not in given):
            self.wrong.append(tag)
        for name in ("src", "href", "action"):
            if "//" in (given.get(name) or ""):
                self.wrong.append(f"{tag} {given[name]}")


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    folder = tmp_path_factory.mktemp("trips")
    app = create(folder, today=lambda: TODAY)
    with TestClient(app, base_url="http://127.0.0.1:8000", raise_server_exceptions=False) as made:
        made.folder = folder  # type: ignore[attr-defined]
        answer = post(made, "/start", **ANSWERS)
        assert answer.url.path == "/trip/walk", answer.text
        yield made


def token(client: TestClient) -> str:
    found = re.search(r'name="token" value="(\w+)"', client.get("/").text)
    assert found
    return found[1]


def post(client: TestClient, path: str, **fields: str):  # type: ignore[no-untyped-def]
    return client.post(path, data={"token": token(client), **fields})


def head(client: TestClient) -> str:
    found = re.search(r'name="head" value="(\d+)"', client.get("/trip/walk/text").text)
    assert found
    return found[1]


def wish(client: TestClient, name: str, **fields: str):  # type: ignore[no-untyped-def]
    return post(client, "/trip/walk/change", head=head(client), wish=name, **fields)


def text_of(client: TestClient) -> str:
    return (client.folder / "walk.toml").read_text("utf-8")  # type: ignore[attr-defined]


@pytest.mark.slow
def test_the_first_plan_is_the_command_lines_plan(client: TestClient) -> None:
    path = client.folder / "walk.toml"  # type: ignore[attr-defined]
    assert client.get("/trip/walk/plan.json").content == dump(
        make_plan(open_trip(path), today=TODAY)
    )


PAGES = (
    "/", "/larder", "/larder?q=oats", "/trip/walk", "/trip/walk/text", "/trip/walk/paper",
    "/trip/walk/see/shopping", "/trip/walk/see/bags", "/trip/walk/why?at=totals/gross_g",
)  # fmt: skip


@pytest.mark.parametrize("path", PAGES)
def test_a_page_holds_nothing_inline_and_nothing_from_elsewhere(
    client: TestClient, path: str
) -> None:
    answer = client.get(path)
    assert answer.status_code == 200, answer.text
    assert Inline(answer.text).wrong == []
    assert "default-src 'none'" in answer.headers["content-security-policy"]
    assert len(answer.content) < 150_000


def test_the_parser_of_this_test_would_find_inline_code() -> None:
    page = '<p style="x" onclick="y"><script>z</script><img src="http://a/b">'
    assert len(Inline(page).wrong) == 4


def test_only_this_machine_is_answered(client: TestClient) -> None:
    assert client.get("/", headers={"host": "pages.example"}).status_code == 400


@pytest.mark.parametrize(
    "headers", [{"origin": "http://pages.example"}, {"sec-fetch-site": "cross-site"}]
)
def test_a_form_from_another_page_is_refused(
    client: TestClient, headers: dict[str, str]
) -> None:
    fields = {"token": token(client), "wish": "more", "head": head(client)}
    assert client.post("/trip/walk/change", data=fields, headers=headers).status_code == 403


def test_a_form_without_our_token_is_refused(client: TestClient) -> None:
    before = text_of(client)
    fields = {"token": "0" * 64, "wish": "more", "head": head(client)}
    assert client.post("/trip/walk/change", data=fields).status_code == 403
    assert text_of(client) == before


def test_more_than_a_larder_can_be_is_refused(client: TestClient) -> None:
    assert client.post("/larder/import", content=b"x" * 8_000_001).status_code == 413


@pytest.mark.parametrize("path", ["/trip/..%2fother", "/trip/A", "/trip/none", "/static/app.py"])
def test_no_name_leads_out_of_the_folder(client: TestClient, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code in (404, 422)
    assert "Traceback" not in answer.text


def test_a_second_window_is_told_and_shown_both(client: TestClient) -> None:
    old = head(client)
    sent = text_of(client)
    post(client, "/trip/walk/text", head=old, text=sent + "# first window\n")
    answer = post(client, "/trip/walk/text", head=old, text=sent + "# second window\n")
    assert answer.status_code == 409
    assert "# first window" in answer.text and "# second window" in answer.text
    wish(client, "undo")


def test_all_faults_of_a_text_are_shown_at_their_lines_and_nothing_is_lost(
    client: TestClient,
) -> None:
    before = text_of(client)
    sent = before.replace('mass = "68 kg"', 'mass = "heavy"') + "\n[rules]\nday_window = 7\n"
    answer = post(client, "/trip/walk/text", head=head(client), text=sent)
    assert answer.status_code == 422 and "heavy" in answer.text and "Line" in answer.text
    assert text_of(client) == before


@pytest.mark.slow
def test_wishes_that_clash_are_explained_and_undone(client: TestClient) -> None:
    sent = text_of(client).replace("[rules]\n", '[rules]\nbudget = "3 EUR"\n')
    answer = post(client, "/trip/walk/text", head=head(client), text=sent)
    assert "These wishes clash" in answer.text and "Traceback" not in answer.text
    assert "3 EUR" in text_of(client)
    answer = client.get("/trip/walk")
    assert "Undo" in answer.text
    wish(client, "undo")
    assert "3 EUR" not in text_of(client)


def test_a_label_that_cannot_be_true_is_questioned_and_a_true_one_kept(
    client: TestClient,
) -> None:
    odd = {"name": "Plain crackers", "category": "bread", "pack_g": "200 g", "per": "100 g",
           "kcal": "1750"}  # fmt: skip
    assert post(client, "/larder/label", **odd).status_code == 422
    answer = post(client, "/larder/label", **{**odd, "kcal": "420"})
    assert answer.status_code == 200 and "Plain crackers" in answer.text
    assert b"Plain crackers" in client.get("/larder.csv").content


@pytest.mark.parametrize(
    ("file", "begins"),
    [("sheet.pdf", b"%PDF"), ("phone.html", b"<!doctype"), ("workbook.xlsx", b"PK")],
)
def test_paper_is_handed_out(client: TestClient, file: str, begins: bytes) -> None:
    assert client.get(f"/trip/walk/paper/{file}").content.startswith(begins)


def test_answers_that_cannot_be_read_come_back_with_the_form_filled(client: TestClient) -> None:
    answer = post(client, "/start", **{**ANSWERS, "name": "other", "mass": "heavy"})
    assert answer.status_code == 422 and 'value="heavy"' in answer.text
    assert not Path(client.folder / "other.toml").exists()  # type: ignore[attr-defined]
