"""Whatever is sent to a form, the answer is a page, never a fault inside; the trip stays whole."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from oatsack.files.trip.toml import with_seconds
from support.amount import examples
from support.desk_pages import Client, Opens, Sent

PAGES = ("/trip/walk/walkers/0", "/trip/walk/walkers/1", "/trip/walk/form/kit",
         "/trip/walk/form/rules", "/trip/walk/form/days", "/larder/label", "/larder/stock",
         "/trip/walk/likes?q=oats", "/trip/walk/text")  # fmt: skip
ALLOWED = {200, 400, 404, 409, 413, 422}
ODD = st.one_of(
    st.text(max_size=20),
    st.sampled_from([
        "0", "-1", "1e9", "1e999", "NaN", "٣ kg", "1,500 m", "½", '"', "'", "\\", "\n", "\r\n\r\n",
        "]]", "[[walkers]]", 'x = 1\n[route]\n', "#", "\x7f", "\ufeff", "\u2028", "😀", "a" * 4000,
        "2027-06-12T09:00", "9999-99-99T99:99", "12 km", "{}", "true", "=1+1", "<script>",
        "{{ 7 }}", "../../etc/passwd", "/dev/zero", "í\xa0\x80",
    ]),
)  # fmt: skip
NAMES = st.one_of(
    st.text(max_size=20),
    st.sampled_from([
        "walkers[0].mass", "walkers[9].mass", "kit.pots[0].gone", "kit.pots[99].volume", "[0]", ".",
        "rules.holds[0].food", "route.days[2].distance", "add:walkers[0].usual.lunch", "way",
        "add:x", "add:", "places[0].sells[]", "kit[]", "allergen.milk", "food.0", "food.99999",
        "meals[]", "token[]", "0/couscous", "9/couscous", "confirmed",
    ]),
)  # fmt: skip


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Client:
    return Client(tmp_path_factory.mktemp("trips"), works=Opens())


@pytest.mark.slow
@settings(max_examples=examples(160, 10))
@given(
    page=st.sampled_from(PAGES), changed=st.lists(st.tuples(st.integers(0, 60), ODD), max_size=4),
    more=st.dictionaries(NAMES, ODD, max_size=3), gone=st.sets(st.integers(0, 60), max_size=3),
)  # fmt: skip
def test_whatever_is_typed_the_answer_is_a_page(
    client: Client, page: str, changed: list[tuple[int, str]], more: dict[str, str], gone: set[int]
) -> None:
    shown = client.get(page)
    assert shown.status_code == 200, (page, shown.text[:300])
    found = Sent(shown.text)
    sent, action = found.forms[0], found.actions[0]
    names = sorted(set(sent) - {"token", "head", "state"})
    sent = sent | {names[n % len(names)]: text for n, text in changed}
    for n in gone:
        sent.pop(names[n % len(names)], None)
    answer = client.post(action, {**sent, **{k: v for k, v in more.items() if k != "token"}})
    assert answer.status_code in ALLOWED, (action, answer.status_code)
    assert "Traceback" not in answer.text and "something went wrong inside" not in answer.text
    whole(client)


def whole(client: Client) -> None:
    """The trip's file is TOML and its pages open."""
    data: dict[str, Any] = tomllib.loads(with_seconds(client.text()))
    assert data["walkers"] and client.get("/trip/walk/walkers").status_code == 200


@settings(max_examples=examples(60, 6))
@given(name=st.sampled_from(("weigh", "packed", "draw", "change", "track")),
       sent=st.dictionaries(NAMES, ODD, max_size=4), wish=ODD, head=ODD)  # fmt: skip
def test_whatever_is_wished_the_answer_is_a_page(
    client: Client, name: str, sent: dict[str, str], wish: str, head: str
) -> None:
    token = client.fields("/trip/walk/form/kit")["token"]
    fields = sent | {"token": token, "head": head, "wish": wish, "what": wish}
    answer = client.post(f"/trip/walk/{name}", fields)
    assert answer.status_code in ALLOWED, (name, fields, answer.status_code)
    assert "Traceback" not in answer.text and "something went wrong inside" not in answer.text
    whole(client)


@settings(max_examples=examples(40, 6))
@given(data=st.one_of(st.binary(max_size=200), st.text(max_size=200).map(str.encode)),
       path=st.sampled_from(("/larder/import", "/trip/walk/track")))  # fmt: skip
def test_whatever_file_is_sent_it_is_taken_or_refused_in_words(
    client: Client, data: bytes, path: str
) -> None:
    sent = client.fields("/trip/walk/form/days", form=1)
    before = {p.name for p in client.folder.iterdir()}
    answer = client.http.post(path, data=sent, files={"file": ("x", data)})
    assert answer.status_code in ALLOWED and "Traceback" not in answer.text
    if answer.status_code != 200:
        assert {p.name for p in client.folder.iterdir()} == before
    whole(client)


def test_a_template_in_a_text_is_shown_and_not_run(tmp_path: Path) -> None:
    client = Client(tmp_path, works=Opens())
    name = "{{ 7 * 6 }}<script>alert(1)</script>"
    client.send("/trip/walk/walkers/0", {"walkers[0].name": name})
    page = client.get("/trip/walk/walkers").text
    assert "{{ 7 * 6 }}&lt;script&gt;" in page and "<script>alert" not in page
