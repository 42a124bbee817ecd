"""What is said of need, once and everywhere: the neutral line once (C11), the model's edge on every
surface (C7), energy availability on none."""

from __future__ import annotations

import dataclasses
import re
from functools import cache

import pytest

from oatsack.desk.whys import told as why_told
from oatsack.reports import document_of, render
from oatsack.reports.contents import CONTENTS
from oatsack.reports.telling import telling
from oatsack.values.flags import Flag
from oatsack.values.plan import Availability, Plan
from support.sample_plan import sample_plan

EDGE = "beyond what its models were measured for"
NEEDY = ("first", "plan", "need", "report")
"""Reports that show what a day uses as numbers."""
KEYS = {
    "need.outside-mass": {"model": "m", "out_min": 60.0},
    "need.outside-load": {"model": "m", "out_min": 60.0},
    "need.outside-speed": {"model": "m", "out_min": 60.0},
    "need.outside-slope": {"model": "m", "out_min": 60.0},
    "need.outside-terrain": {"model": "m", "out_min": 60.0},
    "need.frost": {"out_min": 60.0, "air_c": -10.0},
    "need.height": {"out_min": 60.0, "height_m": 3000.0},
}


def beyond(plan: Plan, key: str, walker: str) -> Plan:
    flag = Flag(key=key, level="quiet", scope=f"need/{walker}", values=KEYS[key])
    return dataclasses.replace(plan, flags=(*plan.flags, flag))


@cache
def plain(walkers: int = 2) -> Plan:
    return sample_plan(walkers=walkers)


def text(plan: Plan, content: str, fmt: str = "terminal") -> str:
    shown = render(plan, content, fmt).decode("utf-8")
    return " ".join(re.sub(r"<[^>]+>", " ", shown).split())


def walker_of(plan: Plan) -> str:
    return plan.trip.walkers[0].id


@pytest.mark.parametrize("walkers", [1, 2, 4])
def test_each_walkers_neutral_line_stands_once_in_a_document(walkers: int) -> None:
    plan = plain(walkers)
    told = {}
    for content in NEEDY:
        shown = text(plan, content)
        for walker in plan.trip.walkers:
            told[content, walker.name] = len(
                re.findall(rf"{re.escape(walker.name)}: (?:you chose|not asked|full food)", shown)
            )
    wrong = {where: n for where, n in told.items()
             if n != (0 if where[0] == "first" and walkers > 2 else 1)}  # fmt: skip
    assert wrong == {}


def test_the_flag_that_says_the_same_is_in_no_report_of_a_plan() -> None:
    plan = plain()
    values = {"share": 0.8, "n_days": 3, "low_kg": 0.5, "high_kg": 1.0, "water_low_kg": 0.2,
              "water_high_kg": 0.5, "deficit_kcal": 2000.0}  # fmt: skip
    flag = Flag(key="body.shortfall", level="quiet", scope="need/" + walker_of(plan), values=values)
    flagged = dataclasses.replace(plan, flags=(*plan.flags, flag))
    sentence = "What is planned covers"
    named = {c.name for c in CONTENTS if c.name not in ("workbook",)}
    assert sentence in telling(flagged).flag(flag)
    assert {name for name in named if sentence in str(document_of(flagged, name))} == set()


@pytest.mark.parametrize("key", sorted(KEYS))
def test_beyond_the_model_is_said_wherever_the_need_is_shown(key: str) -> None:
    plan = plain()
    flagged = beyond(plan, key, walker_of(plan))
    for content in NEEDY:
        assert EDGE not in text(plan, content), content
        for fmt in ("terminal", "html"):
            assert EDGE in text(flagged, content, fmt), (content, fmt)


def test_the_phone_says_it_too_since_its_ribbon_rests_on_the_need() -> None:
    plan = plain()
    flagged = beyond(plan, "need.outside-load", walker_of(plan))
    assert "beyond what m was measured with" in text(flagged, "phone", "html")
    assert "beyond what m was measured with" not in text(plan, "phone", "html")


def test_a_party_hears_it_on_the_first_screen() -> None:
    plan = plain(4)
    assert EDGE in text(beyond(plan, "need.outside-load", walker_of(plan)), "first")


def test_only_the_walker_concerned_is_told_of() -> None:
    plan = plain()
    first, second = plan.trip.walkers
    shown = text(beyond(plan, "need.outside-load", second.id), "need")
    before, after = shown.split(f"{second.name}: ", 1)
    assert EDGE not in before
    assert EDGE in after
    assert first.name in before


def test_the_paper_says_it() -> None:
    """The PDF sets the same document as the page does."""
    plan = plain()
    flagged = beyond(plan, "need.outside-speed", walker_of(plan))
    assert EDGE in str(document_of(flagged, "report"))


def test_why_says_it_beside_the_number() -> None:
    plan = plain()
    name = walker_of(plan)
    day = next(iter(plan.need[name]))
    flagged = beyond(plan, "need.outside-speed", name)
    for what in ("energy_kcal", "low_kcal", "high_kcal", "walking_kcal"):
        address = f"need/{name}/{day}/{what}"
        assert "beyond what m was measured at" in "\n".join(why_told(flagged, address)), what
        assert "beyond what m" not in "\n".join(why_told(plan, address)), what


def test_energy_availability_stands_in_no_report() -> None:
    """A figure nobody would meet by chance is put in, and looked for everywhere."""
    plan = plain()
    name = walker_of(plan)
    found = Availability(
        likely_kcal_kg=27.53, low_kcal_kg=21.07, high_kcal_kg=33.91, full_days=2.5,
        eaten_kcal_day=2876.0, walking_kcal_day=1073.0, walking_low_kcal_day=870.0,
        walking_high_kcal_day=1290.0, lean_kg=67.69, lean_low_kg=61.28, lean_high_kg=74.10,
    )  # fmt: skip
    row = dataclasses.replace(plan.consequence[name], availability=found)
    full = dataclasses.replace(plan, consequence={**plan.consequence, name: row})
    seen = []
    for content in CONTENTS:
        shown = str(document_of(full, content.name)).casefold()
        seen += [content.name for mark in ("availab", "27.5", "fat-free") if mark in shown]
    assert seen == []


def test_sheets_and_tables_of_the_need_carry_a_column_for_it() -> None:
    import csv
    import io

    import openpyxl

    plan = plain()
    first, second = plan.trip.walkers
    flagged = beyond(plan, "need.outside-load", second.id)
    rows = list(csv.DictReader(io.StringIO(render(flagged, "need", "csv").decode("utf-8-sig"))))
    assert {(row["walker"], row["outside_model"]) for row in rows} == {
        (first.id, "no"), (second.id, "yes"),
    }  # fmt: skip
    book = openpyxl.load_workbook(io.BytesIO(render(flagged, "workbook", "xlsx")))
    heads, *days = book["Days"].iter_rows(values_only=True)
    at = heads.index("beyond the models")
    assert {(row[0], row[at] or "") for row in days if row[0]} == {
        (first.name, ""), (second.name, "yes"),
    }  # fmt: skip
