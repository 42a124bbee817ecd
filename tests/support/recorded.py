"""Recorded walks for tests: the test tracks of gpxpy's source archive, fetched through pip.

The archive (gpxpy 1.6.2, Apache-2.0) is fetched while the test runs and is no part of this project.
"""

from __future__ import annotations

import subprocess
import sys
import tarfile
from pathlib import Path

import pytest


def archive_in(folder: Path) -> Path:
    """The folder of test files, fetched and unpacked; the test is skipped where pip cannot."""
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--no-binary", ":all:"]
    command += ["--no-deps", "--dest", str(folder), "gpxpy==1.6.2"]
    try:
        done = subprocess.run(command, capture_output=True, text=True, timeout=180, check=False)
    except (OSError, subprocess.TimeoutExpired) as error:
        pytest.skip(f"tracks: pip could not fetch the source archive of gpxpy 1.6.2: {error}")
    found = list(folder.glob("gpxpy-1.6.2.tar.gz"))
    if done.returncode or not found:
        said = done.stderr.strip().splitlines()[-1:] or ["no archive came"]
        pytest.skip(f"tracks: pip could not fetch the source archive of gpxpy 1.6.2: {said[0]}")
    with tarfile.open(found[0]) as packed:
        packed.extractall(folder, filter="data")
    return folder / "gpxpy-1.6.2" / "test_files"
