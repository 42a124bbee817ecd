"""What a stranger may try at the pages: hosts, origins, tokens, sizes, paths, guesses."""

from __future__ import annotations

import io
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from oatsack.cli.verbs.serve import listening, opened, shown
from oatsack.desk.confining import confine, inside
from oatsack.errors import TripFileError, UsageError
from oatsack.web.guard import MOST_BYTES, answers_to
from oatsack.web.lock import MOST_TRIES, VARIABLE, Lock, Opening, beyond, names_of, phrase_from
from support.desk_pages import Client

PHRASE = "four oats under a kettle"


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Client:
    return Client(tmp_path_factory.mktemp("trips"))


GETS = ("/", "/larder", "/larder/food/couscous", "/larder/label", "/larder/stock", "/larder.csv",
        "/trip/walk", "/trip/walk/walkers", "/trip/walk/walkers/0", "/trip/walk/form/days",
        "/trip/walk/likes", "/trip/walk/buy", "/trip/walk/pack", "/trip/walk/kitchen",
        "/trip/walk/paper", "/trip/walk/text", "/trip/walk/plan.json",
        "/static/page.css")  # fmt: skip
POSTS = ("/start", "/larder/label", "/larder/stock", "/larder/import", "/larder/food/couscous",
         "/trip/walk/change", "/trip/walk/text", "/trip/walk/form/kit", "/trip/walk/walkers/0",
         "/trip/walk/track", "/trip/walk/likes", "/trip/walk/draw", "/trip/walk/weigh",
         "/trip/walk/packed")  # fmt: skip


@pytest.mark.slow
def test_every_answer_bears_the_policy_and_errors_do_too(client: Client) -> None:
    for path in (*GETS, "/none", "/trip/none", "/static/none", "/trip/walk/form/none"):
        headers = client.get(path).headers
        policy = headers["content-security-policy"]
        assert "default-src 'none'" in policy and "unsafe" not in policy, path
        assert headers["x-content-type-options"] == "nosniff", path
        assert "frame-ancestors 'none'" in policy, path
    refused = client.get("/", headers={"host": "pages.example"})
    assert refused.status_code == 400 and "content-security-policy" in refused.headers


def test_a_fault_inside_shows_no_trace_and_bears_the_policy(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object, **__: object) -> None:
        raise RuntimeError("secret path /x/y")

    monkeypatch.setattr("oatsack.desk.labels.every", fails)
    answer = client.get("/larder")
    assert answer.status_code == 500
    assert "secret" not in answer.text and "Traceback" not in answer.text
    assert "content-security-policy" in answer.headers


HOSTS = {
    "127.0.0.1": True, "127.0.0.1:8000": True, "localhost:1": True, "[::1]:80": True,
    "LOCALHOST": True, "": False, "pages.example": False, "127.0.0.1.pages.example": False,
    "localhost.pages.example:80": False, "127.0.0.1:80@pages.example": False, "127.0.0.1:x": False,
    "localhost:8000:8000": False, "0.0.0.0": False, "[::1]": True, "[::1].example": False,
    "127.0.0.1 ": False, "127.0.0.2": False, "local\nhost": False,
}  # fmt: skip


def test_only_the_names_of_this_machine_are_answered(client: Client) -> None:
    assert {host: answers_to(host) for host in HOSTS} == HOSTS
    for host in ("pages.example", "127.0.0.1.pages.example:80"):
        assert client.get("/", headers={"host": host}).status_code == 400


@pytest.mark.slow
def test_a_post_needs_our_origin_our_cookie_and_our_token(client: Client) -> None:
    before = client.text()
    good = client.fields("/trip/walk/form/kit")
    for path in POSTS:
        for headers in ({"origin": "http://pages.example"}, {"origin": "null"},
                        {"origin": "https://127.0.0.1:8000"}, {"origin": "http://127.0.0.1:1"},
                        {"sec-fetch-site": "cross-site"},
                        {"sec-fetch-site": "same-site"}):  # fmt: skip
            assert client.post(path, good, headers=headers).status_code == 403, (path, headers)
        for token in ("", "0" * 64, good["token"][:-1]):
            assert client.post(path, good | {"token": token}).status_code == 403, (path, token)
    assert client.text() == before


def test_a_token_of_another_browser_is_refused(client: Client) -> None:
    sent = client.fields("/trip/walk/form/kit")
    mine = dict(client.http.cookies)
    client.http.cookies.clear()
    try:
        assert client.post("/trip/walk/form/kit", sent).status_code == 403
        client.get("/")
        assert client.post("/trip/walk/form/kit", sent).status_code == 403
    finally:
        client.http.cookies.clear()
        client.http.cookies.update(mine)


def test_the_cookie_is_strict_and_out_of_reach_of_scripts(tmp_path: Path) -> None:
    header = Client(tmp_path).get("/").headers["set-cookie"].casefold()
    assert "httponly" in header and "samesite=strict" in header


def test_more_than_can_be_is_refused_whether_it_says_so_or_not(client: Client) -> None:
    for path in POSTS:
        assert client.http.post(path, content=b"x" * (MOST_BYTES + 1)).status_code == 413, path

    def drip() -> Iterator[bytes]:
        yield b"token=x&a="
        for _ in range(MOST_BYTES // 1_000_000 + 1):
            yield b"x" * 1_000_000

    answer = client.http.post(
        "/trip/walk/text", content=drip(),
        headers={"content-type": "application/x-www-form-urlencoded"},
    )  # fmt: skip
    assert answer.status_code in (400, 413) and "Traceback" not in answer.text
    assert client.http.post("/start", headers={"content-length": "-1"}).status_code in (400, 413)


def test_too_many_fields_or_files_are_refused(client: Client) -> None:
    many = {f"f{n}": "x" for n in range(2600)}
    assert client.post("/trip/walk/form/kit", many).status_code == 400
    files = [("file", ("a", io.BytesIO(b"x"))), ("other", ("b", io.BytesIO(b"x")))]
    assert client.http.post("/larder/import", files=files).status_code == 400


PATHS = ("../other", "..%2fother", "%2e%2e%2fother", "..\\other", "%2fetc%2fpasswd", "walk%00",
         "A", "walk.toml", "%2e", "~", "walk%2f..%2fwalk", "a" * 80, "%ff", "é")  # fmt: skip


@pytest.mark.slow
def test_no_name_in_an_address_leads_anywhere_else(client: Client) -> None:
    (client.folder.parent / "other.toml").write_text(client.text(), "utf-8")
    for shape in ("/trip/{}", "/trip/{}/text", "/trip/{}/plan.json", "/trip/{}/form/kit",
                  "/static/{}", "/larder/food/{}", "/trip/walk/paper/{}.pdf",
                  "/trip/walk/see/{}", "/trip/walk/form/{}"):  # fmt: skip
        for name in PATHS:
            answer = client.get(shape.format(name))
            assert answer.status_code in (404, 405, 422), (shape, name)
            assert "root:" not in answer.text and "Traceback" not in answer.text
            assert "mass =" not in answer.text, (shape, name)


def test_no_file_that_a_text_names_is_read_outside_the_folder(
    client: Client, tmp_path: Path
) -> None:
    outside = tmp_path / "secret.csv"
    outside.write_text("name,pack_g,per,kcal\nSecret thing,oops,100 g,1\n", "utf-8")
    link = client.folder / "link.csv"
    link.symlink_to(outside)
    text = client.text()
    for named in (str(outside), "../secret.csv", "link.csv", "/etc/passwd", "/dev/zero"):
        for section in (f'[larder]\nfiles = ["bundled", "{named}"]\n',
                        f'[larder]\nstock = "{named}"\n'):  # fmt: skip
            sent = client.fields("/trip/walk/text")
            changed = text.replace("[larder]", "[x]") if "[larder]\n" in text else text
            answer = client.post("/trip/walk/text", sent | {"text": changed + "\n" + section})
            assert answer.status_code == 422, (named, answer.text)
            assert "outside" in answer.text and "Secret thing" not in answer.text, named
            assert "root:" not in answer.text
    route = text.replace("usual_day", f'track = "{outside}"\n# usual_day')
    answer = client.post("/trip/walk/text", client.fields("/trip/walk/text") | {"text": route})
    assert answer.status_code == 422 and "outside" in answer.text
    link.unlink()
    assert client.text() == text


def test_confining_names_every_place(tmp_path: Path) -> None:
    text = (
        '[larder]\nfiles = ["bundled", "mine.csv", "../a.csv"]\nstock = "/b.csv"\n'
        '[route]\ntrack = "x/../../c.gpx"\n[[walkers]]\npace_track = "../d.gpx"\n'
    )
    with pytest.raises(TripFileError) as caught:
        confine(tmp_path, text, "walk.toml")
    assert [(f.path, f.line) for f in caught.value.faults] == [
        ("larder.files[2]", 2), ("larder.stock", 3), ("route.track", 5),
        ("walkers[0].pace_track", 7),
    ]  # fmt: skip
    confine(tmp_path, '[larder]\nfiles = "mine.csv"\nstock = "sub/stock.csv"\n', "walk.toml")
    assert inside(tmp_path, "a.csv") and not inside(tmp_path, "\x00") and inside(tmp_path, ".")


def test_only_loopback_is_open_without_a_phrase() -> None:
    known = {"127.0.0.1": False, "127.8.8.8": False, "::1": False, "[::1]": False,
             "localhost": False, "0.0.0.0": True, "::": True, "192.168.1.7": True,
             "somewhere.example": True, "": True}  # fmt: skip
    assert {host: beyond(host) for host in known} == known


def test_a_phrase_is_typed_or_from_the_environment_and_long_enough(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert phrase_from({VARIABLE: PHRASE}, None) == PHRASE
    assert phrase_from({}, lambda prompt: PHRASE) == PHRASE
    for environ, ask in (({}, None), ({VARIABLE: "short"}, None), ({}, lambda prompt: "")):
        with pytest.raises(UsageError) as caught:
            phrase_from(environ, ask)
        assert "short" not in str(caught.value)
    monkeypatch.setattr("sys.stdin", io.StringIO())
    monkeypatch.delenv(VARIABLE, raising=False)
    with pytest.raises(UsageError, match=VARIABLE):
        opened("0.0.0.0")
    assert opened("127.0.0.1") is None and opened("::1") is None
    monkeypatch.setenv(VARIABLE, PHRASE)
    made = opened("0.0.0.0")
    assert made is not None and PHRASE not in repr(made)
    said = "".join(capsys.readouterr())
    assert "nothing is encrypted" in said and PHRASE not in said


def test_no_option_of_the_command_takes_a_phrase() -> None:
    import inspect

    from oatsack.cli.verbs.serve import serve

    assert set(inspect.signature(serve).parameters) == {"folder", "port", "host", "browser"}


def test_a_port_that_is_taken_is_told() -> None:
    first = listening("127.0.0.1", 0)
    try:
        assert shown(first).startswith("127.0.0.1:")
        for port in (first.getsockname()[1], 70_000):
            with pytest.raises(UsageError, match="cannot listen"):
                listening("127.0.0.1", port)
    finally:
        first.close()


@pytest.fixture
def locked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Client:
    monkeypatch.setattr("oatsack.web.lock.WAIT_S", 0.0)
    return Client(tmp_path, opening=Opening(names=names_of("0.0.0.0"), lock=Lock(PHRASE)))


@pytest.mark.slow
def test_nothing_is_shown_before_the_phrase_and_everything_after(locked: Client) -> None:
    for path in GETS:
        answer = locked.get(path)
        assert answer.status_code == 401 and "walk" not in answer.text, path
        assert "content-security-policy" in answer.headers
    for path in POSTS:
        assert locked.post(path, {"token": "x"}).status_code == 401, path
    assert locked.post("/enter", {"phrase": PHRASE + "x"}).status_code == 401
    answer = locked.post("/enter", {"phrase": PHRASE})
    assert answer.status_code == 200 and "walk" in answer.text
    assert locked.get("/trip/walk/text").status_code == 200
    cookie = answer.history[0].headers["set-cookie"].casefold()
    assert "httponly" in cookie and "samesite=strict" in cookie


def test_guessing_is_bounded_even_for_the_right_phrase(locked: Client) -> None:
    for _ in range(MOST_TRIES):
        assert locked.post("/enter", {"phrase": "wrong"}).status_code == 401
    assert locked.post("/enter", {"phrase": PHRASE}).status_code == 429
    assert locked.http.post("/enter", content=b"phrase=" + b"x" * 9000).status_code == 429


def test_bounds_of_guessing_are_forgotten_after_a_minute() -> None:
    now = [0.0]
    lock = Lock(PHRASE, clock=lambda: now[0])
    for _ in range(MOST_TRIES):
        lock.missed()
    assert lock.tired()
    now[0] = 61.0
    assert not lock.tired() and lock.right(PHRASE)


def test_a_ticket_is_of_this_run_and_cannot_be_made_up() -> None:
    lock, other = Lock(PHRASE), Lock(PHRASE)
    ticket = lock.ticket()
    assert lock.admits(ticket) and not other.admits(ticket)
    for wrong in ("", ".", "a.b", ticket[:-1], ticket + "0", "x" + ticket, "\udcff.é"):
        assert not lock.admits(wrong), wrong


def test_a_wrong_origin_cannot_even_try(locked: Client) -> None:
    answer = locked.post("/enter", {"phrase": PHRASE}, headers={"origin": "http://pages.example"})
    assert answer.status_code == 403
    assert locked.get("/", headers={"host": "pages.example"}).status_code == 400
    assert locked.get("/", headers={"host": "192.168.1.7:80"}).status_code == 401


def served(folder: Path, *options: str, **environ: str) -> subprocess.Popen[str]:
    """The command itself, in a process of its own."""
    return subprocess.Popen(
        [sys.executable, "-m", "oatsack", "serve", str(folder), "--no-browser", *options],
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL, text=True,
        env={k: v for k, v in os.environ.items() if k != VARIABLE} | environ,
    )  # fmt: skip


def told(process: subprocess.Popen[str]) -> tuple[str, str]:
    """All that is said up to the address, and the address with a name that this machine has."""
    assert process.stdout is not None
    said = ""
    while "is at" not in said:
        line = process.stdout.readline()
        assert line, said
        said += line
    found = re.search(r"http://\S+:(\d+)/", said)
    assert found, said
    return said, f"http://127.0.0.1:{found[1]}/"


@pytest.mark.slow
def test_the_command_serves_this_machine_and_asks_others_for_the_phrase(tmp_path: Path) -> None:
    refused = served(tmp_path, "--host", "0.0.0.0")
    said, _ = refused.communicate(timeout=60)
    assert refused.returncode == 2 and VARIABLE in said and "Traceback" not in said
    open_to_all = ("--host", "0.0.0.0")
    for options, environ, status in (((), {}, 200), (open_to_all, {VARIABLE: PHRASE}, 401)):
        process = served(tmp_path, *options, **environ)
        try:
            said, address = told(process)
            assert ("nothing is encrypted" in said) == bool(options) and PHRASE not in said
            assert httpx.get(address, timeout=60).status_code == status
        finally:
            process.kill()
            process.communicate()
