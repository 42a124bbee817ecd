"""Older plan files are read (C18): a real one of each format, step by step, and a frozen shape.

`snapshots/plan/example-N.json` was written by the program when N was its format;
`snapshots/plan/format-N.txt` holds every field of today's.
"""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import pytest

from oatsack.desk.whys import told
from oatsack.errors import PlanFileError
from oatsack.files import planfile, upgrades
from oatsack.files.planfile import dump, load, schema
from oatsack.files.upgrades import LIFTED, UPGRADES, from_1, from_2
from oatsack.reports import render
from oatsack.reports.contents import CONTENTS
from oatsack.reports.words import sentence
from oatsack.values.plan import FORMAT, Plan
from oatsack.why import leaves
from support.typed import drawn_plan

KEPT = Path(__file__).resolve().parents[2] / "snapshots" / "plan"


def example(number: int) -> bytes:
    return (KEPT / f"example-{number}.json").read_bytes()


def shape() -> str:
    """Every class and field of a plan file, one a line, without the sentences about them."""
    lines = []
    for name, one in schema()["$defs"].items():
        for field, told_of in one["properties"].items():
            kind = {key: value for key, value in told_of.items() if key != "description"}
            needed = "" if field in one["required"] else " (may be left out)"
            lines.append(f"{name}.{field}: {json.dumps(kind, sort_keys=True)}{needed}")
    return "\n".join(lines) + "\n"


def test_what_a_plan_holds_changes_only_with_its_format_number() -> None:
    """If this fails: raise FORMAT in values/plan.py, keep a plan of the format before as
    example-N.json, write files/upgrades/from_N.py, and run again with OATSACK_RENEW=1."""
    path = KEPT / f"format-{FORMAT}.txt"
    if os.environ.get("OATSACK_RENEW") and not path.exists():
        path.write_text(shape(), encoding="utf-8")
    assert path.exists(), f"no {path.name}"
    assert shape() == path.read_text(encoding="utf-8"), "raise FORMAT: see what this test says"


def test_every_older_format_has_its_step_and_a_real_plan() -> None:
    assert set(UPGRADES) == set(range(1, FORMAT))
    assert {int(p.stem.split("-")[1]) for p in KEPT.glob("example-*.json")} == set(UPGRADES)
    for number in UPGRADES:
        assert json.loads(example(number))["format"] == number


def test_a_real_plan_of_each_older_format_opens_and_is_written_in_todays() -> None:
    for number in UPGRADES:
        plan = load(example(number))
        assert plan.format == FORMAT
        assert load(dump(plan)) == plan
        (flag,) = [f for f in plan.flags if f.key == LIFTED]
        assert flag.values == {"number": number}
        assert sentence(f"flags.{LIFTED}")


def test_what_an_older_plan_said_it_still_says() -> None:
    for number in UPGRADES:
        before = dict(leaves(json.loads(example(number))))
        after = dict(leaves(json.loads(dump(load(example(number))))))
        lost = [a for a, value in before.items() if a != "format" and after.get(a) != value]
        assert len(before) > 1000
        assert lost == [], number


@pytest.mark.slow
def test_every_report_of_an_older_plan_can_be_made() -> None:
    for number in UPGRADES:
        plan = load(example(number))
        for content in CONTENTS:
            assert render(plan, content.name, "text"), (number, content.name)


def test_a_load_of_format_1_falls_in_a_straight_line_over_the_time_walked() -> None:
    """10 kg at the start and 8 kg at the end: after a quarter of the walking 9.5 kg, and so on."""
    walk = [{"kind": kind, "start_min": a, "end_min": b} for kind, a, b in
            (("camp", 400.0, 500.0), ("walk", 500.0, 600.0), ("rest", 600.0, 640.0),
             ("walk", 640.0, 740.0), ("sleep", 740.0, 1840.0))]  # fmt: skip
    tree = {"days": [{"number": 3, "stretches": walk}],
            "need": {"ines": {"3": {"pack_start_kg": 10.0, "pack_end_kg": 8.0}}}}  # fmt: skip
    assert from_1.upgraded(tree)["backs"] == {"ines": {"3": [10.0, 9.5, 9.0, 8.5, 8.0]}}


def test_loads_that_a_plan_of_format_1_has_already_are_kept() -> None:
    tree = {"days": [], "need": {}, "backs": {"ines": {"1": [9.0]}}}
    assert from_1.upgraded(tree) == tree


def test_a_day_without_walking_keeps_its_load() -> None:
    tree = {
        "days": [{"number": 1, "stretches": [{"kind": "camp", "start_min": 0.0, "end_min": 9.0}]}],
        "need": {"ines": {"1": {"pack_start_kg": 7.0, "pack_end_kg": 7.0}}},
    }
    assert from_1.upgraded(tree)["backs"] == {"ines": {"1": [7.0]}}


def test_steps_are_taken_one_after_the_other(monkeypatch: pytest.MonkeyPatch) -> None:
    taken = []

    def step(number: int) -> upgrades.Upgrade:
        def take(tree: dict[str, Any]) -> dict[str, Any]:
            taken.append((number, tree["format"]))
            return tree

        return take

    monkeypatch.setattr(upgrades, "UPGRADES", {n: step(n) for n in (1, 2, 3)})
    assert upgrades.lifted({"format": 2, "flags": []}, 2)["format"] == 4
    assert taken == [(2, 2), (3, 3)]


def test_a_spoilt_plan_of_an_older_format_is_refused_with_its_faults() -> None:
    tree = json.loads(example(1))
    tree["days"] = 7
    del tree["totals"]
    with pytest.raises(PlanFileError) as caught:
        load(json.dumps(tree).encode())
    assert {f.path for f in caught.value.faults} == {"days", "totals", "backs"}


def test_a_newer_plan_is_refused_with_what_to_do_about_it() -> None:
    newer = json.loads(dump(drawn_plan())) | {"format": FORMAT + 1}
    with pytest.raises(PlanFileError) as caught:
        load(json.dumps(newer).encode(), name="plan.json")
    (fault,) = caught.value.faults
    assert (fault.file, fault.path, fault.read) == ("plan.json", "format", str(FORMAT + 1))
    assert f"up to {FORMAT}" in fault.wrong
    assert fault.instead == planfile.NEWER


@pytest.fixture(scope="module")
def old() -> Plan:
    return load(example(1))


def test_why_says_where_a_number_of_an_older_plan_would_be_counted_otherwise(old: Plan) -> None:
    lines = "\n".join(told(old, "need/ines/1/walking_kcal"))
    assert "counted today it would be" in lines
    assert "older form" not in "\n".join(told(old, "totals/energy_kcal"))


def test_things_without_a_price_are_counted_from_the_list_of_format_2() -> None:
    rows = [{"packs": 1.0, "price": None}, {"packs": 2.0, "price": 4.0},
            {"packs": 0.0, "price": None}, {"packs": 3.0, "price": None}]  # fmt: skip
    tree = {"totals": {"price": 4.0}, "packed": {"buy": rows}}
    assert from_2.upgraded(tree)["totals"] == {"price": 4.0, "unpriced": 2}
    for spoilt in ({"totals": 7}, {"totals": {}, "packed": {"buy": "none"}}, {"packed": []}):
        assert from_2.upgraded(spoilt) == spoilt
