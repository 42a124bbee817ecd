"""Edits that were acknowledged survive kill -9 at any moment; many edits leave memory flat."""

from __future__ import annotations

import gc
import json
import os
import random
import signal
import subprocess
import sys
import time
import tracemalloc
from pathlib import Path
from typing import Any

import pytest

from oatsack.desk.bench import Bench
from oatsack.desk.keeping import copied
from oatsack.desk.solving import Planned
from oatsack.store.workspace import FILE, Workspace
from support.amount import EVERYDAY
from support.desk_pages import TODAY, Client

MOMENTS = 20 if EVERYDAY else 100
SEED = 20270612

SAVER = '''
"""Forks a saver for every line it reads, so that no kill waits for Python to start."""
import datetime as dt, json, os, sys
from pathlib import Path
import oatsack.desk.confining, oatsack.files.trip, oatsack.files.planfile
from oatsack.desk.bench import Bench
from oatsack.desk.solving import Planned

class Quick:
    """Plans nothing: the edits come as quickly as the disk takes them."""
    def plan(self, asked, hear):
        return Planned(refusal=(("", "x" * 5000, {}),))

def save(folder):
    bench = Bench(Path(folder), lambda: dt.date(2027, 6, 1), Quick())
    head = bench.store.head("walk")
    n = int(head.text.split("=")[1]) if head else 0
    at = head.id if head else None
    while True:
        n += 1
        at = bench.put("walk", f"title={n}", head=at, note="edit").revision.id
        os.write(1, f"ack {n}\\n".encode())

for line in sys.stdin:
    child = os.fork()
    if child == 0:
        save(sys.argv[1])
    print("child", child, flush=True)
    os.waitpid(child, 0)
    print("dead", flush=True)
'''


def killed(zygote: subprocess.Popen[bytes], wait_s: float) -> int:
    """Lets a saver save, kills it so long after its first edit; the last number acknowledged."""
    assert zygote.stdin is not None and zygote.stdout is not None
    zygote.stdin.write(b"go\n")
    zygote.stdin.flush()
    child, last = 0, 0
    while not (child and last):
        kind, number = zygote.stdout.readline().split()
        child, last = (int(number), last) if kind == b"child" else (child, int(number))
    time.sleep(wait_s)
    os.kill(child, signal.SIGKILL)
    while (line := zygote.stdout.readline()) != b"dead\n":
        last = int(line.split()[1])
    return last


@pytest.mark.slow
def test_kill_9_at_random_moments_loses_no_acknowledged_edit_of_a_trip(tmp_path: Path) -> None:
    dice, lost = random.Random(SEED), []
    with subprocess.Popen(
        [sys.executable, "-c", SAVER, str(tmp_path)], stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    ) as zygote:  # fmt: skip
        edit_s = 0.5 / killed(zygote, 0.5)  # a busy disk takes longer: kills fall into all of it
        for moment in range(MOMENTS):
            acknowledged = killed(zygote, dice.uniform(0.0, 2.5 * edit_s))
            store = Workspace(tmp_path)
            head = store.head("walk")
            file = int((tmp_path / "walk.toml").read_text("utf-8").split("=")[1])
            kept = int(head.text.split("=")[1]) if head else 0
            whole = store.sound() and chain(store, head.id if head else None) == kept
            if not whole or not acknowledged <= kept <= acknowledged + 1 or file < acknowledged:
                lost.append((moment, acknowledged, kept, file, whole))
        assert zygote.stdin is not None
        zygote.stdin.close()
    assert lost == []


def chain(store: Workspace, head: int | None) -> int:
    """How many revisions lie one behind the other, back to the first."""
    back = (
        "with recursive back (id, parent) as (select id, parent from revision where id = ?"
        " union all select r.id, r.parent from revision as r join back on r.id = back.parent)"
        " select count(*) from back"
    )
    with store._read() as db:
        return int(db.execute(back, (head,)).fetchone()[0])


@pytest.mark.slow
def test_a_trip_opens_after_a_kill_between_the_store_and_its_file(tmp_path: Path) -> None:
    class Quick:
        def plan(self, asked: Any, hear: Any) -> Planned:
            return Planned(refusal=(("", "x", {}),))

    bench = Bench(tmp_path, lambda: TODAY, Quick())  # type: ignore[arg-type]
    first = bench.put("walk", "title=1", head=None, note="a").revision
    bench.store.save("walk", "title=2", head=first.id)  # saved, and killed before the file
    again = Bench(tmp_path, lambda: TODAY, Quick())  # type: ignore[arg-type]
    stands = again.standing("walk").revision
    assert stands.text == "title=1" and stands.note == "file"
    assert again.store.revision(stands.parent or 0).text == "title=2"  # nothing is gone


@pytest.mark.slow
def test_a_backup_restores_every_revision(tmp_path: Path) -> None:
    client = Client(tmp_path)
    client.send("/trip/walk/form/kit", {"kit.mug": "400 ml"})
    before = Workspace(tmp_path).head("walk")
    import datetime as dt

    copy = copied(tmp_path, dt.datetime(2027, 6, 1, 9, 30, tzinfo=dt.UTC))
    client.send("/trip/walk/form/kit", {"kit.mug": "500 ml"})
    elsewhere = tmp_path / "restored"
    elsewhere.mkdir()
    copy.rename(elsewhere / FILE)
    restored = Workspace(elsewhere)
    assert restored.sound() and restored.head("walk") == before
    bench = Bench(elsewhere, lambda: TODAY)
    standing = bench.standing("walk")
    assert standing.plan is not None and '"400 ml"' in standing.revision.text
    bench.undo("walk", head=standing.revision.id)
    assert "400 ml" not in (elsewhere / "walk.toml").read_text("utf-8")


@pytest.mark.slow
def test_two_hundred_edits_in_a_row_keep_memory_flat(tmp_path: Path) -> None:
    plan = Client(tmp_path).get("/trip/walk/plan.json").content
    assert json.loads(plan)

    class Still:
        """Answers every text with the same plan: what is measured is everything else."""

        def plan(self, asked: Any, hear: Any) -> Planned:
            return Planned(plan=plan)

        def do(self, task: str, asked: Any, hear: Any) -> Any:
            raise AssertionError(task)

        def warm(self) -> None:
            """Nothing to get ready."""

    client = Client(tmp_path, works=Still())
    tracemalloc.start()
    try:
        sizes = [edited(client, range(40)), edited(client, range(40, 240))]
    finally:
        tracemalloc.stop()
    assert sizes[1] - sizes[0] < 2_000_000, sizes


def edited(client: Client, numbers: range) -> int:
    """Bytes held after so many edits, each shown as a page."""
    sent = client.fields("/trip/walk/form/kit")
    for n in numbers:
        sent["head"] = str(Workspace(client.folder).head("walk").id)  # type: ignore[union-attr]
        answer = client.post("/trip/walk/form/kit", sent | {"kit.mug": f"{300 + n} ml"})
        assert answer.status_code == 200
    gc.collect()  # what lies in cycles is garbage, whenever its turn comes
    return tracemalloc.get_traced_memory()[0]
