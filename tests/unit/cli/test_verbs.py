"""Every verb on a plan that is already made: its exit code, its first words, its refusals."""

from __future__ import annotations

import json
import os
import socket
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from oatsack.cli.main import run
from oatsack.cli.verbs import serve as serve_verb
from oatsack.cli.verbs.serve import listening, opened, shown
from oatsack.errors import UsageError
from oatsack.files.planfile import dump
from oatsack.web.lock import VARIABLE
from support.each import each
from support.sample_plan import sample_plan

PLAN = sample_plan()
Typed = Callable[..., tuple[int, str, str]]
Listens = Callable[[str, int], socket.socket]


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the sample plan, in which commands are typed."""
    (tmp_path / "plan.json").write_bytes(dump(PLAN))
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def typed(here: Path, capsys: pytest.CaptureFixture[str]) -> Typed:
    """Runs a command; gives its exit code, standard output and standard error."""

    def command(*words: str) -> tuple[int, str, str]:
        code = run(words)
        told = capsys.readouterr()
        return code, told.out, told.err

    return command


def test_what_a_verb_shows_goes_to_standard_output_and_is_done(typed: Typed) -> None:
    wrong = []
    for line, begins in (
        ("show plan.json", "Heron Tarns round\n"),
        ("show plan.json kitchen", "Heron Tarns round: kitchen\n"),
        ("kitchen plan.json", "Heron Tarns round: kitchen\n"),
        ("kitchen plan.json --kit", "Heron Tarns round: pots and kit\n"),
        ("kitchen plan.json --no-flame", "Heron Tarns round: without a flame\n"),
        ("why plan.json totals/energy_kcal", "totals/energy_kcal = "),
        ("why plan.json", ""),
        ("repack plan.json plan.json", "No bag needs to be opened.\n"),
        ("weigh plan.json 1 208g", "Bag 1 (breakfast for Anna): 208 g, as it should be"),
        ("weigh plan.json b1 146g", "Bag 1 (breakfast for Anna): 62 g light"),
        ("models tobler", "tobler: Tobler's hiking function"),
        ("foods rolled-oats --limit 1", "id "),
    ):
        code, out, err = typed(*line.split())
        if code != 0 or not out.startswith(begins) or err:
            wrong.append((line, code, out[:60], err))
    assert wrong == []


def test_what_cannot_be_done_goes_to_standard_error_with_what_there_is(typed: Typed) -> None:
    wrong = []
    for line, says in (
        ("show plan.json nonsense", "there are: first, plan, need"),
        ("show none.json", "none.json: the file: cannot be read"),
        ("weigh plan.json nobag 100g", "there is: b1, b2"),
        ("weigh plan.json 1 100", "a mass without its unit"),
        ("print plan.json --only nonsense", "there is no report 'nonsense'"),
        ("print plan.json --paper a3", '"a4", "letter"'),
        ("swap plan.json rye-crackers --for oats", "did you mean 'crackers'?"),
        ("swap plan.json crackers", "--for"),
        ("packed plan.json", "no trip file stands beside plan.json"),
        ("packed plan.json --undo", "no trip file stands beside plan.json"),
        ("repack plan.json none.json", "none.json: the file: cannot be read"),
        ("why plan.json menu", "menu is no number; it holds: portions"),
        ("models nope", "there are: lcda-backpacking-2022"),
        ("need none.toml", "none.toml: the file: cannot be read"),
        ("check none.toml", "none.toml: the file: cannot be read"),
        ("plan none.toml", "none.toml: the file: cannot be read"),
        ("backup nofolder", "no workspace in nofolder"),
        ("foods --limit 0", "--limit: at least 1, got 0"),
        ("boil-test --boil 2", 'write before and after, as "211 g, 204 g"'),
        ("boil-test --boil 204g,211g", "boil 1 burnt no fuel"),
        ("boil-test --boil 211g,204g --fuel tea", "no fuel 'tea'; there is: gas"),
        ("boil-test --boil 211g,204g --to 10C", "check its masses and temperatures"),
        ("boil-test", "--boil"),
    ):
        code, out, err = typed(*line.split())
        if code != 2 or out or says not in err or "Traceback" in err:
            wrong.append((line, code, out[:60], err))
    assert wrong == []


def test_papers_are_written_beside_the_plan_or_where_one_asks(typed: Typed, here: Path) -> None:
    for words, path in (
        ((" labels , ",), Path("labels.pdf")),
        (("tags", "--out", "paper"), Path("paper") / "tags.pdf"),
    ):
        assert typed("print", "plan.json", "--only", *words) == (0, "", f"wrote {path}\n")
        assert (here / path).read_bytes().startswith(b"%PDF")


def test_models_as_json_are_the_models_of_the_screen(typed: Typed) -> None:
    (one,) = json.loads(typed("models", "tobler", "--json")[1])
    assert one["name"] == "tobler"
    assert one in json.loads(typed("models", "--json")[1])


def test_the_list_of_foods_says_how_many_it_left_out(typed: Typed) -> None:
    _, out, _ = typed("foods", "category:nut", "--limit", "3")
    head, *rows, last = out.splitlines()
    assert head.split() == ["id", "name", "dose", "kcal", "pack", "suits"]
    assert len(rows) == 3
    _, every, _ = typed("foods", "category:nut", "--limit", last.split()[-1].rstrip(")"))
    left = len(every.splitlines()) - 1 - 3
    assert last == f"... and {left} more (--limit {left + 3})"
    assert "more (--limit" not in every
    assert every.splitlines()[1:4] == rows


def test_the_list_of_foods_reads_ones_own_larder(typed: Typed, here: Path) -> None:
    head = "id,name,category,pack_g,doses,kcal,per,meals"
    row = "own-oats,Own oats,breakfast,500,10,380,100 g,breakfast"
    (here / "own.csv").write_text(f"{head}\n{row}\n", encoding="utf-8")
    code, out, err = typed("foods", "--larder", "own.csv")
    assert (code, err) == (0, "")
    # 500 g in ten doses of 50 g, which hold half of 380 kcal.
    assert out.splitlines()[1].split() == [
        "own-oats", "Own", "oats", "50", "g", "190", "500", "g", "breakfast",
    ]  # fmt: skip
    (here / "own.csv").write_text(f"{head}\n{row[:-9]}breakfst\n", encoding="utf-8")
    code, out, err = typed("foods", "--larder", "own.csv")
    assert (code, out) == (2, "")
    assert err.startswith("own.csv:2:")


def test_a_swap_that_cannot_be_is_explained_and_writes_nothing(typed: Typed, here: Path) -> None:
    code, _, err = typed("swap", "plan.json", "crackers", "--for", "flour-tortilla", "--out", "new")
    assert code == 1
    assert "does not suit what Anna eats" in err
    code, _, err = typed("swap", "plan.json", "crackers", "--for", "crackers", "--out", "new")
    assert (code, err) == (2, "crackers for crackers: that is the same food\n")
    assert not (here / "new").exists()


# What `serve` listens at


@pytest.fixture
def socket_of() -> Iterator[Listens]:
    """Listens, and stops when the test is over."""
    open_ones: list[socket.socket] = []

    def taken(host: str, port: int) -> socket.socket:
        open_ones.append(listening(host, port))
        return open_ones[-1]

    yield taken
    for one in open_ones:
        one.close()


def test_a_free_port_is_taken_and_its_address_told(socket_of: Listens) -> None:
    first, second = socket_of("127.0.0.1", 0), socket_of("127.0.0.1", 0)
    ports = [one.getsockname()[1] for one in (first, second)]
    assert len({*ports, 0}) == 3
    assert shown(first) == f"127.0.0.1:{ports[0]}"


def test_where_it_listens_everywhere_the_machines_name_is_told(socket_of: Listens) -> None:
    every = socket_of("0.0.0.0", 0)
    assert shown(every) == f"{socket.gethostname()}:{every.getsockname()[1]}"


@each(
    ("host", "port", "why"),
    [("127.0.0.1", 99_999_999, "port must be"), ("no.such.host.invalid", 0, ""),
     ("203.0.113.7", 0, "")],
)  # fmt: skip
def test_where_nobody_can_listen_is_wrong_use(host: str, port: int, why: str) -> None:
    with pytest.raises(UsageError, match=f"cannot listen at {host}, port {port}: .*{why}"):
        listening(host, port)


def test_a_port_that_is_taken_is_wrong_use(socket_of: Listens) -> None:
    port = socket_of("127.0.0.1", 0).getsockname()[1]
    with pytest.raises(UsageError, match=f"port {port}"):
        listening("127.0.0.1", port)


def test_this_machine_needs_no_pass_phrase_and_any_other_does(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.setattr(sys.stdin, "isatty", lambda: False, raising=False)
    for host in ("localhost", "LOCALHOST", "127.0.0.1", "127.9.9.9", "::1", "[::1]"):
        assert opened(host) is None, host
    for host in ("0.0.0.0", "::", "192.0.2.1", "some-machine"):
        with pytest.raises(UsageError, match=VARIABLE):
            opened(host)
    assert capsys.readouterr().err == ""


def test_a_pass_phrase_is_taken_from_the_environment_or_typed_unseen(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(os.environ, VARIABLE, "a long enough phrase")
    opening = opened("0.0.0.0")
    assert opening is not None
    assert capsys.readouterr().err.strip()  # what such a server lacks is said
    monkeypatch.delitem(os.environ, VARIABLE)
    monkeypatch.setattr(sys.stdin, "isatty", lambda: True, raising=False)
    asked: list[str] = []
    monkeypatch.setattr(serve_verb, "_typed", lambda prompt: asked.append(prompt) or "too short")
    with pytest.raises(UsageError):
        opened("0.0.0.0")
    assert len(asked) == 1
