"""Every command shown on the page of the kitchen runs as it stands."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from oatsack.cli.main import run
from oatsack.files.planfile import dump
from support.plans import short_plan

pytestmark = pytest.mark.slow

PAGE = Path(__file__).resolve().parents[2] / "docs" / "explain" / "kitchen.md"


def shown() -> list[list[str]]:
    blocks = re.findall(r"```sh\n(.*?)```", PAGE.read_text(encoding="utf-8"), flags=re.DOTALL)
    lines = [line for block in blocks for line in block.splitlines() if line.strip()]
    return [shlex.split(line, comments=True) for line in lines]


def test_every_command_shown_runs(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "plan.json").write_bytes(dump(short_plan()))
    monkeypatch.chdir(tmp_path)
    commands = shown()
    assert len(commands) >= 6 and all(words[0] == "oatsack" for words in commands)
    failed = []
    for words in commands:
        code = run(words[1:])
        told = capsys.readouterr()
        if code != 0 or not told.out.strip():
            failed.append(f"{' '.join(words)}: {code} {told.err}")
    assert failed == []
