"""What a showing command loads: its speed is the sum of that, and modules can be counted anywhere.

How long a start takes is measured by `python -m bench start`; a timed test would fail on a busy
machine and say nothing about why.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest

from oatsack.cli.verbs import VERBS
from oatsack.files.planfile import dump
from support.sample_plan import sample_plan

HEAVY = ("numpy", "highspy", "rich", "cyclopts", "pydantic", "typst", "jinja2", "starlette",
         "xlsxwriter", "tree_sitter", "defusedxml", "astral", "uvicorn")  # fmt: skip
COUNTED = """
import contextlib, io, json, sys
from oatsack.cli.main import run
heard = {}
for words in json.loads(sys.argv[1]):
    with contextlib.redirect_stdout(io.StringIO()):
        code = run(words)
    known = {name.partition(".")[0] for name in sys.modules}
    ours = sum(name.startswith("oatsack") for name in sys.modules)
    heard[" ".join(words)] = [code, sorted(known), ours]
print(json.dumps(heard))
"""


def loaded(*commands: list[str]) -> dict[str, tuple[int, list[str], int]]:
    """Command -> exit code, packages loaded after it, and how many modules of ours.

    All run in one process, so that each also bears what those before it loaded.
    """
    done = subprocess.run(
        [sys.executable, "-c", COUNTED, json.dumps(commands)], capture_output=True, text=True,
        check=True, env=os.environ | {"PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip
    found: dict[str, tuple[int, list[str], int]] = json.loads(done.stdout)
    return found


@pytest.fixture(scope="module")
def plan_file(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The sample plan as a file."""
    path = tmp_path_factory.mktemp("plan") / "plan.json"
    path.write_bytes(dump(sample_plan()))
    return str(path)


def test_what_only_shows_loads_neither_a_solver_nor_a_parser_nor_numbers(plan_file: str) -> None:
    found = loaded(
        [], ["--version"], *([verb.name, "--help"] for verb in VERBS),
        ["foods", "oats"], ["foods", "--limit", "3"], ["why", plan_file],
        ["why", plan_file, "totals/g_per_person_day"], ["show", plan_file],
        ["show", plan_file, "shopping"], ["kitchen", plan_file], ["models", "pandolf-1977"],
    )  # fmt: skip
    wrong = {
        command: (code, [name for name in HEAVY if name in packages])
        for command, (code, packages, _) in found.items()
        if code or any(name in packages for name in HEAVY)
    }
    assert wrong == {}


def test_a_search_of_the_larder_loads_no_plan() -> None:
    ((_, _, ours),) = loaded(["foods", "oats"]).values()
    assert ours <= 25, "a search needs the larder, its words and nothing else"


def test_the_count_finds_what_is_loaded() -> None:
    ((code, packages, ours),) = loaded(["foods", "--limit", "x"]).values()
    assert code == 2
    assert "cyclopts" in packages
    assert ours > 3
