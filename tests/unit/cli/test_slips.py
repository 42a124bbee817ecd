"""What is said when a command gives no answer: where to look, and JSON for who asked for JSON."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from oatsack.cli import main as door
from oatsack.cli.main import refused, run
from oatsack.errors import NoPlan, UsageError
from oatsack.values.flags import Flag


def told(capsys: pytest.CaptureFixture[str], *words: str) -> list[str]:
    assert run(words) == 2
    out, err = capsys.readouterr()
    assert out == ""
    return err.splitlines()


def test_a_slip_is_told_in_plain_lines_with_where_to_look(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """A place is named as help names it, never as an option that nobody wrote."""
    found = {" ".join(words): told(capsys, *words) for words in (
        ["plan"], ["weigh", "p.json"], ["plna"], ["more"], ["foods", "--nix"],
        ["plan", "t.toml", "--work", "x"],
    )}  # fmt: skip
    assert found == {
        "plan": ["oatsack plan: TRIP is missing", "    oatsack plan --help says what it takes"],
        "weigh p.json": ["oatsack weigh: BAG is missing",
                         "    oatsack weigh --help says what it takes"],
        "plna": ['there is no command "plna"', "    did you mean: oatsack plan"],
        "more": ['there is no command "more"', "    oatsack --help lists them"],
        "foods --nix": ["Unknown option: --nix", "    oatsack foods --help says what it takes"],
        "plan t.toml --work x": ['Invalid value for --work: unable to convert "x" into int',
                                 "    oatsack plan --help says what it takes"],
    }  # fmt: skip


def test_json_is_still_json_where_there_is_no_plan(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    flag = Flag(key="no-plan.budget-over", level="block", values={"over": 3.0, "limit": 5.0})
    monkeypatch.setattr(door, "said", lambda error: "It clashes.\n  A way out.")
    assert refused(NoPlan(["x"], [flag]), as_data=True) == 1
    out, err = capsys.readouterr()
    assert err == "It clashes.\n  A way out.\n"
    assert json.loads(out) == {
        "exit_code": 1, "said": ["It clashes.", "  A way out."],
        "flags": [{"key": "no-plan.budget-over", "level": "block", "scope": "", "source": "",
                   "values": {"over": 3.0, "limit": 5.0}}],
    }  # fmt: skip
    assert refused(UsageError("wrong use"), as_data=False) == 2
    assert capsys.readouterr().out == ""


def test_json_of_a_broken_file_holds_every_fault(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / "t.toml"
    path.write_text('titel = "x"\nfrom = "soon"\n', encoding="utf-8")
    for verb in ("plan", "need"):
        assert run([verb, str(path), "--json"]) == 2
        out, err = capsys.readouterr()
        data = json.loads(out)
        assert data["exit_code"] == 2 and data["said"] == err.splitlines()
        places = {(f["path"], f["line"], f["column"]) for f in data["faults"]}
        assert {("titel", 1, 1), ("from", 2, 8)} <= places
