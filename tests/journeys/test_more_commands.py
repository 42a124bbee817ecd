"""The verbs beside planning, run as programs: what they print, their exit codes, no traceback."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from judge.judge import judge
from oatsack.files.larder import bundled, write_larder
from support.plans import SHORT

pytestmark = pytest.mark.slow


def oatsack(*words: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Runs the program in a folder with nothing to type on."""
    return subprocess.run(
        [sys.executable, "-m", "oatsack", *words], cwd=folder, input="",
        capture_output=True, text=True, encoding="utf-8", check=False,
    )  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "trip.toml").write_text(SHORT, encoding="utf-8")
    return tmp_path


def test_need_is_told_without_a_menu(folder: Path) -> None:
    done = oatsack("need", "trip.toml", folder=folder)
    assert done.returncode == 0, done.stderr
    assert "Anna" in done.stdout
    assert "pandolf-1977" in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_need_as_json_parses_with_draws(folder: Path) -> None:
    done = oatsack("need", "trip.toml", "--range", "--json", folder=folder)
    assert set(json.loads(done.stdout)["need"]) == {"anna", "ben"}


def test_models_are_listed_anywhere(tmp_path: Path) -> None:
    done = oatsack("models", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "lcda-backpacking-2022 (default)" in done.stdout


def test_check_says_how_a_larder_is_written(folder: Path) -> None:
    (folder / "mine.csv").write_bytes(write_larder(bundled(), decimal=","))
    trip = SHORT + '[larder]\nfiles = ["mine.csv"]\n'
    (folder / "trip.toml").write_text(trip, encoding="utf-8")
    done = oatsack("check", "trip.toml", folder=folder)
    assert done.returncode == 0, done.stderr
    assert "mine.csv: read as UTF-8" in done.stdout
    assert "decimal commas" in done.stdout


def test_a_swap_is_written_and_the_bags_repacked(folder: Path) -> None:
    done = oatsack("plan", "trip.toml", "--out", "plan", folder=folder)
    assert done.returncode == 0, done.stderr
    words = ("plan/plan.json", "fd-lasagna-veg", "--for")
    refused = oatsack("swap", *words, "fd-beef", folder=folder)
    assert refused.returncode == 1
    assert "Anna" in refused.stderr
    swapped = oatsack("swap", *words, "fd-mac-cheese", "--out", "new", folder=folder)
    assert swapped.returncode == 0, swapped.stderr
    new = folder / "new" / "plan.json"
    assert judge(json.loads(new.read_text("utf-8"))) == []
    done = oatsack("repack", "plan/plan.json", "new/plan.json", folder=folder)
    assert done.returncode == 0, done.stderr
    assert "at home" in done.stdout and "along" in done.stdout  # pouches bear no label of ours
    assert done.stdout in swapped.stdout


def test_what_is_packed_is_reserved_and_released(folder: Path) -> None:
    trip = SHORT + '[larder]\nstock = "stock.csv"\n'
    (folder / "trip.toml").write_text(trip, encoding="utf-8")
    (folder / "stock.csv").write_text("food,packs\nfd-mac-cheese,3\n", encoding="utf-8")
    done = oatsack("plan", "trip.toml", "--out", "plan", folder=folder)
    assert done.returncode == 0, done.stderr
    done = oatsack("packed", "plan/plan.json", folder=folder)
    assert done.returncode == 0, done.stderr
    assert "Freeze-dried macaroni and cheese reserved" in done.stdout
    assert "fd-mac-cheese" in (folder / "reserved.csv").read_text(encoding="utf-8-sig")
    done = oatsack("packed", "plan/plan.json", "--undo", folder=folder)
    assert "released" in done.stdout
    assert "fd-mac-cheese" not in (folder / "reserved.csv").read_text(encoding="utf-8-sig")
