"""An error as a page: what is wrong and what to do, never a trace."""

from __future__ import annotations

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from oatsack.errors import NotThere, OatsackError, StaleHead, UnknownAddress, UnreadableInput
from oatsack.reports.words import say
from oatsack.web.door import Door


def _data(error: Exception) -> Response:
    """An error for a script that asked for data."""
    if isinstance(error, HTTPException):
        return JSONResponse({"error": error.detail, "faults": []}, error.status_code)
    known = isinstance(error, OatsackError)
    faults = [str(f) for f in error.faults] if isinstance(error, UnreadableInput) else []
    said = str(error) if known else say("web.refused.inside")
    return JSONResponse({"error": said, "faults": faults}, status_of(error))


def status_of(error: Exception) -> int:
    """404 for what there is not, 422 for what cannot be done, 500 for a fault of ours."""
    if isinstance(error, NotThere | UnknownAddress):
        return 404
    return 422 if isinstance(error, OatsackError) else 500


def spoken(door: Door, request: Request, error: Exception) -> Response:
    """The page for an error; two windows on one trip are shown both versions."""
    if request.url.path.endswith(".json"):
        return _data(error)
    if isinstance(error, StaleHead):
        return door.page(request, "stale.html", status=409, error=error,
                         name=request.path_params.get("name", ""))  # fmt: skip
    faults = error.faults if isinstance(error, UnreadableInput) else ()
    if isinstance(error, HTTPException):
        return door.page(request, "error.html", status=error.status_code, said=error.detail,
                         faults=faults, mend="")  # fmt: skip
    known = isinstance(error, OatsackError)
    said = str(error) if known else say("web.refused.inside")
    mend = request.path_params.get("name", "") if faults else ""
    return door.page(request, "error.html", status=status_of(error), said=said, faults=faults,
                     mend=mend)  # fmt: skip
