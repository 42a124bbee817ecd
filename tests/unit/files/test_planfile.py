"""plan.json: byte-stable, whole, strict, and opened without the heavy libraries."""

from __future__ import annotations

import dataclasses
import json
import random
import subprocess
import sys
from zoneinfo import ZoneInfo

import pytest

from oatsack.errors import PlanFileError
from oatsack.files.planfile import begins, dump, load
from oatsack.values.plan import FORMAT, Plan
from support.each import each
from support.typed import draw, drawn_plan


def faults(data: bytes) -> list[tuple[str, str, str]]:
    with pytest.raises(PlanFileError) as caught:
        load(data)
    assert all(fault.instead for fault in caught.value.faults)
    return [(fault.path, fault.wrong, fault.read) for fault in caught.value.faults]


def changed(**changes: object) -> bytes:
    return json.dumps(json.loads(dump(drawn_plan())) | changes).encode()


@pytest.mark.slow
@each("seed", range(40))
def test_any_plan_comes_back_and_is_written_the_same_again(seed: int) -> None:
    plan = dataclasses.replace(draw(Plan, random.Random(seed)), format=FORMAT)
    data = dump(plan)
    again = load(data)
    assert again == plan
    assert dump(again) == data


def test_a_plan_with_people_in_it_comes_back() -> None:
    plan = drawn_plan()
    assert load(dump(plan)) == plan


def test_bytes_of_todays_format_are_known_by_how_they_begin() -> None:
    data = dump(drawn_plan())
    older = data.replace(f'"format": {FORMAT},'.encode(), f'"format": {FORMAT - 1},'.encode(), 1)
    ten_times = data.replace(f'"format": {FORMAT},'.encode(), f'"format": {FORMAT}0,'.encode(), 1)
    assert begins(data)
    assert [begins(other) for other in (older, ten_times, b"", changed(), b"{}")] == [False] * 5


def test_the_trip_is_in_its_own_zone_again() -> None:
    plan = drawn_plan()
    again = load(dump(plan))
    assert again.trip.begin.tzinfo == ZoneInfo(plan.trip.zone)
    assert again.trip.begin.utcoffset() == plan.trip.begin.utcoffset()


def test_a_plan_with_a_zone_nobody_knows_still_opens() -> None:
    plan = drawn_plan()
    odd = dataclasses.replace(plan, trip=dataclasses.replace(plan.trip, zone="Moon/Crater"))
    assert load(dump(odd)) == odd


def test_each_top_level_key_stands_on_its_own_line() -> None:
    lines = dump(drawn_plan()).decode().splitlines()
    keys = [field.name for field in dataclasses.fields(Plan)]
    assert (lines[0], lines[-1]) == ("{", "}")
    assert [line.split('"')[1] for line in lines[1:-1]] == keys


def test_a_plan_that_holds_no_number_is_not_written() -> None:
    plan = drawn_plan()
    totals = dataclasses.replace(plan.totals, energy_kcal=float("nan"))
    with pytest.raises(ValueError, match="no number"):
        dump(dataclasses.replace(plan, totals=totals))


def test_what_is_not_json_is_named_with_line_and_column() -> None:
    with pytest.raises(PlanFileError) as caught:
        load(b'{\n "format": 1,\n oops }', name="old.json")
    (fault,) = caught.value.faults
    assert (fault.file, fault.wrong, fault.line, fault.column) == ("old.json", "not JSON", 3, 2)


@each(
    ("data", "wrong"),
    [
        (b"\xff\xfe", "not text in UTF-8"),
        (b"[]", "not a plan"),
        (b"[" * 200_000, "not a plan"),
        (b"{}", "no plan's format number"),
        (b'{"format": true}', "no plan's format number"),
        (b'{"format": 0}', "no plan's format number"),
    ],
)
def test_what_is_no_plan_is_refused(data: bytes, wrong: str) -> None:
    assert [found[1] for found in faults(data)] == [wrong]


def test_a_newer_format_is_refused_by_its_number() -> None:
    ((path, wrong, read),) = faults(changed(format=FORMAT + 1))
    assert (path, read) == ("format", str(FORMAT + 1))
    assert "newer" in wrong


def test_all_faults_of_a_plan_are_found_with_their_paths() -> None:
    plan = json.loads(dump(drawn_plan()))
    plan["trip"]["walkers"][0]["mass_kg"] = "68 kg"
    plan["totals"]["energy_kcal"] = True
    plan["menu"]["portions"][0]["walkr"] = "x"
    del plan["made"]["seed"]
    found = faults(json.dumps(plan).encode())
    assert sorted(found) == [
        ("made.seed", "is missing", "nothing"),
        ("menu.portions[0].walkr", "unknown key", '"walkr"'),
        ("totals.energy_kcal", "not a number", "true"),
        ("trip.walkers[0].mass_kg", "not a number", '"68 kg"'),
    ]


def test_a_plan_opens_without_the_heavy_libraries() -> None:
    code = (
        "import sys, oatsack.files.planfile; "
        "print([m for m in ('numpy', 'pydantic', 'tree_sitter', 'tomlkit') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
