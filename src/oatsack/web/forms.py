"""The forms of a trip: walkers, days, kit, rules, and the upload of a track.

Each writes the trip's own file, comments and order kept, as one revision that can be undone. What
cannot stand there comes back with everything typed still in its field, and each fault beside it.
Which addresses lead here: `form_specs.ROUTES`, so that the first page need not load all this.
"""

from __future__ import annotations

import datetime as dt
import re
import tomllib
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk import filling, tracking
from oatsack.desk.bench import Standing
from oatsack.desk.solving import Hear
from oatsack.errors import Fault, OatsackError, UnreadableInput, UsageError
from oatsack.files.larder import bundled
from oatsack.reports.words import say
from oatsack.values.food import Food
from oatsack.web import form_specs, form_view
from oatsack.web.door import Door, Form
from oatsack.web.form_specs import Part
from oatsack.web.form_view import Filled
from oatsack.web.live import answered, best_said, saved
from oatsack.web.spoken import spoken

Show = Callable[[Filled], Response]

MOST_DAYS = 40
ADD = "add:"
"""Before the name of a list of foods: one food to put behind the list."""


def walkers(door: Door, request: Request, form: Form) -> Response:
    """Who walks, one line each."""
    standing = _standing(door, request)
    rows = _data(standing).get("walkers", [])
    return door.page(request, "walkers.html", s=standing,
                     walkers=[_walker_line(n, row) for n, row in enumerate(rows)])  # fmt: skip


def _walker_line(number: int, row: Mapping[str, Any]) -> dict[str, Any]:
    given = row.get("avoids", [])
    many = given if isinstance(given, list) else [given]
    avoids = [one if isinstance(one, str) else one.get("allergen", "") for one in many]
    return {
        "number": number, "name": _called(number, row), "mass": row.get("mass", ""),
        "target": row.get("target", ""), "eats": row.get("eats", ""),
        "avoids": [say(f"allergen.{one}") for one in avoids if one],
    }  # fmt: skip


def _called(number: int, row: Mapping[str, Any]) -> str:
    return str(row.get("name") or say("web.form.nth-walker", n=number + 1))


def walker(door: Door, request: Request, form: Form) -> Response:
    """One walker; the number behind the last is a new one."""
    standing = _standing(door, request)
    return _show_walker(door, request, standing, _filled(door, standing))


def _show_walker(
    door: Door, request: Request, standing: Standing, filled: Filled, status: int = 200
) -> Response:
    number, rows = request.path_params["number"], filled.data.get("walkers", [])
    if number > len(rows):
        raise HTTPException(404, say("web.form.no-walker"))
    new = number == len(rows)
    title = say("web.form.new-walker") if new else _called(number, rows[number])
    return _page(
        door, request, standing, form_specs.walker(number), filled, status=status, title=title,
        action=f"walkers/{number}", gone=not new and len(rows) > 1,
    )  # fmt: skip


def put_walker(door: Door, request: Request, form: Form) -> Response:
    """A walker changed, added, or taken away."""
    standing, number = _standing(door, request), request.path_params["number"]
    rows = _data(standing).get("walkers", [])
    old = str(rows[number].get("name", "")) if number < len(rows) else ""
    if form.get("wish") == "remove" and number < len(rows) > 1:
        gone = filling.renamed(_data(standing), old, None) if old else {}
        changes = {**gone, f"walkers[{number}]": None}
        head = _head(form)
        return saved(door, request, head, lambda hear: door.bench.change(
            standing.name, changes, head=head, note="walker-removed", hear=hear
        ), to=f"/trip/{standing.name}/walkers")  # fmt: skip

    def show(filled: Filled) -> Response:
        return _show_walker(door, request, standing, filled, 422)

    new = str(form.get(f"walkers[{number}].name", "")).strip()
    follow = filling.renamed(_data(standing), old, new) if old and new and new != old else {}
    return _kept(door, request, standing, form, show, also=follow)


def form(door: Door, request: Request, form: Form) -> Response:
    """The kit, the rules, or the days."""
    standing = _standing(door, request)
    return _show(door, request, standing, _filled(door, standing))


def _show(
    door: Door, request: Request, standing: Standing, filled: Filled, status: int = 200
) -> Response:
    name = request.path_params["form"]
    if name not in form_specs.NAMES:
        raise HTTPException(404, say("web.form.no-form"))
    route = filled.data.get("route", {})
    track = isinstance(route, dict) and "track" in route
    way = filled.sent.get("way") or form_specs.way_of(route)
    parts = _parts(name, filled, track)
    return _page(door, request, standing, parts, filled, status=status,
                 title=say(f"web.form.title-{name}"), action=f"form/{name}",
                 way=way if name == "days" else "", track=track,
                 marks=tracking.marks(door.bench.folder, route) if track else ())  # fmt: skip


def _parts(name: str, filled: Filled, track: bool) -> Iterable[Part]:
    if name == "days":
        typed = len(_list(filled.data.get("route", {}).get("days")))
        return form_specs.days(max(1, _dates(filled.data) - typed), track)
    return {"kit": form_specs.kit, "rules": form_specs.rules}[name]()


def _dates(data: Mapping[str, Any]) -> int:
    """How many dates a walk has, at most those that a form should ask for; one if none is told."""
    try:
        first, last = (dt.date.fromisoformat(filling.shown(data[k])[:10]) for k in ("from", "to"))
    except (KeyError, ValueError):
        return 1
    return max(1, min(MOST_DAYS, (last - first).days + 1))


def _list(given: object) -> list[Any]:
    return given if isinstance(given, list) else []


def put_form(door: Door, request: Request, form: Form) -> Response:
    """A form as it was filled in."""
    standing = _standing(door, request)

    def show(filled: Filled) -> Response:
        return _show(door, request, standing, filled, 422)

    way = str(form.get("way", ""))
    gone: dict[str, object] = {}
    if way in form_specs.WAYS:
        route = _data(standing).get("route", {})
        gone = dict.fromkeys(form_specs.others(way, route))
        dropped = tuple(f"route.{key}" for w, keys in form_specs.WAYS.items()
                        if w != way for key in keys)  # fmt: skip
        form = {name: value for name, value in form.items() if not name.startswith(dropped)}
    return _kept(door, request, standing, form, show, also=gone)


def put_track(door: Door, request: Request, form: Form) -> Response:
    """A track sent from the browser: read, bounded, kept in the folder, and named in the trip."""
    standing = _standing(door, request)
    sent = form.get("file", b"")
    data = sent if isinstance(sent, bytes) else sent.encode()
    try:
        file = tracking.take_in(door.bench.folder, standing.name, data)
    except UnreadableInput as error:
        return _refused(door, request, standing, error)
    route = _data(standing).get("route", {})
    stale = ("route.camps", "route.cuts", "route.dry_camps", "route.resupply")
    gone = [path for path in stale if path.removeprefix("route.") in route]
    changes: dict[str, object] = {"route.track": file.name}
    changes |= dict.fromkeys([*form_specs.others("track", route), *gone])
    head = _head(form)
    return saved(
        door, request, head, lambda hear: door.bench.change(
            standing.name, changes, head=head, note="track", hear=hear),
        to=f"/trip/{standing.name}/form/days",
        refused=lambda error: _refused(door, request, standing, error),
    )  # fmt: skip


def _refused(
    door: Door, request: Request, standing: Standing, error: OatsackError
) -> Response:
    if not isinstance(error, UnreadableInput):
        return spoken(door, request, error)
    request.path_params["form"] = "days"
    data = _data(standing)
    return _show(door, request, standing, Filled(data=data, faults=error.faults), 422)


def _kept(
    door: Door, request: Request, standing: Standing, form: Form, show: Show, *,
    also: Mapping[str, object],
) -> Response:  # fmt: skip
    """Writes what differs; what is at fault comes back with everything that was typed."""
    sent, head = _sent(form), _head(form)
    if ids := {said.casefold(): id for id, said in _filled(door, standing).offers[""]}:
        sent |= {name: ids.get(text.strip().casefold(), text) for name, text in sent.items()
                 if name.endswith(".food")}  # fmt: skip

    def work(hear: Hear) -> str:
        changes = filling.changes(_data(standing), {n: t for n, t in sent.items() if n != "way"})
        wanted = {**changes, **also}
        if not wanted:
            return f"/trip/{standing.name}"
        door.bench.change(standing.name, wanted, head=head, note="form", hear=hear)
        return f"/trip/{standing.name}?was={head}#changed"

    def refused(error: OatsackError) -> Response:
        if isinstance(error, UnreadableInput):
            return show(_filled(door, standing, sent, error.faults))
        return spoken(door, request, error)

    return answered(
        door, request, work, best_said, refused=refused)


def _sent(form: Form) -> dict[str, str]:
    """The fields of the trip among all that was sent, with foods put behind their lists."""
    own = ("token", "head", "wish")
    out = {n: str(t) for n, t in form.items() if n not in own and not n.startswith(ADD)}
    for name in [n for n in out if n.endswith("[]")]:  # ticked words are a list, one to a line
        out.pop(name)
        out[name.removesuffix("[]")] = "\n".join(str(one) for one in form[name])
    for name, food in form.items():
        if name.startswith(ADD) and str(food).strip():
            list_ = name.removeprefix(ADD)
            out[list_] = f"{out.get(list_, '').rstrip()}\n{food}".lstrip()
    return out


def _head(form: Form) -> int:
    head = str(form.get("head", ""))
    if not re.fullmatch(r"\d{1,18}", head):
        raise UsageError(say("web.form.no-head"))
    return int(head)


def _standing(door: Door, request: Request) -> Standing:
    return door.bench.standing(request.path_params["name"])


def _data(standing: Standing) -> dict[str, Any]:
    """The trip's file as it stands."""
    from oatsack.files.trip.toml import with_seconds

    return tomllib.loads(with_seconds(standing.revision.text.removeprefix("\ufeff")))


def _filled(
    door: Door, standing: Standing, sent: Mapping[str, str] | None = None,
    faults: Iterable[Fault] = (),
) -> Filled:  # fmt: skip
    offered = _offered(door, standing)
    meals = ("breakfast", "lunch", "move", "dinner", "drinks")
    offers = {meal: tuple((f.id, f.name) for f in offered if meal in f.meals) for meal in meals}
    names = Counter(food.name.casefold() for food in offered)
    offers[""] = tuple((f.id, f.name if names[f.name.casefold()] == 1 else f.id) for f in offered)
    offers["bags"] = tuple((f.id, f.name) for f in offered if f.carry == "bag")
    data = _data(standing)
    people = tuple(_called(n, row) for n, row in enumerate(data.get("walkers", [])))
    return Filled(data=data, sent=sent or {}, faults=tuple(faults), offers=offers, walkers=people)


def _offered(door: Door, standing: Standing) -> list[Food]:
    """The foods that this trip draws on, by name; where a larder is broken, what else is known."""
    try:
        foods = door.bench.foods(standing)
    except UnreadableInput:
        foods = bundled()
    known = {food.id: food for food in (standing.plan.foods.values() if standing.plan else ())}
    known |= {food.id: food for food in foods}
    return sorted(known.values(), key=lambda food: food.name)


def _page(
    door: Door, request: Request, standing: Standing, parts: Iterable[Part], filled: Filled, *,
    status: int = 200, **more: Any,
) -> Response:  # fmt: skip
    shown = form_view.groups(parts, filled)
    more = {"way": "", "track": False, "marks": (), "gone": False} | more
    return door.page(request, "form.html", status=status, s=standing, groups=shown,
                     foods=filled.foods if form_view.lists_foods(shown) else (),
                     faulty=form_view.faulty(shown), loose=form_view.unplaced(shown, filled),
                     **more)  # fmt: skip
