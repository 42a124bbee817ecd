"""The larder's pages: search, a label typed in, files in and out. `desk.labels` does the work."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk import labels
from oatsack.files.larder import bundled
from oatsack.larder.search import find
from oatsack.web.door import TYPES, Door, Form, back

ROUTES: tuple[tuple[str, str, str], ...] = (
    ("GET", "/larder", "larder"),
    ("POST", "/larder/label", "label"),
    ("GET", "/larder.csv", "larder_csv"),
    ("POST", "/larder/import", "larder_import"),
)


def larder(door: Door, request: Request, form: Form) -> Response:
    """Foods by search, and a form for a new label."""
    return _larder(door, request, {}, ())


def _larder(door: Door, request: Request, given: Form, said: Any, status: int = 200) -> Response:
    asked = request.query_params.get("q", "")
    foods = (*labels.own(door.bench.folder), *bundled())
    found = find(foods, asked.split()) if asked else foods
    return door.page(request, "larder.html", status=status, asked=asked, found=found[:60],
                     count=len(found), given=given, said=said)  # fmt: skip


def label(door: Door, request: Request, form: Form) -> Response:
    """A label typed in: its doubts at once; kept when there are none, or when confirmed."""
    food, said = labels.judged(form)
    if food is None or (said and not form.get("confirmed")):
        return _larder(door, request, form, said, 422)
    labels.keep(door.bench.folder, [food])
    return back(f"/larder?q={food.id}")


def larder_csv(door: Door, request: Request, form: Form) -> Response:
    """One's own larder as a file."""
    return Response(labels.written(door.bench.folder), media_type=TYPES["csv"])


def larder_import(door: Door, request: Request, form: Form) -> Response:
    """A larder file taken in, with all its faults if it has any."""
    sent = form.get("file", b"")
    labels.take_in(door.bench.folder, sent if isinstance(sent, bytes) else sent.encode())
    return back("/larder")
