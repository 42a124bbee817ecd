"""In which units the pages that belong to no trip show masses: a choice kept in a cookie."""

from __future__ import annotations

from typing import Literal

from starlette.requests import Request
from starlette.responses import Response

from oatsack.reports.measures import Measures, measures_of

COOKIE = "oatsack-units"
CURRENCY = "EUR"


def system_of(request: Request) -> Literal["metric", "us"]:
    """What was asked for in this address, else what was chosen before."""
    asked = request.query_params.get("units") or request.cookies.get(COOKIE)
    return "us" if asked == "us" else "metric"


def measures_for(request: Request) -> Measures:
    """How this browser is shown numbers."""
    return measures_of(system_of(request), CURRENCY)


def remembered(request: Request, response: Response) -> Response:
    """The same answer, by which the browser remembers a choice made in this address."""
    if request.query_params.get("units") in ("us", "metric"):
        response.set_cookie(COOKIE, system_of(request), samesite="strict", httponly=True, path="/",
                            max_age=31_536_000)  # fmt: skip
    return response
