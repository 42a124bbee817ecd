"""The commands that the documentation shows are run, page by page, in the order shown."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
BLOCK = re.compile(r"^```(sh|toml)\n(.*?)^```$", flags=re.MULTILINE | re.DOTALL)
FILE = re.compile(r"# file: (\S+)\n")
PAGES = sorted(
    page.relative_to(ROOT).as_posix()
    for page in [ROOT / "README.md", *(ROOT / "docs").rglob("*.md")]
    if re.search(r"^```sh\n\s*oatsack ", page.read_text(encoding="utf-8"), flags=re.MULTILINE)
)


def run(line: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """One shown command, with nothing typed where it asks."""
    words = shlex.split(line, comments=True)
    assert words[0] == "oatsack", line
    return subprocess.run(
        [sys.executable, "-m", "oatsack", *words[1:]], cwd=folder, stdin=subprocess.DEVNULL,
        capture_output=True, text=True, check=False,
    )  # fmt: skip


def test_there_are_pages_to_run() -> None:
    assert "docs/first-trip.md" in PAGES


@pytest.mark.slow
@pytest.mark.parametrize("page", PAGES)
def test_the_commands_of_a_page_run_in_their_order(page: str, tmp_path: Path) -> None:
    failed = []
    for kind, body in BLOCK.findall((ROOT / page).read_text(encoding="utf-8")):
        if kind == "toml" and (named := FILE.match(body)):
            (tmp_path / named[1]).write_text(body, encoding="utf-8")
        if kind == "sh":
            for line in filter(None, (text.strip() for text in body.splitlines())):
                done = run(line, tmp_path)
                if done.returncode != 0:
                    failed.append(f"{line}\n{done.stdout[-300:]}{done.stderr[-600:]}")
    assert failed == [], "\n\n".join(failed)
