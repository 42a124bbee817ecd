"""The command line in one process: loudness, exit codes, words for clashes, the terminal."""

from __future__ import annotations

import io
import logging
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from oatsack import __version__
from oatsack.cli import main as door
from oatsack.cli import screen
from oatsack.cli.main import loudness, run, said
from oatsack.cli.verbs import VERBS
from oatsack.errors import NoPlan
from oatsack.files.planfile import dump
from oatsack.values.flags import Flag
from oatsack.values.menu import Menu
from support.sample_plan import sample_plan

PLAN = sample_plan()
WORDS = st.lists(st.sampled_from(["-q", "--quiet", "-v", "--verbose", "plan", "x.toml", "--json"]))


@pytest.fixture
def plan_file(tmp_path: Path) -> str:
    """The sample plan as a file."""
    path = tmp_path / "plan.json"
    path.write_bytes(dump(PLAN))
    return str(path)


@given(WORDS)
def test_loudness_takes_its_words_out_and_counts_them(words: list[str]) -> None:
    kept, loud = loudness(words)
    assert kept == [w for w in words if not w.startswith(("-q", "-v", "--q", "--v"))]
    assert loud == sum(w[:2] == "-v" or w[:3] == "--v" for w in words) - sum(
        w[:2] == "-q" or w[:3] == "--q" for w in words)  # fmt: skip


@pytest.mark.parametrize(("loud", "level"), [
    (-5, logging.CRITICAL), (-2, logging.CRITICAL), (-1, logging.ERROR), (1, logging.INFO),
    (2, logging.DEBUG), (9, logging.DEBUG),
])  # fmt: skip
def test_more_of_a_letter_is_more_of_the_same(
    loud: int, level: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    heard: list[int] = []
    monkeypatch.setattr(logging, "basicConfig", lambda **more: heard.append(more["level"]))
    door.start_log(loud)
    assert heard == [level]


def test_without_a_word_no_log_is_set_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(logging, "basicConfig", lambda **_: pytest.fail("a log was set up"))
    door.start_log(0)


def test_no_verb_is_named_twice_and_each_says_what_it_does() -> None:
    assert len({v.name for v in VERBS}) == len(VERBS)
    assert all(v.help.endswith(".") and len(v.help) <= 60 for v in VERBS)


def test_the_version_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--version"]) == 0
    assert __version__ in capsys.readouterr().out


@pytest.mark.parametrize("words", [["fly"], ["weigh"], ["foods", "--limit", "many"]])
def test_wrong_use_is_exit_code_two_without_a_traceback(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(words) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_a_number_is_opened(plan_file: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["why", plan_file, "totals/g_per_person_day"]) == 0
    assert capsys.readouterr().out.startswith("totals/g_per_person_day = ")


def test_a_wrong_address_goes_to_standard_error(
    plan_file: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["why", plan_file, "totals/nothing"]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "nothing" in told.err


def test_a_bag_is_weighed(plan_file: str, capsys: pytest.CaptureFixture[str]) -> None:
    bag = PLAN.packed.bags[0]
    assert run(["weigh", plan_file, bag.id, f"{bag.gross_g:.0f} g"]) == 0
    assert "as it should be" in capsys.readouterr().out


def test_a_report_is_shown_and_a_wrong_one_refused(
    plan_file: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["show", plan_file, "shopping"]) == 0
    assert "Rye crackers" in capsys.readouterr().out
    assert run(["show", plan_file, "nonsense"]) == 2


def test_foods_are_found_and_what_is_not_there_is_said(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run(["foods", "oatmeal", "--limit", "1"]) == 0
    assert "oatmeal" in capsys.readouterr().out
    assert run(["foods", "qqqqzzzzxxxx"]) == 0
    assert "nothing in the larder" in capsys.readouterr().out


def test_fewer_than_one_food_is_wrong_use(capsys: pytest.CaptureFixture[str]) -> None:
    for limit in ("0", "-2"):
        assert run(["foods", "--limit", limit]) == 2
        assert "at least 1" in capsys.readouterr().err


def test_a_larder_that_is_missing_is_wrong_use(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["foods", "--larder", "no-such-file.csv"]) == 2
    assert "no larder file" in capsys.readouterr().err


def test_a_stove_is_tested(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["boil-test", "-b", "211 g, 204 g", "-b", "204 g, 197 g"]) == 0
    assert "%" in capsys.readouterr().out


def test_an_interrupt_stops_quietly(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def stopped() -> object:
        raise KeyboardInterrupt

    monkeypatch.setattr(door, "build", stopped)
    assert run(["plan"]) == 130
    assert capsys.readouterr().err == "stopped\n"


def test_what_cannot_be_provisioned_is_exit_code_one(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def clash() -> object:
        raise NoPlan(["too little"])

    monkeypatch.setattr(door, "build", clash)
    assert run(["plan"]) == 1
    assert capsys.readouterr().err.strip()


def test_ways_out_are_said_after_what_clashes(monkeypatch: pytest.MonkeyPatch) -> None:
    from oatsack.reports.words import Voice

    monkeypatch.setattr(Voice, "flag", lambda _, flag: flag.key)
    flags = [Flag(key="way-out.budget", level="note"), Flag(key="clash.energy", level="block")]
    lines = said(NoPlan(["x"], flags)).splitlines()
    assert lines[1:] == ["  clash.energy", "  way-out.budget"]


def test_a_reader_that_leaves_is_no_error(monkeypatch: pytest.MonkeyPatch) -> None:
    def left(_: object) -> int:
        raise BrokenPipeError

    monkeypatch.setattr(door, "run", left)
    monkeypatch.setattr(sys, "stderr", io.StringIO())
    monkeypatch.setattr(sys, "argv", ["oatsack", "foods"])
    with pytest.raises(SystemExit) as ended:
        door.main()
    assert ended.value.code == 0


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """It is."""
        return True


def test_a_pipe_has_no_colour_and_eighty_columns(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdout", io.StringIO())
    assert not screen.coloured()
    assert screen.width() == 80


@pytest.mark.parametrize(("columns", "used"), [(60, 60), (100, 100), (300, 120)])
def test_a_wide_terminal_is_used_up_to_a_readable_line(
    columns: int, used: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdout", Terminal())
    monkeypatch.setattr(shutil, "get_terminal_size", lambda _: os.terminal_size((columns, 24)))
    assert screen.width() == used


def test_colour_is_left_out_where_nobody_wants_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdout", Terminal())
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert screen.coloured()
    monkeypatch.setenv("NO_COLOR", "")
    assert not screen.coloured()


def test_progress_is_shown_on_a_terminal_only_and_wiped(monkeypatch: pytest.MonkeyPatch) -> None:
    menu = Menu(portions=(), aim=9000.0, bound=8910.0)
    for stream, shown in ((io.StringIO(), False), (Terminal(), True)):
        monkeypatch.setattr(sys, "stderr", stream)
        assert screen.follow(menu) is True
        assert ("9.00 kg-days" in stream.getvalue()) == shown
        screen.followed()
        assert stream.getvalue().endswith("\r") == shown


def test_a_report_is_printed_to_standard_output(capsys: pytest.CaptureFixture[str]) -> None:
    screen.show(PLAN, "shopping")
    told = capsys.readouterr()
    assert "Rye crackers" in told.out
    assert told.err == ""


def test_a_line_beside_the_result_goes_to_standard_error(
    capsys: pytest.CaptureFixture[str],
) -> None:
    screen.say("written")
    assert capsys.readouterr() == ("", "written\n")


def test_words_may_be_doubled_in_one() -> None:
    assert loudness(["plan", "-vv", "x"]) == (["plan", "x"], 2)
    assert loudness(["-qq"]) == ([], -2)


@pytest.mark.slow
def test_who_asks_for_a_log_is_told_what_is_read_and_by_whom(tmp_path: Path) -> None:
    """In a program of its own: the log is set up once for each."""
    (tmp_path / "t.toml").write_text(
        'from = "2027-07-02 09:00"\nto = "2027-07-03 15:00"\n[[walkers]]\nmass = "68 kg"\n'
        '[route]\nusual_day = { distance = "12 km" }\n', "utf-8",
    )  # fmt: skip
    for word, told in (("-v", True), ("-q", False)):
        done = subprocess.run(
            [sys.executable, "-m", "oatsack", word, "check", "t.toml"], cwd=tmp_path,
            capture_output=True, text=True, check=True,
        )  # fmt: skip
        assert ("INFO read t.toml" in done.stderr) is told
        assert "INFO" not in done.stdout
        assert "no fault" in done.stdout


def test_a_trip_that_is_not_there_is_answered_with_how_to_make_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["plan", str(tmp_path / "no.toml")]) == 2
    assert "oatsack start" in capsys.readouterr().err
    assert run(["show", str(tmp_path / "no.json")]) == 2
    assert "oatsack plan TRIP.toml" in capsys.readouterr().err
