"""Once the first page is out the latest trips are drawn; nothing is planned, and nothing breaks."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from oatsack.store.workspace import Workspace
from oatsack.web import pages, trip_page
from support.desk_pages import Client, Given
from support.sample_plan import sample_plan

pytestmark = pytest.mark.slow


class Counts(Given):
    """Answers with one plan, and counts how often it is asked for one."""

    asked = 0

    def plan(self, asked: Any, hear: Any) -> Any:
        self.asked += 1
        return super().plan(asked, hear)


def drawn(monkeypatch: Any) -> list[str]:
    """The names of the trips whose pages are made from now on."""
    names: list[str] = []
    make = trip_page._made

    def seen(door: Any, standing: Any, was: Any, note: str) -> str:
        names.append(standing.name)
        return make(door, standing, was, note)

    monkeypatch.setattr(trip_page, "_made", seen)
    return names


def test_the_latest_trips_are_drawn_behind_the_first_page_and_once(
    tmp_path: Path, monkeypatch: Any
) -> None:
    works = Counts(sample_plan())
    client = Client(tmp_path, works=works)
    for name in ("one", "two", "three", "four"):
        (tmp_path / f"{name}.toml").write_text(client.text(), "utf-8")
        assert client.get(f"/trip/{name}").status_code == 200
    count = works.asked
    again, names = Client(tmp_path, works=works), drawn(monkeypatch)
    assert again.get("/").status_code == 200
    assert names == ["four", "three", "two"] == list(Workspace(tmp_path).latest(pages.TRIPS_DRAWN))
    assert again.get("/trip/four").status_code == 200
    assert names == ["four", "three", "two"], "it is there already"
    assert works.asked == count


def test_a_file_written_elsewhere_is_not_planned_and_a_plan_that_cannot_be_read_breaks_nothing(
    tmp_path: Path, monkeypatch: Any
) -> None:
    works = Counts(sample_plan())
    client = Client(tmp_path, works=works)
    (tmp_path / "other.toml").write_text(client.text(), "utf-8")
    for name in ("walk", "other"):
        assert client.get(f"/trip/{name}").status_code == 200
    store, count = Workspace(tmp_path), works.asked
    head = store.head("other")
    assert head is not None
    store.save("other", head.text, head=head.id, plan=b"no plan")
    client.folder.joinpath("walk.toml").write_text(client.text() + "# mine\n", "utf-8")
    again, names = Client(tmp_path, text=client.text(), works=works), drawn(monkeypatch)
    assert again.get("/").status_code == 200
    assert (names, works.asked) == ([], count)
    assert again.get("/trip/other").status_code == 422, "whoever opens it is told"
