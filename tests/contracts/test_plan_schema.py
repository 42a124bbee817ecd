"""The schema kept beside the documentation is today's, and plans keep to it."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from pathlib import Path

from jsonschema import Draft202012Validator

from oatsack.files.planfile import dump, schema, schema_text
from oatsack.values.plan import FORMAT, Plan
from support.each import each
from support.typed import draw, drawn_plan

KEPT = Path(__file__).resolve().parents[2] / "docs" / "reference" / "plan.schema.json"


def test_the_kept_schema_is_todays() -> None:
    assert KEPT.read_text(encoding="utf-8") == schema_text(), "run scripts/write_reference.py"


def test_the_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(schema())


@each("seed", range(10))
def test_any_plan_keeps_to_the_schema(seed: int) -> None:
    plan = replace(draw(Plan, random.Random(seed)), format=FORMAT)
    Draft202012Validator(schema()).validate(json.loads(dump(plan)))


def test_a_plan_with_people_in_it_keeps_to_the_schema() -> None:
    Draft202012Validator(schema()).validate(json.loads(dump(drawn_plan())))


@each(
    ("path", "value"),
    [
        (("format",), FORMAT + 1),
        (("totals", "energy_kcal"), "2200"),
        (("trip", "walkers", 0, "mass_kg"), None),
        (("trip", "units"), "imperial"),
        (("made", "surplus"), 1),
    ],
)
def test_a_spoilt_plan_does_not(path: tuple[str | int, ...], value: object) -> None:
    data = json.loads(dump(drawn_plan()))
    holder = data
    for step in path[:-1]:
        holder = holder[step]
    holder[path[-1]] = value
    assert not Draft202012Validator(schema()).is_valid(data)
