"""Recorded tracks of many makes are sent to the pages: each is taken, or refused in words."""

from __future__ import annotations

import time
import tomllib
from pathlib import Path
from typing import Any

import pytest

from oatsack.errors import TrackError
from oatsack.files.tracks import read_track
from oatsack.web.guard import MOST_BYTES
from support.desk_pages import Client, Quick
from support.recorded import archive_in

pytestmark = [pytest.mark.tracks, pytest.mark.slow]
MOST_S = 20.0


def sent(client: Client, data: bytes, name: str) -> Any:
    fields = client.fields("/trip/walk/form/days", form=1)
    return client.http.post("/trip/walk/track", data=fields, files={"file": (name, data)})


def readable(data: bytes, name: str) -> bool:
    try:
        read_track(data, name)
    except TrackError:
        return False
    return True


def test_every_recorded_track_is_taken_or_refused_in_words(
    tmp_path: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    client = Client(tmp_path, works=Quick())
    files = sorted(archive_in(tmp_path_factory.mktemp("tracks")).glob("*.gpx"))
    wrong, taken = [], 0
    for file in (f for f in files if f.stat().st_size < MOST_BYTES):
        data, begun = file.read_bytes(), time.process_time()
        answer = sent(client, data, file.name)
        good = readable(data, file.name)
        named = tomllib.loads(client.text())["route"].get("track", "")
        kept = bool(named) and (tmp_path / named).read_bytes() == data
        if answer.status_code != (200 if good else 422) or kept != good:
            wrong.append((file.name, answer.status_code, good, kept))
        if "Traceback" in answer.text or time.process_time() - begun > MOST_S:
            wrong.append((file.name, "trace or too slow", good, kept))
        taken += good
        if good:
            client.undo()
    assert wrong == [] and taken >= 10
