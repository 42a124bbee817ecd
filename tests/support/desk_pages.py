"""The pages of a folder asked in process: a client, its tokens, forms as a browser sends them."""

from __future__ import annotations

import datetime as dt
import re
import warnings
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

from oatsack.desk.opening import open_trip
from oatsack.desk.solving import Planned
from oatsack.files.planfile import dump
from oatsack.files.trip.write import Answers, write_trip
from oatsack.route.days import days_of
from oatsack.values.plan import Plan
from oatsack.web import live
from oatsack.web.app import create

with warnings.catch_warnings():  # its client asks for the next httpx; this one serves
    warnings.simplefilter("ignore")
    from starlette.testclient import TestClient

live.PLAIN_S = 300.0  # a busy machine is no reason to answer otherwise
TODAY = dt.date(2027, 6, 1)
WEEKEND = Answers(
    masses=("68 kg",), begin="2027-06-12 09:00", end="2027-06-13 15:00", distance="14 km",
    up="500 m",
)  # fmt: skip


class Quick:
    """Plans nothing: what is tried is everything else."""

    def plan(self, asked: Any, hear: Any) -> Planned:
        """A refusal without a reason."""
        return Planned(refusal=(("", "not planned", {}),))

    def do(self, task: str, asked: Any, hear: Any) -> Any:
        """Nothing else is asked."""
        raise AssertionError(task)

    def warm(self) -> None:
        """Nothing to get ready."""


class Opens(Quick):
    """Reads a trip with all that it names, every fault told, and plans nothing."""

    def plan(self, asked: Any, hear: Any) -> Planned:
        """A refusal without a reason, where nothing is at fault."""
        opened = open_trip(asked.file, asked.text)
        days_of(opened.trip, opened.track)
        return super().plan(asked, hear)


class Given(Quick):
    """Answers every trip with one plan."""

    def __init__(self, plan: Plan) -> None:
        self.made = dump(plan)

    def plan(self, asked: Any, hear: Any) -> Planned:
        """That plan."""
        return Planned(plan=self.made)

    def do(self, task: str, asked: Any, hear: Any) -> Any:
        """Nothing was made ahead."""
        return ()


class Client:
    """A browser without scripts, as far as forms go."""

    def __init__(self, folder: Path, text: str | None = None, **more: Any) -> None:
        self.folder = folder
        (folder / "walk.toml").write_text(text or write_trip(WEEKEND), "utf-8")
        app = create(folder, today=lambda: TODAY, **more)
        self.http = TestClient(
            app, base_url="http://127.0.0.1:8000", raise_server_exceptions=False
        )

    def get(self, path: str, **more: Any) -> Any:
        return self.http.get(path, **more)

    def text(self) -> str:
        return (self.folder / "walk.toml").read_text("utf-8")

    def fields(self, path: str, form: int = 0) -> dict[str, Any]:
        """What a browser would send of a form that nobody touched."""
        page = self.get(path)
        assert page.status_code == 200, page.text
        return Sent(page.text).forms[form]

    def post(self, path: str, fields: dict[str, Any], **more: Any) -> Any:
        return self.http.post(path, data=fields, **more)

    def fill(self, path: str, **typed: str) -> Any:
        """A form opened, typed into (``__`` for the path's dots), and sent back where it goes."""
        return self.send(path, {name.replace("__", "."): value for name, value in typed.items()})

    def send(self, path: str, typed: dict[str, Any], **more: Any) -> Any:
        action = Sent(self.get(path).text).actions[0]
        return self.post(action, self.fields(path) | typed, **more)

    def undo(self) -> Any:
        sent = self.fields("/trip/walk/form/kit")
        keep = {key: sent[key] for key in ("token", "head")}
        return self.post("/trip/walk/change", keep | {"wish": "undo"})


class Sent(HTMLParser):
    """Every posting form of a page with the values that it would send."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.forms: list[dict[str, Any]] = []
        self.actions: list[str] = []
        self._in = False
        self._area = self._select = ""
        self._first = False
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {key: value or "" for key, value in attrs}
        if tag == "form":
            self._in = given.get("method", "").casefold() == "post"
            self.forms += [{}] if self._in else []
            self.actions += [given.get("action", "")] if self._in else []
        if not self._in:
            return
        name = given.get("name", "")
        if tag == "input" and given.get("type") in ("checkbox", "radio"):
            if "checked" in given and name.endswith("[]"):
                self.forms[-1].setdefault(name, []).append(given.get("value", "on"))
            elif "checked" in given:
                self.forms[-1][name] = given.get("value", "on")
        elif tag == "input" and given.get("type") != "file" and name:
            self.forms[-1][name] = given.get("value", "")
        elif tag == "textarea":
            self._area, self._first = name, True
            self.forms[-1][name] = ""
        elif tag == "select":
            self._select = name
        elif tag == "option" and ("selected" in given or self._select not in self.forms[-1]):
            self.forms[-1][self._select] = given.get("value", "")

    def handle_data(self, data: str) -> None:
        if self._area:
            data = data.removeprefix("\n") if self._first else data
            self.forms[-1][self._area] += data
            self._first = False

    def handle_endtag(self, tag: str) -> None:
        self._area = "" if tag == "textarea" else self._area
        if tag == "form":
            self._in = False


def faults_beside(page: str) -> dict[str, Any]:
    """Id of a field -> what is said to be wrong beside it."""
    found = re.findall(r'<span class="fault" id="([\w-]+)-f">(.*?)</span>', page, re.DOTALL)
    return {name: text.strip() for name, text in found}
