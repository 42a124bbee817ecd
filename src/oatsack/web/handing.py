"""Buy, pack, kitchen and paper: what a plan's reports say, as pages and as files to take away."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from oatsack.reports import document_of, render
from oatsack.reports.contents import CONTENTS
from oatsack.reports.formats.html_blocks import blocks_html
from oatsack.web.door import TYPES, Door, Form, planned

ROUTES: tuple[tuple[str, str, str], ...] = (
    ("GET", "/trip/{name}/paper", "paper"),
    ("GET", "/trip/{name}/paper/{content}.{form}", "hand_out"),
    ("GET", "/trip/{name}/see/{content}", "see"),
)


def paper(door: Door, request: Request, form: Form) -> Response:
    """What can be printed, put on a phone, or opened in a sheet program."""
    standing, _ = planned(door, request)
    return door.page(request, "paper.html", s=standing, contents=[c for c in CONTENTS if c.paper])


def hand_out(door: Door, request: Request, form: Form) -> Response:
    """One file, made now."""
    _, plan = planned(door, request)
    content, form_ = request.path_params["content"], request.path_params["form"]
    data = render(plan, content, form_)
    kind = TYPES.get(form_, "application/octet-stream")
    heads = {"content-disposition": f'attachment; filename="{content}.{form_}"'}
    return Response(data, media_type=kind, headers=heads)


def see(door: Door, request: Request, form: Form) -> Response:
    """A report as a page: what to buy, what to pack, the kitchen."""
    standing, plan = planned(door, request)
    document = document_of(plan, request.path_params["content"])
    return door.page(request, "see.html", s=standing, title=document.title,
                     blocks=blocks_html(document.blocks))  # fmt: skip
