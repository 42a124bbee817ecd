"""Buy, pack, kitchen and paper: what a plan's reports say, as pages and as files to take away."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markupsafe import Markup
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk.bench import Bench, Standing
from oatsack.errors import UsageError
from oatsack.reports import document_of, render
from oatsack.reports.contents import CONTENTS
from oatsack.reports.contents.bags import things_in
from oatsack.reports.document import Block, Heading, stepped
from oatsack.reports.formats.html_blocks import blocks_html
from oatsack.reports.measures import measures_of
from oatsack.reports.telling import telling
from oatsack.reports.words import say, sentences
from oatsack.values.plan import Plan
from oatsack.web.door import TYPES, Door, Form, back, planned
from oatsack.web.glance import opened

PACKING = ("bags", "carriers", "container", "pack-out")
"""What the page for packing shows, in this order; resupply boxes join where there are any."""
SHEETS = ("shopping", "bags", "menu")
"""What is handed out as a table for sheet programs, besides as paper."""
OTHERS = (("phone", "html"), ("report", "html"), ("workbook", "xlsx"), ("plan", "text"))
STEPS_BACK = 12
"""So many earlier states are offered to compare bags with."""


def buy(door: Door, request: Request, form: Form) -> Response:
    """What to buy, by shop and date; what is at home; and that it is packed."""
    standing, _ = planned(door, request)
    return _sections(door, request, "buy.html", standing, _told(door, standing, ("shopping",)))


def pack(door: Door, request: Request, form: Form) -> Response:
    """Bags, who carries them, the container by night, rubbish; what changes in packed bags."""
    standing, plan = planned(door, request)
    names = (*PACKING, "boxes") if plan.packed.boxes else PACKING
    earlier = dict(_earlier(door.bench, standing))
    since = request.query_params.get("since", "")
    return _sections(
        door, request, "pack.html", standing, _told(door, standing, names), since=since, weighed=(),
        bag="", earlier=earlier, repack=_repack(door.bench, plan, since, earlier) if since else (),
    )


def weigh(door: Door, request: Request, form: Form) -> Response:
    """A bag on the scale, against what the plan says."""
    from oatsack.desk.weighing import told

    standing, plan = planned(door, request)
    bag, reading = str(form.get("bag", "")), str(form.get("reading", ""))
    lines: tuple[str, ...] = ()
    status = 200
    try:
        lines = told(plan, bag, reading)
    except UsageError as error:
        status, lines = 422, (str(error),)
    return _sections(
        door, request, "pack.html", standing, _told(door, standing, PACKING), status=status,
        since="", weighed=lines, bag=form.get("bag", ""), repack=(),
        earlier=dict(_earlier(door.bench, standing)),
    )


def kitchen(door: Door, request: Request, form: Form) -> Response:
    """The ledger by camp: water, heat, fuel, minutes."""
    standing, _ = planned(door, request)
    return _sections(door, request, "kitchen.html", standing, _told(door, standing, ("kitchen",)))


def _told(
    door: Door, standing: Standing, names: tuple[str, ...]
) -> tuple[tuple[str, str, str], ...]:
    """Name, title and blocks of reports, made once."""
    return door.once("told", standing.revision.id, names, lambda: tuple(_reports(standing, names)))


def _reports(standing: Standing, names: tuple[str, ...]) -> Iterator[tuple[str, str, str]]:
    """Name, title and blocks of reports, headings below the page's, their numbers as links."""
    assert standing.plan is not None
    plan, base = standing.plan, f"/trip/{standing.name}"
    for name in names:
        document = document_of(plan, name)
        blocks = stepped(_raised(document.blocks))
        html = blocks_html(blocks, below=min(len(names), 2))
        yield name, _short(document.title, plan), opened(html, base)


def _raised(blocks: tuple[Block, ...]) -> list[Block]:
    """Blocks whose highest headings are of the first level."""
    top = min((b.level for b in blocks if isinstance(b, Heading)), default=1)
    return [Heading(text=b.text, level=b.level - top + 1) if isinstance(b, Heading) else b
            for b in blocks]  # fmt: skip


def _losses(plan: Plan) -> list[str]:
    """What is said of packing: the worst bag or sack to lose, what does not keep or fit."""
    told = telling(plan)
    return [told.flag(flag) for flag in plan.flags if flag.key.startswith("packing.")]


def _short(title: str, plan: Plan) -> str:
    """A report's title without the trip's, which stands at the top of the page."""
    rest = title.replace(plan.trip.title, "").strip(" :,·–-")
    return rest[:1].upper() + rest[1:] if rest else title


def _sections(
    door: Door, request: Request, template: str, standing: Standing,
    told: Sequence[tuple[str, str, str]], *, status: int = 200, **more: object,
) -> Response:  # fmt: skip
    assert standing.plan is not None
    plan = standing.plan
    return door.page(
        request, template, status=status, s=standing, sections=told, trip=plan.trip.title,
        sample=measures_of(plan.trip.units, "").mass(412.0),
        bags=_bags(plan), losses=_losses(plan), **more,
    )  # fmt: skip


def _bags(plan: Plan) -> list[tuple[str, str]]:
    """Every bag: its name in the plan, and what stands on it."""
    told = telling(plan)
    return [
        (bag.id, say("web.pack.bag-of", number=bag.number or "", what=things_in(told, bag),
                     who=told.name(bag.carrier)).strip())
        for bag in plan.packed.bags
    ]  # fmt: skip


def _earlier(bench: Bench, standing: Standing) -> Iterator[tuple[str, str]]:
    """Earlier states of the trip that have a plan: number and note, the last first."""
    for number, note in bench.store.before(standing.revision.id, STEPS_BACK):
        key = f"live.note.{note}"
        yield str(number), say(key) if key in sentences() else note


def _repack(bench: Bench, plan: Plan, since: str, earlier: dict[str, str]) -> tuple[str, ...]:
    from oatsack.desk.swapping import told_repack

    if since not in earlier:
        raise HTTPException(404, say("web.pack.no-state"))
    before = bench.plan_of(bench.store.revision(int(since)))
    return tuple(told_repack(before, plan)) if before else ()


def packed(door: Door, request: Request, form: Form) -> Response:
    """The walker says that it is packed: what comes from home is reserved, or released again."""
    from oatsack.desk.home import Home
    from oatsack.desk.reserving import release, reserve

    standing, plan = planned(door, request)
    home = Home(plan, door.bench.folder / "plan.json")
    (release if form.get("wish") == "undo" else reserve)(home)
    return back(f"/trip/{standing.name}/buy")


def paper(door: Door, request: Request, form: Form) -> Response:
    """What can be printed, put on a phone, or opened in a sheet program."""
    from oatsack.desk.papers import holds, papers_for

    standing, plan = planned(door, request)
    needed = papers_for(plan)
    papers = [c for c in CONTENTS if c.paper and holds(plan, c.name)]
    return door.page(
        request, "paper.html", s=standing, trip=plan.trip.title, sheets=SHEETS,
        first=[c for c in papers if c.name in needed],
        more=[c for c in papers if c.name not in needed], others=OTHERS,
        size="letter" if plan.trip.units == "us" else "a4",
    )  # fmt: skip



def hand_out(door: Door, request: Request, form: Form) -> Response:
    """One file, made now."""
    standing, plan = planned(door, request)
    content, form_ = request.path_params["content"], request.path_params["form"]
    options: dict[str, str] = {}
    if form_ == "pdf":
        asked = request.query_params.get("size", "")
        options["paper"] = asked if asked in ("a4", "letter") else (
            "letter" if plan.trip.units == "us" else "a4"
        )  # fmt: skip
    if form_ == "csv" and request.query_params.get("decimal") == "comma":
        options["decimal"] = ","
    data = render(plan, content, "text" if form_ == "txt" else form_, **options)
    kind = TYPES.get("txt" if form_ == "text" else form_, "application/octet-stream")
    name = f"{standing.name}-{content}.{'txt' if form_ == 'text' else form_}"
    heads = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(data, media_type=kind, headers=heads)


def see(door: Door, request: Request, form: Form) -> Response:
    """A report as a page."""
    standing, plan = planned(door, request)
    content = request.path_params["content"]

    def report() -> tuple[str, Markup]:
        document = document_of(plan, content)
        return document.title, opened(blocks_html(document.blocks), f"/trip/{standing.name}")

    title, blocks = door.once("see", standing.revision.id, content, report)
    return door.page(request, "see.html", s=standing, title=title, blocks=blocks)
