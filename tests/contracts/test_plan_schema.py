"""The schema kept beside the documentation is today's, and plans keep to it."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from oatsack.files.planfile import dump, schema, schema_text
from oatsack.values.plan import FORMAT, Plan
from support.amount import some
from support.each import each
from support.typed import draw, drawn_plan

KEPT = Path(__file__).resolve().parents[2] / "docs" / "reference" / "plan.schema.json"


@cache
def validator() -> Draft202012Validator:
    return Draft202012Validator(schema())


def test_the_kept_schema_is_todays() -> None:
    assert KEPT.read_text(encoding="utf-8") == schema_text(), "run scripts/write_reference.py"


@pytest.mark.slow
def test_the_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(schema())


@each("seed", some(range(10)))
def test_any_plan_keeps_to_the_schema(seed: int) -> None:
    plan = replace(draw(Plan, random.Random(seed)), format=FORMAT)
    validator().validate(json.loads(dump(plan)))


def test_a_plan_with_people_in_it_keeps_to_the_schema() -> None:
    validator().validate(json.loads(dump(drawn_plan())))


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
    assert not validator().is_valid(data)
