"""The first page is shown before anything that it does not need is loaded."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

HEAVY = ("numpy", "pydantic", "highspy", "typst", "xlsxwriter", "tree_sitter",
         "oatsack.values.plan", "oatsack.menu", "oatsack.provision", "oatsack.solve",
         "oatsack.reports.formats.html_blocks", "oatsack.charts")  # fmt: skip
ASK = """
import sys, pathlib, datetime as dt
from starlette.requests import Request
from oatsack.web.app import _templates, create
from oatsack.web import pages
from oatsack.web.door import Door
from oatsack.desk.bench import Bench
from oatsack.web.guard import Tokens
folder = pathlib.Path(sys.argv[1])
create(folder)
door = Door(bench=Bench(folder, lambda: dt.date(2027, 6, 1)), templates=_templates(),
            tokens=Tokens())
asked = Request({"type": "http", "method": "GET", "path": "/", "query_string": b"", "headers": []})
page = pages.start(door, asked, {})
assert page.status_code == 200 and b"four answers" in page.body
print(len(sys.modules), *(name for name in sys.argv[2:] if name in sys.modules))
"""
MOST_MODULES = 520
"""Counts, not seconds: a busy machine does not change them."""


def test_the_first_page_loads_nothing_heavy(tmp_path: Path) -> None:
    words = [sys.executable, "-c", ASK, str(tmp_path), *HEAVY]
    told = subprocess.run(words, capture_output=True, text=True, check=True).stdout.split()
    count, *heavy = told
    assert heavy == []
    assert int(count) <= MOST_MODULES


def test_this_test_would_see_something_heavy(tmp_path: Path) -> None:
    words = [sys.executable, "-c", "import numpy\n" + ASK, str(tmp_path), *HEAVY]
    told = subprocess.run(words, capture_output=True, text=True, check=True).stdout.split()
    assert told[1:] == ["numpy"]
