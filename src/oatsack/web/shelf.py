"""The larder's pages: search, one food, files in and out. `desk.labels` does the work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from starlette.requests import Request
from starlette.responses import Response

from oatsack.desk import labels, stocking
from oatsack.desk.opening import written as told_dialect
from oatsack.errors import LarderError
from oatsack.files.larder import bundled
from oatsack.larder.plausible import doubts
from oatsack.larder.search import find
from oatsack.larder.stock import Lot
from oatsack.reports.measures import Measures
from oatsack.reports.words import Voice, say
from oatsack.values.food import ALLERGENS, Food
from oatsack.web.door import TYPES, Door, Form, back
from oatsack.web.system import measures_for, remembered, system_of

MOST = 60
NUTRIENTS = ("protein_g", "fat_g", "carb_g", "sugars_g", "fibre_g")
OUNCE_G = 28.349523125


def larder(door: Door, request: Request, form: Form) -> Response:
    """Foods by search, with what is at home."""
    return _larder(door, request)


def _larder(
    door: Door, request: Request, *, said: str = "", error: LarderError | None = None
) -> Response:
    asked, m = request.query_params.get("q", "").strip(), measures_for(request)
    foods = labels.every(door.bench.folder)
    found = find(foods, asked.split()) if asked else foods
    home = _home(door, foods)
    mine = {food.id for food in labels.own(door.bench.folder)}
    rows = [_row(food, m, home.get(food.id, 0.0), mine=food.id in mine) for food in found[:MOST]]
    page = door.page(
        request, "larder.html", status=422 if error else 200, asked=asked, rows=rows, most=MOST,
        count=len(found), said=said, faults=error.faults if error else (), us=m.us,
        own=len(mine), trips=door.bench.names(),
    )  # fmt: skip
    return remembered(request, page)


def _home(door: Door, foods: Iterable[Food]) -> dict[str, float]:
    """Packs at home by food, of all lots; none where the file cannot be read."""
    foods = tuple(foods)
    out = {food.id: food.home_packs for food in foods if food.home_packs}
    try:
        for lot in stocking.lots(door.bench.folder, foods):
            out[lot.food] = out.get(lot.food, 0.0) + lot.packs
    except LarderError:
        return out
    return out


def _row(food: Food, m: Measures, home: float, *, mine: bool) -> dict[str, object]:
    return {
        "id": food.id, "name": food.name, "kcal": _energy(food, m), "dose": m.mass(food.dose_g),
        "pack": m.mass(food.pack_g), "home": m.number(home, 1) if home else "", "mine": mine,
        "meals": ", ".join(say(f"meals.{meal}") for meal in sorted(food.meals)),
    }  # fmt: skip


def _energy(food: Food, m: Measures) -> str:
    """kcal in 100 g, or in an ounce."""
    kcal = food.per_100g.energy_kcal
    if kcal is None:
        return say("web.larder.not-stated")
    return m.number(kcal * OUNCE_G / 100.0 if m.us else kcal)


def food(door: Door, request: Request, form: Form) -> Response:
    """Everything that is known of one food."""
    folder = door.bench.folder
    one = labels.food_of(folder, request.path_params["food"])
    m = measures_for(request)
    voice = Voice(measures=m, foods={one.id: one.name})
    lots = [lot for lot in _lots(door) if lot.food == one.id]
    page = door.page(
        request, "food.html", food=one, facts=tuple(_facts(one, m)),
        states=[(say(f"allergen.{a}"), say(f"web.label.state-{one.state(a)}")) for a in ALLERGENS],
        doubts=[voice.flag(flag) for flag in doubts(one)], lots=lots,
        mine=one.id in {own.id for own in labels.own(folder)},
        bundled=one.id in {other.id for other in bundled()}, us=system_of(request) == "us",
    )  # fmt: skip
    return remembered(request, page)


def _lots(door: Door) -> tuple[Lot, ...]:
    try:
        return stocking.lots(door.bench.folder, labels.every(door.bench.folder))
    except LarderError:
        return ()


def _facts(food: Food, m: Measures) -> Iterator[tuple[str, str]]:
    """Name and value of what a label says, in the walker's units; unknown is said to be unknown."""
    unknown = say("web.larder.not-stated")
    yield say("web.larder.energy-us" if m.us else "web.larder.energy"), _energy(food, m)
    for name in NUTRIENTS:
        value = getattr(food.per_100g, name)
        shown = unknown if value is None else m.number(value, 1) + " g"
        yield _bare(say(f"web.label.key.{name}")), shown
    sodium = food.per_100g.sodium_mg
    shown = unknown if sodium is None else m.number(sodium) + " mg"
    yield _bare(say("web.label.key.sodium_mg")), shown
    yield say("web.label.key.pack_g"), m.mass(food.pack_g)
    yield say("web.larder.dose").capitalize(), f"{food.dose_name}, {m.mass(food.dose_g)}"
    yield say("web.label.key.price"), unknown if food.price is None else m.money(food.price)
    yield say("web.label.key.category"), food.category
    yield say("web.label.key.diet"), food.diet
    meals = ", ".join(say(f"meals.{meal}") for meal in sorted(food.meals))
    yield say("web.label.key.meals"), meals or unknown


def _bare(label: str) -> str:
    """A field's label without its unit, which stands with the number here."""
    return label.rpartition(", ")[0] or label


def drop(door: Door, request: Request, form: Form) -> Response:
    """One's own food taken out again."""
    labels.drop(door.bench.folder, request.path_params["food"])
    return back("/larder")


def larder_csv(door: Door, request: Request, form: Form) -> Response:
    """One's own larder as a file, with a decimal point or comma."""
    comma = request.query_params.get("decimal") == "comma"
    data = labels.written(door.bench.folder, decimal="," if comma else ".")
    heads = {"content-disposition": 'attachment; filename="larder.csv"'}
    return Response(data, media_type=TYPES["csv"], headers=heads)


def larder_import(door: Door, request: Request, form: Form) -> Response:
    """A larder file taken in, with all its faults if it has any."""
    sent = form.get("file", b"")
    try:
        count, dialect = labels.take_in(
            door.bench.folder, sent if isinstance(sent, bytes) else str(sent).encode()
        )
    except LarderError as error:
        return _larder(door, request, error=error)
    how = told_dialect(say("web.larder.your-file"), dialect)
    return _larder(door, request, said=say("web.larder.took", n=count, how=how))
