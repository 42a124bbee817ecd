"""What each route does: read the request, call the desk, fill a template. Routes stand first."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from importlib import import_module
from importlib.resources import files
from typing import TYPE_CHECKING

from starlette.background import BackgroundTask
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk import starting
from oatsack.desk.bench import NAME
from oatsack.desk.solving import Hear
from oatsack.errors import OatsackError, UsageError
from oatsack.files.larder import bundled
from oatsack.reports.measures import measures_of
from oatsack.reports.words import Voice, say
from oatsack.web import trip_routes
from oatsack.web.door import TYPES, Door, Form, planned
from oatsack.web.live import answered, best_said

if TYPE_CHECKING:
    from oatsack.files.trip.write import Answers

ROUTES: tuple[tuple[str, str, str], ...] = (
    ("GET", "/", "start"),
    ("POST", "/start", "begin"),
    ("GET", "/trip/{name}/plan.json", "plan_json"),
    ("GET", "/static/{file}", "static"),
)
TRIPS_DRAWN = 3
OFFERED = ("breakfast", "lunch", "dinner", "drinks")


def start(door: Door, request: Request, form: Form) -> Response:
    """The trips of this folder, and the four answers with favourites; what comes next is made
    ready once this page is out."""
    answer = _start(door, request, {})
    answer.background = BackgroundTask(make_ready, door)
    return answer


def make_ready(door: Door) -> None:
    """Loads what the trip page needs, has a process wait that can solve, and draws the pages of the
    latest trips that are planned as their files stand."""
    door.bench.works.warm()
    for module in trip_routes.LATER:
        import_module(module)
    for name in door.bench.store.latest(TRIPS_DRAWN):
        with suppress(OatsackError):  # whoever opens it is told
            if NAME.fullmatch(name) and not door.bench.unread(name):
                door.prepare(door, f"/trip/{name}")


def _start(
    door: Door, request: Request, given: Form, said: str = "", status: int = 200,
    sizes: tuple[str, ...] = (),
) -> Response:  # fmt: skip
    foods = bundled()
    offered = [(meal, starting.offers(foods, meal)) for meal in OFFERED]  # type: ignore[arg-type]
    return door.page(
        request, "start.html", status=status, trips=door.bench.names(), given=given, said=said,
        offered=[*offered, ("bags", starting.bags(foods))], sizes=sizes,
        usual=starting.weekend(door.bench.today()),
    )  # fmt: skip


def _sizes(door: Door, request: Request, form: Form) -> Response:
    """The four answers back, with what eating light, usual and hungry would weigh."""
    try:
        found = starting.sizes(_answers(form), door.bench.today())
    except UsageError as error:
        return _start(door, request, form, str(error), 422)
    voice = Voice(measures=measures_of(starting.trip_of(_answers(form)).units, "EUR"))
    told = tuple(
        voice.say("live.start_size", word=one.word, grams=one.food_g,
                  kcal=say("live.start_and").join(
                      voice.say("live.start_kcal", kcal=k) for k in one.kcal_day))
        for one in found
    )  # fmt: skip
    return _start(door, request, form, sizes=(found[0].makes, *told))


def begin(door: Door, request: Request, form: Form) -> Response:
    """Four answers and favourites become a trip and its plan; or what each size weighs."""
    from oatsack.files.trip.write import write_trip

    if form.get("weigh"):
        return _sizes(door, request, form)

    name = str(form.get("name") or "trip")

    def work(hear: Hear) -> str:
        answers = _answers(form)
        starting.trip_of(answers)
        return f"/trip/{door.bench.begin(name, write_trip(answers), hear=hear).name}?note=begun"

    return answered(
        door, request, work, best_said, trip=name,
        refused=lambda error: _start(door, request, form, str(error), 422),
    )  # fmt: skip


def _answers(form: Form) -> Answers:
    from oatsack.files.trip.write import Answers  # heavy; the first page is light

    given = {key: str(form.get(key, "")).strip() for key in ("mass", "begin", "end", "eat")}
    meals = {meal: tuple(form.get(f"{meal}[]", ())) for meal in ("breakfast", "lunch", "dinner")}
    return Answers(
        masses=tuple(starting.listed(given["mass"])), target=starting.as_energy(given["eat"]),
        begin=given["begin"].replace("T", " "), end=given["end"].replace("T", " "),
        distance=str(form.get("distance", "")), up=str(form.get("up", "")),
        meals=meals, bags=tuple(form.get("bags[]", ())),  # type: ignore[arg-type]
        counts=tuple(f"1 {food} a day" for food in form.get("drinks[]", ())),
    )  # fmt: skip


def plan_json(door: Door, request: Request, form: Form) -> Response:
    """The plan as a file: as it is kept, unless it was written in an older format."""
    from oatsack.files.planfile import begins, dump

    standing, plan = planned(door, request)
    kept = standing.revision.plan or b""
    return Response(kept if begins(kept) else dump(plan), media_type="application/json")


def static(door: Door, request: Request, form: Form) -> Response:
    """Style, script, picture and fonts, by name from a short list."""
    from oatsack.reports import fonts
    from oatsack.reports.formats.html import read

    name = request.path_params["file"]
    made: dict[str, Callable[[], bytes]] = {
        "page.css": (read("page.css") + _own("desk.css") + _own("trip.css")).encode,
        "desk.js": lambda: _own("desk.js").encode(), "icon.svg": lambda: _own("icon.svg").encode(),
        "regular.ttf": lambda: fonts.tabular("Regular"), "bold.ttf": lambda: fonts.tabular("Bold"),
    }  # fmt: skip
    if name not in made:
        raise HTTPException(404, say("web.refused.file"))
    kind = TYPES[name.rpartition(".")[2]]
    return Response(made[name](), media_type=kind, headers={"cache-control": "max-age=3600"})


def _own(name: str) -> str:
    return (files("oatsack") / "web" / "static" / name).read_text("utf-8")
