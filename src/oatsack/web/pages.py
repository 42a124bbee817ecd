"""What each route does: read the request, call the desk, fill a template. Routes stand first."""

from __future__ import annotations

from collections.abc import Callable
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk import bench as desk
from oatsack.desk import starting, whys
from oatsack.desk.bench import Standing
from oatsack.errors import UnreadableInput, UsageError
from oatsack.files.larder import bundled
from oatsack.files.planfile import dump
from oatsack.reports import document_of, fonts
from oatsack.reports.formats.html import read
from oatsack.reports.formats.html_blocks import blocks_html
from oatsack.reports.telling import telling
from oatsack.values.plan import Plan
from oatsack.web.door import TYPES, Door, Form, back, planned
from oatsack.web.menu_view import days

if TYPE_CHECKING:
    from oatsack.files.trip.write import Answers

ROUTES: tuple[tuple[str, str, str], ...] = (
    ("GET", "/", "start"),
    ("POST", "/start", "begin"),
    ("GET", "/trip/{name}", "trip"),
    ("POST", "/trip/{name}/change", "change"),
    ("GET", "/trip/{name}/text", "text"),
    ("POST", "/trip/{name}/text", "put_text"),
    ("GET", "/trip/{name}/why", "why"),
    ("GET", "/trip/{name}/plan.json", "plan_json"),
    ("GET", "/static/{file}", "static"),
)
MEALS = (("breakfast", "Breakfast"), ("lunch", "Lunch"), ("dinner", "Dinner"), ("drinks", "Drinks"))
DIAL_KCAL = 300.0


def start(door: Door, request: Request, form: Form) -> Response:
    """The trips of this folder, and the four answers with favourites."""
    return _start(door, request, {})


def _start(
    door: Door, request: Request, given: Form, said: str = "", status: int = 200
) -> Response:
    foods = bundled()
    offered = [(meal, word, starting.offers(foods, meal)) for meal, word in MEALS]  # type: ignore[arg-type]
    return door.page(
        request, "start.html", status=status, trips=door.bench.names(), given=given, said=said,
        offered=[*offered, ("bags", "Open bags to nibble", starting.bags(foods))],
        today=door.bench.today(),
    )  # fmt: skip


def begin(door: Door, request: Request, form: Form) -> Response:
    """Four answers and favourites become a trip and its plan."""
    from oatsack.files.trip.write import write_trip

    try:
        answers = _answers(form)
        starting.trip_of(answers)
        made = door.bench.begin(str(form.get("name") or "trip"), write_trip(answers))
    except UsageError as error:
        return _start(door, request, form, str(error), 422)
    return back(f"/trip/{made.name}")


def _answers(form: Form) -> Answers:
    from oatsack.files.trip.write import Answers  # heavy; the first page is light

    given = {key: str(form.get(key, "")).strip() for key in ("mass", "begin", "end", "eat")}
    masses = tuple(m.strip() for m in given["mass"].replace(" and ", ",").split(",") if m.strip())
    meals = {meal: tuple(form.get(f"{meal}[]", ())) for meal in ("breakfast", "lunch", "dinner")}
    return Answers(
        masses=masses, begin=given["begin"].replace("T", " "), end=given["end"].replace("T", " "),
        distance=str(form.get("distance", "")), up=str(form.get("up", "")), target=given["eat"],
        meals=meals, bags=tuple(form.get("bags[]", ())),  # type: ignore[arg-type]
        counts=tuple(f"1 {food} a day" for food in form.get("drinks[]", ())),
    )  # fmt: skip


def trip(door: Door, request: Request, form: Form) -> Response:
    """The whole trip: ribbon, facts, days with meals."""
    standing = door.bench.standing(request.path_params["name"])
    shown: dict[str, Any] = {"s": standing, "step": int(DIAL_KCAL)}
    if standing.plan is None:
        return door.page(request, "no_plan.html", ready=desk.WAYS, **shown)
    told = telling(standing.plan)
    news = door.bench.news(standing)
    return door.page(
        request, "trip.html", told=told, news=news,
        days=days(told, news, door.bench.foods(standing)),
        ribbon=blocks_html(_ribbon(standing.plan)),
        facts=blocks_html(document_of(standing.plan, "first", brief=False).blocks), **shown,
    )  # fmt: skip


def _ribbon(plan: Plan) -> list[Any]:
    from oatsack.reports.ribbon import ribbon_picture

    return [ribbon_picture(telling(plan))]


def change(door: Door, request: Request, form: Form) -> Response:
    """One wish: keep, never, swap, the dial, a way out, undo or redo."""
    name = request.path_params["name"]
    try:
        head = int(form.get("head", ""))
    except ValueError:
        raise UsageError("this form lacks the state it started from; open the page again") from None
    wish = str(form.get("wish", ""))
    if wish in ("undo", "redo"):
        getattr(door.bench, wish)(name, head=head)
    else:
        standing = door.bench.standing(name)
        door.bench.change(name, _changes(standing, wish, form), head=head, note=wish)
    return back(f"/trip/{name}#changed")


def _changes(standing: Standing, wish: str, form: Form) -> Any:
    text = standing.revision.text
    if wish in ("more", "less") and standing.plan:
        return desk.turned(standing.plan, DIAL_KCAL if wish == "more" else -DIAL_KCAL)
    if wish == "way":
        return desk.mended(str(form.get("key", "")))
    if wish == "target" and standing.plan:
        walkers = enumerate(standing.plan.trip.walkers)
        return {f"walkers[{n}].target": str(form.get("target", "")) for n, _ in walkers}
    if wish in ("keep", "never", "swap") and standing.plan:
        return _about_food(standing.plan, text, wish, form)
    raise UsageError("nobody knows this wish")


def _about_food(plan: Plan, text: str, wish: str, form: Form) -> dict[str, object]:
    """Hold it there; never that food for this walker; or another in its place."""
    parts = str(form.get("place", "")).split("/")
    found = [p for p in plan.menu.portions if [str(part) for part in desk.place(p)] == parts]
    if not found:
        raise UsageError("this is no longer on the menu; open the page again")
    p = found[0]
    name = next(w.name for w in plan.trip.walkers if w.id == p.walker)
    date = plan.days[p.day - 1].date
    here = {"food": p.food, "walker": name, "date": date, "meal": p.meal}
    if wish == "keep":
        return desk.held(text, here, p.doses)
    if wish == "never":
        return desk.banned(text, {"food": p.food, "walker": name})
    other = {**here, "food": str(form.get("other", ""))}
    return {**desk.banned(text, here), **desk.held(text, other, 1.0)}


def text(door: Door, request: Request, form: Form) -> Response:
    """The trip's own text."""
    standing = door.bench.standing(request.path_params["name"])
    return door.page(request, "text.html", s=standing, text=standing.revision.text, faults=())


def put_text(door: Door, request: Request, form: Form) -> Response:
    """The text as it was changed; all faults at their lines if it cannot be read."""
    name, sent = request.path_params["name"], str(form.get("text", "")).replace("\r\n", "\n")
    try:
        door.bench.put(name, sent, head=int(form.get("head") or 0), note="text")
    except UnreadableInput as error:
        standing = door.bench.standing(name)
        return door.page(request, "text.html", status=422, s=standing, text=sent,
                         faults=error.faults)  # fmt: skip
    return back(f"/trip/{name}")


def why(door: Door, request: Request, form: Form) -> Response:
    """How a number came about, its inputs as links."""
    standing, plan = planned(door, request)
    address = request.query_params.get("at", "totals/energy_kcal")
    return door.page(request, "why.html", s=standing, address=address,
                     lines=whys.told(plan, address),
                     links=whys.inputs_at(plan, address))  # fmt: skip


def plan_json(door: Door, request: Request, form: Form) -> Response:
    """The plan as a file."""
    return Response(dump(planned(door, request)[1]), media_type="application/json")


def static(door: Door, request: Request, form: Form) -> Response:
    """Style, script, picture and fonts, by name from a short list."""
    name = request.path_params["file"]
    made: dict[str, Callable[[], bytes]] = {
        "page.css": (read("page.css") + _own("desk.css")).encode,
        "desk.js": lambda: _own("desk.js").encode(), "icon.svg": lambda: _own("icon.svg").encode(),
        "regular.ttf": lambda: fonts.tabular("Regular"), "bold.ttf": lambda: fonts.tabular("Bold"),
    }  # fmt: skip
    if name not in made:
        raise HTTPException(404, "there is no such file")
    kind = TYPES[name.rpartition(".")[2]]
    return Response(made[name](), media_type=kind, headers={"cache-control": "max-age=3600"})


def _own(name: str) -> str:
    return (files("oatsack") / "web" / "static" / name).read_text("utf-8")
