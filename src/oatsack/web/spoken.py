"""An error as a page: what is wrong and what to do, never a trace."""

from __future__ import annotations

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from oatsack.errors import OatsackError, StaleHead, UnreadableInput
from oatsack.web.door import Door


def spoken(door: Door, request: Request, error: Exception) -> Response:
    """The page for an error; two windows on one trip are shown both versions."""
    if isinstance(error, StaleHead):
        return door.page(request, "stale.html", status=409, error=error,
                         name=request.path_params.get("name", ""))  # fmt: skip
    faults = error.faults if isinstance(error, UnreadableInput) else ()
    if isinstance(error, HTTPException):
        return door.page(request, "error.html", status=error.status_code, said=error.detail,
                         faults=faults)  # fmt: skip
    known = isinstance(error, OatsackError)
    said = str(error) if known else "something went wrong inside; nothing of yours was lost"
    return door.page(request, "error.html", status=422 if known else 500, said=said, faults=faults)
