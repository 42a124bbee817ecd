"""No registry host, no path of a machine, no brand of the workplace in any tracked file."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def tracked() -> list[Path]:
    """Files that git tracks; in an unpacked archive without git, every file of the project."""
    try:
        names = subprocess.run(
            ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True, text=True
        ).stdout.split("\0")
        return [ROOT / name for name in names if name and (ROOT / name).is_file()]
    except (OSError, subprocess.CalledProcessError):
        return [p for p in ROOT.rglob("*") if p.is_file() and ".venv" not in p.parts]


def texts() -> list[tuple[str, str]]:
    out = []
    for path in tracked():
        try:
            out.append((str(path.relative_to(ROOT)), path.read_text(encoding="utf-8")))
        except UnicodeDecodeError:
            continue
    return out


def test_locks_hold_hashes_and_no_hosts() -> None:
    for lock in sorted((ROOT / "requirements").glob("*.lock")):
        text = lock.read_text(encoding="utf-8")
        assert "://" not in text, lock.name
        assert "--hash=sha256:" in text, lock.name
        assert "--index" not in text, lock.name


def test_no_registry_address_in_any_file() -> None:
    pattern = re.compile(
        r"://[^\s)\"']*(" + "|".join(["py" + "pi", "npm" + "js", "sim" + "ple/"]) + ")"
    )
    assert [name for name, text in texts() if pattern.search(text)] == []


def test_no_path_of_a_machine_in_any_file() -> None:
    pattern = re.compile("(" + "|".join(["/wo" + "rk/", "/ro" + "ot/", "/ho" + "me/[a-z]"]) + ")")
    assert [name for name, text in texts() if pattern.search(text)] == []


def test_the_python_version_is_the_same_everywhere() -> None:
    project = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    version = re.search(r'requires-python = ">=([\d.]+)"', project)
    assert version is not None
    assert f"Python {version[1]}" in (ROOT / "README.md").read_text(encoding="utf-8")
    assert f'python_version = "{version[1]}"' in project
