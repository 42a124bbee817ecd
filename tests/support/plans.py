"""Plans that several tests share, made once per run through the desk, and each one judged."""

from __future__ import annotations

import datetime as dt
import json
from functools import cache
from pathlib import Path

from judge.judge import judge
from oatsack.desk.opening import open_trip, opened
from oatsack.desk.planning import make_plan
from oatsack.files.larder import bundled
from oatsack.files.planfile import dump
from oatsack.files.trip import parse_trip
from oatsack.values.food import Food
from oatsack.values.plan import Plan

TODAY = dt.date(2026, 1, 5)
TRIPS = Path(__file__).resolve().parents[1] / "journeys" / "trips"
SHORT = """
title = "Two nights out"
from = 2026-07-03T10:00
to = 2026-07-05T15:00
zone = "Europe/Vienna"
[[walkers]]
name = "Anna"
mass = "62 kg"
sex = "female"
age = 34
height = "168 cm"
eats = "vegetarian"
avoids = [{ allergen = "peanut", scope = "pot" }]
target = "2100 kcal"
[walkers.usual]
breakfast = ["2 instant-oatmeal-maple + 1 whole-milk-powder"]
dinner = ["fd-mac-cheese", "fd-lasagna-veg"]
counts = ["2 instant-coffee a day", "1 electrolyte-tablet a bottle"]
[[walkers]]
name = "Ben"
mass = "84 kg"
[route]
usual_day = { distance = "15 km", up = "650 m" }
[kit]
containers = [{ volume = "11 l" }]
"""


def judged(plan: Plan) -> Plan:
    """The same plan, after the judge found nothing wrong with it."""
    complaints = judge(json.loads(dump(plan)))
    assert complaints == [], "\n".join(complaints[:10])
    return plan


@cache
def plan_of(text: str) -> Plan:
    """The plan of a trip's text with the bundled larder."""
    trip = parse_trip(text, "trip.toml")
    return judged(make_plan(opened(trip, bundled(), text=text), today=TODAY))


def plan_with(text: str, foods: tuple[Food, ...]) -> Plan:
    """The plan of a trip's text with other foods."""
    trip = parse_trip(text, "trip.toml")
    return judged(make_plan(opened(trip, foods, text=text), today=TODAY))


@cache
def plan_named(name: str) -> Plan:
    """The plan of one of the acceptance trips."""
    return judged(make_plan(open_trip(TRIPS / f"{name}.toml"), today=TODAY))


def short_plan() -> Plan:
    """Two walkers, two nights: small and with a bit of everything."""
    return plan_of(SHORT)
