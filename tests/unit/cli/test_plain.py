"""The everyday reading of a command against the parser's, and the help of every verb."""

from __future__ import annotations

import inspect
from pathlib import Path

import pytest
from cyclopts.exceptions import CycloptsError
from hypothesis import given
from hypothesis import strategies as st

from oatsack.cli import main as door
from oatsack.cli import plain
from oatsack.cli.main import build, run
from oatsack.cli.verbs import VERBS

BY_NAME = {verb.name: verb for verb in VERBS}
APP = build()
VALUES = ("plan.json", "oats", "12", "452 g", "-1", "--", "-", "", "a=b", "--out=x", "3.5", "yes")


def plainly(name: str, words: list[str]) -> inspect.BoundArguments | None:
    """What the everyday reading calls a verb with, defaults filled in."""
    function = plain.function_of(BY_NAME[name])
    found = plain.read(words, plain.arguments_of(function))
    if found is None:
        return None
    bound = inspect.signature(function).bind(*found[0], **found[1])
    bound.apply_defaults()
    return bound


def parsed(name: str, words: list[str]) -> inspect.BoundArguments | None:
    """What the parser calls it with; None where it refuses."""
    try:
        _, bound, _ = APP.parse_args([name, *words], exit_on_error=False, print_error=False)
    except CycloptsError:
        return None
    bound.apply_defaults()
    return bound


@st.composite
def commands(draw: st.DrawFn) -> tuple[str, list[str]]:
    """A verb and words as people and monkeys type them."""
    name = draw(st.sampled_from(sorted(BY_NAME)))
    known = plain.arguments_of(plain.function_of(BY_NAME[name]))
    options = [word for one in known for word in one.options] + ["--nothing", "-x", "--no-json"]
    words = draw(st.lists(st.sampled_from([*options, *VALUES]), max_size=5))
    return name, [word for word in words if word not in ("--help", "-h", "--version")]


@given(commands())
def test_what_is_read_plainly_the_parser_reads_alike(command: tuple[str, list[str]]) -> None:
    name, words = command
    found = plainly(name, words)
    if found is not None:
        other = parsed(name, words)
        assert other is not None, (name, words)
        assert found.arguments == other.arguments, (name, words)


def test_everyday_commands_need_no_parser() -> None:
    everyday = {
        "demo": ([], ["folder"]), "plan": (["t.toml"], ["t.toml", "--out", "here", "--full"]),
        "check": (["t.toml"],), "foods": ([], ["oats"], ["oats", "milk", "--limit", "5"]),
        "why": (["plan.json"], ["plan.json", "totals/energy_kcal"]),
        "show": (["plan.json"], ["plan.json", "menu"]), "kitchen": (["plan.json"],),
        "models": ([], ["pandolf-1977"], ["--json"]), "weigh": (["plan.json", "3", "452 g"],),
        "swap": (["plan.json", "oats", "--for", "rice"],), "repack": (["a.json", "b.json"],),
        "print": (["plan.json", "--all", "-o", "here"],), "need": (["t.toml", "--range"],),
        "serve": ([], ["trips"], ["trips", "--no-browser"], ["--browser"]),
    }  # fmt: skip
    for name, lists in everyday.items():
        for words in lists:
            assert plainly(name, list(words)) is not None, (name, words)


def test_what_has_no_plain_meaning_is_left_to_the_parser() -> None:
    for name, words in {
        "why": [], "weigh": ["plan.json", "3"], "show": ["a", "b", "c"], "kitchen": ["a", "b"],
        "foods": ["--limit", "many"], "plan": ["t.toml", "--out"], "models": ["--jsn"],
        "start": ["--mass", "60 kg"], "print": ["plan.json", "--paper", "a4"],
        "serve": ["--no-port"], "swap": ["plan.json", "oats"],
        "need": ["t.toml", "--json", "--json"], "check": ["--trip", "t.toml"],
    }.items():  # fmt: skip
        assert plainly(name, words) is None, (name, words)


def test_values_come_as_the_verb_wants_them() -> None:
    bound = plainly("plan", ["t.toml", "--seed", "7", "--json", "-o", "x", "--near", "p.json"])
    assert bound is not None
    wanted = {"trip": Path("t.toml"), "seed": 7, "json": True, "out": Path("x"), "full": False,
              "near": Path("p.json"), "target": None, "work": 1}  # fmt: skip
    assert {name: bound.arguments[name] for name in wanted} == wanted


def test_the_help_of_every_verb_names_all_its_arguments_with_their_texts(
    capsys: pytest.CaptureFixture[str],
) -> None:
    for verb in VERBS:
        assert run([verb.name, "--help"]) == 0
        page = capsys.readouterr().out
        assert page.startswith(f"Usage: oatsack {verb.name}"), verb.name
        assert all(len(line) <= 80 for line in page.splitlines()), verb.name
        flat = " ".join(page.split())
        document = inspect.getdoc(plain.function_of(verb)) or ""
        for one in plain.arguments_of(plain.function_of(verb)):
            shown = one.name.upper().rstrip("_") if one.placed else one.options[0]
            assert shown in flat, (verb.name, one.name)
            text = document.split(f"\n{one.name}\n", 1)[1].split("\n")[0].strip()
            assert text in flat, (verb.name, one.name)


def test_help_says_what_is_left_out_and_what_has_to_be_given() -> None:
    page = {name: plain.help_page(verb) for name, verb in BY_NAME.items()}
    assert "Without it: 20." in page["foods"]
    assert "Has to be given." in page["swap"]
    assert "--paper a4|letter" in page["print"]
    assert "--browser, --no-browser" in page["serve"]
    assert "[WORDS...]" in page["foods"]
    assert "[REPORT]" in page["show"]


def test_a_command_read_plainly_never_builds_the_parser(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(door, "build", lambda: pytest.fail("the parser was built"))
    assert run(["foods", "oats", "--limit", "1"]) == 0
    assert capsys.readouterr().out
