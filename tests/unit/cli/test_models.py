"""`models` lists every model of every shelf, and shows each check value beside what it gives."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from oatsack.cli.main import run
from oatsack.errors import UsageError
from oatsack.reports.document import tables_of
from oatsack.reports.modelling import all_facts, every, named, one
from oatsack.reports.shelves import SHELVES
from support.each import each

MODELS = [model for shelf in SHELVES for model in shelf.models]


def test_every_model_stands_in_the_list_and_one_default_a_shelf() -> None:
    tables = tables_of(every().blocks)
    assert len(tables) == len(SHELVES)
    for shelf, table in zip(SHELVES, tables, strict=True):
        names = [line.cells[0].text for line in table.rows]
        assert len(names) == len(shelf.models)
        assert [n for n in names if n.endswith("(default)")] == [f"{shelf.default.name} (default)"]


@each("model", MODELS, ids=lambda m: m.name)
def test_a_model_shows_each_of_its_check_values_as_met(model: object) -> None:
    name = getattr(model, "name", "")
    (table,) = tables_of(one(name).blocks)
    assert len(table.rows) == len(named(name)["cases"])
    for line in table.rows:
        _, expected, got, within, met, stands = line.cells
        assert met.text == "met"
        assert stands.text
        assert expected.value is not None
        assert got.value is not None
        assert within.value is not None
        assert abs(got.value - expected.value) <= within.value


def test_the_facts_hold_sources_ranges_and_cases() -> None:
    found = named("Pandolf-1977")
    assert found["shelf"] == "walking cost"
    assert not found["default"]
    assert "load_kg" in found["validity"]
    assert all(case["met"] for case in found["cases"])
    assert len(all_facts()) == len(MODELS)


def test_a_wrong_name_is_answered_with_the_right_ones() -> None:
    with pytest.raises(UsageError, match="pandolf-1977"):
        named("pandolff")


def test_showing_the_shelf_loads_no_model() -> None:
    code = (
        "import sys; from oatsack.cli.main import run; run(['models', 'pandolf-1977']); "
        "print([m for m in ('numpy', 'oatsack.walker', 'oatsack.route') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def test_the_verb_prints_a_screen_and_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["models"]) == 0
    assert "tobler" in capsys.readouterr().out
    assert run(["models", "tobler", "--json"]) == 0
    assert [m["name"] for m in json.loads(capsys.readouterr().out)] == ["tobler"]
    assert run(["models", "nobody"]) == 2
