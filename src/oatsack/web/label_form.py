"""A food typed in from its label: faults beside their fields, doubts at once, then kept.

The fields are the columns of a larder file; `desk.labels` reads and judges what was typed.
"""

from __future__ import annotations

from collections.abc import Mapping

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from oatsack.desk import labels
from oatsack.files.larder_columns import BY_NAME, Column
from oatsack.reports.words import Voice, say, sentences
from oatsack.values.food import ALLERGENS
from oatsack.web.door import Door, Form, back
from oatsack.web.form_view import Field, Group, told
from oatsack.web.system import measures_for

PARTS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("what", ("name", "category", "role", "meals", "taste", "carry", "diet")),
    ("pack", ("pack_g", "doses", "dose_g", "dose_name", "price", "shop")),
    ("numbers", ("per", "serving_g", "kcal", "kj", "protein_g", "fat_g", "carb_g",
                 "carb_available_g", "fibre_g", "sugars_g", "sodium_mg", "salt_g", "caffeine_mg")),
    ("cooking", ("prep", "water_ml", "wait_min", "simmer_min", "needs_pot", "from_bag",
                 "cold_soak_min")),
    ("keeping", ("opened_days", "warm_days", "melts", "crushes", "wrap_g", "pack_ml",
                 "resealable", "every_day", "liking")),
)  # fmt: skip
FOLDED = ("cooking", "keeping")
NOT_ASKED = {
    "id": "made from the name, and kept", "polyols_g": "on few labels", "potassium_mg": "likewise",
    "contains": "one choice for each allergen", "may_contain": "likewise", "free_of": "likewise",
    "pouch_stands": "measured, not printed on a label", "pouch_closes": "likewise",
    "pouch_holds_ml": "likewise", "pouch_flat_ml": "likewise", "pouch_puffed_ml": "likewise",
    "home_packs": "the stock has a page of its own", "best_before": "likewise",
    "confirmed": "a tick, when there is something to doubt", "source": "a label is the source",
    "source_id": "likewise", "invented": "nothing on a label is",
}  # fmt: skip
"""Columns that the form does not ask for, and why; they stay as they are when a food is changed."""
STATES = ("unknown", "contains", "may", "free")
COLUMN_OF = {"contains": "contains", "may": "may_contain", "free": "free_of"}
SAMPLES = {
    "name": "", "pack_g": "500 g, 8 oz", "doses": "10", "dose_g": "50 g", "price": "2.50",
    "per": "100 g, serving, pack", "serving_g": "40 g, 1 oz", "kcal": "380", "kj": "1590",
    "water_ml": "240 ml, 1 cup", "wait_min": "5", "opened_days": "3", "wrap_g": "6 g",
}  # fmt: skip


def label(door: Door, request: Request, form: Form) -> Response:
    """A blank form, or one filled with a food of the larder (``?food=``)."""
    asked = request.query_params.get("food")
    given = labels.row_of(labels.food_of(door.bench.folder, asked)) if asked else {}
    return _page(door, request, given)


def put_label(door: Door, request: Request, form: Form) -> Response:
    """Judged; kept when there is nothing to doubt, or when its owner has looked again."""
    given = _given(door, form)
    found = labels.judged(given)
    sure = not found.doubts or form.get("confirmed") == "yes"
    if found.food is None or not sure or form.get("wish") == "check":
        return _page(door, request, given, found, 200 if found.food and sure else 422)
    labels.keep(door.bench.folder, [found.food])
    return back(f"/larder/food/{found.food.id}")


def judge(door: Door, request: Request, form: Form) -> Response:
    """What is wrong or doubtful with a label as far as it is typed; nothing is kept."""
    found = labels.so_far({k: v for k, v in request.query_params.items() if k in BY_NAME})
    name = request.query_params.get("name", "").strip() or say("web.label.this")
    voice = Voice(measures=measures_for(request), foods={found.food.id: name} if found.food else {})
    return JSONResponse({
        "doubts": list(found.says(voice)),
        "faults": {name: list(dict.fromkeys(told(fault) for fault in several))
                   for name, several in found.beside().items()},
    })  # fmt: skip


def _given(door: Door, form: Form) -> dict[str, str]:
    """What was typed by column; allergens gathered into the columns of the file.

    For a food that there is, it stands over that food's row: what no field asks for stays.
    """
    out = {key: str(form[key]) for key in BY_NAME if isinstance(form.get(key), str)}
    out |= {"meals": " ".join(str(one) for one in form.get("meals[]", ()))}
    for state, column in COLUMN_OF.items():
        named = [a for a in ALLERGENS if form.get(f"allergen.{a}") == state]
        out[column] = " ".join(named)
    if not out.get("id"):
        return out
    return labels.changed(labels.food_of(door.bench.folder, out["id"]), out)


def _page(
    door: Door, request: Request, given: Mapping[str, str], found: labels.Judged | None = None,
    status: int = 200,
) -> Response:  # fmt: skip
    shown = found or labels.Judged()
    voice = Voice(measures=measures_for(request), foods=_names(shown))
    parts = [_group(title, names, given, shown) for title, names in PARTS]
    parts.insert(3, _allergens(given))
    known = [one for part in parts for one in part.fields]
    return door.page(
        request, "label.html", status=status, groups=parts, doubts=shown.says(voice),
        faulty=[one for one in known if one.faults], checked=found is not None,
        loose=_loose(shown, known), id=given.get("id", ""),
    )  # fmt: skip


def _names(shown: labels.Judged) -> dict[str, str]:
    return {shown.food.id: shown.food.name} if shown.food else {}


def _loose(shown: labels.Judged, known: list[Field]) -> list[str]:
    names = {one.name for one in known}
    return [f"{name}: {told(fault)}" for name, several in shown.beside().items()
            if name not in names for fault in several]  # fmt: skip


def _group(
    title: str, names: tuple[str, ...], given: Mapping[str, str], shown: labels.Judged
) -> Group:
    hint = f"web.label.{title}-hint"
    return Group(
        title=say(f"web.label.{title}"), hint=say(hint) if hint in sentences() else "",
        fields=tuple(_field(BY_NAME[name], given, shown) for name in names),
        folded=title in FOLDED,
    )  # fmt: skip


def _field(column: Column, given: Mapping[str, str], shown: labels.Judged) -> Field:
    faults = tuple(dict.fromkeys(told(fault) for fault in shown.beside().get(column.name, ())))
    sort, options = "text", _options(column)
    if options:
        sort = "checks" if column.kind == "words" else "select"
    return Field(
        name=column.name, label=_label(column.name), hint=_hint(column),
        value=given.get(column.name, ""), sort=sort, options=options, faults=faults,
        needed=column.required,
    )  # fmt: skip


def _hint(column: Column) -> str:
    """What a column is, where its label does not say all of it, with an example."""
    key = f"web.label.about.{column.name}"  # where a file's word for it says too much
    about = say(key) if key in sentences() else column.about.strip()
    parts = [] if about.rstrip(".").casefold() in _label(column.name).casefold() else [about]
    sample = SAMPLES.get(column.name, "")
    return " ".join(parts + [say("web.form.example", example=sample)] * bool(sample))


def _options(column: Column) -> tuple[tuple[str, str], ...]:
    if column.kind == "yes":
        return (("", ""), ("yes", say("web.form.yes")), ("no", say("web.form.no")))
    blank = () if column.kind == "words" else (("", ""),)
    return (*blank, *((word, _word(word)) for word in column.known)) if column.known else ()


def _word(word: str) -> str:
    return say(f"meals.{word}") if f"meals.{word}" in sentences() else word.replace("_", " ")


def _label(name: str) -> str:
    key = f"web.label.key.{name}"
    return say(key) if key in sentences() else name.replace("_", " ").capitalize()


def _allergens(given: Mapping[str, str]) -> Group:
    """One choice for each allergen: not known unless the label says so (C10)."""
    states = {name: state for state, column in COLUMN_OF.items()
              for name in given.get(column, "").split()}  # fmt: skip
    options = tuple((state, say(f"web.label.state-{state}")) for state in STATES)
    fields = tuple(
        Field(name=f"allergen.{name}", label=say(f"allergen.{name}").capitalize(), hint="",
              value=states.get(name, "unknown"), sort="select", options=options)
        for name in ALLERGENS
    )  # fmt: skip
    return Group(title=say("web.label.allergens"), hint=say("web.label.allergens-hint"),
                 fields=fields)  # fmt: skip
