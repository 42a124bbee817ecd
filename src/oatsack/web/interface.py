"""The pages' JSON: what a script on this machine may ask, described by OpenAPI 3.1.

Everything here only reads. Faults come as ``{"error": ..., "faults": [...]}``.
"""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from oatsack.desk import labels
from oatsack.files.planfile import schema_text
from oatsack.larder.search import find
from oatsack.reports.words import say
from oatsack.version import VERSION
from oatsack.web.door import Door, Form, planned

MOST = 200
TEXT = {"type": "string"}
NAMES = {"type": "array", "items": TEXT}
FOOD = {
    "type": "object", "additionalProperties": False,
    "required": ["id", "name", "category", "kcal_100g", "dose_g", "pack_g", "meals"],
    "properties": {
        "id": TEXT, "name": TEXT, "category": TEXT, "kcal_100g": {"type": ["number", "null"]},
        "dose_g": {"type": "number"}, "pack_g": {"type": "number"}, "meals": NAMES,
    },
}  # fmt: skip
FAULT = {
    "type": "object", "required": ["error", "faults"], "additionalProperties": False,
    "properties": {"error": TEXT, "faults": NAMES},
}  # fmt: skip
PLACES = {
    "type": "object", "required": ["places"],
    "properties": {"places": {"type": "array", "items": {
        "type": "object", "required": ["step", "says", "figures", "moved"]}}},
}  # fmt: skip
HOURS = {
    "type": "object", "required": ["broad", "narrow", "says"],
    "properties": {"says": NAMES, "broad": {"type": "array"}, "narrow": {"type": "array"}},
}  # fmt: skip
WHY = {
    "type": "object", "required": ["address", "lines", "opens"], "additionalProperties": False,
    "properties": {"address": TEXT, "lines": NAMES, "opens": NAMES},
}  # fmt: skip
PLAN = {"type": "object",
        "required": ["format", "trip", "days", "menu", "packed", "kitchen", "totals"]}  # fmt: skip
JUDGED = {
    "type": "object", "required": ["doubts", "faults"], "additionalProperties": False,
    "properties": {
        "doubts": NAMES, "faults": {"type": "object", "additionalProperties": NAMES},
    },
}  # fmt: skip
OF_A_LABEL = ("name", "category", "pack_g", "doses", "dose_g", "per", "serving_g", "kcal", "kj",
              "protein_g", "fat_g", "carb_g", "fibre_g", "sodium_mg", "salt_g")  # fmt: skip
"""Columns of a label that are worth asking about before it is kept; the others are taken too."""
TRIPS = {"type": "object", "required": ["trips"], "properties": {"trips": NAMES}}
FOODS = {
    "type": "object", "required": ["count", "foods"],
    "properties": {"count": {"type": "integer"}, "foods": {"type": "array", "items": FOOD}},
}  # fmt: skip


def openapi(door: Door, request: Request, form: Form) -> Response:
    """The description of all of it."""
    return JSONResponse(described())


def described() -> dict[str, Any]:
    """OpenAPI 3.1, small enough to read."""
    name = _parameter("name", "path", pattern="^[a-z0-9][a-z0-9_-]{0,39}$")
    walker, at, asked = _parameter("w", required=True), _parameter("at"), _parameter("q")
    label = [_parameter(column, says="column") for column in OF_A_LABEL]
    return {
        "openapi": "3.1.0",
        "info": {"title": "Oatsack", "version": VERSION, "description": say("web.json.info")},
        "paths": {
            "/trips.json": _path("trips", TRIPS),
            "/larder.json": _path("larder", FOODS, asked),
            "/larder/label.json": _path("label", JUDGED, *label),
            "/plan.schema.json": _path("schema", {"type": "object"}),
            "/trip/{name}/plan.json": _path("plan", PLAN, name),
            "/trip/{name}/why.json": _path("why", WHY, name, at),
            "/trip/{name}/ribbon.json": _path(
                "ribbon", HOURS, name, _parameter("part"), _parameter("whole")),
            "/trip/{name}/dial.json": _path("dial", PLACES, name, walker),
        },
    }  # fmt: skip


def _parameter(
    name: str, where: str = "query", *, says: str = "", required: bool = False, **schema: str
) -> dict[str, Any]:
    about = say(f"web.json.asks-{says or name}")
    return {"name": name, "in": where, "description": about, "schema": {**TEXT, **schema},
            "required": required or where == "path"}  # fmt: skip


def _path(says: str, schema: dict[str, Any], *parameters: dict[str, Any]) -> dict[str, Any]:
    answers: dict[str, Any] = {"200": _answer("here", schema)}
    if parameters:
        answers["404"] = _answer("none", FAULT)
        answers["422"] = _answer("unreadable", FAULT)
    return {"get": {"summary": say(f"web.json.{says}"), "parameters": list(parameters),
                    "responses": answers}}  # fmt: skip


def _answer(says: str, schema: dict[str, Any]) -> dict[str, Any]:
    return {"description": say(f"web.json.{says}"),
            "content": {"application/json": {"schema": schema}}}  # fmt: skip


def trips(door: Door, request: Request, form: Form) -> Response:
    """The names of the trips."""
    return JSONResponse({"trips": list(door.bench.names())})


def larder(door: Door, request: Request, form: Form) -> Response:
    """Foods by search."""
    asked = request.query_params.get("q", "").split()
    foods = labels.every(door.bench.folder)
    found = find(foods, asked) if asked else foods
    rows = [
        {"id": f.id, "name": f.name, "category": f.category, "dose_g": f.dose_g,
         "pack_g": f.pack_g, "kcal_100g": f.per_100g.energy_kcal, "meals": sorted(f.meals)}
        for f in found[:MOST]
    ]  # fmt: skip
    return JSONResponse({"count": len(found), "foods": rows})


def schema(door: Door, request: Request, form: Form) -> Response:
    """The JSON Schema of plan.json."""
    return Response(schema_text(), media_type="application/json")


def why(door: Door, request: Request, form: Form) -> Response:
    """How a number came about, as lines, and the addresses that go into it."""
    from oatsack.desk import whys

    _, plan = planned(door, request)
    address = request.query_params.get("at", "totals/energy_kcal")
    opens = [at for _, at in whys.inputs_at(plan, address)]
    return JSONResponse({"address": address, "lines": list(whys.told(plan, address)),
                         "opens": opens})  # fmt: skip
