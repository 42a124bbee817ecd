"""What is at home with its dates, what a trip draws on, and who likes what."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk import labels, stocking
from oatsack.desk.bench import Standing
from oatsack.desk.solving import Hear
from oatsack.errors import Fault, LarderError, UsageError
from oatsack.larder.search import find
from oatsack.larder.stock import Lot
from oatsack.reports.words import say
from oatsack.values.food import Food
from oatsack.web.door import Door, Form, back
from oatsack.web.form_view import Field, told
from oatsack.web.live import saved

MORE = 3
"""So many blank rows stand behind the lots."""
MOST_ROWS = 600
MOST_LIKES = 40
COLUMNS = ("food", "packs", "best_before")
NAME = re.compile(r"(food|packs|best_before)\.(\d{1,4})")


def stock(door: Door, request: Request, form: Form) -> Response:
    """Every lot at home, with blank rows behind."""
    foods = labels.every(door.bench.folder)
    names = {food.id: food.name for food in foods}
    rows = [_row(names.get(lot.food, lot.food), lot.packs, lot.best_before)
            for lot in stocking.lots(door.bench.folder, foods)]  # fmt: skip
    return _page(door, request, foods, rows)


def _row(food: str, packs: float, best_before: object) -> dict[str, str]:
    return {"food": food, "packs": f"{packs:g}", "best_before": str(best_before or "")}


def _page(
    door: Door, request: Request, foods: Sequence[Food], rows: list[dict[str, str]], *,
    faults: Sequence[Fault] = (), status: int = 200, theirs: Sequence[Lot] | None = None,
) -> Response:  # fmt: skip
    lines = {n + 2: place for n, place in enumerate(
        [k for k, row in enumerate(rows) if stocking.filled([row])])}  # fmt: skip
    beside: dict[tuple[int, str], list[str]] = {}
    for fault in faults:
        beside.setdefault((lines.get(fault.line, -1), fault.path), []).append(told(fault))
    shown = [
        [_field(number, name, row.get(name, ""), beside) for name in COLUMNS]
        for number, row in enumerate([*rows, *({} for _ in range(MORE))])
    ]
    return door.page(
        request, "stock.html", status=status, rows=shown, wrong=len(faults),
        trips=door.bench.names(), foods=sorted(food.name for food in foods),
        state=stocking.state(door.bench.folder), theirs=theirs,
    )  # fmt: skip


def _field(
    number: int, name: str, value: str, beside: Mapping[tuple[int, str], list[str]]
) -> Field:
    return Field(
        name=f"{name}.{number}", label=say(f"web.stock.{name}"), hint="", value=value,
        sort={"food": "listed", "packs": "text", "best_before": "date"}[name],
        faults=tuple(beside.get((number, name), ())),
    )  # fmt: skip


def put_stock(door: Door, request: Request, form: Form) -> Response:
    """The stock as it was typed; all faults beside their fields."""
    foods = labels.every(door.bench.folder)
    rows, ids = _rows(form), {food.name.casefold(): food.id for food in foods}
    meant = [row | {"food": ids.get(row.get("food", "").strip().casefold(), row.get("food", ""))}
             for row in rows]  # fmt: skip
    if form.get("state") != stocking.state(door.bench.folder):
        theirs = stocking.lots(door.bench.folder, foods)
        return _page(door, request, foods, rows, status=409, theirs=theirs)
    try:
        stocking.keep(door.bench.folder, meant, foods)
    except LarderError as error:
        return _page(door, request, foods, rows, faults=error.faults, status=422)
    return back("/larder/stock")


def _rows(form: Form) -> list[dict[str, str]]:
    found: dict[int, dict[str, str]] = {}
    for name, text in form.items():
        if match := NAME.fullmatch(name):
            found.setdefault(int(match[2]), {})[match[1]] = str(text)
    if len(found) > MOST_ROWS:
        raise UsageError(say("web.stock.too-many", n=MOST_ROWS))
    return [found[number] for number in sorted(found)]


def draw(door: Door, request: Request, form: Form) -> Response:
    """A trip draws on the folder's larder or stock from now on, and is planned with it."""
    standing = door.bench.standing(request.path_params["name"])
    head, what = _head(form), str(form.get("what", ""))
    changes = stocking.drawing(_data(standing), what)

    def save(hear: Hear) -> object:
        if not changes:
            return door.bench.again(standing.name, head=head, hear=hear)
        return door.bench.change(standing.name, changes, head=head, note=f"draws-{what}",
                                 hear=hear)  # fmt: skip

    return saved(door, request, head, save)


def likes(door: Door, request: Request, form: Form) -> Response:
    """Stars of every walker for what is on the menu, or for what is searched."""
    standing = door.bench.standing(request.path_params["name"])
    data, asked = _data(standing), request.query_params.get("q", "").strip()
    on_menu = standing.plan.foods if standing.plan else {}
    found = find(_known(door, standing).values(), asked.split()) if asked else on_menu.values()
    walkers = [(n, row.get("name") or say("web.form.nth-walker", n=n + 1), row.get("liking", {}))
               for n, row in enumerate(data.get("walkers", []))]  # fmt: skip
    listed = sorted(found, key=lambda f: f.name)[:MOST_LIKES]
    rows = [
        (food, [(n, who, _stars(liking.get(food.id))) for n, who, liking in walkers])
        for food in listed
    ]
    return door.page(request, "likes.html", s=standing, rows=rows, asked=asked,
                     stars=stocking.STARS, walkers=[who for _, who, _ in walkers])  # fmt: skip


def _known(door: Door, standing: Standing) -> dict[str, Food]:
    """Every food that one can have a word about; whether the trip draws on it, its file says."""
    on_menu = dict(standing.plan.foods) if standing.plan else {}
    return {food.id: food for food in labels.every(door.bench.folder)} | on_menu


def _stars(given: object) -> str:
    return f"{given:g}" if isinstance(given, int | float) else ""


def put_likes(door: Door, request: Request, form: Form) -> Response:
    """Stars written into the trip."""
    standing = door.bench.standing(request.path_params["name"])
    known = _known(door, standing)
    sent = {name: str(text) for name, text in form.items() if name.partition("/")[2] in known}
    head, changes = _head(form), stocking.liked(_data(standing), sent)
    if not changes:
        return back(f"/trip/{standing.name}#changed")
    return saved(door, request, head, lambda hear: door.bench.change(
        standing.name, changes, head=head, note="likes", hear=hear
    ))  # fmt: skip


def _head(form: Form) -> int:
    head = str(form.get("head", ""))
    if not re.fullmatch(r"\d{1,18}", head):
        raise UsageError(say("web.form.no-head"))
    return int(head)


def _data(standing: Standing) -> dict[str, Any]:
    from oatsack.files.trip.toml import with_seconds

    return tomllib.loads(with_seconds(standing.revision.text.removeprefix("\ufeff")))
