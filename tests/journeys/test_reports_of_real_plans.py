"""Plans as the program makes them, in every report and form: nothing missing, nothing too long."""

from __future__ import annotations

import json
import re

import pytest

from oatsack.desk.papers import papers_for
from oatsack.reports import document_of, render
from oatsack.reports.contents import CONTENTS
from oatsack.reports.contents.cook_cards import made_at_meal
from oatsack.reports.document import tables_of
from oatsack.reports.formats.csv import TABLES
from oatsack.reports.telling import telling
from oatsack.values.plan import Plan
from support.plans import SHORT, plan_of

pytestmark = pytest.mark.slow

ALONE = """
title = "Three nights alone"
from = 2026-09-04T09:00
to = 2026-09-07T14:00
zone = "Europe/Vienna"
[[walkers]]
name = "Edda"
mass = "60 kg"
[route]
usual_day = { distance = "16 km", up = "700 m" }
"""
GROUP = """
title = "Five at the ford"
from = 2026-07-03T10:00
to = 2026-07-05T15:00
zone = "Europe/Vienna"
units = "us"
[route]
usual_day = { distance = "9 mi", up = "2000 ft" }
""" + "\n".join(
    f'[[walkers]]\nname = "{name}"\nmass = "{mass} lb"'
    for name, mass in (("Ada", 130), ("Bo", 180), ("Cy", 150), ("Di", 140), ("Ed", 200))
)


@pytest.fixture(scope="module", params=["alone", "two", "group"])
def plan(request: pytest.FixtureRequest) -> Plan:
    return plan_of({"alone": ALONE, "two": SHORT, "group": GROUP}[request.param])


def text(plan: Plan, content: str, width: int = 200) -> str:
    return render(plan, content, "text", width=width).decode()


def test_the_first_screen_has_at_most_30_lines_of_80_columns(plan: Plan) -> None:
    lines = text(plan, "first", 80).splitlines()
    assert len(lines) <= 30
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize("content", [c.name for c in CONTENTS])
def test_every_report_can_be_told_of_it_without_a_gap(plan: Plan, content: str) -> None:
    said = text(plan, content)
    assert said.strip()
    assert "{" not in said and " ? " not in said and "None" not in said and "nan" not in said


@pytest.mark.parametrize("content", [c.name for c in CONTENTS])
def test_every_report_has_a_page_and_data(plan: Plan, content: str) -> None:
    assert render(plan, content, "html").startswith(b"<!doctype html>")
    assert json.loads(render(plan, content, "json"))["blocks"]


def test_a_cooks_card_lists_what_is_poured_at_that_meal_and_no_more(plan: Plan) -> None:
    told, of_day = telling(plan), dict[tuple[int, str], float]()
    for meal in plan.kitchen.meals:
        poured: dict[str, float] = {}
        for step in meal.steps:
            if step.kind == "pour" and step.food:
                poured[step.food] = poured.get(step.food, 0.0) + step.water_ml
        listed: dict[str, float] = {}
        for p in made_at_meal(told, meal):
            listed[p.food] = listed.get(p.food, 0.0) + p.doses * told.food(p.food).prep.water_ml
            of_day[meal.day, p.food] = of_day.get((meal.day, p.food), 0.0) + p.doses
        wet = {food: ml for food, ml in listed.items() if ml > 0 and food in poured}
        assert wet == pytest.approx(poured), (meal.day, meal.meal)
    drunk = [p for p in plan.menu.portions if p.meal == "drinks"]
    for p in drunk:
        every = sum(q.doses for q in drunk if (q.day, q.food) == (p.day, p.food))
        assert of_day[p.day, p.food] == pytest.approx(every), p  # each once, at one meal or another


def test_its_papers_are_made(plan: Plan) -> None:
    for name in papers_for(plan, everything=True):
        assert render(plan, name, "pdf").startswith(b"%PDF")


@pytest.mark.parametrize("content", sorted(TABLES))
def test_its_tables_are_made(plan: Plan, content: str) -> None:
    assert render(plan, content, "csv").count(b"\r\n") > 1


def test_its_workbook_is_made(plan: Plan) -> None:
    assert render(plan, "workbook", "xlsx").startswith(b"PK")


def test_its_phone_page_is_below_150_kb(plan: Plan) -> None:
    assert len(render(plan, "phone", "html")) < 150_000


def test_what_is_on_the_bag_lists_is_what_is_carried(plan: Plan) -> None:
    rows = [r for x in tables_of(document_of(plan, "bags").blocks) for r in x.rows]
    net = sum(r.cells[4].value or 0.0 for r in rows if r.kind == "row")
    assert net == pytest.approx(sum(b.net_g for b in plan.packed.bags))


def test_every_flag_is_said_in_words(plan: Plan) -> None:
    told = telling(plan)
    for flag in plan.flags:
        said = told.flag(flag)
        assert not said.lower().startswith(flag.key), flag.key
        assert "?" not in said.replace("?.", ""), said


def test_units_are_those_of_the_trip(plan: Plan) -> None:
    words = set(re.sub(r"[(),;]", " ", text(plan, "plan")).split())
    if plan.trip.units == "us":
        assert not words & {"kg", "km", "ml"}
    else:
        assert not words & {"oz", "lb", "mi"}


def test_the_allergy_sheet_of_two_keeps_peanut_out_of_the_shared_pot() -> None:
    said = text(plan_of(SHORT), "allergy")
    assert "Anna must avoid peanut (not in the shared pot or on shared tools)." in said


def test_who_was_not_asked_is_told_so_on_the_first_screen() -> None:
    said = " ".join(text(plan_of(SHORT), "first").split())
    assert "Ben: the usual 85 % is planned" in said
    assert "Anna: you chose about 2,100" in said
