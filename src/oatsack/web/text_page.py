"""The trip's own text: shown, changed, and mended where it cannot be read at all."""

from __future__ import annotations

import re
from collections.abc import Sequence

from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk.solving import Hear
from oatsack.errors import Fault, OatsackError, UnreadableInput, UsageError
from oatsack.reports.words import say
from oatsack.store.workspace import Revision
from oatsack.web.door import Door, Form
from oatsack.web.live import saved
from oatsack.web.spoken import spoken


def text(door: Door, request: Request, form: Form) -> Response:
    """The text; a file that was broken elsewhere comes with all its faults, to be mended here."""
    name = request.path_params["name"]
    try:
        return _page(door, request, door.bench.standing(name).revision)
    except UnreadableInput as error:
        return _page(door, request, door.bench.raw(name), faults=error.faults)


def put_text(door: Door, request: Request, form: Form) -> Response:
    """The text as it was changed; all faults at their lines if it cannot be read."""
    name, sent = request.path_params["name"], str(form.get("text", "")).replace("\r\n", "\n")
    if not re.fullmatch(r"\d{1,18}", head := str(form.get("head", ""))):
        raise UsageError(say("web.form.no-head"))

    def save(hear: Hear) -> object:
        return door.bench.put(name, sent, head=int(head) or None, note="text", hear=hear)

    def refused(error: OatsackError) -> Response:
        if not isinstance(error, UnreadableInput):
            return spoken(door, request, error)
        return _page(door, request, door.bench.raw(name), sent, faults=error.faults, status=422)

    return saved(door, request, int(head), save, refused=refused)


def _page(
    door: Door, request: Request, stands: Revision, text: str | None = None, *,
    faults: Sequence[Fault] = (), status: int = 200,
) -> Response:  # fmt: skip
    return door.page(
        request, "text.html", status=status, faults=faults, name=stands.trip, head=stands.id,
        text=stands.text if text is None else text, s={"name": stands.trip},
    )  # fmt: skip
