"""A trip changed five hundred times: its workspace stays small, its pages quick, undo reaches the
first word, and a backup is whole."""

from __future__ import annotations

import datetime as dt
import statistics
import time
from pathlib import Path

import pytest

from oatsack.desk.keeping import copied
from oatsack.files.planfile import dump
from oatsack.files.trip import edit_trip
from oatsack.store.workspace import FILE, Workspace
from support.desk_pages import Client, Given
from support.sample_plan import sample_plan

pytestmark = pytest.mark.slow
REVISIONS = 500
SHARE = 0.25
"""A revision may take so much of what its plan is in bytes; ours."""
PAGES = ("", "/pack", "/form/rules", "/text", "/hours", "/buy")


def cost_s(client: Client, path: str) -> float:
    """CPU of a page, the median of a few [s]."""
    took = []
    for _ in range(7):
        begin = time.process_time()
        assert client.get(f"/trip/walk{path}").status_code == 200
        took.append(time.process_time() - begin)
    return statistics.median(took)


def test_a_trip_stays_small_quick_and_whole_however_often_it_is_changed(tmp_path: Path) -> None:
    plan = sample_plan(walkers=2, days=7)
    client = Client(tmp_path, works=Given(plan))
    first = client.text()
    assert client.get("/trip/walk").status_code == 200
    before = {path: cost_s(client, path) for path in PAGES}
    store = Workspace(tmp_path)
    head = store.head("walk")
    assert head is not None and head.plan is not None
    for n in range(REVISIONS):
        text = edit_trip(head.text, {"title": f"walk {n}"})
        head = store.save("walk", text, head=head.id, plan=head.plan, note="edit")
    (tmp_path / "walk.toml").write_text(head.text, "utf-8")
    whole = len(dump(plan))
    assert store.path.stat().st_size < REVISIONS * whole * SHARE

    after = {path: cost_s(client, path) for path in PAGES}
    slower = {path: (before[path], after[path]) for path in PAGES
              if after[path] > 1.5 * before[path] + 0.004}  # fmt: skip
    assert slower == {}

    copy = copied(tmp_path, dt.datetime(2027, 6, 1, 9, 30, tzinfo=dt.UTC))
    (tmp_path / "there").mkdir()
    copy.rename(tmp_path / "there" / FILE)
    there = Workspace(tmp_path / "there")
    assert there.sound() and there.head("walk") == head

    at, took = head, []
    for _ in range(REVISIONS):
        begin = time.process_time()
        at = store.undo("walk", head=at.id)
        took.append(time.process_time() - begin)
    assert at.text == first and at.parent is None
    early, late = statistics.median(took[:20]), statistics.median(took[-20:])
    assert max(early, late) < 3.0 * min(early, late) + 0.002, "one step back costs what it cost"
    for _ in range(REVISIONS):
        at = store.redo("walk", head=at.id)
    assert at.text == head.text and at.plan == head.plan
