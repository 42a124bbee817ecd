"""The reference of the models is today's, and every model on it keeps its promises."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path

from oatsack.reports.modelling import all_facts
from oatsack.reports.shelves import SHELVES, Shelf, bounds, kept_facts, models_page, record
from oatsack.values.model import Bound, Case, Model
from support.each import each

KEPT = Path(__file__).resolve().parents[2] / "docs" / "reference" / "models.md"
SOURCE = Path(__file__).resolve().parents[2] / "src" / "oatsack"


def test_the_kept_reference_is_todays() -> None:
    assert KEPT.read_text(encoding="utf-8") == models_page(), "run scripts/write_models.py"


def test_the_kept_facts_are_what_the_models_give_today() -> None:
    kept, today = all_facts(), json.loads(kept_facts())
    assert [fact["name"] for fact in kept] == [fact["name"] for fact in today]
    wrong = [
        (was["name"], key) for was, now in zip(kept, today, strict=True)
        for key in was.keys() | now.keys()
        if key != "cases" and was.get(key) != now.get(key)
    ]  # fmt: skip
    for was, now in zip(kept, today, strict=True):
        for a, b in zip(was["cases"], now["cases"], strict=True):
            close = math.isclose(a["got"], b["got"], rel_tol=1e-9)
            wrong += [] if {**a, "got": 0} == {**b, "got": 0} and close else [(was["name"], a)]
    assert wrong == [], "run scripts/write_models.py"


@each("shelf", SHELVES, ids=lambda s: s.name)
def test_every_model_of_a_shelf_stands_on_the_page_and_meets_all_its_values(shelf: Shelf) -> None:
    page = models_page()
    for model in shelf.models:
        assert f"### {model.name}" in page
        did = record(model)
        assert did.total > 0
        assert did.met == did.total
        assert did.worst <= 1.0


@each("shelf", SHELVES, ids=lambda s: s.name)
def test_the_default_stands_first(shelf: Shelf) -> None:
    assert shelf.models[0] is shelf.default


def test_every_file_of_a_shelf_is_named_in_its_list() -> None:
    """No model lies in a folder unlisted, and none is found by magic."""
    for folder, shelf in (("walker/energy", SHELVES[0]), ("route/pace", SHELVES[1])):
        files = {
            path.stem.replace("_", "-")
            for path in (SOURCE / folder).glob("*.py")
            if "MODEL = Model(" in path.read_text(encoding="utf-8")
        }
        assert files == {model.name for model in shelf.models}


def test_a_model_that_fails_would_show_on_the_page() -> None:
    bad = Model(
        name="bad", help="", function=lambda x: x, unit="W", sources=("ours",),
        validity={
            "x": Bound(low=0.0), "y": Bound(high=1.0), "z": Bound(), "w": Bound(low=1, high=1),
        },
        cases=(Case(arguments={"x": 1.0}, expected=3.0, tolerance=0.5, source="ours",
                    kind="published"),),
    )  # fmt: skip
    did = record(bad)
    assert (did.met, did.total, did.published, did.worst) == (0, 1, 1, 4.0)
    assert [words for _, words, _ in bounds(bad)] == ["from 0", "up to 1", "any", "1 only"]


def test_figures_outside_a_models_range_stand_in_brackets() -> None:
    rows = {line.split(" | ")[0][2:]: line for line in models_page().splitlines() if "| " in line}
    assert "(" in rows["acsm"]
    assert "(" not in rows["lcda-backpacking-2022"]
    assert rows["lcda-backpacking-2022"].endswith("| 283 | 247 | 356 | 734 | 1170 |")


def test_a_week_too_little_is_counted_in_three_ways() -> None:
    """The standard man of the body's check values: 0.91, 1.12 and 1.74 kg."""
    assert "| man, 35 years, 75 kg, 178 cm | 14.3 | 0.91 | 1.12 | 1.74 |" in models_page()


def test_every_work_that_the_page_names_stands_among_its_sources() -> None:
    page = models_page()
    text, sources = page.split("## Sources")
    named = set(re.findall(r"\b[A-Z][A-Za-z]+(?:19|20)\d\d[a-z]?\b", text))
    listed = set(re.findall(r"\* \*\*(\w+)\*\*", sources))
    assert named <= listed
    assert len(listed) >= 15
